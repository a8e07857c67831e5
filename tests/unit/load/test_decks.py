"""Question sets as written."""

from drill.load.decks import read_deck
from drill.load.reading import read_text
from drill.service.zones import ZONE_NAMES

DECK = """
topic: base_control
title: Where the tool sits
items:
  - id: lift
    kind: choose
    decision: base_control
    zone: [top, nape_left]
    row: worn-close
    vary: {wish.root_volume: [low, high], hair.length: [20 cm, 8 in], history.weeks_since_perm: [never, 6]}
    look: Look at the wish first.
    stem: How should the tool sit?
  - {id: may-it, kind: choose, decision: verdict, stem: May it go ahead?}
  - {id: turns, kind: choose, decision: turns, zone: any, stem: How many turns?}
  - id: why
    kind: choose
    stem: Why?
    answer: It pulls.
    wrong: [{text: Habit.}, {text: Speed., misconception: lift-is-free}]
    because: Lift is tension.
    source: common practice
    standing: contested
"""


def test_a_deck_keeps_all_that_is_written(rulebook):
    """Scenarios for a zone, for the head, for a figure, and a fact."""
    (node,), problems = read_text(DECK.encode(), shown="deck.yaml")
    topic, title, (lift, may, turns, why) = read_deck(
        node, rulebook, problems, beliefs={"lift-is-free": None}
    )
    assert problems == []
    assert (topic, title) == ("base_control", "Where the tool sits")
    assert (lift.zones, lift.row, lift.look) == (
        ("top", "nape_left"),
        "worn-close",
        "Look at the wish first.",
    )
    assert lift.vary["wish.root_volume"] == ("low", "high")
    assert lift.vary["hair.length"] == (200.0, 203.2)
    assert lift.vary["history.weeks_since_perm"] == ("never", 6.0)
    assert (may.decision, may.zones) == ("verdict", ())
    assert (turns.decision, turns.zones) == ("turns", ZONE_NAMES)
    assert (why.answer, why.standing) == ("It pulls.", "contested")
    assert [(one.text, one.misconception) for one in why.wrong] == [
        ("Habit.", ""),
        ("Speed.", "lift-is-free"),
    ]


def test_a_deck_without_title_is_called_by_its_topic(rulebook):
    """In words."""
    (node,), problems = read_text(b"topic: end_papers\nitems: []\n", shown="deck.yaml")
    assert read_deck(node, rulebook, problems, beliefs={}) == ("end_papers", "End papers", [])


def test_an_item_with_a_fault_is_left_out_and_its_neighbours_stay(rulebook):
    """The faults of all are told at once."""
    text = DECK.replace("decision: verdict", "decision: verdcit").replace(
        "kind: choose\n    stem", "kind: chose\n    stem"
    )
    (node,), problems = read_text(text.encode(), shown="deck.yaml")
    _, _, items = read_deck(node, rulebook, problems, beliefs={"lift-is-free": None})
    assert [item.id for item in items] == ["lift", "turns"]
    assert [one.mend for one in problems] == ["did you mean 'verdict'?", "did you mean 'choose'?"]


def test_a_local_deck_may_name_any_source(rulebook):
    """A built-in one only what is among the sources."""
    text = DECK.replace("source: common practice", "source: House rules, p. 3")
    (node,), problems = read_text(text.encode(), shown="deck.yaml")
    read_deck(node, rulebook, problems, beliefs={"lift-is-free": None}, local=True)
    assert problems == []
    read_deck(node, rulebook, problems, beliefs={"lift-is-free": None})
    assert [one.what for one in problems] == ["the source 'House rules, p. 3' is not among the sources"]
