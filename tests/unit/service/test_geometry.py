"""Turns, curls, gaps and growth."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.service import geometry as g

LENGTHS = st.floats(50, 600)
TOOLS = st.floats(4, 40)
LAYERS = st.floats(0, 0.6)


def test_layer_is_the_cross_section_of_the_base_spread_over_its_width():
    """Ten hairs of 0.01 mm2 on each mm2, packed to half, are 0.2 mm for each mm of depth."""
    strand_mm = 2 * math.sqrt(0.01 / math.pi)
    layer = g.layer_thickness_mm(strand_mm=strand_mm, density_per_mm2=10, base_depth_mm=2, packing=0.5)
    assert layer == pytest.approx(0.4)


def test_layer_grows_in_proportion_to_the_depth_of_the_base():
    """A base twice as deep makes layers twice as thick."""
    once, twice = (
        g.layer_thickness_mm(strand_mm=0.07, density_per_mm2=1.9, base_depth_mm=depth, packing=0.5)
        for depth in (12, 24)
    )
    assert twice == pytest.approx(2 * once)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"strand_mm": 0}, "strand_mm must be more than 0, got 0"),
        ({"density_per_mm2": -1}, "density_per_mm2 must be more than 0, got -1"),
        ({"base_depth_mm": math.nan}, "base_depth_mm must be more than 0, got nan"),
        ({"packing": 0}, "packing must be above 0 and at most 1, got 0"),
        ({"packing": 1.1}, "packing must be above 0 and at most 1, got 1.1"),
    ],
)
def test_layer_of_what_can_not_be_is_refused(change, message):
    """A fault of the program names the argument and the value."""
    right = {"strand_mm": 0.07, "density_per_mm2": 1.9, "base_depth_mm": 12, "packing": 0.5}
    with pytest.raises(ValueError, match=message):
        g.layer_thickness_mm(**right | change)


def test_turns_without_layers_are_the_length_over_the_circumference():
    """A layer of nothing is the limit, not a division by nothing."""
    turns = g.croquignole_turns(length_mm=100, tool_mm=6, layer_mm=0)
    assert turns == pytest.approx(100 / (6 * math.pi))
    near = g.croquignole_turns(length_mm=100, tool_mm=6, layer_mm=1e-9)
    assert near == pytest.approx(turns, rel=1e-8)


@settings(deadline=None)
@given(length_mm=LENGTHS, tool_mm=TOOLS, layer_mm=LAYERS)
def test_turns_use_up_the_strand(length_mm, tool_mm, layer_mm):
    """Turns put back into L = pi N (d + N t) give the length again."""
    turns = g.croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    assert math.pi * turns * (tool_mm + turns * layer_mm) == pytest.approx(length_mm)


@settings(deadline=None)
@given(length_mm=LENGTHS, tool_mm=TOOLS, layer_mm=LAYERS)
def test_wound_tool_is_the_tool_and_two_layers_a_turn(length_mm, tool_mm, layer_mm):
    """The diameter by the coil's area and by its layers agree."""
    turns = g.croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    wound = g.wound_diameter_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    assert wound == pytest.approx(tool_mm + 2 * turns * layer_mm)


@settings(deadline=None)
@given(length_mm=LENGTHS, tool_mm=TOOLS, layer_mm=LAYERS)
def test_scalp_end_is_never_tighter_than_the_ends(length_mm, tool_mm, layer_mm):
    """Layers build up from the ends to the scalp, and the outermost lies inside the wound diameter."""
    ends = g.curl_at_ends_mm(tool_mm=tool_mm, layer_mm=layer_mm)
    scalp = g.curl_at_scalp_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    assert scalp >= ends >= tool_mm
    wound = g.wound_diameter_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    if g.croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm) >= 1:
        assert scalp == pytest.approx(wound - layer_mm)


def test_strand_shorter_than_one_turn_has_one_curl():
    """With one layer there is no difference from ends to scalp."""
    scalp = g.curl_at_scalp_mm(length_mm=30, tool_mm=25, layer_mm=0.3)
    assert scalp == pytest.approx(25.3) == g.curl_at_ends_mm(tool_mm=25, layer_mm=0.3)


def test_rim_wound_on_its_own_base_agrees_with_its_own_layers():
    """The diameter that sets the base gives layers that build up to that same diameter."""
    hair = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5}
    for factor in (1, 1.5, 2):
        rim = g.wound_rim_mm(length_mm=170, rim_mm=12, depth_factor=factor, **hair)
        layer = g.layer_thickness_mm(base_depth_mm=factor * rim, **hair)
        assert g.wound_diameter_mm(length_mm=170, tool_mm=12, layer_mm=layer) == pytest.approx(rim)


def test_double_tool_winds_half_the_strand_on_each():
    """Both halves are counted on their own tool, and each has fewer turns than the whole strand would."""
    scalp, ends = g.double_tool_turns(length_mm=300, scalp_tool_mm=12.7, ends_tool_mm=9.5, layer_mm=0.2)
    assert scalp == g.croquignole_turns(length_mm=150, tool_mm=12.7, layer_mm=0.2)
    assert ends == g.croquignole_turns(length_mm=150, tool_mm=9.5, layer_mm=0.2)
    assert scalp < ends < g.croquignole_turns(length_mm=300, tool_mm=9.5, layer_mm=0.2)


def test_spiral_turn_takes_the_slope_of_a_helix():
    """A 3-4-5 triangle: circumference 3, pitch 4, hair 5."""
    assert g.spiral_length_per_turn_mm(tool_mm=3 / math.pi, pitch_mm=4) == pytest.approx(5)
    assert g.spiral_turns(length_mm=50, tool_mm=3 / math.pi, pitch_mm=4) == pytest.approx(10)
    assert g.spiral_tool_length_mm(length_mm=50, tool_mm=3 / math.pi, pitch_mm=4) == pytest.approx(40)


@pytest.mark.parametrize(("base_control", "gap"), [("on_base", 0), ("half_off_base", 6), ("off_base", 12)])
def test_gap_is_none_half_or_a_whole_tool(base_control, gap):
    """Half off leaves half a tool of hair at the scalp straight, off base a whole one."""
    assert g.base_offset_mm(base_control, tool_mm=12) == gap


def test_unknown_base_control_is_refused_with_the_known_ones():
    """The message lists what there is."""
    with pytest.raises(ValueError, match="one of on_base, half_off_base, off_base, got under_base"):
        g.base_offset_mm("under_base", tool_mm=12)


def test_growth_fills_a_gap_in_whole_weeks():
    """At 400 micrometres a day 11.2 mm are four weeks."""
    assert g.weeks_of_growth(gap_mm=11.2, growth_um_per_day=400) == pytest.approx(4)
    assert g.weeks_of_growth(gap_mm=0, growth_um_per_day=400) == 0


def test_what_is_left_of_an_old_service_grows_out_and_never_below_nothing():
    """25 weeks at 400 micrometres a day are 70 mm."""
    assert g.share_left(length_mm=280, growth_um_per_day=400, weeks=25) == pytest.approx(0.75)
    assert g.share_left(length_mm=60, growth_um_per_day=400, weeks=25) == 0
    assert g.share_left(length_mm=60, growth_um_per_day=400, weeks=0) == 1


def test_finished_curl_springs_back_by_what_was_not_set():
    """Curvature kept to 0.8 makes 10 mm into 12.5 mm; kept wholly it stays 10 mm."""
    assert g.finished_curl_mm(wound_mm=10, set_share=0.8) == pytest.approx(12.5)
    assert g.finished_curl_mm(wound_mm=10, set_share=1) == 10


def test_round_hair_of_an_area_has_its_diameter():
    """2500 pi square micrometres are a hair of 0.1 mm."""
    assert g.strand_diameter_mm_from_area(2500 * math.pi) == pytest.approx(0.1)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: g.strand_diameter_mm_from_area(0),
        lambda: g.croquignole_turns(length_mm=-1, tool_mm=6, layer_mm=0.2),
        lambda: g.croquignole_turns(length_mm=100, tool_mm=0, layer_mm=0.2),
        lambda: g.curl_at_ends_mm(tool_mm=6, layer_mm=-0.1),
        lambda: g.spiral_turns(length_mm=-1, tool_mm=6, pitch_mm=4),
        lambda: g.spiral_turns(length_mm=1, tool_mm=6, pitch_mm=-4),
        lambda: g.base_offset_mm("on_base", tool_mm=0),
        lambda: g.wound_rim_mm(
            length_mm=170, rim_mm=12, strand_mm=0.07, density_per_mm2=1.9, packing=0.5, depth_factor=0
        ),
        lambda: g.weeks_of_growth(gap_mm=1, growth_um_per_day=0),
        lambda: g.share_left(length_mm=100, growth_um_per_day=400, weeks=-1),
        lambda: g.finished_curl_mm(wound_mm=10, set_share=0),
    ],
)
def test_sizes_out_of_range_are_refused(wrong):
    """No length, rate or share that can not be gives a number."""
    with pytest.raises(ValueError, match="must be"):
        wrong()


SPIRAL = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5, "pitch_mm": 9.0, "row_mm": 60.0}


def test_spiral_keeps_the_cross_section_of_its_base():
    """All hairs of the base, each with its cross-section, fill one layer as wide as a turn."""
    rim_mm = g.spiral_wound_rim_mm(rim_mm=9.5, **SPIRAL)
    layer_mm = (rim_mm - 9.5) / 2
    hairs = SPIRAL["density_per_mm2"] * rim_mm * SPIRAL["row_mm"]
    hair_mm2 = hairs * math.pi * (SPIRAL["strand_mm"] / 2) ** 2
    assert layer_mm * SPIRAL["pitch_mm"] * SPIRAL["packing"] == pytest.approx(hair_mm2, rel=1e-9)


def test_spiral_takes_no_lock_thicker_than_half_of_the_wound_tool():
    """Ever more hair is parted into more strands: twice the bare rim is the end of it."""
    thick = {**SPIRAL, "strand_mm": 0.12, "density_per_mm2": 4.0}
    assert g.spiral_wound_rim_mm(rim_mm=9.5, depth_factor=2.0, **thick) == pytest.approx(19.0)


@pytest.mark.parametrize("name", ["rim_mm", "pitch_mm", "row_mm", "packing"])
def test_spiral_refuses_what_has_no_meaning(name):
    """Nothing is wound on a tool of no width."""
    with pytest.raises(ValueError, match=name):
        g.spiral_wound_rim_mm(**{"rim_mm": 9.5, **SPIRAL, name: 0.0})
