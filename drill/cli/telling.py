"""How every command speaks: results on standard output, problems and notes on standard error."""

import os
import shutil
import sys
from collections.abc import Iterable
from typing import NoReturn

import click

from drill.basis.problem import Problem, mend_name
from drill.basis.words import say
from drill.report.page import Page, clean_text

FOUND_PROBLEMS = 1


def tell_problems(problems: Iterable[Problem]) -> None:
    """Say problems on standard error, one a line, in the order of their places.

    Args:
        problems: What was found; the same one twice is said once.
    """
    for problem in sorted(set(problems)):
        click.echo(clean_text(str(problem)), err=True)


def refuse(problems: Iterable[Problem]) -> NoReturn:
    """Say problems and end the command with exit status 1.

    Args:
        problems: What was found.

    Raises:
        click.exceptions.Exit: Always.
    """
    tell_problems(problems)
    raise click.exceptions.Exit(FOUND_PROBLEMS)


def note(text: str) -> None:
    """Say something on standard error that is no result and no problem."""
    click.echo(clean_text(text), err=True)


def terminal_page() -> Page:
    """Make a page as wide as the terminal; in colour only where a person looks and has not refused it."""
    return Page(width=terminal_width(), colour=wants_colour())


def terminal_width() -> int:
    """Give the columns of the terminal, 80 where there is none."""
    return shutil.get_terminal_size((80, 24)).columns


def wants_colour() -> bool:
    """Tell whether standard output is a terminal that may show colour (https://no-color.org)."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def wants_plain_lines() -> bool:
    """Tell whether standard output cannot write the letters that lines and boxes are drawn with."""
    try:
        "╭▒".encode(sys.stdout.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return True
    return False


def name_or_usage(name: str, names: Iterable[str], *, option: str) -> str:
    """Take a name that must be one of several.

    Args:
        name: The name given.
        names: The names allowed.
        option: Where it was given.

    Returns:
        The name.

    Raises:
        click.BadParameter: If there is no such name; it offers the nearest one.
    """
    allowed = tuple(names)
    if name in allowed:
        return name
    what = say("there is no '{name}'; {mend}", name=clean_text(name), mend=mend_name(name, allowed))
    raise click.BadParameter(what, param_hint=f"'{option}'")
