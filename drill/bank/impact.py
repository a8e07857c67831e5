"""What local rules change: rows, and items whose answer is another."""

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.draw import MOST_DRAWS, draw, is_asked_on
from drill.bank.item import Item
from drill.bank.scenario import draw_head, draw_zone
from drill.basis.length import number_text
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Overlay, fits
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.consultation import Consultation
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
        counts_as: Of a value that is added: the built-in one that it counts as.
        said_before: Words of the row before, where it has its own and they change.
        said_after: Words of the row after, where it has its own and they change.
    """

    rule: str
    op: str
    target: str
    before: str
    after: str
    counts_as: str = ""
    said_before: str = ""
    said_after: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemChange:
    """An item whose answer is another on some heads.

    Attributes:
        item: Its id.
        decision: What it asks; of a plan that it shows the line that changes first.
        heads: Heads tried.
        changed: Heads on which the answer is another.
        before: An answer before, as an example.
        after: The answer after, on the same head.
        undecided: Heads on which nothing is decided after.
        doubled: Heads on which more answers are right than before.
    """

    item: str
    decision: str
    heads: int
    changed: int
    before: Value
    after: Value
    undecided: int = 0
    doubled: int = 0


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
            before = old.then if old else _stated(parameter, parameter.value) if parameter else ""
            after = change.row.then if change.row else _stated(parameter, change.value)
            target = f"{change.target}/{row_id}" if table and row_id else change.target
            found.append(
                RowChange(
                    rule=rule.id,
                    op=change.op,
                    target=target,
                    before=before,
                    after=after,
                    counts_as=change.counts_as,
                    **_said(old, change.row),
                )
            )
    return tuple(found)


def _stated(parameter: Parameter | None, value: Value) -> str:
    """Write a value with its unit, as it would be set."""
    if isinstance(value, str) or parameter is None:
        return str(value)
    return f"{number_text(value, digits=3)} {parameter.unit}".removesuffix("ratio").strip()


def _said(old: Row | None, new: Row | None) -> dict[str, str]:
    before, after = old.say if old else "", new.say if new else ""
    return {} if before == after else {"said_before": before, "said_after": after}


class ItemDraws:
    """The heads on which a book's items are asked, drawn once, to be decided under several rulebooks.

    Args:
        book: The book; its misconceptions make the wrong answers.
        built_in: The rules under which the heads are drawn, :data:`HEADS_AN_ITEM` an item.
        facts: Computed facts by name.
    """

    def __init__(self, book: Book, built_in: Rulebook, *, facts: Mapping[str, Fact] = FACTS) -> None:
        self._facts = facts
        ideas = tuple(one for one in book.misconceptions if fits(built_in, one))
        ground = Book(rulebook=built_in, misconceptions=ideas, items=book.items, topics=book.topics)
        self._beliefs = Beliefs(ground, facts=facts)
        self._items = [item for item in book.items if _fits(item, built_in)]
        self._drawn: dict[str, list[_Asked]] = {}

    def changes(
        self, before: Rulebook, after: Rulebook, *, rules: Sequence[Overlay]
    ) -> tuple[ItemChange, ...]:
        """Find the items that one rulebook answers otherwise than another.

        Args:
            before: The rules before.
            after: The rules after.
            rules: What lies between the two; items that rest on nothing they touch are passed over.

        Returns:
            One an item whose key changes, that a head leaves undecided, or that has a second right answer;
            those that change on most heads first.
        """
        touched = Beliefs(
            Book(rulebook=after, misconceptions=tuple(rules), items=(), topics={}), facts=self._facts
        )
        found = (
            self._change(item, drawn, before, after)
            for item in self._items
            if any(map(touched.touching, _decisions(item))) and (drawn := self._draws(item))
        )
        kept = [one for one in found if one.changed or one.doubled]
        return tuple(sorted(kept, key=lambda one: -one.changed / one.heads))

    def _draws(self, item: Item) -> list["_Asked"]:
        """Draw the heads of an item, once; none where its first head is not found."""
        if item.id not in self._drawn:
            seeds = (random.Random(f"{item.id} {seed}") for seed in range(HEADS_AN_ITEM))  # noqa: S311  no secret
            drawn = []
            for rng in seeds:
                one = self._draw(item, rng)
                if one is None:
                    break
                drawn.append(one)
            self._drawn[item.id] = drawn
        return self._drawn[item.id]

    def _draw(self, item: Item, rng: random.Random) -> "_Asked | None":
        if item.decision:
            found = draw(self._beliefs, item, rng)
            return None if found is None else _Asked(found.head.consultation, found.zone)
        # A plan is shown of any head that is served, whether or not somebody would get it wrong.
        for _ in range(MOST_DRAWS):
            zone = draw_zone(item, rng)
            consultation = draw_head(item, zone, self._beliefs.book.rulebook, rng)
            head = self._beliefs.head(consultation)
            if all(is_asked_on(head, part) for part in item.parts):
                return _Asked(consultation, zone)
        return None

    def _change(self, item: Item, drawn: Sequence["_Asked"], before: Rulebook, after: Rulebook) -> ItemChange:
        changed: list[tuple[str, Value, Value]] = []
        heads = undecided = doubled = 0
        for one in drawn:
            was, now = self._decide(before, one, item), self._decide(after, one, item)
            undecided += None in now
            doubled += any(
                old is not None and new is not None and len(_right(new)) > len(_right(old))
                for old, new in zip(was, now, strict=True)
            )
            others = [
                (decision, _key(old), _key(new))
                for decision, old, new in zip(_decisions(item), was, now, strict=True)
                if _key(old) != _key(new)
            ]
            heads += bool(others)
            changed += others
        first = changed[0] if changed else (_decisions(item)[0], "", "")
        return ItemChange(
            item=item.id,
            decision=first[0],
            heads=len(drawn),
            changed=heads,
            before=first[1],
            after=first[2],
            undecided=undecided,
            doubled=doubled,
        )

    def _decide(self, rulebook: Rulebook, one: "_Asked", item: Item) -> list[Decision | None]:
        head = Head(rulebook, one.consultation, facts=self._facts)
        found: list[Decision | None] = []
        for decision in _decisions(item):
            try:
                found.append(head.decide(decision, head.place(decision, one.zone)))
            except UndecidedError:
                found.append(None)
        return found


@dataclass(frozen=True, slots=True)
class _Asked:
    """A head on which an item is asked, and where."""

    consultation: Consultation
    zone: str | None


def _decisions(item: Item) -> tuple[str, ...]:
    """Name the decisions that an item asks: one, or the lines of a plan that it shows."""
    return (item.decision,) if item.decision else item.parts


def _fits(item: Item, rulebook: Rulebook) -> bool:
    """Tell whether a rulebook knows all that an item names; a school's own may rest on its local rules."""
    table = rulebook.tables.get(item.decision)
    known = {name: domain.values for name, domain in rulebook.domains.items()}
    return (
        bool(item.decision or item.kind == "find_fault")
        and not (item.row and (table is None or table.row(item.row) is None))
        and all(
            value in known[name]
            for name, values in item.vary.items()
            for value in values
            if isinstance(value, str)
        )
    )


def _right(decided: Decision) -> set[Value]:
    return {_key(decided), *decided.also}


def _key(decided: Decision | None) -> Value:
    return "" if decided is None or isinstance(decided.value, tuple) else decided.value
