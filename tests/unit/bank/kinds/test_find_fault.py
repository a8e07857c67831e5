"""A plan with one line from a wrong idea, or with none."""

from collections import Counter
from dataclasses import replace

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.item import Item
from drill.bank.kinds.find_fault import NOTHING
from drill.bank.make import QuestionMaker
from drill.bank.question import MOST_WORDS
from drill.bank.short import short_words
from drill.rulebook.overlay import apply
from drill.service.head import Head
from drill.service.wording import name_words

SEEDS = range(120)
PARTS = ("base_control", "papers", "roll_direction")
SIDE = Item(
    id="plan-of-a-side",
    topic="t",
    kind="find_fault",
    stem="The {zone}. Which line is at fault?",
    zones=("left_side", "right_side"),
    parts=PARTS,
    vary={"wish.root_volume": ("low", "moderate", "high"), "hair.ends": ("even", "layered")},
    look="Read it line by line.",
)
LOTION = Item(
    id="plan-of-a-lotion",
    topic="t",
    kind="find_fault",
    stem="What is at fault?",
    zones=("top",),
    parts=("waving_lotion.class", "waving_lotion.strength", "papers"),
    vary={"hair.porosity": ("average", "porous"), "history.color": ("none",)},
)


@pytest.fixture(scope="module")
def questions(maker):
    """Many draws of one item."""
    made = [maker.make(SIDE, seed) for seed in SEEDS]
    assert all(made)
    return made


def shown(question, rulebook):
    """Read the lines of the plan back to the values that they say."""
    table = {
        part: {short_words(part, value, rulebook): value for value in rulebook.tables[part].gives}
        for part in PARTS
    }
    values = {}
    for part in PARTS:
        start = f"Planned, {name_words(part)}: "
        (line,) = [fact for fact in question.facts if fact.startswith(start)]
        values[part] = table[part][line.removeprefix(start).rstrip(".")]
    return values


def test_line_at_fault_is_neither_right_nor_acceptable_and_the_others_are_right(questions, rulebook):
    """Held against the planner, line by line."""
    for question in questions:
        head = Head(rulebook, question.consultation)
        for part, value in shown(question, rulebook).items():
            decided = head.decide(part, question.zone)
            if part == question.answer.value:
                assert value not in (decided.value, *decided.also)
            else:
                assert value == decided.value


def test_a_good_quarter_of_the_plans_has_no_fault(questions):
    """And the others have theirs in every line."""
    keys = Counter(question.answer.value for question in questions)
    assert 0.2 < keys[NOTHING] / len(questions) < 0.38
    assert set(keys) == {NOTHING, *PARTS}


def test_to_overlook_the_fault_shows_the_idea_behind_it(questions, rulebook, book):
    """Whoever holds it would have planned just so."""
    for question in questions:
        nothing = next(one for one in question.options if one.value == NOTHING)
        if nothing.correct:
            continue
        part = question.answer.value
        value = shown(question, rulebook)[part]
        for idea in nothing.misconceptions:
            believed = Head(apply(book.rulebook, book.beliefs[idea]), question.consultation)
            assert believed.decide(part, question.zone).value == value
        assert nothing.misconceptions


def test_to_blame_a_right_line_shows_ideas_that_would_have_it_otherwise(questions, rulebook, book):
    """Under each of them the line would be another."""
    for question in questions:
        values = shown(question, rulebook)
        for option in question.options:
            if option.correct or option.value == NOTHING:
                continue
            for idea in option.misconceptions:
                believed = Head(apply(book.rulebook, book.beliefs[idea]), question.consultation)
                assert believed.decide(option.value, question.zone).value != values[option.value]


def test_options_are_the_lines_and_nothing(questions):
    """Nothing is always among them, and two wrong ones at least come from ideas."""
    for question in questions:
        assert {option.value for option in question.options} == {NOTHING, *PARTS}
        assert sum(bool(one.misconceptions) for one in question.options) >= 2
        assert len(question.stem.split()) <= MOST_WORDS
        assert not question.answer.feedback.opening
        assert all(0 < len(one.feedback.text.split()) <= MOST_WORDS for one in question.options)
        assert question.decision is None


def test_to_overlook_what_can_harm_is_stopped(maker, rulebook):
    """Weak hair on base, and nothing said of it."""
    item = Item(
        id="weak-on-base",
        topic="t",
        kind="find_fault",
        stem="The {zone}. What is at fault?",
        zones=("top",),
        parts=PARTS,
        vary={"hair.elasticity": ("reduced",), "wish.root_volume": ("high",)},
    )
    stopped = 0
    for seed in range(40):
        question = maker.make(item, seed)
        if shown(question, rulebook)["base_control"] == "on_base":
            others = [one for one in question.options if not one.correct]
            assert all(one.feedback.text.startswith("Stop.") for one in others)
            stopped += 1
    assert stopped


def test_lotion_for_the_whole_head_is_shown_beside_a_zone(maker, rulebook):
    """An idea that sends the client home plans no lotion, and that is no fault to be found."""
    for seed in range(30):
        question = maker.make(LOTION, seed)
        assert not any(fact.endswith("no lotion.") for fact in question.facts)
        assert question.zone == "top"


def test_plan_that_no_idea_would_change_is_not_shown(book):
    """Without wrong ideas there is neither a fault to put in nor a line to doubt."""
    nobody = QuestionMaker(Beliefs(replace(book, misconceptions=())))
    assert [nobody.make(SIDE, seed) for seed in range(6)] == [None] * 6


def test_plan_with_one_doubtful_line_is_shown_when_no_head_has_more(book):
    """With a fault in that line, or with none."""
    only = (book.beliefs["folded-paper-holds-any-ends"],)
    maker = QuestionMaker(Beliefs(replace(book, misconceptions=only)))
    keys = Counter(maker.make(SIDE, seed).answer.value for seed in range(30))
    assert set(keys) == {NOTHING, "papers"}


def test_head_that_is_not_served_has_no_plan(maker):
    """Draws end, and None says so."""
    item = Item(
        id="sore",
        topic="t",
        kind="find_fault",
        stem="?",
        zones=("top",),
        parts=PARTS,
        vary={"scalp": ("broken",)},
    )
    assert maker.make(item, 1) is None
