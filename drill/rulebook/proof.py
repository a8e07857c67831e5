"""Prove a rulebook: every table complete and consistent, every row of use, every limit kept.

A proof is over *all* combinations, as boxes; what fails comes back with an example head.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from drill.basis.problem import NOWHERE, Problem
from drill.rulebook.boxes import Box, TooWideError, Work, meet
from drill.rulebook.condition import Condition
from drill.rulebook.fact import Fact
from drill.rulebook.limit import Limit
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import CycleError, Space
from drill.rulebook.table import ANY, Row, Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What the proof of a rulebook found.

    Attributes:
        problems: Faults; a rulebook with any is not used.
        idle_rows: ``decision/row`` of rows that no head reaches, in table order.
    """

    problems: tuple[Problem, ...]
    idle_rows: tuple[str, ...]


def prove(
    rulebook: Rulebook,
    *,
    facts: Mapping[str, Fact],
    idle_is_fault: bool = True,
    look_for_idle: bool = True,
    work: Work | None = None,
) -> Proof:
    """Prove a rulebook on boxes.

    Args:
        rulebook: The rules, with any local rules applied.
        facts: Computed facts by name.
        idle_is_fault: Whether a row that no head reaches is a fault (it is in the built-in rulebook; a local
            rule may leave one behind).
        look_for_idle: Whether to look for such rows at all, which takes half of the time.
        work: What may still be done, for whoever proves several rulebooks; as much as one proof may take
            where left out.

    Returns:
        The faults found, each with an example head, and the idle rows.
    """
    space = Space(rulebook, facts=facts, work=work)
    try:
        _ = space.ranks
    except CycleError as cycle:
        place = rulebook.tables[cycle.names[0]].place if cycle.names[0] in rulebook.tables else NOWHERE
        circle = " -> ".join(cycle.names)
        return Proof(
            problems=(
                Problem(
                    place,
                    f"these decisions wait for each other: {circle}",
                    "let one of them read what it needs from the consultation instead",
                ),
            ),
            idle_rows=(),
        )
    try:
        return _prove(space, idle_is_fault=idle_is_fault, look_for_idle=look_for_idle)
    except TooWideError:
        return Proof(problems=(_too_wide(rulebook),), idle_rows=())


def _too_wide(rulebook: Rulebook) -> Problem:
    """Tell of the local row that names most: it most likely made the rules too wide."""
    local = [(table, row) for table in rulebook.tables.values() for row in table.rows if row.set_by]
    what = "these rules have more combinations than can be looked through"
    mend = "let rows name fewer facts, and a vocabulary have fewer values"
    if not local:
        return Problem(NOWHERE, what, mend)
    table, row = max(local, key=lambda one: (len(one[1].when), sum(map(_parts, one[1].when.values()))))
    return Problem(row.place, f"with the row {row.id} of {table.decision}, {what}", mend)


def _parts(condition: Condition) -> int:
    return len(condition.values) + len(condition.ranges)


def _prove(space: Space, *, idle_is_fault: bool, look_for_idle: bool) -> Proof:
    rulebook = space.rulebook
    problems: list[Problem] = []
    idle: list[tuple[Table, Row]] = []
    for table in rulebook.tables.values():
        problems += _unknowns_problems(space, table)
        problems += _completeness_problems(space, table)
        problems += _overlap_problems(space, table)
        idle += [(table, row) for row in _idle_rows(space, table)] if look_for_idle else []
    if idle_is_fault:
        problems += [_idle_problem(table, row) for table, row in idle]
    for limit in rulebook.limits:
        problems += _limit_problems(space, limit)
    return Proof(
        problems=tuple(sorted(set(problems))),
        idle_rows=tuple(f"{table.decision}/{row.id}" for table, row in idle),
    )


def _unknowns_problems(space: Space, table: Table) -> Iterator[Problem]:
    for name, taken_for in table.unknowns.items():
        if name not in space.axes:
            continue
        if taken_for != ANY and space.domain(name).safety:
            yield Problem(
                table.place,
                f"the table {table.decision} takes an unknown {name} for '{taken_for}'",
                "a safety fact that is unknown must be named by a row, or be 'any'",
            )


def _completeness_problems(space: Space, table: Table) -> Iterator[Problem]:
    if table.hit == "collect":
        return
    boxes = [branch.box for branch in space.branches(table)]
    for part in space.outside({}, boxes):
        head = space.find(part)
        if head is not None:
            yield Problem(
                table.place,
                f"no row of {table.decision} says what to do with {space.example(head) or 'any head'}",
                "add a row for it, or say under 'unknowns' what an unknown is taken for",
            )
            return


def _overlap_problems(space: Space, table: Table) -> Iterator[Problem]:
    if table.hit != "unique":
        return
    branches = space.branches(table)
    for at, one in enumerate(branches):
        for other in branches[at + 1 :]:
            both = meet(one.box, other.box) if one.row is not other.row else None
            head = None if both is None else space.find(both)
            if head is not None:
                yield Problem(
                    other.row.place,
                    f"the rows {one.row.id} and {other.row.id} of {table.decision} both hold for "
                    f"{space.example(head) or 'every head'}",
                    "a 'unique' table decides each head once: narrow one of the two",
                )


def _idle_rows(space: Space, table: Table) -> Iterator[Row]:
    before: list[Box] = []
    reached: set[str] = set()
    for branch in space.branches(table):
        if branch.row.id not in reached and _is_reached(space, branch.box, before):
            reached.add(branch.row.id)
        # Equally strict rows all count as reasons, and the rows of a list do not exclude each other.
        if table.hit in ("first", "unique"):
            before.append(branch.box)
    yield from (row for row in table.rows if row.id not in reached)


def _is_reached(space: Space, box: Box, before: list[Box]) -> bool:
    return any(space.find(part) is not None for part in space.outside(box, before))


def _idle_problem(table: Table, row: Row) -> Problem:
    return Problem(
        row.place,
        f"the row {row.id} of {table.decision} can never be hit: the rows before it take every head it names",
        "move it up, narrow the row before it, or remove it",
    )


def _limit_problems(space: Space, limit: Limit) -> Iterator[Problem]:
    premise = {name: _premise_mask(space, name, limit) for name in limit.when}
    if not all(premise.values()):  # such as a range below all numbers: no head meets the premise
        return
    for name, values in limit.never.items():
        box = meet(premise, {name: space.axes[name].counting_as(values)})
        broken = None if box is None else space.find(box, also=_also(space, name))
        if broken is not None:
            row = _deciding_row(space, name, values, broken)
            yield _broken(space, limit, name, f"is {' or '.join(values)}", broken, row=row)
    for name, values in limit.demands.items():
        for value in values:
            table = space.rulebook.tables[name]
            boxes = [branch.box for branch in space.branches(table) if branch.value == value]
            for part in space.outside(premise, boxes):
                broken = space.find(part)
                if broken is not None:
                    yield _broken(space, limit, name, f"lacks {value}", broken)
                    break


def _premise_mask(space: Space, name: str, limit: Limit) -> int:
    axis, condition = space.axes[name], limit.when[name]
    return axis.taken_by(condition) | axis.counting_as(condition.values)


def _also(space: Space, name: str) -> frozenset[str]:
    """An acceptable outcome must keep the limit too, and so must what a fact makes of it."""
    fact = space.facts.get(name)
    return frozenset((name, *(fact.needs if fact else ())))


def _broken(space: Space, limit: Limit, name: str, what: str, box: Box, *, row: Row | None = None) -> Problem:
    rows = _rows_at(space, name, box)
    place = next((row.place for row in rows if row.set_by), rows[0].place if rows else limit.place)
    example = space.example(box) or "any head"
    by = "" if row is None else f" by the row {row.id}{_counted(space, name, row)}"
    return Problem(
        place,
        f"the limit {limit.id} is broken: {name} {what}{by}, for example for {example}",
        f"keep the limit ({limit.because}); a local rule may tighten it, never loosen it",
    )


def _deciding_row(space: Space, name: str, values: Collection[str], box: Box) -> Row | None:
    """Find the row that takes a head of a box to one of some outcomes; None where it is no table's."""
    table, before = space.rulebook.tables.get(name), list[Box]()
    wrong = space.axes[name].counting_as(values)
    for branch in space.branches(table) if table else ():
        both = meet(box, branch.box) if branch.accepts & wrong else None
        if both is not None and _is_reached(space, both, before):
            return branch.row
        before.append(branch.box)
    return None


def _counted(space: Space, name: str, row: Row) -> str:
    """Say which built-in value a row's outcome counts as, where a local rule added that outcome."""
    counts_as = space.axes[name].domain.counts_as
    added = [one for one in (row.then, *row.also) if one in counts_as]
    return "".join(f" ('{one}' counts as '{counts_as[one]}')" for one in added)


def _rows_at(space: Space, name: str, box: Box) -> list[Row]:
    """Give the rows that can take part in what breaks a limit, those of local rules first."""
    fact = space.facts.get(name)
    names = fact.needs if fact else (name,)
    rows = [
        branch.row
        for one in names
        if one in space.rulebook.tables
        for branch in space.branches(space.rulebook.tables[one])
        if meet(box, branch.box) is not None
    ]
    return sorted(rows, key=lambda row: not row.set_by)
