"""The built-in question sets on the screens: every question, every option, every letter."""

from importlib.util import find_spec
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from small_book import new_session

from drill.app import theme
from drill.app.flow import Flow
from drill.app.progress import STATES, swatch
from drill.app.screen import Legend, Picture, Words
from drill.service.shapes import ROLES, Text

FONTS = Path(find_spec("kivy").submodule_search_locations[0]) / "data" / "fonts"


@pytest.fixture(scope="module")
def letters():
    """For each font that the screens use, the letters that it has."""
    return {
        name: set(TTFont(FONTS / f"{name}.ttf").getBestCmap())
        for name in ("Roboto-Regular", "Roboto-Bold", "DejaVuSans")
    }


def missing(text, letters):
    """Find the letters of a text that would be shown as an empty box."""
    roboto = letters["Roboto-Regular"] & letters["Roboto-Bold"]
    return {
        letter
        for letter in text
        if letter != "\n"
        and ord(letter) not in (letters["DejaVuSans"] if "font=" in theme.marked(letter) else roboto)
    }


def figures(screen):
    for part in (*screen.aside, *screen.parts):
        if isinstance(part, Picture):
            yield part.figure
        if isinstance(part, Legend):
            yield from (figure for figure, _ in part.rows)


def check(screen, letters):
    for text in screen.texts:
        assert not missing(text, letters), text
        assert "{" not in text, text
        assert text == text.strip(), text
    for figure in figures(screen):
        assert {shape.role for shape in figure.shapes} <= set(ROLES)
        for shape in figure.shapes:
            if isinstance(shape, Text):
                assert not missing(shape.text, letters), shape.text


def shown_with_every_answer(items, session, clock, letters):
    """Show each question with each option in turn, and its reveal; the words for feedback stay short."""
    flow = Flow(session)
    flow.press("start")
    begun, met = session.sitting, 0
    for item in items:
        question = session.maker.make(item, 7)
        for option in question.options if question else ():
            session.sitting = replace_question(begun, question)
            check(flow.screen(), letters)
            check(flow.press(f"option:{option.id}"), letters)
            clock.pass_s(1)
            screen = flow.press("sure:middle")
            check(screen, letters)
            check(flow.press("source"), letters)
            feedback = [
                p.text for p in screen.parts if isinstance(p, Words) and p.style == "body" and p.label
            ]
            # The first of these repeats the choice; the others are the feedback.
            assert sum(len(text.split()) for text in feedback[1:]) <= 60
        met += question is not None
    return met


def test_every_kind_of_question_can_be_shown_with_every_answer(book, log, clock, letters):
    """Of each topic one item a kind."""
    items = {(item.topic, item.kind): item for item in book.items}.values()
    session = new_session(log, clock=clock, book=book)
    assert shown_with_every_answer(items, session, clock, letters) >= 0.9 * len(items)


@pytest.mark.long
@pytest.mark.timeout(900)
def test_every_question_can_be_shown_with_every_answer(book, log, clock, letters):
    """A student who answers all of the book."""
    session = new_session(log, clock=clock, book=book)
    assert shown_with_every_answer(book.items, session, clock, letters) >= 0.9 * len(book.items)


def replace_question(sitting, question):
    from dataclasses import replace

    return replace(sitting, question=question, phase="question", chosen="")


def test_the_first_and_the_last_screen_have_all_their_letters(book, log, clock, letters):
    """With topics, ideas and an exam day."""
    flow = Flow(new_session(log, clock=clock, book=book))
    check(flow.screen(), letters)
    screen = flow.press("start")
    while screen.name != "done":
        flow.press("option:a")
        clock.pass_s(1)
        flow.press("sure:low")
        screen = flow.press("next")
        check(screen, letters)
    assert len(flow.session.asked) == 12


def test_letters_that_no_font_has_would_be_found(letters):
    """The check itself."""
    assert missing("\u4e00", letters)
    assert not missing("½ ° é “ ” — ⅓ → ₂", letters)


@pytest.mark.parametrize("state", STATES)
def test_each_state_has_its_own_small_figure(state):
    """No two alike."""
    others = [swatch(one).shapes for one in STATES if one != state]
    assert swatch(state).shapes not in others
