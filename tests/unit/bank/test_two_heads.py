"""Two heads alike but for one fact: what is told apart, and which wrong pairs are shown."""

import random
from dataclasses import replace

import pytest

from drill.bank.asking import Asking
from drill.bank.beliefs import Beliefs
from drill.bank.two_heads import changes, draw_two, other_facts, own_fact, with_held, wrong_pairs
from drill.rulebook.overlay import Change, Overlay

SEEDS = range(30)


@pytest.fixture
def ask(book, make_item):
    """Asks about the base of a head whose spring differs."""
    item = make_item(
        "base_control",
        kind="contrast",
        zones=("top",),
        vary={"wish.root_volume": ("high", "moderate")},
        contrast={"hair.elasticity": ("good", "reduced")},
    )

    def make(seed, *, book=book, **other):
        rng = random.Random(seed)
        return Asking(beliefs=Beliefs(book), item=replace(item, **other), seed=seed, rng=rng)

    return make


def drawn(asking):
    """Two heads that differ in the item's own fact; those drawn too near a bound are passed over."""
    return next(two for _ in SEEDS if (two := draw_two(asking, own_fact(asking))) is not None)


def test_further_facts_are_what_the_decision_rests_on_and_what_usual_heads_vary(ask):
    """Never the item's own fact, and of what it varies only what it lets differ."""
    asking = ask(1)
    facts = dict(other_facts(asking))
    assert "hair.elasticity" not in facts
    assert facts["wish.root_volume"] == ("high", "moderate")
    assert "unknown" not in facts["hair.growth"]
    assert {"hair.strand", "hair.porosity", "hair.length"} <= facts.keys()
    assert "wish.root_volume" not in dict(other_facts(ask(1, vary={"wish.root_volume": ("high",)})))


def test_four_pairs_of_two_values_are_all_that_two_values_give(ask):
    """Where enough ideas hold them: the key and three others of the same two values."""
    for seed in SEEDS:
        asking = ask(seed)
        two = with_held(asking, drawn(asking))
        chosen = wrong_pairs(asking, two)
        assert len(set(chosen)) == len(chosen) <= 3
        assert not any(two.is_right(pair) for pair in chosen)
        if changes(two.key) and {(two.key[0],) * 2, (two.key[1],) * 2} <= two.held.keys():
            assert {value for pair in chosen for value in pair} == set(two.key)


def test_idea_that_leaves_one_head_undecided_holds_no_pair(ask, book):
    """Nobody can say what its holder would do on both."""
    gap = Overlay(
        id="gap",
        kind="misconception",
        because="b",
        source="s",
        belief="b",
        seen="s",
        mend="m",
        changes=(
            Change(op="remove", target="base_control", at="everyday-half-off"),
            Change(op="remove", target="base_control", at="weak-hair-stays-low"),
        ),
    )
    with_gap = replace(book, misconceptions=(*book.misconceptions, gap))
    asking = ask(3, book=with_gap, vary={"wish.root_volume": ("moderate",)})
    held = with_held(asking, drawn(asking)).held
    assert held
    assert all("gap" not in ideas for ideas in held.values())
