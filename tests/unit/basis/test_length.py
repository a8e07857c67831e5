"""Lengths from text and back."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.basis.length import Length, length_from_text, length_text, number_from_text, number_text


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("20 cm", 200),
        ("9.5 mm", Fraction(19, 2)),
        ("9.5mm", Fraction(19, 2)),
        ("3/8 in", Fraction(381, 40)),
        ("1 1/2 in", Fraction(381, 10)),
        ("  12 in ", Fraction(1524, 5)),
        ("0 mm", 0),
    ],
)
def test_length_is_read_exactly(text, mm):
    """Fractions of an inch stay fractions."""
    assert length_from_text(text) == Length(Fraction(mm))


@pytest.mark.parametrize(
    "text", ["20", "", "cm", "long", "-3 mm", "1/0 in", "1e3 mm", "20 yd", "1,5 cm", "nan mm"]
)
def test_what_is_no_length_gives_none(text):
    """A bare number is never a length."""
    assert length_from_text(text) is None


@pytest.mark.parametrize("text", ["1/0", "1 2", "1//2", ".5", "5.", "½"])
def test_what_is_no_number_gives_none(text):
    """Only plain and mixed numbers are read."""
    assert number_from_text(text) is None


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (Fraction(19, 2), "9.5 mm"),
        (Fraction(0), "0 mm"),
        (Fraction(381, 40), "9.5 mm"),
        (Fraction(99), "99 mm"),
        (Fraction(100), "10 cm"),
        (Fraction(215), "21.5 cm"),
    ],
)
def test_length_is_written_in_the_unit_that_is_read_easily(mm, text):
    """Millimetres below 10 cm, centimetres from there on."""
    assert length_text(Length(mm)) == text


@pytest.mark.parametrize(
    ("number", "digits", "text"), [(12.0, 1, "12"), (0.375, 2, "0.38"), (10, 0, "10"), (100.04, 1, "100")]
)
def test_number_has_no_trailing_zeros(number, digits, text):
    """And none of its own zeros is lost."""
    assert number_text(number, digits=digits) == text


@settings(deadline=None)
@given(whole=st.integers(0, 99), upper=st.integers(0, 99), lower=st.integers(1, 64))
def test_inches_come_back_exactly(whole, upper, lower):
    """Inch to millimetre to inch loses nothing."""
    length = length_from_text(f"{whole} {upper}/{lower} in")
    assert length.inches == whole + Fraction(upper, lower)


@settings(deadline=None)
@given(tenths=st.integers(0, 999))
def test_written_lengths_below_10_cm_are_read_back_the_same(tenths):
    """Tenths of a millimetre survive."""
    length = Length(Fraction(tenths, 10))
    assert length_from_text(length_text(length)) == length
