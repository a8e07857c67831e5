"""Formulas of the bottle at their bounds."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.service import chemistry

PERCENT = st.floats(min_value=0, max_value=100)


@given(percent=PERCENT, compound=st.sampled_from(("ammonium_thioglycolate", "glyceryl_thioglycolate")))
def test_conversion_there_and_back_is_the_same(percent, compound):
    """And a salt or ester never counts as more acid than it weighs."""
    acid = chemistry.acid_from_percent(percent, compound=compound)
    assert acid <= percent
    assert chemistry.percent_from_acid(acid, compound=compound) == pytest.approx(percent)


@given(ph=st.floats(min_value=0, max_value=13.9))
def test_share_rises_with_the_ph(ph):
    """From 0 to 1, a half at the pKa."""
    assert 0 < chemistry.thiolate_share(ph=ph) < chemistry.thiolate_share(ph=ph + 0.1) < 1
    assert chemistry.thiolate_share(ph=ph, pka=ph) == 0.5


@given(minutes=st.floats(min_value=0, max_value=60), rate=st.floats(min_value=0.01, max_value=2))
def test_first_order_course_falls_from_one(minutes, rate):
    """Half is left after a half-life."""
    assert 0 <= chemistry.share_left_after(minutes=minutes, rate_per_min=rate) <= 1
    half_life = math.log(2) / rate
    assert chemistry.share_left_after(minutes=half_life, rate_per_min=rate) == pytest.approx(0.5)
    assert chemistry.rate_from_half_life(half_life_min=half_life) == pytest.approx(rate)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: chemistry.thiolate_share(ph=14.1), "ph must be from 0 to 14, got 14.1"),
        (lambda: chemistry.free_base_share(ph=-0.1), "ph must be from 0 to 14, got -0.1"),
        (lambda: chemistry.oxygen_volumes(101), "percent must be from 0 to 100, got 101"),
        (lambda: chemistry.acid_from_percent(-1, compound="x"), "percent must be from 0 to 100, got -1"),
        (
            lambda: chemistry.acid_from_percent(8, compound="ammonia"),
            "compound must be one of .*, glyceryl_thioglycolate, got ammonia",
        ),
        (
            lambda: chemistry.percent_from_acid(math.nan, compound="x"),
            "percent must be from 0 to 100, got nan",
        ),
        (lambda: chemistry.rate_from_half_life(half_life_min=0), "half_life_min must be more than 0, got 0"),
        (lambda: chemistry.share_left_after(minutes=-1, rate_per_min=1), "minutes must be 0 or more, got -1"),
        (lambda: chemistry.share_left_after(minutes=1, rate_per_min=0), "rate_per_min must be more than 0"),
        (lambda: chemistry.bonds_closed_share(minutes=2.9), "minutes must be from 3 to 15"),
        (lambda: chemistry.bonds_closed_share(minutes=15.1), "minutes must be from 3 to 15"),
        (
            lambda: chemistry.set_from_stiffness(reduced=2, original=1),
            "reduced must not be more than original",
        ),
        (lambda: chemistry.set_from_stiffness(reduced=0, original=0), "original must be more than 0, got 0"),
    ],
)
def test_what_cannot_be_is_refused(call, message):
    """With the range."""
    with pytest.raises(ValueError, match=message):
        call()
