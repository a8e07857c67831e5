"""Which rules, tools and mode a command works under."""

from dataclasses import dataclass
from pathlib import Path

from drill.basis.problem import Problem
from drill.cli.clock import local_now
from drill.cli.telling import refuse
from drill.load.compile import compile_book
from drill.load.consultation import read_kit
from drill.load.reading import read_file
from drill.load.rulebook import RULES, load_rulebook
from drill.rulebook.rulebook import Rulebook
from drill.service.kit import BUILT_IN_KIT, Kit


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
    if school is None:  # a plan needs no questions, and the built-in rules were proved before they left
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
