"""Wrong ideas at work: what someone who holds one would decide for a head.

Each misconception is laid over the rulebook once; for a decision only those that touch what it rests on are
tried.
"""

from collections.abc import Mapping, Set
from functools import cached_property

from drill.bank.book import Book
from drill.bank.heads import RowHeads
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Taken, UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import Space
from drill.rulebook.table import Table
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER, Head

_TOOL_TABLES = ("tool.shape", "tool.size", "wrap", "base_size")


class Beliefs:
    """Every wrong idea of a book, each as a rulebook of its own.

    Args:
        book: Rules and misconceptions.
        facts: Computed facts by name.
    """

    def __init__(self, book: Book, *, facts: Mapping[str, Fact] = FACTS) -> None:
        self.book, self.facts = book, facts
        self._touching: dict[str, tuple[str, ...]] = {}
        self._taken = Taken()

    def head(self, consultation: Consultation, *, belief: str = "") -> Head:
        """Give a head as the rules decide it, or as someone does who holds a wrong idea.

        Args:
            consultation: The head.
            belief: Id of the misconception; empty for the rules.

        Returns:
            The head.
        """
        rulebook = self.rulebooks[belief] if belief else self.book.rulebook
        return Head(rulebook, consultation, facts=self.facts, taken=self._taken)

    @cached_property
    def rulebooks(self) -> Mapping[str, Rulebook]:
        """For each misconception that changes something, the rulebook of someone who holds it."""
        return {one.id: apply(self.book.rulebook, one) for one in self.book.misconceptions if one.changes}

    @cached_property
    def row_heads(self) -> RowHeads:
        """Heads on which a given row of the rules decides."""
        return RowHeads(Space(self.book.rulebook, facts=self.facts))

    def touching(self, decision: str) -> tuple[str, ...]:
        """Name the misconceptions that change something a decision rests on.

        Args:
            decision: Dotted path in the plan.

        Returns:
            Their ids, the likeliest first: an idea about this very decision before one that reaches it from
            afar, and a narrow idea before a wide one.
        """
        if decision not in self._touching:
            rests_on = self.rests_on(decision)
            touching = [one for one in self.book.misconceptions if _touches(one, rests_on)]
            touching.sort(key=lambda one: (not _touches(one, {decision}), len(one.changes), one.id))
            self._touching[decision] = tuple(one.id for one in touching)
        return self._touching[decision]

    def decide(
        self, belief: str, consultation: Consultation, decision: str, zone: str | None
    ) -> Value | None:
        """Decide as someone would who holds a wrong idea.

        Args:
            belief: Id of the misconception.
            consultation: The head.
            decision: Dotted path in the plan.
            zone: The zone, or None.

        Returns:
            The value, or None where the idea leaves the decision open.
        """
        try:
            value = self.head(consultation, belief=belief).decide(decision, zone).value
        except UndecidedError:
            return None
        return None if isinstance(value, tuple) else value

    def reached(
        self, consultation: Consultation, decision: str, zone: str | None
    ) -> dict[Value, tuple[str, ...]]:
        """Gather what all wrong ideas would decide for a head.

        Args:
            consultation: The head.
            decision: Dotted path in the plan.
            zone: The zone, or None.

        Returns:
            For each value, the misconceptions that give it, the likeliest first.
        """
        found: dict[Value, tuple[str, ...]] = {}
        truth = self.head(consultation)
        for belief in self.touching(decision):
            if self._is_idle_on(belief, truth, zone):
                decided = truth.decide(decision, zone).value
                value = None if isinstance(decided, tuple) else decided
            else:
                value = self.decide(belief, consultation, decision, zone)
            if value is not None:
                found[value] = (*found.get(value, ()), belief)
        return found

    @cached_property
    def _changed_tables(self) -> Mapping[str, tuple[Table, ...] | None]:
        """For each misconception, the tables it changes as it holds them; None where it changes more."""
        rows_only = ("add", "replace", "remove")
        return {
            one.id: tuple(
                self.rulebooks[one.id].tables[name]
                for name in {change.target: None for change in one.changes}
            )
            if all(change.op in rows_only for change in one.changes)
            else None
            for one in self.book.misconceptions
            if one.changes
        }

    def _is_idle_on(self, belief: str, truth: Head, zone: str | None) -> bool:
        """Tell whether a misconception decides every table that it changes as the rules do, on this head.

        Most ideas are about other heads; looking at their own tables is cheaper than deciding all again.
        """
        tables = self._changed_tables[belief]
        return tables is not None and all(
            self._decides_alike(table, truth, zone)
            for table in tables
            # Nothing reads a list, and no decision on the head reads one on a zone.
            if table.hit != "collect" and (zone or table.per == "head")
        )

    def _decides_alike(self, table: Table, truth: Head, zone: str | None) -> bool:
        evaluation = truth.zone(zone) if zone and table.per == "zone" else truth.evaluation
        read = {name: evaluation.read(name) for name in table.inputs}
        try:
            believed = self._taken.decide(table, read, parameters=self.book.rulebook.values, zone=None).value
        except UndecidedError:
            return False
        return believed == evaluation.read(table.decision)

    def rests_on(self, decision: str) -> frozenset[str]:
        """Name all that a decision rests on: itself, what it reads, what that reads, and so on.

        Args:
            decision: Dotted path in the plan.

        Returns:
            Decisions, facts, fields and parameters by name; ``parameters`` where any of them may count.
        """
        tables = self.book.rulebook.tables
        figures = decision == TOOL_DIAMETER or decision in COMPUTED_FIGURES
        waiting = list(_TOOL_TABLES) if figures else [decision]
        found: set[str] = {"parameters"} if figures else set()
        while waiting:
            name = waiting.pop()
            if name in found:
                continue
            found.add(name)
            if name in tables:
                waiting += tables[name].inputs
                found |= {row.then for row in tables[name].rows if row.then_from == "parameter"}
            elif name in self.facts:
                waiting += self.facts[name].needs
                if self.facts[name].domain.unit:
                    found.add("parameters")
        return frozenset(found)


def _touches(overlay: Overlay, rests_on: Set[str]) -> bool:
    return any(
        change.target in rests_on or (change.op == "set" and "parameters" in rests_on)
        for change in overlay.changes
    )
