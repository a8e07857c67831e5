"""One student's session: the log before the reveal, and a sitting that goes on where it stood."""

import importlib.util
import json
import sys
from dataclasses import replace
from datetime import UTC, timedelta
from pathlib import Path

import pytest

from drill.basis.problem import Place, Problem, ProblemsError
from drill.memory.recall import fold_attempts
from drill.store.sqlite_log import memory_log
from drill.study.session import FIVE_MINUTES, GOAL, OPEN_SITTING, TWELVE_QUESTIONS

if "small_book" not in sys.modules:
    _spec = importlib.util.spec_from_file_location(
        "small_book", Path(__file__).parents[2] / "app" / "small_book.py"
    )
    sys.modules["small_book"] = importlib.util.module_from_spec(_spec)
    _spec.loader.exec_module(sys.modules["small_book"])

from small_book import BOOK, Clock, new_session


@pytest.fixture
def log():
    with memory_log() as opened:
        yield opened


@pytest.fixture
def clock():
    return Clock()


def answer(session, clock, *, right=True, certainty="middle", seconds=20):
    clock.pass_s(seconds)
    question = session.sitting.question
    option = next(one for one in question.options if one.correct is right)
    session.choose(option.id)
    session.say_certainty(certainty)
    return question, option


class Recording:
    """A log that writes down what is asked of it, in order."""

    def __init__(self, log):
        self._log, self.calls = log, []

    def __getattr__(self, name):
        def call(*args):
            self.calls.append(name)
            return getattr(self._log, name)(*args)

        return call


class Broken(Recording):
    """A log that keeps no attempt."""

    def append(self, _attempt):
        raise ProblemsError([Problem(Place("wren.log"), "the disk is full", "make room")])


class TestAnswers:
    def test_an_answer_can_be_taken_back_before_it_is_kept(self, log, clock):
        """Nothing is in the log, and the question stands open."""
        session = new_session(log, clock=clock)
        session.start()
        session.choose("a")
        assert session.take_back().phase == "question"
        assert session.sitting.chosen == ""
        assert log.attempts("Wren") == ()

    def test_the_attempt_is_kept_as_it_was_given(self, log, clock):
        """Every field of it."""
        session = new_session(log, clock=clock)
        session.start()
        question, option = answer(session, clock, right=False, certainty="high")
        (kept,) = log.attempts("Wren")
        assert (kept.student, kept.device, kept.setting) == ("Wren", "tablet-1", "drill")
        assert (kept.skill, kept.item, kept.seed) == (question.skill, question.item, question.seed)
        assert (kept.choice, kept.correct, kept.certainty) == (str(option.value), False, "high")
        assert (kept.misconceptions, kept.rulebook) == (option.misconceptions, question.rulebook)
        assert (kept.seconds, kept.day, kept.at) == (20, session.day, clock().astimezone(UTC))

    def test_the_reveal_opens_only_when_the_attempt_is_in_the_log(self, log, clock):
        """A log that fails leaves the sitting where it was, and the count too."""
        session = new_session(Broken(log), clock=clock)
        session.start()
        with pytest.raises(ProblemsError):
            answer(session, clock)
        assert session.sitting.phase == "certainty"
        assert session.sitting.count == 0
        assert session.asked == {}
        assert session.memories == {}

    def test_memories_follow_each_answer_as_if_folded_anew(self, log, clock):
        """Over three days."""
        for _ in range(3):
            session = new_session(log, clock=clock)
            session.start()
            for right in (True, False, True):
                answer(session, clock, right=right)
                session.go_on()
            assert session.memories == fold_attempts(log.attempts("Wren"))
            clock.pass_s(24 * 3600)

    def test_the_log_is_read_once_and_not_after_each_answer(self, log, clock):
        """A long log costs nothing while answering."""
        recording = Recording(log)
        session = new_session(recording, clock=clock)
        session.start()
        for _ in range(3):
            answer(session, clock)
            session.go_on()
            session.coming()
        assert recording.calls.count("memories") == 1
        assert recording.calls.count("append") == 3

    def test_the_intent_is_kept_before_the_attempt(self, log, clock):
        """So a kill between the two cannot lose the count."""
        recording = Recording(log)
        session = new_session(recording, clock=clock)
        session.start()
        recording.calls.clear()
        answer(session, clock)
        assert recording.calls == ["keep", "append"]

    def test_a_step_without_a_sitting_is_a_fault_of_the_program(self, log):
        """It is told at once."""
        session = new_session(log)
        for step in (lambda: session.choose("a"), session.go_on, lambda: session.say_certainty("low")):
            with pytest.raises(ValueError, match="no sitting"):
                step()

    def test_an_option_that_does_not_exist_is_a_fault_of_the_program(self, log):
        """A question has the letters that it shows."""
        session = new_session(log)
        session.start()
        with pytest.raises(KeyError):
            session.choose("z")


class TestGoingOn:
    def cut_off(self, log, clock, *, answers=2, goal=TWELVE_QUESTIONS):
        session = new_session(log, clock=clock, goal=goal)
        session.start()
        for _ in range(answers):
            answer(session, clock)
            session.go_on()
        clock.pass_s(600)
        return new_session(log, clock=clock, goal=goal)

    def test_it_goes_on_with_the_count_and_asks_nothing_twice(self, log, clock):
        """On the same study day."""
        session = self.cut_off(log, clock)
        assert list(session.open_sitting().asked) == [one.skill for one in log.attempts("Wren")]
        sitting = session.resume()
        assert sitting.count == 2
        assert sitting.question.skill not in session.asked
        assert session.sitting is sitting

    def test_the_question_that_was_open_comes_again_unless_it_shares_the_topic_before(self, log, clock):
        """Made of the same head."""
        first = new_session(log, clock=clock)
        shown = first.start().question
        assert new_session(log, clock=clock).resume().question == shown

    def test_an_answer_kept_just_before_the_kill_counts(self, log, clock):
        """The process died before the reveal."""
        session = new_session(log, clock=clock)
        session.start()
        answer(session, clock)
        assert new_session(log, clock=clock).resume().count == 1

    def test_an_answer_that_never_reached_the_log_does_not_count(self, log, clock):
        """The intent was kept, the attempt was not."""
        session = new_session(Broken(log), clock=clock)
        session.start()
        with pytest.raises(ProblemsError):
            answer(session, clock)
        again = new_session(log, clock=clock)
        assert again.open_sitting().asked == {}
        assert again.resume().count == 0

    def test_on_another_study_day_nothing_is_open(self, log, clock):
        """A day later."""
        self.cut_off(log, clock)
        clock.pass_s(24 * 3600)
        again = new_session(log, clock=clock)
        assert again.open_sitting() is None
        assert again.resume() is None
        assert again.sitting is None

    def test_after_midnight_the_evening_goes_on_until_three(self, log, clock):
        """A study day turns over at 3 in the morning, by the clock of the place."""
        self.cut_off(log, clock)
        clock.at = clock.at.replace(hour=2, minute=59) + timedelta(days=1)
        assert new_session(log, clock=clock).open_sitting() is not None
        clock.pass_s(120)
        assert new_session(log, clock=clock).open_sitting() is None

    def test_another_student_does_not_find_it(self, log, clock):
        """On a shared device."""
        self.cut_off(log, clock)
        assert new_session(log, clock=clock, student="Alder").open_sitting() is None

    @pytest.mark.parametrize(
        "text", ["", "[]", "{", '{"student": 1}', '{"asked": []}', '{"colour": "teal"}', "null"]
    )
    def test_what_another_version_kept_is_as_good_as_nothing(self, log, clock, text):
        """The log itself is untouched by it."""
        log.keep(OPEN_SITTING, text)
        log.keep(GOAL, text)
        session = new_session(log, clock=clock)
        assert session.open_sitting() is None
        assert session.goal == TWELVE_QUESTIONS

    def test_a_kept_sitting_with_a_list_for_a_mapping_is_none(self, log, clock):
        """Right in all but one field."""
        session = new_session(log, clock=clock)
        session.start()
        kept = json.loads(log.kept(OPEN_SITTING))
        log.keep(OPEN_SITTING, json.dumps({**kept, "asked": ["papers"]}))
        assert session.open_sitting() is None

    def test_minutes_used_are_kept_and_the_time_away_is_not_counted(self, log, clock):
        """Two answers of twenty seconds, then ten minutes away."""
        session = self.cut_off(log, clock, goal=FIVE_MINUTES)
        session.resume()
        assert session.minutes_used == pytest.approx(40 / 60)
        assert session.sitting.phase == "question"

    def test_a_sitting_that_is_over_is_not_open(self, log, clock):
        """Nothing waits after the last question."""
        session = new_session(log, clock=clock)
        session.start()
        while session.sitting.phase != "done":
            answer(session, clock)
            session.go_on()
        assert session.open_sitting() is None
        session.put_aside()
        assert session.open_sitting() is None
        assert session.start().phase == "done"
        assert session.open_sitting() is None

    def test_put_aside_and_taken_up_by_the_same_session(self, log, clock):
        """The time between does not count."""
        session = new_session(log, clock=clock, goal=FIVE_MINUTES)
        session.start()
        answer(session, clock)
        session.go_on()
        session.put_aside()
        assert session.sitting is None
        assert session.minutes_used == 0
        clock.pass_s(3600)
        assert session.resume().count == 1
        assert session.minutes_used == pytest.approx(20 / 60)

    def test_a_topic_of_its_own_is_kept(self, log, clock):
        """Only that topic, before and after."""
        session = new_session(log, clock=clock)
        assert session.start(topic="winding").question.topic == "winding"
        assert new_session(log, clock=clock).resume().question.topic == "winding"

    def test_what_was_asked_before_can_be_told_after(self, log, clock):
        """The same questions, made again."""
        before = new_session(log, clock=clock)
        before.start()
        asked = []
        for _ in range(2):
            asked.append(answer(before, clock)[0])
            before.go_on()
        session = new_session(log, clock=clock)
        session.resume()
        asked.append(answer(session, clock)[0])
        assert session.questions_asked() == tuple(asked)

    def test_a_decision_that_left_the_book_is_passed_over(self, log, clock):
        """A new book came between."""
        gone = next(iter(self.cut_off(log, clock).open_sitting().asked))
        smaller = replace(BOOK, items=tuple(item for item in BOOK.items if item.skill != gone))
        session = new_session(log, clock=clock, book=smaller)
        assert session.resume().count == 2
        assert len(session.questions_asked()) == 1


class TestTime:
    def test_a_pause_counts_neither_for_the_sitting_nor_for_the_answer(self, log, clock):
        """Ten seconds, an hour in the dark, five seconds."""
        session = new_session(log, clock=clock)
        session.start()
        clock.pass_s(10)
        session.pause()
        clock.pass_s(3000)
        session.pause()
        clock.pass_s(600)
        session.unpause()
        answer(session, clock, seconds=5)
        assert log.attempts("Wren")[0].seconds == 15
        assert session.minutes_used == pytest.approx(15 / 60)

    def test_a_pause_without_a_question_stops_nothing(self, log, clock):
        """On the first screen."""
        session = new_session(log, clock=clock)
        session.pause()
        session.unpause()
        assert session.sitting is None
        assert log.kept(OPEN_SITTING) is None

    def test_a_pause_on_the_reveal_shifts_the_start_only(self, log, clock):
        """No question is timed there."""
        session = new_session(log, clock=clock)
        session.start()
        answer(session, clock)
        session.pause()
        clock.pass_s(60)
        session.unpause()
        assert session.minutes_used == pytest.approx(20 / 60)

    def test_a_clock_that_went_back_does_no_harm(self, log, clock):
        """Nothing is negative."""
        session = new_session(log, clock=clock, goal=FIVE_MINUTES)
        session.start()
        session.pause()
        clock.pass_s(-600)
        session.unpause()
        answer(session, clock, seconds=0)
        assert log.attempts("Wren")[0].seconds == 0
        assert new_session(log, clock=clock).resume().count == 1

    def test_the_goal_is_kept_for_the_next_session(self, log):
        """Over the one that is given."""
        new_session(log).prefer(FIVE_MINUTES)
        assert new_session(log).goal == FIVE_MINUTES


def test_what_comes_is_ranked_for_the_day_of_the_exam(log, clock):
    """Everything new at first; what was answered rests until tomorrow."""
    session = new_session(log, clock=clock)
    assert {one.reason.kind for one in session.coming()} == {"new"}
    session.start()
    question, _ = answer(session, clock)
    assert question.skill not in {one.skill for one in session.coming()}
