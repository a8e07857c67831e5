"""``wavedrill plan``: consultations in, plans out."""

import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import click

from drill.basis.problem import Problem
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.documents import STDIN, Document, read_documents
from drill.cli.telling import FOUND_PROBLEMS, refuse, tell_problems, terminal_page
from drill.load.compile import compile_book
from drill.load.consultation import read_consultation, read_kit
from drill.load.reading import read_file
from drill.load.rulebook import RULES, load_rulebook
from drill.report.page import Page
from drill.report.plan_text import put_plan
from drill.report.why_text import put_why
from drill.rulebook.rulebook import Rulebook
from drill.service.kit import BUILT_IN_KIT, Kit
from drill.service.plan import Plan, plan_service
from drill.service.plan_contract import plan_to_plain

# Fewer are planned before a person would look for a sign that it goes on.
_MANY = 200


@dataclass(frozen=True, slots=True)
class _Outcome:
    """A plan, or why there is none."""

    plan: Plan | None
    problems: tuple[Problem, ...]


@click.command("plan", short_help="Plan a service from a consultation.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Write the plan as JSON; of several, one a line.")
@click.option("--why", is_flag=True, help="Tell the row behind every decision, with its source.")
@click.option(
    "--school", metavar="FOLDER", type=click.Path(path_type=Path), help="Plan under a school's local rules."
)
@click.option(
    "--kit", metavar="FILE", type=click.Path(path_type=Path), help="Tools, where a consultation names none."
)
def plan_command(
    files: tuple[Path, ...], as_json: bool, why: bool, school: Path | None, kit: Path | None
) -> None:
    """Plan a service from a consultation.

    FILE is a consultation in YAML, or several in one file with a line '---' between them; '-' reads them from
    standard input. What a consultation leaves out is unknown, and the plan says what to ask.

    A plan is a proposal, never permission: the licensed practitioner, the maker's directions and local codes
    decide.
    """
    rulebook, tools = _rules_and_kit(school, kit)
    documents = [one for path in files for one in read_documents(path, stdin=sys.stdin.buffer)]
    one_a_line = len(documents) > 1 or str(files[0]) == STDIN
    problems: list[Problem] = []
    page = terminal_page()
    for outcome in _outcomes(documents, rulebook, tools):
        problems += outcome.problems
        if as_json:
            click.echo(_to_json(outcome, one_a_line=one_a_line))
        elif outcome.plan is not None:
            _put_text(page, outcome.plan, rulebook, why=why)
    click.echo(page.text, nl=False)
    if problems:
        tell_problems(problems)
        raise click.exceptions.Exit(FOUND_PROBLEMS)


def _rules_and_kit(school: Path | None, kit: Path | None) -> tuple[Rulebook, Kit]:
    rulebook, problems, tools = _rules_of(school)
    if kit is not None:
        nodes, faults = read_file(kit)
        problems += faults
        tools = read_kit(nodes[0], problems, name=kit.stem) if nodes else tools
    if problems:
        refuse(problems)
    return rulebook, tools or BUILT_IN_KIT


def _rules_of(school: Path | None) -> tuple[Rulebook, list[Problem], Kit | None]:
    if school is None:  # a plan needs no questions, and the built-in rules were proved before they left
        rulebook, problems = load_rulebook(RULES)
        return rulebook, problems, None
    compiled = compile_book(school, day=local_now().date(), proved=True)
    kit = compiled.school.kit if compiled.school else None
    return compiled.book.rulebook, list(compiled.problems), kit


def _outcomes(documents: Sequence[Document], rulebook: Rulebook, kit: Kit) -> Iterator[_Outcome]:
    hidden = len(documents) < _MANY or not sys.stderr.isatty()
    with click.progressbar(documents, label=say("Planning"), file=sys.stderr, hidden=hidden) as shown:
        for document in shown:
            yield _plan(document, rulebook, kit)


def _plan(document: Document, rulebook: Rulebook, kit: Kit) -> _Outcome:
    if document.node is None:
        return _Outcome(None, document.problems)
    problems: list[Problem] = []
    consultation = read_consultation(document.node, rulebook, problems, folder=document.folder, kit=kit)
    if consultation is None or problems:
        return _Outcome(None, tuple(document.placed(problems)))
    return _Outcome(plan_service(rulebook, consultation), ())


def _to_json(outcome: _Outcome, *, one_a_line: bool) -> str:
    if outcome.plan is None:
        plain: object = {"error": [str(problem) for problem in sorted(set(outcome.problems))]}
    else:
        plain = plan_to_plain(outcome.plan)
    return json.dumps(plain, indent=None if one_a_line else 2)


def _put_text(page: Page, plan: Plan, rulebook: Rulebook, *, why: bool) -> None:
    if page.height:
        page.rows(["", "-" * page.width, ""])
    put_plan(page, plan)
    if why:
        put_why(page, plan, rulebook)
