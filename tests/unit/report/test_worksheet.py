"""Questions on paper: the worksheet, and the answers on a sheet of their own."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.book import School
from drill.bank.make import QuestionMaker
from drill.report.worksheet import worksheet_html


@pytest.fixture(scope="module")
def maker(book):
    return QuestionMaker(Beliefs(book))


@pytest.fixture(scope="module")
def questions(book, maker):
    """One of every kind that the book has."""
    found = {}
    for item in book.items:
        if (item.kind, item.is_fact) not in found and (question := maker.make(item, 1)) is not None:
            found[item.kind, item.is_fact] = question
    return tuple(found.values())


def parsed(html):
    return ElementTree.fromstring(
        re.sub(r"<meta[^>]*>", "", html.removeprefix("<!DOCTYPE html>\n")).replace("&nbsp;", " ")
    )


def text_of(node):
    return " ".join(" ".join(node.itertext()).split())


def test_every_question_and_every_answer_stands_once(questions, book):
    """Numbered alike on both sheets; the answer sheet alone has keys and whys."""
    page = parsed(worksheet_html(questions, book))
    asked, told = page.find("body/main"), page.find("body/section")
    assert told.get("class") == "answers"
    for sheet in (asked, told):
        assert len(sheet.findall("ol/li")) == len(questions)
    for number, question in enumerate(questions, start=1):
        item, why = (text_of(sheet.findall("ol/li")[number - 1]) for sheet in (asked, told))
        assert item.startswith(f"{number}.")
        assert why.startswith(f"{number}. ")
        assert " ".join(question.explanation.split()) in why
        assert " ".join(question.explanation.split()) not in text_of(asked)
        assert question.answer.text in why


def test_each_kind_has_room_to_answer(questions, book):
    """Boxes for options, a line with its unit for a number, a line for an order."""
    page = parsed(worksheet_html(questions, book))
    for item, question in zip(page.findall("body/main/ol/li"), questions, strict=True):
        boxes = [one for one in item.iter("span") if one.get("class") == "box"]
        lines = [one for one in item.iter("span") if one.get("class") == "line"]
        if question.answer_as in ("number", "order"):
            assert (len(boxes), len(lines)) == (0, 1)
        else:
            assert (len(boxes), len(lines)) == (len(question.options), 0)
        for piece in question.pieces:
            assert piece.text in text_of(item)


def test_a_number_tells_its_unit_and_how_near_is_near_enough(questions, book):
    """A plain count has no unit."""
    question = next(one for one in questions if one.answer_as == "number")
    told = text_of(parsed(worksheet_html([question], book)))
    assert question.unit in told
    assert f"({100 * question.tolerance:.0f} % either way)" in told
    plain = text_of(parsed(worksheet_html([replace(question, unit="ratio")], book)))
    assert " ratio" not in plain


def test_a_zone_is_drawn_with_the_way_hair_grows(book, maker):
    """A question about a zone shows where; one about a fact draws nothing."""
    grown = maker.make(book.item("growth-or-wish"), 1)
    html = worksheet_html([grown, grown], book)
    assert html.count("<svg") == 2
    assert "Arrow: the way the hair grows" in html
    ids = re.findall(r'id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    fact = next(one for one in book.items if one.is_fact and one.kind == "choose")
    assert "<svg" not in worksheet_html([maker.make(fact, 1)], book)


def test_the_answers_begin_on_a_page_of_their_own_and_nothing_is_fetched(questions, book):
    """No script, no address but that of the drawing's form."""
    html = worksheet_html(questions, book)
    assert "section.answers { break-before: page; }" in html
    assert "<script" not in html
    assert set(re.findall(r"https?://[^\"]+", html)) <= {"http://www.w3.org/2000/svg"}
    assert html.count("the maker&#x27;s directions, local codes and licensed practice decide") == 2


def test_a_schools_name_stands_on_both_sheets(questions, book):
    """As a text, whatever it holds."""
    ours = replace(book, school=School(name="Lark & <Field>"))
    assert worksheet_html(questions, ours).count("Lark &amp; &lt;Field&gt;") == 2
