"""``wavedrill plan``: consultations in, plans out."""

import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import click

from drill.basis.problem import Problem
from drill.basis.words import say
from drill.cli.documents import STDIN, Document, read_documents
from drill.cli.in_force import InForce, rules_in_force
from drill.cli.plan_files import write_forms
from drill.cli.records import Records, client_records
from drill.cli.telling import FOUND_PROBLEMS, name_or_usage, tell_problems, terminal_page
from drill.load.consultation import read_consultation
from drill.report.page import Page
from drill.report.plan_text import put_plan
from drill.report.why_text import put_why
from drill.rulebook.rulebook import Rulebook
from drill.service.plan import Plan, plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.remembered import Remembered, remembered_to_plain, with_record

# Fewer are planned before a person would look for a sign that it goes on.
_MANY = 200
PACE = "pace"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A plan, or why there is none.

    Attributes:
        plan: The plan; None where there is none.
        problems: Why there is none.
        remembered: What earlier visits say; None where they say nothing.
    """

    plan: Plan | None = None
    problems: tuple[Problem, ...] = ()
    remembered: Remembered | None = None


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
@click.option(
    "--html", metavar="FILE", type=click.Path(path_type=Path), help="Write the card: one page to print."
)
@click.option("--svg", metavar="FILE", type=click.Path(path_type=Path), help="Write the head map alone.")
@click.option(
    "--pace",
    metavar="PACE",
    default="",
    help="Who winds: beginner, exam_ready or stylist; before what the consultation says.",
)
@click.option("--no-records", is_flag=True, help="Leave out what earlier visits here say.")
def plan_command(
    *,
    files: tuple[Path, ...],
    as_json: bool,
    why: bool,
    school: Path | None,
    kit: Path | None,
    html: Path | None,
    svg: Path | None,
    pace: str,
    no_records: bool,
) -> None:
    """Plan a service from a consultation.

    FILE is a consultation in YAML, or several in one file with a line '---' between them; '-' reads them from
    standard input. What a consultation leaves out is unknown, and the plan says what to ask. Where a client's
    visits are on record here, they answer what they can.

    A plan is a proposal, never permission: the licensed practitioner, the maker's directions and local codes
    decide.
    """
    in_force = rules_in_force(school, kit=kit)
    pace = _known_pace(pace, in_force.rulebook)
    documents = [one for path in files for one in read_documents(path, stdin=sys.stdin.buffer)]
    one_a_line = len(documents) > 1 or str(files[0]) == STDIN
    problems: list[Problem] = []
    page = terminal_page()
    plans: list[Plan] = []
    with client_records(wanted=not no_records) as records:
        for outcome in _outcomes(documents, in_force, records, pace=pace):
            problems += outcome.problems
            plans += [outcome.plan] if outcome.plan else []
            if as_json:
                click.echo(_to_json(outcome, one_a_line=one_a_line))
            elif outcome.plan is not None:
                _put_text(page, outcome.plan, in_force.rulebook, why=why)
    click.echo(page.text, nl=False)
    write_forms(plans, in_force.rulebook, html=html, svg=svg)
    if problems:
        tell_problems(problems)
        raise click.exceptions.Exit(FOUND_PROBLEMS)


def plan_document(document: Document, in_force: InForce, records: Records, *, pace: str = "") -> Outcome:
    """Plan one document.

    Args:
        document: A consultation as written.
        in_force: Rules and tools.
        records: What earlier visits say.
        pace: Who winds; empty for what the consultation says.

    Returns:
        The plan, or every fault of the document.

    Raises:
        ProblemsError: If there is a record that cannot be read.
    """
    if document.node is None:
        return Outcome(problems=document.problems)
    problems: list[Problem] = []
    consultation = read_consultation(
        document.node, in_force.rulebook, problems, folder=document.folder, kit=in_force.kit
    )
    if consultation is None or problems:
        return Outcome(problems=tuple(document.placed(problems)))
    if pace:
        consultation = replace(consultation, head={**consultation.head, PACE: pace})
    remembered = records.of(consultation)
    if remembered is None:
        return Outcome(plan=plan_service(in_force.rulebook, consultation))
    plan = plan_service(in_force.rulebook, remembered.consultation)
    return Outcome(plan=with_record(plan, remembered), remembered=remembered)


def _known_pace(pace: str, rulebook: Rulebook) -> str:
    """Take a pace however its two words are joined."""
    if not pace:
        return ""
    joined = "_".join(pace.lower().replace("-", " ").replace("_", " ").split())
    return name_or_usage(joined, rulebook.domains[PACE].values, option="--pace")


def _outcomes(
    documents: Sequence[Document], in_force: InForce, records: Records, *, pace: str
) -> Iterator[Outcome]:
    hidden = len(documents) < _MANY or not sys.stderr.isatty()
    with click.progressbar(documents, label=say("Planning"), file=sys.stderr, hidden=hidden) as shown:
        for document in shown:
            yield plan_document(document, in_force, records, pace=pace)


def _to_json(outcome: Outcome, *, one_a_line: bool) -> str:
    if outcome.plan is None:
        plain: object = {"error": [str(problem) for problem in sorted(set(outcome.problems))]}
    else:
        known = {"from_record": remembered_to_plain(outcome.remembered)} if outcome.remembered else {}
        plain = {**plan_to_plain(outcome.plan), **known}
    return json.dumps(plain, indent=None if one_a_line else 2)


def _put_text(page: Page, plan: Plan, rulebook: Rulebook, *, why: bool) -> None:
    if page.height:
        page.rows(["", "-" * page.width, ""])
    put_plan(page, plan, why=why)
    if why:
        put_why(page, plan, rulebook)
