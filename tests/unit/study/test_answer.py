"""Answers in every form: given, taken back, marked, and told in words."""

import random
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from drill.bank.question import Feedback, Option, Piece, Question
from drill.study.answer import answer_words, how_to_answer, key_label, number_words
from drill.study.sitting import Goal, Sitting, choose_option, say_certainty, take_back

NOW = datetime(2026, 11, 25, 16, 0, tzinfo=UTC)
DAY = 20_782  # days from 1970-01-01 to 2026-11-25
SAID = Feedback(decides="So it is.")


def option(letter, text, value, *, correct=False, ideas=()):
    return Option(id=letter, text=text, value=value, correct=correct, misconceptions=ideas, feedback=SAID)


def question(form, options, **values):
    """Make a question that is answered in some form."""
    fields = {
        "item": "i", "skill": "s", "topic": "t", "kind": "k", "seed": 1, "facts": (), "ask": "What?",
        "consultation": None, "decision": None, "zone": None, "explanation": "So.",
        "source": "common practice", "rulebook": "r1", "otherwise": SAID,
    }  # fmt: skip
    return Question(options=options, answer_as=form, **fields | values)


TURNS = question(
    "number",
    (
        option("a", "2 turns", 2.0, ideas=("too-few",)),
        option("b", "4 turns", 4.0, correct=True),
        option("c", "8 turns", 8.0),
    ),
    unit="turns",
    tolerance=0.1,
)
STEPS = question(
    "order",
    (
        option("a", "Wash; wind; rinse", "bac", correct=True),
        option("b", "Wind; wash; rinse", "abc", ideas=("wind-first",)),
        option("c", "Rinse; wash; wind", "cba"),
    ),
    pieces=(Piece(id="a", text="wind"), Piece(id="b", text="wash"), Piece(id="c", text="rinse")),
)
PLACE = question(
    "place",
    (
        option("a", "Top", "top", correct=True),
        option("b", "Nape", "nape_center"),
        option("c", "Side", "left_side"),
    ),
)
PLAIN = question("option", PLACE.options)


def sitting(asked):
    """A sitting in which a question is shown."""
    return Sitting(
        student="Ada Reyes", device="phone-1", day=DAY, goal=Goal(), started=NOW,
        phase="question", waiting=(), question=asked, shown=NOW,
    )  # fmt: skip


def answered(asked, answer):
    """Answer and be sure."""
    return say_certainty(choose_option(sitting(asked), answer), "high", now=NOW, rng=random.Random(1))


@pytest.mark.parametrize(
    ("asked", "answer", "correct", "choice", "ideas"),
    [
        (TURNS, "4.2 turns", True, "4.2", ()),
        (TURNS, "4.2", True, "4.2", ()),
        (TURNS, "2.1", False, "2.1", ("too-few",)),
        (TURNS, "30", False, "30.0", ()),
        (STEPS, "bac", True, "bac", ()),
        (STEPS, "a b c", False, "abc", ("wind-first",)),
        (STEPS, "bca", False, "bca", ()),
        (PLACE, "top", True, "top", ()),
        (PLACE, "b", False, "nape_center", ()),
        (PLAIN, "a", True, "top", ()),
    ],
)
def test_answer_is_marked_in_the_form_of_its_question(asked, answer, correct, choice, ideas):
    """The attempt keeps the value as text, and the ideas of the option that it amounts to."""
    revealed, attempt = answered(asked, answer)
    assert (attempt.correct, attempt.choice, attempt.misconceptions) == (correct, choice, ideas)
    assert revealed.last.option.correct is correct


@pytest.mark.parametrize(("asked", "answer"), [(TURNS, "many"), (STEPS, "ab"), (PLACE, "ear")])
def test_answer_in_another_form_is_refused_and_leaves_the_question_open(asked, answer):
    """The front tells it kindly and asks again."""
    shown = sitting(asked)
    with pytest.raises(ValueError, match=answer):
        choose_option(shown, answer)
    assert shown.phase == "question"


def test_answer_can_be_taken_back_until_the_certainty_is_said():
    """Afterwards it stands."""
    shown = sitting(TURNS)
    assert take_back(shown) is shown
    chosen = choose_option(shown, "4")
    assert (chosen.phase, chosen.chosen) == ("certainty", "4")
    assert take_back(chosen) == shown
    revealed, _ = answered(TURNS, "4")
    assert take_back(revealed) is revealed


@pytest.mark.parametrize(
    ("asked", "answer", "words"),
    [
        (TURNS, "4.25", "4.25 turns"),
        (TURNS, "a", "2 turns"),
        (STEPS, "bca", "wash; rinse; wind"),
        (STEPS, "bac", "Wash; wind; rinse"),
        (PLACE, "top", "Top"),
        (PLAIN, "c", "Side"),
    ],
)
def test_answer_is_told_in_words(asked, answer, words):
    """As it was given, in words that a person reads."""
    assert answer_words(asked, asked.marked(answer)) == words


def test_number_is_told_with_its_unit():
    """A plain count has none."""
    assert number_words(14.5, "mm") == "14.5 mm"
    assert number_words(0.75, "ratio") == "0.75"
    counted = replace(TURNS, unit="ratio")
    assert answer_words(counted, counted.marked("4")) == "4"


def test_number_of_words_is_told_as_it_stands():
    """A text among the values of a number is shown as its option is."""
    named = question("number", (option("a", "None at all", "none", correct=True),), unit="mm")
    assert answer_words(named, named.options[0]) == "None at all"


def test_only_a_decision_has_a_first_choice():
    """What is at fault is nobody's choice."""
    assert key_label(PLAIN) == "What holds"
    assert key_label(replace(PLAIN, decision="papers")) == "First choice here"


@pytest.mark.parametrize(
    ("asked", "words"),
    [(TURNS, "a number of turns, such as 2.5 turns"), (STEPS, "the letters of all steps in order, each once"),
     (PLACE, "one of the letters on the head")],
)  # fmt: skip
def test_it_is_told_how_an_answer_is_written(asked, words):
    """In the form of the question."""
    assert how_to_answer(asked) == words
