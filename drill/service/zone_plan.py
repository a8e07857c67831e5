"""Plan the sections of a head: their decisions, their tools out of one kit, their papers."""

from collections.abc import Mapping
from dataclasses import dataclass

from drill.service.head import Head
from drill.service.partial import LEFT_OUT, ROLE, tools_wanted, wound_zones
from drill.service.stock import Need, Share, share_out
from drill.service.zones import ZONE_NAMES

ZONE_DECISIONS = (
    ROLE,
    "layout",
    "parting",
    "base_direction",
    "roll_direction",
    "base_control",
    "base_size",
    "wrap",
    "spiral_start",
    "tool.shape",
    "tool.size",
    "papers",
    "cushion_paper",
    "pull",
    "band",
)
PAPERS_PER_TOOL = {"bookend": 1, "double_flat": 2, "single_flat": 1, "none": 0}
NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class ZonePlan:
    """One zone of a plan; values as the vocabulary has them.

    Attributes:
        decisions: Outcome by decision; ``none`` where the zone is left out.
        shape: Shape of the tool taken out of the kit; ``none`` where the zone is left out.
        diameter_mm: The zone's main tool, at the waist; 0 where the zone is left out.
        tools: Sizes and counts; none where the zone is left out.
        turns: Turns of the longest strands.
        turns_shortest: Turns of the shortest strands; the same where nobody measured them.
        curl_ends_mm: Finished curl at the ends, on the day.
        curl_scalp_mm: Finished curl at the scalp end, on the day.
        gap_mm: Hair at the scalp that stays uncurled.
        papers_count: End papers for the zone, those between layers among them.
    """

    decisions: Mapping[str, str]
    shape: str
    diameter_mm: float
    tools: tuple[Share, ...]
    turns: float
    turns_shortest: float
    curl_ends_mm: float
    curl_scalp_mm: float
    gap_mm: float
    papers_count: int

    @property
    def role(self) -> str:
        """``wound``, ``border`` or ``left_out``."""
        return self.decisions[ROLE]


def plan_zones(head: Head) -> tuple[dict[str, ZonePlan], int]:
    """Plan all nine zones.

    Args:
        head: A head whose service works.

    Returns:
        The zones in the order of the head, and how many tools the kit lacks in all.

    Source:
        The tables named in :data:`ZONE_DECISIONS`; :func:`drill.service.stock.share_out`.
    """
    wound = wound_zones(head)
    needs = {zone: Need(head.winding(zone).tool, tools_wanted(head, zone)) for zone in wound}
    shares, lacking = share_out(head.consultation.kit, needs, fill_ins=head.fill_ins)
    zones = {
        zone: _plan_zone(head, zone, shares[zone]) if zone in wound else _left_out() for zone in ZONE_NAMES
    }
    return zones, lacking


def _plan_zone(head: Head, zone: str, shares: tuple[Share, ...]) -> ZonePlan:
    winding = head.winding(zone)
    decisions = {name: str(head.decide(name, zone).value) for name in ZONE_DECISIONS}
    papers = PAPERS_PER_TOOL[head.rulebook.built_in("papers", decisions["papers"])]
    papers += head.rulebook.built_in("cushion_paper", decisions["cushion_paper"]) == "yes"
    return ZonePlan(
        decisions=decisions,
        shape=winding.tool.shape,
        diameter_mm=winding.tool.diameter_mm,
        tools=shares,
        turns=round(winding.turns, 2),
        turns_shortest=round(winding.turns_shortest, 2),
        curl_ends_mm=round(winding.curl_ends_mm, 1),
        curl_scalp_mm=round(winding.curl_scalp_mm, 1),
        gap_mm=round(winding.gap_mm, 1),
        papers_count=papers * sum(share.count for share in shares),
    )


def _left_out() -> ZonePlan:
    return ZonePlan(
        decisions={**dict.fromkeys(ZONE_DECISIONS, NONE), ROLE: LEFT_OUT},
        shape=NONE,
        diameter_mm=0.0,
        tools=(),
        turns=0.0,
        turns_shortest=0.0,
        curl_ends_mm=0.0,
        curl_scalp_mm=0.0,
        gap_mm=0.0,
        papers_count=0,
    )
