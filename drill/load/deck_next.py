"""The keys of items about what comes next or where: an order, a moment, a missing fact, a place."""

from dataclasses import replace
from typing import cast, get_args

from drill.bank.item import Item, Wrong
from drill.bank.kinds.after_test import DECISIONS as AFTER_TEST
from drill.bank.kinds.order import STEPS
from drill.basis.problem import mend_name
from drill.load.deck_parts import (
    ANY_ZONE,
    FEWEST_WRONG,
    MOST_WRONG,
    Known,
    read_about,
    read_belief,
    read_decision,
    read_vary,
    read_zones,
)
from drill.load.reading import Fields, texts_of
from drill.load.rows import read_source
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.table import Standing
from drill.service.ask_first import ASKED
from drill.service.processing import DECISION

FEWEST_STEPS, MOST_STEPS = 3, 6
FEWEST_UNKNOWN = 3
FEWEST_PLACES = 3


def read_order(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item whose steps are put in order.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item; with ``decision: steps`` the plan of a head knows the order, else the item's own is
        right and has a reason and a source.
    """
    planned = fields.take("decision") is not None
    decision = fields.text("decision", choices=(STEPS,))
    steps = _steps(fields, known if planned else None)
    item = replace(bare, decision=decision, steps=steps, wrong=_orders(fields, known, steps))
    if planned:
        return replace(item, vary=read_vary(fields, known.rulebook))
    _check_orders(fields, item)
    return replace(
        item,
        because=fields.text("because", required=True),
        source=read_source(fields, known.sources),
        standing=cast(Standing, fields.text("standing", choices=get_args(Standing)) or "settled"),
        about=read_about(fields, known.rulebook),
    )


def read_stop_or_go(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item about one moment while lotion works.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    domains = known.rulebook.domains
    decision = fields.text("decision", choices=(DECISION, *AFTER_TEST)) or DECISION
    table = known.rulebook.tables[decision]
    row, node = fields.text("row", required=True), fields.take("row")
    if node is not None and row and table.row(row) is None:
        rows = tuple(one.id for one in table.rows)
        fields.fault(node, f"{decision} has no row '{row}'", mend_name(row, rows))
    names = tuple(sorted(name for name in domains if name.startswith("processing.")))
    if decision in AFTER_TEST:
        # How test curls are read depends on the head that they were made on.
        names = tuple(name for name, one in domains.items() if one.entered or name.startswith("revise."))
    vary = read_vary(fields, known.rulebook, names=names)
    return replace(bare, decision=decision, row=row, vary=vary)


def read_ask_next(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item about the missing fact to get first.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    node = fields.take("vary", required=True)
    vary = read_vary(fields, known.rulebook)
    unknown = [name for name, values in vary.items() if name in ASKED and UNKNOWN in values]
    if node is not None and len(unknown) < FEWEST_UNKNOWN:
        what = f"'vary' leaves {len(unknown)} fact{'' if len(unknown) == 1 else 's'} unknown"
        fields.fault(node, what, f"write 'unknown' for at least {FEWEST_UNKNOWN}, such as scalp")
    return replace(bare, vary=vary)


def read_locate(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item whose answer is a place on the head.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    rulebook = known.rulebook
    decision, node = read_decision(fields, rulebook), fields.take("decision")
    table = rulebook.tables.get(decision)
    if node is not None and decision and (table is None or table.per != "zone"):
        what = f"{decision} is not decided place by place by a table"
        fields.fault(node, what, "ask one that is, such as roll_direction")
        table = None
    fields.take("zone", required=True)
    zones = read_zones(fields)
    where = fields.take("zone")
    if where is not None and zones and len(zones) < FEWEST_PLACES:
        fields.fault(where, f"'zone' has {len(zones)} places to choose from", f"write 'zone: {ANY_ZONE}'")
    return replace(
        bare,
        decision=decision,
        zones=zones,
        wanted=_wanted(fields, table.gives if table else ()),
        vary=read_vary(fields, rulebook),
    )


def _wanted(fields: Fields, gives: tuple[str, ...]) -> tuple[Value, ...]:
    node = fields.take("wanted", required=True)
    if node is None:
        return ()
    wanted = texts_of(node, fields.problems, what="'wanted'")
    for text, one in wanted:
        if gives and text not in gives:
            fields.fault(one, f"no place has '{text}'", mend_name(text, gives))
    return tuple(text for text, _ in wanted)


def _steps(fields: Fields, known: Known | None) -> tuple[str, ...]:
    """Take ``steps``; of a plan they are names of its steps."""
    node = fields.take("steps", required=True)
    if node is None:
        return ()
    steps = texts_of(node, fields.problems, what="'steps'")
    if not FEWEST_STEPS <= len(steps) <= MOST_STEPS:
        what = f"'steps' has {len(steps)} step{'' if len(steps) == 1 else 's'}"
        fields.fault(node, what, f"write {FEWEST_STEPS} to {MOST_STEPS} steps in their right order")
    if len({text.casefold() for text, _ in steps}) < len(steps):
        fields.fault(node, "two steps say the same", "make each step its own")
    names = known.rulebook.tables[STEPS].gives if known else ()
    for text, one in steps:
        if names and text not in names:
            fields.fault(one, f"a plan has no step '{text}'", mend_name(text, names))
    return tuple(text for text, _ in steps)


def _orders(fields: Fields, known: Known, steps: tuple[str, ...]) -> tuple[Wrong, ...]:
    nodes, found = fields.items("wrong", required=True), []
    node = fields.take("wrong")
    for one in nodes:
        entry = Fields(one, fields.problems, what="a wrong order")
        belief = read_belief(entry, known)
        order = _order(entry, len(steps))
        entry.done()
        found.append(Wrong(text="", misconception=belief, order=order))
    if node is not None and not FEWEST_WRONG <= len(nodes) <= MOST_WRONG:
        what = f"'wrong' has {len(nodes)} order{'' if len(nodes) == 1 else 's'}"
        fields.fault(node, what, f"write {FEWEST_WRONG} to {MOST_WRONG} wrong orders")
    elif node is not None and _has_twins([one.order for one in found if one.order]):
        fields.fault(node, "two orders are the same", "make each order its own")
    return tuple(found)


def _has_twins(orders: list[tuple[int, ...]]) -> bool:
    return len(set(orders)) < len(orders)


def _order(entry: Fields, steps: int) -> tuple[int, ...]:
    """Read an order as numbers of the steps, counted from 1 as a person does."""
    node = entry.take("order", required=True)
    if node is None:
        return ()
    numbers = [text for text, _ in texts_of(node, entry.problems, what="'order'")]
    if sorted(numbers) != sorted(str(one + 1) for one in range(steps)):
        what = f"'order' is {', '.join(numbers)}, which does not name each of the {steps} steps once"
        entry.fault(node, what, f"write the numbers 1 to {steps}, in the wrong order")
        return ()
    return tuple(int(one) - 1 for one in numbers)


def _check_orders(fields: Fields, item: Item) -> None:
    node = fields.take("wrong")
    right = tuple(range(len(item.steps)))
    if node is not None and right and any(one.order == right for one in item.wrong):
        fields.fault(node, "one of the orders is the right one", "write wrong ones only")
