"""Diameter of a strand against published cross-sections; see SOURCE.md."""

import csv
from pathlib import Path

import pytest

from drill.service.geometry import layer_thickness_mm, strand_diameter_mm_from_area

ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["group"])
def test_equal_area_diameter_is_the_published_one(row):
    """Within 0.1 micrometre, and inside the ranges that others measured."""
    diameter_um = 1000 * strand_diameter_mm_from_area(float(row["area_um2"]))
    assert diameter_um == pytest.approx(float(row["equal_area_diameter_um"]), abs=0.1)
    assert 40 <= diameter_um <= 110


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["group"])
def test_layer_of_round_hair_holds_the_published_area(row):
    """Way there and back: a layer packed solid is the area of the hairs of each millimetre of width."""
    area_um2 = float(row["area_um2"])
    layer_mm = layer_thickness_mm(
        strand_mm=strand_diameter_mm_from_area(area_um2), density_per_mm2=2, base_depth_mm=10, packing=1
    )
    assert layer_mm == pytest.approx(2 * 10 * area_um2 / 1e6)
