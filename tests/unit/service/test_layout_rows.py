"""Tools laid out row by row, and counted."""

import math
from itertools import pairwise

import pytest

from drill.service.geometry import wound_rim_mm
from drill.service.head_model import PRACTICE_HEAD, zone_size
from drill.service.kit import BUILT_IN_KIT, tools_of_shape
from drill.service.layout_rows import LAYOUTS, Base, lay_out, lay_out_count, tools_laid
from drill.service.zones import ZONE_NAMES, mirror, tools_in_zone

HAIR = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5, "length_mm": 175}
ROW = {"tool_mm": 9.5, "wound_rim_mm": 13.8}


def rows_of(bases):
    rows = {}
    for base in bases:
        rows.setdefault(base.row, []).append(base)
    return list(rows.values())


def whole_head(layout, tool, head=None):
    rim = wound_rim_mm(rim_mm=tool.rim_diameter_mm, **HAIR)
    given = {} if head is None else {"head": head}
    return {
        zone: tools_in_zone(
            zone,
            tool_waist_mm=tool.diameter_mm,
            tool_rim_mm=tool.rim_diameter_mm,
            wound_rim_mm=rim,
            layout=layout,
            **given,
        )
        for zone in ZONE_NAMES
    }


@pytest.mark.parametrize("layout", ["straight_set", "bricklay", "weave", "spiral_rows"])
@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_bases_cover_the_section_exactly(layout, zone):
    """The areas add up, and each base keeps inside."""
    size = zone_size(zone)
    bases = lay_out(zone, layout, **ROW)
    area = sum(base.width_mm * base.depth_mm for base in bases)
    assert area == pytest.approx(size.length_mm * size.width_mm)
    for base in bases:
        upright = base.angle_deg == 90
        half_x, half_y = (base.depth_mm, base.width_mm) if upright else (base.width_mm, base.depth_mm)
        x, y = base.center_mm
        assert half_x / 2 - 1e-9 <= x <= size.width_mm - half_x / 2 + 1e-9
        assert half_y / 2 - 1e-9 <= y <= size.length_mm - half_y / 2 + 1e-9


def test_straight_set_is_one_tool_wide_and_as_deep_as_the_wound_rim():
    """To the nearest whole base: the top's 138 mm take ten of 13.8."""
    bases = lay_out("top", "straight_set", **ROW)
    assert len(bases) == tools_laid(bases) == 10
    assert {round(base.depth_mm, 6) for base in bases} == {13.8}
    assert {round(base.width_mm, 6) for base in bases} == {72}
    assert [base.center_mm[1] for base in bases] == pytest.approx([6.9 + 13.8 * row for row in range(10)])
    assert {(base.zone, base.column, base.angle_deg, base.tool_mm) for base in bases} == {("top", 0, 0, 9.5)}


def test_short_tools_lie_end_to_end():
    """Two of 40 mm across a panel of 72, one of 76."""
    assert len(lay_out("top", "straight_set", **ROW, tool_length_mm=40)) == 20
    assert len(lay_out("top", "straight_set", **ROW, tool_length_mm=76)) == 10
    assert len(lay_out("top", "bricklay", **ROW, tool_length_mm=40)) == 25


def test_bricklay_sets_every_second_row_off_by_half_a_tool():
    """A tool lies over each gap of the row before, half bases at the edges."""
    for row, (one, other) in enumerate(
        pairwise(rows_of(lay_out("top", "bricklay", **ROW, tool_length_mm=30)))
    ):
        cuts = [
            {round(base.center_mm[0] + sign * base.width_mm / 2, 6) for base in bases for sign in (-1, 1)}
            for bases in (one, other)
        ]
        assert cuts[0] & cuts[1] == {0, 72}
        off = other if row % 2 == 0 else one
        assert off[0].width_mm == off[-1].width_mm == pytest.approx(off[1].width_mm / 2)


def test_tool_over_a_parting_is_shared_and_counted_once():
    """A row set off between two partings has two halves, one tool; at the hairline a half base is alone."""
    top, side = lay_out("top", "bricklay", **ROW), lay_out("left_side", "bricklay", **ROW)
    assert [sum(base.share for base in row) for row in rows_of(top)] == [1] * 10
    assert [sum(base.share for base in row) for row in rows_of(side)] == [1, 1.5, 1, 1.5, 1, 1.5, 1]
    assert [base.share for base in rows_of(side)[1]] == [1, 0.5]
    assert [base.share for base in rows_of(lay_out("nape_right", "bricklay", **ROW))[1]] == [0.5, 1]
    assert (tools_laid(top), tools_laid(side)) == (10, 9)


def test_weave_is_a_straight_set_with_woven_partings():
    """As many tools, in the same places."""
    straight, woven = (lay_out("back_left", layout, **ROW) for layout in ("straight_set", "weave"))
    assert [base.center_mm for base in straight] == [base.center_mm for base in woven]
    assert all(base.woven for base in woven)
    assert not any(base.woven for base in straight)


@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_curvature_fans_and_bends_evenly(zone):
    """Angles rise from row to row through 0, each tool square to the bow of its panel."""
    bases = lay_out(zone, "curvature", **ROW)
    sign = -1 if zone in ("back_right", "nape_right") else 1
    angles = [sign * base.angle_deg for base in bases]
    assert angles == sorted(angles)
    assert sum(angles) == pytest.approx(0)
    assert angles[-1] > 1
    for one, other in pairwise(bases):
        assert math.dist(one.center_mm, other.center_mm) == pytest.approx(one.depth_mm, rel=0.01)


def test_right_and_left_curve_as_mirror_images():
    """Back and nape."""
    for left, right in (("back_left", "back_right"), ("nape_left", "nape_right")):
        width = zone_size(left).width_mm
        for one, other in zip(
            lay_out(left, "curvature", **ROW), lay_out(right, "curvature", **ROW), strict=True
        ):
            assert other.angle_deg == -one.angle_deg
            assert other.center_mm == pytest.approx((width - one.center_mm[0], one.center_mm[1]))


def test_spiral_rows_go_from_the_nape_up_on_upright_bases():
    """The first row is the lowest; the second is set off by half a base."""
    first, second = rows_of(lay_out("back_center", "spiral_rows", **ROW))
    assert {base.angle_deg for base in (*first, *second)} == {90}
    assert first[0].center_mm[1] > second[0].center_mm[1]
    assert len(second) == len(first) + 1
    assert second[0].depth_mm == pytest.approx(first[0].depth_mm / 2)
    assert second[0].share == second[-1].share == 0.5


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("tool", tools_of_shape(BUILT_IN_KIT, "concave"), ids=lambda tool: tool.diameter_mm)
def test_left_is_as_right_on_every_layout(layout, tool):
    """Exactly, on either head."""
    for head in (None, PRACTICE_HEAD):
        tools = whole_head(layout, tool, head)
        assert all(tools[zone] == tools[mirror(zone)] > 0 for zone in ZONE_NAMES)


@pytest.mark.parametrize(
    ("layout", "least", "most"),
    [("weave", 1, 1), ("curvature", 1, 1.06), ("bricklay", 1.05, 1.15), ("spiral_rows", 1.1, 1.5)],
)
@pytest.mark.parametrize("waist_mm", [6.4, 7.9, 9.5, 11.1, 12.7, 14.3, 15.9, 19.0])
def test_other_layouts_take_as_many_tools_or_somewhat_more(layout, least, most, waist_mm):
    """Against a straight set; common practice."""
    tool = next(one for one in tools_of_shape(BUILT_IN_KIT, "concave") if one.diameter_mm == waist_mm)
    straight, other = (sum(whole_head(one, tool).values()) for one in ("straight_set", layout))
    assert least <= other / straight <= most


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_counts_fall_as_the_rim_grows(layout, zone):
    """And as the bases get deeper."""
    counts = [
        tools_laid(lay_out(zone, layout, tool_mm=9.5, wound_rim_mm=rim, depth_factor=factor))
        for factor in (1.0, 1.5, 2.0)
        for rim in range(12, 40)
    ]
    for factor in range(3):
        assert all(more >= fewer for more, fewer in pairwise(counts[28 * factor : 28 * factor + 28]))
    assert all(counts[at] >= counts[at + 28] >= counts[at + 56] for at in range(28))


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_counted_tools_are_laid_out_again_as_many(layout, zone):
    """What a plan has counted, a drawing can lay out."""
    for rim in range(10, 40):
        bases = lay_out(zone, layout, tool_mm=9.5, wound_rim_mm=rim)
        again = lay_out_count(zone, layout, count=tools_laid(bases), tool_mm=9.5)
        assert tools_laid(again) == tools_laid(bases)


def test_a_count_that_fills_no_rows_takes_the_next_larger():
    """Spiral rows of the top come in pairs."""
    assert tools_laid(lay_out_count("top", "spiral_rows", count=3, tool_mm=9.5)) == 4


def test_half_a_tool_left_over_is_one_more():
    """Nobody winds half a tool."""
    base = Base(
        zone="top",
        row=0,
        column=0,
        center_mm=(0, 0),
        width_mm=1,
        depth_mm=1,
        angle_deg=0,
        tool_mm=5,
        share=0.5,
    )
    assert tools_laid((base,)) == 1
    assert tools_laid((base, base)) == 1
    assert tools_laid((base, base, base)) == 2


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"tool_mm": 0}, "tool_mm must be"),
        ({"tool_mm": 14}, "tool_mm must be"),
        ({"depth_factor": 1.2}, "depth_factor must be 1, 1.5 or 2"),
        ({"tool_length_mm": 0}, "tool_length_mm must be"),
        ({"layout": "spirals"}, "layout must be one of straight_set"),
        ({"zone": "crown"}, "no zone is named crown"),
    ],
)
def test_what_is_no_layout_is_refused(wrong, told):
    """With the values that are allowed."""
    given = {"zone": "top", "layout": "straight_set", **ROW, **wrong}
    with pytest.raises(ValueError, match=told):
        lay_out(given.pop("zone"), given.pop("layout"), **given)


def test_no_tools_at_all_are_refused():
    """A section takes one at least."""
    with pytest.raises(ValueError, match="count must be 1 or more"):
        lay_out_count("top", "straight_set", count=0, tool_mm=9.5)
