"""A school's own picture on paper and in a terminal: what it shows is always there in words."""

import base64
import re
from dataclasses import replace
from datetime import UTC, datetime
from xml.etree import ElementTree

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.bank.picture import picture_from_bytes
from drill.report.exam_text import put_item, put_why
from drill.report.page import Page
from drill.report.question_text import put_question
from drill.report.sitting_text import put_asked
from drill.report.worksheet import worksheet_html
from drill.study.exam import Exam
from drill.study.marks import Given
from drill.study.sitting import Goal, Sitting

WORDS = 'a tray, "6 mm" & <thin>'
AT = datetime(2026, 3, 2, 19, tzinfo=UTC)
TOLD = f"Picture: {WORDS}"


@pytest.fixture(scope="module")
def made(book, make_png):
    """A fact and a scenario that show a picture."""
    maker = QuestionMaker(Beliefs(book))
    picture = picture_from_bytes(make_png(30, 20), words=WORDS)
    fact = next(item for item in book.items if item.answer)
    scenario = next(item for item in book.items if item.decision == "papers" and item.zones)
    return tuple(maker.make(replace(item, picture=picture), 1) for item in (fact, scenario))


def parsed(html):
    return ElementTree.fromstring(re.sub(r"<meta[^>]*>", "", html.removeprefix("<!DOCTYPE html>\n")))


@pytest.mark.parametrize("kind", ["png", "jpeg"])
def test_a_worksheet_has_the_picture_inside_with_its_words(made, book, make_png, jpeg, kind):
    """Nothing is fetched; a reader that speaks says the words once; the head of a scenario stays."""
    data = make_png(30, 20) if kind == "png" else jpeg
    picture = picture_from_bytes(data, words=WORDS)
    html = worksheet_html([replace(one, picture=picture) for one in made], book)
    page = parsed(html)
    images = list(page.iter("img"))
    assert len(images) == len(made) == 2
    for image in images:
        start, _, held = image.get("src").partition(",")
        assert start == f"data:image/{kind};base64"
        assert base64.b64decode(held) == data
        assert image.get("alt") == "A" + WORDS[1:]
    captions = [one for one in page.iter("figcaption") if one.get("aria-hidden") == "true"]
    assert [one.text for one in captions] == ["A" + WORDS[1:]] * 2
    assert html.count("<svg") == 1
    answers = page.find("body/section")
    assert not list(answers.iter("img"))


def test_a_worksheet_without_pictures_has_no_image(made, book):
    """As before."""
    assert "<img" not in worksheet_html([replace(one, picture=None) for one in made], book)


def text_of(put, *args, **more):
    page = Page(width=100)
    put(page, *args, **more)
    return page.text


def test_a_terminal_says_what_a_picture_shows(made, book):
    """To who teaches, to a student, in an exam and at its why; nothing where there is none."""
    for question in made:
        for has_picture in (True, False):
            one = question if has_picture else replace(question, picture=None)
            who = {"student": "Wren", "device": "tablet-1", "day": 1, "started": AT}
            sitting = Sitting(
                **who, phase="question", goal=Goal(questions=5), waiting=(), question=one, shown=AT
            )
            exam = Exam(**who, paper=(one,), seconds=60.0, shown=AT)
            given = Given(question=one, option=None)
            texts = (
                text_of(put_question, one, topic="t", beliefs={}, number=1),
                text_of(put_asked, sitting, book, chosen=""),
                text_of(put_item, exam, one, seconds_left=50.0, with_map=False, plain=True),
                text_of(put_why, given, book, number=1),
            )
            for text in texts:
                assert (TOLD in text) is has_picture
                assert not has_picture or text.index(TOLD) < text.index(one.answer.text[:20])
