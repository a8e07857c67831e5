"""``wavedrill check``: prove rules and questions sound, and show what a school's rules change."""

import json
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from drill.bank.asked import items_of_school, what_is_asked
from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.coverage import UNPUBLISHED, count, reach
from drill.bank.looked import SEEDS, look_at_items
from drill.bank.make import QuestionMaker
from drill.bank.rule_impact import Impacts
from drill.basis.problem import Problem
from drill.basis.words import say
from drill.cli.check_watch import watch_folder
from drill.cli.clock import local_now
from drill.cli.telling import FOUND_PROBLEMS, note, tell_problems, terminal_page
from drill.load.compile import DECKS, Compiled, compile_book
from drill.report.check_text import CheckReport, check_to_plain, put_check
from drill.report.impact_page import check_page
from drill.rulebook.boxes import Work

# Each is checked like today.
MOST_DAYS = 6


@click.command("check", short_help="Prove rules and questions sound.")
@click.argument("school", required=False, metavar="[SCHOOL]", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Write one object.")
@click.option(
    "--html",
    "html_file",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write a page to read or print as well.",
)
@click.option("--rows", "every_row", is_flag=True, help="List the rows that are else only counted.")
@click.option("--watch", is_flag=True, help="Check again whenever a file of SCHOOL changes; Ctrl-C ends it.")
def check_command(
    school: Path | None, *, as_json: bool, html_file: Path | None, every_row: bool, watch: bool
) -> None:
    """Prove the rules, the questions and a school's folder sound.

    Every table must decide every head once, every row must be of use, and no combination may break a safety
    limit. With a SCHOOL folder its local rules must keep all of that too, those that come into force later as
    well; what each changes is shown. A local rule may tighten a limit, never loosen it.
    """
    if watch and school is None:
        raise click.UsageError(say("--watch needs the SCHOOL folder to watch"))

    def check() -> bool:
        return _check(school, as_json=as_json, html_file=html_file, every_row=every_row)

    if watch and school is not None:
        watch_folder(school, check, passed_over=html_file)
    elif not check():
        raise click.exceptions.Exit(FOUND_PROBLEMS)


def _check(school: Path | None, *, as_json: bool, html_file: Path | None, every_row: bool) -> bool:
    """Check once and say what was found; tells whether all is sound."""
    report = check_folder(school, day=local_now().date())
    if html_file is not None:
        _write(html_file, check_page(report))
    if as_json:
        click.echo(json.dumps(check_to_plain(report), indent=2))
    if report.problems:
        tell_problems(report.problems)
        return False
    if not as_json:
        page = terminal_page()
        put_check(page, report, every_row=every_row)
        click.echo(page.text, nl=False)
    return True


def check_folder(school: Path | None, *, day: date) -> CheckReport:
    """Check the rules, the questions and a school's folder.

    Args:
        school: The folder; None for the built-in rules alone.
        day: Today.

    Returns:
        What was found.
    """
    work = Work()
    compiled = compile_book(school, day=day, work=work)
    problems = compiled.problems or _later_problems(compiled, school, day=day, work=work)
    if problems:
        return CheckReport(school=compiled.book.school.name, problems=tuple(problems))
    return _report(compiled, day)


def _report(compiled: Compiled, day: date) -> CheckReport:
    book, rules = compiled.book, compiled.school.rules if compiled.school else ()
    impacts = Impacts(book, compiled.built_in) if rules else None
    beliefs = Beliefs(book)
    maker, reached = QuestionMaker(beliefs), reach(beliefs)
    asked = what_is_asked(
        maker,
        # What is built in was asked when it was made; of a school what is its own.
        items=items_of_school(book, _built_in_items(book)) if compiled.school else None,
        reach=reached,
        progress=_tell_progress,
    )
    looked = look_at_items(maker, made=[one for one in asked.questions if one.seed in SEEDS])
    return CheckReport(
        school=book.school.name,
        problems=looked.problems,
        looked=looked,
        counts=count(book),
        reach=reached,
        asked=asked,
        unpublished=tuple(
            f"{table.decision}/{row.id}"
            for table in book.rulebook.tables.values()
            for row in table.rows
            if row.source in UNPUBLISHED
        ),
        idle_rows=compiled.proof.idle_rows if compiled.proof else (),
        rules=impacts.of_each(rules, day=day) if impacts else (),
        items=impacts.of_all([rule for rule in rules if rule.in_force(day)]) if impacts else (),
        retired=tuple(item.id for item in compiled.retired),
        retired_ideas=tuple(one.id for one in compiled.retired_ideas),
        rulebook=book.rulebook,
    )


def _built_in_items(book: Book) -> set[str]:
    """Name the items that are written in the built-in decks."""
    return {item.id for item in book.items if DECKS in Path(item.place.file).parents}


def _tell_progress(questions: int) -> None:
    """Say how far the sample has come, to a person who waits; what is written for programs stays as it is."""
    if sys.stderr.isatty():
        note(say("{count} questions made ...", count=questions))


def _later_problems(compiled: Compiled, school: Path | None, *, day: date, work: Work) -> list[Problem]:
    """Find what will be wrong on a later day, when rules come into force or end."""
    rules = compiled.school.rules if compiled.school else ()
    found: list[Problem] = []
    places = {text: rule.place for rule in rules for text in (rule.since, rule.until)}
    days = sorted(date.fromisoformat(text) for text in places if text > day.isoformat())
    if len(days) > MOST_DAYS:
        what = say(
            "the local rules begin or end on {count} days to come, more than {most}",
            count=len(days),
            most=MOST_DAYS,
        )
        place = places[days[MOST_DAYS].isoformat()]
        found.append(Problem(place, what, say("let them begin and end on the same days")))
    for later in days[:MOST_DAYS]:
        problems = compile_book(school, day=later, work=work).problems
        found += [replace(one, what=f"from {later.isoformat()} on, {one.what}") for one in problems]
    return found


def _write(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        reason = (error.strerror or "").lower()
        note(say("The page cannot be written to {path}: {reason}", path=path, reason=reason))
