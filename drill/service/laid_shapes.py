"""Tools laid out on sections to shapes, on whatever surface the sections are drawn."""

import math
from collections.abc import Callable, Iterator
from itertools import pairwise

from drill.service.laid_zone import LaidZone, Place, ToolLine, base_outline, is_upright, tool_line
from drill.service.layout_rows import Base
from drill.service.shapes import Point, Polyline, Shape

Surface = Callable[[Place], Point | None]

_OUTLINE_MM = 0.45
_STEPS = 8
_STRAND_OF_DEPTH, _TOOL_OF_STRAND, _BARE_OF_LENGTH = 0.74, 0.6, 0.05


def laid_shapes(laid: LaidZone, place: Surface, *, most_mm: float = math.inf) -> Iterator[Shape]:
    """Draw the bases of a section and the tools on them.

    Args:
        laid: The section.
        place: Takes a share of the section to a point of the figure; None where it can't be seen.
        most_mm: Longest that a tool is drawn, in millimetres of the figure.

    Yields:
        Outlines of bases first, then tools with their hair. Of each the part that is seen is drawn.

    Source:
        Drawing only.
    """
    for base in laid.bases:
        for points in _seen(_round(base_outline(laid, base)), place):
            yield Polyline(points, _OUTLINE_MM, "parting")
    for base in laid.bases:
        yield from _tools(laid, base, place, most_mm=most_mm)


def _tools(laid: LaidZone, base: Base, place: Surface, *, most_mm: float) -> Iterator[Shape]:
    """Draw the tool of a base, or the two that are stacked on it, side by side."""
    wound_mm = _STRAND_OF_DEPTH * _depth_on_figure(laid, base, place)
    if base.share < 1 and is_upright(base):
        wound_mm /= base.share  # half of it lies on the section beyond the parting
    if laid.stacked:
        for off in (-0.22, 0.22):
            yield from _tool(tool_line(laid, base, off=off), place, wound_mm=0.52 * wound_mm, most_mm=most_mm)
    else:
        yield from _tool(tool_line(laid, base), place, wound_mm=wound_mm, most_mm=most_mm)


def _tool(line: ToolLine, place: Surface, *, wound_mm: float, most_mm: float) -> Iterator[Shape]:
    ends = line.ends
    length_mm = _length(ends, place)
    if length_mm > most_mm:
        ends = _cut(ends, (most_mm / length_mm, most_mm / length_mm))
        length_mm = most_mm
    if not length_mm:
        return
    for role, width_mm, bare_mm in (
        ("tool", _TOOL_OF_STRAND * wound_mm, 0.0),
        ("strand", wound_mm, _BARE_OF_LENGTH * length_mm),
    ):
        # Lines have round ends: they begin half a width further in, so as to keep inside the base.
        left = max(0.1, 1 - (width_mm + 2 * bare_mm) / length_mm)
        for points in _seen(_along(_cut(ends, tuple(left if bare else 1.0 for bare in line.bare))), place):
            yield Polyline(points, width_mm, role)


def _length(ends: tuple[Place, Place], place: Surface) -> float:
    return sum(math.dist(a, b) for points in _seen(_along(ends), place) for a, b in pairwise(points))


def _cut(ends: tuple[Place, Place], left: tuple[float, ...]) -> tuple[Place, Place]:
    """Shorten a line at each end, from its middle outward to a part of what it was."""
    return (_between(ends, 0.5 - left[0] / 2), _between(ends, 0.5 + left[1] / 2))


def _seen(shares: list[Place], place: Surface) -> Iterator[tuple[Point, ...]]:
    """Give the stretches of a line that are seen."""
    stretch: list[Point] = []
    for share in [*shares, None]:
        point = None if share is None else place(share)
        if point is not None:
            stretch.append(point)
            continue
        if len(stretch) > 1:
            yield tuple(stretch)
        stretch = []


def _round(corners: tuple[Place, ...]) -> list[Place]:
    """Walk once round an outline, with places between its corners, so that it bends with the head."""
    walk = [corners[0]]
    for ends in zip(corners, [*corners[1:], corners[0]], strict=True):
        walk += [_between(ends, step / 4) for step in range(1, 5)]
    return walk


def _along(ends: tuple[Place, Place]) -> list[Place]:
    return [_between(ends, step / _STEPS) for step in range(_STEPS + 1)]


def _between(ends: tuple[Place, Place], part: float) -> Place:
    (u0, v0), (u1, v1) = ends
    return (u0 + (u1 - u0) * part, v0 + (v1 - v0) * part)


def _depth_on_figure(laid: LaidZone, base: Base, place: Surface) -> float:
    """Least way between the two partings of a base, at three places along it; 0 where none is seen."""
    outline = base_outline(laid, base)
    before, after = (outline[0], outline[-3]), (outline[-1], outline[-2])
    depths = []
    for part in (0.2, 0.5, 0.8):
        pair = next(_seen([_between(before, part), _between(after, part)], place), None)
        if pair is not None:
            depths.append(math.dist(*pair))
    return min(depths, default=0.0)
