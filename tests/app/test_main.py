"""The screens start from one call, in a process of their own."""

import os
import subprocess
import sys
from pathlib import Path

SCRIPT = """
import sys
sys.path.insert(0, sys.argv[1])
from drill.app.main import run_app, settle_environment
settle_environment()
from kivy.app import App
from kivy.clock import Clock
from kivy.config import Config
from small_book import new_session
from drill.store.sqlite_log import memory_log

def look(_):
    app = App.get_running_app()
    if app.view.screen.name != "opening":
        print(app.view.screen.name, Config.get("kivy", "exit_on_escape"), Config.get("graphics", "width"))
        print(sys.argv[2])
        app.stop()

Clock.schedule_interval(look, 0.1)
run_app(lambda: new_session(memory_log()))
"""

ON_ANDROID = """
from drill.app.main import settle_environment
settle_environment()
from kivy.config import Config
print(Config.get("kivy", "exit_on_escape"), Config.get("graphics", "width"))
"""


def run(script, tmp_path, **more):
    folder = Path(__file__).parent
    env = {
        "PATH": os.environ["PATH"],
        "PYTHONPATH": str(folder.parents[1]),
        "SDL_VIDEODRIVER": "offscreen",
        "SDL_AUDIODRIVER": "dummy",
        "LIBGL_ALWAYS_SOFTWARE": "1",
        "KIVY_HOME": str(tmp_path),
        **more,
    }
    return subprocess.run(
        [sys.executable, "-c", script, str(folder), "--help"],
        env=env,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_it_opens_at_the_head_and_leaves_our_arguments_alone(tmp_path):
    """The framework does not answer `--help` in our place, and the back key does not shut the window."""
    done = run(SCRIPT, tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stdout.split() == ["today", "0", "400", "--help"]
    assert done.stderr == ""


def test_a_phone_keeps_its_own_window(tmp_path):
    """There is no desktop's size to set."""
    done = run(ON_ANDROID, tmp_path, ANDROID_ARGUMENT="yes")
    assert done.returncode == 0, done.stderr
    on_escape, width = done.stdout.split()
    assert on_escape == "0"
    assert width != "400"
