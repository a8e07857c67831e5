"""A decision table as it is written: rows in order, a hit policy, and what unknown inputs do."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from drill.basis.problem import NOWHERE, Place
from drill.rulebook.condition import Condition
from drill.rulebook.domain import Per

Hit = Literal["first", "unique", "strictest", "collect"]
Standing = Literal["settled", "school", "contested"]
ThenFrom = Literal["value", "input", "parameter"]

ANY = "any"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: when it holds, what follows, and why.

    Attributes:
        id: Kebab-case id, unique in its table.
        when: Condition for each input it names; an input left out matches every known value.
        then: The outcome, or the name of the input or parameter that it copies.
        then_from: What ``then`` is: the value itself, an input to copy, or a parameter to read.
        also: Outcomes that are acceptable though not the best.
        because: The reason, as a practitioner would say it.
        source: A key of the sources, ``common practice`` or ``memory``.
        standing: ``settled``, ``school`` (a local rule may turn it) or ``contested``.
        say: The words shown where the outcome itself is a step, a caution or advice.
        place: Where it is written.
        set_by: The overlay that wrote it; empty for the built-in rulebook.
    """

    id: str
    when: Mapping[str, Condition]
    then: str
    then_from: ThenFrom = "value"
    also: tuple[str, ...] = ()
    because: str
    source: str
    standing: Standing = "settled"
    say: str = ""
    place: Place = NOWHERE
    set_by: str = ""


@dataclass(frozen=True, kw_only=True)
class Table:
    """One decision.

    Attributes:
        decision: Dotted name of what it decides.
        question: The decision as a question, for people.
        per: Whether it is decided for the head or zone by zone.
        gives: The outcomes, in order; of a ``strictest`` table from the mildest to the strictest.
        hit: ``first`` row that holds, ``unique`` row, ``strictest`` outcome, or ``collect`` all.
        unknowns: For an input, ``any`` (a row that leaves it out holds for its unknown too) or the value
            that its unknown is taken for.
        rows: The rows in order.
        counts_as: For outcomes that a local rule added, the built-in one that limits take it for.
        words: For outcomes that a local rule added, what people call them.
        place: Where it is written.
    """

    decision: str
    question: str
    per: Per
    gives: tuple[str, ...]
    hit: Hit
    unknowns: Mapping[str, str] = field(default_factory=dict)
    rows: tuple[Row, ...]
    counts_as: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    place: Place = NOWHERE

    @cached_property
    def inputs(self) -> tuple[str, ...]:
        """Every input that a row names or copies, in the order met."""
        named = {name: None for row in self.rows for name in row.when}
        copied = {row.then: None for row in self.rows if row.then_from == "input"}
        return tuple(named | copied)

    @cached_property
    def parameters(self) -> tuple[str, ...]:
        """Every parameter that a row copies, in the order met."""
        return tuple({row.then: None for row in self.rows if row.then_from == "parameter"})

    def row(self, row_id: str) -> Row | None:
        """Find a row by its id."""
        return next((row for row in self.rows if row.id == row_id), None)

    def strictness(self, outcome: str) -> int:
        """Rank an outcome of a ``strictest`` table, 0 for the mildest."""
        return self.gives.index(outcome)
