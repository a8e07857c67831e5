"""Test curls read back: what is told, what is offered, and what is never offered."""

import random

import pytest

from drill.bank.asking import Asking
from drill.bank.kinds.after_test import DECISIONS, make_after_test

ROWS = [
    ("gum-like", {"revise.hair": ("gum_like",)}, "stop"),
    ("harsh-hair", {"revise.hair": ("harsh",), "hair.porosity": ("average",)}, "other_lotion"),
    ("not-judged-dry", {"revise.dry": ("unknown",)}, "condition_and_wait"),
    ("curl-and-hair-are-right", {}, "go_on"),
]


@pytest.fixture
def ask(maker, make_item):
    """Make a question about test curls."""

    def make(row, vary, seed=1, decision="revise"):
        item = make_item(decision, kind="stop_or_go", row=row, vary=vary, look="Look.")
        return maker.make(item, seed)

    return make


@pytest.mark.parametrize(("row", "vary", "key"), ROWS)
def test_readings_decide(ask, row, vary, key):
    """The table's own row gives the key; common practice."""
    question = ask(row, vary)
    assert question.answer.value == key
    assert question.rows == (f"revise/{row}",)
    assert question.consultation is None
    assert len(question.stem.split()) <= 60


def test_only_ideas_about_test_curls_are_offered(ask, book):
    """An idea about a head that is not told in full would be blamed on nothing that is seen."""
    for seed in range(6):
        question = ask("harsh-hair", {"revise.hair": ("harsh",), "hair.porosity": ("average",)}, seed)
        ideas = {idea for option in question.options for idea in option.misconceptions}
        assert ideas
        for idea in ideas:
            assert {*DECISIONS} & {change.target for change in book.beliefs[idea].changes}
        # To condition and wait is acceptable beside a milder lotion.
        assert "condition_and_wait" not in {option.value for option in question.options}


def test_unsafe_options_say_stop_and_name_their_limit(ask):
    """Going on over hair like gum."""
    question = ask("gum-like", {"revise.hair": ("gum_like",)})
    assert "gum-or-shedding-stops" in question.limits
    assert all(one.feedback.opening == "Stop." for one in question.options if not one.correct)


def test_which_way_the_change_goes(ask):
    """Weak on treated hair: a smaller tool, and no stronger lotion."""
    question = ask(
        "smaller-tool",
        {"revise.dry": ("weak",), "revise.wet": ("weak",), "history.color": ("permanent",)},
        decision="revise.way",
    )
    assert question.answer.value == "smaller"
    assert "coloured-hair-never-stronger" in question.limits or "stronger" not in {
        option.value for option in question.options
    }


def test_no_question_where_the_row_never_decides(beliefs, make_item):
    """Readings that belong to another row."""
    item = make_item("revise", kind="stop_or_go", row="gum-like", vary={"revise.hair": ("sound",)})
    asking = Asking(beliefs=beliefs, item=item, seed=1, rng=random.Random(1))
    assert make_after_test(asking) is None
