"""``wavedrill visit``: the record of a service: open, find, show, hand over, delete."""

import json
import os
import random
import sys
from contextlib import suppress
from pathlib import Path

import click

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.documents import read_documents
from drill.cli.in_force import rules_in_force
from drill.cli.plan import plan_document
from drill.cli.records import client_records, visits_to_write
from drill.cli.telling import note, refuse, terminal_page
from drill.cli.visit_find import AS_JSON, echo_json, find_visit, find_visits, kept_visits, school_of
from drill.cli.visit_note import close_command, note_command, sign_command, time_command
from drill.cli.visit_reading import reading_command
from drill.report.visit_text import put_open_steps, put_visit, put_visits
from drill.service.record import moment_text
from drill.service.visit_contract import visit_to_plain
from drill.service.visit_opening import new_visit_id, open_visit
from drill.service.wording import value_words

EXPORT_FORMAT = "visits.v1"
_OWNER_ONLY = 0o600


@click.group("visit", short_help="Keep the record of a service.")
def visit_command() -> None:
    """Keep the record of a service: plan, stops, test curls, times, result.

    What is recorded stays on this device, in the folder that WAVEDRILL_HOME names or in your system's own
    place for such data; nothing is sent anywhere. Write no more of a client than the next service needs: what
    a consultation says of treatment or medicine is dropped when the visit is closed. Ask the client before
    you keep a record, and follow the law of the place.

    A VISIT is named by its id, or by the client's label where that says which one.
    """


@visit_command.command("open", short_help="Plan a service and open its record.")
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option(
    "--school",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="The school's folder; the one in your settings where left out.",
)
@click.option(
    "--kit", metavar="FILE", type=click.Path(path_type=Path), help="Tools, where a consultation names none."
)
@click.option("--no-records", is_flag=True, help="Leave out what earlier visits here say.")
@AS_JSON
def open_command(
    *, file: Path, school: Path | None, kit: Path | None, no_records: bool, as_json: bool
) -> None:
    """Plan a service from the consultation in FILE and open its record.

    Prints the id of the visit. A service that is not to be done is recorded as well, with the reasons. A plan
    is a proposal, never permission.
    """
    in_force = rules_in_force(school_of(school), kit=kit)
    documents = list(read_documents(file, stdin=sys.stdin.buffer))
    if len(documents) > 1:
        raise click.UsageError(say("a visit is of one client; give a file with one consultation"))
    with client_records(wanted=not no_records) as records:
        outcome = plan_document(documents[0], in_force, records)
    if outcome.plan is None:
        refuse(outcome.problems)
    now = local_now()
    visit = open_visit(
        outcome.plan,
        visit_id=new_visit_id(now, rng=random.SystemRandom()),
        now=now,
        student_mode=in_force.student_mode,
    )
    with visits_to_write() as log:
        log.open(visit)
    if as_json:
        echo_json(visit_to_plain(visit))
        return
    click.echo(visit.id)
    verdict = value_words("verdict", outcome.plan.verdict)
    note(say("{verdict}. Steps: wavedrill visit steps {id}", verdict=verdict, id=visit.id))


@visit_command.command("list", short_help="List the visits on this device.")
@click.option("--open", "only_open", is_flag=True, help="Only those that are not closed.")
@AS_JSON
def list_command(*, only_open: bool, as_json: bool) -> None:
    """List the visits on this device, in the order of their opening."""
    with kept_visits() as log:
        visits = [one for one in log.visits() if not (only_open and one.closed)]
    if as_json:
        echo_json([visit_to_plain(one) for one in visits])
        return
    if not visits:
        note(say("No visit is kept here."))
        return
    page = terminal_page()
    put_visits(page, visits)
    click.echo(page.text, nl=False)
    unclosed = sum(not one.closed for one in visits)
    if unclosed:
        note(say("Not closed yet: {count}. Closing drops what concerns health.", count=unclosed))


@visit_command.command("show", short_help="Show a visit, or all of a client.")
@click.argument("name", metavar="VISIT")
@AS_JSON
def show_command(*, name: str, as_json: bool) -> None:
    """Show one VISIT by its id, or every visit of a client by the label, in order."""
    with kept_visits() as log:
        visits = [log.visit(one) for one in find_visits(log, name)]
    if as_json:
        echo_json([visit_to_plain(one) for one in visits])
        return
    page = terminal_page()
    for one in visits:
        put_visit(page, one)
    click.echo(page.text, nl=False)


@visit_command.command("steps", short_help="Tell which steps are open.")
@click.argument("name", metavar="VISIT")
@AS_JSON
def steps_command(*, name: str, as_json: bool) -> None:
    """Tell which steps of a VISIT are open, and what the closed ones wait for.

    In a school's student mode (student_mode: yes in school.yaml) what comes after a stop is closed until the
    instructor has signed it. Nothing ever holds up a rinse.
    """
    with kept_visits() as log:
        visit = find_visit(log, name)
    if as_json:
        echo_json(visit_to_plain(visit))
        return
    page = terminal_page()
    put_open_steps(page, visit)
    click.echo(page.text, nl=False)


@visit_command.command("export", short_help="Write visits as JSON.")
@click.argument("name", metavar="[VISIT]", required=False)
@click.option(
    "-o",
    "output",
    metavar="FILE",
    required=True,
    type=click.Path(path_type=Path, dir_okay=False),
    help="Where to; a file that is there is replaced, '-' is standard output.",
)
@AS_JSON
def export_command(*, name: str | None, output: Path, as_json: bool) -> None:
    """Write visits as JSON: all, those of one client by the label, or one VISIT by its id.

    The file holds what clients have told. It leaves this device only if you send it.
    """
    with kept_visits() as log:
        visits = log.visits() if name is None else tuple(map(log.visit, find_visits(log, name)))
    plain = {
        "format": EXPORT_FORMAT,
        "made": moment_text(local_now()),
        "visits": [visit_to_plain(one) for one in visits],
    }
    if str(output) == "-":
        echo_json(plain)
        return
    _write_whole(output, json.dumps(plain, indent=2, ensure_ascii=False) + "\n")
    if as_json:
        echo_json({"file": str(output), "visits": len(visits)})
    else:
        note(say("Visits written to {file}: {count}.", count=len(visits), file=output))


@visit_command.command("delete", short_help="Delete visits for good.")
@click.argument("name", metavar="VISIT")
@click.option("--yes", is_flag=True, help="Do it; without this it is only told what would go.")
@AS_JSON
def delete_command(*, name: str, yes: bool, as_json: bool) -> None:
    """Delete one VISIT by its id, or every visit of a client by the label, for good.

    What was written is overwritten on the disk. Exports and copies of the folder are not touched.
    """
    with kept_visits() as log:
        ids = find_visits(log, name)
    if not yes:
        raise click.UsageError(say("this deletes for good: {ids}; to do it, add --yes", ids=", ".join(ids)))
    with visits_to_write() as log:
        log.delete(ids)
    if as_json:
        echo_json({"deleted": list(ids)})
    else:
        note(say("Visits deleted: {count}.", count=len(ids)))


def _write_whole(path: Path, text: str) -> None:
    """Write a file that only its owner may read; who looks never meets half of it."""
    half = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        half.touch(mode=_OWNER_ONLY)
        half.write_text(text, encoding="utf-8")
        half.replace(path)
    except OSError as error:
        what = say("cannot write the file: {reason}", reason=(error.strerror or "").lower())
        raise ProblemsError(
            [Problem(Place(str(path)), what, say("check the path and its rights"))]
        ) from error
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)


for _command in (sign_command, reading_command, time_command, note_command, close_command):
    visit_command.add_command(_command)
