"""Figures say what the service says, inside their own frame."""

import math
from itertools import pairwise

import pytest

from drill.service.direction import DIRECTIONS
from drill.service.figures import (
    Arrow,
    Disc,
    Figure,
    Polygon,
    Polyline,
    Text,
    base_control_figure,
    head_map,
    zone_at,
)
from drill.service.shapes import ANCHORS, ROLES, arrow_head, is_inside
from drill.service.zones import ZONE_NAMES, ZONES, point_on_map, zone_label

BASES = ("on_base", "half_off_base", "off_base")


def places(shape):
    if isinstance(shape, Polyline | Polygon):
        return shape.points
    if isinstance(shape, Disc):
        (x, y), r = shape.center, shape.radius_mm
        return ((x - r, y - r), (x + r, y + r))
    if isinstance(shape, Arrow):
        return (shape.start, shape.end, *arrow_head(shape)[0])
    half = 0.275 * shape.size_mm * len(shape.text)
    shift = {"start": half, "middle": 0, "end": -half}[shape.anchor]
    return ((shape.at[0] + shift - half, shape.at[1]), (shape.at[0] + shift + half, shape.at[1]))


def of(figure, kind, role):
    return [shape for shape in figure.shapes if isinstance(shape, kind) and shape.role == role]


def draw(base_control, wound_mm=12.0):
    return base_control_figure(base_control, wound_mm=wound_mm, strand_label="strand")


def full_map():
    return head_map(
        highlight="back_left",
        directions=dict(zip(ZONE_NAMES, [*DIRECTIONS, "whorl", "back", "forward"], strict=True)),
        labels={name: zone_label(name) for name in ZONE_NAMES},
        tools=dict(zip(ZONE_NAMES, (10, 7, 7, 8, 9, 8, 3, 4, 3), strict=True)),
    )


@pytest.mark.parametrize(
    "figure", [*map(draw, BASES), draw("off_base", 34.0), head_map(), full_map()], ids=lambda f: f.title
)
def test_everything_lies_inside_the_frame_and_has_a_known_role(figure):
    """Nothing is cut off at an edge, letters taken as 0.55 of their size wide."""
    assert figure.title
    assert figure.description.endswith(".")
    for shape in figure.shapes:
        assert shape.role in ROLES
        for x, y in places(shape):
            assert -0.001 <= x <= figure.width_mm + 0.001
            assert -0.001 <= y <= figure.height_mm + 0.001
        if isinstance(shape, Text):
            assert shape.text
            assert shape.anchor in ANCHORS


@pytest.mark.parametrize(("base_control", "tools"), [("on_base", 0), ("half_off_base", 0.5), ("off_base", 1)])
def test_tool_comes_to_rest_as_far_from_its_base_as_the_gap(base_control, tools):
    """Along the scalp from the middle of the base; and the gap says its millimetres."""
    figure = draw(base_control)
    wound = next(disc for disc in of(figure, Disc, "strand"))
    base = of(figure, Polygon, "base")[1]
    middle = (min(x for x, _ in base.points) + max(x for x, _ in base.points)) / 2
    bend_mm = 7 * 12.0
    assert wound.radius_mm == 6
    assert math.asin((wound.center[0] - middle) / (bend_mm + 6)) * bend_mm == pytest.approx(tools * 12)
    texts = [shape.text for shape in figure.shapes if isinstance(shape, Text)]
    assert ("no gap" if not tools else f"gap {tools * 12:g} mm") in texts
    assert bool(of(figure, Polyline, "gap")) is bool(tools)


@pytest.mark.parametrize(("base_control", "lean"), [("on_base", -45), ("half_off_base", 0), ("off_base", 45)])
def test_strand_is_held_at_its_angle_away_from_the_tool_when_over_directed(base_control, lean):
    """The arrow of rolling points right: on base leans left, off base right."""
    figure = draw(base_control)
    a, tip_a, tip_b, b = of(figure, Polygon, "strand")[0].points
    tip = ((tip_a[0] + tip_b[0]) / 2, (tip_a[1] + tip_b[1]) / 2)
    root = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    assert math.degrees(math.atan2(tip[0] - root[0], tip[1] - root[1])) == pytest.approx(lean, abs=0.5)
    roll = of(figure, Arrow, "key")[0]
    assert roll.end[0] > roll.start[0]
    assert roll.end[1] == roll.start[1]
    told = [shape.text for shape in figure.shapes if isinstance(shape, Text) and shape.text.endswith("°")]
    assert told == (["45°"] if lean else [])


def test_description_tells_the_whole_figure():
    """For someone who can't see it."""
    assert draw("off_base").description == (
        "Seen from the side: the strand is held 45° short of straight out; wound down, the tool is "
        "off its base. At the scalp: gap 12 mm."
    )


def test_map_has_each_zone_as_a_target_in_its_place():
    """A touch in the middle of a panel gives its name; one beside the head gives nothing."""
    figure = full_map()
    keys = [shape.key for shape in figure.shapes if isinstance(shape, Polygon) and shape.key]
    assert keys == list(ZONE_NAMES)
    for zone in ZONES:
        west, east, south, north = zone.span
        x, y = point_on_map(across=(west + east) / 2, along=(south + north) / 2)
        assert zone_at(figure, x=x, y=y) == zone.name
    assert zone_at(figure, x=1, y=1) is None
    assert zone_at(figure, x=86, y=218) is None, "the nose is no zone"


def test_highlight_is_filled_and_outlined_so_that_colour_is_not_the_only_sign():
    """Only the zone asked for."""
    figure = head_map(highlight="nape_right")
    assert [shape.key for shape in of(figure, Polygon, "chosen")] == ["nape_right"]
    assert len(of(figure, Polyline, "ink")) == 1
    assert not of(head_map(), Polygon, "chosen")
    assert not of(head_map(), Polyline, "ink")


def test_label_stands_on_a_plate_only_over_tools():
    """So that it can be read on them."""
    assert not of(head_map(labels={"top": "9 tools"}), Polygon, "plate")
    (plate,) = of(head_map(labels={"top": "9 tools"}, tools={"top": 9}), Polygon, "plate")
    (text,) = of(head_map(labels={"top": "9 tools"}, tools={"top": 9}), Text, "ink")
    assert is_inside(plate.points, x=text.at[0], y=text.at[1])


def test_arrows_point_where_the_hair_goes():
    """Down at the left side is out to the left, back on top is toward the nape."""
    figure = head_map(directions={"left_side": "down", "top": "back"})
    left, top = of(figure, Arrow, "key")
    assert left.end[0] < left.start[0]
    assert left.end[1] == left.start[1]
    assert top.end[1] < top.start[1]
    assert top.end[0] == top.start[0]


def test_direction_out_of_the_map_is_a_ring_with_a_dot_and_into_it_one_with_a_cross():
    """As an arrow is seen from its tip and from its feathers."""
    out, into = head_map(directions={"top": "up"}), head_map(directions={"top": "down"})
    assert len(of(out, Disc, "key")) == 2
    assert not of(out, Polyline, "key")
    assert len(of(into, Disc, "key")) == 1
    assert len(of(into, Polyline, "key")) == 2


def test_whorl_is_a_swirl_turning_clockwise_outward():
    """Angles fall all the way from the middle out."""
    figure = head_map(directions={"top": "whorl"})
    points = of(figure, Polyline, "key")[0].points
    middle = point_on_map(across=0, along=0.94 * 0.6675)
    spokes = [(x - middle[0], y - middle[1]) for x, y in points]
    assert all(a[0] * b[1] - a[1] * b[0] < 0 and math.hypot(*b) > math.hypot(*a) for a, b in pairwise(spokes))


@pytest.mark.parametrize("zone", ZONES, ids=lambda zone: zone.name)
@pytest.mark.parametrize("count", [1, 3, 12])
def test_tools_lie_in_their_zone_one_bar_each(zone, count):
    """Bars keep inside the panel and do not overlap their neighbours."""
    figure = head_map(tools={zone.name: count})
    bars, hair = of(figure, Polyline, "tool"), of(figure, Polyline, "strand")
    assert len(bars) == len(hair) == count
    for bar in bars:
        assert all(is_inside(zone.polygon, x=x, y=y) for x, y in bar.points)
    for one, other in pairwise(hair):
        near = min(math.dist(a, b) for a in one.points for b in other.points)
        assert near > one.width_mm


def test_zone_without_tools_has_no_bars():
    """A count of none is not an error."""
    assert not of(head_map(tools={"top": 0}), Polyline, "tool")


def test_map_description_lists_what_each_zone_shows():
    """Zones in their own order, only those with something to tell."""
    figure = head_map(
        highlight="top",
        directions={"left_side": "down", "top": "whorl"},
        labels={"top": "A"},
        tools={"top": 9},
    )
    assert figure.description == (
        "The head from above, opened flat, face at the upper edge. Marked: top. "
        "top: in a whorl, A, 9 tools. left side: down."
    )


def test_names_that_do_not_exist_are_refused():
    """Zones and directions alike."""
    with pytest.raises(ValueError, match="got crown"):
        head_map(highlight="crown")
    with pytest.raises(ValueError, match="got sideways"):
        head_map(directions={"top": "sideways"})
    with pytest.raises(ValueError, match="got crown"):
        head_map(labels={"crown": "x"})
    with pytest.raises(ValueError, match="base_control must be"):
        draw("beside_base")


def test_arrow_head_is_four_shafts_wide_and_ends_at_the_tip():
    """A shaft of 1 along x."""
    (tip, left, right), shaft = arrow_head(Arrow((0, 0), (10, 0), 1, "key"))
    assert tip == (10, 0)
    assert (left, right) == ((6, 2), (6, -2))
    assert shaft == (7, 0)


def test_arrow_without_length_is_refused():
    """It would point nowhere."""
    with pytest.raises(ValueError, match="two places"):
        arrow_head(Arrow((1, 1), (1, 1), 1, "key"))


def test_touch_gives_the_uppermost_target():
    """Later shapes lie over earlier ones."""
    square = ((0, 0), (4, 0), (4, 4), (0, 4))
    figure = Figure(4, 4, (Polygon(square, "scalp", "under"), Polygon(square, "scalp", "over")), "t", "d.")
    assert zone_at(figure, x=1, y=1) == "over"
