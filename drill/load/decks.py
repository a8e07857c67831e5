"""Decks as written, to items."""

from collections.abc import Mapping
from typing import cast

from drill.bank.item import Item, Kind
from drill.basis.problem import Place, Problem
from drill.load.deck_kinds import READERS, read_kind
from drill.load.deck_parts import Known
from drill.load.pictures import SchoolPictures, read_picture
from drill.load.reading import Fields, Node
from drill.load.school_files import MOST_FAULTS
from drill.rulebook.rulebook import Rulebook
from drill.service.faults import Fault


def read_deck(
    node: Node,
    rulebook: Rulebook,
    problems: list[Problem],
    *,
    beliefs: Mapping[str, object],
    faults: Mapping[str, Fault] | None = None,
    local: bool = False,
    pictures: SchoolPictures | None = None,
) -> tuple[str, str, list[Item]]:
    """Read one deck.

    Args:
        node: As written.
        rulebook: Knows decisions, rows and names.
        problems: Where faults are gathered.
        beliefs: Known misconceptions by id.
        faults: What is seen after a service, by id.
        local: Whether it is a school's own, whose sources are any text.
        pictures: The pictures that it may show; None where it may show none, as a built-in one.

    Returns:
        Its topic, its title, and its items; items with a fault are left out.
    """
    fields = Fields(node, problems, what="a deck")
    topic = fields.text("topic", required=True)
    title = fields.text("title") or topic.replace("_", " ").capitalize()
    items = []
    known = Known(
        rulebook=rulebook,
        beliefs=beliefs,
        sources={} if local else rulebook.sources,
        faults=faults or {},
        pictures=pictures,
    )
    for one in fields.items("items", required=True):
        if len(problems) > MOST_FAULTS:
            break
        item = _read_item(one, topic, problems, known)
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


def _read_item(node: Node, topic: str, problems: list[Problem], known: Known) -> Item | None:
    before = len(problems)
    fields = Fields(node, problems, what="an item")
    bare = Item(
        id=fields.text("id", required=True),
        topic=topic,
        kind=cast(Kind, fields.text("kind", required=True, choices=tuple(READERS)) or "choose"),
        stem=fields.text("stem", required=True),
        look=fields.text("look"),
        picture=read_picture(fields, known.pictures),
        place=node.place,
    )
    item = read_kind(fields, bare, known)
    fields.done()
    return item if len(problems) == before else None
