"""A mock exam in a terminal, by its keys: what is asked, kept and told."""

import json
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from click.testing import Result

from drill.cli.drill import Terminal
from drill.cli.exam import show_marks, sit
from drill.cli.today import student_session
from drill.memory.attempt import Attempt
from drill.report.page import Page
from drill.store.sqlite_log import open_log
from drill.study.exam_session import ExamSession

Run = Callable[..., Result]


def attempts(home: Path) -> tuple[Attempt, ...]:
    with open_log(home / "attempts.sqlite", read_only=True) as log:
        return log.attempts()


class Pages(Terminal):
    """A terminal whose keys are given beforehand; it keeps the pages shown."""

    def __init__(self, keys: str) -> None:
        waiting: Iterator[str] = iter(keys)
        super().__init__(lambda: next(waiting, "\x04"))
        self.pages: list[str] = []

    def show(self, page: Page) -> None:
        self.pages.append(page.text)


def test_an_exam_is_asked_marked_and_explained(run: Run, home: Path) -> None:
    """Four items, two of them left open; then the marks, and the whys one by one."""
    result = run("exam", "--questions", 4, "--seed", 3, "--student", "Ada", stdin="1\n1\n0\n2\n0\n1\n\nq\n")
    told = result.output
    assert "Mock exam: 4 items" in told
    assert "49 seconds an item" in told
    assert "4 of 4" in told
    assert "With this client in the chair" not in told, "nobody is asked how sure they are"
    marks = told[told.index("Pass mark 75 %") :]
    assert "First choice here" not in told[: told.index("Pass mark 75 %")], "no reason before the end"
    assert "Left open, and so without a mark: 2." in marks
    assert "Topic by topic" in marks
    assert marks.count("First choice here") + marks.count("What holds") == 2
    assert "wavedrill exam --questions 4 --seed 3" in told
    kept = attempts(home)
    assert [(one.setting, one.certainty, one.student) for one in kept] == [("exam", None, "Ada")] * 2


def test_the_same_seed_asks_the_same(run: Run, home: Path) -> None:
    """And its JSON says everything for another program, on standard output alone."""
    keys = "1\n" + "1\n" * 5
    first = run("exam", "--questions", 5, "--seed", 8, "--json", stdin=keys)
    told = json.loads(first.stdout)
    again = json.loads(run("exam", "--questions", 5, "--seed", 8, "--json", stdin=keys).stdout)
    assert told == again
    assert (told["format"], told["seed"], told["left_open"]) == ("exam.v1", 8, 0)
    assert len(told["items"]) == 5
    assert told["marks"]["items"] == sum(one["items"] for one in told["topics"].values()) == 5
    assert told["marks"]["right"] == sum(one["correct"] for one in told["items"])
    assert told["interval"] == "Wilson, 95 %"
    assert told["passes"] is (told["marks"]["right"] >= 0.75 * 5)
    assert "of 5" in first.stderr


def test_an_exam_that_breaks_off_keeps_what_was_answered(run: Run, home: Path) -> None:
    """Where nothing more can be read, the rest is open."""
    told = json.loads(run("exam", "--questions", 6, "--seed", 2, "--json", stdin="1\n2\n1\n").stdout)
    assert told["left_open"] == 4
    assert [one["choice"] is None for one in told["items"]] == [False, False, True, True, True, True]
    assert len(attempts(home)) == 2


def test_leaving_before_it_begins_keeps_nothing(run: Run, home: Path) -> None:
    """The paper is marked as left open."""
    told = json.loads(run("exam", "--questions", 2, "--json", stdin="q\n").stdout)
    assert told["left_open"] == 2
    assert attempts(home) == ()


def test_time_over_ends_it(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is pressed afterwards is not asked any more."""
    with student_session(school=None, student="Ada") as session:
        exam = ExamSession(session, seed=1, items=3)
        later = session.now

        class Late(Pages):
            def show(self, page: Page) -> None:
                super().show(page)
                if len(self.pages) == 3:
                    monkeypatch.setattr(type(session), "now", property(lambda _: later + timedelta(hours=1)))

        terminal = Late("1123")
        sit(exam, terminal)
    assert len(terminal.pages) == 3
    assert exam.exam.is_over
    assert (exam.exam.answered, exam.marks.left_open) == (1, 2)
    assert isinstance(exam.exam.ended, datetime)


def test_a_low_window_leaves_the_drawing_out(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The item itself is never cut off."""
    pages = []
    for lines in (60, 12):
        monkeypatch.setenv("LINES", str(lines))
        monkeypatch.setenv("COLUMNS", "80")
        with student_session(school=None, student="Ada") as session:
            exam = ExamSession(session, seed=4, items=12)
            terminal = Pages("1" + "1" * 12)
            sit(exam, terminal)
            pages.append(terminal.pages)
    assert any("nape" in page for page in pages[0])
    assert not any("╭" in page for page in pages[1])


def test_all_whys_can_be_read_to_the_end(home: Path) -> None:
    """What needs work comes first."""
    with student_session(school=None, student="Ada") as session:
        exam = ExamSession(session, seed=4, items=3)
        sit(exam, Pages("1111"))
        terminal = Pages("111")
        show_marks(exam, terminal)
    assert len(terminal.pages) == 4
    numbers = [at for at, one in enumerate(exam.exam.all_given, start=1) if not one.right]
    if numbers:
        assert f"{numbers[0]}. " in terminal.pages[1]


def test_a_book_without_such_items_says_so(run: Run, home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And ends as where problems were found."""
    monkeypatch.setattr("drill.study.exam_session.write_paper", lambda *_, **__: ())
    assert "There is nothing to ask in this book." in run("exam", status=1).output


def test_a_book_with_few_such_items_says_how_many(
    run: Run, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The exam is shorter then."""
    from drill.study.exam_paper import write_paper

    monkeypatch.setattr(
        "drill.study.exam_session.write_paper",
        lambda maker, *, items, seed: write_paper(maker, items=2, seed=seed),
    )
    assert "The book has 2 such items." in run("exam", "--questions", 9, stdin="q\n").output


def test_a_school_states_pass_mark_and_shares(run: Run, home: Path, tmp_path: Path) -> None:
    """Its own blueprint is told before the first item, and only its topics are asked."""
    folder = tmp_path / "school"
    folder.mkdir()
    (folder / "school.yaml").write_text(
        "name: Larkfield\npass_mark: 60 %\nblueprint: {test_curls: 50 %, base_control: 50 %}\n"
    )
    keys = "1\n" * 5
    told = run("exam", "--questions", 4, "--seed", 1, "--school", folder, stdin=keys).output
    assert "Topics weigh as Larkfield states." in told
    assert "Pass mark 60 %" in told
    result = json.loads(
        run("exam", "--questions", 4, "--seed", 1, "--school", folder, "--json", stdin=keys).stdout
    )
    assert set(result["topics"]) == {"test_curls", "base_control"}
