"""The cases as written, and what is decided on one of them.

A case states outcomes under `expect`. Where another row would give the same outcome it states the row as
well, under `by`: the row that decides, or of a `strictest` table every row that brings the outcome about.
Under `under` stand parameters that a school has set otherwise, under `figures` what `case_figures` counts.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from drill.load.consultation import read_consultation
from drill.load.reading import Node, read_file
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Table
from drill.rulebook.trace import Decision
from drill.service.facts import FACTS
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER, Head

HERE = Path(__file__).parent
KEYS = {"case", "on", "with", "seen", "zone", "expect", "by", "under", "figures", "source"}


@dataclass(frozen=True)
class Case:
    """One case as written: where it stands, its fields, and the source of its expectation."""

    place: str
    name: str
    fields: Mapping[str, Node]
    source: str

    def stated(self, key: str) -> dict[str, object]:
        """Give what stands under `expect` or `by`, by decision."""
        node = self.fields.get(key)
        return {name: _plain(one) for name, one in node.value.items()} if node else {}


def _file(path: Path) -> Node:
    nodes, problems = read_file(path, shown=path.name)
    assert not problems, [str(one) for one in problems]
    return nodes[0]


def _plain(node: Node) -> object:
    return tuple(one.value for one in node.value) if isinstance(node.value, list) else node.value


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


def rules_of(case: Case, rulebook: Rulebook) -> Rulebook:
    """Give the rules that a case stands under."""
    parameters = dict(rulebook.parameters)
    for name, value in case.stated("under").items():
        assert value in parameters[name].choices, (case.place, name, value)
        parameters[name] = replace(parameters[name], value=value)
    return replace(rulebook, parameters=parameters) if "under" in case.fields else rulebook


def head_of(case: Case, rulebook: Rulebook) -> Head:
    """Give the head of a case under some rules, and those of its school."""
    rulebook = rules_of(case, rulebook)
    base = BASES[case.fields["on"].value if "on" in case.fields else "clear"]
    other = case.fields.get("with")
    values, keys = (other.value, other.keys) if other else ({}, {})
    merged = Node(base.place, {**base.value, **values}, {**base.keys, **keys})
    problems = []
    consultation = read_consultation(merged, rulebook, problems, folder=HERE)
    assert not problems, [str(one) for one in problems]
    return Head(rulebook, consultation)


def decide_case(case: Case, head: Head, decision: str) -> Decision:
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


def _needs(rulebook: Rulebook, decision: str) -> set[str]:
    """Name what a decision reads, and what the decisions it reads read in their turn."""
    found = set()
    for name in rulebook.tables[decision].inputs:
        found |= _needs(rulebook, name) if name in rulebook.tables else {name}
    return found


def value_of(decided: Decision) -> object:
    """Give an outcome as a case writes it."""
    is_figure = decided.decision == TOOL_DIAMETER or decided.decision in COMPUTED_FIGURES
    return f"{decided.value:g}" if is_figure else decided.value


def bringing_about(decided: Decision, table: Table) -> tuple[str, ...]:
    """Name the rows that give the outcome: the deciding one, or all that bring it about."""
    return tuple(row.id for row in decided.rows if table.hit != "strictest" or row.then == decided.value)


def differences(case: Case, decided: Decision, table: Table | None) -> list[str]:
    """Say in what a decision is not what its case states; nothing where it is. A figure has no table."""
    found = []
    expect, by = case.stated("expect"), case.stated("by")
    name = decided.decision
    if name in expect and expect[name] != value_of(decided):
        found.append(f"{case.place}: {name} is {value_of(decided)}, decided by {decided.row}")
    if table is not None and name in by:
        stated = by[name] if isinstance(by[name], tuple) else (by[name],)
        rows = bringing_about(decided, table)
        if stated != rows:
            found.append(f"{case.place}: {name} is decided by {', '.join(rows)}")
    return found
