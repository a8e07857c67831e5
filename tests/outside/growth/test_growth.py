"""Growth against published rates; see SOURCE.md."""

import csv
from pathlib import Path

import pytest

from drill.service.geometry import base_offset_mm, share_left, weeks_of_growth

ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["group"])
def test_30_days_grow_the_published_length(row):
    """Within 0.5 %: what grew in 30 days takes 30 days to grow."""
    days = 7 * weeks_of_growth(
        gap_mm=10 * float(row["cm_per_30_days"]), growth_um_per_day=float(row["growth_um_per_day"])
    )
    assert days == pytest.approx(30, rel=5e-3)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["group"])
def test_a_month_grows_out_what_is_published_worldwide(row):
    """Between 0.8 and 1.3 cm of 30 cm are new after 30 days."""
    left = share_left(length_mm=300, growth_um_per_day=float(row["growth_um_per_day"]), weeks=30 / 7)
    assert 0.8 <= 30 * (1 - left) <= 1.3


@pytest.mark.parametrize("wound_mm", [12, 12.5, 13])
@pytest.mark.parametrize("rate", [370, 410])
def test_off_base_with_a_12_to_13_mm_tool_looks_like_four_to_five_weeks(wound_mm, rate):
    """At 0.37 to 0.41 mm a day; common practice. The slowest published rate gives more."""
    gap_mm = base_offset_mm("off_base", tool_mm=wound_mm)
    assert 4 <= weeks_of_growth(gap_mm=gap_mm, growth_um_per_day=rate) <= 5.05
    assert weeks_of_growth(gap_mm=gap_mm, growth_um_per_day=280) > 6


def test_half_off_base_looks_like_half_of_that():
    """Half the gap, half the weeks."""
    half, whole = (
        weeks_of_growth(gap_mm=base_offset_mm(base, tool_mm=12.5), growth_um_per_day=390)
        for base in ("half_off_base", "off_base")
    )
    assert whole == pytest.approx(2 * half)
