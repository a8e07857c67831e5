"""What each touch does, and what happens when something stands in the way."""

import pytest
from small_book import new_session

from drill.app.flow import Flow
from drill.basis.problem import Place, Problem, ProblemsError


class Stubborn:
    """A log that refuses one of its methods until it is told otherwise."""

    def __init__(self, log, name):
        self._log, self._name, self.refuses = log, name, True

    def __getattr__(self, name):
        if name == self._name and self.refuses:
            return self._refuse
        return getattr(self._log, name)

    def _refuse(self, *_):
        raise ProblemsError([Problem(Place("wren.log"), "the disk is full", "make room")])


def test_an_answer_that_cannot_be_kept_can_be_tried_again(log):
    """The choice and the certainty are not lost."""
    stubborn = Stubborn(log, "append")
    flow = Flow(new_session(stubborn))
    flow.press("start")
    flow.press("option:a")
    assert flow.press("sure:high").name == "problem"
    assert flow.session.sitting.phase == "certainty"
    assert flow.session.asked == {}
    assert flow.press("again").name == "problem"
    stubborn.refuses = False
    assert flow.press("again").name == "reveal"
    assert [one.certainty for one in log.attempts("Wren")] == ["high"]


def test_back_leaves_a_problem_for_the_screen_before(log):
    """And no answer is made up."""
    flow = Flow(new_session(Stubborn(log, "append")))
    flow.press("start")
    flow.press("option:a")
    flow.press("sure:high")
    assert flow.back()
    assert flow.screen().name == "certainty"
    assert log.attempts("Wren") == ()


def test_back_goes_from_a_question_to_the_head_and_then_leaves(log):
    """False says that the system may take it."""
    flow = Flow(new_session(log))
    flow.press("start")
    assert flow.back()
    assert flow.screen().name == "today"
    assert not flow.back()


def test_a_log_that_cannot_be_read_is_told_and_tried_again(log):
    """Before anything was touched."""
    stubborn = Stubborn(log, "memories")
    flow = Flow(new_session(stubborn))
    assert "the disk is full" in flow.screen().texts
    assert flow.press("again").name == "problem"
    stubborn.refuses = False
    assert flow.press("again").name == "today"


def test_a_pause_that_cannot_be_written_stops_nothing(log):
    """Only seconds are lost, and the time away still counts for nothing."""
    stubborn = Stubborn(log, "keep")
    stubborn.refuses = False
    flow = Flow(new_session(stubborn))
    flow.press("start")
    stubborn.refuses = True
    flow.pause()
    stubborn.refuses = False
    assert flow.unpause().name == "question"


@pytest.mark.parametrize("action", ["dance", "sure:very"])
def test_an_action_that_no_screen_has_is_a_fault_of_the_program(log, action):
    """It is told at once."""
    flow = Flow(new_session(log))
    flow.press("start")
    flow.press("option:a")
    with pytest.raises(ValueError, match=r"no screen has|no certainty"):
        flow.press(action)


def test_every_touch_that_a_screen_offers_can_be_pressed(log, clock):
    """On each screen of a sitting, those that lead away from it last."""
    flow = Flow(new_session(log, clock=clock))
    onward = {"today": "start", "certainty": "sure:low", "reveal": "next", "done": "home"}
    tried = set()
    for _ in range(12):
        for press in flow.screen().presses:
            tried.add(press.action.partition(":")[0])
            if press.action.partition(":")[0] in ("goal", "option", "source"):
                flow.press(press.action)
        clock.pass_s(1)
        flow.press(onward[flow.screen().name])
    assert tried == {"goal", "exam", "lotion", "start", "leave", "option", "source", "next", "home"}
    assert len(log.attempts("Wren")) == 5
    assert flow.screen().name == "today"
