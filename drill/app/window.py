"""The application on its window: the one place where Kivy's life meets the session's."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.floatlayout import FloatLayout

from drill.app import theme
from drill.app.opening import opening_screen, problem_screen
from drill.app.screen import Screen
from drill.app.screens import ScreenView, offset_of, scroll_to_offset
from drill.basis.problem import ProblemsError
from drill.basis.words import say

if TYPE_CHECKING:
    from drill.app.flow import Flow
    from drill.study.session import Session

BACK_KEY = 27
# These follow each other without a jump to the top.
_STAY = ({"question", "certainty"}, {"reveal"}, {"today"})


class WaveApp(App):
    """The screens of one session.

    Args:
        session: The student at work, or what opens it once the first screen is drawn.
    """

    def __init__(self, session: "Session | Callable[[], Session]") -> None:
        super().__init__()
        self.flow: Flow | None = None
        if callable(session):
            self._open = session
        else:
            self._take_up(session)
        self.view: ScreenView | None = None
        self._screen = opening_screen()

    def build(self) -> FloatLayout:
        """Draw the first screen; the session is opened after it."""
        Window.clearcolor = (*theme.GROUND, 1)
        self.title = say("Wave drill")
        self.root = FloatLayout()
        self.show(self.flow.screen() if self.flow else opening_screen())
        return self.root

    def on_start(self) -> None:
        """Listen to the window, and open the session where that is still to do."""
        Window.bind(on_keyboard=self._on_keyboard, size=self._on_size)
        if self.flow is None:
            # Two frames later the first screen is on the glass.
            Clock.schedule_once(lambda _: Clock.schedule_once(lambda _: self._open_session(), 0), 0)

    def on_stop(self) -> None:
        """Leave the window as it was."""
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
            self.show(self.flow.unpause())

    def open_settings(self, *_: object) -> bool:
        """Open nothing: there is no panel of the framework's own here."""
        return False

    def act(self, action: str) -> None:
        """Do what a touch asks for, and show what follows."""
        if self.flow is not None:
            self.show(self.flow.press(action))
        elif action == "again":
            self._open_session()

    def show(self, screen: Screen) -> None:
        """Show a screen in place of the one before.

        Args:
            screen: The screen.
        """
        stays = any({screen.name, self._screen.name} <= names for names in _STAY)
        offset = offset_of(self.view.scrolls[-1]) if stays and self.view else 0.0
        self._screen = screen
        self.root.clear_widgets()
        self.view = ScreenView(screen, act=self.act, is_wide=Window.width > Window.height)
        self.root.add_widget(self.view)
        view = self.view
        _after_layout(lambda: _scroll(view, offset))

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

    def _on_keyboard(self, _window: object, key: int, *_: object) -> bool:
        if key != BACK_KEY or self.flow is None or not self.flow.back():
            return False
        self.show(self.flow.screen())
        return True

    def _on_size(self, *_: object) -> None:
        self.show(self._screen)


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
