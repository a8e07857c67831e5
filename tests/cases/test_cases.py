"""Situations and what is decided on them, each a few lines of YAML; every row of every table has one.

A row counts as met only where a case states the outcome of that row's decision, so that a row whose outcome
is changed by accident is noticed.
"""

from dataclasses import dataclass
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import Node, read_file
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.trace import Decision
from drill.service.facts import FACTS
from drill.service.head import TOOL_DIAMETER, Head

HERE = Path(__file__).parent
KEYS = {"case", "on", "with", "seen", "zone", "expect", "source"}


@dataclass(frozen=True)
class Case:
    """One case as written: where it stands, its fields, and the source of its expectation."""

    place: str
    name: str
    fields: dict
    source: str


def _file(path: Path) -> Node:
    nodes, problems = read_file(path, shown=path.name)
    assert not problems, [str(one) for one in problems]
    return nodes[0]


def _cases() -> list[Case]:
    found = []
    for path in sorted(HERE.glob("*.yaml")):
        fields = _file(path).value
        for node in fields["cases"].value if "cases" in fields else ():
            assert set(node.value) <= KEYS, (str(node.place), set(node.value) - KEYS)
            source = node.value.get("source", fields["source"]).value
            found.append(Case(str(node.place), node.value["case"].value, node.value, source))
    return found


CASES = _cases()
BASES = _file(HERE / "bases.yaml").value["bases"].value


def _head(case: Case, rulebook) -> Head:
    base = BASES[case.fields["on"].value if "on" in case.fields else "clear"]
    other = case.fields.get("with")
    values, keys = (other.value, other.keys) if other else ({}, {})
    merged = Node(base.place, {**base.value, **values}, {**base.keys, **keys})
    problems = []
    consultation = read_consultation(merged, rulebook, problems, folder=HERE)
    assert not problems, [str(one) for one in problems]
    return Head(rulebook, consultation)


def _decide(case: Case, head: Head, decision: str) -> Decision:
    """Decide; what is seen while the work goes on, such as the curl, is no part of the consultation."""
    rulebook = head.rulebook
    table = rulebook.tables.get(decision)
    zone = None if table is not None and table.per == "head" else case.fields["zone"].value
    if "seen" not in case.fields:
        return head.decide(decision, zone)
    seen = {name: node.value for name, node in case.fields["seen"].value.items()}
    for name, value in seen.items():
        assert value in rulebook.domains[name].values, (case.place, name, value)
    read = {name: seen.get(name) or head.evaluation.read(name) for name in _needs(rulebook, decision)}
    return Evaluation(rulebook, facts=FACTS, inputs=read).decide(decision)


def _needs(rulebook, decision: str) -> set[str]:
    """Name what a decision reads, and what the decisions it reads read in their turn."""
    found = set()
    for name in rulebook.tables[decision].inputs:
        found |= _needs(rulebook, name) if name in rulebook.tables else {name}
    return found


def _expected(node: Node) -> object:
    return tuple(one.value for one in node.value) if isinstance(node.value, list) else node.value


def _met(decided: Decision, rulebook) -> set[tuple[str, str]]:
    """Name the rows that give the outcome: the deciding one, or all that bring it about."""
    hit = rulebook.tables[decided.decision].hit
    rows = (
        decided.rows
        if hit == "collect"
        else [row for row in decided.rows if hit == "first" or row.then == decided.value]
    )
    return {(decided.decision, row.id) for row in rows}


def test_no_two_cases_have_one_name():
    """A failure names one case."""
    names = [case.name for case in CASES]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_is_decided_as_written(case, rulebook):
    """Each outcome that the case states, under its source."""
    assert case.source == "common practice" or case.source in rulebook.sources, case.place
    head = _head(case, rulebook)
    assert case.fields["expect"].value, case.place
    for decision, node in case.fields["expect"].value.items():
        decided = _decide(case, head, decision)
        value = f"{decided.value:g}" if decision == TOOL_DIAMETER else decided.value
        assert value == _expected(node), f"{node.place} {decision}, decided by {decided.row}"


def test_every_row_of_every_table_is_met_by_a_case(rulebook):
    """A row that nobody has a case for may say anything."""
    met = set()
    for case in CASES:
        head = _head(case, rulebook)
        for decision in case.fields["expect"].value:
            if decision in rulebook.tables:
                met |= _met(_decide(case, head, decision), rulebook)
    rows = {(table.decision, row.id) for table in rulebook.tables.values() for row in table.rows}
    assert not rows - met, sorted(rows - met)
