"""The nine-section head: its zones, their sizes, and how many tools each takes.

The sizes are those of the tool's own model head. They were chosen so that the counts of a full head agree
with common practice, and they stay within published arcs: women's mean from nasion to inion over the vertex
is 36.2 cm and men's 37.4 cm (means of 59 and 65 people), of which about 6 cm are forehead, and the nape
adds about 2 cm of hair below the inion; so top, back centre and nape centre together take 32 cm. From ear
to ear over the vertex it is 36.2 cm and 37.2 cm, of which about 5 cm at each ear bear no section.
"""

import math
from dataclasses import dataclass

from drill.basis.words import say

Point = tuple[float, float]

# The flattened head on the map: half axes in millimetres of the drawing, and how square its outline is.
MAP_WIDTH_MM = 172.0
MAP_HEIGHT_MM = 224.0
MAP_CENTER: Point = (86.0, 109.0)
_MAP_HALF_WIDTH_MM = 77.0
_MAP_HALF_HEIGHT_MM = 103.0
_SQUARENESS = 3.2
_STEPS = 8

_COLUMNS = {"left": (-1.0, -0.335), "center": (-0.335, 0.335), "right": (0.335, 1.0)}
_ROWS = {"top": (0.335, 1.0), "back": (-0.335, 0.335), "nape": (-1.0, -0.335)}

DEPTH_FACTORS = (1.0, 1.5, 2.0)


@dataclass(frozen=True, slots=True)
class Zone:
    """One section of the head.

    Attributes:
        name: Its name in plans and consultations.
        length_mm: Way along which the row of tools runs, from its first base to its last.
        width_mm: Way across it, in the direction of a tool's length.
        view: The side from which it is seen straight on: ``top``, ``left``, ``right`` or ``back``.
        wear: The direction in which the hair is worn where nobody says otherwise.
        polygon: Outline on the head map in millimetres of the map, y up, without the first point repeated.
        span: Where it lies on the flattened head, as :func:`point_on_map` takes it: ``across`` from and to,
            then ``along`` from and to.
    """

    name: str
    length_mm: float
    width_mm: float
    view: str
    wear: str
    polygon: tuple[Point, ...]
    span: tuple[float, float, float, float]


def point_on_map(*, across: float, along: float) -> Point:
    """Place a point of the flattened head on the map.

    Args:
        across: From -1, the client's left edge, to 1, the right one.
        along: From -1, the nape's edge, to 1, the front hairline.

    Returns:
        x and y in millimetres of the map, y up.

    Source:
        A square bent to a superellipse ``x^n + y^n = 1``; a drawing, not a measure.
    """
    n = _SQUARENESS
    x = across * (1 - abs(along) ** n / 2) ** (1 / n)
    y = along * (1 - abs(across) ** n / 2) ** (1 / n)
    return (MAP_CENTER[0] + _MAP_HALF_WIDTH_MM * x, MAP_CENTER[1] + _MAP_HALF_HEIGHT_MM * y)


def _zone(name: str, length_mm: float, width_mm: float, *, view: str, wear: str, place: str) -> Zone:
    column, row = place.split()
    (west, east), (south, north) = _COLUMNS[column], _ROWS[row]
    corners = [(west, south), (east, south), (east, north), (west, north)]
    outline = []
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True):
        for step in range(_STEPS):
            part = step / _STEPS
            outline.append(point_on_map(across=x0 + (x1 - x0) * part, along=y0 + (y1 - y0) * part))
    return Zone(name, length_mm, width_mm, view, wear, tuple(outline), (west, east, south, north))


# Lengths and widths: common practice's counts, see the module's docstring; left equals right.
ZONES = (
    _zone("top", 138, 72, view="top", wear="back", place="center top"),
    _zone("left_side", 95, 72, view="left", wear="down", place="left top"),
    _zone("right_side", 95, 72, view="right", wear="down", place="right top"),
    _zone("back_left", 106, 72, view="back", wear="down", place="left back"),
    _zone("back_center", 122, 72, view="back", wear="down", place="center back"),
    _zone("back_right", 106, 72, view="back", wear="down", place="right back"),
    _zone("nape_left", 46, 70, view="back", wear="down", place="left nape"),
    _zone("nape_center", 60, 70, view="back", wear="down", place="center nape"),
    _zone("nape_right", 46, 70, view="back", wear="down", place="right nape"),
)
ZONE_NAMES = tuple(zone.name for zone in ZONES)
_BY_NAME = {zone.name: zone for zone in ZONES}


def zone_named(name: str) -> Zone:
    """Find a zone by its name.

    Args:
        name: One of :data:`ZONE_NAMES`.

    Returns:
        The zone.

    Raises:
        ValueError: If no zone has that name.

    Source:
        The nine-section head; common practice.
    """
    if name not in _BY_NAME:
        raise ValueError(f"zone must be one of {', '.join(ZONE_NAMES)}, got {name}")
    return _BY_NAME[name]


def mirror(zone: str) -> str:
    """Name the zone on the other side of the head.

    Args:
        zone: Name of a zone.

    Returns:
        Name of its mirror image; a zone of the midline is its own.

    Raises:
        ValueError: If no zone has that name.

    Source:
        The nine-section head; common practice.
    """
    name = zone_named(zone).name
    if "left" in name:
        return name.replace("left", "right")
    return name.replace("right", "left")


def zone_label(zone: str) -> str:
    """Write a zone as a person says it.

    Args:
        zone: Name of a zone.

    Returns:
        The words in the reader's language, such as ``left side``.

    Raises:
        ValueError: If no zone has that name.

    Source:
        The nine-section head; common practice.
    """
    labels = {
        "top": say("top"),
        "left_side": say("left side"),
        "right_side": say("right side"),
        "back_left": say("back left"),
        "back_center": say("back centre"),
        "back_right": say("back right"),
        "nape_left": say("nape left"),
        "nape_center": say("nape centre"),
        "nape_right": say("nape right"),
    }
    return labels[zone_named(zone).name]


def tools_in_zone(
    zone: str, *, tool_waist_mm: float, tool_rim_mm: float, wound_rim_mm: float, depth_factor: float = 1.0
) -> int:
    """Count the tools of one row through a zone.

    A base is as deep as the wound tool at its rim, or one and a half or two times that. By the waist alone
    a head is overcounted by about four tools in ten.

    Args:
        zone: Name of the zone.
        tool_waist_mm: Diameter of the tool at its thinnest.
        tool_rim_mm: Diameter of the bare tool at its rim, not less than the waist.
        wound_rim_mm: Diameter at the rim with the hair on, not less than the rim.
        depth_factor: Depth of a base in wound rims: 1, 1.5 or 2.

    Returns:
        Whole tools, at least 1; a strip left over of half a base or more takes one more tool, less is shared
        out among the others.

    Raises:
        ValueError: If the zone is unknown or the sizes are not those of one tool.

    Source:
        common practice.
    """
    if not 0 < tool_waist_mm <= tool_rim_mm <= wound_rim_mm:
        sizes = f"{tool_waist_mm}, {tool_rim_mm}, {wound_rim_mm}"
        raise ValueError(f"waist, rim and wound rim must be above 0 and not fall, got {sizes}")
    if depth_factor not in DEPTH_FACTORS:
        raise ValueError(f"depth_factor must be 1, 1.5 or 2, got {depth_factor}")
    bases = zone_named(zone).length_mm / (wound_rim_mm * depth_factor)
    return max(1, math.floor(bases + 0.5))
