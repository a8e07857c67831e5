"""From a screen as a value to widgets: one part after the other, upright or on its side."""

from collections.abc import Callable, Iterable
from typing import Any

from kivy.core.window import Window
from kivy.graphics import Color, Rectangle
from kivy.metrics import dp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

from drill.app import theme
from drill.app.screen import Answer, Legend, Part, Picture, Press, PressRow, SchoolPicture, Screen, Words
from drill.app.touch import Touch, TouchFigure, TouchRow
from drill.app.widgets import Card, Column, DotsView, FigureView, Ground, Row, SignView, Text, dots_of
from drill.basis.words import say

Act = Callable[[str], object]

# No figure fills the window: what belongs to it stays in sight, on a phone that lies on its side too.
_MOST_OF_WINDOW = 0.5

_INKS = {"small": theme.QUIET_INK, "fact": theme.INK}
_SIGN_INKS = {"right": theme.RIGHT, "other": theme.OTHER, "stop": theme.STOP}


class ScreenView(Ground):
    """A screen on the window.

    Args:
        screen: What is on it.
        act: Called with the action of a touch.
        is_wide: Whether the window is wider than high.
    """

    def __init__(self, screen: Screen, *, act: Act, is_wide: bool) -> None:
        super().__init__(theme.GROUND, orientation="vertical")
        self.screen, self._act = screen, act
        self.scrolls: list[ScrollView] = []
        self.add_widget(self._bar())
        self.add_widget(_Share(screen.share))
        self.add_widget(self._body(is_wide=is_wide))
        if screen.caution or screen.foot:
            self.add_widget(self._foot(is_wide=is_wide))

    def touch(self, action: str) -> Touch | None:
        """Find the touch of an action."""
        found = (w for w in self.walk(restrict=True) if isinstance(w, Touch) and w.action == action)
        return next(found, None)

    def bring_into_view(self, *actions: str) -> None:
        """Scroll so that some touches can be seen, the last one above all.

        Args:
            actions: Their actions, top to bottom.
        """
        touches = [touch for action in actions if (touch := self.touch(action)) is not None]
        for scroll in self.scrolls:
            inside = [touch for touch in touches if touch in scroll.walk(restrict=True)]
            if inside:
                scroll_to_offset(scroll, _offset_for(scroll, inside))

    def _bar(self) -> Widget:
        bar = Ground(
            theme.CARD,
            orientation="horizontal",
            size_hint_y=None,
            height=dp(theme.BAR_DP),
            padding=(dp(theme.EDGE_DP / 2), dp(2)),
            spacing=dp(theme.GAP_DP),
        )
        if self.screen.leave is not None:
            leave = Touch(self.screen.leave, self._act, size_hint_x=None)
            leave.width = leave.natural_width
            leave.pos_hint = {"center_y": 0.5}
            bar.add_widget(leave)
        title = Text(self.screen.title, style="title")
        bar.add_widget(_middle(title))
        if self.screen.right:
            right = Text(self.screen.right, style="small", ink=theme.QUIET_INK, halign="right")
            right.size_hint_x = 0.6
            bar.add_widget(_middle(right))
        if self.screen.aid is not None:
            aid = Touch(self.screen.aid, self._act, size_hint_x=None)
            aid.width = aid.narrow_width
            aid.pos_hint = {"center_y": 0.5}
            bar.add_widget(aid)
        for text in [child for child in bar.children if isinstance(child, Text | Touch)]:
            text.bind(height=lambda *_: _grow_bar(bar))
        return bar

    def _body(self, *, is_wide: bool) -> Widget:
        if not is_wide or not self.screen.aside:
            return self._scroll((*self.screen.aside, *self.screen.parts))
        body = BoxLayout(orientation="horizontal")
        body.add_widget(self._scroll(self.screen.aside))
        body.add_widget(self._scroll(self.screen.parts))
        return body

    def _scroll(self, parts: Iterable[Part]) -> ScrollView:
        scroll = ScrollView(do_scroll_x=False, bar_width=dp(4), bar_color=(*theme.QUIET_INK, 0.5))
        column = Column(spacing_dp=12, padding_dp=theme.EDGE_DP)
        for part in parts:
            column.add_widget(self._part(part))
        column.bind(width=_keep_readable)
        scroll.add_widget(column)
        self.scrolls.append(scroll)
        return scroll

    def _foot(self, *, is_wide: bool) -> Widget:
        foot = Ground(
            theme.CAUTION_GROUND if self.screen.caution else theme.GROUND,
            orientation="horizontal" if is_wide and self.screen.foot else "vertical",
            size_hint_y=None,
            padding=(dp(theme.EDGE_DP), dp(8)),
            spacing=dp(theme.GAP_DP),
        )
        foot.bind(minimum_height=foot.setter("height"))
        if self.screen.caution:
            foot.add_widget(_middle(Text(self.screen.caution, style="small", ink=theme.QUIET_INK)))
        if self.screen.foot:
            foot.add_widget(_middle(TouchRow(self.screen.foot, self._act)))
        return foot

    def _part(self, part: Part) -> Widget:
        match part:
            case Words():
                return _words(part)
            case Press():
                return Touch(part, self._act)
            case PressRow():
                return TouchRow(part.presses, self._act)
            case Answer():
                return self._answer(part)
            case Picture():
                return _picture(part, self._act, most=Window.height * _MOST_OF_WINDOW)
            case SchoolPicture():
                return _school_picture(part, most=Window.height * _MOST_OF_WINDOW)
            case Legend():
                return _legend(part)

    def _answer(self, answer: Answer) -> Widget:
        choose = Touch(answer.press, self._act)
        if not answer.certainties:
            return choose
        card = Card(ground=theme.CHOSEN, edge=theme.MAIN, edge_dp=1.5, spacing_dp=8, padding_dp=8)
        card.add_widget(choose)
        card.add_widget(Text(answer.ask, style="label", ink=theme.QUIET_INK))
        for press in answer.certainties:
            card.add_widget(Touch(press, self._act))
        return card


def offset_of(scroll: ScrollView) -> float:
    """Tell how far a column is scrolled down, in pixels."""
    return float((1 - scroll.scroll_y) * _hidden(scroll))


def scroll_to_offset(scroll: ScrollView, offset: float) -> None:
    """Scroll a column down by so many pixels from its top, as far as it goes."""
    hidden = _hidden(scroll)
    if hidden > 0:
        scroll.scroll_y = 1 - min(max(offset, 0.0), hidden) / hidden


def _hidden(scroll: ScrollView) -> float:
    return max(0.0, float(scroll.children[0].height - scroll.height))


def _offset_for(scroll: ScrollView, touches: list[Touch]) -> float:
    """Find the least scrolling that shows the touches; where they do not all fit, the last ones."""
    column, edge = scroll.children[0], dp(theme.EDGE_DP)
    head = column.to_window(0, column.top)[1]
    high = min(head - touch.to_window(0, touch.top)[1] for touch in touches) - edge
    low = max(head - touch.to_window(0, touch.y)[1] for touch in touches) + edge
    return float(max(min(offset_of(scroll), high), low - scroll.height))


class _Share(Widget):
    """How far the sitting is, as a thin line; the bar says it in words."""

    def __init__(self, share: float | None) -> None:
        super().__init__(size_hint_y=None, height=dp(3 if share is not None else 1))
        self._part = share or 0.0
        with self.canvas:
            Color(*theme.LINE)
            self._all = Rectangle()
            Color(*theme.MAIN)
            self._done = Rectangle()
        self.bind(pos=self._follow, size=self._follow)

    def _follow(self, *_: object) -> None:
        self._all.pos, self._all.size = self.pos, self.size
        self._done.pos, self._done.size = self.pos, (self.width * self._part, self.height)


def _middle(widget: Widget) -> Widget:
    widget.pos_hint = {"center_y": 0.5}
    return widget


def _grow_bar(bar: Any) -> None:  # noqa: ANN401  kivy has no types
    highest = max(child.height for child in bar.children)
    bar.height = max(dp(theme.BAR_DP), highest + dp(8))


def _keep_readable(column: Any, width: float) -> None:  # noqa: ANN401  kivy has no types
    """Keep lines short on a wide window: the margins take what is left over."""
    edge = max(dp(theme.EDGE_DP), (width - dp(theme.READING_WIDTH_DP)) / 2)
    column.padding = (edge, dp(theme.EDGE_DP), edge, dp(theme.EDGE_DP))


def _words(words: Words) -> Widget:
    ink = _SIGN_INKS.get(words.sign, _INKS.get(words.style, theme.INK)) if words.style == "verdict" else None
    text = Text(words.text, style=words.style, ink=ink or _INKS.get(words.style, theme.INK))
    content: Widget = text
    if words.sign:
        content = Row(spacing_dp=10)
        content.add_widget(SignView(words.sign, line_sp=theme.TEXT_SIZES[words.style][0]))
        content.add_widget(text)
    if not words.label:
        return content
    column = Column(spacing_dp=2)
    column.add_widget(Text(words.label, style="label", ink=theme.QUIET_INK))
    column.add_widget(content)
    return column


def _picture(picture: Picture, act: Act, *, most: float) -> Widget:
    figure, height = picture.figure, min(dp(picture.height_dp), most)
    size = {"size_hint_y": None, "height": height}
    view = TouchFigure(figure, picture.touch, act, **size) if picture.touch else FigureView(figure, **size)
    content: Widget = view
    if picture.beside:
        view.size_hint_x, view.width = None, height * figure.width_mm / figure.height_mm
        content = Row(spacing_dp=14)
        content.add_widget(view)
        beside = Column(spacing_dp=6)
        for words in picture.beside:
            beside.add_widget(_words(words))
        content.add_widget(beside)
    else:
        view.bind(width=lambda one, width: _fit_height(one, height, width))
    if not picture.caption:
        return content
    column = Column(spacing_dp=4)
    column.add_widget(content)
    halign = "left" if picture.beside else "center"
    column.add_widget(Text(picture.caption, style="small", ink=theme.QUIET_INK, halign=halign))
    return column


def _fit_height(view: Any, most: float, width: float) -> None:  # noqa: ANN401  kivy has no types
    view.height = min(most, width * view.figure.height_mm / view.figure.width_mm)


def _school_picture(picture: SchoolPicture, *, most: float) -> Widget:
    """Draw a school's picture with its words beneath; the words alone where its bytes cannot be drawn."""
    dots = dots_of(picture.data, picture.kind)
    if dots is None:
        return Text(say("Picture: {words}", words=picture.words), style="body", ink=theme.INK)
    column, height = Column(spacing_dp=4), min(dp(picture.height_dp), most)
    view = DotsView(dots, size_hint_y=None, height=height)
    view.bind(width=lambda one, width: one.fit(height, width))
    column.add_widget(view)
    column.add_widget(Text(picture.words, style="small", ink=theme.QUIET_INK, halign="center"))
    return column


def _legend(legend: Legend) -> Widget:
    column = Column(spacing_dp=4)
    for figure, words in legend.rows:
        row = Row(spacing_dp=12, middle=True)
        height = dp(24)
        row.add_widget(
            FigureView(
                figure, size_hint=(None, None), size=(height * figure.width_mm / figure.height_mm, height)
            )
        )
        row.add_widget(_words(words))
        column.add_widget(row)
    return column
