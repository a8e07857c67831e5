"""A moment while lotion works: the words tell it as it is, and the table of that moment decides."""

import re

import pytest

from drill.bank.item import Item
from drill.bank.question import MOST_WORDS
from drill.rulebook.overlay import apply
from drill.service.processing import DECISION, Moment, next_step

SEEDS = range(25)
CLOCK = re.compile(r"Lotion on for (\d+) min; (?:the maker's longest time is (\d+) min|nobody knows .*)\.")
PLACES = {
    "the tools that got lotion first": "first_tools",
    "the weakest place": "weakest",
    "the most resistant place": "most_resistant",
    "a tool at the side": "elsewhere",
}
SEEN = {"no S": "none", "a weak S": "weak", "a firm S": "firm", "hair that stretches like gum": "gum_like"}


def moment_of(question):
    """Read the moment back from what a student reads."""
    clock, before, *rest = question.facts
    found = CLOCK.fullmatch(clock)
    looked = {PLACES[words] for words in PLACES if words in before}
    place, curl = "unknown", "unknown"
    if len(rest) == 2:
        told, seen = re.fullmatch(r"Just now, (.+): (.+)\.", rest[0]).groups()
        place, curl = PLACES[told], SEEN[seen]
    words = rest[-1]
    says = "unknown" if words.startswith("Nobody") else "nothing"
    says = "burns" if "burn" in words else "tingles" if re.search("tingl|prickl", words) else says
    return Moment(
        minute=float(found[1]),
        longest_min=float(found[2]) if found[2] else None,
        place=place,
        curl=curl,
        says=says,
        looked=frozenset(looked),
    )


@pytest.fixture(scope="module")
def items(book):
    """The built-in items about such a moment, one for each row."""
    found = [one for one in book.items if one.kind == "stop_or_go" and one.decision == DECISION]
    assert {one.row for one in found} == {row.id for row in book.rulebook.tables[DECISION].rows}
    return found


@pytest.fixture(scope="module")
def questions(maker, items):
    """Many draws of each."""
    made = [maker.make(item, seed) for item in items for seed in SEEDS]
    assert all(made)
    return made


def test_what_is_told_leads_to_the_key(questions, rulebook):
    """Whoever reads the moment back from the words and asks the engine gets the key, by the item's row."""
    for question in questions:
        step = next_step(rulebook, moment_of(question))
        assert step.decision.value == question.answer.value, question.facts
        assert f"{DECISION}/{step.decision.row}" == question.skill


def test_ideas_named_would_do_so(questions, book):
    """Each overlay is laid on, and the engine asked again about the same moment."""
    for question in questions[:: len(SEEDS) // 2]:
        for option in question.options:
            for idea in option.misconceptions:
                believed = apply(book.rulebook, book.beliefs[idea])
                assert next_step(believed, moment_of(question)).decision.value == option.value, idea


def test_no_other_option_is_right_or_acceptable(questions, rulebook):
    """Nor one that only takes more care: nobody is wrong who calls the instructor beside a rinse."""
    for question in questions:
        decided = next_step(rulebook, moment_of(question)).decision
        others = {option.value for option in question.options if not option.correct}
        assert len(others) == len(question.options) - 1 == 2
        assert not others & {decided.value, *decided.also}
        if question.answer.value == "rinse":
            assert others == {"wait", "look_there_next"}


def test_every_wrong_option_names_an_idea_and_what_breaks_a_limit_is_stopped(questions):
    """Waiting past the longest time, on a burn or on gum."""
    for question in questions:
        assert all(option.misconceptions for option in question.options if not option.correct)
        assert all(0 < len(option.feedback.text.split()) <= MOST_WORDS for option in question.options)
        moment = moment_of(question)
        over = moment.longest_min is None or moment.minute >= moment.longest_min
        if over or moment.says == "burns" or moment.curl == "gum_like":
            waits = [one for one in question.options if one.value == "wait"]
            assert all(one.feedback.opening == "Stop." for one in waits)


def test_the_s_is_drawn_where_somebody_looked(questions):
    """And nothing where nobody did."""
    for question in questions:
        curl = moment_of(question).curl
        if curl == "unknown":
            assert question.figure is None
            assert "No place" in question.facts[1] or "Looked at before" in question.facts[1]
        else:
            words = {"none": "no S", "weak": "weak S", "firm": "firm S", "gum_like": "stretches like gum"}
            assert question.figure.title == words[curl]


def test_it_is_no_decision_of_a_plan(questions):
    """A moment is no part of a consultation, so there is none to plan again."""
    assert {(one.decision, one.zone, one.consultation) for one in questions} == {(None, None, None)}
    assert {one.answer_as for one in questions} == {"option"}


def item(**vary):
    names = {f"processing.{name}": values for name, values in vary.items()}
    row = names.pop("processing.row")
    return Item(
        id="m", topic="t", kind="stop_or_go", stem="What now?", decision=DECISION, row=row, vary=names
    )


def test_whoever_has_just_looked_at_a_place_has_looked_at_it(maker):
    """A moment that contradicts itself is never told; one that can only do so is not asked."""
    weakest = item(row="weakest-place-not-looked-at", place=("weakest",), looked_weakest=("no",))
    assert maker.make(weakest, 1) is None
    nowhere = item(row="an-s-begins", place=("unknown",), curl=("weak",))
    assert maker.make(nowhere, 1) is None


def test_row_that_cannot_decide_is_not_asked(maker):
    """No moment without a burn is decided by the row about burns."""
    assert maker.make(item(row="burning-is-rinsed", says=("nothing",)), 1) is None


@pytest.mark.parametrize(
    ("curl", "told"),
    [("unknown", "No place has been looked at."), ("none", "No other place has been looked at.")],
)
def test_nothing_looked_at_says_so(maker, curl, told):
    """With no place named, or with the one of this moment."""
    nobody_looked = {"looked_first": ("no",), "looked_weakest": ("no",), "place": ("elsewhere",)}
    burns = item(row="burning-is-rinsed", says=("burns",), curl=(curl,), **nobody_looked)
    assert maker.make(burns, 3).facts[1] == told


def test_same_seed_gives_the_same_moment(maker, items):
    """On every machine."""
    assert maker.make(items[0], 4) == maker.make(items[0], 4)
