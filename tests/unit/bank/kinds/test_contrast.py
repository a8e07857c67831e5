"""Two heads alike but for one fact: the key is decided twice, and so is every wrong option."""

import random
from collections import Counter

import pytest

from drill.bank.asking import Asking
from drill.bank.item import Item
from drill.bank.kinds.contrast import make_contrast
from drill.bank.question import MOST_WORDS
from drill.rulebook.overlay import apply
from drill.service.head import Head

SEEDS = range(60)
BASE = Item(
    id="base-and-spring",
    topic="t",
    kind="contrast",
    stem="The {zone}. Is the base another one?",
    decision="base_control",
    zones=("top", "back_left"),
    vary={"wish.root_volume": ("low", "moderate", "high")},
    contrast={"hair.elasticity": ("good", "reduced")},
    look="Stretch a wet hair first.",
)


def changed(item, **values):
    """Give an item with other fields."""
    fields = {name: getattr(item, name) for name in item.__dataclass_fields__}
    return Item(**fields | values)


def heads_of(question, rulebook):
    """Give the two heads of a question."""
    return Head(rulebook, question.consultation), Head(rulebook, question.second)


def differing(question):
    """Name the facts in which the two heads differ."""
    one, other = question.consultation, question.second
    names = {name for name in {*one.head, *other.head} if one.of(name) != other.of(name)}
    return names | {
        name
        for zone, values in one.zones.items()
        for name in values
        if values[name] != other.zones[zone][name]
    }


@pytest.fixture(scope="module")
def questions(maker):
    """Many draws of one item."""
    made = [maker.make(BASE, seed) for seed in SEEDS]
    assert all(made)
    return made


def test_key_is_what_the_planner_decides_on_both_heads(questions, rulebook):
    """Neither half of it is typed."""
    for question in questions:
        heads = heads_of(question, rulebook)
        decided = [head.decide("base_control", question.zone).value for head in heads]
        assert question.answer.value == " / ".join(decided)


def test_no_wrong_option_is_right_or_acceptable_on_both_heads(questions, rulebook):
    """A pair is wrong where it is wrong on one head at least."""
    for question in questions:
        heads = heads_of(question, rulebook)
        decided = [head.decide("base_control", question.zone) for head in heads]
        for option in question.options:
            halves = option.value.split(" / ")
            fine = all(half in (one.value, *one.also) for half, one in zip(halves, decided, strict=True))
            assert fine == option.correct


def test_ideas_named_decide_so_on_both_heads(questions, book):
    """The overlay is laid on and asked twice."""
    for question in questions:
        for option in question.options:
            for idea in option.misconceptions:
                believed = apply(book.rulebook, book.beliefs[idea])
                heads = heads_of(question, believed)
                values = [head.decide("base_control", question.zone).value for head in heads]
                assert option.value == " / ".join(values), idea


def test_about_half_of_the_answers_change_and_so_do_half_of_the_options(questions):
    """Who always says that it changes is right half of the time."""
    changes = Counter(len(set(question.answer.value.split(" / "))) == 2 for question in questions)
    assert 0.3 < changes[True] / len(questions) < 0.7
    both = [sum(one.text.startswith("Both") for one in question.options) for question in questions]
    assert set(both) <= {1, 2, 3}
    assert both.count(2) > len(both) / 2


def test_two_wrong_options_at_least_come_from_ideas(questions):
    """And every option has its words; what would hurt says stop."""
    for question in questions:
        assert sum(bool(one.misconceptions) for one in question.options) >= 2
        for option in question.options:
            assert 0 < len(option.feedback.text.split()) <= MOST_WORDS
        assert not question.answer.feedback.opening
    assert any(one.feedback.opening for question in questions for one in question.options)


def test_it_tells_the_second_head_by_its_one_fact(questions):
    """After the facts of the first; mostly the item's own fact, and another where that moves nothing."""
    own = [question for question in questions if differing(question) == {"hair.elasticity"}]
    assert {question.facts[-1] for question in own} == {
        "Second head: the same, but wet hair springs back slowly.",
        "Second head: the same, but wet hair springs back well.",
    }
    assert len(own) < len(questions)
    for question in questions:
        assert len(differing(question)) == 1
        assert question.facts[-1].startswith("Second head: the same, but ")
    assert questions[0].ask in (
        "The top. Is the base another one?",
        "The back left. Is the base another one?",
    )


def test_it_is_no_decision_of_one_plan(questions):
    """Its value holds for two plans, so no path leads to it in one."""
    assert {question.decision for question in questions} == {None}
    assert all(question.consultation is not None for question in questions)


def test_answer_that_stays_names_the_fact_that_does_not_decide(questions):
    """What it says of an unchanged answer, and what to look at next time where it is the item's own fact."""
    stays = [one for one in questions if len(set(one.answer.value.split(" / "))) == 1]
    own = next(one for one in stays if differing(one) == {"hair.elasticity"})
    assert "Elasticity does not change it here." in own.explanation
    assert own.answer.feedback.look == BASE.look
    assert next(one for one in questions if one not in stays and len(differing(one)) == 1)


def test_another_fact_has_no_advice_about_the_items_own(questions):
    """The item knows what to look at of its own fact only."""
    other = next(one for one in questions if differing(one) != {"hair.elasticity"})
    assert other.answer.feedback.look == ""


def test_fact_that_never_changes_an_answer_gives_way_to_one_that_does(maker):
    """The strand alone never moves the base: half of the heads differ in something else as well as not."""
    item = changed(BASE, contrast={"hair.strand": ("fine", "coarse")})
    made = [maker.make(item, seed) for seed in range(40)]
    for question in made:
        if differing(question) == {"hair.strand"}:
            assert len(set(question.answer.value.split(" / "))) == 1
    changing = sum(len(set(question.answer.value.split(" / "))) == 2 for question in made)
    assert 0.25 < changing / len(made) < 0.75


def test_four_pairs_of_two_values_are_shown_where_ideas_allow_it(questions):
    """Then no value and no change tells the key."""
    squares = sum(
        len({value for one in question.options for value in one.value.split(" / ")}) == 2
        for question in questions
    )
    assert squares > len(questions) / 6


def test_decision_on_the_head_marks_no_zone(maker):
    """A verdict is asked of the whole head, whether it is served or not."""
    item = changed(
        BASE,
        decision="verdict",
        zones=(),
        stem="What is right for each head?",
        vary={"scalp": ("healthy", "broken")},
        contrast={"history.lightened": ("none", "highlights")},
    )
    values = {maker.make(item, seed).answer.value for seed in range(20)}
    assert {"postpone / postpone"} < values
    assert maker.make(item, 0).zone is None


def test_head_that_is_not_served_is_not_asked_about_its_base(maker):
    """Nothing is wound there."""
    assert maker.make(changed(BASE, vary={"scalp": ("broken",)}), 1) is None


def test_too_many_words_are_not_asked(maker):
    """Heads are drawn until the text is short enough; with a stem like this none is."""
    assert maker.make(changed(BASE, stem="word " * MOST_WORDS), 1) is None


def test_same_seed_gives_the_same_question(maker, beliefs):
    """On every machine."""
    assert maker.make(BASE, 4) == maker.make(BASE, 4)
    asking = Asking(beliefs=beliefs, item=BASE, seed=4, rng=random.Random("base-and-spring 4"))
    assert make_contrast(asking) == maker.make(BASE, 4)
