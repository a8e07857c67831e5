"""Plan a service: every decision with its reason, in one value.

A plan is a proposal, never permission: the licensed practitioner, the maker's directions and the law decide.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from drill.basis.words import say
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.ask_first import Missing, ask_first
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER, Head
from drill.service.stock import Need, Share, share_out
from drill.service.test_curls import TestCurls, plan_test_curls
from drill.service.zones import ZONE_NAMES, zone_label

WORKING = ("go", "test_first")
HEAD_DECISIONS = (
    "waving_lotion.class",
    "waving_lotion.strength",
    "waving_lotion.ester",
    "waving_lotion.heat",
)
ZONE_DECISIONS = (
    "layout",
    "base_direction",
    "roll_direction",
    "base_control",
    "base_size",
    "wrap",
    "tool.shape",
    "tool.size",
    "papers",
)
# The instructor's five stops among the steps.
SIGN_OFFS = {
    "sign_consultation": "consultation",
    "sign_wrap": "wrap",
    "sign_saturation": "saturation",
    "sign_test_curl": "test_curl",
    "sign_take_down": "before_take_down",
}
PAPERS_PER_TOOL = {"bookend": 1, "double_flat": 2, "single_flat": 1, "none": 0}
_WET_PHASES = ("timing.before_minutes", "timing.take_down_minutes", "timing.finish_minutes")
_PHASES = {
    "perm": (
        *_WET_PHASES,
        "timing.saturation_minutes",
        "timing.processing_minutes",
        "processing.rinse_minutes",
        "processing.blot_minutes",
        "processing.neutraliser_minutes",
    ),
    "wet_set": (*_WET_PHASES, "timing.dry_minutes"),
    "practice_wrap": (),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ZonePlan:
    """One zone of a plan; values as the vocabulary has them.

    Attributes:
        decisions: Outcome by decision.
        shape: Shape of the tool taken out of the kit.
        diameter_mm: The zone's main tool, at the waist.
        tools: Sizes and counts.
        turns: Turns of the strand.
        curl_ends_mm: Finished curl at the ends, on the day.
        curl_scalp_mm: Finished curl at the scalp end, on the day.
        gap_mm: Hair at the scalp that stays uncurled.
        papers_count: End papers for the zone.
    """

    decisions: Mapping[str, str]
    shape: str
    diameter_mm: float
    tools: tuple[Share, ...]
    turns: float
    curl_ends_mm: float
    curl_scalp_mm: float
    gap_mm: float
    papers_count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """Sums over the head.

    Attributes:
        tools: Tools in all.
        papers: End papers in all, spare ones among them.
        minutes: Minutes in the chair at a learner's pace; 0 for a service that is not done.
    """

    tools: int
    papers: int
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A planned service.

    Attributes:
        consultation: What it was planned for.
        rulebook: Digest of the rules.
        verdict: Whether it is done.
        verdict_reasons: The rows that gave it, strictest first.
        ask_first: Facts to get, the most deciding first.
        tests: Tests in the order to be done.
        instead: What to do in place of a service that is not done.
        first_aid: What to know before any step.
        zones: The nine zones of a plan that works, else none.
        lotion: ``class``, ``strength``, ``ester``, ``heat``.
        test_curls: Preliminary test curls.
        steps: In order; of a plan that does not work, none.
        cautions: Always there where lotion is planned.
        notes: What the plan had to settle: growth against wear, tools that run short, time.
        totals: Sums.
        trace: Every decision with its row.
    """

    consultation: Consultation
    rulebook: str
    verdict: str
    verdict_reasons: tuple[Row, ...]
    ask_first: tuple[Missing, ...]
    tests: tuple[Row, ...]
    instead: tuple[Row, ...]
    first_aid: tuple[Row, ...]
    zones: Mapping[str, ZonePlan]
    lotion: Mapping[str, str]
    test_curls: TestCurls
    steps: tuple[Row, ...]
    cautions: tuple[Row, ...]
    notes: tuple[str, ...]
    totals: Totals
    trace: tuple[Decision, ...]


def plan_service(
    rulebook: Rulebook, consultation: Consultation, *, facts: Mapping[str, Fact] = FACTS
) -> Plan:
    """Plan a service.

    Args:
        rulebook: The rules in force, proved.
        consultation: What is known of the head.
        facts: Computed facts by name.

    Returns:
        The plan; one whose verdict is neither ``go`` nor ``test_first`` has no zones and no working steps.

    Source:
        The rulebook's rows, each with its own.
    """
    head = Head(rulebook, consultation, facts=facts)
    verdict = head.decide("verdict")
    works = verdict.value in WORKING
    zones, lacking = _plan_zones(head) if works else ({}, 0)
    steps = head.evaluation.collected("steps") if works else ()
    totals = _totals(head, zones)
    inputs = {name: head.evaluation.read(name) for name in rulebook.domains if _is_head(rulebook, name)}
    curls = plan_test_curls(head, steps)
    plan = Plan(
        consultation=consultation,
        rulebook=rulebook.digest,
        verdict=str(verdict.value),
        verdict_reasons=_reasons(head, verdict),
        ask_first=ask_first(rulebook, inputs, facts=facts),
        tests=head.evaluation.collected("tests"),
        instead=head.evaluation.collected("instead"),
        first_aid=head.evaluation.collected("first_aid"),
        zones=zones,
        lotion={name.partition(".")[2]: str(head.decide(name).value) for name in HEAD_DECISIONS},
        test_curls=curls,
        steps=steps,
        cautions=head.evaluation.collected("cautions"),
        notes=_notes(head, zones, totals, lacking),
        totals=totals,
        trace=(),
    )
    return _with_trace(plan, head)


def _is_head(rulebook: Rulebook, name: str) -> bool:
    return rulebook.domains[name].per == "head"


def _reasons(head: Head, verdict: Decision) -> tuple[Row, ...]:
    """Order the rows that held by strictness, and leave out what a stricter one makes idle talk."""
    table = head.rulebook.tables["verdict"]
    mildest = table.gives[0]
    held = [row for row in verdict.rows if row.then != mildest] or list(verdict.rows)
    return tuple(sorted(held, key=lambda row: -table.strictness(row.then)))


def _plan_zones(head: Head) -> tuple[dict[str, ZonePlan], int]:
    needs = {zone: Need(head.winding(zone).tool, _tools_needed(head, zone)) for zone in ZONE_NAMES}
    shares, lacking = share_out(head.consultation.kit, needs)
    return {zone: _plan_zone(head, zone, shares[zone]) for zone in ZONE_NAMES}, lacking


def _tools_needed(head: Head, zone: str) -> int:
    count = head.winding(zone).count
    doubled = head.rulebook.built_in("wrap", str(head.decide("wrap", zone).value)) == "double_tool"
    return 2 * count if doubled else count


def _plan_zone(head: Head, zone: str, shares: tuple[Share, ...]) -> ZonePlan:
    winding = head.winding(zone)
    decisions = {name: str(head.decide(name, zone).value) for name in ZONE_DECISIONS}
    papers = PAPERS_PER_TOOL[head.rulebook.built_in("papers", decisions["papers"])]
    return ZonePlan(
        decisions=decisions,
        shape=winding.tool.shape,
        diameter_mm=winding.tool.diameter_mm,
        tools=shares,
        turns=round(winding.turns, 2),
        curl_ends_mm=round(winding.curl_ends_mm, 1),
        curl_scalp_mm=round(winding.curl_scalp_mm, 1),
        gap_mm=round(winding.gap_mm, 1),
        papers_count=papers * sum(share.count for share in shares),
    )


def _totals(head: Head, zones: Mapping[str, ZonePlan]) -> Totals:
    tools = sum(share.count for zone in zones.values() for share in zone.tools)
    papers = sum(zone.papers_count for zone in zones.values())
    if not zones:
        return Totals(tools=0, papers=0, minutes=0)
    spare = float(head.rulebook.values["papers.spare_share"])
    return Totals(tools=tools, papers=round(papers * (1 + spare)), minutes=round(_minutes(head, tools)))


def _minutes(head: Head, tools: int) -> float:
    """Add up the phases of a service at a learner's pace."""
    values = head.rulebook.values
    phases = list(_PHASES[str(head.consultation.of("service"))])
    if head.decide("verdict").value == "test_first":
        phases.append("timing.test_curls_minutes")
    winding = tools * float(values["timing.beginner_seconds"]) / 60
    return winding + sum(float(values[phase]) for phase in phases)


def _notes(head: Head, zones: Mapping[str, ZonePlan], totals: Totals, lacking: int) -> tuple[str, ...]:
    notes = []
    if zones:
        against = [zone for zone in ZONE_NAMES if head.zone(zone).read("wear_against_growth") == "yes"]
        if against:
            notes.append(
                say("Growth wins over the wish in: {zones}. Tell the client why.", zones=_zone_words(against))
            )
    if lacking:
        notes.append(say("The kit lacks {count} tools for this head.", count=lacking))
    free = head.consultation.of("appointment")
    if isinstance(free, float) and totals.minutes > free:
        notes.append(
            say(
                "The chair is free for {free} minutes; this takes about {needed}. Book a longer time.",
                free=f"{free:g}",
                needed=totals.minutes,
            )
        )
    return tuple(notes)


def _zone_words(zones: list[str]) -> str:
    return ", ".join(map(zone_label, zones))


def _with_trace(plan: Plan, head: Head) -> Plan:
    trace = list(head.evaluation.decisions.values())
    for zone in plan.zones:
        trace += head.zone(zone).decisions.values()
        trace += [head.decide(name, zone) for name in (TOOL_DIAMETER, *COMPUTED_FIGURES)]
    return replace(plan, trace=tuple(trace))
