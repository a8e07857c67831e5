"""What a book holds and asks: counts, and the rows that can and cannot be asked."""

import random
from collections.abc import Mapping
from dataclasses import dataclass

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.draw import is_asked_on
from drill.bank.heads import heads_for_row
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.space import Space
from drill.rulebook.table import Row, Table
from drill.service.facts import FACTS
from drill.service.head import Head

UNPUBLISHED = ("common practice", "memory")
_HEADS_A_ROW = 12
_ENOUGH_VALUES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """How much a book holds.

    Attributes:
        tables: Decision tables.
        rows: Their rows.
        parameters: Parameters.
        limits: Safety limits.
        items: Items.
        scenarios: Items whose key the planner decides.
        skills: Decisions to hold.
        misconceptions: Wrong ideas.
        changing: Wrong ideas that change a decision.
        unpublished_rows: Rows whose source is no published work.
        unpublished_parameters: Parameters whose source is no published work.
    """

    tables: int
    rows: int
    parameters: int
    limits: int
    items: int
    scenarios: int
    skills: int
    misconceptions: int
    changing: int
    unpublished_rows: int
    unpublished_parameters: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RowReach:
    """What wrong ideas reach on heads where a row decides.

    Attributes:
        decision: The row's decision.
        row: Its id.
        reached: Wrong, not acceptable values with the ideas that give them.
    """

    decision: str
    row: str
    reached: Mapping[Value, tuple[str, ...]]

    @property
    def askable(self) -> bool:
        """Whether a scenario question can be made of it: two wrong values on one head."""
        return len(self.reached) >= _ENOUGH_VALUES


def count(book: Book) -> Counts:
    """Count what a book holds."""
    rulebook = book.rulebook
    rows = [row for table in rulebook.tables.values() for row in table.rows]
    return Counts(
        tables=len(rulebook.tables),
        rows=len(rows),
        parameters=len(rulebook.parameters),
        limits=len(rulebook.limits),
        items=len(book.items),
        scenarios=sum(not item.is_fact for item in book.items),
        skills=len(book.skills),
        misconceptions=len(book.misconceptions),
        changing=sum(bool(one.changes) for one in book.misconceptions),
        unpublished_rows=sum(row.source in UNPUBLISHED for row in rows),
        unpublished_parameters=sum(one.source in UNPUBLISHED for one in rulebook.parameters.values()),
    )


def reach(beliefs: Beliefs, *, facts: Mapping[str, Fact] = FACTS) -> tuple[RowReach, ...]:
    """Find for every row what wrong ideas make of the heads that it decides.

    Args:
        beliefs: The book's wrong ideas at work.
        facts: Computed facts by name.

    Returns:
        One a row of every table with one outcome; of a row the best head found counts, since a question is
        asked on one head. How hair is wound is asked only where it is served.
    """
    space = Space(beliefs.book.rulebook, facts=facts)
    return tuple(
        RowReach(decision=table.decision, row=row.id, reached=_best(beliefs, space, table, row, facts))
        for table in beliefs.book.rulebook.tables.values()
        if table.hit != "collect"
        for row in table.rows
    )


def _best(
    beliefs: Beliefs, space: Space, table: Table, row: Row, facts: Mapping[str, Fact]
) -> Mapping[Value, tuple[str, ...]]:
    rng = random.Random(f"{table.decision} {row.id}")  # noqa: S311  a sample needs no secret
    best: Mapping[Value, tuple[str, ...]] = {}
    for _, (consultation, zone) in zip(
        range(_HEADS_A_ROW), heads_for_row(space, table, row, rng), strict=False
    ):
        head = Head(space.rulebook, consultation, facts=facts)
        try:
            decided = head.decide(table.decision, zone)
            is_asked = decided.row == row.id and is_asked_on(head, table.decision)
        except UndecidedError:
            continue
        if not is_asked:
            continue
        refused = (decided.value, *decided.also)
        reached = {
            value: ideas
            for value, ideas in beliefs.reached(consultation, table.decision, zone).items()
            if value not in refused
        }
        if len(reached) > len(best):
            best = reached
        if len(best) >= _ENOUGH_VALUES:
            break
    return best
