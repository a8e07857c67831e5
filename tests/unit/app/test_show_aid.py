"""First aid on a screen."""

from drill.app.opening import opening_screen, problem_screen
from drill.app.screen import AID
from drill.app.show_aid import CLOSE, aid_screen
from drill.basis.problem import NOWHERE, Problem
from drill.service.aid import CARDS


def test_every_card_is_told_whole():
    """Signs and what to do, in the order of the cards; the sheet and the emergency services are named."""
    screen = aid_screen()
    told = list(screen.texts)
    flat = " ".join(told)
    places = [told.index(card.title) for card in CARDS]
    assert places == sorted(places)
    for card in CARDS:
        assert card.signs.rstrip(".") in flat
        assert set(card.do) <= set(told)
    assert "In doubt call the emergency services." in told
    assert "safety sheet" in flat


def test_it_leads_back_and_not_to_itself():
    """One touch; nothing else can be pressed there."""
    screen = aid_screen()
    assert [press.action for press in screen.presses] == [CLOSE]
    assert screen.aid is None


def test_screens_that_need_no_book_have_it_too():
    """While the book is being opened, and where it is broken."""
    for screen in (opening_screen(), problem_screen([Problem(NOWHERE, "broken", "mend it")])):
        assert screen.aid is not None
        assert screen.aid.action == AID
        assert "First aid" in screen.texts
