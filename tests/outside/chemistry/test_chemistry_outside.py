"""Formulas of the bottle against published figures; see SOURCE.md."""

import csv
from pathlib import Path

import pytest

from drill.service.chemistry import (
    AMMONIUM_PKA,
    CYSTEAMINE_PKA,
    THIOGLYCOLIC_PKA,
    acid_from_percent,
    free_base_share,
    lotion_limits,
    oxygen_volumes,
    percent_from_acid,
    rate_from_half_life,
    share_left_after,
    thiolate_share,
)

SHARES = [
    (float(row["ph"]), float(row["share_percent"]) / 100)
    for row in csv.DictReader(Path(__file__).with_name("shares.csv").read_text(encoding="utf-8").splitlines())
]


@pytest.mark.parametrize(("ph", "share"), SHARES)
def test_thiolate_share_is_the_one_computed_by_hand(ph, share):
    """Within 1 % of it."""
    assert thiolate_share(ph=ph) == pytest.approx(share, rel=0.01)


def test_the_encyclopaedias_constant_is_not_the_one_in_use():
    """With 9.3 the share at pH 9.2 would be 44 % and not 6 %."""
    assert THIOGLYCOLIC_PKA == 10.4
    assert thiolate_share(ph=9.2, pka=9.3) == pytest.approx(0.44, abs=0.005)


def test_cysteamine_works_near_neutral():
    """At pH 8.0: 38 %, 96 times the share of thioglycolic acid."""
    share = thiolate_share(ph=8.0, pka=CYSTEAMINE_PKA)
    assert share == pytest.approx(0.38, rel=0.01)
    assert share / thiolate_share(ph=8.0) == pytest.approx(96, rel=0.01)


def test_half_of_the_ammonia_is_free_at_ph_9_2():
    """47 %: much smell at a pH at which 6 % of the thiol is active."""
    assert AMMONIUM_PKA == 9.245
    assert free_base_share(ph=9.2) == pytest.approx(0.47, rel=0.01)


def test_share_does_not_give_the_rate():
    """From pH 8.0 to 9.8 the share rises fifty-fold, the bonds opened only from 0.34 to 0.48."""
    rise = thiolate_share(ph=9.8) / thiolate_share(ph=8.0)
    assert rise == pytest.approx(50, rel=0.02)
    assert rise > 30 * (0.48 / 0.34)


def test_half_life_of_123_s_leaves_3_4_percent_after_ten_minutes():
    """0.338 a minute, within 0.5 %."""
    rate = rate_from_half_life(half_life_min=123 / 60)
    assert rate == pytest.approx(0.338, rel=5e-3)
    assert share_left_after(minutes=10, rate_per_min=rate) == pytest.approx(0.034, abs=0.0005)


@pytest.mark.parametrize(("rate", "half_life_min"), [(0.13, 5.33), (0.036, 19.3)])
def test_rates_by_salt_give_the_half_lives(rate, half_life_min):
    """Within 1 %."""
    assert share_left_after(minutes=half_life_min, rate_per_min=rate) == pytest.approx(0.5, rel=0.01)
    assert rate_from_half_life(half_life_min=half_life_min) == pytest.approx(rate, rel=0.01)


def test_ammonium_is_3_6_times_as_fast_as_sodium():
    """From the two half-lives, within 1 %."""
    ammonium, sodium = (rate_from_half_life(half_life_min=one) for one in (5.33, 19.3))
    assert ammonium / sodium == pytest.approx(3.6, rel=0.01)


@pytest.mark.parametrize(
    ("acid", "compound", "percent"),
    [
        (8, "ammonium_thioglycolate", 9.48),
        (11, "ammonium_thioglycolate", 13.03),
        (8, "glyceryl_thioglycolate", 14.43),
        (8, "thioglycolic_acid", 8),
    ],
)
def test_salt_and_ester_count_as_the_acid(acid, compound, percent):
    """Within 0.1 %, both ways."""
    assert percent_from_acid(acid, compound=compound) == pytest.approx(percent, rel=1e-3)
    assert acid_from_percent(percent, compound=compound) == pytest.approx(acid, rel=1e-3)


@pytest.mark.parametrize(("percent", "volumes"), [(3, 10), (6, 20), (12, 40)])
def test_peroxide_gives_the_volumes_of_the_trade(percent, volumes):
    """Within 2 %."""
    assert oxygen_volumes(percent) == pytest.approx(volumes, rel=0.02)


@pytest.mark.parametrize("salt", [7, 9])
def test_usual_lotions_keep_within_the_general_limit(salt):
    """7 to 9 % of the salt are 5.9 to 7.6 % of the acid; the EU allows 8 %."""
    acid = acid_from_percent(salt, compound="ammonium_thioglycolate")
    assert 5.85 <= acid <= 7.65
    assert acid <= lotion_limits("EU", "thioglycolate")[0].most_percent
