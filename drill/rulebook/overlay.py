"""Overlays: small sets of changes to a rulebook.

A local rule and a misconception are the same thing here; what sets them apart is that a local rule must keep
the limits, and a misconception is never used to plan a service.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal, TypeVar

from drill.basis.problem import NOWHERE, Place, Problem, mend_name
from drill.rulebook.domain import Value
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row, Table

Kind = Literal["local_rule", "misconception"]
Op = Literal["add", "replace", "remove", "set", "widen"]
Named = TypeVar("Named")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change.

    Attributes:
        op: ``add`` a row, ``replace`` or ``remove`` one, ``set`` a parameter, ``widen`` a vocabulary.
        target: The table, the parameter or the vocabulary.
        row: The new row, for ``add`` and ``replace``.
        at: The row removed, or the row before which one is added (empty: at the end).
        value: The parameter's new value, or the value that the vocabulary gains.
        counts_as: For ``widen``: the built-in value that limits take the new one for.
        words: For ``widen``: what people call the new value; empty for its name.
        place: Where it is written.
    """

    op: Op
    target: str
    row: Row | None = None
    at: str = ""
    value: Value = ""
    counts_as: str = ""
    words: str = ""
    place: Place = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlay:
    """A set of changes with its reason.

    Attributes:
        id: Kebab-case id.
        kind: ``local_rule`` or ``misconception``.
        because: Why the rule is in force, or why the idea is held.
        source: Where it stands.
        since: In force from this day (ISO date; empty: always).
        until: No longer in force from this day (empty: without end).
        belief: Of a misconception, the wrong idea stated plainly.
        seen: What the client would see of it.
        mend: The sentence that mends it.
        harm: Whether it can harm a client.
        changes: In order.
        place: Where it is written.
    """

    id: str
    kind: Kind
    because: str
    source: str
    since: str = ""
    until: str = ""
    belief: str = ""
    seen: str = ""
    mend: str = ""
    harm: bool = False
    changes: tuple[Change, ...] = field(default=())
    place: Place = NOWHERE

    def in_force(self, day: date) -> bool:
        """Tell whether the overlay holds on a day."""
        return (not self.since or self.since <= day.isoformat()) and (
            not self.until or day.isoformat() < self.until
        )

    def overlaps(self, other: "Overlay") -> bool:
        """Tell whether there is a day on which both hold."""
        return (not self.until or other.since < self.until) and (not other.until or self.since < other.until)


class ChangeError(Exception):
    """A change that does not fit the rulebook.

    Attributes:
        problem: What and where.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(str(problem))


def assemble(rulebook: Rulebook, overlays: Iterable[Overlay], *, day: date) -> tuple[Rulebook, list[Problem]]:
    """Put the local rules of a day in force, in the order given.

    Args:
        rulebook: The built-in rules.
        overlays: Local rules.
        day: The day.

    Returns:
        The rulebook with them in force, and what did not fit; an overlay that does not fit is left out whole.
    """
    problems = []
    for overlay in overlays:
        if not overlay.in_force(day):
            continue
        try:
            rulebook = apply(rulebook, overlay)
        except ChangeError as error:
            problems.append(error.problem)
    return rulebook, problems


def apply(rulebook: Rulebook, overlay: Overlay) -> Rulebook:
    """Apply every change of an overlay, in order.

    Args:
        rulebook: The rules before.
        overlay: The changes.

    Returns:
        The rules after; the rulebook given is not changed.

    Raises:
        ChangeError: If a change names something that the rulebook does not have.
    """
    for change in overlay.changes:
        rulebook = _APPLY[change.op](rulebook, change, overlay.id)
    return replace(rulebook, overlays=(*rulebook.overlays, overlay.id))


def fits(rulebook: Rulebook, overlay: Overlay) -> bool:
    """Tell whether :func:`apply` would go through: a rule may have taken away what an idea is about."""
    try:
        apply(rulebook, overlay)
    except ChangeError:
        return False
    return True


def _add(rulebook: Rulebook, change: Change, overlay_id: str) -> Rulebook:
    table, row = _table(rulebook, change), _new_row(change, overlay_id)
    if table.row(row.id) is not None:
        raise ChangeError(
            Problem(
                change.place, f"{table.decision} has a row {row.id} already", "use another id, or 'replace'"
            )
        )
    at = len(table.rows)
    if change.at:
        at = table.rows.index(_row(table, change, change.at))
    return rulebook.with_table(replace(table, rows=(*table.rows[:at], row, *table.rows[at:])))


def _replace(rulebook: Rulebook, change: Change, overlay_id: str) -> Rulebook:
    table, new = _table(rulebook, change), _new_row(change, overlay_id)
    old = _row(table, change, new.id)
    rows = tuple(new if row is old else row for row in table.rows)
    return rulebook.with_table(replace(table, rows=rows))


def _remove(rulebook: Rulebook, change: Change, _overlay_id: str) -> Rulebook:
    table = _table(rulebook, change)
    old = _row(table, change, change.at)
    return rulebook.with_table(replace(table, rows=tuple(row for row in table.rows if row is not old)))


def _set(rulebook: Rulebook, change: Change, overlay_id: str) -> Rulebook:
    old = _named(change, rulebook.parameters, "parameter")
    new = replace(old, value=change.value, set_by=overlay_id)
    _check_parameter(old, change)
    return replace(rulebook, parameters={**rulebook.parameters, old.name: new})


def _widen(rulebook: Rulebook, change: Change, _overlay_id: str) -> Rulebook:
    value = str(change.value)
    target: Table | None = rulebook.tables.get(change.target)
    values = target.gives if target else _named(change, rulebook.domains, "vocabulary").values
    if value in values:
        raise ChangeError(
            Problem(change.place, f"{change.target} has '{value}' already", "leave the change out")
        )
    if change.counts_as not in values:
        raise ChangeError(
            Problem(
                change.place,
                f"'{value}' counts as '{change.counts_as}', which {change.target} does not have",
                mend_name(change.counts_as, values),
            )
        )
    rulebook = _read_alike(rulebook, change.target, like=change.counts_as, value=value)
    if target is not None:
        target = rulebook.tables[change.target]
        at = target.gives.index(change.counts_as) + 1
        gives = (*target.gives[:at], value, *target.gives[at:])
        counts = {**target.counts_as, value: target.counts_as.get(change.counts_as, change.counts_as)}
        words = {**target.words, value: change.words} if change.words else target.words
        return rulebook.with_table(replace(target, gives=gives, counts_as=counts, words=words))
    old = rulebook.domains[change.target]
    new = replace(
        old,
        values=(*values, value),
        counts_as={**old.counts_as, value: old.built_in(change.counts_as)},
        words={**old.words, value: change.words} if change.words else old.words,
    )
    return replace(rulebook, domains={**rulebook.domains, old.name: new})


def _read_alike(rulebook: Rulebook, name: str, *, like: str, value: str) -> Rulebook:
    """Let every row that reads a value hold for a new one that counts as it, until a row says otherwise."""

    def widened(row: Row) -> Row:
        condition = row.when.get(name)
        if condition is None or like not in condition.values:
            return row
        return replace(row, when={**row.when, name: replace(condition, values=(*condition.values, value))})

    tables = {
        key: replace(table, rows=tuple(map(widened, table.rows))) if name in table.inputs else table
        for key, table in rulebook.tables.items()
    }
    return replace(rulebook, tables=tables)


_APPLY = {"add": _add, "replace": _replace, "remove": _remove, "set": _set, "widen": _widen}


def _table(rulebook: Rulebook, change: Change) -> Table:
    return _named(change, rulebook.tables, "table")


def _named(change: Change, things: Mapping[str, Named], kind: str) -> Named:
    if change.target not in things:
        raise ChangeError(
            Problem(
                change.place,
                f"the rulebook has no {kind} '{change.target}'",
                mend_name(change.target, tuple(things)),
            )
        )
    return things[change.target]


def _row(table: Table, change: Change, row_id: str) -> Row:
    row = table.row(row_id)
    if row is None:
        raise ChangeError(
            Problem(
                change.place,
                f"{table.decision} has no row '{row_id}'",
                mend_name(row_id, tuple(one.id for one in table.rows)),
            )
        )
    return row


def _new_row(change: Change, overlay_id: str) -> Row:
    if change.row is None:
        raise ChangeError(Problem(change.place, f"'{change.op}' has no row", "write the row under 'row:'"))
    return replace(change.row, set_by=overlay_id)


def _check_parameter(old: Parameter, change: Change) -> None:
    value = change.value
    if old.choices and value not in old.choices:
        raise ChangeError(
            Problem(change.place, f"{old.name} cannot be '{value}'", mend_name(str(value), old.choices))
        )
    if old.choices or not isinstance(value, float | int):
        return
    low, high = old.low, old.high
    if (low is not None and value < low) or (high is not None and value > high):
        raise ChangeError(
            Problem(
                change.place,
                f"{old.name} is {value:g} {old.unit}".rstrip(),
                f"set it {_bounds_text(low, high, old.unit)}",
            )
        )


def _bounds_text(low: float | None, high: float | None, unit: str) -> str:
    after = f" {unit}" if unit else ""
    if low is None:
        return f"to {high:g}{after} or less"
    return f"to {low:g}{after} or more" if high is None else f"from {low:g} to {high:g}{after}"
