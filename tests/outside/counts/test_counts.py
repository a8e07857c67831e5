"""Tools on a full head against common practice; see SOURCE.md."""

import csv
from itertools import pairwise
from pathlib import Path

import pytest

from drill.service.consultation import Consultation
from drill.service.geometry import wound_rim_mm
from drill.service.kit import BUILT_IN_KIT, nearest_tool, tools_of_shape
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES, ZONES, mirror, tools_in_zone, zone_named

ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))
LENGTHS_MM = (150, 160, 175, 190, 200)
HAIR = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5}
BY_SECTION = {
    "top": (9, 11),
    "left_side": (6, 8),
    "right_side": (6, 8),
    "back_left": (7, 9),
    "back_center": (8, 10),
    "back_right": (7, 9),
    "nape_left": (3, 5),
    "nape_center": (4, 6),
    "nape_right": (3, 5),
}
MIDLINE = ("top", "back_center", "nape_center")


def tools_by_zone(tool, *, length_mm, depth_factor=1.0):
    rim = wound_rim_mm(length_mm=length_mm, rim_mm=tool.rim_diameter_mm, depth_factor=depth_factor, **HAIR)
    return {
        zone: tools_in_zone(
            zone,
            tool_waist_mm=tool.diameter_mm,
            tool_rim_mm=tool.rim_diameter_mm,
            wound_rim_mm=rim,
            depth_factor=depth_factor,
        )
        for zone in ZONE_NAMES
    }


def concave(waist_mm):
    tool = nearest_tool(BUILT_IN_KIT, "concave", waist_mm)
    assert abs(tool.diameter_mm - waist_mm) < 0.5
    return tool


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["waist_mm"])
@pytest.mark.parametrize("length_mm", LENGTHS_MM)
def test_full_head_takes_what_a_stylist_counts(row, length_mm):
    """For each size of the everyday tool."""
    tools = tools_by_zone(concave(float(row["waist_mm"])), length_mm=length_mm)
    assert int(row["fewest"]) <= sum(tools.values()) <= int(row["most"])


@pytest.mark.parametrize("waist_mm", [9.5, 11])
@pytest.mark.parametrize("length_mm", LENGTHS_MM)
def test_each_section_takes_its_own_count_of_medium_tools(waist_mm, length_mm):
    """And the midline from front to nape."""
    tools = tools_by_zone(concave(waist_mm), length_mm=length_mm)
    outside = {
        zone: count
        for zone, count in tools.items()
        if not BY_SECTION[zone][0] <= count <= BY_SECTION[zone][1]
    }
    assert not outside
    assert 20 <= sum(tools[zone] for zone in MIDLINE) <= 27


@pytest.mark.parametrize("length_mm", LENGTHS_MM)
def test_left_is_as_right_and_the_total_falls_with_the_diameter(length_mm):
    """For the whole kit, thinnest to thickest."""
    heads = [tools_by_zone(tool, length_mm=length_mm) for tool in tools_of_shape(BUILT_IN_KIT, "concave")]
    assert all(head[zone] == head[mirror(zone)] for head in heads for zone in ZONE_NAMES)
    assert all(sum(more.values()) > sum(fewer.values()) for more, fewer in pairwise(heads))


@pytest.mark.parametrize("waist_mm", [6.4, 9.5, 12.7, 19])
def test_one_and_a_half_depth_takes_about_seven_tenths(waist_mm):
    """Somewhat fewer even, for the layers grow with the base."""
    single, deeper = (
        sum(tools_by_zone(concave(waist_mm), length_mm=175, depth_factor=factor).values())
        for factor in (1.0, 1.5)
    )
    assert deeper / single == pytest.approx(0.7, abs=0.12)


def test_by_the_waist_alone_a_head_is_overcounted():
    """83 for 58 at 9.5 mm, give or take a tenth: a base is as deep as the wound rim."""
    by_rim = sum(tools_by_zone(concave(9.5), length_mm=175).values())
    by_waist = sum(
        tools_in_zone(zone, tool_waist_mm=9.5, tool_rim_mm=9.5, wound_rim_mm=9.5) for zone in ZONE_NAMES
    )
    assert by_rim == pytest.approx(58, rel=0.1)
    assert by_waist == pytest.approx(83, rel=0.1)


@pytest.mark.parametrize(("mean_mm", "sd_mm"), [(374.1, 16.2), (361.9, 16.6)])
def test_model_head_fits_the_published_arc_from_nasion_to_inion(mean_mm, sd_mm):
    """Midline, forehead 60 mm, less 20 mm below the inion: within two standard deviations."""
    midline_mm = sum(zone_named(zone).length_mm for zone in MIDLINE)
    assert abs(midline_mm + 60 - 20 - mean_mm) < 2 * sd_mm


@pytest.mark.parametrize(("mean_mm", "sd_mm"), [(372.1, 16.8), (362.4, 14.2)])
def test_model_head_fits_the_published_arc_from_ear_to_ear(mean_mm, sd_mm):
    """Both sides, the width of the top, and 50 mm above each ear: within two standard deviations."""
    arc_mm = 2 * zone_named("left_side").length_mm + zone_named("top").width_mm
    assert abs(arc_mm + 2 * 50 - mean_mm) < 2 * sd_mm


def test_widths_round_the_head_leave_a_face():
    """Two sides and three back panels: the 20 to 23 cm left of the circumference are temples and forehead."""
    ring_mm = sum(zone.width_mm for zone in ZONES if zone.view in ("left", "right") or "back" in zone.name)
    assert 190 < 559.7 - ring_mm < 586.9 - ring_mm < 230


@pytest.mark.parametrize("length_mm", LENGTHS_MM)
@pytest.mark.parametrize("curl_mm", [11.5, 12.0, 13.5])
def test_planned_head_has_the_counts_of_each_section(rulebook, curl_mm, length_mm):
    """What a plan says, and not only what a section could take: medium tools, left as right, none lacking."""
    head = {
        "service": "perm", "wish.curl": curl_mm, "scalp": "healthy", "history.known": "yes",
        "history.reaction": "no", "history.relaxer": "none", "history.metallic_dye": "no",
        "history.color": "none", "health.treatment": "none", "hair.elasticity": "good",
    }  # fmt: skip
    zones = {zone: {"hair.length": float(length_mm), "hair.porosity": "average"} for zone in ZONE_NAMES}
    plan = plan_service(rulebook, Consultation(head=head, zones=zones))
    counts = {name: sum(share.count for share in zone.tools) for name, zone in plan.zones.items()}
    assert {zone.diameter_mm for name, zone in plan.zones.items() if "nape" not in name} <= {9.5, 11.1}
    # A thinner tool at the nape takes no fewer; one more than the range of medium tools is its due.
    for zone, (fewest, most) in BY_SECTION.items():
        assert fewest <= counts[zone] <= most + ("nape" in zone), (zone, counts)
        assert counts[zone] == counts[mirror(zone)]
    assert 20 <= sum(counts[zone] for zone in MIDLINE) <= 27
    assert plan.totals.tools == sum(counts.values())
