"""Paint figures: shapes in millimetres onto a canvas in pixels, the colour chosen by role."""

from typing import Any, NamedTuple

from kivy.core.text.markup import MarkupLabel
from kivy.graphics import (
    Color,
    InstructionGroup,
    Mesh,
    Rectangle,
    SmoothEllipse,
    SmoothLine,
)
from kivy.graphics.tesselator import Tesselator

from drill.app.theme import ROLE_COLORS, marked
from drill.service.shapes import Arrow, Disc, Figure, Point, Polygon, Polyline, Shape, Text, arrow_head

# A thinner line than this is drawn this thick, so that it is seen.
_THINNEST_PX = 1.1
_EDGE_PX = 1.0
# A thinner line's ends are too small to be seen as round.
_ROUND_FROM_PX = 3.0


class Place(NamedTuple):
    """Where a figure lies on the canvas.

    Attributes:
        x: Left edge, pixels.
        y: Lower edge, pixels.
        scale: Pixels for a millimetre.
    """

    x: float
    y: float
    scale: float

    def at(self, point: Point) -> Point:
        """Give a point of the figure in pixels."""
        return (self.x + point[0] * self.scale, self.y + point[1] * self.scale)


def place_figure(figure: Figure, *, pos: Point, size: Point) -> Place:
    """Fit a figure into a box, in its middle.

    Args:
        figure: The figure.
        pos: Lower left corner of the box, pixels.
        size: Its width and height, pixels.

    Returns:
        The place.
    """
    scale = min(size[0] / figure.width_mm, size[1] / figure.height_mm)
    x = pos[0] + (size[0] - figure.width_mm * scale) / 2
    y = pos[1] + (size[1] - figure.height_mm * scale) / 2
    return Place(x, y, scale)


def paint_figure(figure: Figure, place: Place) -> InstructionGroup:
    """Paint a figure.

    Args:
        figure: The figure.
        place: Where.

    Returns:
        What to add to a canvas.
    """
    group = InstructionGroup()
    role = ""
    for shape in figure.shapes:
        if shape.role != role:
            role = shape.role
            group.add(Color(*ROLE_COLORS[role]))
        for instruction in _paint(shape, place):
            group.add(instruction)
    return group


def _paint(shape: Shape, place: Place) -> list[Any]:
    match shape:
        case Polyline():
            return [_line(shape.points, shape.width_mm, place), *_ends(shape, place)]
        case Polygon():
            return _area(shape.points, place)
        case Disc():
            return [_disc(shape, place)]
        case Arrow():
            head, stop = arrow_head(shape)
            return [_line((shape.start, stop), shape.width_mm, place), *_area(head, place)]
        case Text():
            return [_text(shape, place)]


def _line(points: tuple[Point, ...], width_mm: float, place: Place) -> Any:  # noqa: ANN401  kivy has no types
    flat = [part for point in points for part in place.at(point)]
    width_px = max(width_mm * place.scale, _THINNEST_PX)
    return SmoothLine(points=flat, width=width_px / 2, joint="round", cap="round")


def _ends(shape: Polyline, place: Place) -> list[Any]:
    """Round the ends, which smooth lines leave square."""
    if shape.width_mm * place.scale <= _ROUND_FROM_PX or shape.points[0] == shape.points[-1]:
        return []
    radius_mm = shape.width_mm / 2
    return [_disc(Disc(end, radius_mm, shape.role), place) for end in (shape.points[0], shape.points[-1])]


def _area(points: tuple[Point, ...], place: Place) -> list[Any]:
    flat = [part for point in points for part in place.at(point)]
    tesselator = Tesselator()
    tesselator.add_contour(flat)
    tesselator.tesselate()
    meshes = [
        Mesh(vertices=vertices, indices=indices, mode="triangle_fan")
        for vertices, indices in tesselator.meshes
    ]
    # The mesh has hard edges; a thin smooth line of its colour takes the steps away.
    edge = SmoothLine(points=flat, width=_EDGE_PX / 2, close=True, joint="round")
    return [*meshes, edge]


def _disc(shape: Disc, place: Place) -> Any:  # noqa: ANN401  kivy has no types
    x, y = place.at(shape.center)
    radius = shape.radius_mm * place.scale
    if shape.filled:
        return SmoothEllipse(pos=(x - radius, y - radius), size=(2 * radius, 2 * radius))
    width_px = max(shape.width_mm * place.scale, _THINNEST_PX)
    return SmoothLine(circle=(x, y, radius), width=width_px / 2)


def _text(shape: Text, place: Place) -> Any:  # noqa: ANN401  kivy has no types
    label = MarkupLabel(text=marked(shape.text), font_size=max(shape.size_mm * place.scale, 1))
    label.refresh()
    width, height = label.texture.size
    x, y = place.at(shape.at)
    x -= {"start": 0.0, "middle": width / 2, "end": width}[shape.anchor]
    return Rectangle(texture=label.texture, pos=(round(x), round(y - height / 2)), size=(width, height))
