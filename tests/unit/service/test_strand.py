"""The hair of one base on a tool: layers, turns of long and short hair, room that it takes."""

import pytest

from drill.service.coil import croquignole_turns
from drill.service.kit import Tool
from drill.service.strand import Strand, coil_of, layer_of, turns_of, wound_rim_of

TOOL = Tool(9.5, 12.0, 76.0, "concave", 60)


def strand(wrap="croquignole", *, length=300.0, shortest=None):
    """Make a strand of usual hair."""
    return Strand(
        wrap=wrap,
        length_mm=length,
        shortest_mm=length if shortest is None else shortest,
        hair_mm=0.07,
        density_per_mm2=1.9,
        packing=0.5,
        depth_factor=1.0,
        deepest_over_rim=1.3,
        pitch_mm=9.0,
    )


def test_room_of_a_spiral_does_not_grow_with_the_length():
    """It lies in one layer; wound over and over the same hair takes more room the longer it is."""
    short, long = (wound_rim_of(strand("spiral", length=one), TOOL) for one in (200.0, 700.0))
    assert short == long
    assert wound_rim_of(strand(length=200.0), TOOL) < wound_rim_of(strand(length=700.0), TOOL)


def test_long_hair_is_shared_out_among_more_bases_instead_of_deeper_ones():
    """However long it is, a base is no deeper than the rulebook's share of the bare rim."""
    assert wound_rim_of(strand(length=900.0), TOOL) == pytest.approx(1.3 * TOOL.rim_diameter_mm)
    assert wound_rim_of(strand(length=100.0), TOOL) < 1.3 * TOOL.rim_diameter_mm


def test_layer_of_a_spiral_fills_what_its_wound_rim_has_over_the_bare_one():
    """On both sides of the tool."""
    spiral = strand("spiral")
    assert TOOL.rim_diameter_mm + 2 * layer_of(spiral, TOOL) == pytest.approx(wound_rim_of(spiral, TOOL))


def test_spiral_turns_run_along_the_middle_of_the_layer():
    """So many turns of a helix of that diameter are as long as the hair."""
    spiral = strand("spiral")
    coil = coil_of(spiral, TOOL, layer_mm=layer_of(spiral, TOOL), length_mm=300.0)
    assert coil.ends_mm == coil.scalp_mm == TOOL.diameter_mm + layer_of(spiral, TOOL)
    a_turn_mm = ((3.141592653589793 * coil.ends_mm) ** 2 + 9.0**2) ** 0.5
    assert coil.turns * a_turn_mm == pytest.approx(300.0)


def test_shortest_hair_of_layers_goes_round_less_often():
    """The longest decides how thick it winds, for both."""
    longest, shortest = turns_of(strand(shortest=80.0), TOOL)
    layer = layer_of(strand(), TOOL)
    assert longest == croquignole_turns(length_mm=300.0, tool_mm=9.5, layer_mm=layer)
    assert shortest == croquignole_turns(length_mm=80.0, tool_mm=9.5, layer_mm=layer)


@pytest.mark.parametrize(("shortest", "wound"), [(80.0, 80.0), (150.0, 150.0), (220.0, 150.0)])
def test_hair_that_ends_before_the_middle_lies_on_the_scalp_tool_of_a_double_wrap_whole(shortest, wound):
    """The first tool takes the strand at the middle of its longest hair; shorter hair is not halved."""
    double = strand("double_tool", shortest=shortest)
    turns = croquignole_turns(length_mm=wound, tool_mm=9.5, layer_mm=layer_of(double, TOOL))
    assert turns_of(double, TOOL)[1] == turns
