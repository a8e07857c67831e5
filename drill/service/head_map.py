"""The nine-section head as one flat map, and which zone lies under a touch.

The head is seen from above and opened flat: face at the upper edge, nape at the lower one, the client's
left on the left. What lies further down the head lies further out on the map.
"""

import math
from collections.abc import Mapping
from functools import partial
from itertools import pairwise

from drill.basis.words import say
from drill.service.direction import direction_on_map
from drill.service.laid_shapes import laid_shapes
from drill.service.laid_zone import LaidZone
from drill.service.shapes import Arrow, Disc, Figure, Point, Polygon, Polyline, Shape, Text, is_inside
from drill.service.zones import (
    MAP_CENTER,
    MAP_HEIGHT_MM,
    MAP_WIDTH_MM,
    ZONE_NAMES,
    ZONES,
    Zone,
    point_in_zone,
    point_on_map,
    zone_label,
    zone_named,
)

WHORL = "whorl"

_OUTWARD = {"top": "up", "back": "back", "left": "left", "right": "right"}
_PARTING_MM = 1.3
_TEXT_MM = 6.2
# A letter by itself is looked for on the head, on the smallest screen.
_LETTER_MM = 16.0
_ARROW_MM = 22.0
_BAR_MM = 7.5
# The crown: where top and back meet, a little behind it.
_WHORL_ALONG = 0.27
_STEPS = 48

# Outer panels narrow toward the corners: what is written on them stands further in.
_INWARD = 0.94


def head_map(
    *,
    highlight: str | None = None,
    directions: Mapping[str, str] | None = None,
    labels: Mapping[str, str] | None = None,
    tools: Mapping[str, int] | None = None,
    laid: Mapping[str, LaidZone] | None = None,
    whorl: bool = False,
) -> Figure:
    """Draw the head with its nine sections.

    Args:
        highlight: Zone that the figure is about, or None.
        directions: Direction, or ``whorl``, by zone; others get no arrow.
        labels: One short line by zone, in the reader's language.
        tools: Tools by zone, drawn as so many bars side by side.
        laid: Tools laid out by zone, drawn on their bases.
        whorl: Whether to draw the whorl at the crown, clockwise as most are.

    Returns:
        The map; every section is a polygon whose key is the zone's name.

    Raises:
        ValueError: If a zone or a direction has no such name.

    Source:
        The nine-section head; common practice. Sections are drawn alike in size, to be touched.
    """
    directions, labels, tools, laid = directions or {}, labels or {}, tools or {}, laid or {}
    covered = {*tools, *laid}
    chosen = None if highlight is None else zone_named(highlight)
    shapes: list[Shape] = [*_surroundings()]
    shapes += [Polygon(zone.polygon, "chosen" if zone is chosen else "scalp", zone.name) for zone in ZONES]
    for name, count in tools.items():
        shapes += _bars(zone_named(name), count)
    for name, zone in laid.items():
        shapes += laid_shapes(zone, partial(_on_panel, zone_named(name).name))
    shapes += _partings()
    if whorl:
        shapes.append(_swirl(*point_on_map(across=0, along=_WHORL_ALONG)))
    if chosen is not None:
        shapes.append(Polyline((*chosen.polygon, chosen.polygon[0]), 2 * _PARTING_MM, "ink"))
    for name, direction in directions.items():
        shapes += _sign(zone_named(name), direction, raised=name in labels, on_bars=name in covered)
    for name, label in labels.items():
        shapes += _label(zone_named(name), label, lowered=name in directions, on_bars=name in covered)
    counts = {**{name: zone.tools for name, zone in laid.items()}, **tools}
    return Figure(
        MAP_WIDTH_MM,
        MAP_HEIGHT_MM,
        tuple(shapes),
        title=say("The head, opened flat"),
        description=_description(highlight, directions=directions, labels=labels, tools=counts),
    )


def zone_at(figure: Figure, *, x: float, y: float) -> str | None:
    """Find what a touch on a figure means.

    Args:
        figure: The figure.
        x: Millimetres of the figure from its left edge.
        y: Millimetres of the figure from its lower edge.

    Returns:
        Key of the uppermost polygon there that has one, such as a zone; None beside all of them.

    Source:
        The figure itself.
    """
    for shape in reversed(figure.shapes):
        if isinstance(shape, Polygon) and shape.key and is_inside(shape.points, x=x, y=y):
            return shape.key
    return None


def _description(
    highlight: str | None,
    *,
    directions: Mapping[str, str],
    labels: Mapping[str, str],
    tools: Mapping[str, int],
) -> str:
    sentences = [say("The head from above, opened flat, face at the upper edge.")]
    if highlight is not None:
        sentences.append(say("Marked: {zone}.", zone=zone_label(highlight)))
    for name in ZONE_NAMES:
        told = [_direction_word(directions[name])] if name in directions else []
        told += [labels[name]] if name in labels else []
        told += [say("{count} tools", count=tools[name])] if name in tools else []
        if told:
            sentences.append(say("{zone}: {what}.", zone=zone_label(name), what=", ".join(told)))
    return " ".join(sentences)


def _direction_word(direction: str) -> str:
    return {
        "forward": say("forward"),
        "back": say("back"),
        "up": say("up"),
        "down": say("down"),
        "left": say("to the left"),
        "right": say("to the right"),
        WHORL: say("in a whorl"),
    }[direction]


def _surroundings() -> list[Shape]:
    """Nose, ears and neck, so that the map is read the right way round."""
    x, y = MAP_CENTER
    top = point_on_map(across=0, along=1)[1]
    nose = ((x - 8, top - 2), (x - 2.2, top + 8), (x + 2.2, top + 8), (x + 8, top - 2))
    side = point_on_map(across=1, along=0)[0]
    ears: list[Shape] = []
    for sign in (-1, 1):
        turns = [math.pi * step / 16 for step in range(17)]
        outline = [(side + 7 * math.sin(turn), y + 26 + 14 * math.cos(turn)) for turn in turns]
        ears.append(Polygon(tuple((x + sign * (at - x), height) for at, height in outline), "skin"))
    return [Polygon(nose, "skin"), *ears]


def _on_panel(zone: str, place: Point) -> Point:
    across, along = point_in_zone(zone, x=place[0], y=place[1])
    return point_on_map(across=across, along=along)


def _trace(points: list[Point]) -> Polyline:
    return Polyline(tuple(point_on_map(across=u, along=v) for u, v in points), _PARTING_MM, "parting")


def _partings() -> list[Shape]:
    ticks = [2 * step / _STEPS - 1 for step in range(_STEPS + 1)]
    lines = [_trace([(cut, tick) for tick in ticks]) for cut in (-0.335, 0.335)]
    lines += [_trace([(tick, cut) for tick in ticks]) for cut in (-0.335, 0.335)]
    edge = [(tick, 1.0) for tick in ticks] + [(1.0, -tick) for tick in ticks]
    edge += [(-tick, -1.0) for tick in ticks] + [(-1.0, tick) for tick in ticks]
    return [*lines, _trace(edge)]


def _bars(zone: Zone, count: int) -> list[Shape]:
    """Lay the tools of a zone side by side, each across the way the row runs, with its hair on it."""
    places = [_bar(zone, (index + 0.5) / count) for index in range(count)]
    gaps_mm = (math.dist(a, b) for one, other in pairwise(places) for a in one for b in other)
    wound_mm = min(_BAR_MM, 0.78 * min(gaps_mm, default=math.inf))
    bars: list[Shape] = []
    for bare in places:
        bars += [Polyline(bare, 0.62 * wound_mm, "tool"), Polyline(bare[2:-2], wound_mm, "strand")]
    return bars


def _bar(zone: Zone, part: float) -> tuple[Point, ...]:
    west, east, south, north = zone.span
    places = []
    for step in range(13):
        inner = 0.1 + 0.8 * step / 12
        across, along = (part, inner) if zone.view in ("left", "right") else (inner, part)
        places.append(
            point_on_map(across=west + (east - west) * across, along=south + (north - south) * along)
        )
    return tuple(places)


def _middle(zone: Zone) -> Point:
    west, east, south, north = zone.span
    return point_on_map(across=_INWARD * (west + east) / 2, along=_INWARD * (south + north) / 2)


def _sign(zone: Zone, direction: str, *, raised: bool, on_bars: bool) -> list[Shape]:
    """Draw a direction: an arrow, a swirl, or a ring where it points out of the map or into it."""
    x, y = _middle(zone)
    y += 8 if raised else 0
    plate: list[Shape] = [Disc((x, y), 0.66 * _ARROW_MM, "plate")] if on_bars else []
    if direction == WHORL:
        return [*plate, _swirl(x, y)]
    on_map = direction_on_map(zone.name, direction)
    if on_map is not None:
        dx, dy = (_ARROW_MM / 2 * part for part in on_map)
        return [*plate, Arrow((x - dx, y - dy), (x + dx, y + dy), 1.6, "key")]
    ring = Disc((x, y), 5.5, "key", filled=False, width_mm=1.4)
    if direction == _OUTWARD[zone.view]:
        return [*plate, ring, Disc((x, y), 1.8, "key")]
    cross = [Polyline(((x - 3, y - 3 * slope), (x + 3, y + 3 * slope)), 1.4, "key") for slope in (-1, 1)]
    return [*plate, ring, *cross]


def _swirl(x: float, y: float) -> Polyline:
    """Growth in a whorl has no arrow; the swirl is drawn clockwise outward, as most are."""
    turns = [2 * math.pi * step / 24 for step in range(49)]
    places = tuple(
        (x + (1 + 0.6 * turn) * math.sin(turn), y + (1 + 0.6 * turn) * math.cos(turn)) for turn in turns
    )
    return Polyline(places, 1.4, "key")


def _label(zone: Zone, words: str, *, lowered: bool, on_bars: bool) -> list[Shape]:
    x, y = _middle(zone)
    y -= 12 if lowered else 0
    size_mm = _TEXT_MM if len(words) > 1 else _LETTER_MM
    text = Text((x, y), words, size_mm, "ink")
    if not on_bars:
        return [text]
    half_mm = min(24.0, 1.5 + 0.28 * size_mm * len(words))
    low, high = y - 0.75 * size_mm, y + 0.75 * size_mm
    corners = ((x - half_mm, low), (x + half_mm, low), (x + half_mm, high), (x - half_mm, high))
    return [Polygon(corners, "plate"), text]
