"""Situations and what is decided on them, each a few lines of YAML; every row of every table has one.

A row counts as met only where a case states the outcome of that row's decision, so that a row whose outcome
is changed by accident is noticed. Whether each row would really be missed is told in `tests/mutation`.
"""

import pytest
from case_figures import figures_of
from written_cases import CASES, bringing_about, decide_case, differences, head_of


def test_no_two_cases_have_one_name():
    """A failure names one case."""
    names = [case.name for case in CASES]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_is_decided_as_written(case, rulebook):
    """Each outcome, deciding row and figure that the case states, under its source."""
    assert case.source == "common practice" or case.source in rulebook.sources, case.place
    head = head_of(case, rulebook)
    expect, by = case.stated("expect"), case.stated("by")
    assert expect, case.place
    assert set(by) <= set(expect), f"{case.place}: a row without its outcome"
    found = []
    for decision in expect:
        found += differences(case, decide_case(case, head, decision), rulebook.tables.get(decision))
    assert not found, "\n".join(found)
    assert figures_of(case, rulebook) == case.stated("figures"), case.place


def test_every_row_of_every_table_is_met_by_a_case(rulebook):
    """A row that nobody has a case for may say anything."""
    met = set()
    for case in CASES:
        head = head_of(case, rulebook)
        for decision in case.stated("expect"):
            if decision in rulebook.tables:
                decided = decide_case(case, head, decision)
                met |= {(decision, row) for row in bringing_about(decided, rulebook.tables[decision])}
    rows = {(table.decision, row.id) for table in rulebook.tables.values() for row in table.rows}
    assert not rows - met, sorted(rows - met)
