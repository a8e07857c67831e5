"""The place on the head is the answer: one of the marked places has what is asked for."""

import pytest

from drill.bank.item import Item
from drill.bank.question import MOST_WORDS
from drill.rulebook.overlay import apply
from drill.service.head import Head
from drill.service.head_map import zone_at
from drill.service.shapes import Text
from drill.service.zones import ZONE_NAMES, ZONES

SEEDS = range(12)
GROWN = {
    "hair.growth": ("none", "forward", "back", "down", "whorl"),
    "wish.wear": ("back", "down", "forward"),
}


def item(decision, *wanted, vary=None, zones=ZONE_NAMES, **values):
    fields = {"id": "l", "topic": "t", "kind": "locate", "stem": "Where on this head?", "look": "Look."}
    return Item(**fields | values, decision=decision, wanted=wanted, zones=zones, vary=vary or {})


ITEMS = (
    item("roll_direction", "forward", vary=GROWN),
    item("roll_direction", "down", vary={**GROWN, "history.known": ("yes", "no")}),
    item("base_direction", "diagonal", vary={**GROWN, "wish.blend": ("no", "yes")}),
    item("tool.size", "one_smaller"),
)


@pytest.fixture(scope="module")
def questions(maker):
    """Many draws, each with its item."""
    made = [(one, maker.make(one, seed)) for one in ITEMS for seed in SEEDS]
    assert all(question for _, question in made)
    return made


def test_one_marked_place_has_what_is_asked_and_the_others_must_not(questions, rulebook):
    """Decided anew in every marked place; acceptable is not wrong either."""
    for asked, question in questions:
        head = Head(rulebook, question.consultation)
        for option in question.options:
            decided = head.decide(asked.decision, option.value)
            if option.correct:
                assert decided.value in asked.wanted
            else:
                assert not set(asked.wanted) & {decided.value, *decided.also}


def test_ideas_named_put_it_there(questions, book):
    """The overlay is laid on, and the place decided again."""
    for asked, question in questions[::3]:
        assert sum(bool(option.misconceptions) for option in question.options) >= 2
        for option in question.options:
            for idea in option.misconceptions:
                believed = apply(book.rulebook, book.beliefs[idea])
                decided = Head(believed, question.consultation).decide(asked.decision, option.value)
                assert decided.value in asked.wanted, idea


def test_places_are_marked_by_their_letters_and_touched(questions):
    """The figure has each letter in its section, and a touch there is an answer."""
    for _, question in questions:
        by_place = {option.value: option.id for option in question.options}
        texts = [shape for shape in question.figure.shapes if isinstance(shape, Text)]
        touched = {zone_at(question.figure, x=one.at[0], y=one.at[1]): one.text for one in texts}
        assert {place: touched[place] for place in by_place} == by_place
        assert {zone.name for zone in ZONES} == set(ZONE_NAMES)
        assert question.marked(question.answer.value).correct
        assert question.marked(question.answer.id).correct
        (wrong, *_) = [option for option in question.options if not option.correct]
        assert question.marked(wrong.value) == wrong


def test_place_that_is_not_marked_is_no_answer(questions):
    """It says so instead of counting it."""
    _, question = questions[0]
    free = next(zone for zone in ZONE_NAMES if zone not in {one.value for one in question.options})
    with pytest.raises(ValueError, match="no place that is marked"):
        question.marked(free)


def test_what_differs_is_told_place_by_place(questions):
    """Every marked place that grows or is worn in its own way says which; the text stays short."""
    for _, question in questions:
        assert len(question.stem.split()) <= MOST_WORDS + 15
        for option in question.options:
            growth = question.consultation.of("hair.growth", option.value)
            grown = {"whorl": "a whorl here", "none": ""}.get(growth, f"grows {growth}")
            line = next((one for one in question.facts if one.startswith(option.text + ":")), "")
            told = line or question.stem
            assert grown in told
        assert all(0 < len(one.feedback.text.split()) <= MOST_WORDS for one in question.options)


def test_feedback_names_its_place(questions):
    """For every option."""
    for _, question in questions:
        for option in question.options:
            assert option.text + ". Here: " in option.feedback.text


def test_lengths_are_told_where_they_decide(questions):
    """Nape hair is shorter, which chooses its tool; a parting does not ask."""
    of_size = [question for asked, question in questions if asked.decision == "tool.size"]
    napes = [line for one in of_size for line in one.facts if line.startswith("Nape")]
    assert len(napes) >= len(SEEDS) / 2
    assert all(" cm" in line or " mm" in line for line in napes)
    others = [question for asked, question in questions if asked.decision == "base_direction"]
    assert not any(" cm" in line for one in others for line in one.facts[1:])


def test_it_is_no_one_decision_of_a_plan(questions):
    """The answer is a place, so no path leads to it."""
    assert {(one.decision, one.zone, one.answer_as) for _, one in questions} == {(None, None, "place")}


def test_head_without_such_a_place_is_not_asked(maker):
    """A wet set of one piece has no tool of that kind; and one that is not served has no places."""
    assert maker.make(item("wrap", "spiral", vary={"wish.look": ("waves",)}), 1) is None
    assert maker.make(item("roll_direction", "forward", vary={**GROWN, "scalp": ("broken",)}), 1) is None


def test_places_where_no_idea_puts_it_make_no_question(maker):
    """Two wrong places of ideas are wanted; everything on one side leaves none."""
    assert maker.make(item("roll_direction", "forward", vary=GROWN, zones=("top",)), 1) is None


def test_same_seed_gives_the_same_question(maker):
    """On every machine."""
    assert maker.make(ITEMS[0], 4) == maker.make(ITEMS[0], 4)
