"""The nine-section head: its zones, their sizes, and how many tools each takes.

The sizes are those of the model head in :mod:`drill.service.head_model`, whose arcs are published ones; its
tools are laid out in :mod:`drill.service.layout_rows` and counted.
"""

from dataclasses import dataclass

from drill.basis.words import say
from drill.service.head_model import LIVE_HEAD, HeadModel, zone_size
from drill.service.layout_rows import DEPTH_FACTORS, lay_out, tools_laid

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

__all__ = [
    "DEPTH_FACTORS",
    "MAP_CENTER",
    "MAP_HEIGHT_MM",
    "MAP_WIDTH_MM",
    "ZONES",
    "ZONE_NAMES",
    "Point",
    "Zone",
]
__all__ += ["mirror", "point_in_zone", "point_on_map", "tools_in_zone", "zone_label", "zone_named"]


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


def _zone(name: str, *, view: str, wear: str, place: str) -> Zone:
    column, row = place.split()
    (west, east), (south, north) = _COLUMNS[column], _ROWS[row]
    corners = [(west, south), (east, south), (east, north), (west, north)]
    outline = []
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True):
        for step in range(_STEPS):
            part = step / _STEPS
            outline.append(point_on_map(across=x0 + (x1 - x0) * part, along=y0 + (y1 - y0) * part))
    size = zone_size(name)
    return Zone(name, size.length_mm, size.width_mm, view, wear, tuple(outline), (west, east, south, north))


ZONES = (
    _zone("top", view="top", wear="back", place="center top"),
    _zone("left_side", view="left", wear="down", place="left top"),
    _zone("right_side", view="right", wear="down", place="right top"),
    _zone("back_left", view="back", wear="down", place="left back"),
    _zone("back_center", view="back", wear="down", place="center back"),
    _zone("back_right", view="back", wear="down", place="right back"),
    _zone("nape_left", view="back", wear="down", place="left nape"),
    _zone("nape_center", view="back", wear="down", place="center nape"),
    _zone("nape_right", view="back", wear="down", place="right nape"),
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


def point_in_zone(zone: str, *, x: float, y: float) -> Point:
    """Place a point of a section on the flattened head.

    Args:
        zone: Name of the zone.
        x: Across the section as its layout counts it, from 0 to 1.
        y: The way of its row of tools, from 0 to 1.

    Returns:
        ``across`` and ``along``, as :func:`point_on_map` takes them.

    Raises:
        ValueError: If no zone has that name.

    Source:
        The coordinates of :mod:`drill.service.layout_rows`.
    """
    found = zone_named(zone)
    west, east, south, north = found.span
    if found.view == "left":
        return (east - y * (east - west), north - x * (north - south))
    if found.view == "right":
        return (west + y * (east - west), north - x * (north - south))
    return (west + x * (east - west), north - y * (north - south))


def tools_in_zone(
    zone: str,
    *,
    tool_waist_mm: float,
    tool_rim_mm: float,
    wound_rim_mm: float,
    depth_factor: float = 1.0,
    layout: str = "straight_set",
    tool_length_mm: float | None = None,
    head: HeadModel = LIVE_HEAD,
) -> int:
    """Count the tools that a zone takes, laid out row by row.

    A base is as deep as the wound tool at its rim, or one and a half or two times that. By the waist alone
    a head is overcounted by about four tools in ten.

    Args:
        zone: Name of the zone.
        tool_waist_mm: Diameter of the tool at its thinnest.
        tool_rim_mm: Diameter of the bare tool at its rim, not less than the waist.
        wound_rim_mm: Diameter at the rim with the hair on, not less than the rim.
        depth_factor: Depth of a base in wound rims: 1, 1.5 or 2.
        layout: How the bases lie beside each other.
        tool_length_mm: Length between the rims; None for a tool as long as its panel is wide.
        head: The head.

    Returns:
        Whole tools, at least 1; a strip left over of half a base or more takes one more row, less is shared
        out among the others.

    Raises:
        ValueError: If the zone or the layout is unknown or the sizes are not those of one tool.

    Source:
        :func:`drill.service.layout_rows.lay_out`; common practice.
    """
    if not 0 < tool_waist_mm <= tool_rim_mm <= wound_rim_mm:
        sizes = f"{tool_waist_mm}, {tool_rim_mm}, {wound_rim_mm}"
        raise ValueError(f"waist, rim and wound rim must be above 0 and not fall, got {sizes}")
    bases = lay_out(
        zone_named(zone).name,
        layout,
        tool_mm=tool_waist_mm,
        wound_rim_mm=wound_rim_mm,
        depth_factor=depth_factor,
        tool_length_mm=tool_length_mm,
        head=head,
    )
    return tools_laid(bases)
