"""Figures to SVG: one of the painters of :mod:`drill.service.shapes`, for pages and printers.

The colours stay apart in print without colour: each role differs in lightness, and those that must never be
mistaken for another have a pattern too.
"""

from collections.abc import Iterator
from html import escape

from drill.basis.length import number_text
from drill.report.page import clean_text
from drill.service.shapes import Arrow, Disc, Figure, Point, Polygon, Polyline, Shape, Text, arrow_head

# Fill or stroke by role; dark lines on light grounds, so that a grey printer keeps them apart.
COLOURS = {
    "skin": "#f3e9e1",
    "scalp": "#fbf7f3",
    "base": "#e9dccf",
    "strand": "#b89878",
    "tool": "#3f4d57",
    "gap": "url(#gap)",
    "parting": "#6f655c",
    "chosen": "url(#chosen)",
    "key": "#0b4a6f",
    "plate": "#ffffff",
    "ink": "#141414",
    "soft": "#8d8d8d",
}
# Width of the pattern's square, its ground, and what is drawn on it.
_PATTERNS = {
    "gap": (2, "#ffffff", '<path d="M0 2L2 0" stroke="#8c1d18" stroke-width="0.7"/>'),
    "chosen": (3, "#dcebf3", '<circle cx="1.5" cy="1.5" r="0.45" fill="#0b4a6f"/>'),
}


def figure_svg(figure: Figure, *, name: str = "figure") -> str:
    """Paint a figure as SVG, whole in itself.

    Args:
        figure: The figure.
        name: Start of the ids in it; figures on one page need different ones. Letters, digits and hyphens.

    Returns:
        An ``svg`` element with its title and description, nothing taken from outside it; as a file of its own
        or inside a page.

    Raises:
        ValueError: If the name has other characters.
    """
    if not name or not name.replace("-", "").isalnum() or not name.isascii():
        raise ValueError(f"name must be letters, digits and hyphens, got {name}")
    width, height = _number(figure.width_mm), _number(figure.height_mm)
    paint = _Paint(figure.height_mm, name)
    body = "\n".join(part for shape in figure.shapes for part in paint.shape(shape))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img" aria-labelledby="{name}-title {name}-about">\n'
        f'<title id="{name}-title">{markup_text(figure.title)}</title>\n'
        f'<desc id="{name}-about">{markup_text(figure.description)}</desc>\n'
        f"{_definitions(name, body)}{body}\n</svg>\n"
    )


def markup_text(text: str) -> str:
    """Write a text so that it is a text in XML and HTML, whatever it holds.

    Args:
        text: Any text, such as a client's label out of a file.

    Returns:
        The text with markup's characters escaped; characters that no page may hold are blanks.
    """
    allowed = (one if one not in "\ufffe\uffff" else " " for one in clean_text(text))
    return escape("".join(allowed), quote=True)


def _definitions(name: str, body: str) -> str:
    used = [key for key in _PATTERNS if f"url(#{name}-{key})" in body]
    if not used:
        return ""
    patterns = ""
    for key in used:
        size, ground, drawn = _PATTERNS[key]
        patterns += (
            f'<pattern id="{name}-{key}" width="{size}" height="{size}" patternUnits="userSpaceOnUse">'
            f'<rect width="{size}" height="{size}" fill="{ground}"/>{drawn}</pattern>'
        )
    return f"<defs>{patterns}</defs>\n"


def _number(value: float) -> str:
    return number_text(value, digits=2)


class _Paint:
    """Turns shapes, y up, into elements, y down."""

    def __init__(self, height_mm: float, name: str) -> None:
        self._height_mm, self._name = height_mm, name

    def shape(self, shape: Shape) -> Iterator[str]:
        if isinstance(shape, Polyline):
            yield self._line(shape.points, shape.width_mm, shape.role)
        elif isinstance(shape, Polygon):
            yield self._area(shape.points, shape.role)
        elif isinstance(shape, Disc):
            yield self._disc(shape)
        elif isinstance(shape, Arrow):
            triangle, shaft = arrow_head(shape)
            yield self._line((shape.start, shaft), shape.width_mm, shape.role)
            yield self._area(triangle, shape.role)
        else:
            yield self._text(shape)

    def _colour(self, role: str) -> str:
        return COLOURS[role].replace("url(#", f"url(#{self._name}-")

    def _at(self, point: Point) -> tuple[str, str]:
        return _number(point[0]), _number(self._height_mm - point[1])

    def _points(self, points: tuple[Point, ...]) -> str:
        return " ".join(",".join(self._at(point)) for point in points)

    def _line(self, points: tuple[Point, ...], width_mm: float, role: str) -> str:
        return (
            f'<polyline points="{self._points(points)}" fill="none" stroke="{self._colour(role)}" '
            f'stroke-width="{_number(width_mm)}" stroke-linecap="round" stroke-linejoin="round"/>'
        )

    def _area(self, points: tuple[Point, ...], role: str) -> str:
        return f'<polygon points="{self._points(points)}" fill="{self._colour(role)}"/>'

    def _disc(self, disc: Disc) -> str:
        x, y = self._at(disc.center)
        paint = (
            f'fill="{self._colour(disc.role)}"'
            if disc.filled
            else f'fill="none" stroke="{self._colour(disc.role)}" stroke-width="{_number(disc.width_mm)}"'
        )
        return f'<circle cx="{x}" cy="{y}" r="{_number(disc.radius_mm)}" {paint}/>'

    def _text(self, text: Text) -> str:
        x, y = self._at((text.at[0], text.at[1] - 0.35 * text.size_mm))
        return (
            f'<text x="{x}" y="{y}" font-size="{_number(text.size_mm)}" font-family="sans-serif" '
            f'text-anchor="{text.anchor}" fill="{self._colour(text.role)}">{markup_text(text.text)}</text>'
        )
