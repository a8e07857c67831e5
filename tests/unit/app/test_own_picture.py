"""Where a school's own picture stands on a screen; no window is opened."""

from dataclasses import replace

import pytest
from small_book import BOOK, ITEMS, new_session

from drill.app.flow import Flow
from drill.app.screen import Picture, SchoolPicture, Words
from drill.app.show_exam import exam_item_screen, exam_why_screen
from drill.app.show_question import OWN_ALONE_DP, OWN_BELOW_DP, question_screen, reveal_screen, scene
from drill.bank.picture import picture_from_bytes
from drill.service.head_map import head_map
from drill.service.shapes import Figure
from drill.study.exam import Exam
from drill.study.marks import Given


@pytest.fixture
def picture(make_png):
    return picture_from_bytes(make_png(30, 20), words="a tray of tools.")


@pytest.fixture
def sitting_with(log, picture):
    """Begin a sitting whose only question shows the picture."""

    def begin(item):
        book = replace(BOOK, items=(replace(item, picture=picture),))
        flow = Flow(new_session(log, book=book))
        return flow, flow.press("start")

    return begin


def shown(screen):
    return [part for part in (*screen.aside, *screen.parts) if isinstance(part, SchoolPicture)]


def test_a_fact_shows_it_alone_and_large(sitting_with, picture):
    """Above the question; its words begin with a capital letter and are among the texts."""
    _, screen = sitting_with(ITEMS[3])
    (part,) = screen.aside
    assert part == SchoolPicture(
        data=picture.data,
        kind="png",
        width_dots=30,
        height_dots=20,
        words="A tray of tools.",
        height_dp=OWN_ALONE_DP,
    )
    assert screen.texts.count("A tray of tools.") == 1
    assert "data" not in repr(part)


def test_a_scenario_shows_it_below_the_head(sitting_with):
    """Smaller, so that the question stays in sight."""
    _, screen = sitting_with(ITEMS[0])
    assert isinstance(screen.aside[0], Picture)
    assert screen.aside[-1].height_dp == OWN_BELOW_DP
    assert len(shown(screen)) == 1


def test_a_wide_figure_has_it_below_the_facts(sitting_with):
    """As it has them below itself."""
    flow, _ = sitting_with(ITEMS[0])
    question = flow.session.sitting.question
    wide = Figure(width_mm=200.0, height_mm=50.0, shapes=(), title="Wide", description="A wide figure.")
    parts = scene(replace(question, figure=wide))
    assert isinstance(parts[0], Picture)
    assert all(isinstance(part, Words) for part in parts[1:-1])
    assert isinstance(parts[-1], SchoolPicture)


def test_a_place_to_touch_stays_first(sitting_with):
    """The picture comes below the head on which the answer lies."""
    flow, _ = sitting_with(ITEMS[0])
    sitting = flow.session.sitting
    asked = replace(sitting.question, answer_as="place", figure=head_map())
    screen = question_screen(replace(sitting, question=asked), BOOK, minutes_used=0.0)
    assert [type(part) for part in screen.aside] == [Picture, SchoolPicture]
    assert screen.aside[0].touch == "place"


def test_the_reveal_shows_it_again(sitting_with):
    """Under the question that it belongs to."""
    flow, _ = sitting_with(ITEMS[3])
    flow.press("option:a")
    assert len(shown(flow.press("sure:low"))) == 1
    screen = reveal_screen(flow.session.sitting, BOOK, minutes_used=0.0, source_open=False)
    assert len(shown(screen)) == 1


def test_an_exam_shows_it_too(sitting_with, clock):
    """At the item, and at its why."""
    flow, _ = sitting_with(ITEMS[3])
    question = flow.session.sitting.question
    exam = Exam(
        student="Wren",
        device="tablet-1",
        day=1,
        started=clock(),
        seconds=60.0,
        paper=(question,),
        shown=clock(),
    )
    assert len(shown(exam_item_screen(exam, seconds_left=50.0))) == 1
    given = Given(question=question, option=question.answer)
    assert len(shown(exam_why_screen(given, BOOK, number=1))) == 1
