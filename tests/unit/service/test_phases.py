"""How long each phase takes, at whose pace."""

import pytest

from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain


def phases(rulebook, consultation):
    return {phase.name: phase.minutes for phase in plan_service(rulebook, consultation).phases}


def test_phases_of_a_perm_stand_in_order_and_add_up(consult, rulebook):
    """Their sum is the time in the chair."""
    plan = plan_to_plain(plan_service(rulebook, consult()))
    assert [one["name"] for one in plan["phases"]] == [
        "before", "winding", "saturation", "processing", "rinse", "blot", "neutraliser", "take_down",
        "finish",
    ]  # fmt: skip
    assert sum(one["minutes"] for one in plan["phases"]) == plan["totals"]["minutes"]


@pytest.mark.parametrize(
    ("pace", "low", "high"), [("beginner", 150, 240), ("exam_ready", 55, 75), ("stylist", 25, 40)]
)
def test_winding_goes_at_the_pace_of_whoever_winds(consult, rulebook, pace, low, high):
    """Seconds a tool: 150 to 240, 55 to 75, 25 to 40 (common practice)."""
    plan = plan_service(rulebook, consult(pace=pace))
    winding = next(phase.minutes for phase in plan.phases if phase.name == "winding")
    assert low <= winding * 60 / plan.totals.tools <= high


def test_whole_visit_of_a_stylist_takes_two_to_two_and_a_half_hours(consult, rulebook):
    """Common practice; a known client with short hair."""
    assert 120 <= plan_service(rulebook, consult(pace="stylist")).totals.minutes <= 150


def test_pace_left_out_is_a_beginner(consult, rulebook):
    """A plan never promises the chair too early."""
    assert phases(rulebook, consult()) == phases(rulebook, consult(pace="beginner"))


def test_test_curls_and_softening_take_their_own_time(consult, rulebook):
    """A soft curl is softened and tested first."""
    usual, soft = phases(rulebook, consult()), phases(rulebook, consult(hair__pattern="coily"))
    assert set(soft) - set(usual) == {"test_curls", "softening"}
    assert soft["softening"] == rulebook.values["timing.softening_minutes"]


def test_set_dries_and_practice_only_winds(consult, rulebook):
    """And what is not done takes no time."""
    assert list(phases(rulebook, consult(service="wet_set"))) == [
        "before", "winding", "dry", "take_down", "finish",
    ]  # fmt: skip
    assert list(phases(rulebook, consult(service="practice_wrap"))) == ["winding"]
    assert phases(rulebook, consult(scalp="broken")) == {}
