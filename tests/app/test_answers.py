"""Answers that are no option, touched on the glass: a number, an order, a place on the head."""

from dataclasses import replace

import pytest
from small_book import BOOK, new_session

from drill.bank.item import Item, Wrong
from drill.service.shapes import Polygon
from drill.service.zones import ZONE_NAMES

TURNS = Item(
    id="turns",
    topic="winding",
    kind="estimate",
    stem="The {zone}. How many turns?",
    decision="turns",
    zones=("top",),
    vary={"wish.curl": ("tight",)},
)
STEPS = Item(
    id="steps",
    topic="winding",
    kind="order",
    stem="In which order?",
    steps=("wash", "wind", "wet", "rinse"),
    wrong=(Wrong(text="", order=(1, 0, 2, 3)), Wrong(text="", order=(0, 2, 1, 3))),
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
    vary={"wish.wear": ("forward", "back", "down"), "hair.growth": ("none", "forward", "back")},
    wanted=("forward",),
)


@pytest.fixture
def ask(switch_on, log, book):
    """Show one question on the phone; give the phone and its session."""

    def start(item):
        session = new_session(log, book=replace(BOOK, items=(item,), misconceptions=book.misconceptions))
        phone = switch_on(session)
        phone.tap("start")
        return phone, session

    return start


def touch_zone(phone, zone):
    """Touch the middle of a zone, where the figure is drawn."""
    from drill.app.paint import place_figure
    from drill.app.touch import TouchFigure

    (view,) = phone.all(TouchFigure)
    shape = next(one for one in view.figure.shapes if isinstance(one, Polygon) and one.key == zone)
    middle = [sum(point[axis] for point in shape.points) / len(shape.points) for axis in (0, 1)]
    place = place_figure(view.figure, pos=view.pos, size=view.size)
    phone.touch_at(*view.to_window(*place.at(middle)))


def test_a_number_is_touched_digit_by_digit(ask, log):
    """What takes it comes into sight as soon as there is a number."""
    phone, _ = ask(TURNS)
    for digit in "12":
        phone.tap(f"digit:{digit}")
    assert "12 turns" in phone.texts
    assert phone.is_in_sight(phone.touches["given"])
    phone.tap("given")
    assert all(phone.is_in_sight(phone.touches[f"sure:{one}"]) for one in ("low", "middle", "high"))
    phone.tap("sure:high")
    assert [attempt.choice for attempt in log.attempts("Wren")] == ["12.0"]


def test_digits_are_large_enough_for_a_finger(ask):
    """Every one of them."""
    from kivy.metrics import dp

    phone, _ = ask(TURNS)
    digits = [touch for action, touch in phone.touches.items() if action.startswith(("digit", "erase"))]
    assert len(digits) == 12
    assert all(touch.width >= dp(48) and touch.height >= dp(48) for touch in digits)


def test_steps_are_touched_into_their_order(ask, log):
    """And taken back again by a second touch."""
    phone, session = ask(STEPS)
    letters = [piece.id for piece in session.sitting.question.pieces]
    phone.tap(f"step:{letters[1]}")
    phone.tap(f"step:{letters[1]}")
    for letter in letters:
        phone.tap(f"step:{letter}")
    assert phone.touches["sure:low"].parent is phone.touches["change"].parent
    phone.tap("sure:low")
    assert [attempt.choice for attempt in log.attempts("Wren")] == ["".join(letters)]


def test_a_place_is_touched_on_the_head(ask, log):
    """Each zone is large enough, and a place that is not marked chooses nothing."""
    phone, session = ask(PLACE)
    question = session.sitting.question
    marked = [option.value for option in question.options]
    touch_zone(phone, next(zone for zone in ZONE_NAMES if zone not in marked))
    assert session.sitting.chosen == ""
    for zone in (marked[0], question.answer.value):
        phone.app.view.scrolls[0].scroll_y = 1
        phone.wait(0.1)
        touch_zone(phone, zone)
        assert session.sitting.chosen == zone
    phone.tap("sure:high")
    assert "That holds" in phone.texts
    assert [attempt.choice for attempt in log.attempts("Wren")] == [question.answer.value]


def test_a_touch_beside_the_head_chooses_nothing(ask):
    """The corner of the figure is nobody's hair."""
    from drill.app.touch import TouchFigure

    phone, session = ask(PLACE)
    (view,) = phone.all(TouchFigure)
    phone.touch_at(*view.to_window(view.x + 1, view.y + 1))
    assert session.sitting.phase == "question"


def test_places_stand_beside_the_question_on_a_phone_on_its_side(ask):
    """The head on the left, what is asked on the right."""
    phone, session = ask(PLACE)
    phone.turn(800, 360)
    assert len(phone.app.view.scrolls) == 2
    touch_zone(phone, session.sitting.question.answer.value)
    assert phone.is_in_sight(phone.touches["sure:high"])
