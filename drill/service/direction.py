"""Directions on the head: angles between them, and where they point on the head map.

Axes of the head, of length 1: x to the client's right, y to the front, z up. ``left`` and ``right`` are the
client's.
"""

import math

from drill.service.zones import zone_named

Vector = tuple[float, float, float]

DIRECTIONS: dict[str, Vector] = {
    "forward": (0.0, 1.0, 0.0),
    "back": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
}
_AGAINST_DEG = 90

# The map is the head opened flat from above, face at the upper edge: what lies further down the head lies
# further out. Each view names the head's axes that point right and up on the map there.
_MAP_AXES: dict[str, tuple[Vector, Vector]] = {
    "top": (DIRECTIONS["right"], DIRECTIONS["forward"]),
    "back": (DIRECTIONS["right"], DIRECTIONS["up"]),
    "left": (DIRECTIONS["up"], DIRECTIONS["forward"]),
    "right": (DIRECTIONS["down"], DIRECTIONS["forward"]),
}


def _vector(direction: str) -> Vector:
    if direction not in DIRECTIONS:
        raise ValueError(f"direction must be one of {', '.join(DIRECTIONS)}, got {direction}")
    return DIRECTIONS[direction]


def _dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def angle_deg(a: str, b: str) -> float:
    """Measure the angle between two directions.

    Args:
        a: Name of a direction.
        b: Name of the other.

    Returns:
        Degrees, from 0 (the same) to 180 (opposite).

    Raises:
        ValueError: If a name is unknown.

    Source:
        Angle of unit vectors by their dot product.
    """
    return math.degrees(math.acos(_dot(_vector(a), _vector(b))))


def opposes(a: str, b: str) -> bool:
    """Tell whether two directions are against each other.

    Args:
        a: Name of a direction, such as that of rolling.
        b: Name of the other, such as that of growth.

    Returns:
        True where they are more than 90 degrees apart: across is not against.

    Raises:
        ValueError: If a name is unknown.

    Source:
        common practice.
    """
    return angle_deg(a, b) > _AGAINST_DEG


def direction_on_map(zone: str, direction: str) -> tuple[float, float] | None:
    """Find where a direction points on a zone's panel of the head map.

    Args:
        zone: Name of the zone.
        direction: Name of the direction.

    Returns:
        x and y of length 1, y up; None where the direction points straight into or out of the panel.

    Raises:
        ValueError: If a name is unknown.

    Source:
        Orthogonal projection on the panel's plane; the map is a drawing, not a measure.
    """
    along = _vector(direction)
    to_right, to_top = _MAP_AXES[zone_named(zone).view]
    on_map = (_dot(along, to_right), _dot(along, to_top))
    return on_map if any(on_map) else None
