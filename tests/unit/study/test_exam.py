"""A mock exam: the paper by weights, the clock, what is handed in, the marks."""

import importlib.util
import random
import sys
from collections import Counter
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.blueprint import Blueprint, Outline, deal
from drill.bank.book import Book, School
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker
from drill.service.head import Head
from drill.store.sqlite_log import memory_log
from drill.study.exam import begin_exam, end_exam, mark_choice, next_item
from drill.study.exam_paper import exam_weights, write_paper
from drill.study.exam_session import ExamSession
from drill.study.marks import Given, Marks, TopicMarks, mark

if "small_book" not in sys.modules:
    _spec = importlib.util.spec_from_file_location(
        "small_book", Path(__file__).parents[2] / "app" / "small_book.py"
    )
    sys.modules["small_book"] = importlib.util.module_from_spec(_spec)
    _spec.loader.exec_module(sys.modules["small_book"])

from small_book import UTC_EVENING, Clock, new_session


@pytest.fixture(scope="module")
def maker(book):
    return QuestionMaker(Beliefs(book))


@pytest.fixture(scope="module")
def paper(maker):
    return write_paper(maker, items=40, seed=5)


def fact(number, topic="a", **more):
    return Item(
        id=f"{topic}{number}",
        topic=topic,
        kind="choose",
        stem=f"What is {number}?",
        answer="this",
        wrong=(Wrong(text="that"), Wrong(text="those"), Wrong(text="none")),
        because="So it is.",
        source="common practice",
        **more,
    )


def small(rulebook, *items, blueprint=None, school=None):
    topics = {item.topic: item.topic.upper() for item in items}
    return QuestionMaker(
        Beliefs(
            Book(
                rulebook=rulebook,
                misconceptions=(),
                items=items,
                topics=topics,
                blueprint=blueprint or Blueprint(),
                school=school or School(),
            )
        )
    )


class TestPaper:
    def test_topics_have_their_weights(self, rulebook):
        """Over a hundred papers of a hundred items, a published outline's shares to the item."""
        shares = {"science": 35.0, "hair": 45.0, "skin": 10.0, "nails": 10.0}
        items = [fact(n, topic) for topic in shares for n in range(50)]
        asked = small(rulebook, *items, blueprint=Blueprint(weights=shares))
        for seed in range(100):
            assert Counter(one.topic for one in write_paper(asked, items=100, seed=seed)) == shares

    def test_the_built_in_paper_keeps_the_built_in_weights(self, maker, paper):
        """Where a topic has enough items with four options."""
        expected = deal(40, exam_weights(maker.book), dict.fromkeys(maker.book.topics, 40))
        met = Counter(one.topic for one in paper)
        assert len(paper) == 40
        assert sum(abs(met[topic] - count) for topic, count in expected.items()) <= 6

    def test_items_have_four_options_and_one_settled_key(self, maker, paper):
        """No row that a school turns, nothing contested, only one of four."""
        rulebook = maker.book.rulebook
        for one in paper:
            assert (one.kind, len(one.options), sum(option.correct for option in one.options)) == (
                "choose",
                4,
                1,
            )
            assert maker.book.item(one.item).standing == "settled"
            if one.decision in rulebook.tables:
                decided = Head(rulebook, one.consultation).decide(one.decision, one.zone)
                assert rulebook.tables[one.decision].row(decided.row).standing == "settled"

    def test_no_head_is_met_twice(self, maker):
        """Over five papers, and no fact either."""
        for seed in range(5):
            asked = [" ".join(one.facts) or one.item for one in write_paper(maker, items=60, seed=seed)]
            assert len(asked) == 60
            assert len(set(asked)) == 60

    def test_the_same_seed_gives_the_same_paper_and_another_one_another(self, maker, paper):
        """On any day."""
        assert write_paper(maker, items=40, seed=5) == paper
        assert write_paper(maker, items=40, seed=6) != paper

    def test_a_school_states_its_own_shares(self, rulebook):
        """A topic that it leaves out is not asked."""
        items = [fact(n, topic) for topic in "abc" for n in range(12)]
        made = write_paper(
            small(rulebook, *items, school=School(blueprint={"a": 0.75, "b": 0.25})), items=8, seed=1
        )
        assert Counter(one.topic for one in made) == {"a": 6, "b": 2}

    def test_where_a_topic_runs_out_the_others_make_up_for_it(self, rulebook):
        """And where all do, the paper is shorter."""
        items = [fact(1), *(fact(n, "b") for n in range(9))]
        asked = small(rulebook, *items)
        assert Counter(one.topic for one in write_paper(asked, items=8, seed=1)) == {"a": 1, "b": 7}
        assert len(write_paper(asked, items=30, seed=1)) == 10

    def test_what_a_school_may_turn_is_left_out(self, rulebook, book):
        """Facts by their standing, heads by that of the row that decides; and what has no four options."""
        school = fact(1, standing="school")
        three = replace(fact(2), wrong=(Wrong(text="that"), Wrong(text="those")))
        assert write_paper(small(rulebook, school, three), items=4, seed=1) == ()
        bare = book.item("roll-as-it-is-worn")
        asked = QuestionMaker(Beliefs(replace(book, items=(bare,), topics={bare.topic: "T"})))
        assert write_paper(asked, items=1, seed=1)
        table = rulebook.tables["roll_direction"]
        rows = tuple(replace(row, standing="school") for row in table.rows)
        turned = replace(rulebook, tables={**rulebook.tables, "roll_direction": replace(table, rows=rows)})
        asked = QuestionMaker(
            Beliefs(replace(book, rulebook=turned, items=(bare,), topics={bare.topic: "T"}))
        )
        assert write_paper(asked, items=1, seed=1) == ()

    def test_an_item_that_cannot_be_asked_is_passed_over(self, rulebook, book):
        """It costs no place."""
        never = replace(
            book.item("base-for-hair-worn-close"),
            id="never",
            topic="a",
            vary={"wish.root_volume": ("moderate",)},
        )
        assert [one.item for one in write_paper(small(rulebook, never, fact(1)), items=4, seed=1)] == ["a1"]

    def test_a_decision_comes_again_on_another_head_where_nothing_else_is_left(self, book):
        """A fact never does."""
        item = book.item("a-clear-head-with-old-colour")
        asked = QuestionMaker(Beliefs(replace(book, items=(item,), topics={item.topic: "T"})))
        made = write_paper(asked, items=2, seed=1)
        assert [one.item for one in made] == [item.id] * 2
        assert made[0].facts != made[1].facts

    def test_a_figure_without_a_table_is_settled(self, book):
        """Its rows stand in the tables that it rests on."""
        item = book.item("diameter-for-a-body-wave")
        asked = QuestionMaker(Beliefs(replace(book, items=(item,), topics={item.topic: "T"})))
        assert [one.decision for one in write_paper(asked, items=1, seed=1)] == ["tool.diameter_mm"]


@pytest.fixture
def start():
    return UTC_EVENING


def exam_of(paper, start, seconds_an_item=49):
    return begin_exam(
        paper, student="Wren", device="d", day=20514, seconds_an_item=seconds_an_item, now=start
    )


class TestClock:
    def test_an_item_gives_its_seconds_to_the_whole(self, paper, start):
        """Forty times forty-nine."""
        exam = exam_of(paper, start)
        assert exam.seconds_left(start) == 40 * 49
        assert exam.seconds_left(start + timedelta(hours=2)) == 0

    def test_an_answer_after_the_time_does_not_count(self, paper, start):
        """The exam is over, and it ended when its time did."""
        exam = mark_choice(exam_of(paper[:2], start), "a")
        late = start + timedelta(seconds=99)
        over, attempt = next_item(exam, now=late, rng=random.Random(1))
        assert attempt is None
        assert over.is_over
        assert over.ended == start + timedelta(seconds=98)
        assert [one.option for one in over.all_given] == [None, None]

    def test_an_exam_without_items_is_over_at_once(self, start):
        """Nothing can be handed in."""
        exam = exam_of((), start)
        assert exam.is_over
        assert mark_choice(exam, "a") == exam
        assert next_item(exam, now=start, rng=random.Random(1)) == (exam, None)


class TestHandingIn:
    def test_an_attempt_is_marked_as_an_exams_and_asks_no_certainty(self, paper, start):
        """With the seconds it took."""
        exam = mark_choice(mark_choice(exam_of(paper, start), "b"), "a")
        after, attempt = next_item(exam, now=start + timedelta(seconds=20), rng=random.Random(1))
        assert (attempt.setting, attempt.certainty, attempt.seconds) == ("exam", None, 20)
        option = paper[0].option("a")
        assert (attempt.choice, attempt.correct) == (str(option.value), option.correct)
        assert (attempt.item, attempt.seed, attempt.rulebook) == (
            paper[0].item,
            paper[0].seed,
            paper[0].rulebook,
        )
        assert after.question == paper[1]
        assert (after.chosen, after.answered) == ("", 1)

    def test_an_item_left_open_makes_no_attempt(self, paper, start):
        """It brings no mark and is never shown again."""
        after, attempt = next_item(exam_of(paper, start), now=start, rng=random.Random(1))
        assert attempt is None
        assert after.question == paper[1]
        assert after.answered == 0

    def test_an_unknown_option_is_refused(self, paper, start):
        """A front asks only for what it showed."""
        with pytest.raises(KeyError):
            mark_choice(exam_of(paper, start), "z")

    def test_the_last_item_ends_the_exam(self, paper, start):
        """And leaving it later changes nothing."""
        exam, _ = next_item(mark_choice(exam_of(paper[:1], start), "a"), now=start, rng=random.Random(1))
        assert exam.ended == start
        assert end_exam(exam, now=start + timedelta(seconds=5)) == exam


class TestMarks:
    def test_marks_come_by_topic_with_what_was_left_open(self, paper):
        """Open items count as wrong."""
        given = [Given(question=one, option=one.answer) for one in paper[:10]]
        given += [Given(question=one, option=None) for one in paper[10:20]]
        marks = mark(given, pass_mark=0.75)
        assert (marks.all.right, marks.all.items, marks.left_open) == (10, 20, 10)
        assert marks.all.share == 0.5
        assert sum(one.right for one in marks.topics) == 10
        assert [one.topic for one in marks.topics] == list(dict.fromkeys(one.topic for one in paper[:20]))
        assert all(one.low < one.share < one.high or one.share in (0, 1) for one in marks.topics)
        assert marks.all.low == pytest.approx(0.2993, abs=1e-4)  # Wilson, 10 of 20
        assert not marks.passes

    def test_the_likeliest_idea_of_each_answer_is_counted(self, paper):
        """The most frequent first."""
        given = [
            Given(question=one, option=option)
            for one in paper
            for option in one.options
            if not option.correct
        ]
        marks = mark(given, pass_mark=0.75)
        expected = Counter(one.option.misconceptions[0] for one in given if one.option.misconceptions)
        assert marks.ideas == expected
        assert list(marks.ideas.values()) == sorted(expected.values(), reverse=True)

    @pytest.mark.parametrize(("right", "passes"), [(7, True), (6, False)])
    def test_the_pass_mark_itself_passes(self, right, passes):
        """Seven of ten are 70 %, whatever a machine makes of it."""
        whole = TopicMarks(topic="", right=right, items=10, low=0.0, high=1.0)
        assert Marks(all=whole, topics=(), left_open=0, ideas={}, pass_mark=0.7).passes is passes

    def test_nothing_asked_has_no_share(self):
        """And any true share is possible."""
        marks = mark([], pass_mark=0.75)
        assert (marks.all.share, marks.all.low, marks.all.high) == (0.0, 0.0, 1.0)


class TestSession:
    @pytest.fixture
    def log(self):
        with memory_log() as opened:
            yield opened

    @pytest.fixture
    def clock(self):
        return Clock()

    @pytest.fixture
    def exam(self, log, clock, rulebook):
        session = new_session(log, clock=clock)
        items = tuple(fact(n) for n in range(5))
        session.book = Book(
            rulebook=rulebook,
            misconceptions=(),
            items=items,
            topics={"a": "A"},
            blueprint=Blueprint(outline=Outline(items=10, minutes=5)),
        )
        return ExamSession(session, seed=1, items=4)

    def test_the_clock_begins_when_the_rules_are_read(self, exam, clock):
        """Four items of thirty seconds."""
        clock.pass_s(500)
        assert not exam.begun
        exam.begin()
        assert (exam.begun, exam.seconds_left) == (True, 120)

    def test_what_is_handed_in_is_in_the_log_at_once(self, exam, log, clock):
        """One attempt an answer, and the memory of the decision with it."""
        exam.begin()
        clock.pass_s(10)
        exam.choose(exam.exam.question.answer.id)
        exam.go_on()
        (attempt,) = log.attempts("Wren")
        assert (attempt.setting, attempt.correct, attempt.seconds) == ("exam", True, 10)
        assert attempt.skill in exam.session.memories
        exam.go_on()
        assert len(log.attempts("Wren")) == 1

    def test_when_the_time_is_over_the_rest_is_open(self, exam, clock):
        """Marks count all items."""
        exam.begin()
        exam.choose(exam.exam.question.answer.id)
        exam.go_on()
        assert not exam.tick().is_over
        clock.pass_s(121)
        assert exam.tick().is_over
        assert (exam.marks.all.right, exam.marks.all.items, exam.marks.left_open) == (1, 4, 3)
        assert exam.tick().is_over

    def test_whoever_leaves_keeps_what_was_handed_in(self, exam, log, clock):
        """And nothing more is asked."""
        exam.begin()
        exam.choose(exam.exam.question.options[0].id)
        exam.go_on()
        assert exam.end().is_over
        assert len(log.attempts("Wren")) == 1
