"""Where hands start, in which order, where they look, and what is done from rinse to door."""

from dataclasses import replace

import pytest

from drill.service.handling import LISTS
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES


def handling(rulebook, consultation):
    return plan_service(rulebook, consultation).handling


def uneven(consultation, **by_zone):
    zones = {
        name: {**values, "hair.porosity": by_zone.get(name, "average")}
        for name, values in consultation.zones.items()
    }
    return replace(consultation, zones=zones)


def test_everyday_head_is_wound_from_the_crown_and_wetted_from_the_nape(consult, rulebook):
    """Crown down the centre back, back sides, sides, top; lotion from the nape to the front hairline."""
    plan = handling(rulebook, consult())
    assert plan.winding_order == (
        "back_center", "nape_center", "back_left", "back_right", "nape_left", "nape_right", "left_side",
        "right_side", "top",
    )  # fmt: skip
    assert plan.saturation_order[0] == "nape_center"
    assert plan.saturation_order[-1] == "top"
    assert set(plan.saturation_order) == set(ZONE_NAMES)


@pytest.mark.parametrize(
    ("stated", "first"),
    [
        ({"wish__look": "ringlets", "length_mm": 260.0}, "nape_center"),
        ({"wish__part": "fringe"}, "top"),
        ({"wish__part": "nape"}, "nape_center"),
        ({"service": "practice_wrap"}, "back_center"),
    ],
)
def test_winding_starts_where_the_shape_asks(consult, rulebook, stated, first):
    """Coils from the nape up, a front part at its hairline, practice at the crown (X2)."""
    assert handling(rulebook, consult(**stated)).winding_order[0] == first


def test_most_resistant_place_gets_lotion_first_and_the_weakest_last(consult, rulebook):
    """And the weakest is looked at first (X2: saturation, common practice: the look)."""
    plan = handling(rulebook, uneven(consult(), top="porous", back_left="resistant"))
    assert (plan.saturation_order[0], plan.saturation_order[-1]) == ("back_left", "top")
    assert plan.look_out.zones == ("top",)


def test_even_head_is_looked_at_where_lotion_went_on_first(consult, rulebook):
    """Whatever the reason to look early."""
    plan = handling(rulebook, consult())
    assert plan.look_out.zones == plan.saturation_order[:1]
    weak = handling(rulebook, consult(hair__elasticity="reduced"))
    assert weak.decisions["look_out.place"] == "weakest_place"
    assert weak.look_out.zones == weak.saturation_order[:1]


def test_first_look_comes_within_two_minutes_and_sooner_on_doubt(consult, rulebook):
    """Half of the bonds were open after about two minutes in one solution (H1)."""
    usual, close = (handling(rulebook, consult(porosity=one)).look_out for one in ("average", "porous"))
    assert (usual.first_min, usual.again_min) == (2.0, 2.0)
    assert (close.first_min, close.again_min) == (1.0, 1.0)


def test_set_has_no_lotion_to_order_or_watch(consult, rulebook):
    """Nothing to saturate, nothing to look at."""
    plan = handling(rulebook, consult(service="wet_set"))
    assert plan.saturation_order == ()
    assert (plan.look_out.zones, plan.look_out.first_min, plan.look_out.again_min) == ((), 0.0, 0.0)


def test_practice_is_wetted_in_the_order_of_winding(consult, rulebook):
    """Its first three tools are shown (X2)."""
    plan = handling(rulebook, consult(service="practice_wrap"))
    assert plan.saturation_order == plan.winding_order


def test_service_that_is_not_done_is_handled_nowhere(consult, rulebook):
    """Every word is none, every list empty."""
    plan = plan_to_plain(plan_service(rulebook, consult(scalp="broken")))
    assert plan_service(rulebook, consult(scalp="broken")).handling is None
    assert (plan["winding"], plan["saturation"]) == ({"start": "none", "order": []},) * 2
    assert plan["look_out"] == {
        "place": "none", "pace": "none", "zones": [], "first_min": 0.0, "again_min": 0.0,
    }  # fmt: skip
    assert plan["soft_curl"] == "no"  # what stops softening may stop the service
    assert {plan[name] for name in ("cut", "equaliser", "wet_with", "spray")} == {"none"}
    assert [plan[name] for name in LISTS] == [[]] * len(LISTS)


def test_every_perm_that_works_says_what_is_done_from_rinse_to_door(consult, rulebook):
    """In words, with the maker's full time and the maker's care among them."""
    plan = plan_to_plain(plan_service(rulebook, consult()))
    assert all(plan[name] for name in LISTS)
    assert "at least five minutes" in " ".join(plan["rinse"])
    assert "full time" in " ".join(plan["neutralise"])
    assert "As the maker says" in " ".join(plan["after_care"])
