"""A plan's sections with the tools that it has counted, laid out to be drawn."""

import math

from drill.rulebook.rulebook import Rulebook
from drill.service.direction import DIRECTIONS
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD, HeadModel
from drill.service.laid_zone import LaidZone
from drill.service.layout_rows import LAYOUTS, lay_out_count
from drill.service.plan import Plan, ZonePlan
from drill.service.zones import ZONE_NAMES

# What can be drawn of a decision; a value that is none of these is drawn as the first.
_DRAWN = {
    "layout": LAYOUTS,
    "base_direction": ("horizontal", "vertical", "diagonal"),
    "roll_direction": ("down", *DIRECTIONS),
    "wrap": ("croquignole", "spiral", "double_tool"),
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
    lengths = {
        (tool.shape, tool.diameter_mm): tool.length_mm for tool in reversed(plan.consultation.kit.tools)
    }
    laid = {}
    for name in ZONE_NAMES:
        zone = plan.zones.get(name)
        if zone is not None:
            drawn = {decision: _drawn(zone, decision, rulebook) for decision in _DRAWN}
            length = lengths.get((zone.shape, zone.diameter_mm))
            laid[name] = _lay_out_zone(name, zone, drawn=drawn, tool_length_mm=length, head=head_of(plan))
    return laid


def _drawn(zone: ZonePlan, decision: str, rulebook: Rulebook | None) -> str:
    value = zone.decisions[decision]
    if rulebook is not None:
        value = rulebook.built_in(decision, value)
    return value if value in _DRAWN[decision] else _DRAWN[decision][0]


def _lay_out_zone(
    name: str, zone: ZonePlan, *, drawn: dict[str, str], tool_length_mm: float | None, head: HeadModel
) -> LaidZone:
    tools = sum(share.count for share in zone.tools)
    stacked = drawn["wrap"] == "double_tool"
    bases = lay_out_count(
        name,
        drawn["layout"],
        count=max(1, math.ceil(tools / 2) if stacked else tools),
        tool_mm=zone.diameter_mm,
        tool_length_mm=tool_length_mm,
        head=head,
    )
    return LaidZone(
        zone=name,
        bases=bases,
        base_direction=drawn["base_direction"],
        roll_direction=drawn["roll_direction"],
        tools=tools,
        stacked=stacked,
        head=head,
    )
