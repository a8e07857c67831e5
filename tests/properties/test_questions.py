"""What every question keeps, over all items of the book and many seeds.

The key is checked against the planner, from the question's own JSON: nothing of the maker is trusted.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.item import Item
from drill.bank.kinds.choose import MOST_OPTIONS
from drill.bank.make import MAKERS, QuestionMaker
from drill.bank.question import question_to_plain
from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.rulebook.overlay import apply
from drill.service.head import Head
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES

SEEDS = range(3)
# Kinds whose key is one value of one plan.
OF_A_PLAN = ("choose", "estimate")
MOST_WORDS = 60
ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def maker(book):
    """Makes the book's questions."""
    return QuestionMaker(Beliefs(book))


@pytest.fixture(scope="module")
def questions(maker):
    """Every item with every seed, those that could not be asked left out."""
    made = [maker.make(item, seed) for item in maker.book.items for seed in SEEDS]
    return [question for question in made if question is not None]


@pytest.fixture(scope="module")
def scenarios(questions):
    """The questions whose key is a value of the plan."""
    return [one for one in questions if one.decision and one.consultation and one.kind in OF_A_PLAN]


def consultation_again(question, rulebook):
    """Read a question's consultation back from its JSON text."""
    text = json.dumps(question_to_plain(question)["consultation"])
    nodes, problems = read_text(text.encode(), shown="question.json")
    again = read_consultation(nodes[0], rulebook, problems, folder=ROOT)
    assert not problems, [str(one) for one in problems]
    return again


def in_plan(plan, question):
    """Follow a question's dotted path in a plan, below its zone where it has one."""
    found = plan["zones"][question.zone] if question.zone else plan
    for part in question.decision.split("."):
        found = found[part]
    return found


def test_key_is_what_the_planner_decides_for_the_consultation_that_is_given(scenarios, rulebook):
    """Whoever plans the question's own consultation finds its key in the plan, type and all."""
    assert len(scenarios) > 300
    for question in scenarios:
        plan = plan_to_plain(plan_service(rulebook, consultation_again(question, rulebook)))
        value = in_plan(plan, question)
        assert value == question.answer.value, (question.item, question.seed)
        assert type(value) is type(question.answer.value)


def test_no_wrong_option_is_right_or_acceptable(scenarios, rulebook):
    """A wrong option is one that nobody could defend under the rules in force."""
    for question in scenarios:
        decided = Head(rulebook, question.consultation).decide(question.decision, question.zone)
        wrong = {option.value for option in question.options if not option.correct}
        assert not wrong & {decided.value, *decided.also}, (question.item, question.seed)
        if question.decision in rulebook.tables:
            assert wrong <= set(rulebook.tables[question.decision].gives)


def test_misconceptions_named_really_give_their_option(scenarios, book):
    """Whoever holds the idea chooses the option: the overlay is laid on and asked."""
    held = {one.id: apply(book.rulebook, one) for one in book.misconceptions if one.changes}
    for question in scenarios:
        for option in question.options:
            for idea in option.misconceptions:
                value = Head(held[idea], question.consultation).decide(question.decision, question.zone).value
                assert value == option.value, (question.item, question.seed, idea)


def test_most_wrong_options_name_a_misconception_and_two_thirds_are_scenarios(questions, book):
    """At least 60 in 100 wrong options say what the student believes; two thirds are decided, not written."""
    wrong = [option for question in questions for option in question.options if not option.correct]
    assert sum(bool(option.misconceptions) for option in wrong) / len(wrong) >= 0.60
    assert sum(not book.item(one.item).is_fact for one in questions) / len(questions) >= 2 / 3


def test_options_are_three_to_five_distinct_and_lettered_in_order(questions):
    """Texts differ for the eye, letters run from a, one is right, and the key has no place of its own."""
    for question in questions:
        texts = [option.text.casefold() for option in question.options]
        assert 3 <= len(texts) <= 5
        assert len(set(texts)) == len(texts), question.item
        assert [option.id for option in question.options] == list("abcde"[: len(texts)])
        assert sum(option.correct for option in question.options) == 1
        assert not question.answer.misconceptions
    places = [question.answer.id for question in questions if len(question.options) == MOST_OPTIONS]
    for letter in "abcd":
        assert 0.15 < places.count(letter) / len(places) < 0.35, letter


def test_stems_and_feedback_are_short_enough_for_a_phone(questions):
    """Sixty words a stem, sixty words an answer; and nothing is left to fill in."""
    for question in questions:
        assert len(question.stem.split()) <= MOST_WORDS, (question.item, question.stem)
        for text in (question.explanation, *(option.feedback.text for option in question.options)):
            assert 0 < len(text.split()) <= MOST_WORDS, (question.item, text)
            assert "{" not in text
        assert "{" not in question.stem


def test_wrong_option_that_would_hurt_starts_with_stop(scenarios, book, rulebook):
    """What a limit forbids on this head, or an idea marked as harmful, is stopped; nothing else is."""
    stopped = 0
    for question in scenarios:
        head = Head(rulebook, question.consultation)
        evaluation = head.zone(question.zone) if question.zone else head.evaluation
        for option in question.options:
            broken = [
                limit.id
                for limit in rulebook.limits
                if option.value in limit.never.get(question.decision, ())
                and all(one.holds(evaluation.read(name)) for name, one in limit.when.items())
            ]
            harmful = [idea for idea in option.misconceptions if book.beliefs[idea].harm]
            starts = option.feedback.text.startswith("Stop.")
            assert starts == bool(broken or harmful), (question.item, option.id, broken, harmful)
            stopped += starts
    assert stopped > 50


def test_key_is_never_stopped(questions):
    """The right answer never carries a warning of its own."""
    assert not any(question.answer.feedback.opening for question in questions)


def test_every_item_can_be_asked_and_draws_fresh_heads(maker):
    """Every item of the book finds a head, and eight seeds find more than one."""
    for item in maker.book.items:
        made = [maker.make(item, seed) for seed in SEEDS]
        assert all(made), item.id
        if item.kind in OF_A_PLAN and item.decision:
            heads = [question.stem for question in made]
            assert len(set(heads)) > 1, item.id


def test_row_asked_decides_on_a_fair_share_of_its_items_heads(scenarios, book, rulebook):
    """On the others a neighbour decides otherwise, so that the question alone never tells the answer."""
    own = []
    for question in scenarios:
        item = book.item(question.item)
        if item.row:
            decided = Head(rulebook, question.consultation).decide(question.decision, question.zone)
            own.append(decided.row == item.row)
    assert 0.35 < sum(own) / len(own) < 0.95


def test_contract_of_a_question_holds_to_the_letter(questions):
    """The names of ask --json, with their types; decision and zone are null for a fact."""
    names = {
        "item", "skill", "topic", "kind", "seed", "stem", "consultation", "decision", "zone", "options",
        "answer", "explanation", "source", "rulebook", "answer_as", "unit", "tolerance", "pieces", "rows",
        "limits", "picture", "second_consultation",
    }  # fmt: skip
    for question in questions:
        plain = json.loads(json.dumps(question_to_plain(question)))
        assert set(plain) == names
        assert plain["kind"] in MAKERS
        if question.consultation is None:
            assert plain["consultation"] is plain["zone"] is None
        else:
            assert plain["consultation"]["kit"]["tools"]
            assert plain["zone"] is None or plain["zone"] in ZONE_NAMES
        assert plain["answer"] in [option["id"] for option in plain["options"] if option["correct"]]
        assert plain["source"]
        for option in plain["options"]:
            assert set(option) == {
                "id", "text", "value", "correct", "misconception", "misconceptions", "explanation",
            }  # fmt: skip
            first = option["misconceptions"][0] if option["misconceptions"] else None
            assert option["misconception"] == first
            assert option["explanation"]


_ASK = """
import json, sys
from datetime import date
from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.bank.question import question_to_plain
from drill.load.compile import compile_book
maker = QuestionMaker(Beliefs(compile_book(day=date(2026, 11, 25), proved=True).book))
made = [maker.make(item, seed) for item in maker.book.items for seed in (0, 7)]
print(json.dumps([None if one is None else question_to_plain(one) for one in made]))
"""


@pytest.mark.parametrize("hash_seed", ["1", "4242"])
def test_same_item_seed_and_rulebook_give_the_same_question_on_another_machine(maker, hash_seed):
    """Another process with another order of hashes asks the same, to the last letter."""
    made = [maker.make(item, seed) for item in maker.book.items for seed in (0, 7)]
    here = [None if one is None else question_to_plain(one) for one in made]
    there = subprocess.run(
        [sys.executable, "-c", _ASK],
        cwd=ROOT,
        env={"PYTHONHASHSEED": hash_seed},
        capture_output=True,
        check=True,
        text=True,
    )
    assert json.loads(there.stdout) == json.loads(json.dumps(here))


def test_every_row_that_is_asked_somewhere_keeps_the_same_promises(maker, rulebook):
    """Not only the deck's items: an item made on the spot for each row, where it can be asked at all."""
    asked = 0
    for table in rulebook.tables.values():
        if table.hit == "collect":
            continue
        zones = ZONE_NAMES if table.per == "zone" else ()
        for row in table.rows:
            item = Item(
                id=f"on-the-spot-{table.decision}-{row.id}",
                topic="on_the_spot",
                kind="choose",
                stem="What do you decide?",
                decision=table.decision,
                row=row.id,
                zones=zones,
            )
            question = maker.make(item, 3)
            if question is None:
                continue
            asked += 1
            decided = Head(rulebook, question.consultation).decide(question.decision, question.zone)
            assert question.answer.value == decided.value
            assert question.skill == f"{table.decision}/{row.id}"
            wrong = {option.value for option in question.options if not option.correct}
            assert not wrong & {decided.value, *decided.also}
            assert len(question.stem.split()) <= MOST_WORDS
    assert asked >= 10
