"""The graph of decisions as one space of boxes: which combinations can really come about.

A decision is a function of its inputs, so a box over decisions is real only where some head leads to it. The
search replaces the latest decision in a box by the parts of its table that give it, until entered names and
free facts are left.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

from drill.rulebook.boxes import Axis, Box, TooWideError, Work, axis_for, meet, outside
from drill.rulebook.condition import Condition
from drill.rulebook.domain import UNKNOWN, Domain, Value
from drill.rulebook.evaluate import outcome
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import ANY, Row, Table

MOST_COMBINATIONS = 20_000
# A phone has not the memory to remember every search.
MOST_REMEMBERED = 4_000


@dataclass(frozen=True, slots=True)
class Branch:
    """A part of a row that gives one outcome.

    Attributes:
        row: The row.
        box: Where it holds, over the table's inputs.
        value: Its outcome there.
        gives: The outcome as a cell of the decision.
        accepts: The outcome and what is acceptable beside it, as cells.
    """

    row: Row
    box: Box
    value: Value
    gives: int
    accepts: int


class CycleError(Exception):
    """Decisions that wait for each other.

    Attributes:
        names: The circle, its first name again at the end.
    """

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names
        super().__init__(" -> ".join(names))


class Space:
    """Everything a rulebook can meet, as boxes.

    Args:
        rulebook: The rules.
        facts: Computed facts by name; those of named values only are tabulated, the others are free.
        work: What all searches together may do; where left out, as much as one proof.
    """

    def __init__(self, rulebook: Rulebook, *, facts: Mapping[str, Fact], work: Work | None = None) -> None:
        self.rulebook = rulebook
        self.facts = facts
        self._branches: dict[str, tuple[Branch, ...]] = {}
        self._found: dict[tuple[frozenset[tuple[str, int]], frozenset[str]], Box | None] = {}
        self._fact_parts: dict[str, list[tuple[Value, Box]]] = {}
        self._work = work or Work()

    @cached_property
    def axes(self) -> Mapping[str, Axis]:
        """The cells of every name."""
        conditions: dict[str, list[Condition]] = {}
        for table in self.rulebook.tables.values():
            for row in table.rows:
                for name, condition in row.when.items():
                    conditions.setdefault(name, []).append(condition)
        for limit in self.rulebook.limits:
            for name, condition in limit.when.items():
                conditions.setdefault(name, []).append(condition)
        names = [*self.rulebook.domains, *self.rulebook.tables, *self.facts]
        return {name: axis_for(self.domain(name), conditions.get(name, ())) for name in names}

    @cached_property
    def ranks(self) -> Mapping[str, int]:
        """How late each derived name is decided, 0 for what is not derived.

        Raises:
            CycleError: If decisions wait for each other.
        """
        ranks: dict[str, int] = {}

        def visit(name: str, path: tuple[str, ...]) -> int:
            if name in path:
                raise CycleError((*path[path.index(name) :], name))
            if name not in ranks:
                needs = self._needs(name)
                ranks[name] = (
                    0 if needs is None else 1 + max((visit(need, (*path, name)) for need in needs), default=0)
                )
            return ranks[name]

        for name in (*self.rulebook.tables, *self.facts):
            visit(name, ())
        return ranks

    def domain(self, name: str) -> Domain:
        """Give the domain of any name.

        Args:
            name: An entered name, a decision or a fact.

        Raises:
            KeyError: If there is no such name.
        """
        found = self.facts[name].domain if name in self.facts else self.rulebook.domain(name)
        if found is None:
            raise KeyError(name)
        return found

    def branches(self, table: Table) -> tuple[Branch, ...]:
        """Split a table's rows into parts with one outcome each, in the order in which they are tried.

        A ``strictest`` table is tried from its strictest outcome down.
        """
        if table.decision not in self._branches:
            found = [branch for row in table.rows for branch in self._row_branches(table, row)]
            if table.hit == "strictest":
                found.sort(key=lambda one: -table.strictness(str(one.value)))
            self._branches[table.decision] = tuple(found)
        return self._branches[table.decision]

    def example(self, box: Box) -> str:
        """Write a box as one head: a value for each entered name that it restricts."""
        return ", ".join(
            f"{name}: {self.axes[name].example(mask)}"
            for name, mask in box.items()
            if mask != self.axes[name].full and (name not in self.ranks or not self.ranks[name])
        )

    def find(self, box: Box, *, also: frozenset[str] = frozenset()) -> Box | None:
        """Look for a real head inside a box.

        Args:
            box: Over any names.
            also: Decisions whose acceptable outcomes count like the first choice.

        Returns:
            A box over entered names and free facts that leads to it, or None where no head does.

        Raises:
            TooWideError: If the work is used up.
        """
        self._work.take(10 + len(box))  # about what remembering it costs
        key = (frozenset(box.items()), also)
        if key in self._found:
            return self._found[key]
        found = self._find(box, also)
        if len(self._found) >= MOST_REMEMBERED:
            self._found.clear()
        self._found[key] = found
        return found

    def outside(self, box: Box, others: Sequence[Box]) -> Iterator[dict[str, int]]:
        """Walk through the parts of a box that lie outside all others, as :func:`boxes.outside`."""
        return outside(box, others, self.axes, work=self._work)

    def _find(self, box: Box, also: frozenset[str]) -> Box | None:
        ranks, axes = self.ranks, self.axes
        waiting = [name for name, mask in box.items() if ranks.get(name, 0) and mask != axes[name].full]
        if not waiting:
            return box
        # What is decided last is read by nothing that is left, so it can be forgotten once it is replaced.
        name = max(waiting, key=lambda one: (ranks[one], one))
        rest = {other: mask for other, mask in box.items() if other != name}
        for part in self._parts(name, rest, box[name], also):
            found = self.find(part, also=also)
            if found is not None:
                return found
        return None

    def lead_to(self, table: Table, box: Box, *, mask: int, also: bool = False) -> Iterator[dict[str, int]]:
        """Walk through the parts of a box in which a table gives one of some outcomes.

        Args:
            table: A table; of a ``collect`` one, the parts in which its list holds one of them.
            box: Over any names.
            mask: The outcomes, as cells of the decision.
            also: Whether acceptable outcomes count.

        Yields:
            Boxes over the table's inputs and whatever the box names.
        """
        before: list[Box] = []
        for branch in self.branches(table):
            given = branch.accepts if also else branch.gives
            start = meet(box, branch.box) if given & mask else None
            self._work.take(1)
            if start is not None:
                yield from self.outside(start, before)
            if table.hit != "collect":
                before.append(branch.box)

    def _parts(self, name: str, box: Box, mask: int, also: frozenset[str]) -> Iterator[Box]:
        """Walk through the parts of a box in which a derived name takes one of some values."""
        table = self.rulebook.tables.get(name)
        if table is not None:
            yield from self.lead_to(table, box, mask=mask, also=name in also)
            return
        for value, part in self._tabulated(name):
            self._work.take(1)
            if self.axes[name].of((str(value),)) & mask:
                both = meet(box, part)
                if both is not None:
                    yield both

    def _needs(self, name: str) -> tuple[str, ...] | None:
        """Give what a derived name follows from; None where it is entered or a free fact."""
        table = self.rulebook.tables.get(name)
        if table is not None:
            return table.inputs
        fact = self.facts.get(name)
        if fact is None:
            return None
        domains = [self.domain(need) for need in fact.needs]
        finite = not fact.domain.unit and not any(domain.unit for domain in domains)
        return fact.needs if finite else None

    def _tabulated(self, name: str) -> list[tuple[Value, Box]]:
        if name not in self._fact_parts:
            fact = self.facts[name]
            axes = [self.axes[need] for need in fact.needs]
            size = 1
            for axis in axes:
                size *= len(axis.cells)
            if size > MOST_COMBINATIONS:
                raise TooWideError(f"the fact {name} has {size} combinations, too many to tabulate")
            self._fact_parts[name] = [
                (
                    fact.compute(
                        [
                            self.rulebook.counted(need, str(cell))
                            for need, cell in zip(fact.needs, cells, strict=True)
                        ],
                        self.rulebook.values,
                    ),
                    {
                        need: axis.of((str(cell),))
                        for need, axis, cell in zip(fact.needs, axes, cells, strict=True)
                    },
                )
                for cells in product(*(axis.cells for axis in axes))
            ]
        return self._fact_parts[name]

    def _branch(self, table: Table, row: Row, box: Box, value: str) -> Branch:
        axis = self.axes[table.decision]
        also = axis.of(row.also)
        return Branch(
            row=row, box=box, value=value, gives=axis.of((value,)), accepts=axis.of((value,)) | also
        )

    def _row_branches(self, table: Table, row: Row) -> Iterator[Branch]:
        box: dict[str, int] = {}
        for name in table.inputs:
            axis, condition = self.axes[name], row.when.get(name)
            self._work.take(len(axis.cells) * (1 + len(condition.ranges) if condition else 1))
            mask = axis.taken_by(condition) if condition else axis.known
            taken_for = table.unknowns.get(name)
            if taken_for is not None:
                unknown = axis.of((UNKNOWN,))
                holds = name not in row.when if taken_for == ANY else bool(mask & axis.of((taken_for,)))
                mask = mask | unknown if holds else mask & ~unknown if taken_for != ANY else mask
            if not mask:  # such as a range below all numbers: the row holds nowhere
                return
            if mask != axis.full:
                box[name] = mask
        if row.then_from != "input":
            value = outcome(row, {}, self.rulebook.values)
            if value in table.gives:
                yield self._branch(table, row, box, str(value))
            return
        axis = self.axes[row.then]
        for value in table.gives:
            part = meet(box, {row.then: _copied(axis, value, table.unknowns.get(row.then, ANY))})
            if part is not None:
                yield self._branch(table, row, part, value)


def _copied(axis: Axis, value: str, taken_for: str) -> int:
    """Give the cells of a copied input that give an outcome; its unknown gives what it is taken for."""
    unknown = axis.of((UNKNOWN,))
    if taken_for == ANY:
        return axis.of((value,))
    return axis.of((value,)) & ~unknown | (unknown if value == taken_for else 0)
