"""Lengths against an independent library of units; see SOURCE.md."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.basis.length import Length, length_from_text

UNITS = pint.UnitRegistry(non_int_type=Fraction)
PINT_NAMES = {"mm": "millimeter", "cm": "centimeter", "in": "inch"}


@settings(deadline=None)
@given(upper=st.integers(0, 999), lower=st.integers(1, 64), unit=st.sampled_from(sorted(PINT_NAMES)))
def test_text_to_millimetres_agrees_exactly(upper, lower, unit):
    """Fraction for fraction, no rounding."""
    theirs = UNITS.Quantity(Fraction(upper, lower), PINT_NAMES[unit]).to("millimeter").magnitude
    assert length_from_text(f"{upper}/{lower} {unit}") == Length(Fraction(theirs))


@settings(deadline=None)
@given(hundredths=st.integers(0, 100_000))
def test_millimetres_to_inches_agree_exactly(hundredths):
    """The way back."""
    mm = Fraction(hundredths, 100)
    theirs = UNITS.Quantity(mm, "millimeter").to("inch").magnitude
    assert Length(mm).inches == Fraction(theirs)


@pytest.mark.parametrize(
    ("text", "mm"), [("3/16 in", "4.7625"), ("3/8 in", "9.525"), ("1/2 in", "12.7"), ("1 in", "25.4")]
)
def test_sizes_of_tools_in_inches_are_what_they_are_in_millimetres(text, mm):
    """The sizes a drawer is labelled with."""
    assert length_from_text(text).mm == Fraction(mm)
    theirs = UNITS.Quantity(Fraction(text.removesuffix(" in")), "inch").to("millimeter").magnitude
    assert Fraction(theirs) == Fraction(mm)
