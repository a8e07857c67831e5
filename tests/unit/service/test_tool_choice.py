"""A wish meets a kit: how often hair goes round the tool that is taken, and what may stand in for it."""

from dataclasses import replace

import pytest

from drill.rulebook.condition import Condition, Range
from drill.rulebook.overlay import Change, Overlay, apply
from drill.service.head import Head
from drill.service.kit import Kit, Tool
from drill.service.plan import plan_service
from drill.service.tool_choice import fill_ins
from drill.service.zones import ZONE_NAMES

NAPE = ("nape_left", "nape_center", "nape_right")


def concave(*sizes):
    """Make a kit of concave tools, sixty of each size unless stated as a pair."""
    pairs = [one if isinstance(one, tuple) else (one, 60) for one in sizes]
    return Kit("k", tuple(Tool(mm, mm + 2.5, 76.0, "concave", count) for mm, count in pairs))


def with_kit(consultation, kit):
    """Lay another kit beside the same head."""
    return replace(consultation, kit=kit)


def test_wrap_counts_turns_on_the_tool_of_the_nape_and_not_on_the_wished_one(consult, rulebook):
    """At 18 cm a tight curl fits on the everyday tool on top; one size smaller at the nape it does not."""
    head = Head(rulebook, consult(length_mm=180.0, wish__curl="tight"))
    assert head.decide("wrap", "top").value == "croquignole"
    assert head.decide("wrap", "nape_center").value == "double_tool"
    read = head.decide("wrap", "nape_center").read["turns_on_one_tool"]
    assert read > 9 > head.decide("wrap", "top").read["turns_on_one_tool"]


@pytest.mark.parametrize("curl", ["tight", "medium", "soft", "body", 9.0, 20.0])
@pytest.mark.parametrize("length_mm", [90.0, 150.0, 190.0, 240.0, 310.0, 420.0])
def test_nothing_wound_over_and_over_has_more_than_nine_turns(consult, rulebook, curl, length_mm):
    """On the tool that is used; after nine or ten turns lotion does not reach the inner ones."""
    for look in ("waves", "ringlets"):
        plan = plan_service(rulebook, consult(length_mm=length_mm, wish__curl=curl, wish__look=look))
        for zone in plan.zones.values():
            if zone.decisions["wrap"] == "croquignole":
                assert zone.turns <= 9


@pytest.mark.parametrize(
    ("curl", "kit", "wrap"),
    [
        ("body", concave(6.4), "double_tool"),  # the drawer has no wide tool
        ("tight", concave(19.0), "croquignole"),  # the drawer has no thin one
    ],
)
def test_wrap_is_decided_on_what_the_kit_holds(consult, rulebook, curl, kit, wrap):
    """The wished size says nothing about a tool that is not there."""
    plan = plan_service(rulebook, with_kit(consult(length_mm=250.0, wish__curl=curl), kit))
    assert {zone.decisions["wrap"] for zone in plan.zones.values()} == {wrap}


def test_what_the_wrap_reads_follows_a_supposed_size(consult, rulebook):
    """Who would take one size smaller everywhere counts the turns on that."""
    head = Head(rulebook, consult(length_mm=180.0, wish__curl="tight"))
    other = head.supposing(head.decide("tool.size", "top"), "one_smaller")
    assert other.decide("wrap", "top").value == "double_tool"


def test_same_size_and_the_next_on_either_side_fill_in_the_nearer_first(consult, rulebook):
    """Two lengths of one size count as one; what lies further off is another curl."""
    long = Tool(11.1, 13.6, 90.0, "concave", 5)
    kit = concave(6.4, 9.5, 11.1, 12.7, 15.9)
    kit = replace(kit, tools=(*kit.tools, long))
    head = Head(rulebook, with_kit(consult(), kit))
    found = fill_ins(head.zone("top"), kit, head.choice("top").tool)
    assert [tool.diameter_mm for tool in found] == [11.1, 9.5, 12.7] or [
        tool.diameter_mm for tool in found
    ] == [11.1, 12.7, 9.5]
    assert found[0] == long


def test_nothing_fills_in_that_breaks_the_wrap_or_the_curl(consult, rulebook):
    """A thinner tool would pile up more than ten turns, a thicker one leave fewer than two and a half."""
    kit = concave(4.8, 6.4, 19.0)
    piled = Head(rulebook, with_kit(consult(length_mm=196.0, wish__curl="tight"), kit))
    assert piled.choice("top").tool.diameter_mm == 6.4
    assert piled.decide("wrap", "top").value == "croquignole"
    assert [tool.diameter_mm for tool in piled.fill_ins("top")] == [19.0]
    kit = concave(9.5, 12.7)
    short = Head(rulebook, with_kit(consult(length_mm=90.0), kit))
    assert short.choice("top").tool.diameter_mm == 9.5
    assert short.fill_ins("top") == ()


def test_nothing_fills_in_that_is_thinner_than_softened_curl_allows(consult, rulebook):
    """Coils of 6 mm take 12 mm or more (X8)."""
    kit = concave(9.5, 12.7, 14.3)
    head = Head(rulebook, with_kit(consult(hair__pattern="coily", wish__curl="medium"), kit))
    assert head.decide("soft_curl").value == "softening_first"
    assert [tool.diameter_mm for tool in head.fill_ins("top")] == [14.3]


def test_plan_says_where_two_sizes_are_mixed_and_how_many_tools_lack(consult, rulebook):
    """Twelve of one size and twenty of the next do not go round a head."""
    plan = plan_service(rulebook, with_kit(consult(), concave((11.1, 12), (12.7, 20))))
    taken = sum(share.count for zone in plan.zones.values() for share in zone.tools)
    assert plan.totals.tools == taken == 32
    text = " ".join(plan.notes)
    mixed = [one for one in plan.zones.values() if any(two.diameter_mm != 11.1 for two in one.tools)]
    assert mixed
    assert "The chosen size runs out in: " in text
    assert "The kit lacks" in text


@pytest.mark.parametrize("strand", ["fine", "medium", "coarse"])
@pytest.mark.parametrize("density", ["thin", "average", "thick"])
@pytest.mark.parametrize("look", ["waves", "ringlets"])
def test_built_in_kit_does_for_every_whole_head(consult, rulebook, strand, density, look):
    """From 1 cm to 80 cm, of every curl, at every depth of base, no tool lacks."""
    for curl in ("tight", "medium", "soft", "body"):
        for length_mm in (10.0, 60.0, 120.0, 180.0, 230.0, 320.0, 480.0, 800.0):
            head = consult(
                length_mm=length_mm,
                hair__strand=strand,
                hair__density=density,
                wish__curl=curl,
                wish__look=look,
                wish__root_volume="low",
            )
            plan = plan_service(rulebook, head)
            assert not [note for note in plan.notes if "lacks" in note], (curl, length_mm)
            assert set(plan.zones) == {*ZONE_NAMES}


@pytest.mark.parametrize(
    "when",
    [
        {"wrap": Condition(values=("double_tool",))},
        {"turns_on_one_tool": Condition(ranges=(Range(low=9.0, with_low=False),))},
    ],
    ids=lambda when: next(iter(when)),
)
def test_local_rule_about_the_size_may_read_the_wrap_that_rests_on_it(consult, rulebook, when):
    """Each is decided: the turns are counted as if the everyday wrap were, which ends the round."""
    row = replace(rulebook.tables["tool.size"].rows[-1], id="local", when=when, then="one_larger")
    change = Change(op="add", target="tool.size", at="twice-the-natural-coil", row=row)
    overlay = Overlay(id="local", kind="local_rule", because="b", source="s", changes=(change,))
    head = Head(apply(rulebook, overlay), consult(length_mm=320.0, wish__curl="tight"))
    assert head.decide("tool.size", "top").row == "local"
    assert head.decide("wrap", "top").value == "double_tool"
    assert head.choice("top").tool.diameter_mm == 7.9
