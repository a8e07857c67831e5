"""``wavedrill tutor``: what the answers of a class tell."""

import hashlib
import json
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import Result

from drill.bank.book import Book
from drill.cli.demo import PROFILES, demo_attempts
from drill.memory.attempt import Attempt
from drill.store.exchange import attempts_to_lines
from drill.store.sqlite_log import open_log

Run = Callable[..., Result]
NOW = datetime(2026, 3, 31, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def attempts(book: Book) -> tuple[Attempt, ...]:
    """Made-up answers of two students."""
    return tuple(one for profile in PROFILES[:2] for one in demo_attempts(book, profile, now=NOW))


@pytest.fixture
def logs(attempts: tuple[Attempt, ...], tmp_path: Path) -> tuple[Path, Path]:
    """A log of the first student, and an export of everybody's."""
    log, export = tmp_path / "ilka.sqlite", tmp_path / "all.jsonl"
    with open_log(log) as opened:
        opened.receive((one for one in attempts if one.student == PROFILES[0].name), now=NOW, origin="test")
    export.write_text("".join(attempts_to_lines(attempts)))
    return log, export


def test_logs_are_put_together_and_not_changed(
    run: Run, logs: tuple[Path, Path], attempts: tuple[Attempt, ...]
) -> None:
    """An answer that stands in two files counts once; the files stay as they were to the byte."""
    before = [hashlib.sha256(path.read_bytes()).digest() for path in logs]
    report = json.loads(run("tutor", *logs, "--json", "--day", "2026-03-31").stdout)
    counts = {one["student"]: one["answers"] for one in report["students"]}
    assert counts == {
        profile.name: sum(one.student == profile.name for one in attempts) for profile in PROFILES[:2]
    }
    assert [hashlib.sha256(path.read_bytes()).digest() for path in logs] == before
    assert {path.name for path in logs[0].parent.iterdir()} >= {"ilka.sqlite", "all.jsonl"}
    assert not list(logs[0].parent.glob("*-wal"))


def test_harmful_ideas_come_first(run: Run, logs: tuple[Path, Path], book: Book) -> None:
    """Each idea is told in words; topics come weakest first, on so many answers."""
    report = json.loads(run("tutor", logs[1], "--json", "--day", "2026-03-31").stdout)
    for student in report["students"]:
        harms = [one["harm"] for one in student["ideas"]]
        assert harms == sorted(harms, reverse=True)
        assert all(one["belief"] == book.beliefs[one["misconception"]].belief for one in student["ideas"])
        chances = [one["p_right"] for one in student["topics"]]
        assert chances == sorted(chances)
        assert sum(one["answers"] for one in student["topics"]) == student["answers"]
    assert any(one["harm"] for student in report["students"] for one in student["ideas"])


def test_a_day_is_the_state_of_that_day(run: Run, logs: tuple[Path, Path]) -> None:
    """Later answers are left out; before the first one there is nobody."""
    half = json.loads(run("tutor", logs[1], "--json", "--day", "2026-03-15").stdout)
    whole = json.loads(run("tutor", logs[1], "--json", "--day", "2026-03-31").stdout)
    assert 0 < half["students"][0]["answers"] < whole["students"][0]["answers"]
    assert max(one["last_day"] for one in half["students"]) <= "2026-03-15"
    assert json.loads(run("tutor", logs[1], "--json", "--day", "2020-01-01").stdout)["students"] == []
    run("tutor", logs[1], "--day", "2020-01-01")
    run("tutor", logs[1], "--day", "soon", status=2)


def test_text_names_ideas_and_never_a_bare_percentage(run: Run, logs: tuple[Path, Path]) -> None:
    """Chances are told as so many in ten, and the text fits 80 columns."""
    text = run("tutor", *logs, "--day", "2026-03-31").stdout
    assert "Teach next" in text
    assert "in 10" in text
    assert "%" not in text
    assert max(map(len, text.splitlines())) <= 80


def test_files_that_are_no_logs_are_all_told(run: Run, tmp_path: Path) -> None:
    """One that is missing, one that is text, one export with a fault in its line; nothing is reported."""
    note, export = tmp_path / "note.txt", tmp_path / "bad.jsonl"
    note.write_text("hello")
    export.write_text('{"id": 3}\n')
    result = run("tutor", tmp_path / "none", note, export, status=1)
    assert result.stdout == ""
    for path in ("none:1:1", "note.txt:1:1", "bad.jsonl:1:"):
        assert path in result.stderr


def test_no_log_is_wrong_usage(run: Run) -> None:
    """There is nothing to read."""
    run("tutor", status=2)


def test_the_demo_shows_a_class(run: Run) -> None:
    """Every invented student is there, with something that holds or loosens and a wrong idea or more."""
    report = json.loads(run("tutor", "--demo", "--json").stdout)
    assert [one["student"] for one in report["students"]] == sorted(one.name for one in PROFILES)
    assert all(any(topic["loosening"] for topic in one["topics"]) for one in report["students"])
    assert report["class"]["ideas"]
