"""``wavedrill exam``: a mock exam in the terminal, by the blueprint's weights and against the clock."""

import json
import random
import shutil
import sys
from contextlib import redirect_stdout
from pathlib import Path

import click

from drill.basis.words import say
from drill.cli.drill import LEAVE, LeftError, Terminal, open_terminal
from drill.cli.telling import FOUND_PROBLEMS, note, terminal_page, wants_plain_lines
from drill.cli.today import student_session
from drill.memory.attempt import LARGEST_SEED
from drill.report.exam_text import exam_to_plain, put_item, put_marks, put_rules, put_why
from drill.report.page import Page
from drill.study.exam_paper import USUAL_ITEMS
from drill.study.exam_session import ExamSession

_MOST_ITEMS = 200
_OPEN = "0"
_GO_ON = ("\r", "\n", " ", "1", "")
_SEEDS = 1_000_000


@click.command("exam", short_help="Sit a mock exam.")
@click.option(
    "--questions",
    metavar="N",
    type=click.IntRange(1, _MOST_ITEMS),
    default=USUAL_ITEMS,
    show_default=True,
    help="How many items.",
)
@click.option(
    "--seed",
    metavar="N",
    type=click.IntRange(0, LARGEST_SEED),
    help="Draws the paper; the same seed gives the same one. A new one where it is left out.",
)
@click.option("--school", metavar="FOLDER", type=click.Path(path_type=Path), help="The school's folder.")
@click.option("--student", metavar="NAME", help="Whose answers they are; kept for the next time.")
@click.option("--json", "as_json", is_flag=True, help="Write the marks as one object; ask on standard error.")
def exam_command(
    *, questions: int, seed: int | None, school: Path | None, student: str | None, as_json: bool
) -> None:
    """Sit a mock exam: four options, one key, against the clock, and no reasons until the end.

    What is handed in is kept at once, so nothing is lost where it breaks off. What is left open when the time
    is over brings no mark.
    """
    drawn = random.SystemRandom().randrange(_SEEDS) if seed is None else seed
    with student_session(school=school, student=student) as session:
        exam = ExamSession(session, seed=drawn, items=questions)
        if not exam.exam.paper:
            note(say("There is nothing to ask in this book."))
            raise click.exceptions.Exit(FOUND_PROBLEMS)
        if len(exam.exam.paper) < questions:
            note(say("The book has {count} such items.", count=len(exam.exam.paper)))
        terminal = open_terminal()
        if as_json:
            with redirect_stdout(sys.stderr):
                sit(exam, terminal)
            click.echo(json.dumps(exam_to_plain(exam.exam, exam.marks, seed=drawn), indent=2))
        else:
            sit(exam, terminal)
            show_marks(exam, terminal)
        note(
            say("The same paper again: wavedrill exam --questions {n} --seed {seed}", n=questions, seed=drawn)
        )


def sit(exam: ExamSession, terminal: Terminal) -> None:
    """Ask item after item, until all are handed in, the time is over, or the student leaves.

    Args:
        exam: The student at the exam.
        terminal: Where.
    """
    page = terminal_page()
    put_rules(page, exam.exam, exam.book)
    page.blank()
    terminal.show(page)
    try:
        terminal.read(say("Enter or 1 to begin, {leave} to leave:", leave=LEAVE), _GO_ON)
        exam.begin()
        while not exam.tick().is_over:
            _ask(exam, terminal)
    except LeftError:
        exam.end()
    answered, items = exam.exam.answered, len(exam.exam.paper)
    note(say("Answers kept: {count} of {all}.", count=answered, all=items))


def show_marks(exam: ExamSession, terminal: Terminal) -> None:
    """Show the marks, and the why of any item that is asked for.

    Args:
        exam: The exam, over.
        terminal: Where.
    """
    page = terminal_page()
    put_marks(page, exam.exam, exam.marks, exam.book)
    page.blank()
    terminal.show(page)
    given = exam.exam.all_given
    order = [
        *(at for at, one in enumerate(given) if not one.right),
        *(at for at, one in enumerate(given) if one.right),
    ]
    try:
        for at in order:
            terminal.read(say("Enter or 1 for the next why, {leave} to leave:", leave=LEAVE), _GO_ON)
            page = terminal_page()
            put_why(page, given[at], exam.book, number=at + 1)
            page.blank()
            terminal.show(page)
    except LeftError:
        click.echo("")


def _ask(exam: ExamSession, terminal: Terminal) -> None:
    question = exam.exam.question
    if question is None:
        return
    numbers = tuple(str(number) for number in range(1, len(question.options) + 1))
    terminal.show(_item_page(exam))
    keys = say(
        "1 to {last} to answer, {open} to leave it open, {leave} to end:",
        last=len(numbers),
        open=_OPEN,
        leave=LEAVE,
    )
    key = terminal.read(keys, (*numbers, _OPEN))
    if key != _OPEN:
        exam.choose(question.options[int(key) - 1].id)
    exam.go_on()


def _item_page(exam: ExamSession) -> Page:
    """Draw the item, and leave the head's drawing out where the window is too low for it."""
    lines = shutil.get_terminal_size((80, 24)).lines
    page = terminal_page()
    for with_map in (True, False):
        page = terminal_page()
        if exam.exam.question is not None:
            put_item(
                page,
                exam.exam,
                exam.exam.question,
                seconds_left=exam.seconds_left,
                with_map=with_map,
                plain=wants_plain_lines(),
            )
        page.blank()
        if page.height < lines:
            break
    return page
