"""The other sides of a row: the same question beside a head on which the answer is another.

Whoever always met the same answer behind the same question would learn the question. So an item about a row
asks that row on a part of its heads only. On the others another row decides otherwise, and only the head
tells which it is.
"""

import random
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from drill.bank.beliefs import Beliefs
from drill.bank.draw import Draw, draw, draw_on
from drill.bank.item import Item
from drill.rulebook.domain import Value
from drill.rulebook.table import Row, Table
from drill.service.ask_first import VERDICT

# Every answer of a decision is met about as often as another, but of an item's heads at least so many are
# those of its own row.
FEWEST_OWN = 1 / 3
# Where the strictest row wins, nearly every row holds a service back; what is asked then is whether anything
# does. Of the heads that a service is asked for more than a third have nothing against them: who always
# declines learns nothing.
CLEAR_HEADS = 0.39
_MOST_TRIES = 3


@dataclass(frozen=True, slots=True)
class _Side:
    """An answer that is not the item's own: the items and the rows that give it."""

    items: list[Item] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)


def draw_on_any_side(beliefs: Beliefs, item: Item, rng: random.Random) -> Draw | None:
    """Draw a head for an item, now on one side of its row, now on another.

    Args:
        beliefs: The book's wrong ideas at work.
        item: A scenario item.
        rng: The seed's generator.

    Returns:
        The head; None where none was found.
    """
    drawn = draw(beliefs, item, rng)
    table = beliefs.book.rulebook.tables.get(item.decision)
    own = table.row(item.row) if table else None
    # An item whose own row cannot be asked asks nothing.
    if drawn is None or table is None or own is None:
        return drawn
    sides = _sides(beliefs, item, table, own)
    if rng.random() < _own_share(table, own, len(sides)):
        return drawn
    for answer in rng.sample(["", *sorted(sides)], len(sides) + 1):
        found = _draw_side(beliefs, item, table, sides[answer], rng) if answer else drawn
        if found is not None and (answer or table.hit != "strictest"):
            return found
    return drawn


def answers_beside(beliefs: Beliefs, item: Item) -> Mapping[Value, int]:
    """Count how many items of a decision have an answer, so far as their rows state it.

    Where the strictest row wins only the mildest answer is counted, the one that is always to be told apart.

    Args:
        beliefs: The book's wrong ideas at work.
        item: The item that asks the decision.

    Returns:
        Items by answer.
    """
    table = beliefs.book.rulebook.tables.get(item.decision)
    if table is None:
        return {}
    if table.hit == "strictest":
        return {table.gives[0]: 1}
    asked = (table.row(one.row) for one in _beside(beliefs, item))
    return Counter(row.then for row in asked if row is not None and row.then_from == "value")


def _own_share(table: Table, own: Row, others: int) -> float:
    """Give how often an item's own head stands without a draw among all sides, itself among them."""
    if table.hit == "strictest":
        clear = CLEAR_HEADS if table.decision == VERDICT else 1 / len(table.gives)
        return clear if _is_mildest(table, own) else 1 - clear
    even = 1 / (others + 1)
    return max(0.0, (FEWEST_OWN - even) / (1 - even)) if others else 1.0


def _is_mildest(table: Table, row: Row) -> bool:
    return row.then == table.gives[0]


def _sides(beliefs: Beliefs, item: Item, table: Table, own: Row) -> dict[str, _Side]:
    """Sort rows, and the items beside one, by what they answer: no answer is to be met more than others."""
    sides: dict[str, _Side] = {}
    # Where the strictest row wins, one that asks less than another is not met by adding to a head.
    both = table.hit != "strictest" or _is_mildest(table, own)
    others = [row for row in table.rows if both or _is_mildest(table, row)]
    for row in others:
        if _answer(row) != _answer(own):
            sides.setdefault(_answer(row), _Side()).rows.append(row)
    for one in _beside(beliefs, item):
        about = table.row(one.row)
        zones = tuple(zone for zone in one.zones if zone in item.zones)
        fits = bool(zones) == bool(item.zones) and one.vary.get("service") == item.vary.get("service")
        if about is not None and fits and _answer(about) in sides:
            sides[_answer(about)].items.append(replace(one, zones=zones))
    return sides


def _beside(beliefs: Beliefs, item: Item) -> list[Item]:
    """Give the items of its decision in the same folder: a school's own never change a built-in question."""
    folder = _folder(item)
    return [one for one in beliefs.book.items if one.decision == item.decision and _folder(one) == folder]


def _folder(item: Item) -> str:
    return item.place.file.replace("\\", "/").rpartition("/")[0]


def _draw_side(beliefs: Beliefs, item: Item, table: Table, side: _Side, rng: random.Random) -> Draw | None:
    """Draw a head of another side: as an item beside this one draws it, else in the boxes of a row."""
    for one in rng.sample(side.items, min(len(side.items), _MOST_TRIES)):
        found = draw(beliefs, one, rng)
        if found is not None:
            return found
    if side.items or table.hit == "strictest":
        return None
    near = replace(item, row="", look="")
    for row in rng.sample(side.rows, min(len(side.rows), _MOST_TRIES)):
        drawn = beliefs.row_heads.draw(table, row, rng, on=near)
        found = draw_on(beliefs, near, *drawn) if drawn is not None else None
        # What was laid on the head may have brought about the item's own row after all.
        if found is not None and found.decided.row != item.row:
            return found
    return None


def _answer(row: Row) -> str:
    return f"{row.then_from} {row.then}"
