"""The book's indexes, an item's skill, and a question's own look-ups."""

import pytest

from drill.bank.book import Book
from drill.bank.item import Item


def item(name, topic="t", **values):
    """Make an item."""
    return Item(id=name, topic=topic, kind="choose", stem="?", **values)


def test_skill_is_row_decision_or_fact():
    """What is held in memory is the decision, not the text."""
    assert item("a", decision="wrap", row="everyday-wrap").skill == "wrap/everyday-wrap"
    assert item("a", decision="wrap").skill == "wrap"
    assert item("a").skill == "t/a"


def test_book_gathers_items_by_skill_and_topic_in_deck_order(rulebook):
    """Two items of one row are one decision to hold; its topic is the first item's."""
    items = (
        item("b", "x", decision="wrap", row="r"),
        item("a", "y", decision="wrap", row="r"),
        item("c", "y"),
    )
    book = Book(rulebook=rulebook, misconceptions=(), items=items, topics={"x": "X", "y": "Y"})
    assert {skill: [one.id for one in found] for skill, found in book.skills.items()} == {
        "wrap/r": ["b", "a"],
        "y/c": ["c"],
    }
    assert book.topic_of == {"wrap/r": "x", "y/c": "y"}
    assert book.item("c") is items[2]
    assert book.item("nothing") is None
    assert book.beliefs == {}


def test_option_is_found_by_its_letter(maker):
    """A letter that is not there is a programmer's fault."""
    question = maker.make(maker.book.items[0], 1)
    assert question.option("a") is question.options[0]
    with pytest.raises(KeyError):
        question.option("z")
