"""Figures as data: shapes in millimetres, y up, with roles in place of colours.

A painter (a screen, a page) walks through the shapes in order, first ones lowest, and chooses the colour of
each role; it decides nothing else.

=========  =========================================================================
``skin``   the head where no hair is
``scalp``  the scalp, and sections of the head
``base``   the piece of scalp that feeds one tool
``strand`` hair
``tool``   the tool itself
``gap``    hair that stays uncurled
``parting`` the line between two bases or sections
``chosen`` what the figure is about
``key``    a sign that carries the meaning: an arrow, an angle
``plate``  the quiet ground under a text
``ink``    text and firm outlines
``soft``   lines that help the eye
=========  =========================================================================
"""

import math
from dataclasses import dataclass

Point = tuple[float, float]

ROLES = (
    "skin", "scalp", "base", "strand", "tool", "gap", "parting", "chosen", "key", "plate", "ink", "soft",
)  # fmt: skip
ANCHORS = ("start", "middle", "end")


@dataclass(frozen=True, slots=True)
class Polyline:
    """A line through points, with round ends and corners.

    Attributes:
        points: Two or more, in order.
        width_mm: Whole thickness of the line.
        role: What it stands for.
    """

    points: tuple[Point, ...]
    width_mm: float
    role: str


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled area.

    Attributes:
        points: Its corners in order, the first not repeated.
        role: What it stands for.
        key: Names what a touch on it means, such as a zone; empty where it means nothing.
    """

    points: tuple[Point, ...]
    role: str
    key: str = ""


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle, filled or drawn.

    Attributes:
        center: Its middle.
        radius_mm: Its radius, to the middle of the line where it is drawn.
        role: What it stands for.
        filled: Whether it is filled.
        width_mm: Thickness of the line where it is not filled.
    """

    center: Point
    radius_mm: float
    role: str
    filled: bool = True
    width_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow with its head at the end.

    Attributes:
        start: Where it begins.
        end: Its tip.
        width_mm: Thickness of the shaft; the head is four times as wide.
        role: What it stands for.
    """

    start: Point
    end: Point
    width_mm: float
    role: str


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text, its middle height at a point.

    Attributes:
        at: The point.
        text: The words, in the reader's language already.
        size_mm: Size of the letters.
        role: What it stands for.
        anchor: Which part of the line is at the point: ``start``, ``middle`` or ``end``.
    """

    at: Point
    text: str
    size_mm: float
    role: str
    anchor: str = "middle"


Shape = Polyline | Polygon | Disc | Arrow | Text


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing from 0, 0 at its lower left corner.

    Attributes:
        width_mm: Its width.
        height_mm: Its height.
        shapes: What to draw, the lowest first.
        title: A few words.
        description: Sentences for someone who can't see it.
    """

    width_mm: float
    height_mm: float
    shapes: tuple[Shape, ...]
    title: str
    description: str


def arrow_head(arrow: Arrow) -> tuple[tuple[Point, Point, Point], Point]:
    """Find the triangle at the tip of an arrow, and where its shaft stops.

    Args:
        arrow: An arrow longer than 0.

    Returns:
        The triangle, tip first, and the end of the shaft inside it.

    Raises:
        ValueError: If the arrow has no length.

    Source:
        Drawing only.
    """
    (x0, y0), (x1, y1) = arrow.start, arrow.end
    length_mm = math.hypot(x1 - x0, y1 - y0)
    if not length_mm > 0:
        raise ValueError("an arrow needs two places")
    along, half_mm = ((x1 - x0) / length_mm, (y1 - y0) / length_mm), 2 * arrow.width_mm
    back = (x1 - 2 * half_mm * along[0], y1 - 2 * half_mm * along[1])
    left = (back[0] - half_mm * along[1], back[1] + half_mm * along[0])
    right = (back[0] + half_mm * along[1], back[1] - half_mm * along[0])
    return ((x1, y1), left, right), (back[0] + along[0] * arrow.width_mm, back[1] + along[1] * arrow.width_mm)


def is_inside(points: tuple[Point, ...], *, x: float, y: float) -> bool:
    """Tell whether a point lies inside an outline.

    Args:
        points: Corners in order, the first not repeated.
        x: Of the point, in the outline's own measure.
        y: Of the point.

    Returns:
        True inside; on the edge itself it may be either, so neighbours that share an edge never both hold
        a point.

    Source:
        Even-odd rule.
    """
    inside = False
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside
