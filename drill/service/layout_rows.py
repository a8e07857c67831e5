"""Lay the tools of a section out, row by row; then they are counted, not looked up.

A section is a panel with its own coordinates in millimetres: y runs the way of its row of tools (from the
front hairline back on top, from the edge of the top down at a side, down at back and nape), x across it (from
the client's left to the right; at a side from the face to the back).
"""

import math
from dataclasses import dataclass
from itertools import count as counting_up
from itertools import pairwise

from drill.service.head_model import LIVE_HEAD, HeadModel, Size, zone_size

DEPTH_FACTORS = (1.0, 1.5, 2.0)
LAYOUTS = ("straight_set", "bricklay", "weave", "curvature", "spiral_rows")

# A tool that lies over the parting to the next section is shared with it; at the hairline nobody shares.
_WHOLE, _SHARED = 1.0, 0.5
_HAIRLINE = {"left_side": "start", "right_side": "start", "nape_left": "start", "nape_right": "end"}
# Radius of the bow that a curvature panel follows (drawn after common practice).
_BOW_MM = 250.0
# Height of a row of vertical bases in a spiral wrap (common practice: two to three fingers).
SPIRAL_ROW_MM = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A piece of scalp and the tool that its hair is wound on.

    Attributes:
        zone: Name of the section.
        row: Row, from 0, in the order of winding; spiral rows are counted from the nape up.
        column: Place in its row, from 0.
        center_mm: Its middle, x and y in the section's coordinates.
        width_mm: In the direction of the tool's length.
        depth_mm: Across the tool, from parting to parting.
        angle_deg: How far the tool is turned from lying across the section, toward growing y.
        tool_mm: Diameter of the tool at its waist.
        share: Part of the tool that is this section's: 1, or a half where it lies over the parting to the
            next section.
        woven: Whether the parting before it is woven out instead of drawn straight.
    """

    zone: str
    row: int
    column: int
    center_mm: tuple[float, float]
    width_mm: float
    depth_mm: float
    angle_deg: float
    tool_mm: float
    share: float = _WHOLE
    woven: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Panel:
    """A section to be laid out: how many tools lie end to end across it, and which."""

    zone: str
    size: Size
    columns: int
    tool_mm: float


def lay_out(
    zone: str,
    layout: str,
    *,
    tool_mm: float,
    wound_rim_mm: float,
    depth_factor: float = 1.0,
    tool_length_mm: float | None = None,
    head: HeadModel = LIVE_HEAD,
) -> tuple[Base, ...]:
    """Lay the tools of a section out.

    Args:
        zone: Name of the section.
        layout: One of :data:`LAYOUTS`.
        tool_mm: Diameter of the tool at its waist, more than 0.
        wound_rim_mm: Diameter at the rim with the hair on, not less than the tool.
        depth_factor: Depth of a base in wound rims: 1, 1.5 or 2.
        tool_length_mm: Length between the rims; None for a tool as long as the panel is wide.
        head: The head.

    Returns:
        The bases, row by row. A strip left over of half a base or more takes one more row, less is shared out
        among the others, so that the bases fill the section.

    Raises:
        ValueError: If the zone or the layout is unknown, or the sizes are not those of one tool.

    Source:
        common practice; sizes of the sections: :func:`drill.service.head_model.zone_size`.
    """
    if depth_factor not in DEPTH_FACTORS:
        raise ValueError(f"depth_factor must be 1, 1.5 or 2, got {depth_factor}")
    if not 0 < tool_mm <= wound_rim_mm:
        raise ValueError(
            f"tool_mm must be more than 0 and not above the wound rim, got {tool_mm}, {wound_rim_mm}"
        )
    panel = _panel(zone, tool_mm=tool_mm, tool_length_mm=tool_length_mm, head=head)
    return _fill(panel, layout, _nearest(_run_mm(panel, layout), wound_rim_mm * depth_factor))


def lay_out_count(
    zone: str,
    layout: str,
    *,
    count: int,
    tool_mm: float,
    tool_length_mm: float | None = None,
    head: HeadModel = LIVE_HEAD,
) -> tuple[Base, ...]:
    """Lay so many tools out in a section, such as those that a plan has counted.

    Args:
        zone: Name of the section.
        layout: One of :data:`LAYOUTS`.
        count: Tools, 1 or more.
        tool_mm: Diameter of the tool at its waist, more than 0.
        tool_length_mm: Length between the rims; None for a tool as long as the panel is wide.
        head: The head.

    Returns:
        The bases; as many tools as asked for, or the next larger number that fills the section.

    Raises:
        ValueError: If the zone or the layout is unknown, or the count is below 1.

    Source:
        As :func:`lay_out`.
    """
    if count < 1:
        raise ValueError(f"count must be 1 or more, got {count}")
    panel = _panel(zone, tool_mm=tool_mm, tool_length_mm=tool_length_mm, head=head)
    laid = (_fill(panel, layout, bases) for bases in counting_up(1))
    return next(bases for bases in laid if tools_laid(bases) >= count)


def tools_laid(bases: tuple[Base, ...]) -> int:
    """Count the tools of bases laid out.

    Args:
        bases: Bases of one section.

    Returns:
        Whole tools; two halves over partings make one, and half a tool left over is one more.

    Source:
        Counting.
    """
    return math.ceil(sum(base.share for base in bases))


def _panel(zone: str, *, tool_mm: float, tool_length_mm: float | None, head: HeadModel) -> _Panel:
    size = zone_size(zone, head=head)
    if tool_length_mm is not None and not tool_length_mm > 0:
        raise ValueError(f"tool_length_mm must be more than 0, got {tool_length_mm}")
    columns = 1 if tool_length_mm is None else _nearest(size.width_mm, tool_length_mm)
    return _Panel(zone=zone, size=size, columns=columns, tool_mm=tool_mm)


def _nearest(way_mm: float, step_mm: float) -> int:
    return max(1, math.floor(way_mm / step_mm + 0.5))


def _run_mm(panel: _Panel, layout: str) -> float:
    """Way along which bases follow one another by their depth."""
    if layout == "spiral_rows":
        return panel.size.width_mm
    if layout == "curvature":
        return 2 * _BOW_MM * _half_turn(panel)  # a bow is longer than its chord
    return panel.size.length_mm


def _half_turn(panel: _Panel) -> float:
    """How far a curvature panel turns from its middle to its end."""
    return math.asin(panel.size.length_mm / (2 * _BOW_MM))


def _fill(panel: _Panel, layout: str, number: int) -> tuple[Base, ...]:
    """Fill a section with so many bases one after the other by their depth."""
    if layout == "straight_set":
        return _straight(panel, number, woven=False)
    if layout == "weave":
        return _straight(panel, number, woven=True)
    if layout == "bricklay":
        return _bricks(panel, number)
    if layout == "curvature":
        return _curved(panel, number)
    if layout == "spiral_rows":
        return _spiral_rows(panel, number)
    raise ValueError(f"layout must be one of {', '.join(LAYOUTS)}, got {layout}")


def _straight(panel: _Panel, rows: int, *, woven: bool) -> tuple[Base, ...]:
    depth = panel.size.length_mm / rows
    bases: list[Base] = []
    for row in range(rows):
        bases += _across(panel, row, y=(row + 0.5) * depth, depth=depth, woven=woven)
    return tuple(bases)


def _bricks(panel: _Panel, rows: int) -> tuple[Base, ...]:
    """Set every second row off by half a tool, with half bases at its edges."""
    depth = panel.size.length_mm / rows
    bases: list[Base] = []
    for row in range(rows):
        bases += _across(panel, row, y=(row + 0.5) * depth, depth=depth, set_off=row % 2 == 1)
    return tuple(bases)


def _across(
    panel: _Panel, row: int, *, y: float, depth: float, set_off: bool = False, woven: bool = False
) -> list[Base]:
    cells = _cells(panel.columns, set_off=set_off)
    return [
        Base(
            zone=panel.zone,
            row=row,
            column=column,
            center_mm=((start + end) / 2 * panel.size.width_mm, y),
            width_mm=(end - start) * panel.size.width_mm,
            depth_mm=depth,
            angle_deg=0.0,
            tool_mm=panel.tool_mm,
            share=_share(panel.zone, start, end) if set_off else _WHOLE,
            woven=woven,
        )
        for column, (start, end) in enumerate(cells)
    ]


def _cells(number: int, *, set_off: bool) -> list[tuple[float, float]]:
    """Cut a row from 0 to 1 into so many cells; set off, the first and the last are halves."""
    if not set_off:
        return [(cell / number, (cell + 1) / number) for cell in range(number)]
    cuts = [0.0, *((cell + 0.5) / number for cell in range(number)), 1.0]
    return list(pairwise(cuts))


def _share(zone: str, start: float, end: float) -> float:
    """Share a half base's tool with the section beyond the parting; beyond the hairline there is none."""
    hairline = _HAIRLINE.get(zone)
    at_start, at_end = start == 0.0 and hairline != "start", end == 1.0 and hairline != "end"
    return _SHARED if at_start or at_end else _WHOLE


def _curved(panel: _Panel, rows: int) -> tuple[Base, ...]:
    """Turn the panel as it goes, each base a wedge of a fan; right and left are mirror images."""
    sign = -1.0 if panel.zone in ("back_right", "nape_right") else 1.0
    length, width = panel.size
    half = _half_turn(panel)
    bases = []
    for row in range(rows):
        turn = half * (2 * (row + 0.5) / rows - 1)
        # The bulge of the middle line is centred, so that it leans out as far as it leans in.
        bulge = _BOW_MM * (math.cos(turn) - (1 + math.cos(half)) / 2)
        bases.append(
            Base(
                zone=panel.zone,
                row=row,
                column=0,
                center_mm=(width / 2 - sign * bulge, length / 2 + _BOW_MM * math.sin(turn)),
                width_mm=width,
                depth_mm=2 * half * _BOW_MM / rows,
                angle_deg=sign * math.degrees(turn),
                tool_mm=panel.tool_mm,
            )
        )
    return tuple(bases)


def _spiral_rows(panel: _Panel, number: int) -> tuple[Base, ...]:
    """Stand the bases upright in rows from the nape up, every second row set off by half a base."""
    length, width = panel.size
    rows = _nearest(length, SPIRAL_ROW_MM)
    height = length / rows
    return tuple(
        Base(
            zone=panel.zone,
            row=row,
            column=column,
            center_mm=((start + end) / 2 * width, length - (row + 0.5) * height),
            width_mm=height,
            depth_mm=(end - start) * width,
            angle_deg=90.0,
            tool_mm=panel.tool_mm,
            share=_share(panel.zone, start, end) if row % 2 else _WHOLE,
        )
        for row in range(rows)
        for column, (start, end) in enumerate(_cells(number, set_off=row % 2 == 1))
    )
