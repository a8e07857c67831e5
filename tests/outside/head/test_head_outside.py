"""The model head against published tapes and whorls; see SOURCE.md."""

import csv
import math
from itertools import pairwise
from pathlib import Path

import pytest
from scipy.special import ellipe

from drill.service.geometry import wound_rim_mm
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD
from drill.service.head_surface import ellipse_round_mm, growth_at, head_axes, point_on_head, whorl_on_head
from drill.service.kit import BUILT_IN_KIT, nearest_tool
from drill.service.zones import ZONE_NAMES, tools_in_zone

FOLDER = Path(__file__).parent
HAIR = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5}


def rows(name):
    return list(csv.DictReader((FOLDER / name).read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", rows("table.csv"), ids=lambda row: " ".join(list(row.values())[:3]))
def test_tape_measures_lie_within_two_standard_deviations_of_published_ones(row):
    """Of men and of women."""
    measured = getattr(LIVE_HEAD, f"{row['measure']}_mm")
    assert abs(measured - 10 * float(row["mean_cm"])) <= 20 * float(row["sd_cm"])


@pytest.mark.parametrize("head", [LIVE_HEAD, PRACTICE_HEAD], ids=lambda head: head.name)
def test_half_egg_has_the_tapes_that_it_was_made_from(head):
    """Round the head, and from nasion to inion, by the elliptic integral."""
    axes = head_axes(head)

    def exact(a, b):
        long, short = max(a, b), min(a, b)
        return 4 * long * ellipe(1 - (short / long) ** 2)

    assert exact(axes.length_mm, axes.breadth_mm) == pytest.approx(head.circumference_mm, rel=1e-6)
    assert exact(axes.length_mm, axes.height_mm) / 2 == pytest.approx(head.nasion_inion_mm, rel=1e-6)
    assert ellipse_round_mm(3, 5) == pytest.approx(exact(3, 5), rel=1e-6)


def test_a_way_along_the_midline_is_as_long_as_the_tape_says():
    """Walked in small steps from nasion over the vertex to the inion."""
    stops = [point_on_head(from_nasion_mm=361.9 * step / 400, from_midline_mm=0) for step in range(401)]
    assert sum(math.dist(a, b) for a, b in pairwise(stops)) == pytest.approx(361.9, rel=1e-3)
    assert stops[-1][1:] == pytest.approx((-head_axes(LIVE_HEAD).length_mm, 0), abs=0.5)


def test_whorl_turns_the_way_that_most_heads_do():
    """Clockwise in at least half of the heads of every place; from above, hair left of it grows forward."""
    assert all(float(row["clockwise_of_100"]) > 50 for row in rows("whorl.csv"))
    assert LIVE_HEAD.whorl == "clockwise"
    x, y, z = whorl_on_head()
    assert growth_at((x - 6, y, z))[1] > 0 > growth_at((x + 6, y, z))[1]
    assert growth_at((x, y + 6, z))[0] > 0 > growth_at((x, y - 6, z))[0]


@pytest.mark.parametrize("waist_mm", [6.4, 7.9, 9.5, 11.1, 12.7, 15.9])
@pytest.mark.parametrize("length_mm", [150, 175, 200])
def test_practice_head_takes_five_to_fifteen_tools_in_a_hundred_fewer(waist_mm, length_mm):
    """Of larger tools, one alone is more than four in a hundred."""
    tool = nearest_tool(BUILT_IN_KIT, "concave", waist_mm)
    rim = wound_rim_mm(length_mm=length_mm, rim_mm=tool.rim_diameter_mm, **HAIR)
    live, practice = (
        sum(
            tools_in_zone(
                zone,
                tool_waist_mm=tool.diameter_mm,
                tool_rim_mm=tool.rim_diameter_mm,
                wound_rim_mm=rim,
                head=head,
            )
            for zone in ZONE_NAMES
        )
        for head in (LIVE_HEAD, PRACTICE_HEAD)
    )
    assert 0.85 <= practice / live <= 0.95
