"""A number with its unit: computed by the planner, and near to no other option."""

from itertools import combinations

import pytest

from drill.bank.item import Item
from drill.bank.kinds.estimate import USUAL_TOLERANCE
from drill.rulebook.overlay import apply
from drill.service.head import COMPUTED_UNITS, Head

SEEDS = range(12)


def item(decision, **values):
    fields = {"id": "e", "topic": "t", "kind": "estimate", "stem": "The {zone}: how much?", "look": "Count."}
    return Item(**fields | values, decision=decision, zones=("top", "nape_left"))


@pytest.fixture(scope="module")
def questions(maker):
    """Draws of the figures of the winding."""
    decisions = ("turns", "curl_ends_mm", "curl_scalp_mm")
    made = [maker.make(item(decision), seed) for decision in decisions for seed in SEEDS]
    assert sum(one is None for one in made) < len(made) / 4
    return [one for one in made if one is not None]


def test_key_is_what_the_planner_computes(questions, rulebook):
    """On that very head, in that unit."""
    for question in questions:
        decided = Head(rulebook, question.consultation).decide(question.decision, question.zone)
        assert question.answer.value == decided.value
        assert question.unit == COMPUTED_UNITS[question.decision]
        assert question.answer.text.endswith(question.unit)


def test_ideas_named_compute_so(questions, book):
    """The overlay is laid on, and the figure computed again."""
    for question in questions[::4]:
        for option in question.options:
            for idea in option.misconceptions:
                head = Head(apply(book.rulebook, book.beliefs[idea]), question.consultation)
                assert head.decide(question.decision, question.zone).value == option.value, idea


def test_no_number_is_near_two_options(questions):
    """Whatever is typed, it is marked as one of them or as none; at least two come from ideas."""
    for question in questions:
        assert sum(bool(option.misconceptions) for option in question.options) >= 2
        for one, other in combinations([option.value for option in question.options], 2):
            low, high = sorted((one, other))
            assert low * (1 + USUAL_TOLERANCE) < high * (1 - USUAL_TOLERANCE)
        close = f"{question.answer.value * 1.05:.2f}"
        assert question.marked(close).correct
        assert not question.marked(f"{question.answer.value * 9:.2f}").correct


def test_explanation_says_what_the_figure_rests_on(questions):
    """Length, tool and layers of this head."""
    for question in questions:
        assert " tool" in question.explanation
        assert "layer" in question.explanation
        assert question.explanation.endswith("Count.")


def test_options_that_a_wide_tolerance_joins_make_no_question(maker):
    """With half of the key allowed, two wrong numbers that are far enough apart are rarely left."""
    made = [maker.make(item("turns", tolerance=0.5), seed) for seed in range(4)]
    assert None in made
    assert all(one.tolerance == 0.5 for one in made if one)


def test_head_on_which_no_idea_computes_otherwise_is_not_asked(maker):
    """A scalp that is broken is not wound, so nothing is counted."""
    assert maker.make(item("turns", vary={"scalp": ("broken",)}), 1) is None
