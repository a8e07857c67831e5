"""The drill in a terminal, by its keys."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import Result

from drill.cli.drill import Terminal, run_drill
from drill.cli.today import demo_session, has_display, student_session
from drill.memory.attempt import Attempt
from drill.report.page import Page
from drill.store.sqlite_log import open_log

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


def test_an_answer_is_kept_before_its_reveal(home: Path) -> None:
    """Two keys make an attempt; leaving at the reveal loses nothing."""
    with student_session(school=None, student="Ada") as session:
        terminal = Pages("23q")
        run_drill(session, terminal, topic=None, anew=False)
    (only,) = attempts(home)
    assert (only.student, only.certainty, only.setting) == ("Ada", "high", "drill")
    question, certainty, reveal = terminal.pages
    assert "I'd do it" not in question
    assert certainty.index("I'd ask first") < certainty.index("I'd check") < certainty.index("I'd do it")
    assert "That holds." in reveal or "First choice here" in reveal


def test_leaving_before_the_certainty_keeps_no_answer(home: Path) -> None:
    """A choice alone is no answer."""
    with student_session(school=None, student="Ada") as session:
        run_drill(session, Pages("2q"), topic=None, anew=False)
    assert attempts(home) == ()


def test_a_choice_can_be_changed(home: Path) -> None:
    """0 goes back to the question; the last choice counts."""
    with student_session(school=None, student="Ada") as session:
        shown = session.start()
        assert shown.question is not None
        run_drill(session, Pages("1021q"), topic=None, anew=False)
        (second,) = session.memories.values()
    (only,) = attempts(home)
    assert (only.certainty, only.skill) == ("low", second.skill)
    assert only.choice == str(shown.question.options[1].value)


def test_other_keys_do_nothing(home: Path) -> None:
    """Letters and numbers without a meaning are passed over."""
    with student_session(school=None, student="Ada") as session:
        terminal = Pages("x9 1x92q")
        run_drill(session, terminal, topic=None, anew=False)
    assert attempts(home)[0].certainty == "middle"


def test_a_sitting_goes_on_where_it_stood(run: Run, home: Path) -> None:
    """After two answers and q, the next start asks the third question and says so."""
    run("--terminal", "--student", "Ada", stdin="1\n1\n\n1\n1\n\nq\n")
    again = run("--terminal", stdin="q\n")
    assert "Answered earlier today: 2" in again.stdout
    assert "3 of 12" in again.stdout
    assert len(attempts(home)) == 2


def test_a_sitting_ends_with_what_held_and_what_needs_work(run: Run, home: Path) -> None:
    """Two questions, then the end, without a further key."""
    result = run("--terminal", "--student", "Ada", "--questions", 2, stdin="1\n3\n\n1\n3\n\n")
    assert "Done for now" in result.stdout
    assert "of 2" in result.stdout
    assert "The head so far" in result.stdout
    assert len({one.skill for one in attempts(home)}) == 2


def test_when_everything_was_asked_it_says_so(run: Run, home: Path) -> None:
    """A topic is asked once a day and then rests."""
    with student_session(school=None, student="Ada") as session:
        topic = min(
            session.book.topics, key=lambda one: sum(item.topic == one for item in session.book.items)
        )
    keys = "1\n1\n\n" * 120
    first = run("--terminal", "--student", "Ada", "--topic", topic, "--questions", 100, stdin=keys)
    assert "Done for now" in first.stdout
    assert {one.skill.partition("/")[0] for one in attempts(home)}
    again = run("--terminal", "--topic", topic, stdin="q\n")
    assert "rests until tomorrow" in again.stdout


def test_the_end_of_input_leaves(run: Run, home: Path) -> None:
    """Nothing more to read is the same as q."""
    assert "Answers kept: 0" in run("--terminal", "--student", "Ada", stdin="").stderr
    assert attempts(home) == ()


def test_the_student_and_the_device_are_kept(run: Run, home: Path) -> None:
    """Named once, the next answers are kept under the same name and device."""
    run("--terminal", "--student", "  Ada   Reyes ", stdin="1\n1\nq\n")
    run("--terminal", stdin="1\n1\nq\n")
    both = attempts(home)
    assert [one.student for one in both] == ["Ada Reyes", "Ada Reyes"]
    assert len({one.device for one in both}) == 1


def test_the_demo_leaves_nothing_behind(run: Run, home: Path) -> None:
    """It opens a sitting with answers behind it, and keeps no file."""
    result = run("--demo", stdin="1\n1\n\nq\n")
    assert "nothing of this is kept" in result.stderr
    assert not home.exists()


def test_the_demo_has_decisions_in_every_state(home: Path) -> None:
    """Some hold, some loosen, some were never asked."""
    with demo_session() as session:
        terminal = Pages("11\r" * 3 + "q")
        session.goal = type(session.goal)(questions=3)
        run_drill(session, terminal, topic=None, anew=True)
        last = terminal.pages[-1].splitlines()
    assert "topic" in " ".join(last)
    columns = [row for line in last if len(row := line.split()[-3:]) == 3 and all(map(str.isdigit, row))]
    assert all(sum(int(row[at]) for row in columns) > 0 for at in range(3))


@pytest.mark.parametrize(
    ("environment", "platform", "expected"),
    [
        ({}, "linux", False),
        ({"DISPLAY": ":0"}, "linux", True),
        ({"WAYLAND_DISPLAY": "wayland-0"}, "linux", True),
        ({"DISPLAY": ":0", "SDL_VIDEODRIVER": "offscreen"}, "linux", False),
        ({"SDL_VIDEODRIVER": "dummy"}, "darwin", False),
        ({}, "darwin", True),
        ({}, "win32", True),
    ],
)
def test_a_window_opens_only_where_somebody_sees_it(
    environment: dict[str, str], platform: str, expected: bool
) -> None:
    """Never with a driver that draws where nobody looks."""
    assert has_display(environment=environment, platform=platform) is expected
