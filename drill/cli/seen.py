"""``wavedrill seen``: from what is seen after a service back to its causes."""

import sys
from pathlib import Path
from typing import Any

import click

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.documents import read_documents
from drill.cli.home import CACHE_FOLDER, data_folder
from drill.cli.in_force import pack_in_force, rules_in_force
from drill.cli.telling import name_or_usage, refuse, terminal_page
from drill.cli.visit_find import AS_JSON, echo_json, school_of
from drill.load.consultation import read_consultation
from drill.load.faults import load_faults
from drill.load.open import open_book
from drill.report.seen_text import put_causes, put_faults
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.faults import Cause, Fault, find_causes, usual_causes
from drill.service.zones import ZONE_NAMES

FORMAT = "seen.v1"


@click.command("seen", short_help="From what is seen back to its causes.")
@click.argument("fault", metavar="[NAME]", default="")
@click.option(
    "--consultation",
    "file",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="The head as it was before the service; '-' reads standard input.",
)
@click.option("--zone", metavar="ZONE", default="", help="Where it is seen; anywhere where left out.")
@click.option(
    "--school",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="The school's folder; the one in your settings where left out.",
)
@AS_JSON
def seen_command(*, fault: str, file: Path | None, zone: str, school: Path | None, as_json: bool) -> None:
    """Find the causes of what is seen after a service.

    NAME is what is seen, such as gap_at_scalp; without it all of them are listed. With the consultation of
    that head, plan and outcome are run with each wrong idea, and those that would show just this are ranked;
    the slips of hands and clock follow, the most usual first.

    Each cause is a possibility to check. Skin that is sore, swollen or blistered is seen by a physician.
    """
    if zone:
        name_or_usage(zone, ZONE_NAMES, option="--zone")
    folder = school_of(school)
    faults, problems = load_faults(rules_in_force(folder).rulebook)
    if problems:
        refuse(problems)
    if not fault:
        _list(faults, as_json=as_json)
        return
    name_or_usage(fault, [kept.id for kept in faults], option="NAME")
    one = next(kept for kept in faults if kept.id == fault)
    causes, ideas = usual_causes(one), dict[str, str]()
    if file is not None:
        book = _book(folder)
        head = _head(file, book.rulebook)
        causes = find_causes(one, head, book.rulebook, beliefs=Beliefs(book).rulebooks, zone=zone or None)
        ideas = {name: belief.belief for name, belief in book.beliefs.items()}
    if as_json:
        echo_json(_causes_to_plain(one, causes, zone))
        return
    page = terminal_page()
    put_causes(page, one, causes, beliefs=ideas, knows_head=file is not None)
    click.echo(page.text, nl=False)


def _book(school: Path | None) -> Book:
    pack = pack_in_force()
    if pack is not None:
        return pack.book
    book, problems = open_book(school, day=local_now().date(), cache=data_folder() / CACHE_FOLDER)
    if problems:
        refuse(problems)
    return book


def _list(faults: tuple[Fault, ...], *, as_json: bool) -> None:
    if as_json:
        echo_json([{"id": one.id, "seen": say(one.seen)} for one in faults])
        return
    page = terminal_page()
    put_faults(page, faults)
    click.echo(page.text, nl=False)


def _head(file: Path, rulebook: Rulebook) -> Consultation:
    documents = list(read_documents(file, stdin=sys.stdin.buffer))
    if len(documents) > 1:
        raise click.UsageError(say("what is seen is seen on one head; give a file with one consultation"))
    (document,) = documents
    problems = list(document.problems)
    consultation = None
    if document.node is not None:
        found: list[Any] = []
        consultation = read_consultation(document.node, rulebook, found, folder=document.folder)
        problems += document.placed(found)
    if consultation is None or problems:
        refuse(problems)
    return consultation


def _causes_to_plain(fault: Fault, causes: tuple[Cause, ...], zone: str) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "id": fault.id,
        "seen": say(fault.seen),
        "zone": zone or "none",
        "carried_by": list(fault.carried_by),
        "causes": [
            {
                "kind": one.kind,
                "words": one.words,
                "mend": one.mend,
                "source": one.source,
                "decision": one.decision or "none",
                "planned": "none" if one.kind != "decision" else one.planned,
                "done": "none" if one.kind != "decision" else one.done,
                "zones": list(one.zones),
                "beliefs": list(one.beliefs),
                "other_faults": one.other_faults,
            }
            for one in causes
        ],
    }
