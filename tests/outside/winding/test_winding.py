"""Coils against numeric integration and worked values; see SOURCE.md."""

import csv
import math
from pathlib import Path

import pytest
from scipy.integrate import quad

from drill.service.geometry import (
    croquignole_turns,
    curl_at_ends_mm,
    curl_at_scalp_mm,
    layer_thickness_mm,
    spiral_length_per_turn_mm,
    spiral_turns,
    wound_diameter_mm,
    wound_rim_mm,
)
from drill.service.kit import BUILT_IN_KIT, tools_of_shape

ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))
TOOLS_MM = (4.8, 6.4, 9.5, 12.7, 19.0, 25.4, 32.0)
LAYERS_MM = (0.01, 0.1, 0.2, 0.35)
SIXTEENTH_IN_MM = 25.4 / 16


def spiral_length_mm(*, tool_mm, layer_mm, turns):
    """Integrate the arc of a spiral that starts on the tool's surface and grows by a layer a turn."""
    growth = layer_mm / (2 * math.pi)
    length_mm, _ = quad(
        lambda angle: math.hypot(tool_mm / 2 + growth * angle, growth), 0, 2 * math.pi * turns
    )
    return length_mm


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"d{row['inner_diameter_mm']}")
def test_worked_lengths_give_their_turns(row):
    """By the approximate length to all digits given, by the exact one within 0.02 %."""
    tool_mm, layer_mm, turns = (float(row[name]) for name in ("inner_diameter_mm", "layer_mm", "turns"))
    for name, within in (("approximate_mm", 5e-6), ("exact_mm", 2e-4)):
        got = croquignole_turns(length_mm=float(row[name]), tool_mm=tool_mm, layer_mm=layer_mm)
        assert got == pytest.approx(turns, rel=within)
    integrated = spiral_length_mm(tool_mm=tool_mm, layer_mm=layer_mm, turns=turns)
    assert integrated == pytest.approx(float(row["exact_mm"]), abs=5e-4)


def test_worked_strand_of_100_mm_takes_its_turns():
    """3.983 turns on a tool of 6 mm with layers of half a millimetre; 5.305 without the build-up."""
    assert croquignole_turns(length_mm=100, tool_mm=6, layer_mm=0.5) == pytest.approx(3.983, abs=5e-4)
    assert croquignole_turns(length_mm=100, tool_mm=6, layer_mm=0) == pytest.approx(5.305, abs=5e-4)


def test_integration_itself_agrees_with_the_textbook_spiral():
    """r = theta has 21.256294 in its first turn: a spiral from nothing, layer 2 pi."""
    assert spiral_length_mm(tool_mm=0, layer_mm=2 * math.pi, turns=1) == pytest.approx(21.256294, abs=1e-6)


def test_tool_surface_is_where_the_diameter_is_taken():
    """The other convention finds 125.66 mm for the same turns, 6 % less; ours is not that one."""
    other_mm = math.pi * 5 * (6 + 0.5 * 4)
    assert other_mm == pytest.approx(125.66, abs=0.005)
    assert croquignole_turns(length_mm=other_mm, tool_mm=6, layer_mm=0.5) < 4.8
    ours_mm = sum(math.pi * (6 + (2 * layer - 1) * 0.5) for layer in range(1, 6))
    assert croquignole_turns(length_mm=ours_mm, tool_mm=6, layer_mm=0.5) == pytest.approx(5)


@pytest.mark.parametrize("tool_mm", TOOLS_MM)
@pytest.mark.parametrize("layer_mm", LAYERS_MM)
@pytest.mark.parametrize("length_mm", [100, 200, 400])
def test_turns_fill_the_integrated_spiral(tool_mm, layer_mm, length_mm):
    """The spiral integrated over the turns counted is as long as the strand, within 0.1 %."""
    turns = croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    integrated = spiral_length_mm(tool_mm=tool_mm, layer_mm=layer_mm, turns=turns)
    assert integrated == pytest.approx(length_mm, rel=1e-3)


@pytest.mark.parametrize("tool_mm", TOOLS_MM)
@pytest.mark.parametrize("layer_mm", LAYERS_MM)
def test_curls_are_the_mean_diameters_of_the_first_and_the_last_turn(tool_mm, layer_mm):
    """Each turn of the integrated spiral, as a circle of the same length."""
    length_mm = 250
    turns = croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)

    def upto(count):
        return spiral_length_mm(tool_mm=tool_mm, layer_mm=layer_mm, turns=count)

    first_mm, last_mm = upto(1) / math.pi, (upto(turns) - upto(turns - 1)) / math.pi
    assert curl_at_ends_mm(tool_mm=tool_mm, layer_mm=layer_mm) == pytest.approx(first_mm, rel=1e-3)
    scalp_mm = curl_at_scalp_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    assert scalp_mm == pytest.approx(last_mm, rel=1e-3)
    outer_mm = tool_mm + 2 * turns * layer_mm
    wound_mm = wound_diameter_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    assert wound_mm == pytest.approx(outer_mm)


@pytest.mark.parametrize("tool_mm", TOOLS_MM)
@pytest.mark.parametrize("pitch_mm", [0, 3, 8, 15])
def test_helix_agrees_with_its_integrated_arc(tool_mm, pitch_mm):
    """Length of the curve (r cos, r sin, pitch a turn) over one turn."""
    rise = pitch_mm / (2 * math.pi)

    def speed(angle):
        return math.sqrt(
            (tool_mm / 2 * math.sin(angle)) ** 2 + (tool_mm / 2 * math.cos(angle)) ** 2 + rise**2
        )

    turn_mm, _ = quad(speed, 0, 2 * math.pi)
    assert spiral_length_per_turn_mm(tool_mm=tool_mm, pitch_mm=pitch_mm) == pytest.approx(turn_mm)
    turns = spiral_turns(length_mm=300, tool_mm=tool_mm, pitch_mm=pitch_mm)
    assert quad(speed, 0, 2 * math.pi * turns, limit=500)[0] == pytest.approx(300)


@pytest.mark.parametrize("shape", ["concave", "straight"])
def test_ends_and_scalp_end_differ_by_the_order_of_a_sixteenth_of_an_inch(shape):
    """Ordinary hair of medium length on any tool from 4.8 to 19 mm, concave or straight alike."""
    hair = {"strand_mm": 0.07, "density_per_mm2": 1.9, "packing": 0.5}
    for tool in tools_of_shape(BUILT_IN_KIT, shape):
        if tool.diameter_mm > 19:
            continue
        for length_mm in (150, 200, 250):
            base_mm = wound_rim_mm(length_mm=length_mm, rim_mm=tool.rim_diameter_mm, **hair)
            layer_mm = layer_thickness_mm(base_depth_mm=base_mm, **hair)
            ends = curl_at_ends_mm(tool_mm=tool.diameter_mm, layer_mm=layer_mm)
            scalp = curl_at_scalp_mm(length_mm=length_mm, tool_mm=tool.diameter_mm, layer_mm=layer_mm)
            assert 1 / 3 < (scalp - ends) / SIXTEENTH_IN_MM < 2
