"""Every screen on every size of phone: nothing is cut, nothing is too small to touch."""

import os
import subprocess
import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from small_book import BOOK, ITEMS, new_session

SIZES = [(360, 640), (360, 800), (800, 360)]
LONG_STEM = replace(
    ITEMS[3],
    stem="A client asks why two clients with the same tools left the chair with curls of another size: " * 3,
    answer="Straight across the top of the tool, clear of the scalp, whatever the length of the strand is. "
    * 3,
)


def walk_screens(phone, session):
    """Yield on each screen that a sitting has."""
    yield "today"
    phone.tap("start")
    first = True
    while session.sitting.phase != "done":
        yield "question"
        wrong = next(option for option in session.sitting.question.options if not option.correct)
        phone.tap(f"option:{(wrong if first else session.sitting.question.answer).id}")
        yield "certainty"
        phone.tap("sure:middle")
        yield "reveal"
        if first:
            phone.tap("source")
            yield "source"
        first = False
        phone.tap("next")
    yield "done"
    phone.tap("home")
    yield "today"


@cache
def word_width(word, font_size, bold):
    from kivy.core.text.markup import MarkupLabel

    from drill.app.theme import marked

    label = MarkupLabel(text=marked(word), font_size=font_size, bold=bold)
    label.refresh()
    return label.texture.width


def faults(phone):
    """Find texts that are cut, broken inside a word or beyond the edge, and touches that are too small."""
    from kivy.metrics import dp
    from kivy.uix.behaviors import ButtonBehavior

    from drill.app.widgets import Text

    found = []
    for text in phone.all(Text):
        left, right = text.to_window(text.x, 0)[0], text.to_window(text.right, 0)[0]
        if text.texture_size[0] > text.width + 1 or text.texture_size[1] > text.height + 1:
            found.append(("cut", text.words))
        if left < 0 or right > phone.Window.width + 1:
            found.append(("beyond the edge", text.words))
        found += [
            ("broken", word, text.words)
            for word in text.words.split()
            if word_width(word, text.font_size, text.bold) > text.width + 1
        ]
        holder = text.parent
        if text.height > holder.height + 1:
            found.append(("higher than its place", text.words))
    found += [("too small", touch.action) for touch in phone.all(ButtonBehavior) if min(touch.size) < dp(48)]
    return found


@pytest.mark.parametrize("size_dp", SIZES)
@pytest.mark.parametrize("book", [BOOK, replace(BOOK, items=(*ITEMS[:3], LONG_STEM))], ids=["usual", "long"])
def test_nothing_is_cut_and_every_touch_is_large_enough(switch_on, log, clock, size_dp, book):
    """All screens of a sitting; bar and foot never take more than half of the height."""
    session = new_session(log, clock=clock, book=book)
    phone = switch_on(session, size_dp=size_dp)
    seen = set()
    for name in walk_screens(phone, session):
        seen.add(name)
        assert not faults(phone), name
        assert phone.app.view.scrolls[0].height >= phone.Window.height / 2, name
    assert seen == {"today", "question", "certainty", "reveal", "source", "done"}


@pytest.mark.parametrize("size_dp", SIZES)
def test_nothing_of_a_mock_exam_is_cut(switch_on, log, clock, size_dp):
    """How it goes, an item before and after the choice, the marks and a why; the clock ends it by itself."""
    phone = switch_on(
        new_session(log, clock=clock, book=replace(BOOK, items=(*ITEMS[:3], LONG_STEM))), size_dp=size_dp
    )
    steps = ("exam", "exam-begin", "exam-option:a", "exam-next", "exam-end", "exam-why:0", "exam-marks")
    names = []
    for step in steps:
        phone.tap(step)
        names.append(phone.app.view.screen.name)
        assert not faults(phone), names
    assert names == ["exam-rules", *["exam-item"] * 3, "exam-marks", "exam-why", "exam-marks"]


def test_the_clock_of_a_mock_exam_ends_it(switch_on, log, clock):
    """Without a touch."""
    phone = switch_on(new_session(log, clock=clock), size_dp=SIZES[0])
    phone.tap("exam")
    phone.tap("exam-begin")
    clock.pass_s(3600)
    phone.app._on_tick(0)
    assert phone.app.view.screen.name == "exam-marks"


def test_with_letters_half_as_large_again_nothing_is_cut():
    """The same on a phone whose owner reads large letters; a process has one scale, so it is another one."""
    if os.environ.get("PHONE_FONTSCALE"):
        # This is that other process: its own tests say it.
        assert float(os.environ["PHONE_FONTSCALE"]) > 1
        return
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-p", "no:xdist", __file__],
        env={**os.environ, "PHONE_FONTSCALE": "1.5"},
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        timeout=200,
        check=False,
    )
    assert done.returncode == 0, done.stdout
