"""First aid: one touch away on every screen, before anything else, whatever is broken."""

import pytest

from drill.basis.problem import Place, Problem, ProblemsError


def _open_and_close(phone, below):
    phone.tap("aid")
    assert phone.app.view.screen.name == "aid"
    assert "Eye" in phone.texts
    phone.tap("aid:close")
    assert phone.app.view.screen.name == below


def test_every_screen_of_a_sitting_leads_there_and_back(phone):
    """Today, question, certainty, reveal; nothing of the sitting is lost."""
    _open_and_close(phone, "today")
    phone.tap("start")
    _open_and_close(phone, "question")
    phone.tap(next(action for action in phone.touches if action.startswith("option:")))
    _open_and_close(phone, "certainty")
    phone.tap("sure:middle")
    _open_and_close(phone, "reveal")
    assert len(phone.app.flow.session.asked) == 1


def test_back_key_closes_it(phone):
    """And leaves the screen below as it was."""
    phone.tap("start")
    phone.tap("aid")
    assert phone.back()
    assert phone.app.view.screen.name == "question"


def test_it_is_there_when_the_book_is_broken(switch_on):
    """The session never opens."""

    def broken():
        raise ProblemsError([Problem(Place("book.json"), "this is no compiled book", "compile it again")])

    phone = switch_on(broken)
    assert phone.app.view.screen.name == "problem"
    _open_and_close(phone, "problem")


def test_a_book_that_opens_meanwhile_waits_below(switch_on, session):
    """First aid stays in front until it is closed; turning the phone does not close it."""
    phone = switch_on(session)
    phone.tap("aid")
    phone.app.show(phone.app.flow.screen())
    assert phone.app.view.screen.name == "aid"
    phone.turn(800, 360)
    assert phone.app.view.screen.name == "aid"
    phone.turn(360, 640)
    phone.tap("aid:close")
    assert phone.app.view.screen.name == "today"


@pytest.mark.parametrize("size_dp", [(360, 640), (800, 360)])
def test_its_touch_is_in_sight_and_as_large_as_a_finger(switch_on, session, size_dp):
    """Without scrolling, on each screen, and no word broken."""
    phone = switch_on(session, size_dp=size_dp)
    for action in ("start", None):
        touch = phone.touches["aid"]
        assert phone.is_in_sight(touch)
        assert min(touch.size) >= 48 * 2
        assert touch.text.texture_size[0] <= touch.text.width
        assert touch.text.height <= touch.height
        if action:
            phone.tap(action)
