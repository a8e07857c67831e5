"""Lotion on a head, on a screen."""

import pytest
from small_book import new_session

from drill.app.flow import Flow
from drill.app.lotion_flow import LotionFlow


@pytest.fixture
def flow(log, clock, rulebook):
    """The lotion screen with the built-in rules, its clock in the test's hand."""
    made = LotionFlow(rulebook, clock=clock)
    made.do("lotion", "")
    return made


def _on(flow, longest=12):
    for _ in range(longest // 5):
        flow.do("lotion_longest", "5")
    for _ in range(longest % 5):
        flow.do("lotion_longest", "1")
    flow.do("lotion_on", "")


def _see(flow, place, curl, says):
    for name, value in zip(("place", "curl", "says"), (place, curl, says), strict=True):
        if value:
            flow.do("lotion_see", f"processing.{name}={value}")
    flow.do("lotion_next", "")


def test_no_lotion_goes_on_before_the_longest_time_is_set(flow):
    """It has no value of its own, stays above 0 and is set by touches."""
    screen = flow.screen()
    assert "not set" in screen.texts
    assert "lotion_on" not in [press.action for press in screen.presses]
    flow.do("lotion_longest", "-5")
    assert "not set" in flow.screen().texts
    for _ in range(20):
        flow.do("lotion_longest", "5")
    flow.do("lotion_longest", "-1")
    screen = flow.screen()
    assert "59 min" in screen.texts
    assert "lotion_on" in [press.action for press in screen.presses]
    assert "maker's directions" in screen.caution


def test_it_tells_the_minute_and_when_a_look_is_due(flow, clock):
    """The clock alone changes the screen, and nothing else does."""
    _on(flow)
    screen = flow.screen()
    assert screen.right == "0 of 12 min"
    assert "Next look at 2 min" in screen.texts
    assert not flow.has_changed()
    clock.pass_s(130)
    assert flow.has_changed()
    screen = flow.screen()
    assert screen.right == "2 of 12 min"
    assert "Look now" in screen.texts
    assert not flow.has_changed()


def test_what_is_seen_is_answered_by_the_rules(flow, clock):
    """First tools, weakest place, a beginning S, a firm one."""
    _on(flow)
    clock.pass_s(120)
    _see(flow, "first_tools", "none", "nothing")
    texts = flow.screen().texts
    assert "Look or ask before going on" in texts
    assert "Weakest place" in texts
    clock.pass_s(30)
    _see(flow, "weakest", "weak", "nothing")
    texts = flow.screen().texts
    assert "Wait, and stay with the client" in texts
    assert "At 2.5 min" in texts
    assert "Next look at 3.5 min" in texts
    clock.pass_s(60)
    _see(flow, "weakest", "firm", "nothing")
    screen = flow.screen()
    assert screen.name == "lotion_over"
    assert "Rinse now" in screen.texts
    flow.do("lotion_end", "")
    assert not flow.is_open
    assert flow.lotion is None


def test_a_choice_is_shown_and_can_be_taken_back(flow):
    """A second touch takes it back; what was not said is unknown and counts as not harmless."""
    _on(flow)
    flow.do("lotion_see", "processing.curl=weak")
    assert [press.action for press in flow.screen().presses if press.is_on] == [
        "lotion_see:processing.curl=weak"
    ]
    flow.do("lotion_see", "processing.curl=weak")
    assert not [press for press in flow.screen().presses if press.is_on]
    flow.do("lotion_next", "")
    assert "Look or ask before going on" in flow.screen().texts


def test_burning_is_one_touch(flow):
    """Whatever else was chosen."""
    _on(flow)
    flow.do("lotion_burns", "")
    screen = flow.screen()
    assert "Rinse now, and call the instructor" in screen.texts
    assert any("Never leave the client" in text for text in screen.texts)


def test_the_longest_time_brings_it_to_the_front(flow, clock):
    """S or no S, and whatever screen was open."""
    _on(flow)
    flow.do("lotion_leave", "")
    clock.pass_s(600)
    assert not flow.has_changed()
    clock.pass_s(120)
    assert flow.has_changed()
    assert flow.is_open
    assert flow.screen().name == "lotion_over"
    assert not flow.has_changed()


@pytest.mark.parametrize("verb", ["lotion_next", "lotion_see", "lotion_burns", "lotion_dance"])
def test_what_needs_lotion_is_refused_without_it(flow, verb):
    """A fault of the program; no screen offers it then."""
    with pytest.raises(ValueError, match="no lotion"):
        flow.do(verb, "")


def test_unknown_action_is_a_fault_of_the_program(flow):
    """While lotion is on."""
    _on(flow)
    with pytest.raises(ValueError, match="no screen"):
        flow.do("lotion_dance", "")


def test_it_is_reached_from_the_first_screen_and_left_by_back(log, clock, rulebook):
    """The clock runs on below the other screens, and the first screen says so."""
    flow = Flow(new_session(log, clock=clock))
    flow.lotion = LotionFlow(rulebook, clock=clock)
    assert flow.press("lotion").name == "lotion_before"
    flow.press("lotion_longest:5")
    assert flow.press("lotion_on").name == "lotion_works"
    assert flow.back()
    assert "Lotion is on: back to the clock" in flow.screen().texts
    flow.press("start")
    assert not flow.tick()
    clock.pass_s(301)
    assert flow.tick()
    assert flow.screen().name == "lotion_over"
    assert flow.press("lotion_end").name == "question"
