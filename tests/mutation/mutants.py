"""Rulebooks with one thing wrong, and whether a case as written notices.

A case decides a table from what the table reads. No decision reads itself, so what is read is the same under
every mutant of that table: it is read once, and each mutant costs one look at one table.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from written_cases import CASES, Case, decide_case, differences, head_of

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Evaluation, UndecidedError, decide
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row, Table
from drill.service.facts import FACTS


@dataclass(frozen=True)
class Mutant:
    """A table with one row gone or deciding otherwise, and in words what was done to it."""

    table: Table
    row: Row
    what: str

    def __str__(self) -> str:
        return f"{self.row.place}: {self.table.decision}/{self.row.id} {self.what}"


@dataclass(frozen=True)
class Met:
    """A case that states something of a table, its rules, and what the table reads on its head."""

    case: Case
    rulebook: Rulebook
    zone: str | None
    read: dict[str, Value]


@dataclass(frozen=True)
class Tally:
    """How many mutants were noticed, and those that were not."""

    made: int
    unnoticed: tuple[str, ...]

    @property
    def percent(self) -> float:
        """The share that was noticed."""
        return 100 * (self.made - len(self.unnoticed)) / self.made

    def __str__(self) -> str:
        noticed = self.made - len(self.unnoticed)
        return "\n".join([f"{noticed} of {self.made} noticed, {self.percent:.2f} %", *self.unnoticed])


def without_row(table: Table, row: Row) -> Mutant:
    """Take a row away."""
    rows = tuple(one for one in table.rows if one is not row)
    return Mutant(replace(table, rows=rows), row, "is taken away")


def swapped(table: Table, row: Row, rulebook: Rulebook) -> Iterator[Mutant]:
    """Give a row every other outcome: each value of the table, and where it copies, each other name."""
    for value in table.gives:
        if row.then_from != "value" or value != row.then:
            yield _deciding(table, row, replace(row, then=value, then_from="value"))
    if row.then_from == "input":
        for name in table.inputs:
            # A name that cannot give any of the outcomes would only take the row away.
            domain = rulebook.domain(name)
            if name != row.then and domain is not None and set(domain.values) & set(table.gives):
                yield _deciding(table, row, replace(row, then=name))


def _deciding(table: Table, row: Row, other: Row) -> Mutant:
    rows = tuple(other if one is row else one for one in table.rows)
    return Mutant(replace(table, rows=rows), row, f"gives {other.then}")


def changes_nothing(mutant: Mutant, rulebook: Rulebook, *, but_the_row: bool = False) -> bool:
    """Tell whether a row that copies another input than before decides the same on every head.

    Only a copy can: to copy one name or another that follows it may be the same rule in two words. A question
    asks for the outcome alone, whichever row gives it (`but_the_row`).
    """
    row = mutant.table.row(mutant.row.id)
    if row is None or row.then_from != "input":
        return False
    changed = rulebook.with_table(mutant.table)
    names = sorted(set().union(*(_entered(name, rulebook) for name in mutant.table.inputs)))
    for values in product(*(rulebook.domains[name].values for name in names)):
        inputs = dict(zip(names, values, strict=True))
        one, other = (_deciding_on(rules, mutant.table.decision, inputs) for rules in (rulebook, changed))
        if one[0] != other[0] or (one != other and not but_the_row):
            return False
    return True


def _deciding_on(rulebook: Rulebook, decision: str, inputs: dict[str, Value]) -> tuple[object, str]:
    try:
        decided = Evaluation(rulebook, facts=FACTS, inputs=inputs).decide(decision)
    except UndecidedError:
        return None, ""
    return decided.value, decided.row


def _entered(name: str, rulebook: Rulebook) -> set[str]:
    """Name what a name follows from in the end."""
    table = rulebook.tables.get(name)
    needs = table.inputs if table else FACTS[name].needs if name in FACTS else ()
    return set().union(*(_entered(need, rulebook) for need in needs)) if needs else {name}


def cases_by_table(rulebook: Rulebook, cases: Sequence[Case] = CASES) -> dict[str, list[Met]]:
    """Name for each table the cases that state something of it."""
    found: dict[str, list[Met]] = {name: [] for name in rulebook.tables}
    for case in cases:
        head = head_of(case, rulebook)
        for decision in case.stated("expect"):
            if decision in rulebook.tables:
                decided = decide_case(case, head, decision)
                found[decision].append(Met(case, head.rulebook, decided.zone, dict(decided.read)))
    return found


def is_noticed(mutant: Mutant, met: list[Met]) -> bool:
    """Tell whether any case states what the mutant does not decide."""
    return any(_notices(one, mutant.table) for one in met)


def _notices(met: Met, table: Table) -> bool:
    read = {name: met.read[name] for name in table.inputs}
    try:
        decided = decide(table, read, parameters=met.rulebook.values, zone=met.zone)
    except UndecidedError:
        return True
    return bool(differences(met.case, decided, table))


def tally(mutants: Sequence[Mutant], rulebook: Rulebook, *, cases: Sequence[Case] = CASES) -> Tally:
    """Count what the cases notice."""
    met = cases_by_table(rulebook, cases)
    unnoticed = [str(mutant) for mutant in mutants if not is_noticed(mutant, met[mutant.table.decision])]
    return Tally(len(mutants), tuple(unnoticed))
