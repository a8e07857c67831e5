"""``wavedrill check``: prove rules and questions sound, and show what a school's rules change."""

import json
from datetime import date
from pathlib import Path

import click

from drill.bank.beliefs import Beliefs
from drill.bank.coverage import UNPUBLISHED, count, reach
from drill.bank.impact import item_changes, row_changes
from drill.cli.clock import local_now
from drill.cli.telling import FOUND_PROBLEMS, tell_problems, terminal_page
from drill.load.compile import Compiled, compile_book
from drill.report.check_text import CheckReport, check_to_plain, put_check


@click.command("check", short_help="Prove rules and questions sound.")
@click.argument("school", required=False, metavar="[SCHOOL]", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Write one object.")
@click.option("--rows", "every_row", is_flag=True, help="List the rows that are else only counted.")
def check_command(school: Path | None, *, as_json: bool, every_row: bool) -> None:
    """Prove the rules, the questions and a school's folder sound.

    Every table must decide every head once, every row must be of use, and no combination may break a safety
    limit. With a SCHOOL folder its local rules must keep all of that too; what they change is shown. A local
    rule may tighten a limit, never loosen it.
    """
    day = local_now().date()
    compiled = compile_book(school, day=day)
    report = CheckReport(problems=compiled.problems) if compiled.problems else _report(compiled, day)
    if as_json:
        click.echo(json.dumps(check_to_plain(report), indent=2))
    if report.problems:
        tell_problems(report.problems)
        raise click.exceptions.Exit(FOUND_PROBLEMS)
    if not as_json:
        page = terminal_page()
        put_check(page, report, every_row=every_row)
        click.echo(page.text, nl=False)


def _report(compiled: Compiled, day: date) -> CheckReport:
    book, school = compiled.book, compiled.school
    rules = tuple(rule for rule in school.rules if rule.in_force(day)) if school else ()
    return CheckReport(
        school=book.school.name,
        counts=count(book),
        reach=reach(Beliefs(book)),
        unpublished=tuple(
            f"{table.decision}/{row.id}"
            for table in book.rulebook.tables.values()
            for row in table.rows
            if row.source in UNPUBLISHED
        ),
        idle_rows=compiled.proof.idle_rows if compiled.proof else (),
        rows=row_changes(compiled.built_in, rules),
        items=item_changes(book, compiled.built_in) if rules else (),
        retired=tuple(item.id for item in compiled.retired),
    )
