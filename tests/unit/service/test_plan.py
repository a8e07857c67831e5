"""A plan: what is in it, what it has to settle, and its sums."""

from dataclasses import replace

import pytest

from drill.rulebook.overlay import Change, Overlay, apply
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.kit import BUILT_IN_KIT, Kit, Tool
from drill.service.plan import PAPERS_PER_TOOL, plan_service
from drill.service.zones import ZONE_NAMES

CLEAR = {
    "service": "perm", "wish.curl": "medium", "scalp": "healthy", "history.reaction": "no",
    "history.relaxer": "none", "history.metallic_dye": "no", "health.treatment": "none",
    "hair.elasticity": "good", "history.known": "yes", "history.color": "none", "hair.ends": "even",
    "history.weeks_since_perm": "never", "hair.strand": "medium", "hair.density": "average",
}  # fmt: skip


def consultation(changes=(), *, by_zone=None, kit=BUILT_IN_KIT, **zone):
    """Make a consultation; `by_zone` lays values on single zones."""
    zones = {
        name: {"hair.length": 180.0, "hair.porosity": "average", **zone, **(by_zone or {}).get(name, {})}
        for name in ZONE_NAMES
    }
    return Consultation(head={**CLEAR, **dict(changes)}, zones=zones, kit=kit)


def test_totals_are_the_sums_of_the_zones_with_spare_papers(rulebook):
    """Papers by how they lie, and a tenth and a bit beyond (common practice 10 to 15 in 100)."""
    plan = plan_service(rulebook, consultation({"hair.ends": "layered"}))
    tools = sum(share.count for zone in plan.zones.values() for share in zone.tools)
    assert plan.totals.tools == tools
    assert {zone.decisions["papers"] for zone in plan.zones.values()} == {"double_flat"}
    assert plan.totals.papers == round(2 * tools * 1.12)
    assert all(zone.papers_count == 2 * sum(one.count for one in zone.tools) for zone in plan.zones.values())
    assert PAPERS_PER_TOOL == {"bookend": 1, "double_flat": 2, "single_flat": 1, "none": 0}


def test_minutes_add_up_the_phases_of_the_service(rulebook):
    """A learner winds a tool in three minutes; test curls come on top, practice only winds."""
    values = rulebook.values

    def minutes(changes):
        plan = plan_service(rulebook, consultation(changes))
        return plan.totals.minutes - plan.totals.tools * values["timing.beginner_seconds"] / 60

    perm = minutes({})
    assert minutes({"history.known": "no"}) == pytest.approx(
        perm + values["timing.test_curls_minutes"], abs=1
    )
    assert 3 * 60 <= plan_service(rulebook, consultation()).totals.minutes <= 5 * 60
    assert minutes({"service": "practice_wrap"}) == pytest.approx(0, abs=1)
    assert minutes({"service": "wet_set"}) < perm


def test_double_tool_takes_twice_the_tools(rulebook):
    """Two tools a strand."""
    plan = plan_service(rulebook, consultation({"wish.curl": "tight"}, **{"hair.length": 320.0}))
    head = Head(rulebook, plan.consultation)
    zone = plan.zones["back_center"]
    assert zone.decisions["wrap"] == "double_tool"
    assert sum(share.count for share in zone.tools) == 2 * head.winding("back_center").count


def test_growth_against_the_wish_is_noted_for_the_zones_where_it_wins(rulebook):
    """The client is told why, in the words for the place."""
    against = {"nape_center": {"hair.growth": "up", "wish.wear": "down"}, "top": {"hair.growth": "back"}}
    plan = plan_service(rulebook, consultation(by_zone=against))
    assert plan.notes == ("Growth wins over the wish in: nape centre. Tell the client why.",)
    assert plan.zones["nape_center"].decisions["roll_direction"] == "up"
    assert plan_service(rulebook, consultation()).notes == ()


def test_kit_that_runs_short_is_noted_with_the_number(rulebook):
    """A drawer of ten tools does not do a head."""
    plan = plan_service(rulebook, consultation(kit=Kit("ten", (Tool(11.1, 13.8, 76.0, "concave", 10),))))
    assert plan.totals.tools == 10
    (note,) = plan.notes
    assert note.startswith("The kit lacks ")
    assert any(not zone.tools for zone in plan.zones.values())


@pytest.mark.parametrize(("free", "noted"), [(90.0, True), (600.0, False), ("unknown", False)])
def test_chair_that_is_free_too_short_is_noted(rulebook, free, noted):
    """Both times are said, so that a longer one can be booked."""
    plan = plan_service(rulebook, consultation({"appointment": free}))
    assert bool(plan.notes) == noted
    if noted:
        assert plan.notes == (
            f"The chair is free for 90 minutes; this takes about {plan.totals.minutes}. Book a longer time.",
        )


def test_service_that_is_not_done_has_nothing_to_work_with(rulebook):
    """No zones, no steps, no lotion, no minutes, no notes; what to do instead is said."""
    plan = plan_service(rulebook, consultation({"history.relaxer": "hydroxide", "appointment": 10.0}))
    assert (plan.verdict, plan.zones, plan.steps, plan.notes) == ("decline", {}, (), ())
    assert plan.lotion == {"class": "none", "strength": "none", "ester": "no", "heat": "none"}
    assert (plan.totals.tools, plan.totals.papers, plan.totals.minutes) == (0, 0, 0)
    assert plan.instead


def test_reasons_stand_strictest_first_and_without_idle_ones(rulebook):
    """What goes is no reason where something stops it; alone it is the reason."""
    plan = plan_service(
        rulebook, consultation({"scalp": "broken", "history.relaxer": "hydroxide", "history.known": "no"})
    )
    values = [row.then for row in plan.verdict_reasons]
    assert values == sorted(values, key=["decline", "postpone", "test_first"].index)
    assert "go" not in values
    assert [row.then for row in plan_service(rulebook, consultation()).verdict_reasons] == ["go"]


POROSITY = "hair.porosity"
NOT_FELT = {zone: {POROSITY: "unknown"} for zone in ZONE_NAMES}


@pytest.mark.parametrize(
    ("by_zone", "places"),
    [
        ({}, ("nape_center", "top", "left_side")),
        ({"back_left": {POROSITY: "porous"}}, ("nape_center", "back_left", "left_side")),
        ({"back_left": {POROSITY: "resistant"}}, ("back_left", "top", "left_side")),
        ({"left_side": {POROSITY: "porous"}}, ("nape_center", "left_side", "right_side")),
        (
            {"left_side": {POROSITY: "resistant"}, "right_side": {POROSITY: "overporous"}},
            ("left_side", "right_side", "top"),
        ),
        (NOT_FELT, ("nape_center", "top")),
        (
            NOT_FELT | {"top": {POROSITY: "average"}},
            ("top", "left_side"),
        ),
    ],
)
def test_test_curls_go_to_the_most_resistant_the_weakest_and_a_place_that_shows(rulebook, by_zone, places):
    """Two or three places of their own, whatever is known of the porosity."""
    plan = plan_service(rulebook, consultation({"history.known": "no"}, by_zone=by_zone))
    assert plan.test_curls.zones == places
    assert plan.test_curls.count == len(places)
    assert plan.test_curls.why


def test_school_that_makes_two_test_curls_keeps_the_extremes(rulebook):
    """The place that shows gives way, never the most resistant or the weakest one."""
    two = apply(
        rulebook,
        Overlay(
            id="two",
            kind="local_rule",
            because="b",
            source="s",
            changes=(Change(op="set", target="test_curls.count", value=2.0),),
        ),
    )
    porous = consultation({"history.known": "no"}, by_zone={"back_left": {POROSITY: "porous"}})
    assert plan_service(two, porous).test_curls.zones == ("nape_center", "back_left")


def test_head_without_doubt_has_no_places_and_says_why(rulebook):
    """In every plan, with its reason."""
    curls = plan_service(rulebook, consultation()).test_curls
    assert (curls.needed, curls.zones, curls.count, curls.steps) == (False, (), 0, ())
    assert curls.why


def test_trace_holds_every_decision_that_the_plan_shows(rulebook):
    """Each zone's decisions and figures, and the head's."""
    plan = plan_service(rulebook, consultation())
    traced = {(one.decision, one.zone): one.value for one in plan.trace}
    assert traced["verdict", None] == plan.verdict
    for name, zone in plan.zones.items():
        for decision, value in zone.decisions.items():
            assert traced[decision, name] == value
        assert traced["tool.diameter_mm", name] == zone.diameter_mm
        assert traced["turns", name] == zone.turns


def test_same_consultation_gives_the_same_plan(rulebook):
    """Nothing is left to chance, and the client's label decides nothing."""
    one = plan_service(rulebook, consultation())
    assert plan_service(rulebook, consultation()) == one
    named = plan_service(rulebook, replace(consultation(), client="Bo Lindqvist"))
    assert replace(named, consultation=one.consultation) == one
