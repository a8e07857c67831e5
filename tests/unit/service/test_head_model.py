"""The model head: its sections, its surface, and how its hair grows."""

import math

import pytest

from drill.service.direction import DIRECTIONS
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD, HeadModel, scaled_head, zone_size
from drill.service.head_surface import growth_at, head_axes, outward, point_on_head, whorl_on_head
from drill.service.zones import ZONE_NAMES, ZONES, mirror, zone_named


def dot(a, b):
    return sum(x * y for x, y in zip(a, b, strict=True))


def test_sections_fill_the_head_without_gaps():
    """Midline, ear to ear, and round the head, each less what bears no hair."""
    size = {zone: zone_size(zone) for zone in ZONE_NAMES}
    midline = sum(size[zone].length_mm for zone in ("top", "back_center", "nape_center"))
    assert midline == pytest.approx(LIVE_HEAD.midline_mm) == 320
    across = 2 * (size["left_side"].length_mm + LIVE_HEAD.ear_strip_mm) + size["top"].width_mm
    assert across == pytest.approx(LIVE_HEAD.ear_to_ear_mm)
    ring = sum(size[zone].width_mm for zone in ZONE_NAMES if "side" in zone or "back" in zone)
    assert ring + LIVE_HEAD.face_mm == pytest.approx(LIVE_HEAD.circumference_mm)


@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_left_is_as_right_and_the_map_takes_its_sizes_from_the_model(zone):
    """Exactly."""
    assert zone_size(zone) == zone_size(mirror(zone))
    assert (zone_named(zone).length_mm, zone_named(zone).width_mm) == zone_size(zone)


def test_practice_head_is_the_same_in_small():
    """Each section by the same share."""
    for zone in ZONES:
        small = zone_size(zone.name, head=PRACTICE_HEAD)
        assert small.length_mm / zone.length_mm == pytest.approx(0.9)
        assert small.width_mm / zone.width_mm == pytest.approx(0.9)
    assert PRACTICE_HEAD.name == "practice"


def test_a_head_of_no_size_is_refused():
    """A scale is more than 0."""
    with pytest.raises(ValueError, match="scale must be more than 0"):
        scaled_head(LIVE_HEAD, name="none", scale=0)


@pytest.mark.parametrize("zone", ["crown", "side", "back", "nape", "", "left_top"])
def test_sections_that_are_none_are_refused(zone):
    """Kinds of sections are no names of them."""
    with pytest.raises(ValueError, match="no zone is named"):
        zone_size(zone)


def test_places_on_the_head_are_where_the_tape_ends():
    """Nasion in front, vertex on top, ears at the sides, left less than 0."""
    axes = head_axes(LIVE_HEAD)
    assert point_on_head(from_nasion_mm=0, from_midline_mm=0) == pytest.approx((0, axes.length_mm, 0))
    top = point_on_head(from_nasion_mm=LIVE_HEAD.nasion_inion_mm / 2, from_midline_mm=0)
    assert top == pytest.approx((0, 0, axes.height_mm), abs=0.1)
    left = point_on_head(from_nasion_mm=150, from_midline_mm=-80)
    right = point_on_head(from_nasion_mm=150, from_midline_mm=80)
    assert left[0] < 0 < right[0]
    assert left == pytest.approx((-right[0], right[1], right[2]))
    assert outward(top) == pytest.approx((0, 0, 1), abs=1e-3)


def test_a_place_past_a_whole_turn_stays_on_the_head():
    """The tape goes round once."""
    assert point_on_head(from_nasion_mm=1e6, from_midline_mm=0) == pytest.approx(
        point_on_head(from_nasion_mm=0, from_midline_mm=0), abs=1e-6
    )


def test_hair_lies_along_the_scalp_and_falls_away_from_the_crown():
    """Forward on top, down at sides, back and nape."""
    places = {
        "top": (110, 0, "forward"),
        "left_side": (150, -110, "down"),
        "right_side": (150, 110, "down"),
        "back": (290, 0, "down"),
        "nape": (350, 0, "down"),
    }
    for from_nasion, from_midline, falls in places.values():
        place = point_on_head(from_nasion_mm=from_nasion, from_midline_mm=from_midline)
        grows = growth_at(place)
        assert math.hypot(*grows) == pytest.approx(1)
        assert dot(grows, outward(place)) == pytest.approx(0, abs=1e-9)
        assert dot(grows, DIRECTIONS[falls]) > 0.65


def test_whorl_turns_either_way_and_its_middle_has_a_direction_too():
    """A head may have it counterclockwise; in the very middle the drawing needs one arrow."""
    middle = whorl_on_head()
    assert growth_at(middle)[1] > 0.9
    other = HeadModel(
        **{name: getattr(LIVE_HEAD, name) for name in HeadModel.__slots__ if name != "whorl"},
        whorl="counterclockwise",
    )
    beside = (middle[0] - 6, middle[1], middle[2])
    assert growth_at(beside, head=other)[1] < 0 < growth_at(beside)[1]
