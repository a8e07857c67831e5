"""Which missing fact is asked first."""

import pytest

from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES

CLEAR = {
    "service": "perm", "wish.curl": "medium", "scalp": "healthy", "history.reaction": "no",
    "history.relaxer": "none", "history.metallic_dye": "no", "health.treatment": "none",
    "hair.elasticity": "good", "history.known": "yes", "history.color": "none",
    "history.lightened": "none",
}  # fmt: skip


def asked(rulebook, changes=(), porosity="average"):
    """Plan and give what is asked, in order."""
    zones = {zone: {"hair.length": 180.0, "hair.porosity": porosity} for zone in ZONE_NAMES}
    return plan_service(rulebook, Consultation(head={**CLEAR, **dict(changes)}, zones=zones)).ask_first


def fields(found):
    """Name the fields asked."""
    return [one.field for one in found]


def test_nothing_is_asked_where_all_is_known(rulebook):
    """A clear head has no question left."""
    assert asked(rulebook) == ()


@pytest.mark.parametrize(
    "name",
    [
        "scalp", "history.reaction", "history.relaxer", "history.metallic_dye", "health.treatment",
        "hair.elasticity", "history.known",
    ],
)  # fmt: skip
def test_missing_fact_is_asked_with_how_and_why(rulebook, name):
    """The vocabulary's own question, alone."""
    (one,) = asked(rulebook, {name: "unknown"})
    domain = rulebook.domains[name]
    assert (one.field, one.ask, one.because) == (name, domain.ask, domain.because)
    assert one.answers == len(domain.values) - 1


def test_porosity_is_asked_under_the_name_that_a_consultation_states(rulebook):
    """The tables read the weakest and the strongest place; the client's hair has one porosity to feel."""
    assert fields(asked(rulebook, porosity="unknown")) == ["hair.porosity"]


def test_fact_that_can_decline_stands_before_one_that_can_only_refer_or_postpone(rulebook):
    """And of two that decline, the one with the larger share of answers that stop."""
    found = asked(rulebook, {"history.relaxer": "unknown", "scalp": "unknown", "history.reaction": "unknown"})
    assert fields(found) == ["history.relaxer", "history.reaction", "scalp"]
    ranks = [one.strictness for one in found]
    assert ranks == sorted(ranks, reverse=True)
    relaxer = found[0]
    assert (relaxer.stops, relaxer.answers) == (2, 4)


def test_nothing_is_asked_where_the_verdict_stands_whatever_the_answer(rulebook):
    """Relaxed hair is declined; nobody needs to feel its porosity for that."""
    assert asked(rulebook, {"history.relaxer": "hydroxide", "scalp": "unknown"}, porosity="unknown") == ()


def test_fact_whose_answers_all_lead_to_one_verdict_is_asked_while_it_keeps_the_verdict_open(rulebook):
    """With a new medicine every porosity means test first, and no porosity at all means ask."""
    found = asked(rulebook, {"health.treatment": "new_medicine"}, porosity="unknown")
    assert fields(found) == ["hair.porosity"]


def test_lightening_is_asked_only_beside_a_lasting_or_unknown_colour(rulebook):
    """Next to no colour at all, nobody asks for lightener."""
    assert asked(rulebook, {"history.lightened": "unknown"}) == ()
    lasting = {"history.lightened": "unknown", "history.color": "permanent"}
    assert fields(asked(rulebook, lasting)) == ["history.lightened"]


def test_months_since_treatment_are_asked_only_after_chemotherapy(rulebook):
    """Two answers are tried for a number: a small and a large one."""
    (one,) = asked(rulebook, {"health.treatment": "chemotherapy"})
    assert one.field == "health.months_since"
    assert (one.stops, one.answers) == (1, 2)


def test_service_with_water_asks_for_nothing_but_the_scalp(rulebook):
    """History does not matter where no lotion is used."""
    unknown = dict.fromkeys(("scalp", "history.reaction", "history.relaxer", "hair.elasticity"), "unknown")
    assert fields(asked(rulebook, {**unknown, "service": "wet_set"}, porosity="unknown")) == ["scalp"]
    assert asked(rulebook, {**unknown, "service": "practice_wrap"}, porosity="unknown") == ()
