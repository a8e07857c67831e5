"""A plan's sections with the tools that it has counted, laid out to be drawn."""

import math
from collections.abc import Collection, Mapping
from dataclasses import replace

from drill.rulebook.rulebook import Rulebook
from drill.service.direction import DIRECTIONS
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD, HeadModel
from drill.service.laid_zone import LaidZone
from drill.service.layout_rows import LAYOUTS, Base, lay_out, lay_out_count, tools_laid
from drill.service.plan import Plan, ZonePlan
from drill.service.zones import ZONE_NAMES

# What can be drawn of a decision; a value that is none of these is drawn as the first.
_DRAWN = {
    "layout": LAYOUTS,
    "base_direction": ("horizontal", "vertical", "diagonal"),
    "roll_direction": ("down", *DIRECTIONS),
    "wrap": ("croquignole", "spiral", "double_tool"),
    "parting": ("straight", "woven"),
    "part.role": ("wound", "border"),
}


def head_of(plan: Plan) -> HeadModel:
    """Give the model head that a plan is wound on.

    Args:
        plan: The plan.

    Returns:
        The practice head for a practice wrap, else the live one.

    Source:
        common practice.
    """
    return PRACTICE_HEAD if plan.consultation.of("service") == "practice_wrap" else LIVE_HEAD


def lay_out_plan(plan: Plan, *, rulebook: Rulebook | None = None) -> dict[str, LaidZone]:
    """Lay out the tools that a plan has counted.

    Args:
        plan: A plan; one that does not work lays out nothing.
        rulebook: The rules that it was planned under; they tell what a value of a local rule counts as.
            Without them such a value is drawn as the commonest one.

    Returns:
        The sections by name, in their own order.

    Source:
        The plan's counts, :mod:`drill.service.layout_rows`.
    """
    kit = plan.consultation.kit
    lengths = {(tool.shape, tool.diameter_mm): tool.length_mm for tool in reversed(kit.tools)}
    drawer = _Drawer(head_of(plan), rulebook, lengths)
    taken = {name: zone for name in ZONE_NAMES if (zone := plan.zones.get(name)) is not None and zone.tools}
    middle = {name: zone for name, zone in taken.items() if not drawer.is_border(zone)}
    laid = {name: drawer.fill(name, zone) for name, zone in middle.items()}
    depths = [base.depth_mm for one in laid.values() for base in one.bases]
    for name, zone in taken.items():
        if name not in middle:
            depth = sum(depths) / len(depths) if depths else 2 * zone.diameter_mm
            laid[name] = drawer.edge(name, zone, depth_mm=depth, at_end=_ends_at_the_middle(name, middle))
    return {name: laid[name] for name in taken}


def _ends_at_the_middle(zone: str, middle: Collection[str]) -> bool:
    """Tell at which end of its row a section at the border meets the part that is wound."""
    if zone == "top":
        return True  # its row runs from the front back to the crown
    below = zone.replace("back", "nape")
    return zone.startswith("back") and below in middle and "top" not in middle


class _Drawer:
    """Lays sections out as they can be drawn.

    Args:
        head: The head that they lie on.
        rulebook: Tells what values of local rules count as; None where it is not at hand.
        lengths: Length of a tool by its shape and diameter, as far as the kit has it.
    """

    def __init__(
        self, head: HeadModel, rulebook: Rulebook | None, lengths: Mapping[tuple[str, float], float]
    ) -> None:
        self._head, self._rulebook, self._lengths = head, rulebook, lengths

    def is_border(self, zone: ZonePlan) -> bool:
        return self._drawn(zone, "part.role") == "border"

    def fill(self, name: str, zone: ZonePlan) -> LaidZone:
        bases = lay_out_count(
            name,
            self._drawn(zone, "layout"),
            count=self._strands(zone),
            tool_mm=zone.diameter_mm,
            tool_length_mm=self._length_mm(zone),
            head=self._head,
        )
        return self._laid(name, zone, bases)

    def edge(self, name: str, zone: ZonePlan, *, depth_mm: float, at_end: bool) -> LaidZone:
        """Lay a few tools out beside the part that is wound, on bases as deep as there."""
        bases = lay_out(
            name,
            self._drawn(zone, "layout"),
            tool_mm=min(zone.diameter_mm, depth_mm),
            wound_rim_mm=depth_mm,
            tool_length_mm=self._length_mm(zone),
            head=self._head,
        )
        ordered = bases[::-1] if at_end else bases
        few = next(
            (
                ordered[:at]
                for at in range(1, len(ordered))
                if tools_laid(ordered[:at]) >= self._strands(zone)
            ),
            ordered,
        )
        return self._laid(name, zone, few)

    def _laid(self, name: str, zone: ZonePlan, bases: tuple[Base, ...]) -> LaidZone:
        if self._drawn(zone, "parting") == "woven":
            bases = tuple(replace(base, woven=True) for base in bases)
        return LaidZone(
            zone=name,
            bases=bases,
            base_direction=self._drawn(zone, "base_direction"),
            roll_direction=self._drawn(zone, "roll_direction"),
            tools=sum(share.count for share in zone.tools),
            stacked=self._is_stacked(zone),
            head=self._head,
        )

    def _strands(self, zone: ZonePlan) -> int:
        tools = sum(share.count for share in zone.tools)
        return max(1, math.ceil(tools / 2) if self._is_stacked(zone) else tools)

    def _is_stacked(self, zone: ZonePlan) -> bool:
        return self._drawn(zone, "wrap") == "double_tool"

    def _length_mm(self, zone: ZonePlan) -> float | None:
        return self._lengths.get((zone.shape, zone.diameter_mm))

    def _drawn(self, zone: ZonePlan, decision: str) -> str:
        value = zone.decisions[decision]
        if self._rulebook is not None:
            value = self._rulebook.built_in(decision, value)
        return value if value in _DRAWN[decision] else _DRAWN[decision][0]
