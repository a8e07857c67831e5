"""The small book of the screens' tests, here without any window."""

import importlib.util
import sys
from pathlib import Path

import pytest

_PATH = Path(__file__).parents[2] / "app" / "small_book.py"

if "small_book" not in sys.modules:
    _spec = importlib.util.spec_from_file_location("small_book", _PATH)
    sys.modules["small_book"] = importlib.util.module_from_spec(_spec)
    _spec.loader.exec_module(sys.modules["small_book"])


@pytest.fixture
def log():
    from drill.store.sqlite_log import memory_log

    with memory_log() as opened:
        yield opened


@pytest.fixture
def clock():
    return sys.modules["small_book"].Clock()


@pytest.fixture
def session(log, clock):
    return sys.modules["small_book"].new_session(log, clock=clock)
