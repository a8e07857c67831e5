"""A plan's tools laid out to be drawn."""

from dataclasses import replace

import pytest

from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD
from drill.service.laid_plan import head_of, lay_out_plan
from drill.service.layout_rows import tools_laid
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES


def counted(plan):
    return {name: sum(share.count for share in zone.tools) for name, zone in plan.zones.items()}


def changed(plan, zone, **decisions):
    old = plan.zones[zone]
    return replace(
        plan,
        zones={**plan.zones, zone: replace(old, decisions={**old.decisions, **decisions})},
    )


@pytest.mark.parametrize(
    "stated",
    [
        {},
        {"hair__strand": "fine", "hair__density": "thin"},
        {"wish__look": "ringlets", "length_mm": 380.0},
        {"length_mm": 460.0},
        {"length_mm": 90.0, "wish__curl": "tight"},
        {"service": "practice_wrap"},
        {"service": "wet_set"},
    ],
    ids=str,
)
def test_as_many_tools_are_drawn_as_the_plan_has_counted(rulebook, consult, stated):
    """Strand for strand, a double wrap with two on each."""
    plan = plan_service(rulebook, consult(**stated))
    laid = lay_out_plan(plan, rulebook=rulebook)
    assert tuple(laid) == ZONE_NAMES
    for name, zone in laid.items():
        assert zone.tools == counted(plan)[name] > 0
        assert tools_laid(zone.bases) * (2 if zone.stacked else 1) == zone.tools
        assert (zone.base_direction, zone.roll_direction) == (
            plan.zones[name].decisions["base_direction"],
            plan.zones[name].decisions["roll_direction"],
        )
    assert laid["top"].stacked is (plan.zones["top"].decisions["wrap"] == "double_tool")


def test_a_practice_wrap_lies_on_the_smaller_head(rulebook, consult):
    """And takes fewer tools."""
    live, practice = (plan_service(rulebook, consult(service=name)) for name in ("perm", "practice_wrap"))
    assert (head_of(live), head_of(practice)) == (LIVE_HEAD, PRACTICE_HEAD)
    assert practice.totals.tools < live.totals.tools
    assert {zone.head for zone in lay_out_plan(practice).values()} == {PRACTICE_HEAD}


def test_a_service_that_is_not_done_lays_out_nothing(rulebook, consult):
    """There are no tools."""
    assert lay_out_plan(plan_service(rulebook, consult(scalp="broken"))) == {}


@pytest.mark.parametrize(
    ("part", "bordered", "last_row"),
    [("top", "left_side", False), ("crown", "top", True), ("nape", "back_center", True)],
)
def test_a_border_has_a_few_tools_beside_what_is_wound(rulebook, consult, part, bordered, last_row):
    """On bases as deep as there, at the end that meets it; what is left out is bare."""
    plan = plan_service(rulebook, consult(wish__part=part))
    laid = lay_out_plan(plan, rulebook=rulebook)
    assert plan.zones[bordered].role == "border"
    assert set(laid) == {name for name, zone in plan.zones.items() if zone.role != "left_out"}
    few = laid[bordered]
    assert tools_laid(few.bases) == few.tools == counted(plan)[bordered]
    ends = {base.center_mm[1] < 30 for base in few.bases}
    assert ends == {not last_row}
    assert all(base.woven for base in few.bases)


def test_a_border_of_nothing_is_laid_out_all_the_same(rulebook, consult):
    """A local rule may leave the middle out."""
    plan = plan_service(rulebook, consult(wish__part="top"))
    alone = replace(plan, zones={"left_side": plan.zones["left_side"]})
    assert tools_laid(lay_out_plan(alone)["left_side"].bases) == counted(plan)["left_side"]


def test_a_border_that_takes_more_than_there_is_room_for_is_full(rulebook, consult):
    """Every base of it has a tool."""
    plan = plan_service(rulebook, consult(wish__part="top"))
    side = plan.zones["left_side"]
    many = replace(side, tools=(replace(side.tools[0], count=60),))
    laid = lay_out_plan(replace(plan, zones={**plan.zones, "left_side": many}))
    assert 5 <= len(laid["left_side"].bases) < 60


def test_values_of_a_local_rule_are_drawn_as_what_they_count_as(rulebook, consult):
    """And as the commonest where the rules are not at hand."""
    plan = plan_service(rulebook, consult())
    own = changed(plan, "top", layout="fan_of_ours", roll_direction="sideways", base_direction="zigzag")
    assert lay_out_plan(own)["top"].roll_direction == "down"

    class Widened:
        def built_in(self, decision, value):
            return {"fan_of_ours": "weave", "sideways": "left", "zigzag": "diagonal"}.get(value, value)

    top = lay_out_plan(own, rulebook=Widened())["top"]
    assert (top.roll_direction, top.base_direction) == ("left", "diagonal")
    assert tools_laid(top.bases) == counted(plan)["top"]
