"""Tools in a kit."""

import pytest

from drill.basis.plain import from_plain, to_plain
from drill.service.geometry import wound_rim_mm
from drill.service.kit import BUILT_IN_KIT, SHAPES, Kit, Tool, nearest_tool, sizes, tools_of_shape
from drill.service.zones import ZONE_NAMES, tools_in_zone

SMALL = Kit(
    "small",
    (
        Tool(12.7, 15.7, 76.0, "concave", 20),
        Tool(9.5, 12.0, 60.0, "concave", 10),
        Tool(9.5, 12.0, 76.0, "concave", 30),
        Tool(6.4, 8.8, 76.0, "concave", 0),
        Tool(12.7, 12.7, 250.0, "long", 5),
    ),
)


def test_sizes_are_listed_once_thinnest_first_and_only_where_held():
    """A size with no tool in the drawer is no size."""
    assert sizes(SMALL, "concave") == (9.5, 12.7)
    assert sizes(SMALL, "straight") == ()


@pytest.mark.parametrize(("wish", "got"), [(5, 9.5), (11, 9.5), (11.1, 9.5), (11.2, 12.7), (40, 12.7)])
def test_nearest_tool_is_the_closest_and_of_two_the_thinner(wish, got):
    """11.1 lies in the middle between 9.5 and 12.7."""
    assert nearest_tool(SMALL, "concave", wish).diameter_mm == got


def test_no_tool_of_a_shape_gives_none():
    """The caller must look for another shape."""
    assert nearest_tool(SMALL, "flexible", 10) is None


def test_unknown_shape_is_refused_with_the_known_ones():
    """The message lists what there is."""
    with pytest.raises(ValueError, match="one of concave, straight, flexible, long, got square"):
        sizes(SMALL, "square")


@pytest.mark.parametrize("shape", SHAPES)
def test_built_in_kit_holds_tools_that_can_be(shape):
    """Concave rims stand 2 to 5 mm above the waist, all others are of one size; each size is there once."""
    tools = tools_of_shape(BUILT_IN_KIT, shape)
    assert len(sizes(BUILT_IN_KIT, shape)) == len(tools) >= 6
    for tool in tools:
        rise = tool.rim_diameter_mm - tool.diameter_mm
        assert 1.99 <= rise <= 5.01 if shape == "concave" else rise == 0
        assert 200 <= tool.length_mm <= 300 if shape in ("long", "flexible") else 45 <= tool.length_mm <= 91


@pytest.mark.parametrize("tool", BUILT_IN_KIT.tools, ids=lambda tool: f"{tool.shape}-{tool.diameter_mm}")
def test_built_in_kit_does_for_a_full_head_of_the_most_tools(tool):
    """Thin, fine, short hair on single bases takes the most tools of any size."""
    rim = wound_rim_mm(
        length_mm=80, rim_mm=tool.rim_diameter_mm, strand_mm=0.05, density_per_mm2=1.2, packing=0.6
    )
    head = sum(
        tools_in_zone(
            zone, tool_waist_mm=tool.diameter_mm, tool_rim_mm=tool.rim_diameter_mm, wound_rim_mm=rim
        )
        for zone in ZONE_NAMES
    )
    assert head <= tool.count


def test_kit_is_saved_and_read_back_the_same():
    """Through plain JSON values."""
    assert from_plain(Kit, to_plain(BUILT_IN_KIT)) == BUILT_IN_KIT
