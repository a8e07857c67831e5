"""Bonds closed by a neutraliser against published figures; see SOURCE.md."""

import csv
import math
from itertools import pairwise
from pathlib import Path

import pytest
from scipy.stats import linregress

from drill.service.chemistry import bonds_closed_share

UNREDUCED_PERCENT = 15.6
ROWS = [
    (float(row["minutes"]), float(row["cystine_percent"]) / UNREDUCED_PERCENT)
    for row in csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines())
]


@pytest.mark.parametrize(("minutes", "share"), ROWS)
def test_course_runs_through_the_published_points(minutes, share):
    """Within 0.025 everywhere, within 0.01 at the end."""
    assert bonds_closed_share(minutes=minutes) == pytest.approx(share, abs=0.01 if minutes == 15 else 0.025)


def test_fifteen_minutes_close_about_85_percent():
    """Which is also what the paper calls usual in the shop."""
    assert bonds_closed_share(minutes=15) == pytest.approx(0.85, abs=0.01)


def test_course_rises_ever_more_slowly_and_is_never_whole():
    """Each minute adds less than the one before."""
    shares = [bonds_closed_share(minutes=minute) for minute in range(3, 16)]
    gains = [later - sooner for sooner, later in pairwise(shares)]
    assert all(gain > 0 for gain in gains)
    assert gains == sorted(gains, reverse=True)
    assert shares[-1] < 1


def test_line_is_the_least_squares_one():
    """On the logarithm of the minutes."""
    fit = linregress([math.log(minutes) for minutes, _ in ROWS], [share for _, share in ROWS])
    for minutes in (3, 7, 15):
        expected = fit.intercept + fit.slope * math.log(minutes)
        assert bonds_closed_share(minutes=minutes) == pytest.approx(expected, abs=1e-4)
