"""The tables' wish meets the kit: which tool, how many, how many turns, which curl."""

import pytest

from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.kit import BUILT_IN_KIT, Kit, Tool, sizes
from drill.service.tool_choice import turns_needed
from drill.service.zones import ZONE_NAMES


def head_of(rulebook, changes=(), *, length=180.0, kit=BUILT_IN_KIT, **zone):
    """Make a head fit for a perm."""
    known = {
        "service": "perm", "wish.curl": "medium", "wish.look": "waves", "hair.strand": "medium",
        "hair.density": "average", "hair.elasticity": "good", "history.color": "none", "scalp": "healthy",
        "history.reaction": "no", "history.relaxer": "none", "history.metallic_dye": "no",
        "health.treatment": "none", "history.known": "yes", "hair.pattern": "straight",
    }  # fmt: skip
    zones = {name: {"hair.length": length, "hair.porosity": "average", **zone} for name in ZONE_NAMES}
    return Head(rulebook, Consultation(head={**known, **dict(changes)}, zones=zones, kit=kit))


@pytest.mark.parametrize(
    ("curl", "diameter"), [("tight", 6.4), ("medium", 11.1), ("soft", 14.3), ("body", 25.4), (16.0, 12.7)]
)
def test_tool_nearest_to_the_wished_size_is_taken(rulebook, curl, diameter):
    """The kit's sizes stand beside the middle of each class."""
    assert head_of(rulebook, {"wish.curl": curl}, length=250.0).choice("top").tool.diameter_mm == diameter


def test_nape_takes_one_size_smaller_and_never_less_than_the_thinnest(rulebook):
    """A kit with one size has nothing smaller."""
    head = head_of(rulebook)
    concave = sizes(BUILT_IN_KIT, "concave")
    at = concave.index(head.choice("top").tool.diameter_mm)
    assert head.choice("nape_center").tool.diameter_mm == concave[at - 1]
    one = Kit("one", (Tool(12.7, 15.7, 76.0, "concave", 60),))
    assert head_of(rulebook, kit=one).choice("nape_center").tool.diameter_mm == 12.7


def test_short_hair_takes_a_tool_thin_enough_for_its_turns(rulebook):
    """Two and a half turns make a curl, one and a half a wave (common practice); the reason says so."""
    head = head_of(rulebook, {"wish.curl": "soft"}, length=80.0)
    choice = head.choice("top")
    assert head.winding("top").turns >= 2.5
    assert "2.5 turns" in choice.because
    assert choice.because.count("so the tool is thinner") == 1
    hopeless = head_of(rulebook, length=12.0).choice("top")
    assert hopeless.tool.diameter_mm == min(sizes(BUILT_IN_KIT, "concave"))


@pytest.mark.parametrize(("curl", "turns"), [("body", 1.5), ("soft", 2.5), ("tight", 2.5)])
def test_body_needs_the_turns_of_a_wave(rulebook, curl, turns):
    """common practice."""
    assert turns_needed(curl, rulebook.values) == turns


def test_coily_hair_takes_a_tool_twice_its_own_curl_or_the_thickest(rulebook):
    """Natural coils count as 6 mm, so at least 12 mm (X8)."""
    coily = head_of(rulebook, {"hair.pattern": "coily", "wish.curl": "tight"})
    assert coily.choice("top").tool.diameter_mm == 12.7
    thin = Kit("thin", (Tool(6.4, 8.8, 76.0, "concave", 90), Tool(7.9, 10.3, 76.0, "concave", 90)))
    small = head_of(rulebook, {"hair.pattern": "coily", "wish.curl": "tight"}, kit=thin)
    assert small.choice("top").tool.diameter_mm == 7.9


@pytest.mark.parametrize(
    ("held", "taken"), [("straight", "straight"), ("flexible", "flexible"), ("long", "long")]
)
def test_kit_without_the_shape_gives_the_next_like_it(rulebook, held, taken):
    """A concave tool is wished; what is at hand is taken, a kind without a single tool is not at hand."""
    kit = Kit("k", (Tool(11.1, 13.8, 76.0, "concave", 0), Tool(12.7, 12.7, 200.0, held, 60)))
    assert head_of(rulebook, kit=kit).choice("top").tool.shape == taken


def test_spiral_winds_one_layer_of_one_size(rulebook):
    """Ends and scalp end curl alike; the tool with its hair is one layer thicker on both sides."""
    wound = head_of(rulebook, {"wish.look": "ringlets"}, length=300.0).winding("top")
    assert wound.curl_ends_mm == wound.curl_scalp_mm
    assert wound.wound_mm == pytest.approx(2 * wound.ends_mm - wound.tool.diameter_mm, rel=1e-6)


def test_double_tool_takes_about_half_the_turns(rulebook):
    """Each tool takes half the strand, and the ends curl tighter than the scalp end."""
    head = head_of(rulebook, {"wish.curl": "tight"}, length=320.0)
    assert head.decide("wrap", "top").value == "double_tool"
    double = head.winding("top")
    assert double.turns < 9.5
    assert double.curl_ends_mm < double.curl_scalp_mm


def test_croquignole_is_tighter_at_the_ends_by_what_the_layers_add(rulebook):
    """About a sixteenth of an inch on hair of middle length (common practice)."""
    wound = head_of(rulebook).winding("top")
    assert 0.5 < wound.scalp_mm - wound.ends_mm < 4
    assert wound.wound_mm >= wound.scalp_mm


@pytest.mark.parametrize(("volume", "gap"), [("high", 0.0), ("moderate", 11.1 / 2), ("low", 11.1)])
def test_gap_at_the_scalp_is_none_half_or_a_whole_tool(rulebook, volume, gap):
    """On base, half off, off base."""
    assert head_of(rulebook, {"wish.root_volume": volume}).winding("top").gap_mm == pytest.approx(gap)


def test_deeper_base_takes_fewer_tools(rulebook):
    """One and a half depths take about two thirds of the tools."""
    thin = {"hair.density": "thin", "wish.curl": "soft"}
    single = head_of(rulebook, {**thin, "wish.root_volume": "moderate"}).winding("top").count
    deeper = head_of(rulebook, {**thin, "wish.root_volume": "low"}).winding("top").count
    assert 0.5 * single <= deeper <= 0.8 * single
