"""What is seen afterwards: only the key shows so on the head drawn."""

from collections import Counter
from dataclasses import replace

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker
from drill.bank.question import MOST_WORDS
from drill.rulebook.overlay import apply
from drill.service.faults import faults_between
from drill.service.head import Head
from drill.service.outcome import predict
from drill.service.zones import ZONE_NAMES

SEEDS = range(40)
WRONG = (
    Wrong(text="The rinse was a short one", misconception="quick-rinse-is-enough"),
    Wrong(text="Lotion came off at a weak S", misconception="a-weak-s-is-enough"),
    Wrong(text="The cape was too short"),
)


def about(fault, **values):
    """Make an item about something seen."""
    fields = {"zones": ZONE_NAMES, "wrong": WRONG, "look": "Look at it."} | values
    return Item(
        id=f"about-{fault}", topic="t", kind="cause", stem="The {zone}. What was it?", fault=fault, **fields
    )


def faults_shown(question, option, rulebook):
    """Do what an option says, in place of the plan, and name what is seen then."""
    decision, _, done = option.value.partition("=")
    right = Head(rulebook, question.consultation)
    expected = predict(right, zones=(question.zone,))
    table = rulebook.tables.get(decision)
    zone = question.zone if table is None or table.per == "zone" else None
    decided = right.decide(decision, zone)
    value = done if isinstance(decided.value, str) else float(done)
    if zone:
        other = right.supposing(decided, value)
    else:
        other = Head(rulebook, question.consultation)
        other.evaluation.suppose(replace(decided, value=value))
    return faults_between(right, expected, predict(other, hair=right, zones=(question.zone,)))


@pytest.mark.parametrize(
    "fault", ["fish_hooks", "gap_at_scalp", "uneven", "weak_all_over", "falls_the_wrong_way", "too_loose"]
)
def test_of_the_decisions_only_the_key_shows_so(maker, rulebook, fault):
    """Every decision among the options is taken on that head and its outcome looked at."""
    tried = 0
    for seed in SEEDS:
        question = maker.make(about(fault), seed)
        for option in question.options:
            if "=" in str(option.value):
                assert (fault in faults_shown(question, option, rulebook)) == option.correct
                tried += 1
    assert tried > len(SEEDS)


def test_ideas_named_would_do_so(maker, book):
    """A computed mistake is what its ideas decide on that head."""
    for seed in range(20):
        question = maker.make(about("gap_at_scalp"), seed)
        for option in question.options:
            decision, is_decision, done = str(option.value).partition("=")
            if option.correct or not is_decision:
                continue
            assert option.misconceptions
            for idea in option.misconceptions:
                held = Head(apply(book.rulebook, book.beliefs[idea]), question.consultation)
                table = book.rulebook.tables.get(decision)
                zone = question.zone if table is None or table.per == "zone" else None
                assert str(held.decide(decision, zone).value) == done


def test_slips_of_the_hands_are_keys_beside_decisions(maker, book):
    """Both are met, and a slip is one that is known to show so."""
    made = [maker.make(about("fish_hooks"), seed) for seed in SEEDS]
    sorts = Counter("=" in question.answer.value for question in made)
    assert sorts[True] > 10
    assert sorts[False] > 10
    slips = {cause.id: cause for cause in book.fault("fish_hooks").causes}
    for question in made:
        if "=" not in question.answer.value:
            cause = slips[question.answer.value]
            assert question.source == cause.source
            assert question.explanation.startswith(cause.cause)


def test_neither_sort_of_option_stands_alone(maker):
    """Beside a slip as the key stands another, beside a decision another."""
    for seed in SEEDS:
        question = maker.make(about("fish_hooks"), seed)
        by_hand = ["=" not in str(option.value) for option in question.options]
        assert by_hand.count(True) >= 2 or not by_hand[_place_of_key(question)]
        assert by_hand.count(False) >= 2 or by_hand[_place_of_key(question)]


def _place_of_key(question):
    return next(at for at, option in enumerate(question.options) if option.correct)


def test_fault_of_the_hands_alone_has_a_slip_as_its_key(maker):
    """No decision can leave a dent."""
    for seed in range(20):
        question = maker.make(about("dent_at_scalp"), seed)
        assert question.answer.value in ("band-too-tight", "band-twisted", "tool-moved")
        assert question.facts[-1].startswith("Seen after one mistake: A dent")


def test_item_may_name_the_causes_that_it_asks(maker):
    """A narrower decision to hold."""
    by_base = {
        maker.make(about("gap_at_scalp", parts=("base_control",)), seed).answer.value for seed in SEEDS
    }
    assert {value.partition("=")[0] for value in by_base} == {"base_control"}
    by_hand = {maker.make(about("gap_at_scalp", parts=("slack-band",)), seed).answer.value for seed in SEEDS}
    assert by_hand == {"slack-band"}


def test_every_option_is_told_what_shows_so(maker):
    """In at most sixty words; the key is never stopped."""
    stopped = 0
    for fault in ("breakage_at_scalp", "gap_at_scalp", "smell_stays", "weak_all_over"):
        for seed in range(20):
            question = maker.make(about(fault), seed)
            assert len(question.stem.split()) <= MOST_WORDS
            assert not question.answer.feedback.opening
            assert question.decision is None
            for option in question.options:
                assert 0 < len(option.feedback.text.split()) <= MOST_WORDS
                if not option.correct:
                    assert f"What shows so here: {question.answer.text}." in option.feedback.text
                    stopped += option.feedback.text.startswith("Stop.")
    assert stopped


def test_written_option_without_an_idea_says_why_all_the_same(maker):
    """It names none, and is told what shows so."""
    found = [
        option
        for seed in range(20)
        for option in maker.make(about("smell_stays", wrong=WRONG[1:]), seed).options
        if option.text == "The cape was too short"
    ]
    assert found
    assert all(one.misconceptions == () and one.feedback.look == "Look at it." for one in found)


def test_strength_that_nothing_weaker_can_bring_about_is_drawn_again(maker):
    """Over-processed hair needs a head on which a lotion can be too strong."""
    for seed in range(8):
        item = about(
            "frizzy_dry_curly_at_scalp",
            parts=("waving_lotion.strength",),
            zones=("top",),
            vary={"wish.root_volume": ("moderate",), "history.color": ("none",)},
        )
        question = maker.make(item, seed)
        assert question.answer.value.startswith("waving_lotion.strength=")


def test_what_the_book_does_not_know_is_not_asked(book, maker):
    """A book without faults, a name that is none, a head that is not served, or no zone to look at."""
    empty = QuestionMaker(Beliefs(replace(book, faults=())))
    assert empty.make(about("fish_hooks"), 1) is None
    assert maker.make(about("fish_hooks", vary={"scalp": ("broken",)}), 1) is None
    assert maker.make(about("fish_hooks", zones=()), 1) is None
    assert book.fault("nothing-of-that-name") is None


def test_cause_that_shows_on_no_head_drawn_is_not_asked(maker):
    """With nothing to layer out of, one folded paper does: no decision bends short hair so."""
    item = about("no_curl_at_ends", parts=("wrap",), vary={"hair.length": (90.0,), "wish.curl": ("body",)})
    assert maker.make(item, 1) is None
