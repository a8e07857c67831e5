"""Questions drawn over all items and many seeds: none is ambiguous, too long, or another one the second time.

A head's options are held against the planner: the key is what it decides, and no other option is right or
acceptable there.
"""

from itertools import islice

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.service.head import Head

MOST_WORDS = 60


@pytest.fixture(scope="module")
def maker(book):
    """Makes the book's questions."""
    return QuestionMaker(Beliefs(book))


def drawn(maker, first):
    """Questions of all items in turn, seed after seed, without end."""
    seed = first
    while True:
        for item in maker.book.items:
            question = maker.make(item, seed)
            if question is not None:
                yield item, question
        seed += 1


def good_of(decided):
    return {decided.value, *decided.also}


def against_planner(question, key, is_good):
    """What the planner says against the key and the options."""
    if question.answer.value != key:
        yield f"key {question.answer.value}, but the planner decides {key}"
    for option in question.options:
        if not option.correct and is_good(option.value):
            yield f"{option.value} is right or acceptable too"


def faults(maker, item, question):
    """What is wrong with a question, in words."""
    found = []
    texts = [" ".join(option.text.casefold().split()) for option in question.options]
    values = [str(option.value) for option in question.options]
    if len(set(texts)) < len(texts) or len(set(values)) < len(values):
        found.append("two options look alike")
    if sum(option.correct for option in question.options) != 1 or not 3 <= len(texts) <= 5:
        found.append("not one key among three to five options")
    if len(question.stem.split()) > MOST_WORDS:
        found.append(f"stem of {len(question.stem.split())} words")
    told = [question.explanation, *(option.feedback.text for option in question.options)]
    if any(not 0 < len(text.split()) <= MOST_WORDS for text in told):
        found.append("explanation too long or missing")
    if question.decision is not None:
        decided = Head(maker.book.rulebook, question.consultation).decide(question.decision, question.zone)
        found += against_planner(question, decided.value, good_of(decided).__contains__)
    elif question.second is not None:
        heads = (Head(maker.book.rulebook, one) for one in (question.consultation, question.second))
        both = [head.decide(item.decision, question.zone) for head in heads]
        fine = {f"{one} / {other}" for one in good_of(both[0]) for other in good_of(both[1])}
        found += against_planner(question, f"{both[0].value} / {both[1].value}", fine.__contains__)
    return [f"{item.id}, seed {question.seed}: {one}" for one in found]


def check(maker, count, *, again_every):
    wrong, named, found = 0, 0, []
    for number, (item, question) in enumerate(islice(drawn(maker, 30_000), count)):
        found += faults(maker, item, question)
        wrong += len(question.options) - 1
        named += sum(bool(option.misconceptions) for option in question.options)
        if number % again_every == 0 and maker.make(item, question.seed) != question:
            found.append(f"{item.id}, seed {question.seed}: another question the second time")
    assert found == []
    assert named / wrong >= 0.60


def test_a_sample_of_questions_is_sound(maker):
    """Every item once, and again with the same seed here and there."""
    check(maker, len(maker.book.items), again_every=9)


@pytest.mark.long
@pytest.mark.timeout(3600)
def test_fifty_thousand_questions_are_sound(maker):
    """Zero ambiguous."""
    check(maker, 50_000, again_every=50)


def shares_of(maker, items, seeds, counts):
    """The share of questions that count."""
    made = [question for seed in seeds for item in items if (question := maker.make(item, seed))]
    return sum(map(counts, made)) / len(made)


@pytest.mark.long
def test_more_than_a_third_of_safety_heads_are_fit_and_a_quarter_of_the_plans_faultless(maker):
    """Who always declines learns nothing, nor who finds a fault in every plan."""
    items = maker.book.items
    safety = [one for one in items if one.kind == "choose" and one.decision == "verdict"]
    assert 0.35 <= shares_of(maker, safety, range(40), lambda one: one.answer.value == "go") <= 0.45
    plans = [one for one in items if one.kind == "find_fault"]
    assert 0.25 <= shares_of(maker, plans, range(8), lambda one: one.answer.value == "none") <= 0.30
