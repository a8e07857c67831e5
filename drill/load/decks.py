"""Decks as written, to items."""

from collections.abc import Mapping
from dataclasses import replace
from typing import cast, get_args

from drill.bank.item import Item, Kind, Wrong
from drill.basis.problem import Place, Problem, mend_name
from drill.basis.quantity import HOW_TO_WRITE, quantity_from_text
from drill.load.reading import Fields, Node, texts_of
from drill.load.rows import boolean_word, read_source
from drill.rulebook.domain import Domain, Value
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Standing
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER
from drill.service.zones import ZONE_NAMES

ANY_ZONE = "any"
FEWEST_WRONG, MOST_WRONG = 2, 4


def read_deck(
    node: Node,
    rulebook: Rulebook,
    problems: list[Problem],
    *,
    beliefs: Mapping[str, object],
    local: bool = False,
) -> tuple[str, str, list[Item]]:
    """Read one deck.

    Args:
        node: As written.
        rulebook: Knows decisions, rows and names.
        problems: Where faults are gathered.
        beliefs: Known misconceptions by id.
        local: Whether it is a school's own, whose sources are any text.

    Returns:
        Its topic, its title, and its items; items with a fault are left out.
    """
    fields = Fields(node, problems, what="a deck")
    topic = fields.text("topic", required=True)
    title = fields.text("title") or topic.replace("_", " ").capitalize()
    items = []
    for one in fields.items("items", required=True):
        item = _read_item(one, topic, rulebook, problems, beliefs=beliefs, local=local)
        if item is not None:
            items.append(item)
    fields.done()
    return topic, title, items


def refuse_twins(items: list[Item], problems: list[Problem]) -> None:
    """Refuse an id that stands twice, in whatever files."""
    first: dict[str, Place] = {}
    for item in items:
        if item.id in first:
            problems.append(
                Problem(
                    item.place, f"the item id {item.id} stands twice, first at {first[item.id]}", "rename one"
                )
            )
        first.setdefault(item.id, item.place)


def _read_item(
    node: Node,
    topic: str,
    rulebook: Rulebook,
    problems: list[Problem],
    *,
    beliefs: Mapping[str, object],
    local: bool,
) -> Item | None:
    before = len(problems)
    fields = Fields(node, problems, what="an item")
    bare = Item(
        id=fields.text("id", required=True),
        topic=topic,
        kind=cast(Kind, fields.text("kind", required=True, choices=get_args(Kind)) or "choose"),
        stem=fields.text("stem", required=True),
        look=fields.text("look"),
        place=node.place,
    )
    if fields.take("decision") is not None:
        item = _read_scenario(fields, bare, rulebook)
    else:
        item = _read_fact(fields, bare, sources={} if local else rulebook.sources, beliefs=beliefs)
    fields.done()
    return item if len(problems) == before else None


def _read_scenario(fields: Fields, bare: Item, rulebook: Rulebook) -> Item:
    decision, zones = _read_decision(fields, rulebook), _read_zones(fields)
    table = rulebook.tables.get(decision)
    row = fields.text("row")
    row_node, decision_node = fields.take("row"), fields.take("decision")
    if row_node is not None and table is not None and table.row(row) is None:
        known = tuple(one.id for one in table.rows)
        fields.fault(row_node, f"{decision} has no row '{row}'", mend_name(row, known))
    by_zone, has_zone = table.per == "zone" if table else True, fields.take("zone") is not None
    if decision_node is not None and decision and by_zone != has_zone:
        mend = f"add 'zone: {ANY_ZONE}'" if by_zone else "take 'zone' out"
        fields.fault(decision_node, f"{decision} is decided per {'zone' if by_zone else 'head'}", mend)
    for key in ("answer", "wrong"):
        written = fields.take(key)
        if written is not None:
            what = f"'{key}' stands beside 'decision', but the rules decide what is right and wrong there"
            fields.fault(written, what, f"take '{key}' out; or take 'decision' out to ask a fact")
    return replace(bare, decision=decision, row=row, zones=zones, vary=_read_vary(fields, rulebook))


def _read_fact(
    fields: Fields, bare: Item, *, sources: Mapping[str, str], beliefs: Mapping[str, object]
) -> Item:
    wrong = []
    for one in fields.items("wrong", required=True):
        entry = Fields(one, fields.problems, what="a wrong option")
        text, belief = entry.text("text", required=True), entry.text("misconception")
        belief_node = entry.take("misconception")
        if belief_node is not None and belief not in beliefs:
            entry.fault(
                belief_node, f"there is no misconception '{belief}'", mend_name(belief, tuple(beliefs))
            )
        entry.done()
        wrong.append(Wrong(text=text, misconception=belief))
    answer = fields.text("answer", required=True)
    _check_options(fields, answer, wrong)
    return replace(
        bare,
        answer=answer,
        wrong=tuple(wrong),
        because=fields.text("because", required=True),
        source=read_source(fields, sources),
        standing=cast(Standing, fields.text("standing", choices=get_args(Standing)) or "settled"),
    )


def _check_options(fields: Fields, answer: str, wrong: list[Wrong]) -> None:
    node = fields.take("wrong")
    if node is None:
        return
    if not FEWEST_WRONG <= len(wrong) <= MOST_WRONG:
        what = f"'wrong' has {len(wrong)} option{'' if len(wrong) == 1 else 's'}"
        fields.fault(node, what, f"write {FEWEST_WRONG} to {MOST_WRONG} wrong options")
    texts = [answer.casefold(), *(one.text.casefold() for one in wrong)]
    if len(set(texts)) < len(texts):
        fields.fault(node, "two options say the same", "make each option its own")


def _read_decision(fields: Fields, rulebook: Rulebook) -> str:
    decision = fields.text("decision", required=True)
    node = fields.take("decision")
    figures = (TOOL_DIAMETER, *COMPUTED_FIGURES)
    askable = (*(name for name, table in rulebook.tables.items() if table.hit != "collect"), *figures)
    if node is not None and decision and decision not in askable:
        what = f"there is no decision '{decision}' to ask"
        if decision in rulebook.tables:
            what = f"{decision} is a list, which is never asked"
        fields.fault(node, what, mend_name(decision, askable))
        return ""
    return decision


def _read_zones(fields: Fields) -> tuple[str, ...]:
    node = fields.take("zone")
    if node is None:
        return ()
    zones: list[str] = []
    for text, one in texts_of(node, fields.problems, what="'zone'"):
        if text == ANY_ZONE:
            zones += ZONE_NAMES
        elif text in ZONE_NAMES:
            zones.append(text)
        else:
            fields.fault(one, f"there is no zone '{text}'", mend_name(text, (ANY_ZONE, *ZONE_NAMES)))
    return tuple(zones)


def _read_vary(fields: Fields, rulebook: Rulebook) -> dict[str, tuple[Value, ...]]:
    found = {}
    entered = tuple(name for name, one in rulebook.domains.items() if one.entered)
    for name, node, place in fields.pairs("vary"):
        if name not in entered:
            fields.problems.append(
                Problem(place, f"a consultation has no field '{name}'", mend_name(name, entered))
            )
            continue
        domain, values = rulebook.domains[name], list[Value]()
        for text, one in texts_of(node, fields.problems, what=name):
            word = boolean_word(text, domain.values)
            number = quantity_from_text(text, domain.unit, bare=domain.unit != "mm") if domain.unit else None
            if word in domain.values:
                values.append(word)
            elif number is not None:
                values.append(number)
            else:
                fields.fault(one, f"{name} cannot be '{text}'", _how(text, domain))
        if values:
            found[name] = tuple(values)
    return found


def _how(text: str, domain: Domain) -> str:
    if not domain.unit:
        return mend_name(text, domain.values)
    return f"write {HOW_TO_WRITE[domain.unit]}{''.join(f', or {value}' for value in domain.values)}"
