"""What the bare command needs: who drills, where the answers are kept, from which book, in which front."""

import os
import random
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Protocol

import click

from drill.bank.book import Book
from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.demo import DEMO_SCHOOL, DEMO_STUDENT, PROFILES, demo_attempts
from drill.cli.home import CACHE_FOLDER, LOG_FILE, data_folder, find_pack, read_settings
from drill.cli.in_force import opened_pack, pack_in_force
from drill.cli.telling import note, refuse, tell_problems
from drill.load.open import open_book
from drill.store.sqlite_log import SqliteLog, open_log
from drill.study.session import Session


class OpenWindow(Protocol):
    """Opens the window on a session."""

    def __call__(self, session: Session, /, *, told: Iterable[Problem] = ()) -> None:
        """Open it.

        Args:
            session: The student at work.
            told: What is to be told before the first screen.
        """
        ...


_TOLD = "drill.told"
STUDENT, DEVICE = "student", "device"
_DISPLAYS = ("DISPLAY", "WAYLAND_DISPLAY")
# Drivers that draw where nobody can look.
_UNSEEN = ("offscreen", "dummy")
_LONGEST_NAME = 60


def has_display(*, environment: Mapping[str, str] = os.environ, platform: str = sys.platform) -> bool:
    """Tell whether a window would be seen by somebody.

    Args:
        environment: The environment's variables.
        platform: The system, as Python names it.

    Returns:
        True where there is a display, and no driver is set that draws where nobody can look.
    """
    if environment.get("SDL_VIDEODRIVER") in _UNSEEN:
        return False
    return platform in ("darwin", "win32") or any(environment.get(name) for name in _DISPLAYS)


def told_first() -> tuple[Problem, ...]:
    """Give what the opening of the session found to tell, though it goes on without."""
    context = click.get_current_context(silent=True)
    return context.meta.get(_TOLD, ()) if context else ()


@contextmanager
def student_session(*, school: Path | None, student: str | None) -> Iterator[Session]:
    """Open the session of the student of this device.

    Args:
        school: The school's folder; None for the one in the settings.
        student: The name; None for the one in the settings or in the log.

    Yields:
        The session; its log is closed afterwards.

    Raises:
        ProblemsError: If the log cannot be used.
    """
    folder = data_folder()
    settings, problems = read_settings(folder)
    if problems:
        refuse(problems)
    book = _book_of(school or settings.school, folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = say("cannot make the data folder: {reason}", reason=(error.strerror or "").lower())
        mend = say("name another one in WAVEDRILL_HOME")
        raise ProblemsError([Problem(Place(str(folder)), what, mend)]) from error
    with open_log(folder / LOG_FILE) as log:
        name = _student_name(student or settings.student, log)
        yield _session(book, log, student=name)


@contextmanager
def demo_session() -> Iterator[Session]:
    """Open a session of an invented student of an invented school; nothing of it stays.

    Yields:
        The session, with a few weeks of made-up answers behind it.
    """
    book = _open_book(DEMO_SCHOOL, cache=None)
    now = local_now()
    profile = next(one for one in PROFILES if one.name == DEMO_STUDENT)
    with TemporaryDirectory(prefix="wavedrill-demo-") as folder, open_log(Path(folder) / LOG_FILE) as log:
        log.receive(demo_attempts(book, profile, now=now), now=now, origin=say("the demo"))
        yield _session(book, log, student=DEMO_STUDENT)
    note(say("School, student and answers were invented; nothing of this is kept."))


def _book_of(school: Path | None, folder: Path) -> Book:
    """Open the pack named, the folder, the pack in the data folder, or the built-in book, in this order."""
    pack = pack_in_force()
    if pack is not None:
        return pack.book
    try:
        dropped = find_pack(folder) if school is None else None
        if dropped is not None:
            return opened_pack(dropped, cache=folder / CACHE_FOLDER).book
    except ProblemsError as error:
        _tell(error.problems)
    return _open_book(school, cache=folder / CACHE_FOLDER)


def _tell(problems: tuple[Problem, ...]) -> None:
    tell_problems(problems)
    note(say("The built-in questions are asked until then."))
    context = click.get_current_context(silent=True)
    if context is not None:
        context.meta[_TOLD] = problems


def _open_book(school: Path | None, *, cache: Path | None) -> Book:
    book, problems = open_book(school, day=local_now().date(), cache=cache)
    if problems:
        refuse(problems)
    return book


def _session(book: Book, log: SqliteLog, *, student: str) -> Session:
    return Session(
        book,
        log=log,
        student=student,
        device=_device(log),
        clock=local_now,
        rng=random.SystemRandom(),
    )


def _device(log: SqliteLog) -> str:
    """Give the device a name of its own, drawn once, that says nothing about its owner."""
    kept = log.kept(DEVICE)
    if kept is None:
        kept = f"{random.SystemRandom().getrandbits(48):012x}"
        log.keep(DEVICE, kept)
    return kept


def _student_name(stated: str, log: SqliteLog) -> str:
    name = " ".join(stated.split())[:_LONGEST_NAME] or log.kept(STUDENT) or ""
    if not name and sys.stdin.isatty() and sys.stdout.isatty():
        name = click.prompt(say("Your name, as your instructor knows it"), default="me")[:_LONGEST_NAME]
    name = name or "me"
    if log.kept(STUDENT) is None or stated:
        log.keep(STUDENT, name)
    return name
