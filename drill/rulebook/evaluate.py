"""Evaluate decision tables for one set of inputs, keeping the trace.

Names are decided when they are read, each once. A zone's evaluation asks the head's for what holds for the
whole head.
"""

from collections.abc import Mapping
from dataclasses import replace

from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import ANY, Row, Table
from drill.rulebook.trace import Decision, Rejected


class UndecidedError(Exception):
    """No row of a table holds: a fault of the rulebook, which its proof would have shown.

    Attributes:
        table: The table.
        read: What it read.
    """

    def __init__(self, table: Table, read: Mapping[str, Value]) -> None:
        self.table, self.read = table, read
        stated = ", ".join(f"{name}: {value}" for name, value in read.items())
        super().__init__(f"no row of {table.decision} holds for {stated}")


class Taken:
    """Decisions that were taken: a table that reads the same again decides the same, whoever asks.

    Tables are known by themselves, so it serves several rulebooks at once, of which most tables are one.

    Args:
        most: How many are kept; then all are forgotten and it begins anew.
    """

    def __init__(self, most: int = 20_000) -> None:
        self._most = most
        # With the table, so that no other comes to bear its identity.
        self._kept: dict[object, tuple[Table, Decision]] = {}

    def decide(
        self, table: Table, read: Mapping[str, Value], *, parameters: Mapping[str, Value], zone: str | None
    ) -> Decision:
        """Evaluate one table, or give what it decided before (:func:`decide`)."""
        key = (id(table), *read.values(), *(parameters[name] for name in table.parameters))
        kept = self._kept.get(key)
        if kept is None:
            if len(self._kept) >= self._most:
                self._kept.clear()
            kept = self._kept[key] = (table, decide(table, read, parameters=parameters, zone=zone))
        _, decision = kept
        return decision if decision.zone == zone else replace(decision, zone=zone)


class Evaluation:
    """The values of one head or one zone under a rulebook.

    Args:
        rulebook: The rules in force.
        facts: Computed facts by name.
        inputs: What is known, by name; an entered name left out is ``unknown``.
        zone: The zone's name; None for the head.
        head: The evaluation of the head, for a zone.
        taken: What was decided before; of a zone the head's where left out.
    """

    def __init__(
        self,
        rulebook: Rulebook,
        *,
        facts: Mapping[str, Fact],
        inputs: Mapping[str, Value],
        zone: str | None = None,
        head: "Evaluation | None" = None,
        taken: Taken | None = None,
    ) -> None:
        self.rulebook = rulebook
        self.facts = facts
        self.zone = zone
        self.head = head
        self.taken: Taken = taken or (Taken() if head is None else head.taken)
        self.decisions: dict[str, Decision] = {}
        self._values: dict[str, Value] = dict(inputs)

    def read(self, name: str) -> Value:
        """Give the value of a name, deciding it first where it is a decision.

        Args:
            name: An input, a fact or a decision with one outcome.

        Returns:
            Its value.

        Raises:
            UndecidedError: If no row of its table holds.
            KeyError: If nothing is known by that name.
        """
        if name in self._values:
            return self._values[name]
        value = self._find(name)
        self._values[name] = value
        return value

    def decide(self, decision: str) -> Decision:
        """Take a decision, or give it if it is taken already.

        Args:
            decision: Name of a table.

        Returns:
            The decision with its trace.

        Raises:
            UndecidedError: If no row holds.
        """
        table = self.rulebook.tables[decision]
        if table.per == "head" and self.head is not None:
            return self.head.decide(decision)
        if decision not in self.decisions:
            self.decisions[decision] = self.taken.decide(
                table,
                {name: self.read(name) for name in table.inputs},
                parameters=self.rulebook.values,
                zone=self.zone,
            )
        return self.decisions[decision]

    def suppose(self, decision: Decision) -> None:
        """Put a decision in force as if it had been taken, before anything that rests on it is read.

        Args:
            decision: The decision, of a table with one outcome.

        Raises:
            TypeError: If it is a list.
        """
        if isinstance(decision.value, tuple):
            raise TypeError(f"{decision.decision} is a list and cannot be supposed")
        self.decisions[decision.decision] = decision
        self._values[decision.decision] = decision.value

    def collected(self, decision: str) -> tuple[Row, ...]:
        """Give every row of a table that holds, in table order."""
        return self.decide(decision).rows

    def _find(self, name: str) -> Value:
        if name in self.rulebook.tables:
            value = self.decide(name).value
            if isinstance(value, tuple):
                raise KeyError(f"{name} is a list")
            return value
        fact = self.facts.get(name)
        if self.head is not None and (fact.domain if fact else self.rulebook.domains[name]).per == "head":
            return self.head.read(name)
        if fact is not None:
            needed = [self.rulebook.counted(need, self.read(need)) for need in fact.needs]
            return fact.compute(needed, self.rulebook.values)
        if name in self.rulebook.domains:
            return UNKNOWN
        raise KeyError(name)


def decide(
    table: Table, read: Mapping[str, Value], *, parameters: Mapping[str, Value], zone: str | None = None
) -> Decision:
    """Evaluate one table.

    Args:
        table: The table.
        read: A value for each of its inputs.
        parameters: Values by name, for rows whose outcome is a parameter.
        zone: The zone it is decided for.

    Returns:
        The decision; of a ``collect`` table with every outcome that holds, perhaps none.

    Raises:
        UndecidedError: If no row holds and the table must decide.
    """
    known, must_name = _settle_unknowns(table, read)
    if table.hit in ("first", "unique"):
        return _first(table, known, must_name, read=read, parameters=parameters, zone=zone)
    held = tuple(
        row
        for row in table.rows
        if _hindrance(row, known, must_name) is None and outcome(row, known, parameters) in table.gives
    )
    outcomes = tuple(str(outcome(row, known, parameters)) for row in held)
    if table.hit == "collect":
        return Decision(
            decision=table.decision,
            zone=zone,
            value=outcomes,
            row=", ".join(row.id for row in held),
            because="; ".join(row.because for row in held),
            source="; ".join(dict.fromkeys(row.source for row in held)),
            rows=held,
            read=read,
        )
    if not held:
        raise UndecidedError(table, read)
    strictest = max(outcomes, key=table.strictness)
    return _decision(
        held[outcomes.index(strictest)], strictest, table=table, read=read, zone=zone, rejected=(), rows=held
    )


def outcome(row: Row, read: Mapping[str, Value], parameters: Mapping[str, Value]) -> Value:
    """Give what a row decides: its value, or the input or parameter that it copies."""
    if row.then_from == "input":
        return read[row.then]
    return parameters[row.then] if row.then_from == "parameter" else row.then


def _first(
    table: Table,
    known: Mapping[str, Value],
    must_name: frozenset[str],
    *,
    read: Mapping[str, Value],
    parameters: Mapping[str, Value],
    zone: str | None,
) -> Decision:
    rejected: list[Rejected] = []
    for row in table.rows:
        hindrance = _hindrance(row, known, must_name)
        # Most rows state their outcome; only a copied one may turn out to be none of the table's.
        stated = row.then_from == "value"
        value = row.then if stated else outcome(row, known, parameters)
        if hindrance is None and (stated or value in table.gives):
            return _decision(
                row, value, table=table, read=read, zone=zone, rejected=tuple(rejected), rows=(row,)
            )
        name = hindrance or row.then
        rejected.append(Rejected(row=row.id, value=value, input=name, was=read.get(name, value)))
    raise UndecidedError(table, read)


def _decision(
    row: Row,
    value: Value,
    *,
    table: Table,
    read: Mapping[str, Value],
    zone: str | None,
    rejected: tuple[Rejected, ...],
    rows: tuple[Row, ...],
) -> Decision:
    return Decision(
        decision=table.decision,
        zone=zone,
        value=value,
        also=tuple(one for one in row.also if one != value),
        standing=row.standing,
        row=row.id,
        because=row.because,
        source=row.source,
        rejected=rejected,
        rows=rows,
        read=read,
    )


def _settle_unknowns(table: Table, read: Mapping[str, Value]) -> tuple[Mapping[str, Value], frozenset[str]]:
    missing = [name for name, value in read.items() if value == UNKNOWN]
    if not missing:
        return read, frozenset()
    taken_for = {name: table.unknowns[name] for name in missing if name in table.unknowns}
    known = {**read, **{name: value for name, value in taken_for.items() if value != ANY}}
    return known, frozenset(name for name in missing if name not in taken_for)


def _hindrance(row: Row, known: Mapping[str, Value], must_name: frozenset[str]) -> str | None:
    """Name the input that keeps a row from holding, or None where it holds."""
    for name, condition in row.when.items():
        value = known[name]
        # Named values are by far the most; looking at them here saves a call a condition.
        if value not in condition.values and (isinstance(value, str) or not condition.holds(value)):
            return name
    if must_name:
        return next((name for name in sorted(must_name) if name not in row.when), None)
    return None
