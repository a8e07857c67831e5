"""What a student holds, drawn as a wrap: so many of the head's tools are wound as decisions hold.

The places of the tools say nothing of a topic; they fill from the front to the nape, as a head fills with
tools. A wound tool is a decision that holds; one that loosens has slid and shows its loose end; what was
never asked is a parted base without a tool.
"""

from collections.abc import Mapping
from itertools import chain
from typing import TYPE_CHECKING

from drill.basis.words import say
from drill.service.head_map import head_map
from drill.service.shapes import Figure, Point, Polygon, Polyline, Shape
from drill.service.zones import ZONES, Zone, point_on_map

if TYPE_CHECKING:
    # The first screen is drawn from here, before the model of memory is loaded.
    from drill.memory.recall import HoldingState

STATES: "tuple[HoldingState, ...]" = ("holding", "loosening", "not_wound")
# As a head is wrapped here: down the middle from the front, then the sides and the back, the nape last.
_ORDER = (
    "top", "back_center", "left_side", "right_side", "back_left", "back_right",
    "nape_center", "nape_left", "nape_right",
)  # fmt: skip
TOOLS_IN_ZONE = 6
PLACES = TOOLS_IN_ZONE * len(_ORDER)
_WOUND_MM = 7.6
_TOOL_MM = 4.4
_LOOSE_MM = 4.6
_EMPTY_MM = 1.1
_SLID = 0.13
_SWATCH = (34.0, 14.0)


def share_places(counts: "Mapping[HoldingState, int]", *, places: int = PLACES) -> "dict[HoldingState, int]":
    """Share the places of the drawn tools out among the states.

    Args:
        counts: Decisions by state.
        places: Places to share out.

    Returns:
        Places by state, together all of them: in proportion, largest remainders first, but at least one for
        a state that has a decision; all not wound where there is no decision at all.
    """
    total = sum(counts.get(state, 0) for state in STATES)
    if not total:
        return {"holding": 0, "loosening": 0, "not_wound": places}
    exact = {state: counts.get(state, 0) * places / total for state in STATES}
    shared = {state: max(int(exact[state]), 1 if counts.get(state) else 0) for state in STATES}
    while (left := places - sum(shared.values())) != 0:
        step = 1 if left > 0 else -1
        # A state that was raised to its one place keeps it.
        able = [one for one in STATES if step > 0 or shared[one] > 1]
        shared[max(able, key=lambda one: step * (exact[one] - shared[one]))] += step
    return shared


def progress_figure(counts: "Mapping[HoldingState, int]") -> Figure:
    """Draw how much of the head is wound.

    Args:
        counts: Decisions by state.

    Returns:
        The nine-section head with its tools.
    """
    shared = share_places(counts)
    states = chain.from_iterable([state] * shared[state] for state in STATES)
    zones = {zone.name: zone for zone in ZONES}
    bare = head_map()
    shapes: list[Shape] = list(bare.shapes)
    for name in _ORDER:
        for index in range(TOOLS_IN_ZONE):
            shapes += _tool(_row(zones[name], index), next(states))
    return Figure(
        bare.width_mm,
        bare.height_mm,
        tuple(shapes),
        title=say("How the wrap holds"),
        description=" ".join(state_words(state, counts.get(state, 0)) for state in STATES),
    )


def swatch(state: "HoldingState") -> Figure:
    """Draw one tool of a state, for the legend."""
    width_mm, height_mm = _SWATCH
    path = tuple((3 + (width_mm - 6) * step / 12, height_mm / 2) for step in range(13))
    ground = Polygon(((0, 0), (width_mm, 0), (width_mm, height_mm), (0, height_mm)), "scalp")
    return Figure(
        width_mm,
        height_mm,
        (ground, *_tool(path, state)),
        title=state_name(state),
        description=state_name(state),
    )


def state_name(state: "HoldingState") -> str:
    """Name a state as it is shown."""
    return {
        "holding": say("holding"),
        "loosening": say("loosening"),
        "not_wound": say("not wound"),
    }[state]


def state_words(state: "HoldingState", count: int) -> str:
    """Say how many decisions are in a state."""
    if count == 0:
        return {
            "holding": say("No decision is holding yet."),
            "loosening": say("No decision is loosening."),
            "not_wound": say("Every decision has been wound."),
        }[state]
    if count == 1:
        return {
            "holding": say("1 decision is holding."),
            "loosening": say("1 decision is loosening."),
            "not_wound": say("1 decision is not wound yet."),
        }[state]
    return {
        "holding": say("{count} decisions are holding.", count=count),
        "loosening": say("{count} decisions are loosening.", count=count),
        "not_wound": say("{count} decisions are not wound yet.", count=count),
    }[state]


def _row(zone: Zone, index: int) -> tuple[Point, ...]:
    """Place one tool of a zone: along the row that the zone's tools form, across its width."""
    west, east, south, north = zone.span
    part = (TOOLS_IN_ZONE - index - 0.5) / TOOLS_IN_ZONE
    return tuple(
        point_on_map(
            across=west + (east - west) * (0.12 + 0.76 * step / 12), along=south + (north - south) * part
        )
        for step in range(13)
    )


def _tool(path: tuple[Point, ...], state: "HoldingState") -> list[Shape]:
    if state == "not_wound":
        return [Polyline(path[1:-1], _EMPTY_MM, "soft")]
    if state == "loosening":
        slid = _SLID * (path[-1][0] - path[0][0])
        lowered = tuple((x, y - slid * (step / 12 - 0.5)) for step, (x, y) in enumerate(path))
        end = lowered[-3]
        tail = ((end[0], end[1]), (end[0] + 1.6, end[1] - 3.2), (end[0] + 0.6, end[1] - 5.2))
        return [
            Polyline(lowered, _TOOL_MM * 0.7, "tool"),
            Polyline(lowered[4:-2], _LOOSE_MM, "strand"),
            Polyline(tail, 1.2, "strand"),
        ]
    return [
        Polyline(path, _TOOL_MM, "tool"),
        Polyline(path[3:-3], _WOUND_MM, "strand"),
    ]
