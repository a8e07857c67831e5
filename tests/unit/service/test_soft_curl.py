"""Natural curl against the wish, and the tool that loosens it."""

from dataclasses import replace

import pytest

from drill.service.facts import FACTS
from drill.service.head import Head
from drill.service.plan import plan_service


@pytest.mark.parametrize(
    ("curl", "pattern", "against"),
    [
        ("body", "straight", "tighter"), ("medium", "unknown", "unknown"), ("tight", "coily", "looser"),
        ("medium", "curly", "as_own"), ("soft", "curly", "looser"), ("tight", "curly", "tighter"),
        (30.0, "wavy", "as_own"), (17.5, "curly", "looser"), (17.4, "curly", "as_own"),
        (11.2, "curly", "tighter"), ("medium", "of_a_local_rule", "unknown"),
    ],
)  # fmt: skip
def test_wish_is_looser_from_a_quarter_wider_than_the_own_curl(rulebook, curl, pattern, against):
    """Own curls of 30, 14 and 6 mm; a quarter either way is her own."""
    assert FACTS["wish.against_natural"].compute((curl, pattern), rulebook.values) == against


@pytest.mark.parametrize(("pattern", "curl", "own_mm"), [("coily", "medium", 6.0), ("curly", "soft", 14.0)])
@pytest.mark.parametrize("length_mm", [60.0, 180.0])
def test_tool_is_never_thinner_than_twice_the_natural_curl_where_the_kit_has_it(
    consult, rulebook, *, pattern, curl, own_mm, length_mm
):
    """At least twice the natural curl (X8), also on hair too short for it; else the thickest there is."""
    head = Head(rulebook, consult(length_mm=length_mm, hair__pattern=pattern, wish__curl=curl))
    assert head.decide("soft_curl").value == "softening_first"
    thickest = max(tool.diameter_mm for tool in head.consultation.kit.tools if tool.shape == "concave")
    for zone in ("top", "nape_center"):
        assert head.choice(zone).tool.diameter_mm >= min(2 * own_mm, thickest)


def test_hair_too_short_for_the_curl_is_said(consult, rulebook):
    """The tool stays thick, so the turns are too few, and the plan says where."""
    short = consult(length_mm=80.0, hair__pattern="coily", growth={"top": "back"})
    (note,) = [one for one in plan_service(rulebook, short).notes if one.startswith("Too short")]
    assert "top" in note
    assert not plan_service(rulebook, consult(hair__pattern="coily")).notes


def test_shortest_strands_decide_the_tool_and_the_longest_how_thick_it_winds(consult, rulebook):
    """Layered hair of 6 to 18 cm; never measured, or longer than the longest, changes nothing."""
    even = consult()

    def layered(mm):
        zones = {name: {**values, "hair.shortest": mm} for name, values in even.zones.items()}
        return replace(even, zones=zones)

    plain = plan_service(rulebook, even).zones["top"]
    short = plan_service(rulebook, layered(60.0)).zones["top"]
    assert short.diameter_mm < plain.diameter_mm
    assert 2.5 <= short.turns_shortest < short.turns
    assert plain.turns_shortest == plain.turns
    assert plan_service(rulebook, layered(900.0)).zones["top"] == plain
    assert plan_service(rulebook, layered("unknown")).zones["top"] == plain
