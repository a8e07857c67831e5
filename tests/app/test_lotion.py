"""Lotion on a head, on the phone: by touches, on a clock."""


def _pass(phone, clock, seconds):
    clock.pass_s(seconds)
    phone.wait(1.2)


def test_from_the_first_screen_to_the_rinse(phone, clock):
    """Set, start, look, answer; the clock alone turns the screen at the longest time."""
    phone.tap("lotion")
    assert "not set" in phone.texts
    phone.tap("lotion_longest:5")
    phone.tap("lotion_longest:5")
    phone.tap("lotion_on")
    assert "Next look at 2 min" in phone.texts or "Look now" in phone.texts
    _pass(phone, clock, 130)
    assert "2 of 10 min" in phone.texts
    phone.tap("lotion_see:processing.place=weakest")
    phone.tap("lotion_see:processing.curl=none")
    phone.tap("lotion_see:processing.says=nothing")
    phone.tap("lotion_next")
    assert sorted(phone.texts) == sorted(phone.app.view.screen.texts)
    phone.tap("lotion_leave")
    assert phone.app.view.screen.name == "today"
    _pass(phone, clock, 480)
    assert phone.app.view.screen.name == "lotion_over"
    phone.tap("lotion_end")
    assert phone.app.view.screen.name == "today"


def test_first_aid_is_one_touch_away_while_lotion_works(phone, clock):
    """And the clock goes on below it."""
    phone.tap("lotion")
    phone.tap("lotion_longest:1")
    phone.tap("lotion_on")
    phone.tap("aid")
    _pass(phone, clock, 61)
    assert phone.app.view.screen.name == "aid"
    phone.tap("aid:close")
    assert phone.app.view.screen.name == "lotion_over"
