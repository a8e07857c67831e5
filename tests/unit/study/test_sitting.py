"""A sitting as values: its steps, its end, and the questions it asks."""

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book, School
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker
from drill.memory.recall import Memory, add_attempt
from drill.study.sitting import (
    Goal,
    begin,
    choose_option,
    go_on,
    question_for,
    say_certainty,
)
from drill.study.standing import exam_day, holding_by_topic, skills_by_topic

NOW = datetime(2026, 11, 25, 16, 0, tzinfo=UTC)
DAY = 20_782  # days from 1970-01-01 to 2026-11-25


def fact(name, topic):
    """Make a fact with two wrong options."""
    return Item(
        id=name,
        topic=topic,
        kind="choose",
        stem=f"Which, in {name}?",
        answer="right",
        wrong=(Wrong(text="wrong"), Wrong(text="never")),
        because="So it is.",
        source="common practice",
    )


def never(name, topic):
    """Make an item that cannot be asked: two outcomes make no choice."""
    return Item(id=name, topic=topic, kind="choose", stem="?", decision="test_curls.needed", row="no-doubt")


def maker_of(rulebook, *items, **school):
    """Make questions of a few items."""
    topics = {item.topic: item.topic.title() for item in items}
    book = Book(rulebook=rulebook, misconceptions=(), items=items, topics=topics, school=School(**school))
    return QuestionMaker(Beliefs(book))


@pytest.fixture
def maker(rulebook):
    """Four facts of two topics."""
    return maker_of(rulebook, fact("a1", "a"), fact("a2", "a"), fact("b1", "b"), fact("b2", "b"))


def start(maker, *, day=DAY, goal=None, memories=None, now=NOW, **values):
    """Begin a sitting of Ada's."""
    return begin(
        maker,
        student="Ada Reyes",
        device="phone-1",
        day=day,
        goal=goal or Goal(questions=12),
        now=now,
        memories=memories or {},
        **values,
    )


def answer(sitting, *, seconds=10.0, option=None, certainty="high"):
    """Choose the key, or an option, and say the certainty."""
    sitting = choose_option(sitting, option or sitting.question.answer.id)
    return say_certainty(
        sitting, certainty, now=sitting.shown + timedelta(seconds=seconds), rng=random.Random(1)
    )


def asked_to_the_end(maker, sitting):
    """Answer everything that a sitting asks."""
    skills = []
    while sitting.phase != "done":
        skills.append(sitting.question.skill)
        sitting, _ = answer(sitting)
        sitting = go_on(maker, sitting, now=NOW)
    return skills, sitting


def test_sitting_goes_from_question_to_certainty_to_reveal_and_on(maker):
    """Each phase in its turn; the choice may change until the certainty is said."""
    sitting = start(maker)
    assert (sitting.phase, sitting.count, sitting.last, sitting.shown) == ("question", 0, None, NOW)
    assert sitting.reason.skill == sitting.question.skill
    chosen = choose_option(sitting, "a")
    assert (chosen.phase, chosen.chosen) == ("certainty", "a")
    assert choose_option(chosen, "b").chosen == "b"
    revealed, _ = answer(chosen, option="b")
    assert (revealed.phase, revealed.count) == ("reveal", 1)
    assert revealed.last.option.id == "b"
    following = go_on(maker, revealed, now=NOW + timedelta(minutes=1))
    assert (following.phase, following.chosen, following.count) == ("question", "", 1)
    assert following.shown == NOW + timedelta(minutes=1)
    assert following.question.skill != sitting.question.skill


def test_steps_out_of_turn_change_nothing_or_are_refused(maker):
    """A second tap on the screen marks nothing twice."""
    sitting = start(maker)
    assert go_on(maker, sitting, now=NOW) is sitting
    with pytest.raises(ValueError, match="no answer to mark in the phase question"):
        say_certainty(sitting, "high", now=NOW, rng=random.Random(1))
    with pytest.raises(KeyError):
        choose_option(sitting, "z")
    revealed, _ = answer(sitting)
    assert choose_option(revealed, "a") is revealed
    with pytest.raises(ValueError, match="reveal"):
        say_certainty(revealed, "high", now=NOW, rng=random.Random(1))
    _, done = asked_to_the_end(maker, sitting)
    assert choose_option(done, "a") is done
    assert go_on(maker, done, now=NOW) is done


def test_attempt_holds_what_was_asked_and_chosen(maker):
    """Everything that the log needs, seconds from the showing to the answer."""
    sitting = start(maker)
    wrong = next(option for option in sitting.question.options if not option.correct)
    revealed, attempt = answer(sitting, seconds=7.5, option=wrong.id, certainty="low")
    question = sitting.question
    assert (attempt.student, attempt.device, attempt.day) == ("Ada Reyes", "phone-1", DAY)
    assert (attempt.skill, attempt.item, attempt.seed) == (question.skill, question.item, question.seed)
    assert (attempt.choice, attempt.correct, attempt.certainty) == (wrong.text, False, "low")
    assert (attempt.seconds, attempt.setting) == (7.5, "drill")
    assert attempt.rulebook == maker.book.rulebook.digest
    assert attempt.misconceptions == wrong.misconceptions
    assert revealed.last.attempt is attempt


def test_clock_that_goes_back_gives_no_negative_seconds(maker):
    """A clock may be set while a question is shown."""
    _, attempt = answer(start(maker), seconds=-30.0)
    assert attempt.seconds == 0


def test_answer_to_a_question_without_a_time_shown_takes_no_seconds(maker):
    """A sitting rebuilt by hand may not know when it was shown."""
    sitting = replace(choose_option(start(maker), "a"), shown=None)
    _, attempt = say_certainty(sitting, "middle", now=NOW, rng=random.Random(1))
    assert attempt.seconds == 0


@pytest.mark.parametrize(("most", "asked"), [(1, 1), (3, 3), (9, 4), (None, 4)])
def test_sitting_ends_with_its_count_or_with_nothing_left(maker, most, asked):
    """Four decisions are there; each is asked once a day."""
    skills, sitting = asked_to_the_end(maker, start(maker, goal=Goal(questions=most)))
    assert len(skills) == len(set(skills)) == asked
    assert (sitting.phase, sitting.question, sitting.reason, sitting.shown) == ("done", None, None, None)
    assert sitting.count == asked


def test_no_new_question_starts_after_its_minutes(maker):
    """The one that is open may be finished."""
    sitting = start(maker, goal=Goal(minutes=5))
    revealed, _ = answer(sitting)
    assert go_on(maker, revealed, now=NOW + timedelta(minutes=4, seconds=59)).phase == "question"
    assert go_on(maker, revealed, now=NOW + timedelta(minutes=5)).phase == "done"


def test_resumed_sitting_keeps_its_count_and_its_start(maker):
    """Two answered before it was cut off and four minutes used leave one question or one minute."""
    started = NOW - timedelta(minutes=4)
    by_count = start(maker, goal=Goal(questions=3), before=2, started=started)
    assert (by_count.count, by_count.started) == (2, started)
    revealed, _ = answer(by_count)
    assert revealed.count == 3
    assert go_on(maker, revealed, now=NOW).phase == "done"
    assert start(maker, goal=Goal(questions=2), before=2).phase == "done"
    by_time = start(maker, goal=Goal(minutes=5), before=2, started=started)
    revealed, _ = answer(by_time)
    assert go_on(maker, revealed, now=NOW + timedelta(minutes=1)).phase == "done"


def test_decision_answered_today_is_not_asked_again_today(maker):
    """A sitting taken up later that day goes on with the others; tomorrow it may come back."""
    sitting = start(maker)
    _, attempt = answer(sitting)
    memories = {attempt.skill: add_attempt(None, attempt)}
    again, _ = asked_to_the_end(maker, start(maker, memories=memories))
    assert attempt.skill not in again
    assert len(again) == 3
    tomorrow, _ = asked_to_the_end(maker, start(maker, memories=memories, day=DAY + 1))
    assert attempt.skill in tomorrow


def test_topic_asked_alone_and_unknown_topic(maker):
    """Only that topic; of one that is not there nothing is left to ask."""
    skills, _ = asked_to_the_end(maker, start(maker, topic="b"))
    assert sorted(skills) == ["b/b1", "b/b2"]
    assert start(maker, topic="nothing").phase == "done"
    assert skills_by_topic(maker.book) == {"a": ["a/a1", "a/a2"], "b": ["b/b1", "b/b2"]}
    assert skills_by_topic(maker.book, topic="a") == {"a": ["a/a1", "a/a2"]}


def test_neighbours_are_of_different_topics_where_they_can_be(maker):
    """Four decisions of two topics alternate."""
    skills, _ = asked_to_the_end(maker, start(maker))
    topics = [skill[0] for skill in skills]
    assert all(one != other for one, other in pairwise(topics))


def test_item_that_cannot_be_asked_is_passed_over(rulebook):
    """A decision without a question costs no place in the sitting."""
    maker = maker_of(rulebook, never("n", "a"), fact("a1", "a"))
    skills, sitting = asked_to_the_end(maker, start(maker))
    assert skills == ["a/a1"]
    assert sitting.count == 1
    assert start(maker_of(rulebook, never("n", "a"))).phase == "done"


def test_decision_with_several_items_asks_one_that_can_be_asked(rulebook, book):
    """Whichever item the day points to, the one that can be asked is asked."""
    vary = {"wish.root_volume": ("low",)}
    can = Item(
        id="can",
        topic="t",
        kind="choose",
        stem="?",
        decision="base_control",
        row="worn-close",
        zones=("top",),
        vary=vary,
    )
    cannot = replace(can, id="cannot", vary={"wish.root_volume": ("high",)})
    both = Book(rulebook=rulebook, misconceptions=book.misconceptions, items=(cannot, can), topics={"t": "T"})
    maker = QuestionMaker(Beliefs(both))
    for day in range(DAY, DAY + 6):
        question = question_for(maker, "base_control/worn-close", student="Ada Reyes", day=day)
        assert question.item == "can"
    none = QuestionMaker(Beliefs(replace(both, items=(cannot,))))
    assert question_for(none, "base_control/worn-close", student="Ada Reyes", day=DAY) is None


def test_question_is_the_same_on_one_day_and_fresh_on_another(book):
    """Taken up on the same day it is the very question; over ten days there are many heads."""
    maker = QuestionMaker(Beliefs(book))
    skill = next(item.skill for item in book.items if item.decision)

    def ask(student, day):
        return question_for(maker, skill, student=student, day=day)

    assert ask("Ada Reyes", DAY) == ask("Ada Reyes", DAY)
    assert len({ask("Ada Reyes", day).stem for day in range(DAY, DAY + 10)}) > 5
    assert ask("Ada Reyes", DAY).seed != ask("Bo Lindqvist", DAY).seed


@pytest.mark.parametrize(("stated", "day"), [("", None), ("1970-01-01", 0), ("2026-11-25", DAY)])
def test_exam_day_is_the_school_s_date_as_a_study_day(rulebook, stated, day):
    """None is set unless the school says so."""
    assert exam_day(maker_of(rulebook, fact("a", "a"), exam_date=stated).book) == day


def test_decisions_are_counted_by_topic_and_state(maker):
    """Never asked, fading or wrong last time, and holding; every topic has all three counts."""

    def memory(skill, **values):
        fields = {"stability": 90.0, "difficulty": 5.0, "last_day": DAY - 2, "attempts": 2, "right": 1}
        return Memory(skill=skill, **fields | {"first_right": False, "last_right": True} | values)

    memories = {
        "a/a1": memory("a/a1"),
        "a/a2": memory("a/a2", last_right=False),
        "b/b1": memory("b/b1", stability=1.0, last_day=DAY - 60),
    }
    assert holding_by_topic(maker.book, memories, day=DAY) == {
        "a": {"not_wound": 0, "loosening": 1, "holding": 1},
        "b": {"not_wound": 1, "loosening": 1, "holding": 0},
    }


def test_whole_sitting_over_the_book_asks_real_questions(book):
    """Twelve decisions of the book, each once, neighbours of different topics."""
    skills, sitting = asked_to_the_end(QuestionMaker(Beliefs(book)), start(QuestionMaker(Beliefs(book))))
    assert len(set(skills)) == len(skills) == sitting.count == 12
    topics = [book.topic_of[skill] for skill in skills]
    assert all(one != other for one, other in pairwise(topics))
