"""The application on its window: the one place where Kivy's life meets the session's."""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.floatlayout import FloatLayout

from drill.app import theme
from drill.app.opening import opening_screen, problem_screen
from drill.app.screen import AID, Screen
from drill.app.screens import ScreenView, offset_of, scroll_to_offset
from drill.app.show_aid import CLOSE, aid_screen
from drill.basis.problem import Problem, ProblemsError
from drill.basis.words import say

if TYPE_CHECKING:
    from drill.app.flow import Flow
    from drill.study.session import Session

BACK_KEY = 27
# These follow each other without a jump to the top.
_STAY = ({"question", "certainty"}, {"reveal"}, {"today"}, {"lotion_seen"})


class WaveApp(App):
    """The screens of one session.

    Args:
        session: The student at work, or what opens it once the first screen is drawn.
        told: What is told before the first screen, until a touch goes on.
    """

    def __init__(self, session: "Session | Callable[[], Session]", *, told: Iterable[Problem] = ()) -> None:
        super().__init__()
        self._told = tuple(told)
        self.flow: Flow | None = None
        if callable(session):
            self._open = session
        else:
            self._take_up(session)
        self.view: ScreenView | None = None
        self._ticks: Any = None
        self._screen = opening_screen()
        # What lies below the first-aid screen while that is open.
        self._below: Screen | None = None

    def build(self) -> FloatLayout:
        """Draw the first screen; the session is opened after it."""
        Window.clearcolor = (*theme.GROUND, 1)
        self.title = say("Wave drill")
        self.root = FloatLayout()
        self.show(self._first_screen())
        return self.root

    def on_start(self) -> None:
        """Listen to the window, and open the session where that is still to do."""
        Window.bind(on_keyboard=self._on_keyboard, size=self._on_size)
        self._ticks = Clock.schedule_interval(self._on_tick, 1)
        if self.flow is None:
            # Two frames later the first screen is on the glass.
            Clock.schedule_once(lambda _: Clock.schedule_once(lambda _: self._open_session(), 0), 0)

    def on_stop(self) -> None:
        """Leave the window as it was."""
        if self._ticks is not None:
            self._ticks.cancel()
        Window.unbind(on_keyboard=self._on_keyboard, size=self._on_size)
        self.on_pause()

    def on_pause(self) -> bool:
        """Stop the clock of the sitting; the system may never call again."""
        if self.flow is not None:
            self.flow.pause()
        return True

    def on_resume(self) -> None:
        """Go on, on a new study day where one has begun."""
        if self.flow is not None:
            self.flow.unpause()
            self.show(self._first_screen())

    def open_settings(self, *_: object) -> bool:
        """Open nothing: there is no panel of the framework's own here."""
        return False

    def act(self, action: str) -> None:
        """Do what a touch asks for, and show what follows."""
        if action == AID:
            self._open_aid()
        elif action == CLOSE:
            self._close_aid()
        elif self._told and self.flow is not None:
            self._told = ()
            self.show(self._first_screen())
        elif self.flow is not None:
            self.show(self.flow.press(action))
        elif action == "again":
            self._open_session()

    def show(self, screen: Screen) -> None:
        """Show a screen in place of the one before; first aid stays in front until it is closed.

        Args:
            screen: The screen.
        """
        if self._below is not None:
            self._below = screen
        else:
            self._put(screen)

    def _put(self, screen: Screen) -> None:
        stays = any({screen.name, self._screen.name} <= names for names in _STAY)
        offset = offset_of(self.view.scrolls[-1]) if stays and self.view else 0.0
        self._screen = screen
        self.root.clear_widgets()
        self.view = ScreenView(screen, act=self.act, is_wide=Window.width > Window.height)
        self.root.add_widget(self.view)
        view = self.view
        _after_layout(lambda: _scroll(view, offset))

    def _first_screen(self) -> Screen:
        """Give what was to be told first until a touch went on, else the screen as things stand."""
        if self.flow is None:
            return opening_screen()
        return problem_screen(self._told, goes_on=True) if self._told else self.flow.screen()

    def _open_aid(self) -> None:
        # It is opened before anything else is asked for: neither book nor log has a say in it.
        self._below = self._screen
        self._put(aid_screen())
        self.on_pause()

    def _close_aid(self) -> None:
        below, self._below = self._below or self._screen, None
        if self.flow is not None:
            self.flow.unpause()
            below = self._first_screen()
        self._put(below)

    def _take_up(self, session: "Session") -> None:
        # Imported late: what it needs, the model of memory above all, would hold up the first screen.
        from drill.app.flow import Flow  # noqa: PLC0415

        self.flow = Flow(session)

    def _open_session(self) -> None:
        try:
            self._take_up(self._open())
        except ProblemsError as error:
            self.show(problem_screen(error.problems))
            return
        self.on_resume()

    def _on_tick(self, _: float) -> None:
        if self.flow is not None and not self._told and self.flow.tick():
            self.show(self.flow.screen())

    def _on_keyboard(self, _window: object, key: int, *_: object) -> bool:
        if key == BACK_KEY and self._below is not None:
            self._close_aid()
            return True
        if key != BACK_KEY or self.flow is None or self._told or not self.flow.back():
            return False
        self.show(self.flow.screen())
        return True

    def _on_size(self, *_: object) -> None:
        self._put(self._screen)


def _after_layout(step: Callable[[], None], *, passes: int = 10) -> None:
    """Do a step before the next frame is drawn, but after the layout has settled, which takes some passes."""
    if passes:
        Clock.schedule_once(lambda _: _after_layout(step, passes=passes - 1), -1)
    else:
        step()


def _scroll(view: ScreenView, offset: float) -> None:
    scroll_to_offset(view.scrolls[-1], offset)
    if view.screen.show:
        view.bring_into_view(*view.screen.show)
