"""The outline that gives the mock exam its time, against the published bulletin.

Source: National-Interstate Council of State Boards of Cosmetology, National Cosmetology Theory Examination,
candidate information bulletin: 110 items in 90 minutes; scientific concepts 35 %, hair care 45 %, skin 10 %,
nails 10 %; four options, one right. 49 seconds an item is computed of it.
"""

import pytest

from drill.study.exam_paper import OPTIONS


def test_outline_is_the_published_one(book):
    """Items, minutes and shares; it names the source."""
    outline = book.blueprint.outline
    assert (outline.items, outline.minutes, outline.source) == (110, 90.0, "X1")
    assert list(outline.shares.values()) == [0.35, 0.45, 0.10, 0.10]
    assert sum(outline.shares.values()) == pytest.approx(1)
    assert outline.seconds_an_item == 49
    assert OPTIONS == 4


def test_weights_say_that_they_are_our_own(book):
    """Perming has no published share."""
    assert "ours" in book.blueprint.because
    assert book.blueprint.weights.keys() <= book.topics.keys()
