"""The surface of a model head: places on it, and the way its hair grows.

The head is a half-egg over the plane of nasion (the dip above the nose), inion (the knob at the back) and
ears: an ellipse from above, from the side and from behind, as large as its tape measures say. Its sections
fan out from ear to ear, as partings do.

Axes are those of :mod:`drill.service.direction`: x to the client's right, y to the front, z up.
"""

import math
from functools import lru_cache
from typing import NamedTuple

from drill.service.head_model import LIVE_HEAD, HeadModel, zone_size

Vector = tuple[float, float, float]

_BREADTH_OF_LENGTH = 0.8  # from memory: heads are about four fifths as broad as long
_ARC_STEPS = 360
# A hair turns this far round the whorl in the middle of it, and straightens with distance.
_WHORL_TURN_DEG, _WHORL_REACH_MM = 80.0, 35.0
_WHORL_BEHIND_PARTING_MM = 12.0  # from memory: a little behind the vertex
_NO_WAY_MM = 1e-9


class Axes(NamedTuple):
    """Half axes of a head.

    Attributes:
        length_mm: From the middle to nasion and to inion.
        breadth_mm: From the middle to either side.
        height_mm: From the middle up to the vertex.
    """

    length_mm: float
    breadth_mm: float
    height_mm: float


def ellipse_round_mm(a_mm: float, b_mm: float) -> float:
    """Find the way round an ellipse.

    Args:
        a_mm: Half of one axis, more than 0.
        b_mm: Half of the other, more than 0.

    Returns:
        Its perimeter in millimetres.

    Source:
        Ramanujan's second approximation, off by less than one in a million for heads.
    """
    h = ((a_mm - b_mm) / (a_mm + b_mm)) ** 2
    return math.pi * (a_mm + b_mm) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


@lru_cache(maxsize=16)
def head_axes(head: HeadModel) -> Axes:
    """Find the half-egg that has a head's circumference and its arc from nasion to inion.

    Args:
        head: The head.

    Returns:
        Its half axes.

    Source:
        :func:`ellipse_round_mm`, solved for them; breadth four fifths of length, from memory.
    """
    length = head.circumference_mm / ellipse_round_mm(1, _BREADTH_OF_LENGTH)
    low, high = 0.1 * head.nasion_inion_mm, head.nasion_inion_mm
    for _ in range(60):
        middle = (low + high) / 2
        if ellipse_round_mm(length, middle) < 2 * head.nasion_inion_mm:
            low = middle
        else:
            high = middle
    return Axes(length, _BREADTH_OF_LENGTH * length, low)


@lru_cache(maxsize=64)
def _arc_table(a_mm: float, b_mm: float) -> tuple[float, ...]:
    """Ways from angle 0 along an ellipse, one a step of a whole turn."""
    ways, at = [0.0], (a_mm, 0.0)
    for step in range(1, _ARC_STEPS + 1):
        turn = 2 * math.pi * step / _ARC_STEPS
        to = (a_mm * math.cos(turn), b_mm * math.sin(turn))
        ways.append(ways[-1] + math.dist(at, to))
        at = to
    return tuple(ways)


def _angle_after(way_mm: float, a_mm: float, b_mm: float) -> float:
    """Angle of the ellipse's parameter after a way along it from the axis ``a``."""
    ways = _arc_table(a_mm, b_mm)
    step = next(at for at, way in enumerate(ways) if way >= way_mm or at == _ARC_STEPS)
    if step == 0:
        return 0.0
    part = min(1.0, (way_mm - ways[step - 1]) / (ways[step] - ways[step - 1]))
    return 2 * math.pi * (step - 1 + part) / _ARC_STEPS


def point_on_head(*, from_nasion_mm: float, from_midline_mm: float, head: HeadModel = LIVE_HEAD) -> Vector:
    """Find a place on a head.

    Args:
        from_nasion_mm: Way from nasion along the midline over the vertex, to where the place's fan from ear
            to ear crosses it.
        from_midline_mm: Way from the midline toward an ear, taken at the vertex; to the client's right more
            than 0.
        head: The head.

    Returns:
        x, y and z in millimetres from the middle between the ears.

    Source:
        An ellipsoid; fans of partings that meet at the ears, common practice.
    """
    axes = head_axes(head)
    turn = _angle_after(from_nasion_mm, axes.length_mm, axes.height_mm)
    away = _angle_after(abs(from_midline_mm), axes.height_mm, axes.breadth_mm)
    across = math.copysign(math.sin(away), from_midline_mm)
    return (
        axes.breadth_mm * across,
        axes.length_mm * math.cos(away) * math.cos(turn),
        axes.height_mm * math.cos(away) * math.sin(turn),
    )


def outward(point: Vector, *, head: HeadModel = LIVE_HEAD) -> Vector:
    """Find the way straight out of the scalp.

    Args:
        point: A place on the head.
        head: The head.

    Returns:
        A vector of length 1.

    Source:
        Gradient of the ellipsoid.
    """
    axes = head_axes(head)
    x, y, z = point
    return _unit((x / axes.breadth_mm**2, y / axes.length_mm**2, z / axes.height_mm**2))


def whorl_on_head(head: HeadModel = LIVE_HEAD) -> Vector:
    """Find the middle of the crown whorl.

    Args:
        head: The head.

    Returns:
        x, y and z in millimetres.

    Source:
        On the midline a little behind the parting between top and back; from memory.
    """
    from_nasion = head.forehead_mm + zone_size("top", head=head).length_mm + _WHORL_BEHIND_PARTING_MM
    return point_on_head(from_nasion_mm=from_nasion, from_midline_mm=0.0, head=head)


def growth_at(point: Vector, *, head: HeadModel = LIVE_HEAD) -> Vector:
    """Find the way in which hair grows at a place where nothing special was seen.

    Hair leaves the crown in a whorl and then falls away from it: to the front before it, down beside and
    behind it.

    Args:
        point: A place on the head.
        head: The head.

    Returns:
        A vector of length 1 along the scalp; in the whorl's very middle, where none is, to the front.

    Source:
        One whorl, clockwise in 51 to 94 heads of a hundred (McDonald, Myths of human genetics, with the
        studies named there); its reach is drawn, not measured.
    """
    middle, out = whorl_on_head(head), outward(point, head=head)
    away = (point[0] - middle[0], point[1] - middle[1], point[2] - middle[2])
    along = _along(away, out)
    if math.hypot(*along) < _NO_WAY_MM:
        return _unit(_along((0.0, 1.0, 0.0), out))
    radial = _unit(along)
    turn = math.radians(_WHORL_TURN_DEG) * math.exp(-math.hypot(*away) / _WHORL_REACH_MM)
    side = _cross(radial, out) if head.whorl == "clockwise" else _cross(out, radial)
    r, s = math.cos(turn), math.sin(turn)
    return (r * radial[0] + s * side[0], r * radial[1] + s * side[1], r * radial[2] + s * side[2])


def _along(way: Vector, out: Vector) -> Vector:
    """Take out of a way what leads straight out of the scalp."""
    off = way[0] * out[0] + way[1] * out[1] + way[2] * out[2]
    return (way[0] - off * out[0], way[1] - off * out[1], way[2] - off * out[2])


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(way: Vector) -> Vector:
    size = math.hypot(*way)
    return (way[0] / size, way[1] / size, way[2] / size)
