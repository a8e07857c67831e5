"""Start the screens: settle what Kivy reads once, then open the window."""

import logging
import os
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.basis.problem import Problem
    from drill.study.session import Session

# A phone's shape on a desktop.
WIDTH_DP, HEIGHT_DP = 400, 760
# A touch panel read past the window system, and a second clipboard.
_NOT_MISSED = ("Input: MTDev is not supported", "MTDev is not supported", "Cutbuffer:")


def run_app(session: "Session | Callable[[], Session]", *, told: "Iterable[Problem]" = ()) -> None:
    """Run the screens until the window is closed.

    Args:
        session: The student at work; or a function that opens the session, called once the first screen is
            drawn, whose :class:`~drill.basis.problem.ProblemsError` is shown and can be tried again.
        told: What is told on a screen of its own before the first one, such as a pack that cannot be used.
    """
    settle_environment()
    from drill.app.window import WaveApp  # noqa: PLC0415  Kivy reads the environment at its first import

    WaveApp(session, told=told).run()


def settle_environment() -> None:
    """Settle what Kivy reads at its first import: it leaves our arguments alone and keeps no files."""
    os.environ.setdefault("KIVY_NO_ARGS", "1")
    os.environ.setdefault("KIVY_NO_FILELOG", "1")
    os.environ.setdefault("KIVY_NO_CONFIG", "1")
    os.environ.setdefault("KIVY_LOG_MODE", "PYTHON")
    os.environ.setdefault("KIVY_WINDOW", "sdl2")
    logging.getLogger("kivy").addFilter(_is_of_use)
    from kivy.config import Config  # noqa: PLC0415  as above

    if "ANDROID_ARGUMENT" not in os.environ:
        Config.set("graphics", "width", str(WIDTH_DP))
        Config.set("graphics", "height", str(HEIGHT_DP))
        Config.set("input", "mouse", "mouse,disable_multitouch")
    Config.set("kivy", "exit_on_escape", "0")


def _is_of_use(record: logging.LogRecord) -> bool:
    """Keep from people what Kivy says of devices that a computer does not have and nobody misses."""
    return not record.getMessage().startswith(_NOT_MISSED)
