"""What can be touched: words on a ground, at least as large as a finger."""

from collections.abc import Callable, Iterable
from typing import Any

from kivy.graphics import Color, SmoothEllipse, SmoothLine, SmoothRoundedRectangle
from kivy.metrics import dp, sp
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from drill.app import theme
from drill.app.paint import place_figure
from drill.app.screen import Press
from drill.app.widgets import FigureView, Text
from drill.service.head_map import zone_at
from drill.service.shapes import Figure

_TEXTS = {"main": "main", "aid": "label"}
_SIDES_DP = {"fold": 0, "aid": 8, "leave": 10}


class Touch(ButtonBehavior, BoxLayout):
    """Words to touch, at least as large as a finger."""

    def __init__(self, press: Press, act: Callable[[str], object], **more: Any) -> None:  # noqa: ANN401
        super().__init__(orientation="horizontal", spacing=dp(10), size_hint_y=None, **more)
        self.press_value, self._act = press, act
        ground, ink, edge = _touch_colors(press)
        self._grounds = (ground, _darker(ground))
        if press.style in ("choice", "inside", "certainty", "fold"):
            self._add_sign(press)
        halign = "center" if press.style in ("main", "plain", "leave", "aid") else "left"
        self.text = Text(press.text, style=_TEXTS.get(press.style, "press"), ink=ink, halign=halign)
        self.text.pos_hint = {"center_y": 0.5}
        self.add_widget(self.text)
        side = dp(_SIDES_DP.get(press.style, 14))
        above = dp(2 if press.style == "aid" else 10)
        self.padding = (side, above, side, above)
        self.text.bind(height=self._grow)
        with self.canvas.before:
            self._color = Color(*ground)
            self._ground = SmoothRoundedRectangle(radius=[dp(theme.CARD_RADIUS_DP)])
            Color(*edge)
            self._edge = SmoothLine(width=dp(1.5 if press.is_on else theme.LINE_DP) / 2)
        self.bind(pos=self._follow, size=self._follow, state=self._follow)
        self._grow()

    @property
    def action(self) -> str:
        """What a touch asks for."""
        return self.press_value.action

    @property
    def natural_width(self) -> float:
        """Width of all that is in it, the text on one line."""
        beside = sum(child.width + self.spacing for child in self.children if child is not self.text)
        return float(self.padding[0] + beside + self.text.natural_width + self.padding[2] + 1)

    @property
    def narrow_width(self) -> float:
        """Width of the longest word, the text on as many lines as it has words; never below a finger's."""
        words = [
            Text(word, style=_TEXTS.get(self.press_value.style, "press")) for word in self.text.words.split()
        ]
        widest = max(word.natural_width for word in words)
        return float(max(dp(theme.TARGET_DP), self.padding[0] + widest + self.padding[2] + 2))

    def on_release(self) -> None:
        """Ask for it."""
        self._act(self.action)

    def _add_sign(self, press: Press) -> None:
        sign = _PressSign(press)
        sign.pos_hint = {"center_y": 0.5}
        self.add_widget(sign)

    def _grow(self, *_: object) -> None:
        air = dp(8 if self.press_value.style == "aid" else 22)
        self.needed = max(dp(theme.TARGET_DP), self.text.height + air)
        self.height = self.needed

    def _follow(self, *_: object) -> None:
        self._color.rgb = self._grounds[self.state == "down"]
        self._ground.pos, self._ground.size = self.pos, self.size
        self._edge.rounded_rectangle = (*self.pos, *self.size, dp(theme.CARD_RADIUS_DP))


class TouchFigure(ButtonBehavior, FigureView):
    """A figure whose parts can be touched.

    Args:
        figure: The figure.
        verb: What a touch on a part asks for, before the part's key.
        act: Called with the action.
    """

    def __init__(
        self,
        figure: Figure,
        verb: str,
        act: Callable[[str], object],
        **more: Any,  # noqa: ANN401  kivy's own form
    ) -> None:
        super().__init__(figure=figure, **more)
        self._verb, self._act = verb, act

    def on_release(self) -> None:
        """Ask for the part that was touched; beside all of them nothing is asked for."""
        place = place_figure(self.figure, pos=self.pos, size=self.size)
        x, y = self.last_touch.pos
        key = zone_at(self.figure, x=(x - place.x) / place.scale, y=(y - place.y) / place.scale)
        if key is not None:
            self._act(f"{self._verb}:{key}")


class TouchRow(BoxLayout):
    """Touches side by side, all as high as the highest; one under the other where a text would break."""

    def __init__(self, presses: Iterable[Press], act: Callable[[str], object]) -> None:
        super().__init__(spacing=dp(theme.GAP_DP), size_hint_y=None)
        self._touches = [Touch(press, act) for press in presses]
        for touch in self._touches:
            touch.bind(height=self._grow)
            self.add_widget(touch)
        self._widest = max(touch.natural_width for touch in self._touches)
        self.bind(width=self._grow)
        self._grow()

    def _grow(self, *_: object) -> None:
        count = len(self._touches)
        gaps = self.spacing * (count - 1)
        fits = count * self._widest + gaps <= self.width
        self.orientation = "horizontal" if fits else "vertical"
        highest = max(touch.needed for touch in self._touches)
        for touch in self._touches:
            touch.height = highest
        self.height = highest if fits else count * highest + gaps


class _PressSign(Widget):
    """The mark before a choice: an empty or a filled ring; for a fold a wedge, to the right or down."""

    def __init__(self, press: Press) -> None:
        super().__init__(size_hint=(None, None), size=(sp(16), sp(16)))
        self._press = press
        self.bind(pos=self._paint)

    def _paint(self, *_: object) -> None:
        self.canvas.clear()
        middle_x, middle_y, reach = self.center_x, self.center_y, 0.3 * self.width
        with self.canvas:
            Color(*theme.MAIN)
            if self._press.style in ("choice", "inside"):
                SmoothLine(circle=(middle_x, middle_y, 0.44 * self.width), width=dp(0.8))
                if self._press.is_on:
                    size = 0.5 * self.width
                    SmoothEllipse(pos=(middle_x - size / 2, middle_y - size / 2), size=(size, size))
                return
            if self._press.is_on:
                points = [middle_x - reach, middle_y + reach / 2, middle_x, middle_y - reach / 2]
                points += [middle_x + reach, middle_y + reach / 2]
            else:
                points = [middle_x - reach / 2, middle_y + reach, middle_x + reach / 2, middle_y]
                points += [middle_x - reach / 2, middle_y - reach]
            SmoothLine(points=points, width=dp(1))


def _touch_colors(press: Press) -> tuple[theme.Color, theme.Color, theme.Color]:
    if press.style == "main":
        return theme.MAIN, theme.ON_MAIN, theme.MAIN
    if press.style == "fold":
        return theme.GROUND, theme.MAIN, theme.GROUND
    if press.style == "leave":
        return theme.CARD, theme.MAIN, theme.CARD
    if press.style == "aid":
        return theme.CARD, theme.STOP, theme.STOP
    if press.style == "inside":
        return theme.CHOSEN, theme.INK, theme.CHOSEN
    if press.is_on:
        return theme.CHOSEN, theme.INK, theme.MAIN
    ink = theme.MAIN if press.style in ("certainty", "plain") else theme.INK
    return theme.CARD, ink, theme.LINE


def _darker(ground: theme.Color) -> theme.Color:
    red, green, blue = (0.88 * part for part in ground)
    return (red, green, blue)
