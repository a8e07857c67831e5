"""``wavedrill tutor``: what the answers of a student or a class tell who teaches them."""

import json
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path

import click

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.make import QuestionMaker
from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.demo import DEMO_SCHOOL, demo_class
from drill.cli.in_force import book_in_force
from drill.cli.telling import note, refuse, terminal_page
from drill.memory.attempt import EPOCH, Attempt, study_day
from drill.report.class_report import class_to_plain, report_class
from drill.report.class_text import put_class
from drill.store.exchange import attempts_from_bytes
from drill.store.sqlite_log import SqliteLog, memory_log

_MANY = 3000
_MOST_BYTES = 500_000_000
_SQLITE = b"SQLite format 3\x00"


@click.command("tutor", short_help="Read what students hold, and which wrong ideas showed.")
@click.argument("logs", nargs=-1, metavar="LOG...", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Write one object.")
@click.option("--school", metavar="FOLDER", type=click.Path(path_type=Path), help="The school's folder.")
@click.option(
    "--day",
    metavar="DAY",
    type=click.DateTime(["%Y-%m-%d"]),
    help="As it stood on that day, such as 2026-03-31; today where left out.",
)
@click.option("--demo", is_flag=True, help="An invented class with made-up answers.")
def tutor_command(
    logs: tuple[Path, ...], *, as_json: bool, school: Path | None, day: datetime | None, demo: bool
) -> None:
    """Read what students hold, and which wrong ideas showed.

    A LOG is a student's attempt log or an export of it; several are put together in memory, and no file is
    changed. Ideas that can hurt a client come first.
    """
    if not logs and not demo:
        raise click.UsageError(say("name at least one log, or use --demo"))
    now = local_now()
    book = book_in_force(DEMO_SCHOOL if demo and school is None else school)
    with memory_log() as gathered:
        _gather(gathered, logs, now=now)
        if demo:
            gathered.receive(demo_class(book, now=now), now=now, origin=say("the demo"))
        attempts = gathered.clamped_attempts()
        ahead = Counter(one.student for one in gathered.ahead())
    report = report_class(
        attempts,
        book=book,
        day=_day_number(day.date()) if day else study_day(now, tz_offset=now.utcoffset() or timedelta(0)),
        offered=_offered(book, attempts),
        clock_ahead=ahead,
    )
    if as_json:
        click.echo(json.dumps(class_to_plain(report, book), indent=2))
        return
    page = terminal_page()
    put_class(page, report, book)
    click.echo(page.text, nl=False)
    if demo:
        note(say("These students and their answers are invented."))


def _gather(gathered: SqliteLog, logs: Sequence[Path], *, now: datetime) -> None:
    problems: list[Problem] = []
    for path in logs:
        try:
            if _is_export(path):
                attempts, faults = attempts_from_bytes(path.read_bytes(), file=str(path))
                problems += faults
                gathered.receive(attempts, now=now.astimezone(UTC), origin=str(path))
            else:
                gathered.merge(path, now=now.astimezone(UTC))
        except ProblemsError as error:
            problems += error.problems
    if problems:
        refuse(problems)


def _is_export(path: Path) -> bool:
    """Tell an export, which is text, from a log; what cannot be read at all is left to the log to tell."""
    try:
        with path.open("rb") as file:
            start = file.read(len(_SQLITE))
        if start and start != _SQLITE and start.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
            if path.stat().st_size > _MOST_BYTES:
                what = say("the file is over {most} bytes", most=f"{_MOST_BYTES:,}")
                raise ProblemsError([Problem(Place(str(path)), what, say("split it up"))])
            return True
    except OSError:
        return False
    return False


def _offered(book: Book, attempts: Sequence[Attempt]) -> Callable[[Attempt], frozenset[str]]:
    """Make each attempt's question again, to know which wrong ideas its options offered."""
    maker = QuestionMaker(Beliefs(book))
    digest = book.rulebook.digest

    @cache
    def of_question(item_id: str, seed: int) -> frozenset[str]:
        item = book.item(item_id)
        question = maker.make(item, seed) if item else None
        if question is None:
            return frozenset()
        return frozenset(idea for option in question.options for idea in option.misconceptions)

    def offered(attempt: Attempt) -> frozenset[str]:
        # Under other rules the same seed may give another question; the log then tells what was chosen.
        return of_question(attempt.item, attempt.seed) if attempt.rulebook == digest else frozenset()

    if len(attempts) >= _MANY and sys.stderr.isatty():
        with click.progressbar(attempts, label=say("Reading the answers"), file=sys.stderr) as shown:
            for attempt in shown:
                offered(attempt)
    return offered


def _day_number(day: date) -> int:
    return (day - EPOCH.date()).days
