"""Each row of each table would be missed: by what a case states of the decision or of its row."""

import pytest
from mutants import Mutant, changes_nothing, swapped, tally, without_row
from written_cases import CASES, head_of

from drill.rulebook.rulebook import Rulebook


def _swaps(rulebook: Rulebook) -> list[Mutant]:
    return [
        mutant
        for table in rulebook.tables.values()
        for row in table.rows
        for mutant in swapped(table, row, rulebook)
    ]


def test_no_row_can_be_taken_away_unnoticed(rulebook):
    """A row that nobody misses is deleted."""
    found = tally(
        [without_row(table, row) for table in rulebook.tables.values() for row in table.rows], rulebook
    )
    print(f"rows taken away: {found}")
    assert found.percent == 100, str(found)


def test_no_row_can_decide_otherwise_unnoticed(rulebook):
    """Each row with each other outcome of its table, and where it copies an input, copying each other."""
    found = tally([one for one in _swaps(rulebook) if not changes_nothing(one, rulebook)], rulebook)
    print(f"rows that decide otherwise: {found}")
    assert found.percent == 100, str(found)


def test_few_swaps_change_nothing(rulebook):
    """Where a wish is stated, the way the hair is worn is that wish: to copy either is one rule."""
    same = {(one.row.id, one.what) for one in _swaps(rulebook) if changes_nothing(one, rulebook)}
    assert same == {
        ("growth-agrees-or-crosses", "gives wish.wear"),
        ("as-it-is-worn", "gives wish.wear"),
    }


@pytest.mark.parametrize("row_id", ["everyday-half-off", "lift-on-sound-hair"])
def test_a_row_without_a_case_is_told(rulebook, row_id):
    """The tally itself: with no case on its decision a row can be taken away, and its place is named."""
    table = rulebook.tables["base_control"]
    row = table.row(row_id)
    silent = [case for case in CASES if "base_control" not in case.stated("expect")]
    found = tally([without_row(table, row)], rulebook, cases=silent)
    assert found.percent == 0
    assert found.unnoticed == (f"{row.place}: base_control/{row_id} is taken away",)


def test_a_case_that_states_only_the_outcome_misses_a_row_with_the_same_one(rulebook):
    """Why cases state rows: at the side of the head two rows give half off base."""
    table = rulebook.tables["base_control"]
    case = next(case for case in CASES if case.name == "lift-at-the-side")
    mutant = without_row(table, table.row("lift-lower-down-the-head"))
    assert tally([mutant], rulebook, cases=[case]).percent == 100
    stated = {name: node for name, node in case.fields.items() if name != "by"}
    plain = type(case)(case.place, case.name, stated, case.source)
    assert head_of(plain, rulebook).decide("base_control", "left_side").value == "half_off_base"
    assert tally([mutant], rulebook, cases=[plain]).percent == 0
