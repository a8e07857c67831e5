"""The drill in a terminal: number keys where it can be, so that one hand is enough; q leaves at any time."""

import shutil
import sys
from collections.abc import Callable
from contextlib import suppress

import click

from drill.bank.question import Question
from drill.basis.words import say
from drill.cli.telling import note, terminal_page, wants_plain_lines
from drill.report.page import Page
from drill.report.sitting_text import (
    CERTAINTIES,
    put_asked,
    put_certainties,
    put_done,
    put_reveal,
    put_standing,
)
from drill.study.answer import how_to_answer
from drill.study.session import Session
from drill.study.sitting import Sitting

LEAVE, BACK = "q", "0"
_GO_ON = ("\r", "\n", " ", "1", "")
_END = "\x04"
_ENTER, _ERASE = ("\r", "\n"), ("\b", "\x7f")


class LeftError(Exception):
    """The student leaves the sitting."""


class Terminal:
    """A terminal, or what stands in for one: pages out, keys in.

    Args:
        keys: Gives the next key; None where a line is read from standard input for each.
    """

    def __init__(self, keys: Callable[[], str] | None = None) -> None:
        self._keys = keys

    @property
    def redraws(self) -> bool:
        """Whether each page takes the place of the one before it."""
        return self._keys is not None

    def show(self, page: Page) -> None:
        """Show a page."""
        if self.redraws:
            click.clear()
        click.echo(page.text if self.redraws else f"\n{page.text}", nl=False)

    def read(self, prompt: str, allowed: tuple[str, ...]) -> str:
        """Wait for one of some keys.

        Args:
            prompt: What may be pressed.
            allowed: Keys that are taken.

        Returns:
            The key.

        Raises:
            LeftError: If the student leaves, or nothing more can come.
        """
        click.echo(prompt, nl=self.redraws)
        while True:
            key = self._next()
            if key.lower() == LEAVE or key == _END:
                raise LeftError
            if key in allowed:
                return key
            if not self.redraws:
                click.echo(say("{prompt} ", prompt=prompt), nl=False)

    def read_line(self, prompt: str) -> str:
        """Wait for a line.

        Args:
            prompt: What may be written.

        Returns:
            The line, without what surrounds it.

        Raises:
            LeftError: If the student leaves, or nothing more can come.
        """
        click.echo(say("{prompt} ", prompt=prompt), nl=False)
        line = ""
        while True:
            key = self._next()
            if key == _END or (line + key).strip().lower() == LEAVE:
                raise LeftError
            if not self.redraws:
                return key
            if key in _ENTER:
                click.echo("")
                return line.strip()
            erased = key in _ERASE
            line = line[:-1] if erased else line + key
            click.echo("\b \b" if erased else key, nl=False)

    def _next(self) -> str:
        try:
            if self._keys is not None:
                return self._keys()
            line = sys.stdin.readline()
        except (KeyboardInterrupt, EOFError):
            return _END
        return line.strip() if line else _END


def open_terminal() -> Terminal:
    """Take single keys where a person sits at a terminal, else lines."""
    if sys.stdin.isatty() and sys.stdout.isatty():
        return Terminal(click.getchar)
    return Terminal()


def run_drill(session: Session, terminal: Terminal, *, topic: str | None, anew: bool) -> None:
    """Drill until the sitting is done or the student leaves; every answer is kept as it is given.

    Args:
        session: The student at work.
        terminal: Where.
        topic: Ask this topic only; None for all.
        anew: Whether to start anew where a sitting of today waits.
    """
    sitting = None if anew else session.resume()
    opening = ""
    if sitting is not None and sitting.count:
        opening = say("Answered earlier today: {count}. Here it goes on.", count=sitting.count)
    if sitting is None:
        sitting = session.start(topic=topic)
    try:
        while sitting.phase != "done":
            sitting = _ask(session, terminal, sitting, opening)
            opening = ""
    except LeftError:
        _leave(session)
        return
    _end(session, terminal)


def _ask(session: Session, terminal: Terminal, sitting: Sitting, opening: str) -> Sitting:
    """Ask one question, from the head to the reveal; the opening is said above it."""
    question = sitting.question
    if question is None:
        return session.go_on()
    certainty = BACK
    while certainty == BACK:
        terminal.show(_question_page(session, sitting, opening=opening))
        sitting = _answer(session, terminal, question)
        if terminal.redraws:
            terminal.show(_question_page(session, sitting))
        else:
            page = terminal_page()
            put_certainties(page)
            terminal.show(page)
        keys = say("1 to 3, {back} to choose again, {leave} to leave:", back=BACK, leave=LEAVE)
        certainty = terminal.read(keys, ("1", "2", "3", BACK))
        if certainty == BACK:
            sitting = session.take_back()
    sitting = session.say_certainty(CERTAINTIES[int(certainty) - 1])
    if sitting.last is not None:
        page = terminal_page()
        put_reveal(page, question, sitting.last.option, session.book)
        page.blank()
        terminal.show(page)
    terminal.read(say("Enter or 1 to go on, {leave} to leave:", leave=LEAVE), _GO_ON)
    return session.go_on()


def _answer(session: Session, terminal: Terminal, question: Question) -> Sitting:
    """Take an answer in the question's own form: a key for an option or a place, else a line."""
    letters = tuple(option.id for option in question.options)
    if question.answer_as == "place":
        keys = say("{letters} to choose, {leave} to leave:", letters=", ".join(letters), leave=LEAVE)
        return session.choose(terminal.read(keys, letters))
    if question.answer_as == "option":
        numbers = tuple(str(number) for number in range(1, len(letters) + 1))
        keys = say("1 to {last} to choose, {leave} to leave:", last=len(numbers), leave=LEAVE)
        return session.choose(letters[int(terminal.read(keys, numbers)) - 1])
    prompt = say("{how}, then Enter; {leave} to leave:", how=how_to_answer(question), leave=LEAVE)
    while True:
        line = terminal.read_line(prompt)
        with suppress(ValueError):
            if line not in letters:
                return session.choose(line)
        prompt = say("'{line}' is not that. Write {how}:", line=line, how=how_to_answer(question))


def _question_page(session: Session, sitting: Sitting, *, opening: str = "") -> Page:
    """Draw the question, and leave the head's drawing out where the window is too low for it."""
    lines = shutil.get_terminal_size((80, 24)).lines
    for with_map in (True, False):
        page = terminal_page()
        if opening:
            page.line(opening, style="faint")
        put_asked(
            page,
            sitting,
            session.book,
            chosen=sitting.chosen,
            with_map=with_map,
            plain=wants_plain_lines(),
        )
        page.blank()
        if page.height < lines:
            break
    return page


def _leave(session: Session) -> None:
    answered = len(session.asked)
    session.put_aside()
    click.echo("")
    note(say("Answers kept: {count}. The sitting waits for you until tonight.", count=answered))


def _end(session: Session, terminal: Terminal) -> None:
    page = terminal_page()
    if session.asked:
        put_done(
            page,
            session.questions_asked(),
            asked=session.asked,
            memories=session.memories,
            book=session.book,
            day=session.day,
        )
    elif session.book.items:
        page.title(say("Everything has been asked today"))
        page.line(say("What was asked rests until tomorrow."))
        put_standing(page, session.memories, book=session.book, day=session.day)
    else:
        page.line(say("There is no question set in this book."))
    terminal.show(page)
