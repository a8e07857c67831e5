"""One head under one rulebook."""

import pytest

from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.zones import ZONE_NAMES


@pytest.fixture
def head(rulebook):
    """A head fit for a perm."""
    known = {
        "service": "perm", "wish.curl": "medium", "scalp": "healthy", "history.reaction": "no",
        "history.relaxer": "none", "history.metallic_dye": "no", "health.treatment": "none",
        "hair.elasticity": "good", "history.known": "yes", "history.color": "none",
    }  # fmt: skip
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONE_NAMES}
    return Head(rulebook, Consultation(head=known, zones=zones))


def test_decision_of_the_head_is_one_for_all_zones(head):
    """A zone asks the head for what holds everywhere."""
    assert head.decide("verdict", "top") is head.decide("verdict")
    assert head.decide("verdict").zone is None


def test_decision_of_a_zone_knows_its_zone(head):
    """Each zone is evaluated once and remembered."""
    assert head.decide("layout", "top").zone == "top"
    assert head.zone("top") is head.zone("top")
    assert head.choice("top") is head.choice("top")
    assert head.winding("top") is head.winding("top")


def test_figure_of_a_formula_is_traced_as_computed(head):
    """Turns and curls have no row; their source is the formula's."""
    turns = head.decide("turns", "top")
    assert (turns.row, turns.source, turns.zone) == ("computed", "M1", "top")
    assert turns.value == round(head.winding("top").turns, 2)
    diameter = head.decide("tool.diameter_mm", "top")
    assert diameter.value == head.choice("top").tool.diameter_mm
    assert diameter.because == head.choice("top").because


@pytest.mark.parametrize(("decision", "zone"), [("turns", None), ("no_such", None), ("no_such", "top")])
def test_decision_that_a_plan_does_not_hold_is_refused(head, decision, zone):
    """Figures belong to a zone; an unknown name belongs nowhere."""
    with pytest.raises(KeyError):
        head.decide(decision, zone)
