"""Made-up answers: repeatable, in the past, and of invented people."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from drill.bank.book import Book
from drill.cli.demo import DEMO_SCHOOL, DEMO_STUDENT, PROFILES, demo_attempts
from drill.load.compile import compile_book
from drill.memory.attempt import study_day

NOW = datetime(2026, 3, 31, 12, 0, tzinfo=UTC)


def test_the_same_seed_gives_the_same_answers(book: Book) -> None:
    """And another seed gives others."""
    profile = PROFILES[0]
    first = demo_attempts(book, profile, now=NOW)
    assert first == demo_attempts(book, profile, now=NOW)
    assert first != demo_attempts(book, profile, now=NOW, seed=8)


@pytest.mark.parametrize("hour", [0, 2, 3, 15, 23])
def test_answers_lie_before_today(book: Book, hour: int) -> None:
    """Whatever the hour, today is free for the drill, and a few weeks lie behind it."""
    now = datetime(2026, 3, 31, hour, 30, tzinfo=timezone(timedelta(hours=2)))
    today = study_day(now, tz_offset=timedelta(hours=2))
    found = demo_attempts(book, PROFILES[3], now=now)
    assert all(one.day < today and one.at < now for one in found)
    assert min(one.day for one in found) >= today - 7 * PROFILES[3].weeks
    assert len({one.day for one in found}) > 3


def test_names_say_that_they_are_invented() -> None:
    """The demo's student is one of the class."""
    assert DEMO_STUDENT in {one.name for one in PROFILES}
    assert all("(invented)" in one.name for one in PROFILES)


def test_the_demo_school_is_sound_on_any_day() -> None:
    """It states no date that could go by, and its proof holds."""
    compiled = compile_book(DEMO_SCHOOL, day=NOW.date())
    assert compiled.problems == ()
    assert compiled.book.school.exam_date == ""
    assert "invented" in compiled.book.school.name
    assert compiled.school is not None
    assert all(rule.in_force(NOW.date().replace(year=2090)) for rule in compiled.school.rules)
