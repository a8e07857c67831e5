"""Time from the start of a fresh process to the first frame, and to the first screen with the book."""

import importlib.util
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from drill.store.book import write_book

ROOT = Path(__file__).parents[2]
APP_TESTS = ROOT / "tests" / "app"
ITEMS = 300

SCRIPT = """
import json, random, sys, time
from datetime import UTC, datetime
from pathlib import Path
started = float(sys.argv[3])
sys.path.insert(0, sys.argv[4])
import phone
phone.settle()
from kivy.clock import Clock
from kivy.core.window import Window
from drill.app.window import WaveApp

def open_session():
    from drill.store.book import read_book
    from drill.store.sqlite_log import open_log
    from drill.study.session import Session
    log = open_log(Path(sys.argv[2]))
    return Session(
        read_book(Path(sys.argv[1])), log=log, student="Wren", device="tablet-1",
        clock=lambda: datetime.now(UTC), rng=random.SystemRandom(),
    )

times = {}

def on_flip(*_):
    name = app.view.screen.name
    times.setdefault(name, time.time() - started)
    if name == "today":
        app.stop()

app = WaveApp(open_session)
Window.bind(on_flip=on_flip)
app.run()
print(json.dumps(times))
"""


def _small_book():
    spec = importlib.util.spec_from_file_location("small_book_of_bench", APP_TESTS / "small_book.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def book_path(tmp_path_factory):
    path = tmp_path_factory.mktemp("app") / "book.json"
    write_book(path, _small_book().large_book(ITEMS))
    return path


def test_start_to_the_first_screen(benchmark, book_path, tmp_path):
    """No time is asserted; the order of the frames is."""
    import time

    seen = []

    def start():
        done = subprocess.run(
            [
                sys.executable, "-c", SCRIPT,
                str(book_path), str(tmp_path / "wren.log"), str(time.time()), str(APP_TESTS),
            ],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            timeout=60,
            check=True,
        )  # fmt: skip
        seen.append(json.loads(done.stdout.splitlines()[-1]))

    benchmark.pedantic(start, rounds=5, warmup_rounds=1)
    assert all(one["opening"] < one["today"] for one in seen)
    for name in ("opening", "today"):
        benchmark.extra_info[f"{name}_s"] = round(sorted(one[name] for one in seen)[len(seen) // 2], 3)
