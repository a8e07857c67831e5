"""A phone without a screen, driven like a person would: one frame at a time, on a clock of its own."""

import atexit
import logging
import os
import shutil
import tempfile
from pathlib import Path

FRAME_S = 1 / 60
SIZE_DP = (360, 640)
DENSITY = 2.0


def settle(*, fontscale=1.0, size_dp=SIZE_DP):
    """Settle what Kivy reads at its first import: call it before."""
    folder = tempfile.mkdtemp(prefix="phone-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    os.environ.update(
        SDL_VIDEODRIVER="offscreen",
        SDL_AUDIODRIVER="dummy",
        LIBGL_ALWAYS_SOFTWARE="1",
        KIVY_WINDOW="sdl2",
        KIVY_NO_ARGS="1",
        KIVY_NO_FILELOG="1",
        KIVY_NO_CONFIG="1",
        KIVY_NO_CONSOLELOG="1",
        KIVY_LOG_MODE="PYTHON",
        KIVY_HOME=folder,
        XDG_CONFIG_HOME=folder,
        KIVY_METRICS_DENSITY=str(DENSITY),
        KIVY_METRICS_FONTSCALE=str(fontscale),
        KIVY_DPI=str(int(160 * DENSITY)),
    )
    os.environ.pop("DISPLAY", None)
    logging.getLogger("kivy").setLevel(logging.ERROR)
    from kivy.config import Config

    Config.set("graphics", "width", str(round(size_dp[0] * DENSITY)))
    Config.set("graphics", "height", str(round(size_dp[1] * DENSITY)))
    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "maxfps", "0")
    Config.set("kivy", "exit_on_escape", "0")
    Config.remove_section("input")
    Config.add_section("input")


class Phone:
    """A phone with the app on it."""

    now = None

    def __init__(self, app, *, size_dp=SIZE_DP):
        from kivy.base import EventLoop, runTouchApp
        from kivy.clock import Clock
        from kivy.core.window import Window

        self.app, self.Window, self.loop = app, Window, EventLoop
        if Phone.now is None:
            # One clock for the whole process: it must never go back.
            Phone.now = Clock.time()
            Clock.time = lambda: Phone.now
        Window.system_size = [round(DENSITY * side) for side in size_dp]
        app._run_prepare()
        runTouchApp(embedded=True)
        self.wait(0.5)

    def frames(self, count=1):
        for _ in range(count):
            Phone.now += FRAME_S
            self.loop.idle()

    def wait(self, seconds):
        self.frames(max(1, round(seconds / FRAME_S)))

    def walk(self):
        for child in self.Window.children:
            yield from child.walk(restrict=True)

    def all(self, kind):
        return [widget for widget in self.walk() if isinstance(widget, kind)]

    @property
    def texts(self):
        from drill.app.widgets import Text

        return [widget.words for widget in self.all(Text)]

    @property
    def touches(self):
        from drill.app.touch import Touch

        return {widget.action: widget for widget in self.all(Touch)}

    def is_in_sight(self, widget):
        """Whether its middle is on the glass and, in a scrolled column, inside the column's window."""
        from kivy.uix.scrollview import ScrollView

        x, y = widget.to_window(*widget.center)
        inside = 0 <= x < self.Window.width and 0 <= y < self.Window.height
        for scroll in self.all(ScrollView):
            if widget in scroll.walk(restrict=True):
                left, low = scroll.to_window(*scroll.pos)
                inside = inside and left <= x <= left + scroll.width and low <= y <= low + scroll.height
        return inside

    def tap(self, action):
        """Touch what asks for an action, scrolled into sight first as a person would."""
        touch = self.touches[action]
        if not self.is_in_sight(touch):
            self.app.view.bring_into_view(action)
            self.wait(0.1)
        assert self.is_in_sight(touch), f"{action} cannot be reached"
        self.touch_at(*touch.to_window(*touch.center))

    def touch_at(self, x, y):
        from kivy.tests.common import UnitTestTouch

        touch = UnitTestTouch(x, y)
        touch.touch_down()
        self.frames(2)
        touch.touch_up()
        self.wait(0.15)

    def drag(self, start, end, steps=8):
        from kivy.tests.common import UnitTestTouch

        touch = UnitTestTouch(*start)
        touch.touch_down()
        self.frames()
        for step in range(1, steps + 1):
            part = step / steps
            touch.touch_move(start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)
            self.frames()
        touch.touch_up()
        self.wait(0.5)

    def back(self):
        used = self.Window.dispatch("on_keyboard", 27, 0, None, [])
        self.wait(0.1)
        return bool(used)

    def turn(self, width_dp, height_dp):
        self.Window.system_size = [round(DENSITY * width_dp), round(DENSITY * height_dp)]
        self.wait(0.5)

    def shot(self, path):
        self.Window.canvas.ask_update()
        self.frames(2)
        made = Path(self.Window.screenshot(name=str(path)))
        made.replace(path)
        return path

    def close(self):
        self.app.stop()
        for child in self.Window.children[:]:
            self.Window.remove_widget(child)
