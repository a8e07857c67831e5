"""A pack that cannot be used is told on a screen, and the drill goes on without it."""

import sys

import pytest

from drill.basis.problem import Place, Problem

BAD = Problem(Place("birch.pack"), "this file is no pack", "name a file that 'wavedrill pack' wrote")


@pytest.fixture
def told_phone(session):
    """A phone on which a bad pack lies."""
    from drill.app.window import WaveApp

    phone = sys.modules["phone"].Phone(WaveApp(session, told=[BAD]))
    yield phone
    phone.close()


def test_a_bad_pack_is_told_before_the_first_screen(told_phone):
    """With where it lies, what is the matter, and what helps; one touch goes on."""
    assert told_phone.app.view.screen.name == "problem"
    said = " ".join(told_phone.texts)
    for words in ("Your school's pack is not used", "birch.pack", BAD.what, BAD.mend, "built-in questions"):
        assert words in said
    told_phone.app.on_pause()
    told_phone.app.on_resume()
    assert told_phone.app.view.screen.name == "problem"
    told_phone.tap("go_on")
    assert told_phone.app.view.screen.name == "today"
    told_phone.tap("start")
    assert told_phone.app.view.screen.name == "question"
