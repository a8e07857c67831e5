"""What is touched to answer in each form, without a window."""

import random
from dataclasses import replace

import pytest
from small_book import BOOK, new_session

from drill.app.draft import MOST_DIGITS, is_whole, put_digit, put_step
from drill.app.flow import Flow
from drill.app.screen import Answer, Picture, PressRow
from drill.app.show_answer import outlined, places_picture
from drill.bank.item import Item, Wrong
from drill.service.head_map import head_map, zone_at
from drill.service.shapes import Polygon, Polyline
from drill.service.zones import ZONE_NAMES
from drill.study.sitting import Goal, Sitting

TURNS = Item(
    id="turns",
    topic="winding",
    kind="estimate",
    stem="The {zone}. How many turns?",
    decision="turns",
    zones=("top", "back_center"),
    vary={"wish.curl": ("tight", "soft")},
)
STEPS = Item(
    id="steps",
    topic="winding",
    kind="order",
    stem="In which order?",
    steps=("wash", "wind", "wet", "rinse"),
    wrong=(
        Wrong(text="", order=(1, 0, 2, 3), misconception="one-paper-for-all"),
        Wrong(text="", order=(0, 2, 1, 3)),
    ),
    because="Lotion wets what is wound.",
    source="common practice",
)
PLACE = Item(
    id="place",
    topic="papers",
    kind="locate",
    stem="Where is the tool rolled forward?",
    decision="roll_direction",
    zones=ZONE_NAMES,
    vary={
        "wish.wear": ("forward", "back", "down"),
        "hair.growth": ("none", "forward", "back"),
    },
    wanted=("forward",),
)


@pytest.fixture
def start(log, book):
    """Begin a sitting of one item of its own, under the built-in rules and wrong ideas."""

    def begin(item):
        own = replace(BOOK, items=(item,), misconceptions=book.misconceptions)
        flow = Flow(new_session(log, book=own))
        flow.press("start")
        return flow

    return begin


def labels(screen):
    """Give the texts of all that can be touched."""
    return [press.text for press in screen.presses]


def answers(screen):
    """Give the answers in which the certainties stand."""
    return [part for part in screen.parts if isinstance(part, Answer) and part.certainties]


class TestNumber:
    def test_it_is_typed_on_a_pad_and_taken(self, start, log):
        """Digits, a point, the unit of the question; then how sure."""
        flow = start(TURNS)
        screen = flow.screen()
        assert [len(part.presses) for part in screen.parts if isinstance(part, PressRow)] == [3, 3, 3, 3]
        assert "… turns" in screen.texts
        assert "given" not in [press.action for press in screen.presses]
        for action in ("digit:1", "digit:2", "erase", "digit:.", "digit:5"):
            screen = flow.press(action)
        assert "1.5 turns" in screen.texts
        assert screen.show == ("digit:1", "given")
        screen = flow.press("given")
        (answer,) = answers(screen)
        assert answer.press.text == "1.5 turns"
        assert screen.show == ("change", "sure:high")
        assert not any(isinstance(part, PressRow) for part in screen.parts)
        screen = flow.press("sure:low")
        assert [attempt.choice for attempt in log.attempts("Wren")] == ["1.5"]
        assert "1.5 turns" in screen.texts
        assert "Computed here" in screen.texts
        assert flow.session.sitting.last.question.answer.text in screen.texts

    def test_it_can_be_changed_until_the_certainty_is_said(self, start):
        """What was typed stays to be corrected."""
        flow = start(TURNS)
        flow.press("digit:3")
        flow.press("given")
        screen = flow.press("change")
        assert screen.name == "question"
        assert "3 turns" in screen.texts
        flow.press("erase")
        flow.press("digit:4")
        assert answers(flow.press("given"))[0].press.text == "4 turns"

    def test_what_was_typed_is_not_carried_to_the_next_question(self, start):
        """Each question begins empty."""
        flow = start(TURNS)
        flow.press("digit:3")
        flow.press("leave")
        assert "… turns" in flow.press("start").texts

    def test_a_ratio_has_no_unit(self, start):
        """The number alone."""
        flow = start(TURNS)
        sitting = flow.session.sitting
        flow.session.sitting = replace(sitting, question=replace(sitting.question, unit="ratio"))
        assert "…" in flow.screen().texts


class TestOrder:
    def test_steps_are_touched_one_after_the_other(self, start, log):
        """They get their numbers; when all have one, how sure is asked."""
        flow = start(STEPS)
        letters = [piece.id for piece in flow.session.sitting.question.pieces]
        for letter in letters[:-1]:
            screen = flow.press(f"step:{letter}")
            assert not answers(screen)
        screen = flow.press(f"step:{letters[-1]}")
        assert [text[:2] for text in labels(screen)[1:5]] == ["1.", "2.", "3.", "4."]
        assert [one.press.text for one in answers(screen)] == ["In this order"]
        flow.press("sure:middle")
        assert [attempt.choice for attempt in log.attempts("Wren")] == ["".join(letters)]

    def test_a_step_touched_again_is_taken_back(self, start):
        """Those after it move up, and no certainty is asked any longer."""
        flow = start(STEPS)
        letters = [piece.id for piece in flow.session.sitting.question.pieces]
        for letter in letters:
            flow.press(f"step:{letter}")
        screen = flow.press(f"step:{letters[0]}")
        assert screen.name == "question"
        assert labels(screen)[1] == flow.session.sitting.question.pieces[0].text
        assert labels(screen)[2].startswith("1. ")

    def test_the_order_touched_again_gives_its_last_step_free(self, start):
        """To put it elsewhere."""
        flow = start(STEPS)
        for piece in flow.session.sitting.question.pieces:
            flow.press(f"step:{piece.id}")
        screen = flow.press("change")
        assert screen.name == "question"
        assert [text[:2] for text in labels(screen)[1:4]] == ["1.", "2.", "3."]

    def test_an_order_that_nobody_thought_of_is_told_by_its_steps(self, start):
        """In the words of the steps, not their letters."""
        flow = start(STEPS)
        question = flow.session.sitting.question
        known = {option.value for option in question.options}
        letters = [piece.id for piece in question.pieces]
        rng = random.Random(1)
        while "".join(letters) in known:
            rng.shuffle(letters)
        for letter in letters:
            flow.press(f"step:{letter}")
        screen = flow.press("sure:low")
        texts = {piece.id: piece.text for piece in question.pieces}
        assert "; ".join(texts[letter] for letter in letters) in screen.texts
        assert question.answer.text in screen.texts


class TestPlace:
    def test_it_is_touched_on_the_figure(self, start, log):
        """The head comes first; the place chosen gets a firm line, and the certainties stand below."""
        flow = start(PLACE)
        screen = flow.screen()
        (picture,) = screen.aside
        assert picture.touch == "place"
        assert "Touch the place on the head." in screen.texts
        question = flow.session.sitting.question
        assert "option" not in [press.action.partition(":")[0] for press in screen.presses]
        screen = flow.press(f"place:{question.answer.value}")
        lines = [shape for shape in screen.aside[0].figure.shapes if isinstance(shape, Polyline)]
        assert len(lines) == 1 + sum(isinstance(one, Polyline) for one in picture.figure.shapes)
        assert answers(screen)[0].press.text == question.answer.text
        assert screen.show == (f"place:{question.answer.value}", "sure:high")
        screen = flow.press("sure:high")
        assert "That holds" in screen.texts
        assert [attempt.choice for attempt in log.attempts("Wren")] == [question.answer.value]

    def test_a_place_that_is_not_marked_chooses_nothing(self, start):
        """The question stays open."""
        flow = start(PLACE)
        marked = {option.value for option in flow.session.sitting.question.options}
        other = next(zone for zone in ZONE_NAMES if zone not in marked)
        assert flow.press(f"place:{other}").name == "question"

    def test_the_right_place_is_shown_afterwards(self, start):
        """Whatever was chosen."""
        flow = start(PLACE)
        question = flow.session.sitting.question
        wrong = next(option for option in question.options if not option.correct)
        flow.press(f"place:{wrong.value}")
        screen = flow.press("sure:low")
        figures = [part.figure for part in screen.parts if isinstance(part, Picture)]
        assert figures[-1] == outlined(question.figure, question.answer.value)

    def test_a_question_without_a_figure_is_a_fault_of_the_program(self, start):
        """It is told at once."""
        sitting: Sitting = start(PLACE).session.sitting
        with pytest.raises(ValueError, match="place asks for a place and has no figure"):
            places_picture(sitting, replace(sitting.question, figure=None))


def test_a_figure_without_the_part_stays_as_it_was():
    """The nose has no key of its own."""
    figure = head_map()
    assert outlined(figure, "") == figure
    assert outlined(figure, "tail") == figure
    marked = outlined(figure, "top")
    outline = next(shape for shape in figure.shapes if isinstance(shape, Polygon) and shape.key == "top")
    assert marked.shapes[-1].points[:-1] == outline.points
    assert zone_at(marked, x=outline.points[0][0] + 1, y=outline.points[0][1] - 1) == zone_at(
        figure, x=outline.points[0][0] + 1, y=outline.points[0][1] - 1
    )


def test_a_figure_of_its_own_stands_beside_or_above_the_facts(start):
    """A wide one leaves no room beside it; a head has its first four lines there."""
    flow = start(TURNS)
    sitting = flow.session.sitting
    figure = head_map()
    for width_mm, beside in ((figure.width_mm, 4), (3 * figure.height_mm, 0)):
        drawn = replace(sitting.question, figure=replace(figure, width_mm=width_mm))
        flow.session.sitting = replace(sitting, question=drawn)
        picture, *facts = flow.screen().aside
        assert len(picture.beside) == beside
        assert len(picture.beside) + len(facts) == len(sitting.question.facts)
        assert picture.caption == ""


def test_digits_make_a_number_of_a_sensible_length():
    """One point, and no more digits than anybody needs."""
    assert put_digit("", ".") == "0."
    assert put_digit("0.", ".") == "0."
    assert put_digit("1", "5") == "15"
    long = "9" * MOST_DIGITS
    assert put_digit(long, "9") == long


def test_steps_make_an_order_once_each_has_its_place():
    """However often they were touched before."""
    assert put_step("ab", "c") == "abc"
    assert put_step("abc", "b") == "ac"
    assert is_whole("cab", ["a", "b", "c"])
    assert not is_whole("ca", ["a", "b", "c"])


def test_a_step_without_a_sitting_is_passed_over(log):
    """A touch that came too late."""
    flow = Flow(new_session(log, goal=Goal(questions=1)))
    with pytest.raises(ValueError, match="there is no sitting"):
        flow.press("step:a")
