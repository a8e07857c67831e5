"""A part of the head: which sections are wound, what the rest holds, and where test curls go."""

import pytest

from drill.rulebook.overlay import Change, Overlay, apply
from drill.service.head import Head
from drill.service.partial import tools_wanted, wound_zones
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES

PARTS = {
    "whole": set(ZONE_NAMES),
    "regrowth": set(ZONE_NAMES),
    "top": {"top", "left_side", "right_side", "back_center"},
    "crown": {"back_center", "top", "back_left", "back_right"},
    "nape": {"nape_left", "nape_center", "nape_right", "back_left", "back_center", "back_right"},
    "fringe": {"top", "left_side", "right_side"},
}


@pytest.mark.parametrize("part", sorted(PARTS))
def test_part_of_a_head_winds_itself_and_its_border(consult, rulebook, part):
    """What lies round a part fades the curl out."""
    assert set(wound_zones(Head(rulebook, consult(wish__part=part)))) == PARTS[part]


def test_border_takes_two_strands_and_a_double_wrap_two_tools_for_each(consult, rulebook):
    """No more than the parameter says."""
    short, long = (Head(rulebook, consult(length_mm=mm, wish__part="top")) for mm in (180.0, 500.0))
    assert tools_wanted(short, "left_side") == 2
    assert tools_wanted(short, "top") == short.winding("top").count
    assert long.decide("wrap", "left_side").value == "double_tool"
    assert tools_wanted(long, "left_side") == 4


def test_section_left_out_holds_nothing_and_is_still_listed(consult, rulebook):
    """No tools, no papers, no curl; the word is none."""
    plan = plan_to_plain(plan_service(rulebook, consult(wish__part="top")))
    assert list(plan["zones"]) == list(ZONE_NAMES)
    nape = plan["zones"]["nape_center"]
    assert nape["part"] == {"role": "left_out"}
    assert (nape["tools"], nape["papers_count"], nape["turns"], nape["curl_ends_mm"]) == ([], 0, 0.0, 0.0)
    assert (nape["layout"], nape["tool"]["shape"], nape["tool"]["diameter_mm"]) == ("none", "none", 0.0)
    tools = sum(share["count"] for zone in plan["zones"].values() for share in zone["tools"])
    assert plan["totals"]["tools"] == tools < 20
    assert plan["border"] == {"guard": "cream_and_cotton"}
    assert {one["zone"] for one in plan["trace"] if one["decision"] == "turns"} == PARTS["top"]
    roles = {one["zone"]: one["value"] for one in plan["trace"] if one["decision"] == "part.role"}
    assert set(roles) == set(ZONE_NAMES)
    assert roles["nape_center"] == "left_out"


def test_growth_against_the_wish_is_noted_only_where_it_is_wound(consult, rulebook):
    """Nothing is rolled in a section that is left out."""
    grows = consult(wish__part="top", growth={"nape_left": "up", "left_side": "up"})
    (note,) = plan_service(rulebook, grows).notes
    assert "left side" in note
    assert "nape" not in note


@pytest.mark.parametrize("part", ["top", "crown", "nape", "fringe"])
@pytest.mark.parametrize("porosity", ["average", "unknown"])
def test_test_curls_go_into_the_part_that_is_wound(consult, rulebook, part, porosity):
    """Two or three places of their own, none of them left out."""
    new = consult(porosity=porosity, wish__part=part, history__known="no")
    curls = plan_service(rulebook, new).test_curls
    assert 2 <= curls.count == len(set(curls.zones)) <= 3
    assert set(curls.zones) <= PARTS[part]


def test_local_rule_may_leave_one_section_or_none(consult, rulebook):
    """Then there are as many places as there are sections, and nothing to look at where none is wound."""
    rows = rulebook.tables["part.role"].rows
    only_top = next(row for row in rows if row.id == "middle-of-a-top-perm")
    for kept, places in ((("top",), ("top",)), ((), ())):
        changes = [
            Change(op="remove", target="part.role", at=row.id) for row in rows[2:-1] if row != only_top
        ]
        if not kept:
            changes.append(Change(op="remove", target="part.role", at=only_top.id))
        local = Overlay(
            id="ours", kind="local_rule", because="Ours.", source="common practice", changes=tuple(changes)
        )
        plan = plan_service(apply(rulebook, local), consult(wish__part="top", history__known="no"))
        assert plan.test_curls.zones == places
        assert plan.handling.winding_order == kept
        assert plan.handling.look_out.zones == kept


def test_regrowth_is_wound_everywhere_under_cover(consult, rulebook):
    """The old perm is guarded, and the plan says so in its steps."""
    plan = plan_service(rulebook, consult(wish__part="regrowth", history__weeks_since_perm=30.0))
    assert plan.verdict == "test_first"
    assert plan.handling.decisions["border.guard"] == "barrier_on_lengths"
    assert "guard_lengths" in [row.then for row in plan.steps]
