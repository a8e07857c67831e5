"""Hold an item of a pack against the names of its book, as the loader holds an item as written."""

from collections.abc import Callable, Mapping

from drill.bank.book import Book
from drill.bank.item import Item, Kind
from drill.bank.make import MAKERS
from drill.rulebook.domain import Value
from drill.rulebook.rulebook import Rulebook
from drill.service.head import COMPUTED_FIGURES, COMPUTED_UNITS, TOOL_DIAMETER
from drill.service.zones import ZONE_NAMES

_FIGURES = (TOOL_DIAMETER, *COMPUTED_FIGURES)


def is_item_sound(item: Item, book: Book) -> bool:
    """Tell whether everything that an item names is known.

    Args:
        item: The item.
        book: The book it stands in.

    Returns:
        Whether it could be asked.
    """
    rulebook = book.rulebook
    return (
        item.kind in MAKERS
        and item.topic in book.topics
        and bool(item.id and item.stem)
        and _is_decision_sound(item, rulebook)
        and _are_drawn(item.vary, rulebook)
        and _are_drawn(item.contrast, rulebook)
        and all(_is_wrong_sound(item, at, book) for at in range(len(item.wrong)))
        and 0 <= item.tolerance <= 1
        and _OF_KIND.get(item.kind, _needs_nothing)(item, book)
    )


def _is_decision_sound(item: Item, rulebook: Rulebook) -> bool:
    if not {*item.zones} <= {*ZONE_NAMES}:
        return False
    if not item.decision:
        return not item.row
    table = rulebook.tables.get(item.decision)
    if table is None:
        return item.decision in _FIGURES and not item.row and bool(item.zones)
    if item.row and table.row(item.row) is None:
        return False
    if table.hit == "collect":
        return item.kind == "order"
    return (table.per == "zone") == bool(item.zones)


def _are_drawn(drawn: Mapping[str, tuple[Value, ...]], rulebook: Rulebook) -> bool:
    for name, values in drawn.items():
        domain = rulebook.domains.get(name)
        if domain is None or not values:
            return False
        if not all(one in domain.values if isinstance(one, str) else bool(domain.unit) for one in values):
            return False
    return True


def _is_wrong_sound(item: Item, at: int, book: Book) -> bool:
    wrong = item.wrong[at]
    return wrong.misconception in ("", *book.beliefs) and (
        not wrong.order or sorted(wrong.order) == list(range(len(item.steps)))
    )


def _needs_nothing(_item: Item, _book: Book) -> bool:
    return True


def _is_estimate_sound(item: Item, _book: Book) -> bool:
    return item.decision in COMPUTED_UNITS


def _is_order_sound(item: Item, book: Book) -> bool:
    table = book.rulebook.tables.get(item.decision)
    return bool(item.steps) and (table is None or {*item.steps} <= {*table.gives})


def _is_contrast_sound(item: Item, _book: Book) -> bool:
    return len(item.contrast) == 1 and bool(item.decision)


def _is_locate_sound(item: Item, _book: Book) -> bool:
    return bool(item.wanted and item.zones and item.decision)


def _is_find_fault_sound(item: Item, book: Book) -> bool:
    return bool(item.parts) and {*item.parts} <= {*book.rulebook.tables, *_FIGURES}


def _is_cause_sound(item: Item, book: Book) -> bool:
    fault = book.fault(item.fault)
    if fault is None:
        return False
    causes = (cause.id for cause in fault.causes)
    return {*item.parts} <= {*book.rulebook.tables, *_FIGURES, *book.beliefs, *causes}


_OF_KIND: Mapping[Kind, Callable[[Item, Book], bool]] = {
    "estimate": _is_estimate_sound,
    "order": _is_order_sound,
    "contrast": _is_contrast_sound,
    "locate": _is_locate_sound,
    "find_fault": _is_find_fault_sound,
    "cause": _is_cause_sound,
}
