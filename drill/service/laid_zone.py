"""Sections with their tools laid out, as lines and outlines for a drawing.

Places are shares of a section: u across it and v the way of its row, both from 0 to 1, as
:func:`drill.service.zones.point_in_zone` takes them.
"""

import math
from dataclasses import dataclass

from drill.service.head_model import LIVE_HEAD, HeadModel, zone_size
from drill.service.layout_rows import Base

Place = tuple[float, float]

# Drawn, not measured: bare ends of a tool, the slant of diagonal partings, the teeth of a woven one.
_BARE_END = 0.07
_SLANT = 0.3
_TEETH = 9
_TOOTH = 0.16
_MIRRORED = ("back_right", "nape_right")
# On a drawing nothing lies beyond these edges, though a side's tool does on the head.
_OUTER = {"back_left": 0, "back_right": 1}


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidZone:
    """A section with its tools on it.

    Attributes:
        zone: Its name.
        bases: Its bases, as :mod:`drill.service.layout_rows` lays them out.
        base_direction: ``horizontal``, ``vertical`` or ``diagonal`` partings. The panel takes as many tools
            stood up as laid across: its area is the same.
        roll_direction: Where the hair is rolled.
        tools: Tools in the section; of a double wrap both of each strand.
        stacked: Whether each strand is on two tools, one stacked on the other.
        head: The head that they lie on.
    """

    zone: str
    bases: tuple[Base, ...]
    base_direction: str
    roll_direction: str
    tools: int
    stacked: bool = False
    head: HeadModel = LIVE_HEAD


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolLine:
    """A tool seen from outside, as its middle line.

    Attributes:
        ends: Where it begins and ends.
        bare: Whether each end stands out bare; it does not where the tool goes on beyond a parting.
    """

    ends: tuple[Place, Place]
    bare: tuple[bool, bool]


def tool_line(laid: LaidZone, base: Base, *, off: float = 0.0) -> ToolLine:
    """Find a tool's middle line.

    Args:
        laid: The section.
        base: One of its bases.
        off: How far it is drawn from the middle of its base, in depths of it.

    Returns:
        The line, as long as its base but for a little at each end.

    Source:
        Drawing only.
    """
    x, y = base.center_mm
    size = zone_size(laid.zone, head=laid.head)
    turn = math.radians(base.angle_deg)
    along = (math.cos(turn), math.sin(turn))
    x, y = x - off * base.depth_mm * along[1], y + off * base.depth_mm * along[0]
    lengths = [-(0.5 - _BARE_END / 2) * base.width_mm, (0.5 - _BARE_END / 2) * base.width_mm]
    bare = [True, True]
    shared = 0 if base.center_mm[0] < size.width_mm / 2 else 1
    if base.share < 1 and _OUTER.get(laid.zone) != shared:
        if is_upright(base):
            x = shared * size.width_mm  # it stands on the parting itself
        else:
            lengths[shared] = (shared - 0.5) * base.width_mm
            bare[shared] = False
    ends = [_share(laid, x + way * along[0], y + way * along[1]) for way in lengths]
    return ToolLine(ends=(ends[0], ends[1]), bare=(bare[0], bare[1]))


def base_outline(laid: LaidZone, base: Base) -> tuple[Place, ...]:
    """Find a base's outline.

    Args:
        laid: The section.
        base: One of its bases.

    Returns:
        Its corners in order, the first not repeated; a woven parting with its teeth.

    Source:
        Drawing only.
    """
    half_w, half_d = base.width_mm / 2, base.depth_mm / 2
    before = [(-half_w, -half_d), (half_w, -half_d)]
    if base.woven and base.row > 0:
        before = [
            (half_w * (2 * step / _TEETH - 1), -half_d + (step % 2) * 2 * _TOOTH * half_d)
            for step in range(_TEETH + 1)
        ]
    turn = math.radians(base.angle_deg)
    corners = []
    for way, off in [*before, (half_w, half_d), (-half_w, half_d)]:
        x = base.center_mm[0] + way * math.cos(turn) - off * math.sin(turn)
        y = base.center_mm[1] + way * math.sin(turn) + off * math.cos(turn)
        corners.append(_share(laid, x, y))
    return tuple(corners)


def is_upright(base: Base) -> bool:
    """Tell whether a base stands upright in its row, as those of a spiral do.

    Source:
        common practice.
    """
    return base.angle_deg == 90.0  # noqa: PLR2004  a quarter turn


def _share(laid: LaidZone, x_mm: float, y_mm: float) -> Place:
    """Turn millimetres of a section into shares of it, with its partings as the plan wants them."""
    size = zone_size(laid.zone, head=laid.head)
    u = min(1.0, max(0.0, x_mm / size.width_mm))
    v = min(1.0, max(0.0, y_mm / size.length_mm))
    if any(map(is_upright, laid.bases)):
        return (u, v)  # rows of a spiral stand upright already
    if laid.base_direction == "vertical":
        return (v, u)
    if laid.base_direction == "diagonal":
        lean = -_SLANT if laid.zone in _MIRRORED else _SLANT
        return (u, 0.5 + (1 - _SLANT) * (v - 0.5) + lean * (u - 0.5))
    return (u, v)
