"""Items about what comes next or where, as written."""

from drill.load.decks import read_deck
from drill.load.reading import read_text
from drill.service.zones import ZONE_NAMES

DECK = """
topic: t
items:
  - id: planned
    kind: order
    stem: In order.
    decision: steps
    steps: [neutralise, rinse, blot]
    vary: {history.known: [yes, no]}
    wrong: [{order: [1, 2, 3], misconception: lift-is-free}, {order: [3, 2, 1]}]
  - id: written
    kind: order
    stem: In order.
    steps: [Wash, Rinse, Dry]
    wrong: [{order: [3, 1, 2]}, {order: [2, 1, 3]}]
    because: So it is.
    source: common practice
    standing: school
  - id: moment
    kind: stop_or_go
    stem: What now?
    row: an-s-begins
    vary: {processing.curl: weak, processing.looked_first: yes}
  - id: gaps
    kind: ask_next
    stem: Which first?
    vary: {scalp: [unknown, healthy], history.known: unknown, hair.ends: unknown}
  - id: place
    kind: locate
    stem: Where?
    decision: roll_direction
    zone: any
    wanted: [forward, up]
    vary: {hair.growth: [none, up]}
"""


def test_items_keep_all_that_is_written(rulebook):
    """Orders count from 1 in the file and from 0 in the program; a plan may make any of them wrong."""
    (node,), problems = read_text(DECK.encode(), shown="deck.yaml")
    _, _, items = read_deck(node, rulebook, problems, beliefs={"lift-is-free": None})
    assert problems == []
    planned, written, moment, gaps, place = items
    assert (planned.decision, planned.steps) == ("steps", ("neutralise", "rinse", "blot"))
    assert [(one.order, one.misconception) for one in planned.wrong] == [
        ((0, 1, 2), "lift-is-free"),
        ((2, 1, 0), ""),
    ]
    assert planned.vary == {"history.known": ("yes", "no")}
    assert (written.decision, written.because, written.standing) == ("", "So it is.", "school")
    assert (moment.decision, moment.row) == ("processing.next", "an-s-begins")
    assert moment.vary == {"processing.curl": ("weak",), "processing.looked_first": ("yes",)}
    assert gaps.vary["scalp"] == ("unknown", "healthy")
    assert (place.decision, place.wanted, place.zones) == ("roll_direction", ("forward", "up"), ZONE_NAMES)
