"""Quantities with their unit."""

import pytest

from drill.basis.quantity import HOW_TO_WRITE, PER_UNIT, quantity_from_text


@pytest.mark.parametrize(
    ("text", "unit", "number"),
    [
        ("20 cm", "mm", 200.0),
        ("3/8 in", "mm", 9.525),
        ("6 weeks", "weeks", 6.0),
        ("1 week", "weeks", 1.0),
        ("21 days", "weeks", 3.0),
        ("2 years", "months", 24.0),
        ("1 1/2 hours", "min", 90.0),
        ("2 h", "min", 120.0),
        ("2.5 turns", "turns", 2.5),
        (" 0.5 ", "ratio", 0.5),
        ("280 um/day", "um/day", 280.0),
        ("12", "um/day", 12.0),
    ],
)
def test_a_quantity_is_read_into_its_unit(text, unit, number):
    """The unit written is turned into the unit wanted; a unit of no table is taken off."""
    assert quantity_from_text(text, unit) == number


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("20", "mm"),
        ("6", "weeks"),
        ("6 months", "weeks"),
        ("weeks", "weeks"),
        ("-1 weeks", "weeks"),
        ("6 Weeks", "weeks"),
        ("0.5 mm", "ratio"),
        ("many", "um/day"),
        ("", "min"),
    ],
)
def test_what_is_no_such_quantity_gives_none(text, unit):
    """A missing or foreign unit is never guessed."""
    assert quantity_from_text(text, unit) is None


def test_a_bare_number_passes_only_where_it_may_and_never_for_a_length():
    """`appointment: 90` is minutes; `20` is no length."""
    assert quantity_from_text("90", "min", bare=True) == 90
    assert quantity_from_text("90", "min") is None
    assert quantity_from_text("20", "mm", bare=True) is None
    assert quantity_from_text("90 mm", "min", bare=True) is None


def test_how_to_write_shows_what_is_read():
    """Every example in the words for people is a quantity of that unit."""
    assert set(HOW_TO_WRITE) == {"mm", *PER_UNIT}
    for unit, words in HOW_TO_WRITE.items():
        examples = words.rpartition(" such as ")[2] if " such as " in words else words
        shown = examples.replace(" or ", ", ").split(", ")
        assert shown
        for example in shown:
            assert quantity_from_text(example, unit) is not None, (unit, example)
