"""The few widgets that the screens are made of: texts, boxes, figures and signs."""

from io import BytesIO
from typing import Any

from kivy.core.image import Image, Texture
from kivy.core.text.markup import MarkupLabel
from kivy.graphics import Color, Rectangle, SmoothEllipse, SmoothLine, SmoothRoundedRectangle
from kivy.metrics import dp, sp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from drill.app import theme
from drill.app.paint import paint_figure, place_figure
from drill.app.screen import PictureKind, Sign
from drill.service.shapes import Figure

_SIGN_SP = 20.0
_LINE_HEIGHT = 1.3
_SIGN_COLORS = {"right": theme.RIGHT, "other": theme.OTHER, "stop": theme.STOP}


class Text(Label):
    """A text that wraps to its width and is as high as its lines."""

    def __init__(
        self, text: str, *, style: str = "body", ink: theme.Color = theme.INK, halign: str = "left"
    ) -> None:
        size_sp, bold = theme.TEXT_SIZES[style]
        super().__init__(
            text=theme.marked(text),
            markup=True,
            font_size=sp(size_sp),
            bold=bold,
            color=(*ink, 1),
            halign=halign,
            line_height=1.12,
            size_hint_y=None,
        )
        self.words = text
        self.bind(width=self._wrap, texture_size=self._grow)

    @property
    def natural_width(self) -> float:
        """Width of the text on one line."""
        label = MarkupLabel(text=self.text, font_size=self.font_size, bold=self.bold)
        label.refresh()
        return float(label.texture.width)

    def _wrap(self, *_: object) -> None:
        self.text_size = (self.width, None)

    def _grow(self, *_: object) -> None:
        self.height = self.texture_size[1]


class Column(BoxLayout):
    """Things one under the other, as high as they are together."""

    def __init__(self, *, spacing_dp: float = theme.GAP_DP, padding_dp: float = 0.0) -> None:
        super().__init__(
            orientation="vertical", spacing=dp(spacing_dp), padding=dp(padding_dp), size_hint_y=None
        )
        self.bind(minimum_height=self.setter("height"))


class Row(BoxLayout):
    """Things side by side, as high as the highest of them; each stands at the top, or in the middle."""

    def __init__(self, *, spacing_dp: float = theme.GAP_DP, middle: bool = False) -> None:
        super().__init__(orientation="horizontal", spacing=dp(spacing_dp), size_hint_y=None)
        self._middle = middle

    def add_widget(self, widget: Widget, *args: Any, **more: Any) -> None:  # noqa: ANN401  kivy's own form
        """Add a widget and follow its height."""
        widget.pos_hint = {"center_y": 0.5} if self._middle else {"top": 1}
        widget.bind(height=self._grow)
        super().add_widget(widget, *args, **more)
        self._grow()

    def _grow(self, *_: object) -> None:
        self.height = max((child.height for child in self.children), default=0)


class FigureView(Widget):
    """A figure, painted as large as the widget allows."""

    def __init__(self, figure: Figure, **more: Any) -> None:  # noqa: ANN401  kivy's own form
        super().__init__(**more)
        self.figure = figure
        self.bind(pos=self._paint, size=self._paint)
        self._paint()

    def _paint(self, *_: object) -> None:
        self.canvas.clear()
        if self.width > 0 and self.height > 0:
            self.canvas.add(
                paint_figure(self.figure, place_figure(self.figure, pos=self.pos, size=self.size))
            )


def dots_of(data: bytes, kind: PictureKind) -> Texture | None:
    """Decode a picture.

    Args:
        data: The file; its header was looked at before.
        kind: How it is written.

    Returns:
        Its dots; None where the decoder refuses it, in whatever way.
    """
    try:
        return Image(BytesIO(data), ext=kind, nocache=True).texture
    except Exception:  # each decoder has its own way to fail
        return None


class DotsView(Widget):
    """A picture of dots, as large as the widget allows, never drawn out of shape."""

    def __init__(self, dots: Texture, **more: Any) -> None:  # noqa: ANN401  kivy's own form
        super().__init__(**more)
        self.dots = dots
        with self.canvas:
            Color(1, 1, 1, 1)
            self._drawn = Rectangle(texture=dots)
        self.bind(pos=self._follow, size=self._follow)

    def fit(self, most: float, width: float) -> None:
        """Be as high as the picture at a width, and at most so high."""
        self.height = min(most, width * self.dots.height / self.dots.width)

    def _follow(self, *_: object) -> None:
        scale = min(self.width / self.dots.width, self.height / self.dots.height)
        self._drawn.size = (self.dots.width * scale, self.dots.height * scale)
        self._drawn.pos = (
            self.center_x - self._drawn.size[0] / 2,
            self.center_y - self._drawn.size[1] / 2,
        )


class SignView(Widget):
    """A small drawn sign, in the middle of a line of text; its shape tells it apart, not its colour.

    Args:
        sign: Which one.
        line_sp: Size of the text beside it.
    """

    def __init__(self, sign: Sign, *, line_sp: float) -> None:
        line = sp(max(_SIGN_SP, line_sp * _LINE_HEIGHT))
        super().__init__(size_hint=(None, None), size=(sp(_SIGN_SP), line))
        self.sign = sign
        self.bind(pos=self._paint, size=self._paint)
        self._paint()

    def _paint(self, *_: object) -> None:
        self.canvas.clear()
        with self.canvas:
            Color(*_SIGN_COLORS[self.sign])
            {
                "right": self._right,
                "other": self._other,
                "stop": self._stop,
            }[self.sign]()

    def _points(self, *places: tuple[float, float]) -> list[float]:
        return [
            part
            for across, up in places
            for part in (self.x + across * self.width, self._low + up * self.width)
        ]

    @property
    def _low(self) -> float:
        """Lower edge of the square that the sign fills."""
        return float(self.center_y - self.width / 2)

    def _ring(self) -> None:
        SmoothLine(circle=(self.center_x, self.center_y, 0.42 * self.width), width=dp(0.9))

    def _right(self) -> None:
        self._ring()
        SmoothLine(points=self._points((0.29, 0.52), (0.44, 0.36), (0.72, 0.68)), width=dp(1.1))

    def _other(self) -> None:
        corners = self._points((0.5, 0.98), (0.98, 0.5), (0.5, 0.02), (0.02, 0.5))
        SmoothLine(points=corners, close=True, width=dp(0.9))
        SmoothLine(points=self._points((0.34, 0.5), (0.66, 0.5)), width=dp(1.1))

    def _stop(self) -> None:
        SmoothRoundedRectangle(
            pos=(self.x + 0.04 * self.width, self._low + 0.04 * self.width),
            size=(0.92 * self.width, 0.92 * self.width),
            radius=[dp(3)],
        )
        Color(*theme.CARD)
        SmoothLine(points=self._points((0.5, 0.78), (0.5, 0.46)), width=dp(1.2))
        SmoothEllipse(pos=(self.center_x - dp(1.4), self._low + 0.2 * self.width), size=(dp(2.8), dp(2.8)))


class Ground(BoxLayout):
    """A box with a ground of one colour."""

    def __init__(self, ground: theme.Color, **more: Any) -> None:  # noqa: ANN401  kivy's own form
        super().__init__(**more)
        with self.canvas.before:
            Color(*ground)
            self._ground = Rectangle(pos=self.pos, size=self.size)
        self.bind(pos=self._follow, size=self._follow)

    def _follow(self, *_: object) -> None:
        self._ground.pos, self._ground.size = self.pos, self.size


class Card(Column):
    """A column on a rounded ground with an edge."""

    def __init__(
        self,
        *,
        ground: theme.Color = theme.CARD,
        edge: theme.Color = theme.LINE,
        edge_dp: float = theme.LINE_DP,
        **more: Any,  # noqa: ANN401  kivy's own form
    ) -> None:
        super().__init__(**more)
        with self.canvas.before:
            Color(*ground)
            self._ground = SmoothRoundedRectangle(radius=[dp(theme.CARD_RADIUS_DP)])
            Color(*edge)
            self._edge = SmoothLine(width=dp(edge_dp) / 2)
        self.bind(pos=self._follow, size=self._follow)

    def _follow(self, *_: object) -> None:
        self._ground.pos, self._ground.size = self.pos, self.size
        self._edge.rounded_rectangle = (*self.pos, *self.size, dp(theme.CARD_RADIUS_DP))
