"""The phone for the tests of the screens; Kivy reads its environment here, before its first import."""

import importlib.util
import os
import sys
from pathlib import Path

import pytest


def _load(name):
    """Load a module of this folder, once for all tests that need it."""
    if name not in sys.modules:
        spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
        sys.modules[name] = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


phone_module = _load("phone")
phone_module.settle(fontscale=float(os.environ.get("PHONE_FONTSCALE", "1")))
small_book = _load("small_book")


@pytest.fixture
def log(tmp_path):
    from drill.store.sqlite_log import open_log

    with open_log(tmp_path / "wren.log") as opened:
        yield opened


@pytest.fixture
def clock():
    return small_book.Clock()


@pytest.fixture
def switch_on(log):
    """Start a phone with a session, or with what opens one; it is switched off before the log is closed."""
    from drill.app.window import WaveApp

    phones = []

    def start(session, **more):
        phones.append(phone_module.Phone(WaveApp(session), **more))
        return phones[-1]

    yield start
    for one in phones:
        one.close()


@pytest.fixture
def session(log, clock):
    return small_book.new_session(log, clock=clock)


@pytest.fixture
def phone(switch_on, session):
    return switch_on(session)
