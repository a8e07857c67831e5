"""``wavedrill visit reading``: what test curls showed, kept with what follows from it."""

import json
from pathlib import Path
from typing import Any

import click

from drill.basis.words import say
from drill.cli.in_force import rules_in_force
from drill.cli.telling import name_or_usage, terminal_page
from drill.cli.visit_event import MINUTES, add_event, now_text, refuse_closed
from drill.cli.visit_find import AS_JSON, echo_json, school_of
from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.report.visit_text import put_revision
from drill.rulebook.domain import UNKNOWN
from drill.rulebook.rulebook import Rulebook
from drill.service.plan import Plan, plan_service
from drill.service.record import Reading, Visit
from drill.service.revise import Revision, TestCurlsSeen, revise
from drill.service.visit_contract import visit_to_plain

_SEEN = ("wet", "dry", "hair", "skin")


@click.command("reading", short_help="Note what test curls showed, and read what follows.")
@click.argument("name", metavar="VISIT")
@click.option("--minutes", metavar="N", type=MINUTES, help="Minutes that lotion lay on them.")
@click.option("--longest", metavar="N", type=MINUTES, help="The maker's longest time in minutes.")
@click.option("--wet", metavar="CURL", default=UNKNOWN, help="Wet: none, weak, right, too_tight, frizzy.")
@click.option("--dry", metavar="CURL", default=UNKNOWN, help="Dry, the same.")
@click.option("--hair", metavar="HAIR", default=UNKNOWN, help="The strand: sound, harsh, gum_like, shedding.")
@click.option("--skin", metavar="SKIN", default=UNKNOWN, help="The scalp under them: calm, sore.")
@click.option("--corrects", is_flag=True, help="In place of the reading before it.")
@click.option(
    "--school",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="The school's folder, the same as when the visit was opened.",
)
@AS_JSON
def reading_command(
    *,
    name: str,
    minutes: float | None,
    longest: float | None,
    wet: str,
    dry: str,
    hair: str,
    skin: str,
    corrects: bool,
    school: Path | None,
    as_json: bool,
) -> None:
    """Note what the test curls of a VISIT showed, and read what follows for the head.

    What is left out is unknown, and nothing goes on that is not known to be good. The maker's longest time
    stays the limit, and the instructor decides.
    """
    rulebook = rules_in_force(school_of(school)).rulebook
    seen = TestCurlsSeen(minutes=minutes, longest_min=longest, wet=wet, dry=dry, hair=hair, skin=skin)
    for field in _SEEN:
        name_or_usage(getattr(seen, field), rulebook.domains[f"revise.{field}"].values, option=f"--{field}")
    answers: list[Revision] = []

    def read(visit: Visit) -> Reading:
        refuse_closed(visit)
        answers.append(revise(rulebook, _plan_again(visit, rulebook), seen))
        return Reading(
            at=now_text(),
            minutes=minutes,
            longest_min=longest,
            wet=wet,
            dry=dry,
            hair=hair,
            skin=skin,
            do=answers[0].do,
            way=answers[0].way,
            corrects=corrects,
        )

    visit = add_event(name, read)
    (answer,) = answers
    if as_json:
        echo_json({"visit": visit_to_plain(visit), "revision": _revision_to_plain(answer)})
        return
    page = terminal_page()
    put_revision(page, answer)
    click.echo(page.text, nl=False)


def _plan_again(visit: Visit, rulebook: Rulebook) -> Plan:
    """Plan what was planned, which the rules of that day do in the same way."""
    plan = None
    nodes, _ = read_text(json.dumps(visit.consultation, ensure_ascii=False).encode(), shown=visit.id)
    if visit.plan["rulebook"] == rulebook.digest and nodes:
        consultation = read_consultation(nodes[0], rulebook, [], folder=Path())
        plan = plan_service(rulebook, consultation) if consultation else None
    if plan is None:
        raise click.UsageError(
            say(
                "visit {id} was planned under other rules; name the school's folder with --school as on "
                "opening it, or, where the rules have changed since, open a new visit",
                id=visit.id,
            )
        )
    return plan


def _revision_to_plain(answer: Revision) -> dict[str, Any]:
    return {
        "do": answer.do,
        "way": answer.way,
        "words": list(answer.words),
        "because": list(answer.because),
        "minutes": "none" if answer.minutes is None else answer.minutes,
        "strength": answer.strength or "none",
        "tools_mm": dict(answer.tools_mm),
        "notes": list(answer.notes),
        "excluded": list(answer.excluded),
        "cautions": list(answer.cautions),
    }
