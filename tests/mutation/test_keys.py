"""Each row that a question asks decides its key: with another outcome, some question has another answer."""

import pytest
from mutants import swapped
from question_keys import decides_no_head, sampled, tally_keys

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.rulebook.space import Space
from drill.service.facts import FACTS

SEEDS = range(1, 9)
# Where nobody knows the weakest place nobody knows the most resistant one, whose own row asks first too.
TWIN = ("go", "test_first")
TABLES = ("base_control", "wrap", "revise", "processing.next")


@pytest.fixture(scope="module")
def maker(book):
    """Makes the questions of the built-in book."""
    return QuestionMaker(Beliefs(book))


def _rows(rulebook, asked):
    written = [f"{table.decision}/{row.id}" for table in rulebook.tables.values() for row in table.rows]
    named = set().union(*(one.rows for one in asked))
    return [name for name in written if name in named]


def test_rows_of_some_decisions_change_a_key(maker, book, rulebook):
    """The items that ask four decisions, with two seeds each: one on zones, one counted, two of a moment."""
    items = [item for item in book.items if item.decision in TABLES and item.row]
    asked = sampled(maker, items, seeds=(1, 2))
    names = {f"{item.decision}/{item.row}" for item in items}
    found = tally_keys(asked, rulebook, [name for name in _rows(rulebook, asked) if name in names])
    print(f"rows asked, with another outcome: {found}")
    assert found.made > 100
    assert found.percent == 100, str(found)


def test_question_that_does_not_turn_on_a_row_misses_its_swap(maker, book, rulebook):
    """The tally itself: with no question on a row its swaps are told, with their place."""
    row = rulebook.tables["wrap"].row("too-many-turns")
    found = tally_keys([], rulebook, ["wrap/too-many-turns"])
    assert found.percent == 0
    assert all(text.startswith(f"{row.place}: wrap/too-many-turns gives ") for text in found.unnoticed)


def test_row_that_only_repeats_others_is_told_from_one_that_decides(rulebook):
    """A plan that stops has no lotion either, so that row of the test curls decides no head by itself."""
    space = Space(rulebook, facts=FACTS)
    for decision, row_id, expected in (
        ("revise", "no-plan-to-go-on-with", True),
        ("revise", "gum-like", False),
        ("verdict", "scalp-broken", False),
        ("wrap", "too-many-turns", False),
    ):
        table = rulebook.tables[decision]
        row = table.row(row_id)
        first = next(iter(swapped(table, row, rulebook)))
        assert decides_no_head(first, row, space) is expected, row_id


@pytest.mark.long
def test_every_row_that_is_asked_changes_a_key(maker, book, rulebook):
    """All items of the book; survivors are listed with their place."""
    asked = sampled(maker, book.items, seeds=SEEDS)
    rows = _rows(rulebook, asked)
    found = tally_keys(asked, rulebook, rows)
    print(f"{len(rows)} rows asked, with another outcome: {found}")
    row = rulebook.tables["verdict"].row("porosity-not-felt")
    assert found.unnoticed == tuple(f"{row.place}: verdict/{row.id} gives {one}" for one in TWIN), str(found)
