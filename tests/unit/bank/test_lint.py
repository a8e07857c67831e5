"""Items against the guidelines of item writing: each fault is told at its place, sound items are passed."""

from dataclasses import replace

import pytest

from drill.bank.item import Item, Wrong
from drill.bank.lint import lint_items, lint_questions
from drill.bank.looked import SEEDS, look_at_items
from drill.basis.problem import Place

SOUND = Item(
    id="sound",
    topic="t",
    kind="choose",
    stem="What holds the ends?",
    answer="Two flat papers",
    wrong=(Wrong(text="One loose string"), Wrong(text="A thin dry towel"), Wrong(text="The band alone")),
    because="So it is.",
    source="common practice",
    look="Look at the ends.",
    place=Place("deck.yaml", 7, 5),
)


def told(*items):
    return [problem.what for problem in lint_items(items)]


def wrong(*texts):
    return tuple(Wrong(text=text) for text in texts)


def test_a_sound_item_is_passed():
    """Nothing is told of it."""
    assert told(SOUND) == []


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"stem": "What holds? What slips?"}, "asks more than one question"),
        ({"stem": "The ends hold by"}, "does not end as a question"),
        ({"stem": "Which of these is not in use?"}, "asks with 'not'"),
        ({"stem": "Why don't ends hold?"}, "asks with 'n't'"),
        ({"look": ""}, "'look' is missing"),
        ({"answer": "All of the above"}, "stands for other options"),
        ({"wrong": wrong("It always works", "A thin dry towel")}, "too sure of itself ('always')"),
        ({"wrong": wrong("It does not slip", "A thin dry towel")}, "says what is not ('not')"),
        (
            {"answer": "Two flat papers that reach past the ends by a finger"},
            "the options have from 14 to 52",
        ),
        (
            {"answer": "From 2 to 4 min", "wrong": wrong("From 3 to 5 min", "From 6 to 9 min")},
            "the numbers of two options overlap",
        ),
        ({"answer": "Two flat papers."}, "some options end with a full stop"),
        ({"answer": "two flat papers"}, "some options begin with a small letter"),
    ],
)
def test_each_fault_is_told_at_its_item(changes, what):
    """With its place, and how to mend it."""
    (problem,) = lint_items([replace(SOUND, **changes)])
    assert what in problem.what
    assert problem.what.startswith("sound: ")
    assert problem.place == SOUND.place
    assert problem.mend


def test_ranges_that_touch_do_not_overlap():
    """Where one ends the other begins."""
    item = replace(SOUND, answer="From 2 to 4 min", wrong=wrong("From 4 to 6 min", "From 6 to 9 min"))
    assert told(item) == []


def test_steps_to_order_need_no_question_mark():
    """They are told what to do."""
    assert (
        told(replace(SOUND, kind="order", stem="Put in order.", answer="", wrong=(), steps=("a", "b"))) == []
    )


def test_a_rare_word_in_stem_and_key_only_is_told():
    """A word that a wrong option has too is no hint."""
    clang = replace(SOUND, stem="What follows the saturation?", answer="Saturated hair")
    clang = replace(clang, stem="What follows when hair is saturated?", answer="Saturated ends")
    assert told(clang) == ["sound: 'saturat' stands in the stem and in the key only"]
    shared = replace(clang, wrong=wrong("Saturated skin", "A dry towel"))
    assert told(shared) == []


def test_two_facts_that_ask_the_same_are_told_at_the_second():
    """A scenario may ask in the same words, since its head differs."""
    twin = replace(SOUND, id="twin", place=Place("deck.yaml", 20, 5))
    (problem,) = lint_items([SOUND, twin])
    assert problem.place.line == 20
    assert "sound asks the same, at deck.yaml:7:5" in problem.what
    scenario = replace(SOUND, decision="papers", answer="", wrong=())
    assert told(scenario, replace(scenario, id="twin")) == []


def test_keys_that_are_the_longest_too_often_are_told():
    """Over many facts; a few may be."""
    words = [f"{chr(97 + at // 26)}{chr(97 + at % 26)}" for at in range(40)]
    long_keys = [
        replace(SOUND, id=f"i{word}", stem=f"What is {word}?", answer="Two flat papers there")
        for word in words
    ]
    assert told(*long_keys) == ["of 40 facts 40 have their key as the longest option"]
    assert told(*long_keys[:2]) == []


def test_places_of_the_key_are_looked_at_over_many_questions(maker):
    """Drawn evenly they are passed; always at one letter they are told, numbers aside."""
    item = next(one for one in maker.book.items if one.is_fact and len(one.wrong) == 3)
    made = [maker.make(item, seed) for seed in range(120)]
    assert lint_questions(made, maker.book.items) == ()
    at_a = [one for one in made if one.answer.id == "a"]
    what = [problem.what for problem in lint_questions(at_a, maker.book.items)]
    assert what == [f"of {len(at_a)} questions with 4 options {len(at_a)} have the key at a"]
    numbers = [
        replace(one, options=tuple(replace(option, value=float(at)) for at, option in enumerate(one.options)))
        for one in at_a
    ]
    assert lint_questions(numbers, maker.book.items) == ()


def test_a_stem_too_long_for_a_phone_is_told(maker):
    """With the item's place."""
    item = next(one for one in maker.book.items if one.is_fact)
    long = replace(maker.make(item, 1), ask="word " * 61)
    (problem,) = [one for one in lint_questions([long], maker.book.items) if "words" in one.what]
    assert problem.place == item.place
    assert "61 words" in problem.what


def test_the_built_in_items_keep_the_guidelines_and_read_plainly(maker):
    """No problem, and the grade in the middle is 7 at most."""
    looked = look_at_items(maker)
    assert [str(problem) for problem in looked.problems] == []
    assert looked.questions >= 0.95 * len(SEEDS) * len(maker.book.items)
    assert looked.stem_grade <= 7
    assert looked.explanation_grade <= 7


def test_questions_made_already_are_not_made_again(maker):
    """What is counted is what was handed in."""
    question = maker.make(maker.book.items[0], 1)
    assert look_at_items(maker, made=[question]).questions == 1
