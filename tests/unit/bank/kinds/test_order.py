"""Steps put in order: the plan's own order, or a written one."""

import random

import pytest

from drill.bank.item import Item, Wrong
from drill.bank.question import MOST_WORDS
from drill.bank.scenario import draw_head
from drill.service.head import Head
from drill.service.wording import value_words

SEEDS = range(20)
PLANNED = Item(
    id="to-the-end",
    topic="t",
    kind="order",
    stem="Put these in order.",
    decision="steps",
    # Not in their order: the plan knows it.
    steps=("neutralise", "rinse", "take_down", "blot"),
    wrong=(
        Wrong(text="", misconception="rinse-with-tools-out", order=(2, 1, 3, 0)),
        Wrong(text="", misconception="skip-the-blot", order=(1, 0, 3, 2)),
        Wrong(text="", order=(0, 1, 3, 2)),
    ),
    look="Say why.",
)
WRITTEN = Item(
    id="clean-up",
    topic="t",
    kind="order",
    stem="Put these in order.",
    steps=("Wash", "Shake off", "Disinfect"),
    wrong=(
        Wrong(text="", misconception="disinfectant-washes-too", order=(2, 0, 1)),
        Wrong(text="", order=(1, 0, 2)),
    ),
    because="Dirt shields what lives under it.",
    source="common practice",
    look="Read the label.",
)


def changed(item, **values):
    """Give an item with other fields."""
    return Item(**{name: getattr(item, name) for name in item.__dataclass_fields__} | values)


def texts_in_order(question, value):
    """Give the steps of an order as shown."""
    by_letter = {piece.id: piece.text for piece in question.pieces}
    return [by_letter[letter] for letter in value]


def test_key_is_the_order_of_the_plan(maker, book):
    """Whatever order the item writes its steps in."""
    head = Head(book.rulebook, draw_head(PLANNED, None, book.rulebook, random.Random(1)))
    rows = [row for row in head.evaluation.collected("steps") if row.then in PLANNED.steps]
    assert [row.then for row in rows] == ["rinse", "blot", "neutralise", "take_down"]
    for seed in SEEDS:
        question = maker.make(PLANNED, seed)
        assert texts_in_order(question, question.answer.value) == [
            value_words("steps", row.then) for row in rows
        ]
        assert question.source == rows[0].source
        assert set(question.rows) == {f"steps/{row.id}" for row in rows}


def test_key_of_a_written_item_is_as_written(maker):
    """With its own reason and source."""
    for seed in SEEDS:
        question = maker.make(WRITTEN, seed)
        assert texts_in_order(question, question.answer.value) == list(WRITTEN.steps)
        assert (question.source, question.consultation, question.decision) == ("common practice", None, None)
        assert question.explanation == (
            "In order: wash; shake off; disinfect. Dirt shields what lives under it. Read the label."
        )


@pytest.mark.parametrize("item", [PLANNED, WRITTEN], ids=lambda one: one.id)
def test_letters_in_their_own_order_are_never_the_answer(maker, item):
    """And every option is an order of all the pieces, no two alike."""
    for seed in SEEDS:
        question = maker.make(item, seed)
        letters = "".join(piece.id for piece in question.pieces)
        assert letters == "abcd"[: len(item.steps)] != question.answer.value
        assert len({option.value for option in question.options}) == len(item.wrong) + 1
        assert all(sorted(option.value) == sorted(letters) for option in question.options)


def test_an_order_is_marked_by_its_letters(maker, book):
    """One that an idea gives names it; any other is wrong and is told the right one."""
    question = maker.make(PLANNED, 2)
    assert question.answer_as == "order"
    assert question.marked(question.answer.value).correct
    tools_out = [value_words("steps", step) for step in ("take_down", "rinse", "blot", "neutralise")]
    typed = " ".join({piece.text: piece.id for piece in question.pieces}[text] for text in tools_out)
    marked = question.marked(typed.upper())
    assert marked.misconceptions == ("rinse-with-tools-out",)
    assert marked.feedback.decides == (
        "“Rinse on the tools” comes earlier. What is not rinsed out goes on working."
    )
    assert marked.feedback.look == book.beliefs["rinse-with-tools-out"].mend
    backwards = question.marked(question.answer.value[::-1])
    assert (backwards.correct, backwards.misconceptions) == (False, ())
    assert backwards.feedback == question.answer.feedback
    with pytest.raises(ValueError, match="does not name each step once"):
        question.marked("abb")


def test_order_without_an_idea_has_the_items_own_words(maker):
    """And nothing to stop; an idea that can harm is stopped."""
    question = maker.make(PLANNED, 2)
    plain = next(one for one in question.options if not one.correct and not one.misconceptions)
    assert (plain.feedback.opening, plain.feedback.look) == ("", "Say why.")
    harm = changed(WRITTEN, wrong=(Wrong(text="", misconception="burning-means-working", order=(2, 0, 1)),
                                   WRITTEN.wrong[1]))  # fmt: skip
    stopped = next(one for one in maker.make(harm, 1).options if one.misconceptions)
    assert stopped.feedback.text.startswith("Stop. “Wash” comes earlier.")


def test_feedback_is_short(maker, book):
    """Of every order in the built-in sets."""
    items = [item for item in book.items if item.kind == "order"]
    assert len(items) >= 6
    for item in items:
        for seed in range(5):
            question = maker.make(item, seed)
            for option in question.options:
                assert 0 < len(option.feedback.text.split()) <= MOST_WORDS, item.id
            assert sum(bool(option.misconceptions) for option in question.options) >= 2, item.id


def test_steps_that_no_plan_has_together_are_not_asked(maker):
    """A wet set is never neutralised."""
    dried = changed(PLANNED, steps=("neutralise", "rinse", "dry_set", "blot"))
    assert maker.make(dried, 1) is None


def test_wrong_order_that_a_plan_makes_right_is_left_out(maker):
    """Where fewer than two are left, nothing is asked."""
    right = Wrong(text="", order=(1, 3, 0, 2))
    three = changed(PLANNED, wrong=(*PLANNED.wrong[:2], right))
    assert len(maker.make(three, 1).options) == 3
    assert maker.make(changed(PLANNED, wrong=(PLANNED.wrong[0], right)), 1) is None


def test_written_order_is_a_fact_and_a_planned_one_is_none():
    """So that one is counted among facts, the other among scenarios."""
    assert WRITTEN.is_fact
    assert not PLANNED.is_fact
