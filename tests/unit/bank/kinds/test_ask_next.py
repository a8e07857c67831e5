"""Several facts are missing: the engine ranks them, and its first is the key where it is clearly ahead."""

import pytest

from drill.bank.item import Item
from drill.bank.kinds.ask_next import CLEARLY, missing_facts
from drill.bank.question import MOST_WORDS
from drill.rulebook.overlay import apply
from drill.service.client_words import vague_words
from drill.service.head import Head
from drill.service.plan import plan_service

SEEDS = range(8)
UNKNOWN = ("unknown",)


def item(*unknown, **values):
    vary = dict.fromkeys(unknown, UNKNOWN) | values.pop("vary", {})
    fields = {"id": "a", "topic": "t", "kind": "ask_next", "stem": "Which first?", "look": "Rank them."}
    return Item(**fields | values, vary=vary)


@pytest.fixture(scope="module")
def questions(maker, book):
    """Draws of the built-in items."""
    items = [one for one in book.items if one.kind == "ask_next"]
    assert len(items) >= 9
    made = [maker.make(one, seed) for one in items for seed in SEEDS]
    assert all(made)
    return made


def test_key_is_what_a_plan_asks_first(questions, rulebook):
    """The plan of that very head lists it first."""
    for question in questions:
        plan = plan_service(rulebook, question.consultation)
        assert plan.ask_first[0].field == question.answer.value


def test_no_other_fact_comes_near_the_key(questions, rulebook):
    """Not as strict, or of as strict ones with clearly fewer such answers; or it decides nothing."""
    for question in questions:
        ranked = missing_facts(rulebook, Head(rulebook, question.consultation))
        first, by_field = ranked[0], {one.field: one for one in ranked}
        for option in question.options:
            other = by_field.get(option.value)
            if option.correct or other is None:
                continue
            less = first.stops / first.answers - other.stops / other.answers >= CLEARLY
            assert other.strictness < first.strictness or less


def test_every_option_is_missing(questions):
    """What is known is not asked again."""
    for question in questions:
        for option in question.options:
            assert question.consultation.of(option.value, "top") == "unknown"


def test_ideas_named_would_ask_that_first(questions, book):
    """The overlay is laid on and the facts ranked again."""
    for question in questions[:: len(SEEDS)]:
        for option in question.options:
            for idea in option.misconceptions:
                believed = apply(book.rulebook, book.beliefs[idea])
                ranked = missing_facts(believed, Head(believed, question.consultation))
                assert ranked[0].field == option.value, idea


def test_text_is_short_and_nothing_is_stopped(questions):
    """To ask another thing first hurts nobody."""
    for question in questions:
        assert 3 <= len(question.options) <= 4
        assert len(question.stem.split()) <= MOST_WORDS
        for option in question.options:
            assert not option.feedback.opening
            assert 0 < len(option.feedback.text.split()) <= MOST_WORDS


def test_client_speaks_of_something_that_is_missing(questions):
    """In words that settle nothing, of the key or of what decides nothing, never of another that counts."""
    of_key = []
    for question in questions:
        words = question.facts[-1].removeprefix("The client: “").removesuffix(".”")
        if words == question.facts[-1]:
            continue
        unsettled = [
            option.value
            for option in question.options
            if (vague := vague_words(option.value)) and words in vague.says
        ]
        of_key.append(question.answer.value in unsettled)
    assert of_key.count(True) >= 10
    assert of_key.count(False) >= 3


def test_client_has_nothing_to_say_of_what_is_felt(maker):
    """Porosity, spring and ends are felt and looked at."""
    question = maker.make(item("hair.porosity", "hair.elasticity", "hair.ends", "hair.strand"), 1)
    assert question.answer.value == "hair.elasticity"
    assert "client" not in question.stem
    assert "wrong" not in question.stem


def test_it_is_no_path_in_a_plan(questions):
    """Its value is a field of the consultation, not a decision."""
    assert {(one.decision, one.zone) for one in questions} == {(None, None)}


def test_facts_that_tie_are_not_asked(maker):
    """Metal and spring can both end it, one answer of three each: a matter of taste."""
    assert maker.make(item("history.metallic_dye", "hair.elasticity", "scalp"), 1) is None


def test_head_with_too_little_missing_is_not_asked(maker):
    """One gap is no choice, and a head without any asks nothing."""
    assert maker.make(item("scalp", "hair.ends"), 1) is None
    assert maker.make(item("hair.ends", "hair.strand", "wish.look"), 1) is None


def test_fact_that_has_no_short_words_is_not_asked(maker):
    """The date of a treatment follows from the treatment, and is asked with it."""
    vary = {"health.treatment": ("chemotherapy",)}
    gaps = ("health.months_since", "hair.ends", "hair.strand", "wish.look")
    assert maker.make(item(*gaps, vary=vary), 1) is None


def test_stem_that_is_too_long_is_not_asked(maker):
    """Heads are drawn until the text is short enough; with a stem like this none is."""
    long = item("scalp", "history.known", "health.treatment", stem="word " * MOST_WORDS)
    assert maker.make(long, 1) is None


def test_rows_named_are_those_that_the_key_can_bring(maker):
    """One answer each, whether the fact is of the head or of its places."""
    scalp = maker.make(item("scalp", "history.known", "hair.ends"), 1)
    assert set(scalp.rows) == {"verdict/scalp-irritated", "verdict/scalp-broken"}
    felt = maker.make(item("hair.porosity", "hair.ends", "hair.strand"), 1)
    assert felt.answer.value == "hair.porosity"
    assert len(felt.rows) == 1


def test_same_seed_gives_the_same_question(maker):
    """On every machine."""
    one = item("scalp", "history.known", "health.treatment")
    assert maker.make(one, 4) == maker.make(one, 4)
