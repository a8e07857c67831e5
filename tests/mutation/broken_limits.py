"""Rulebooks that break one limit: an exception for just the heads that the limit speaks of."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from drill.rulebook.condition import Condition
from drill.rulebook.limit import Limit
from drill.rulebook.proof import _limit_problems
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import Space
from drill.rulebook.table import Row, Table
from drill.service.facts import FACTS


@dataclass(frozen=True)
class Duty:
    """One outcome that one limit forbids or demands of one decision."""

    limit: Limit
    name: str
    value: str
    is_demanded: bool

    def __str__(self) -> str:
        verb = "demands" if self.is_demanded else "forbids"
        return f"{self.limit.place}: {self.limit.id} {verb} {self.name} {self.value}"

    @property
    def alone(self) -> Limit:
        """The limit with this duty and no other."""
        kept = {self.name: (self.value,)}
        return replace(
            self.limit, never={} if self.is_demanded else kept, demands=kept if self.is_demanded else {}
        )


def duties(rulebook: Rulebook) -> list[Duty]:
    """List what the limits forbid and demand, outcome by outcome."""
    return [
        Duty(limit, name, value, is_demanded)
        for limit in rulebook.limits
        for is_demanded, kept in ((False, limit.never), (True, limit.demands))
        for name, values in kept.items()
        for value in values
    ]


def broken(rulebook: Rulebook, duty: Duty) -> Iterator[Rulebook]:
    """Break a duty.

    Args:
        rulebook: Rules that keep it.
        duty: What is to be broken.

    Yields:
        Rulebooks that differ from the one given in one exception. Of a computed fact, one for each outcome of
        each decision that it follows from; one of them at least breaks the duty.
    """
    if duty.name in FACTS:
        for name in FACTS[duty.name].needs:
            table = rulebook.tables.get(name)
            for value in table.gives if table else ():
                yield rulebook.with_table(_with_exception(table, {}, value))
        return
    table, when = rulebook.tables[duty.name], duty.limit.when
    if duty.is_demanded:
        yield rulebook.with_table(_with_gap(rulebook, table, when, duty.value))
    else:
        yield rulebook.with_table(_with_exception(table, when, duty.value))


def _with_exception(table: Table, when: Mapping[str, Condition], value: str) -> Table:
    """Put a row before all others, which of a table of degrees stand from the strictest down."""
    exception = Row(
        id="exception", when=when, then=value, because="It breaks a limit.", source="", set_by="exception"
    )
    rows = table.rows
    if table.hit == "strictest":
        rows = tuple(sorted(rows, key=lambda row: -table.strictness(row.then)))
    return replace(table, hit="first", rows=(exception, *rows))


def _with_gap(rulebook: Rulebook, table: Table, when: Mapping[str, Condition], value: str) -> Table:
    """Let the rows that give an outcome hold for all heads but some: a row for each way to be another."""
    rows: list[Row] = []
    for row in table.rows:
        if row.then != value:
            rows.append(row)
            continue
        for name, condition in when.items():
            domain = rulebook.domain(name)
            held = row.when[name].values if name in row.when else domain.values if domain else ()
            others = tuple(one for one in held if one not in condition.values)
            # Numbers are left out of it: the gap is wider by them.
            if others:
                narrowed = {**row.when, name: Condition(values=others)}
                rows.append(replace(row, id=f"{row.id}-{name}", when=narrowed, set_by="exception"))
    return replace(table, rows=tuple(rows))


def refused_by(rulebook: Rulebook, limits: tuple[Limit, ...]) -> set[str]:
    """Name the limits that a rulebook breaks."""
    space = Space(rulebook, facts=FACTS)
    return {limit.id for limit in limits if next(_limit_problems(space, limit), None) is not None}
