"""The head with its tools laid out: flat, and from four sides."""

import math
from dataclasses import replace

import pytest

from drill.service.head_map import head_map
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD
from drill.service.head_views import VIEWS, head_view
from drill.service.laid_shapes import laid_shapes
from drill.service.laid_zone import LaidZone, base_outline, tool_line
from drill.service.layout_rows import LAYOUTS, lay_out, tools_laid
from drill.service.shapes import Arrow, Disc, Polygon, Polyline, Text, is_inside
from drill.service.zones import ZONE_NAMES, mirror, point_in_zone, zone_named

ROW = {"tool_mm": 9.5, "wound_rim_mm": 13.8}


def laid_zone(zone, layout="straight_set", **given):
    bases = lay_out(zone, layout, **ROW)
    usual = {"base_direction": "horizontal", "roll_direction": "down", "tools": tools_laid(bases)}
    return LaidZone(**{"zone": zone, "bases": bases, **usual, **given})


def full_head(layout="straight_set", **given):
    return {zone: laid_zone(zone, layout, **given) for zone in ZONE_NAMES}


def lines(figure, role):
    return [shape for shape in figure.shapes if isinstance(shape, Polyline) and shape.role == role]


def flat(share):
    """A surface on which a section is a square of 100 mm."""
    return (100 * share[0], 100 * share[1])


@pytest.mark.parametrize("zone", ZONE_NAMES)
@pytest.mark.parametrize("layout", ["straight_set", "weave", "curvature"])
@pytest.mark.parametrize("base_direction", ["horizontal", "vertical", "diagonal"])
def test_map_draws_every_tool_once_inside_its_section(zone, layout, base_direction):
    """The true number, whatever the partings."""
    figure = head_map(laid={zone: laid_zone(zone, layout, base_direction=base_direction)})
    tools = lines(figure, "tool")
    assert len(tools) == len(lines(figure, "strand")) == len(lay_out(zone, layout, **ROW))
    for tool in tools:
        for x, y in tool.points[1:-1]:
            assert is_inside(zone_named(zone).polygon, x=x, y=y)


def test_tools_lie_as_the_partings_run():
    """On top across, along, and aslant; at a side horizontal partings run to the back."""
    assert tool_way("top", "horizontal") == (1, 0)
    assert tool_way("top", "vertical") == (0, 1)
    assert tool_way("left_side", "horizontal") == (0, 1)
    across, along = tool_way("back_left", "diagonal")
    assert along < 0 < across
    other_across, other_along = tool_way("back_right", "diagonal")
    assert (other_across, other_along) == (across, -along)


def tool_way(zone, base_direction):
    laid = laid_zone(zone, base_direction=base_direction)
    (u0, v0), (u1, v1) = tool_line(laid, laid.bases[0]).ends
    start, end = point_in_zone(zone, x=u0, y=v0), point_in_zone(zone, x=u1, y=v1)
    way = (end[0] - start[0], end[1] - start[1])
    way = way if sum(way) > 0 or base_direction == "diagonal" else (-way[0], -way[1])
    size = math.hypot(*way)
    return (round(way[0] / size, 6), round(way[1] / size, 6))


def test_zone_coordinates_run_the_way_of_the_row():
    """From the front back on top, from the top's edge down at the sides, face to back across them."""
    assert point_in_zone("top", x=0, y=0) == (-0.335, 1)
    assert point_in_zone("left_side", x=0, y=0) == (-0.335, 1)
    assert point_in_zone("left_side", x=1, y=1) == pytest.approx((-1, 0.335))
    assert point_in_zone("right_side", x=0, y=1) == pytest.approx((1, 1))
    assert point_in_zone("nape_center", x=1, y=1) == (0.335, -1)


def test_halves_over_a_parting_meet_on_it():
    """A set-off row of bricks is drawn to the very edge, but not where the head ends."""
    laid = laid_zone("back_left", "bricklay")
    outer, inner = (tool_line(laid, base) for base in laid.bases[1:3])
    assert outer.bare == (True, True)
    assert outer.ends[0][0] > 0
    assert inner.bare == (True, False)
    assert inner.ends[1][0] == 1
    middle = laid_zone("back_center", "bricklay")
    assert [tool_line(middle, base).bare for base in middle.bases[1:3]] == [(False, True), (True, False)]


def test_upright_half_bases_put_their_tool_on_the_parting():
    """Both sections draw the tool that they share, in one place and full size."""
    laid = laid_zone("back_center", "spiral_rows")
    second = [base for base in laid.bases if base.row == 1]
    assert [end[0] for end in tool_line(laid, second[0]).ends] == pytest.approx([0, 0])
    assert [end[0] for end in tool_line(laid, second[-1]).ends] == pytest.approx([1, 1])
    widths = [
        next(
            shape.width_mm
            for shape in laid_shapes(replace(laid, bases=(base,)), flat)
            if shape.role == "strand"
        )
        for base in second[:2]
    ]
    assert widths[0] == pytest.approx(widths[1])


def test_woven_partings_have_teeth_from_the_second_base_on():
    """The first one begins at the section's own parting."""
    laid = laid_zone("top", "weave")
    assert [len(base_outline(laid, base)) for base in laid.bases[:3]] == [4, 12, 12]
    assert {len(base_outline(laid_zone("top"), base)) for base in laid_zone("top").bases} == {4}


def test_double_wrap_is_drawn_as_two_tools_on_each_base():
    """One beside the other, both inside their base."""
    laid = laid_zone("top", stacked=True)
    tools = [shape for shape in laid_shapes(laid, flat) if shape.role == "tool"]
    assert len(tools) == 2 * len(laid.bases)
    one, other = tools[:2]
    assert other.points[0][1] - one.points[0][1] > one.width_mm
    assert all(0 < y < 10 for tool in (one, other) for _, y in tool.points)


def test_a_tool_is_drawn_no_longer_than_the_most():
    """Round ends count."""
    laid = laid_zone("top")
    tool = next(shape for shape in laid_shapes(laid, flat, most_mm=50) if shape.role == "tool")
    assert tool.points[-1][0] - tool.points[0][0] + tool.width_mm == pytest.approx(50)


def test_of_what_is_half_seen_the_seen_half_is_drawn():
    """And of what is not seen nothing."""
    laid = laid_zone("top")
    seen = list(laid_shapes(laid, lambda share: flat(share) if share[0] < 0.5 else None))
    assert seen
    assert all(x < 50 for shape in seen for x, _ in shape.points)
    assert not list(laid_shapes(laid, lambda _: None))


def test_map_tells_its_tools_and_shows_the_whorl():
    """Arrows stand on plates over tools; the swirl is at the crown."""
    laid = {"top": laid_zone("top")}
    figure = head_map(laid=laid, directions={"top": "back"}, whorl=True)
    assert figure.description.endswith("top: back, 10 tools.")
    assert len(lines(figure, "key")) == 1
    assert not lines(head_map(laid=laid), "key")
    assert any(isinstance(shape, Disc) and shape.role == "plate" for shape in figure.shapes)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("head", [LIVE_HEAD, PRACTICE_HEAD], ids=lambda head: head.name)
def test_views_keep_inside_their_frame(view, layout, head):
    """Whatever the layout, on either head."""
    figure = head_view(view, laid=full_head(layout, head=head), head=head)
    for shape in figure.shapes:
        points = shape.points if isinstance(shape, Polyline | Polygon) else ()
        if isinstance(shape, Arrow):
            points = (shape.start, shape.end)
        for x, y in points:
            assert 0 <= x <= figure.width_mm
            assert 0 <= y <= figure.height_mm


def test_each_section_is_seen_and_counted_in_some_view():
    """From behind, above, left and right together all nine."""
    counted = {}
    for view in VIEWS:
        figure = head_view(view, laid=full_head())
        keys = [shape.key for shape in figure.shapes if isinstance(shape, Polygon) and shape.key]
        texts = [shape.text for shape in figure.shapes if isinstance(shape, Text)]
        assert len(texts) <= len(keys)
        for zone in keys:
            counted.setdefault(zone, view)
        assert all(text in {str(one.tools) for one in full_head().values()} for text in texts)
    assert set(counted) == set(ZONE_NAMES)
    shown = {
        view: [s.text for s in head_view(view, laid=full_head()).shapes if isinstance(s, Text)]
        for view in VIEWS
    }
    assert len(shown["left"]) == len(shown["right"]) == 3
    assert len(shown["back"]) == 6


def test_left_and_right_views_are_mirror_images():
    """The same shapes, flipped, sections by their mirror names."""
    left, right = (head_view(view, laid=full_head(), whorl=False) for view in ("left", "right"))

    def outlines(figure, sign, rename):
        return {
            rename(shape.key): {
                (round(sign * (x - figure.width_mm / 2), 3), round(y, 3)) for x, y in shape.points
            }
            for shape in figure.shapes
            if isinstance(shape, Polygon) and shape.key
        }

    assert outlines(left, 1, mirror) == outlines(right, -1, str)


def test_bare_views_have_no_tools_and_no_numbers():
    """And without the whorl, no sign at all."""
    figure = head_view("back", whorl=False)
    assert not lines(figure, "tool")
    assert not [shape for shape in figure.shapes if isinstance(shape, Text) or shape.role == "key"]
    assert figure.description == "The head, From behind."


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("head", [LIVE_HEAD, PRACTICE_HEAD], ids=lambda head: head.name)
def test_whorl_has_six_arms_in_every_view(view, head):
    """Each a line."""
    arms = lines(head_view(view, head=head), "key")
    assert len(arms) == 6
    assert all(len(arm.points) >= 2 for arm in arms)


def test_view_tells_what_is_seen():
    """Count and direction of each section."""
    figure = head_view("left", laid={"left_side": laid_zone("left_side", roll_direction="back")})
    assert "left side: 7 tools, rolled back." in figure.description
    arrow = next(shape for shape in figure.shapes if isinstance(shape, Arrow))
    assert arrow.end[0] > arrow.start[0]


def test_arrow_is_left_out_where_it_would_point_at_the_reader():
    """Rolled back, seen from behind."""
    figure = head_view("back", laid={"nape_center": laid_zone("nape_center", roll_direction="back")})
    assert not [shape for shape in figure.shapes if isinstance(shape, Arrow)]
    assert [shape.text for shape in figure.shapes if isinstance(shape, Text)] == ["4"]


def test_a_view_that_is_none_is_refused():
    """With those that are."""
    with pytest.raises(ValueError, match="view must be one of back, top, left, right"):
        head_view("front")
