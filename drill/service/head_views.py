"""The head as it stands before the stylist: from behind, from above and from either side, tools in place."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from drill.basis.words import say
from drill.service.direction import DIRECTIONS
from drill.service.head_model import LIVE_HEAD, HeadModel, zone_size
from drill.service.head_surface import (
    Vector,
    growth_at,
    head_axes,
    outward,
    point_on_head,
    whorl_on_head,
)
from drill.service.laid_shapes import laid_shapes
from drill.service.laid_zone import LaidZone
from drill.service.shapes import Arrow, Disc, Figure, Point, Polygon, Polyline, Shape, Text
from drill.service.zones import ZONE_NAMES, point_in_zone, zone_label

VIEWS = ("back", "top", "left", "right")

_WIDTH_MM, _HEIGHT_MM = 240.0, 248.0
# What faces away further than this is not drawn: it would be too narrow to read.
_FACING = 0.06
_SIGN_FACING = 0.3
_STEPS = 20
_PARTING_MM = 1.6
_ARROW_MM = 30.0
_TEXT_MM = 15.0
_LONGEST_TOOL = 1.12
# Parts of the flattened head between the partings of its map.
_CUT = 0.335
_RISE = 0.9


@dataclass(frozen=True, slots=True)
class _Camera:
    """Where a view looks from, and where the head's middle stands in the figure.

    Heads are squarer than the half-egg of their arcs, and so less high: ``rise`` makes up for it.
    """

    right: Vector
    up: Vector
    toward: Vector
    center: Point
    rise: float = 1.0

    def place(self, point: Vector) -> Point:
        return (self.center[0] + _dot(point, self.right), self.center[1] + self.rise * _dot(point, self.up))


def _camera(view: str) -> _Camera:
    """Look from a little above at back and sides, so that the crown is seen."""
    lift = math.radians(14)
    low, high = math.cos(lift), math.sin(lift)
    cameras = {
        "back": _Camera((1, 0, 0), (0, high, low), (0, -low, high), (120, 118), _RISE),
        "top": _Camera((1, 0, 0), (0, 1, 0), (0, 0, 1), (120, 118)),
        "left": _Camera((0, -1, 0), (high, 0, low), (-low, 0, high), (122, 118), _RISE),
        "right": _Camera((0, 1, 0), (-high, 0, low), (low, 0, high), (118, 118), _RISE),
    }
    if view not in cameras:
        raise ValueError(f"view must be one of {', '.join(VIEWS)}, got {view}")
    return cameras[view]


def head_view(
    view: str, *, laid: Mapping[str, LaidZone] | None = None, head: HeadModel = LIVE_HEAD, whorl: bool = True
) -> Figure:
    """Draw the head from one side with the tools that are seen from there.

    Args:
        view: ``back``, ``top``, ``left`` or ``right``, the client's.
        laid: Tools laid out by zone; zones left out are bare.
        head: The head.
        whorl: Whether to draw the swirl of the crown; practice heads have none.

    Returns:
        The view; each section that is seen is a polygon whose key is the zone's name.

    Raises:
        ValueError: If the view or a zone has no such name.

    Source:
        The model head, :mod:`drill.service.head_surface`; faces and necks are drawn, not measured.
    """
    laid = laid or {}
    camera = _camera(view)
    panels = {zone: _panel(zone, camera, head) for zone in ZONE_NAMES}
    seen = [zone for zone in ZONE_NAMES if len(panels[zone]) > 2]  # noqa: PLR2004  corners of an area
    shapes: list[Shape] = [*_surroundings(view, camera, head)]
    shapes += [Polygon(panels[zone], "scalp", zone) for zone in seen]
    for zone in seen:
        if zone in laid:
            place = partial(_place, zone, camera=camera, head=head)
            longest = _LONGEST_TOOL * zone_size(zone, head=head).width_mm
            shapes += laid_shapes(laid[zone], place, most_mm=longest)
    shapes += [Polyline((*panels[zone], panels[zone][0]), _PARTING_MM, "parting") for zone in seen]
    if whorl:
        shapes += _swirl(camera, head)
    signed = [zone for zone in seen if zone in laid and _faces(zone, camera, head) > _SIGN_FACING]
    for zone in signed:
        shapes += _sign(laid[zone], camera, head)
    return Figure(
        _WIDTH_MM,
        _HEIGHT_MM,
        tuple(shapes),
        title=_view_words(view),
        description=_description(view, [laid[zone] for zone in seen if zone in laid]),
    )


def _view_words(view: str) -> str:
    return {
        "back": say("From behind"),
        "top": say("From above, face up"),
        "left": say("Client's left"),
        "right": say("Client's right"),
    }[view]


def _description(view: str, zones: list[LaidZone]) -> str:
    sentences = [say("The head, {view}.", view=_view_words(view))]
    sentences += [
        say(
            "{zone}: {count} tools, rolled {direction}.",
            zone=zone_label(one.zone),
            count=one.tools,
            direction=say(one.roll_direction),
        )
        for one in zones
    ]
    return " ".join(sentences)


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _surface(zone: str, place: Point, head: HeadModel) -> Vector:
    """Find a place of a section, given as shares of it, on the head."""
    across, along = point_in_zone(zone, x=place[0], y=place[1])
    cuts = [1.0, _CUT, -_CUT, -1.0]
    ways = [head.forehead_mm]
    for name in ("top", "back_center", "nape_center"):
        ways.append(ways[-1] + zone_size(name, head=head).length_mm)
    from_nasion = _between(along, cuts, ways)
    half = head.panel_mm / 2
    # The hairline draws in behind the ear, from the depth of a side to the width of a panel.
    reach = _between(along, [1.0, _CUT, 0.0, -1.0], [head.side_mm, head.side_mm, *[head.panel_mm] * 2])
    from_midline = _between(abs(across), [0.0, _CUT, 1.0], [0.0, half, half + reach])
    return point_on_head(
        from_nasion_mm=from_nasion, from_midline_mm=math.copysign(from_midline, across), head=head
    )


def _between(value: float, marks: list[float], ways: list[float]) -> float:
    """Read a way off between marks; beyond the first and the last it is theirs."""
    value = min(max(value, min(marks)), max(marks))
    return next(
        first + (last - first) * (value - start) / (end - start)
        for (start, end), (first, last) in zip(pairwise(marks), pairwise(ways), strict=True)
        if min(start, end) <= value <= max(start, end)
    )


def _place(zone: str, place: Point, *, camera: _Camera, head: HeadModel) -> Point | None:
    point = _surface(zone, place, head)
    if _dot(outward(point, head=head), camera.toward) < _FACING:
        return None
    return camera.place(point)


def _faces(zone: str, camera: _Camera, head: HeadModel) -> float:
    return _dot(outward(_surface(zone, (0.5, 0.5), head), head=head), camera.toward)


def _panel(zone: str, camera: _Camera, head: HeadModel) -> tuple[Point, ...]:
    """Outline what is seen of a section, line by line across it."""
    lines = []
    for step in range(_STEPS + 1):
        line = (
            _place(zone, (step / _STEPS, at / (2 * _STEPS)), camera=camera, head=head)
            for at in range(2 * _STEPS + 1)
        )
        seen = [point for point in line if point is not None]
        if seen:
            lines.append(seen)
    if not lines:
        return ()
    first, last = [line[0] for line in lines], [line[-1] for line in lines]
    return (*first, *lines[-1], *reversed(last), *reversed(lines[0]))


def _outline(camera: _Camera, head: HeadModel, *, from_deg: int = 0, to_deg: int = 360) -> tuple[Point, ...]:
    """Edge of the half-egg as it is seen, anticlockwise from the right."""
    axes = head_axes(head)
    sizes = (axes.breadth_mm, axes.length_mm, axes.height_mm)
    points = []
    for degree in range(from_deg, to_deg + 1, 4):
        turn = math.radians(degree)
        way = [
            math.cos(turn) * right + math.sin(turn) * up
            for right, up in zip(camera.right, camera.up, strict=True)
        ]
        reach = math.hypot(*(size * part for size, part in zip(sizes, way, strict=True)))
        x, y, z = (size**2 * part / reach for size, part in zip(sizes, way, strict=True))
        points.append(camera.place((x, y, z)))
    return tuple(points)


def _surroundings(view: str, camera: _Camera, head: HeadModel) -> Iterator[Shape]:
    """Neck, face and ears, so that the view is read the right way round."""
    axes, (x, y) = head_axes(head), camera.center
    long, broad = axes.length_mm, axes.breadth_mm
    if view == "top":
        yield Polygon(((x - 10, y + long - 4), (x, y + long + 18), (x + 10, y + long - 4)), "skin")
        for sign in (-1, 1):
            yield _oval((x + sign * (broad + 3), y - 6), 8, 17)
        yield Polygon(_outline(camera, head), "skin")
        return
    skull = _outline(camera, head, from_deg=0, to_deg=180)
    if view == "back":
        lower = ((-0.93, -45), (-0.7, -78), (-0.66, -116), (0.66, -116), (0.7, -78), (0.93, -45))
        yield Polygon((*skull, *((x + broad * part, y + drop) for part, drop in lower)), "skin")
        for sign in (-1, 1):
            yield _oval((x + sign * (broad + 2), y - 14), 9, 26)
        return
    face = -1 if view == "left" else 1
    profile = (
        (1.0, 0), (0.97, -8), (0.97, -14), (1.05, -30), (1.15, -44), (1.13, -49), (1.01, -52), (1.0, -57),
        (1.05, -64), (1.01, -69), (1.04, -75), (0.98, -82), (0.99, -92), (0.93, -101), (0.78, -106),
        (0.5, -98), (0.28, -88), (0.2, -96), (0.14, -116), (-0.72, -116), (-0.74, -80), (-0.8, -55),
        (-0.95, -25), (-1.0, 0),
    )  # fmt: skip
    ordered = profile if face > 0 else tuple((-part, drop) for part, drop in reversed(profile))
    lower_face = tuple((x + long * part, y + drop) for part, drop in reversed(ordered))
    yield Polygon((*skull, *lower_face), "skin")
    yield _oval((x - face * 0.06 * long, y - 22), 15, 28)


def _oval(center: Point, half_width: float, half_height: float) -> Polygon:
    turns = [2 * math.pi * step / 28 for step in range(28)]
    points = (
        (center[0] + half_width * math.cos(turn), center[1] + half_height * math.sin(turn)) for turn in turns
    )
    return Polygon(tuple(points), "base")


def _swirl(camera: _Camera, head: HeadModel) -> Iterator[Shape]:
    """Follow the growth out of the whorl, which every view shows."""
    middle = whorl_on_head(head)
    axes = head_axes(head)
    for arm in range(6):
        turn = 2 * math.pi * arm / 6
        at = _onto((middle[0] + 2 * math.cos(turn), middle[1] + 2 * math.sin(turn), middle[2]), axes)
        points = []
        for _ in range(9):
            if _dot(outward(at, head=head), camera.toward) >= _FACING:
                points.append(camera.place(at))
            way = growth_at(at, head=head)
            at = _onto((at[0] + 2.6 * way[0], at[1] + 2.6 * way[1], at[2] + 2.6 * way[2]), axes)
        yield Polyline(tuple(points), 2.0, "key")


def _onto(point: Vector, axes: Vector | tuple[float, float, float]) -> Vector:
    long, broad, high = axes
    size = math.hypot(point[0] / broad, point[1] / long, point[2] / high)
    return (point[0] / size, point[1] / size, point[2] / size)


def _sign(laid: LaidZone, camera: _Camera, head: HeadModel) -> Iterator[Shape]:
    """Tell how many tools a section takes, with an arrow the way they are rolled."""
    x, y = camera.place(_surface(laid.zone, (0.5, 0.5), head))
    way = DIRECTIONS[laid.roll_direction]
    right, up = _dot(way, camera.right), _dot(way, camera.up)
    size = math.hypot(right, up)
    yield Disc((x, y), 13.0, "plate")
    yield Disc((x, y), 13.0, "key", filled=False, width_mm=1.4)
    yield Text((x, y), str(laid.tools), _TEXT_MM, "ink")
    if size > 0.3:  # noqa: PLR2004  else it points at the reader or away
        along = (right / size, up / size)
        start = (x + 14 * along[0], y + 14 * along[1])
        yield Arrow(start, (start[0] + 22 * along[0], start[1] + 22 * along[1]), 3.2, "key")
