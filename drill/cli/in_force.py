"""Which rules, questions, tools and mode a command works under."""

from dataclasses import dataclass
from pathlib import Path

import click
from click.core import ParameterSource

from drill.bank.book import Book
from drill.basis.problem import Problem
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.home import CACHE_FOLDER, data_folder
from drill.cli.telling import note, refuse
from drill.load.compile import compile_book
from drill.load.consultation import read_kit
from drill.load.open import open_pack
from drill.load.reading import read_file
from drill.load.rulebook import RULES, load_rulebook
from drill.rulebook.rulebook import Rulebook
from drill.service.kit import BUILT_IN_KIT, Kit
from drill.store.pack import Pack

PACK = "drill.pack"


@dataclass(frozen=True, slots=True, kw_only=True)
class InForce:
    """What a command works under.

    Attributes:
        rulebook: The rules, a school's local ones in force.
        kit: The tools, where a consultation names none.
        student_mode: Whether the school holds steps back until its instructor has signed.
    """

    rulebook: Rulebook
    kit: Kit
    student_mode: bool = False


def pack_in_force() -> Pack | None:
    """Open the pack that ``wavedrill --pack`` names.

    Returns:
        The pack; None where none is named.

    Raises:
        click.UsageError: If the command names a school beside it.
        ProblemsError: If it cannot be used.
    """
    context = click.get_current_context(silent=True)
    path = context.meta.get(PACK) if context else None
    if context is None or path is None:
        return None
    if context.get_parameter_source("school") == ParameterSource.COMMANDLINE:
        raise click.UsageError(say("a pack and a school's folder are two schools; leave one of them out"))
    return opened_pack(path, cache=data_folder() / CACHE_FOLDER)


def opened_pack(path: Path, *, cache: Path) -> Pack:
    """Open a pack, and say so where it is out of date.

    Args:
        path: Its file.
        cache: Folder for compiled copies.

    Returns:
        The pack.

    Raises:
        ProblemsError: If it cannot be used.
    """
    day = local_now().date()
    pack = open_pack(path, day=day, cache=cache)
    if pack.good_until and pack.good_until <= day.isoformat():
        note(
            say(
                "The school's rules changed on {day}, after {file} was made: ask for a new pack.",
                day=pack.good_until,
                file=path.name,
            )
        )
    return pack


def book_in_force(school: Path | None) -> Book:
    """Give the book of the pack in force, else that of a school, else the built-in one.

    Args:
        school: The school's folder; None for none.

    Returns:
        The book.

    Raises:
        click.exceptions.Exit: If there is a fault; all of them are told.
    """
    pack = pack_in_force()
    if pack is not None:
        return pack.book
    compiled = compile_book(school, day=local_now().date(), proved=True)
    if compiled.problems:
        refuse(compiled.problems)
    return compiled.book


def rules_in_force(school: Path | None, *, kit: Path | None = None) -> InForce:
    """Load rules and tools.

    Args:
        school: The school's folder; None for none.
        kit: File of a kit that goes before the school's own; None for none.

    Returns:
        What is in force today.

    Raises:
        click.exceptions.Exit: If there is a fault; all of them are told.
    """
    tools, student_mode = None, False
    pack, problems = pack_in_force(), list[Problem]()
    if pack is not None:
        rulebook, tools = pack.book.rulebook, pack.kit
        student_mode = pack.book.school.student_mode
    elif school is None:  # a plan needs no questions, and the built-in rules were proved before they left
        rulebook, problems = load_rulebook(RULES)
    else:
        compiled = compile_book(school, day=local_now().date(), proved=True)
        rulebook, problems = compiled.book.rulebook, list(compiled.problems)
        tools = compiled.school.kit if compiled.school else None
        student_mode = compiled.book.school.student_mode
    if kit is not None:
        tools = _kit_from(kit, problems) or tools
    if problems:
        refuse(problems)
    return InForce(rulebook=rulebook, kit=tools or BUILT_IN_KIT, student_mode=student_mode)


def _kit_from(path: Path, problems: list[Problem]) -> Kit | None:
    nodes, faults = read_file(path)
    problems += faults
    return read_kit(nodes[0], problems, name=path.stem) if nodes else None
