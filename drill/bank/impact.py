"""What local rules change: rows, and items whose answer is another."""

import random
from collections.abc import Mapping
from dataclasses import dataclass

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.make import QuestionMaker
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Overlay
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import Decision
from drill.service.facts import FACTS
from drill.service.head import Head

HEADS_AN_ITEM = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class RowChange:
    """A row that a local rule touches.

    Attributes:
        rule: The local rule.
        op: What it does.
        target: Table and row, or the parameter or vocabulary.
        before: Outcome or value before; empty where there was none.
        after: Outcome or value after; empty where there is none.
    """

    rule: str
    op: str
    target: str
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemChange:
    """An item whose answer is another on some heads.

    Attributes:
        item: Its id.
        decision: What it asks.
        heads: Heads tried.
        changed: Heads on which the answer is another.
        before: An answer before, as an example.
        after: The answer after, on the same head.
    """

    item: str
    decision: str
    heads: int
    changed: int
    before: Value
    after: Value


def row_changes(built_in: Rulebook, rules: tuple[Overlay, ...]) -> tuple[RowChange, ...]:
    """List what local rules touch.

    Args:
        built_in: The rules without them.
        rules: The local rules in force, in order.

    Returns:
        One a change, in order.
    """
    found = []
    for rule in rules:
        for change in rule.changes:
            table = built_in.tables.get(change.target)
            row_id = change.row.id if change.row else change.at
            old = table.row(row_id) if table else None
            parameter = built_in.parameters.get(change.target)
            before = old.then if old else str(parameter.value) if parameter else ""
            after = change.row.then if change.row else str(change.value)
            target = f"{change.target}/{row_id}" if table and row_id else change.target
            found.append(RowChange(rule=rule.id, op=change.op, target=target, before=before, after=after))
    return tuple(found)


def item_changes(
    book: Book, built_in: Rulebook, *, facts: Mapping[str, Fact] = FACTS
) -> tuple[ItemChange, ...]:
    """Find the items whose answer local rules change.

    Args:
        book: The book, local rules in force.
        built_in: The rules without them.
        facts: Computed facts by name.

    Returns:
        One an item that is asked differently on some of :data:`HEADS_AN_ITEM` heads, drawn as the item draws
        them under the built-in rules.
    """
    before = Book(rulebook=built_in, misconceptions=book.misconceptions, items=book.items, topics=book.topics)
    maker = QuestionMaker(Beliefs(before, facts=facts), facts=facts)
    found = []
    for item in book.items:
        if not item.decision or (item.row and built_in.tables[item.decision].row(item.row) is None):
            continue
        pairs = []
        for seed in range(HEADS_AN_ITEM):
            drawn = maker.draw(item, random.Random(f"{item.id} {seed}"))  # noqa: S311  no secret
            if drawn is None:
                break
            head = Head(book.rulebook, drawn.head.consultation, facts=facts)
            pairs.append((_single(drawn.decided), _decide(head, item.decision, drawn.zone)))
        changed = [pair for pair in pairs if pair[0] != pair[1]]
        if changed:
            found.append(
                ItemChange(
                    item=item.id,
                    decision=item.decision,
                    heads=len(pairs),
                    changed=len(changed),
                    before=changed[0][0],
                    after=changed[0][1],
                )
            )
    return tuple(found)


def _decide(head: Head, decision: str, zone: str | None) -> Value:
    try:
        return _single(head.decide(decision, zone))
    except UndecidedError:
        return ""


def _single(decided: Decision) -> Value:
    return "" if isinstance(decided.value, tuple) else decided.value
