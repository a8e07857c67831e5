"""Directions on the head and on its map."""

import pytest

from drill.service.direction import DIRECTIONS, angle_deg, direction_on_map, opposes
from drill.service.zones import ZONE_NAMES, mirror

OPPOSITE = {
    "forward": "back",
    "back": "forward",
    "up": "down",
    "down": "up",
    "left": "right",
    "right": "left",
}


@pytest.mark.parametrize("a", DIRECTIONS)
@pytest.mark.parametrize("b", DIRECTIONS)
def test_only_the_opposite_direction_is_against(a, b):
    """Across is 90 degrees and not against; the same is 0, the opposite 180."""
    expected = 0 if a == b else 180 if OPPOSITE[a] == b else 90
    assert angle_deg(a, b) == pytest.approx(expected)
    assert opposes(a, b) is (expected == 180)


def test_down_lies_further_out_everywhere_but_on_top():
    """The map is the head opened flat from above."""
    assert direction_on_map("top", "down") is None
    assert direction_on_map("left_side", "down") == (-1, 0)
    assert direction_on_map("right_side", "down") == (1, 0)
    assert direction_on_map("nape_center", "down") == (0, -1)


def test_forward_is_toward_the_face_edge_where_the_face_can_be_seen_from():
    """On top and at the sides the face is up on the map; at the back forward points into the head."""
    assert direction_on_map("top", "forward") == direction_on_map("left_side", "forward") == (0, 1)
    assert direction_on_map("back_left", "forward") is None
    assert direction_on_map("left_side", "right") is None


@pytest.mark.parametrize("zone", ZONE_NAMES)
@pytest.mark.parametrize("direction", DIRECTIONS)
def test_the_map_is_the_same_in_the_mirror(zone, direction):
    """Left and right change places, and nothing else does."""
    swapped = OPPOSITE[direction] if direction in ("left", "right") else direction
    here, there = direction_on_map(zone, direction), direction_on_map(mirror(zone), swapped)
    assert there == (None if here is None else (-here[0], here[1]))


@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_two_directions_of_six_have_no_place_on_a_panel(zone):
    """Those along the panel's own axis; the others are of length 1."""
    places = [direction_on_map(zone, direction) for direction in DIRECTIONS]
    assert places.count(None) == 2
    assert all(abs(place[0]) + abs(place[1]) == 1 for place in places if place)


def test_unknown_names_are_refused_with_the_known_ones():
    """A whorl is no direction; the planner sees to it."""
    with pytest.raises(ValueError, match="one of forward, back, up, down, left, right, got whorl"):
        opposes("back", "whorl")
    with pytest.raises(ValueError, match=r"zone must be one of top, .* got crown"):
        direction_on_map("crown", "back")
