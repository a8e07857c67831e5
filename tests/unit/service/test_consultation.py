"""A consultation: what is known, what is left out, and its written form."""

import pytest

from drill.service.consultation import (
    Consultation,
    consultation_to_plain,
    head_inputs,
    kit_to_plain,
    zone_inputs,
)
from drill.service.kit import BUILT_IN_KIT, Kit, Tool
from drill.service.zones import ZONE_NAMES


def consultation(head=(), top=(), **zone):
    """Make a consultation; `zone` holds for every zone, `top` for the top beside it."""
    zones = {name: {"hair.length": 180.0, **zone} for name in ZONE_NAMES}
    zones["top"] |= dict(top)
    return Consultation(head={"service": "perm", "wish.curl": "medium", **dict(head)}, zones=zones)


def test_what_is_left_out_is_unknown_but_growth_and_blend_are_none():
    """Nobody writes down that nothing grows the wrong way."""
    one = consultation()
    assert one.of("scalp") == "unknown"
    assert one.of("hair.porosity", "top") == "unknown"
    assert one.of("hair.growth", "top") == "none"
    assert one.of("wish.blend", "top") == "no"


def test_value_of_a_zone_stands_before_that_of_the_head():
    """A zone's own word counts; the head's is for zones that have none."""
    one = consultation({"wish.wear": "down"}, {"wish.wear": "back"})
    assert one.of("wish.wear", "top") == "back"
    assert one.of("wish.wear", "nape_left") == "down"
    assert one.each_zone("wish.wear") == ("back", *["down"] * 8)


def test_written_form_is_what_a_person_would_write():
    """Alike in all zones is written once; unknown is left out; lengths have their unit, spans none."""
    one = Consultation(
        head={
            "service": "perm",
            "wish.curl": 13.0,
            "scalp": "unknown",
            "history.weeks_since_perm": 6.0,
            "history.weeks_since_color": 1.5,
        },
        zones={
            name: {
                "hair.length": 180.0,
                "hair.growth": "none" if name != "top" else "whorl",
                "wish.blend": "yes" if name == "left_side" else "no",
                "hair.porosity": "porous" if name == "top" else "unknown",
            }
            for name in ZONE_NAMES
        },
        client="Ada Reyes",
        kit=Kit("one", (Tool(9.525, 12.0, 76.2, "concave", 3),)),
    )
    assert consultation_to_plain(one) == {
        "client": "Ada Reyes",
        "service": "perm",
        "wish": {"curl": "13 mm", "blend": ["left_side"]},
        "history": {"weeks_since_perm": 6, "weeks_since_color": 1.5},
        "hair": {"length": "180 mm", "growth": {"top": "whorl"}, "porosity": {"top": "porous"}},
        "kit": {
            "name": "one",
            "tools": [
                {
                    "diameter": "9.525 mm",
                    "rim_diameter": "12 mm",
                    "length": "76.2 mm",
                    "shape": "concave",
                    "count": 3,
                }
            ],
        },
    }


def test_what_no_zone_states_is_not_written():
    """An empty growth or a wear that nobody stated has no key."""
    plain = consultation_to_plain(consultation(**{"hair.growth": "none", "wish.wear": "unknown"}))
    assert plain["hair"] == {"length": "180 mm"}
    assert "wear" not in plain["wish"]
    assert "client" not in plain


def test_growth_alike_everywhere_is_still_written_zone_by_zone():
    """A head has no one growth."""
    plain = consultation_to_plain(consultation(**{"hair.growth": "down"}))
    assert plain["hair"]["growth"] == dict.fromkeys(ZONE_NAMES, "down")


@pytest.mark.parametrize("length", [186.26666666666668, 299.9999999, 0.1 + 0.2])
def test_length_is_written_to_the_last_digit(length):
    """Rounded, a length could cross the bound of a rule."""
    one = consultation()
    zones = {name: {"hair.length": length} for name in ZONE_NAMES}
    text = consultation_to_plain(Consultation(head=one.head, zones=zones))["hair"]["length"]
    assert float(text.removesuffix(" mm")) == length


def test_kit_is_written_tool_by_tool():
    """As many entries as the kit has kinds of tools."""
    plain = kit_to_plain(BUILT_IN_KIT)
    assert plain["name"] == "built-in"
    assert len(plain["tools"]) == len(BUILT_IN_KIT.tools)
    assert plain["tools"][3]["rim_diameter"] == "12 mm"


@pytest.mark.parametrize(
    ("top", "rest", "weakest", "strongest", "even"),
    [
        ("average", "average", "average", "average", "yes"),
        ("overporous", "resistant", "overporous", "resistant", "no"),
        ("unknown", "resistant", "unknown", "unknown", "unknown"),
        ("unknown", "overporous", "overporous", "unknown", "unknown"),
    ],
)
def test_extremes_of_porosity_are_those_of_nine_zones(top, rest, weakest, strongest, even):
    """One zone that nobody felt leaves the head's extremes unknown, but nothing is weaker than overporous."""
    inputs = head_inputs(
        consultation(top={"hair.porosity": top}, **{"hair.porosity": rest}), still_there={"perm.left": "none"}
    )
    assert inputs["porosity.weakest"] == weakest
    assert inputs["porosity.strongest"] == strongest
    assert inputs["porosity.even"] == even


def test_longest_and_shortest_are_those_of_nine_zones():
    """And what is left of an old perm is handed on."""
    inputs = head_inputs(consultation(top={"hair.length": 90.0}), still_there={"perm.left": "part"})
    assert (inputs["length.longest"], inputs["length.shortest"]) == (180.0, 90.0)
    assert inputs["perm.left"] == "part"


def test_zone_reads_its_own_values_and_its_name():
    """Growth and blend are filled in."""
    assert zone_inputs(consultation(), "top") == {
        "hair.growth": "none",
        "wish.blend": "no",
        "hair.length": 180.0,
        "zone": "top",
    }
