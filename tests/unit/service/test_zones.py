"""The nine zones, their sizes and places, and tools in a row."""

import gettext
from itertools import pairwise

import pytest

from drill.basis.words import catalogue
from drill.service.shapes import is_inside
from drill.service.zones import (
    MAP_CENTER,
    MAP_WIDTH_MM,
    ZONE_NAMES,
    ZONES,
    mirror,
    point_on_map,
    tools_in_zone,
    zone_label,
    zone_named,
)

TOOL = {"tool_waist_mm": 9.5, "tool_rim_mm": 12.0}


def test_zones_come_in_the_order_of_the_contract():
    """Front to nape, and from the client's left to the right."""
    assert ZONE_NAMES == (
        "top", "left_side", "right_side", "back_left", "back_center", "back_right",
        "nape_left", "nape_center", "nape_right",
    )  # fmt: skip


@pytest.mark.parametrize("zone", ZONES)
def test_left_is_as_right(zone):
    """A zone and its mirror image have the same sizes, and lie as far from the middle of the map."""
    other = zone_named(mirror(zone.name))
    assert mirror(other.name) == zone.name
    assert (other.length_mm, other.width_mm, other.wear) == (zone.length_mm, zone.width_mm, zone.wear)
    flipped = {(round(2 * MAP_CENTER[0] - x, 6), round(y, 6)) for x, y in other.polygon}
    assert flipped == {(round(x, 6), round(y, 6)) for x, y in zone.polygon}


def test_midline_zones_are_their_own_mirror():
    """Three of the nine lie in the middle."""
    assert [name for name in ZONE_NAMES if mirror(name) == name] == ["top", "back_center", "nape_center"]


def test_hair_is_worn_back_on_top_and_down_elsewhere_where_nobody_says():
    """The wish that is filled in."""
    assert {zone.name: zone.wear for zone in ZONES} == dict.fromkeys(ZONE_NAMES, "down") | {"top": "back"}


@pytest.mark.parametrize("zone", ZONES)
def test_every_panel_is_wide_enough_for_a_thumb_on_a_phone(zone):
    """With the map drawn 344 dp wide a panel reaches over 95 by 135 dp."""
    xs, ys = zip(*zone.polygon, strict=True)
    dp_per_mm = 344 / MAP_WIDTH_MM
    assert (max(xs) - min(xs)) * dp_per_mm >= 95
    assert (max(ys) - min(ys)) * dp_per_mm >= 135 * 0.99


def test_panels_cover_the_head_once():
    """Each place inside the outline lies in exactly one panel."""
    for across in range(-9, 10):
        for along in range(-9, 10):
            x, y = point_on_map(across=across / 9.5, along=along / 9.5)
            assert sum(is_inside(zone.polygon, x=x, y=y) for zone in ZONES) == 1


def test_labels_are_words_and_go_through_the_catalogue():
    """No underscore reaches a reader, and a translation does."""
    labels = [zone_label(name) for name in ZONE_NAMES]
    assert len(set(labels)) == 9
    assert not any("_" in label for label in labels)

    class Shout(gettext.NullTranslations):
        def gettext(self, message):
            return message.upper()

    with catalogue(Shout()):
        assert zone_label("back_center") == "BACK CENTRE"


def test_row_takes_as_many_bases_as_fit_to_the_nearest_whole_one():
    """The top is 138 mm: 10.2 bases of 13.5 mm are ten, 10.6 of 13 mm eleven."""
    assert tools_in_zone("top", **TOOL, wound_rim_mm=13.5) == 10
    assert tools_in_zone("top", **TOOL, wound_rim_mm=13.0) == 11


def test_deeper_bases_take_fewer_tools():
    """One and a half and double depth."""
    counts = [tools_in_zone("top", **TOOL, wound_rim_mm=13.8, depth_factor=factor) for factor in (1, 1.5, 2)]
    assert counts == [10, 7, 5]


def test_smallest_zone_takes_at_least_one_tool():
    """However large the tool."""
    count = tools_in_zone("nape_left", tool_waist_mm=60, tool_rim_mm=60, wound_rim_mm=70, depth_factor=2)
    assert count == 1


@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_thicker_tools_never_make_more_of_them(zone):
    """The count falls as the wound rim grows."""
    counts = [tools_in_zone(zone, **TOOL, wound_rim_mm=rim) for rim in range(12, 60)]
    assert all(more >= fewer for more, fewer in pairwise(counts))


@pytest.mark.parametrize(
    "wrong",
    [
        {"tool_waist_mm": 0, "tool_rim_mm": 12, "wound_rim_mm": 14},
        {"tool_waist_mm": 13, "tool_rim_mm": 12, "wound_rim_mm": 14},
        {"tool_waist_mm": 9, "tool_rim_mm": 12, "wound_rim_mm": 11},
        {"tool_waist_mm": 9, "tool_rim_mm": 12, "wound_rim_mm": 14, "depth_factor": 3},
    ],
)
def test_sizes_that_are_no_tool_are_refused(wrong):
    """Waist, rim and wound rim never fall; a base has one of three depths."""
    with pytest.raises(ValueError, match="must be"):
        tools_in_zone("top", **wrong)


def test_unknown_zone_is_refused():
    """Everywhere a zone is named."""
    for call in (zone_named, zone_label, mirror):
        with pytest.raises(ValueError, match="got fringe"):
            call("fringe")
