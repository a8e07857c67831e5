"""Rules that keep a perm from harming, against what is published; see SOURCE.md."""

import csv
import random
from pathlib import Path

import pytest

from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.label import label_faults
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES

CYSTINE = {
    row["relaxer"]: float(row["cystine"])
    for row in csv.DictReader(
        Path(__file__).with_name("cystine.csv").read_text(encoding="utf-8").splitlines()
    )
}
SURE = {
    "service": "perm", "wish.curl": "medium", "scalp": "healthy", "history.known": "yes",
    "history.reaction": "no", "history.relaxer": "none", "history.metallic_dye": "no",
    "history.color": "none", "history.lightened": "none", "history.smoothing": "no",
    "history.weeks_since_perm": "never", "health.treatment": "none", "hair.elasticity": "good",
    "hair.pattern": "straight",
}  # fmt: skip


def plan_of(rulebook, *, porosity="average", **stated):
    """Plan a perm of a head that is sure but for what is stated."""
    head = SURE | {name.replace("__", "."): value for name, value in stated.items()}
    zones = {zone: {"hair.length": 180.0, "hair.porosity": porosity} for zone in ZONE_NAMES}
    return plan_service(rulebook, Consultation(head=head, zones=zones))


def drawn(rulebook, rng, **kept):
    """Draw every field of the whole head anew but those that are kept."""
    head = {
        name: rng.choice(domain.values or (10.0,))
        for name, domain in rulebook.domains.items()
        if domain.entered and domain.per == "head"
    }
    head |= {"service": "perm", **{name.replace("__", "."): value for name, value in kept.items()}}
    zones = {
        zone: {"hair.length": 180.0, "hair.porosity": rng.choice(("average", "porous", "unknown"))}
        for zone in ZONE_NAMES
    }
    return Consultation(head=head, zones=zones)


@pytest.mark.parametrize("relaxer", ["hydroxide", "unsure"])
def test_hydroxide_relaxer_declines_whatever_else_is_so(rulebook, relaxer):
    """What has become lanthionine no lotion opens again; a relaxer that nobody can name counts as one."""
    rng = random.Random(relaxer)
    for _ in range(300):
        head = drawn(rulebook, rng, history__relaxer=relaxer)
        assert Head(rulebook, head).decide("verdict").value == "decline", head.head


def test_no_lye_is_not_the_milder_one(rulebook):
    """It took 56 % of the cystine, lye 14 %: a relaxer that nobody can name is counted as the worse."""
    lost = {name: 1 - left / CYSTINE["before"] for name, left in CYSTINE.items()}
    assert lost["no_lye"] == pytest.approx(0.56, abs=0.005)
    assert lost["lye"] == pytest.approx(0.14, abs=0.005)
    reasons = " ".join(row.because for row in plan_of(rulebook, history__relaxer="unsure").verdict_reasons)
    assert "no-lye" in reasons


def test_no_head_is_planned_an_ester(rulebook):
    """It stays on permed hair for three months; one region refuses it, and nobody needs it."""
    rng = random.Random("ester")
    for _ in range(300):
        assert Head(rulebook, drawn(rulebook, rng)).decide("waving_lotion.ester").value == "no"
    assert plan_of(rulebook, porosity="porous").lotion["ester"] == "no"
    usual = {"use": "professional", "percent": 1.0, "ph": 7.0}
    assert label_faults("Canada", "thioglycolate_ester", **usual)
    assert not label_faults("EU", "thioglycolate_ester", **usual)


@pytest.mark.parametrize("porosity", ["average", "porous"])
def test_salt_and_ester_are_both_said_to_sensitise(rulebook, porosity):
    """The belief that only the ester does comes out wrong in every plan with lotion."""
    said = " ".join(row.because + " " + row.say for row in plan_of(rulebook, porosity=porosity).cautions)
    assert "Salt and ester of thioglycolic acid both can make the skin allergic" in said


@pytest.mark.parametrize(
    ("months", "verdict"),
    [(0.0, "postpone"), (5.9, "postpone"), (6.0, "test_first"), ("unknown", "ask_first")],
)
def test_chemotherapy_puts_it_off_for_half_a_year(rulebook, months, verdict):
    """And after that the hair is tested first."""
    plan = plan_of(rulebook, health__treatment="chemotherapy", health__months_since=months)
    assert plan.verdict == verdict


@pytest.mark.parametrize(
    "stated",
    [
        {"scalp": "irritated"},
        {"scalp": "broken"},
        {"scalp": "unknown"},
        {"history__reaction": "yes"},
        {"history__reaction": "unknown"},
        {"history__relaxer": "unknown"},
        {"history__metallic_dye": "unknown"},
        {"history__color": "permanent", "history__lightened": "unknown"},
    ],
    ids=lambda stated: "-".join(stated.values()),
)
def test_each_thing_that_a_published_outline_asks_first_stops_it_alone(rulebook, stated):
    """Wounds, irritation, allergies, past chemical services: found or not asked."""
    assert plan_of(rulebook).verdict == "go"
    assert plan_of(rulebook, **stated).verdict not in ("go", "test_first")


@pytest.mark.parametrize("stated", [{"hair__elasticity": "unknown"}, {"porosity": "unknown"}])
def test_no_lotion_is_chosen_before_elasticity_and_porosity_are_tested(rulebook, stated):
    """Both tests are in every published curriculum that we know."""
    plan = plan_of(rulebook, **stated)
    assert plan.lotion["class"] == "none"
    assert [row.then for row in plan.tests][:3] == ["scalp_look", "porosity", "elasticity"]
