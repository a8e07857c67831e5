"""The drill in a terminal, by its keys."""

import io
import random
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType

import pytest
from click.testing import Result

from drill.bank.book import Book
from drill.bank.item import Item, Wrong
from drill.cli.drill import Terminal, run_drill
from drill.cli.today import demo_session, has_display, student_session
from drill.memory.attempt import Attempt
from drill.report.page import Page
from drill.service.zones import ZONE_NAMES
from drill.store.sqlite_log import memory_log, open_log
from drill.study.session import Session

Run = Callable[..., Result]
# A topic whose questions are all answered by an option's number.
CHOICES = "papers"


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


class Answering(Pages):
    """Answers each question in its own form: the first option, a number, the steps as they stand."""

    def __init__(self, session: Session, answers: Mapping[str, str] = MappingProxyType({})) -> None:
        super().__init__("")
        self._session, self._given, self._waiting = session, answers, ""
        self._keys = self._key

    def _key(self) -> str:
        if not self._waiting:
            self._waiting = self._next_keys()
        key, self._waiting = self._waiting[0], self._waiting[1:]
        return key

    def _next_keys(self) -> str:
        sitting = self._session.sitting
        if sitting is None or sitting.question is None or sitting.phase != "question":
            return "1"
        question = sitting.question
        usual = {
            "option": "1",
            "place": question.options[0].id,
            "number": "3\r",
            "order": "".join(piece.id for piece in question.pieces) + "\r",
        }
        return self._given.get(question.answer_as, usual[question.answer_as])


@contextmanager
def session_of(item: Item, book: Book) -> Iterator[Session]:
    """A student who is asked one item."""
    own = replace(book, items=(item,), topics={item.topic: "Topic"})
    with memory_log() as log:
        yield Session(
            own,
            log=log,
            student="Ada",
            device="desk-1",
            clock=lambda: datetime(2026, 11, 25, 16, 0, tzinfo=UTC),
            rng=random.Random(1),
        )


TURNS = Item(
    id="turns", topic="t", kind="estimate", stem="The {zone}. How many turns?", decision="turns",
    zones=("top",), vary={"wish.curl": ("tight",)},
)  # fmt: skip
STEPS = Item(
    id="steps", topic="t", kind="order", stem="In which order?", steps=("wash", "wind", "wet", "rinse"),
    wrong=(Wrong(text="", order=(1, 0, 2, 3)), Wrong(text="", order=(0, 2, 1, 3))),
    because="Lotion wets what is wound.", source="common practice",
)  # fmt: skip
PLACE = Item(
    id="place", topic="t", kind="locate", stem="Where is it rolled forward?", decision="roll_direction",
    zones=ZONE_NAMES, vary={"wish.wear": ("forward", "back"), "hair.growth": ("none", "back")},
    wanted=("forward",),
)  # fmt: skip


@pytest.mark.parametrize("item", [TURNS, STEPS, PLACE], ids=lambda item: item.kind)
def test_each_form_is_answered_and_its_answer_kept(item: Item, book: Book) -> None:
    """By one student, from the question to the end."""
    with session_of(item, book) as session:
        terminal = Answering(session)
        run_drill(session, terminal, topic=None, anew=False)
        question, certainty, reveal, done = terminal.pages
        assert len(session.memories) == 1
    assert "I'd do it" not in question
    assert "I'd do it" in certainty
    assert "You chose" in reveal
    assert "Done for now" in done


def test_a_number_is_typed_and_erased_and_the_computed_one_is_told(book: Book) -> None:
    """Nothing on the page gives it away before."""
    with session_of(TURNS, book) as session:
        terminal = Answering(session, {"number": "9\b4 turns\r"})
        run_drill(session, terminal, topic=None, anew=False)
        (asked,) = session.questions_asked()
    question, certainty, reveal, _ = terminal.pages
    assert asked.answer.text not in question
    assert "4 turns" in certainty
    assert "You chose: 4 turns" in reveal
    assert f"Computed here: {asked.answer.text}" in reveal


def test_another_form_is_told_kindly_and_asked_again(book: Book, capsys: pytest.CaptureFixture[str]) -> None:
    """A word where a number belongs, and an option's letter, are no answers."""
    with session_of(TURNS, book) as session:
        run_drill(session, Answering(session, {"number": "many\ra\r5\r"}), topic=None, anew=False)
        assert len(session.memories) == 1
    told = capsys.readouterr().out
    assert "'many' is not that. Write a number of turns, such as 2.5 turns:" in told
    assert "'a' is not that." in told


def test_steps_stand_in_the_order_that_was_typed(book: Book) -> None:
    """With their letters, so that it can be looked through before the certainty is said."""
    with session_of(STEPS, book) as session:
        pieces = session.start().question.pieces  # type: ignore[union-attr]
        letters = "".join(piece.id for piece in reversed(pieces))
        terminal = Answering(session, {"order": f"{letters}\r"})
        run_drill(session, terminal, topic=None, anew=True)
    certainty = terminal.pages[1]
    places = [certainty.index(f"  {piece.id}  {piece.text}") for piece in reversed(pieces)]
    assert places == sorted(places)
    assert "In this order" in certainty


def test_places_have_their_letters_on_the_head(book: Book) -> None:
    """And in a list beside it; the letter is the key to press."""
    with session_of(PLACE, book) as session:
        terminal = Answering(session)
        run_drill(session, terminal, topic=None, anew=False)
        (asked,) = session.questions_asked()
    question = terminal.pages[0]
    for option in asked.options:
        assert f" {option.id} " in question
        assert f"  {option.id}  {option.text}" in question


def test_a_line_can_be_left_at_any_time(run: Run, book: Book, home: Path) -> None:
    """q and the end of input do what they do elsewhere."""
    for keys in ("q", "\x04", "q\r"):
        with session_of(TURNS, book) as session:
            terminal = Answering(session, {"number": keys})
            run_drill(session, terminal, topic=None, anew=False)
            assert session.memories == {}
            assert len(terminal.pages) == 1


def test_lines_from_a_file_answer_a_number(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no key can be read, each answer is a line."""
    with session_of(TURNS, book) as session:
        monkeypatch.setattr("sys.stdin", io.StringIO("4 turns\n2\n\n"))
        run_drill(session, Terminal(), topic=None, anew=False)
        (memory,) = session.memories.values()
    assert memory.last_day


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
    assert any(told in reveal for told in ("That holds.", "First choice here", "What holds"))


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
    run("--terminal", "--student", "Ada", "--topic", CHOICES, stdin="1\n1\n\n1\n1\n\nq\n")
    again = run("--terminal", stdin="q\n")
    assert "Answered earlier today: 2" in again.stdout
    assert "3 of 12" in again.stdout
    assert len(attempts(home)) == 2


def test_a_sitting_ends_with_what_held_and_what_needs_work(run: Run, home: Path) -> None:
    """Two questions, then the end, without a further key."""
    options = ("--questions", 2, "--topic", CHOICES)
    result = run("--terminal", "--student", "Ada", *options, stdin="1\n3\n\n1\n3\n\n")
    assert "Done for now" in result.stdout
    assert "of 2" in result.stdout
    assert "The head so far" in result.stdout
    assert len({one.skill for one in attempts(home)}) == 2


def test_when_everything_was_asked_it_says_so(run: Run, home: Path) -> None:
    """A topic is asked once a day and then rests."""
    keys = "1\n1\n\n" * 120
    first = run("--terminal", "--student", "Ada", "--topic", CHOICES, "--questions", 100, stdin=keys)
    assert "Done for now" in first.stdout
    assert {one.skill.partition("/")[0] for one in attempts(home)}
    again = run("--terminal", "--topic", CHOICES, stdin="q\n")
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
        terminal = Answering(session)
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
