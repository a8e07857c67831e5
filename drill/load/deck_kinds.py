"""The keys that an item of each kind is written with."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import cast, get_args

from drill.bank.item import Item, Kind, Wrong
from drill.basis.problem import mend_name
from drill.basis.quantity import quantity_from_text
from drill.load.deck_next import read_ask_next, read_locate, read_order, read_stop_or_go
from drill.load.deck_parts import (
    ANY_ZONE,
    Known,
    read_about,
    read_decision,
    read_vary,
    read_wrong,
    read_zones,
)
from drill.load.deck_seen import read_cause, read_find_fault
from drill.load.reading import Fields
from drill.load.rows import read_source
from drill.rulebook.table import Standing
from drill.service.head import COMPUTED_UNITS

MOST_TOLERANCE = 0.5
FEWEST_CONTRAST = 2


def read_kind(fields: Fields, bare: Item, known: Known) -> Item:
    """Read what an item of its kind says besides kind, stem and look.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    return READERS[bare.kind](fields, bare, known)


def _read_choose(fields: Fields, bare: Item, known: Known) -> Item:
    has_decision = fields.take("decision") is not None
    return (_read_scenario if has_decision else _read_fact)(fields, bare, known)


def _read_estimate(fields: Fields, bare: Item, known: Known) -> Item:
    item = _read_scenario(fields, bare, known)
    node = fields.take("decision", required=True)
    if node is not None and item.decision and item.decision not in COMPUTED_UNITS:
        mend = f"ask one of {', '.join(COMPUTED_UNITS)}"
        fields.fault(node, f"{item.decision} is no number to estimate", mend)
    return replace(item, tolerance=_read_tolerance(fields))


def _read_tolerance(fields: Fields) -> float:
    node, text = fields.take("tolerance"), fields.text("tolerance")
    if node is None:
        return 0.0
    percent = quantity_from_text(text.removesuffix("%"), "ratio") if text.endswith("%") else None
    if percent is None or not 0 < percent <= 100 * MOST_TOLERANCE:
        mend = f"write a share of the key, such as 15 %, at most {MOST_TOLERANCE:.0%}"
        fields.fault(node, f"'tolerance' cannot be '{text}'", mend)
        return 0.0
    return percent / 100


def _read_scenario(fields: Fields, bare: Item, known: Known) -> Item:
    rulebook = known.rulebook
    decision, zones = read_decision(fields, rulebook), read_zones(fields)
    table = rulebook.tables.get(decision)
    row = fields.text("row")
    row_node, decision_node = fields.take("row"), fields.take("decision")
    if row_node is not None and table is not None and table.row(row) is None:
        rows = tuple(one.id for one in table.rows)
        fields.fault(row_node, f"{decision} has no row '{row}'", mend_name(row, rows))
    by_zone, has_zone = table.per == "zone" if table else True, fields.take("zone") is not None
    if decision_node is not None and decision and by_zone != has_zone:
        mend = f"add 'zone: {ANY_ZONE}'" if by_zone else "take 'zone' out"
        fields.fault(decision_node, f"{decision} is decided per {'zone' if by_zone else 'head'}", mend)
    for key in ("answer", "wrong"):
        written = fields.take(key)
        if written is not None:
            what = f"'{key}' stands beside 'decision', but the rules decide what is right and wrong there"
            fields.fault(written, what, f"take '{key}' out; or take 'decision' out to ask a fact")
    return replace(bare, decision=decision, row=row, zones=zones, vary=read_vary(fields, rulebook))


def _read_contrast(fields: Fields, bare: Item, known: Known) -> Item:
    item = _read_scenario(fields, bare, known)
    node = fields.take("decision", required=True)
    if node is not None and item.decision and item.decision not in known.rulebook.tables:
        what = f"{item.decision} is a number, and numbers change a little on every head"
        fields.fault(node, what, "ask a decision of a table; or ask it with 'kind: estimate'")
    contrast = read_vary(fields, known.rulebook, key="contrast")
    written = fields.take("contrast", required=True)
    if written is not None and isinstance(written.value, dict):
        for name, one in written.value.items():
            if len(contrast.get(name, ())) < FEWEST_CONTRAST and name in contrast:
                fields.fault(one, f"'contrast' has one value of {name}", "write the two that are compared")
        if len(written.value) != 1:
            what = f"'contrast' has {len(written.value)} fields"
            fields.fault(written, what, "write the one fact in which the two heads differ")
    return replace(item, contrast=contrast)


def _read_fact(fields: Fields, bare: Item, known: Known) -> Item:
    wrong = read_wrong(fields, known, required=True)
    answer = fields.text("answer", required=True)
    _check_options(fields, answer, wrong)
    return replace(
        bare,
        answer=answer,
        wrong=tuple(wrong),
        because=fields.text("because", required=True),
        source=read_source(fields, known.sources),
        standing=cast(Standing, fields.text("standing", choices=get_args(Standing)) or "settled"),
        about=read_about(fields, known.rulebook),
    )


def _check_options(fields: Fields, answer: str, wrong: list[Wrong]) -> None:
    node = fields.take("wrong")
    if node is None:
        return
    texts = [answer.casefold(), *(one.text.casefold() for one in wrong)]
    if len(set(texts)) < len(texts):
        fields.fault(node, "two options say the same", "make each option its own")


Reader = Callable[[Fields, Item, Known], Item]
READERS: Mapping[Kind, Reader] = {
    "choose": _read_choose,
    "estimate": _read_estimate,
    "order": read_order,
    "locate": read_locate,
    "stop_or_go": read_stop_or_go,
    "ask_next": read_ask_next,
    "contrast": _read_contrast,
    "find_fault": read_find_fault,
    "cause": read_cause,
}
