"""Heads drawn for questions: heads that could sit in the chair, the same for the same seed."""

import random

import pytest

from drill.bank.item import Item
from drill.bank.scenario import USUAL, draw_head, draw_zone
from drill.rulebook.domain import UNKNOWN
from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES

PLAIN = Item(id="plain", topic="any", kind="choose", stem="?", decision="base_control", zones=ZONE_NAMES)


def drawn(item, seed, rulebook) -> tuple[Consultation, str | None]:
    """Draw zone and head as the maker does."""
    rng = random.Random(f"{item.id} {seed}")
    zone = draw_zone(item, rng)
    return draw_head(item, zone, rulebook, rng), zone


def test_usual_head_is_fit_for_a_perm(rulebook):
    """Unless an item varies what stops a service, a head goes, on every draw."""
    for seed in range(200):
        consultation, _ = drawn(PLAIN, seed, rulebook)
        assert plan_service(rulebook, consultation).verdict == "go", seed


def test_drawn_values_belong_to_the_vocabulary(rulebook):
    """No head holds a word that a consultation could not."""
    for seed in range(100):
        consultation, _ = drawn(PLAIN, seed, rulebook)
        for values in (consultation.head, *consultation.zones.values()):
            for name, value in values.items():
                domain = rulebook.domains[name]
                assert domain.entered
                assert value in domain.values if isinstance(value, str) else domain.unit


def test_usual_values_are_known_and_of_the_vocabulary(rulebook):
    """What a usual head states is never unknown."""
    for name, values in USUAL.items():
        assert set(values) <= set(rulebook.domains[name].values) - {UNKNOWN}, name


def test_same_seed_draws_the_same_head_and_others_another(rulebook):
    """Five hundred seeds: the same twice, and many different heads."""
    first = [drawn(PLAIN, seed, rulebook) for seed in range(500)]
    assert first == [drawn(PLAIN, seed, rulebook) for seed in range(500)]
    assert len({repr(one) for one in first}) > 300


@pytest.mark.parametrize(
    ("name", "value"),
    [("hair.growth", "whorl"), ("wish.wear", "forward"), ("wish.blend", "yes")],
)
def test_what_an_item_varies_of_a_zone_is_laid_on_the_zone_asked_only(rulebook, name, value):
    """The whorl is where the question points, not all over the head."""
    item = Item(
        id="z",
        topic="any",
        kind="choose",
        stem="?",
        decision="base_control",
        zones=("top",),
        vary={name: (value,)},
    )
    for seed in range(20):
        consultation, zone = drawn(item, seed, rulebook)
        assert zone == "top"
        assert consultation.of(name, "top") == value
        if name != "wish.wear":
            assert all(consultation.of(name, other) != value for other in ZONE_NAMES[1:])


def test_what_a_head_item_varies_of_a_zone_is_laid_on_all_of_them(rulebook):
    """A decision on the head has no zone; its growth is that of every zone."""
    item = Item(
        id="h", topic="any", kind="choose", stem="?", decision="verdict", vary={"hair.growth": ("up",)}
    )
    consultation, zone = drawn(item, 1, rulebook)
    assert zone is None
    assert set(consultation.each_zone("hair.growth")) == {"up"}


def test_length_and_porosity_that_an_item_varies_hold_for_the_whole_head(rulebook):
    """They are a head's more than a zone's; else the nape is a fifth shorter than the rest."""
    vary = {"hair.length": (300.0,), "hair.porosity": ("overporous",)}
    item = Item(id="l", topic="any", kind="choose", stem="?", decision="verdict", vary=vary)
    consultation, _ = drawn(item, 1, rulebook)
    assert set(consultation.each_zone("hair.length")) == {300.0}
    assert set(consultation.each_zone("hair.porosity")) == {"overporous"}
    usual, _ = drawn(PLAIN, 1, rulebook)
    assert usual.of("hair.length", "nape_left") == pytest.approx(0.8 * float(usual.of("hair.length", "top")))


def test_coloured_head_always_states_when_it_was_coloured(rulebook):
    """A colour without its date would be one more thing to ask."""
    item = Item(
        id="c",
        topic="any",
        kind="choose",
        stem="?",
        decision="verdict",
        vary={"history.color": ("permanent",)},
    )
    for seed in range(20):
        consultation, _ = drawn(item, seed, rulebook)
        assert isinstance(consultation.of("history.weeks_since_color"), float)
