"""Text on a page: nothing wider than it, nothing that steers a terminal."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.report.page import NARROWEST, WIDEST, Page, clean_text

WORDS = st.text(st.characters(codec="utf-8"), max_size=60)


@given(texts=st.lists(WORDS, max_size=6), width=st.integers(0, 200), indent=st.integers(0, 6))
def test_no_line_is_wider_than_the_page(texts: list[str], width: int, indent: int) -> None:
    """Whatever is put down, and a width out of range is brought in."""
    page = Page(width=width)
    for text in texts:
        page.heading(text)
        page.line(text, mark="- ", indent=indent)
        page.beside(["+--+", "|  |"], [text], drawing_width=4)
    page.table(["a", "b", "c"], [[text, text, text] for text in texts])
    assert NARROWEST <= page.width <= WIDEST
    assert all(len(line) <= page.width for line in page.text.split("\n"))


@given(text=st.text(max_size=80))
def test_hidden_characters_are_taken_out(text: str) -> None:
    """What is left can be printed and is one line."""
    assert not re.search(r"[\x00-\x1f\x7f-\x9f\u202e\ud800-\udfff]", clean_text(text))
    clean_text(text).encode()


def test_colour_is_only_round_the_words() -> None:
    """With the codes taken out the coloured page is the plain one."""
    pages = [Page(colour=colour) for colour in (True, False)]
    for page in pages:
        page.title("Plan")
        page.heading("Stop", style="alarm")
        page.line("why " * 40, style="faint")
        page.table(["zone", "tool"], [["top", "9.5"]])
    coloured, plain = (page.text for page in pages)
    assert coloured != plain
    assert re.sub(r"\x1b\[[\d;]*m", "", coloured) == plain


def test_a_table_too_wide_goes_on_below() -> None:
    """Each part has the first column again."""
    page = Page(width=40)
    page.table(["zone", "one" * 5, "two" * 5, "three"], [["top", "1", "2", "3"]])
    lines = page.text.splitlines()
    assert lines == [
        "zone  oneoneoneoneone  twotwotwotwotwo",
        "top   1                2",
        "",
        "zone  three",
        "top   3",
    ]


@pytest.mark.parametrize(("text", "count"), [("a b c", 1), ("x" * 85, 2), ("", 1)])
def test_long_words_are_broken(text: str, count: int) -> None:
    """Better a broken word than a line that runs out of the page."""
    page = Page(width=80)
    page.line(text)
    assert page.height == count
