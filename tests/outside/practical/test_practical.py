"""A practice wrap against what a published practical examination marks; see SOURCE.md."""

import csv
from pathlib import Path

import pytest

from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES

MARKED = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))
CENTRE_BACK = ("back_center", "nape_center")
MINUTES = 20


def wrapped(rulebook, **stated):
    """Plan a practice wrap of a usual practice head."""
    head = {"service": "practice_wrap", "wish.curl": "medium", "pace": "exam_ready"}
    head |= {name.replace("__", "."): value for name, value in stated.items()}
    zones = {zone: {"hair.length": 180.0} for zone in ZONE_NAMES}
    return plan_service(rulebook, Consultation(head=head, zones=zones))


@pytest.mark.parametrize("service", ["practice_wrap", "perm"])
def test_everything_that_is_marked_is_a_step_in_that_order(rulebook, service):
    """Eight of them, in a practice wrap and in the service that it stands for."""
    sure = {
        "scalp": "healthy", "history__known": "yes", "history__reaction": "no", "history__relaxer": "none",
        "history__metallic_dye": "no", "history__color": "none", "health__treatment": "none",
        "hair__elasticity": "good",
    }  # fmt: skip
    head = {name.replace("__", "."): value for name, value in sure.items()}
    head |= {"service": service, "wish.curl": "medium"}
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONE_NAMES}
    plan = plan_service(rulebook, Consultation(head=head, zones=zones))
    steps = [step.then for step in plan.steps]
    places = [steps.index(row["step"]) for row in MARKED]
    assert len(MARKED) == 8
    assert places == sorted(places)


def test_saturation_is_shown_on_three_tools_with_water(rulebook):
    """Nobody meets lotion in an examination."""
    plan = wrapped(rulebook)
    (step,) = (one for one in plan.steps if one.then == "saturate_first")
    assert "three" in step.say
    assert "water" in step.say
    assert plan.lotion["class"] == "none"


@pytest.mark.parametrize("curl", [11.5, "medium", 16.0, "soft"])
def test_centre_back_is_wound_within_its_minutes(rulebook, curl):
    """By a student who is ready, on the medium and large tools that an examination is wound with."""
    plan = wrapped(rulebook, wish__curl=curl)
    tools = sum(share.count for zone in CENTRE_BACK for share in plan.zones[zone].tools)
    for seconds in (55, rulebook.values["timing.exam_ready_seconds"], 75):
        assert tools * seconds <= MINUTES * 60
    assert {plan.zones[zone].decisions["wrap"] for zone in CENTRE_BACK} == {"croquignole"}


def test_beginner_does_not_make_it(rulebook):
    """At 150 seconds a tool the section takes longer than the examination gives: that is what is drilled."""
    plan = wrapped(rulebook, pace="beginner")
    tools = sum(share.count for zone in CENTRE_BACK for share in plan.zones[zone].tools)
    assert tools * 150 > MINUTES * 60
