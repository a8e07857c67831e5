"""Times of making a question; no time is asserted, the results are."""

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker


@pytest.fixture(scope="module")
def maker(book):
    return QuestionMaker(Beliefs(book))


@pytest.mark.benchmark(min_rounds=5, max_time=2)
@pytest.mark.parametrize("decision", ["base_control", "tool.size", "roll_direction"])
def test_make_a_scenario_question(benchmark, book, maker, decision):
    """Draw heads until one row decides, ask every wrong idea, explain every option."""
    item = next(one for one in book.items if one.decision == decision and one.kind == "choose")
    maker.make(item, 1)  # the wrong ideas are laid over the rules once
    question = benchmark(maker.make, item, 1)
    assert sum(option.correct for option in question.options) == 1


def test_make_a_fact_question(benchmark, book, maker):
    """Nothing is computed but the order."""
    item = next(one for one in book.items if one.is_fact and one.kind == "choose")
    question = benchmark(maker.make, item, 1)
    assert len(question.options) >= 3


@pytest.mark.benchmark(min_rounds=5, max_time=2)
@pytest.mark.parametrize("kind", ["find_fault", "contrast", "cause", "ask_next", "locate", "estimate"])
def test_make_a_question_of_another_kind(benchmark, book, maker, kind):
    """Ten items of it, one after another: they differ much."""
    items = [one for one in book.items if one.kind == kind][:10]
    made = benchmark(lambda: [maker.make(one, 1) for one in items])
    assert all(made)


@pytest.mark.benchmark(min_rounds=3, max_time=2)
def test_make_the_first_question_of_all(benchmark, book):
    """The wrong ideas are laid over the rules on the way."""
    item = next(one for one in book.items if one.decision == "base_control")
    question = benchmark(lambda: QuestionMaker(Beliefs(book)).make(item, 1))
    assert question.item == item.id
