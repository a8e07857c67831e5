"""What the proof of rules and questions found, and what a school's rules change."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from drill.bank.coverage import Counts, RowReach
from drill.bank.impact import ItemChange, RowChange
from drill.basis.plain import to_plain
from drill.basis.problem import Problem
from drill.basis.words import say
from drill.report.page import Page
from drill.service.wording import value_words

FORMAT = "check.v1"


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckReport:
    """What a check found.

    Attributes:
        school: Name of the school; empty where only the built-in rules were checked.
        problems: Every fault.
        counts: How much there is; None where faults kept it from being counted.
        reach: What wrong ideas reach, a row each.
        unpublished: ``decision/row`` of the rows that no published work stands behind.
        idle_rows: ``decision/row`` of rows that a local rule leaves without a head.
        rows: What the local rules touch.
        items: Items whose answer they change.
        retired: Ids of items that are no longer asked, since their row is gone.
    """

    school: str = ""
    problems: tuple[Problem, ...] = ()
    counts: Counts | None = None
    reach: tuple[RowReach, ...] = ()
    unpublished: tuple[str, ...] = ()
    idle_rows: tuple[str, ...] = ()
    rows: tuple[RowChange, ...] = ()
    items: tuple[ItemChange, ...] = ()
    retired: tuple[str, ...] = ()

    @property
    def unreached(self) -> tuple[str, ...]:
        """``decision/row`` of the rows for which no wrong idea decides otherwise."""
        return tuple(f"{one.decision}/{one.row}" for one in self.reach if not one.reached)

    @property
    def not_askable(self) -> tuple[str, ...]:
        """``decision/row`` of the rows of which no scenario can be asked, though an idea reaches them."""
        return tuple(f"{one.decision}/{one.row}" for one in self.reach if one.reached and not one.askable)


def check_to_plain(report: CheckReport) -> dict[str, Any]:
    """Write a check for other programs.

    Args:
        report: What was found.

    Returns:
        JSON values.
    """
    return {
        "format": FORMAT,
        "sound": not report.problems,
        "school": report.school,
        "problems": [str(problem) for problem in report.problems],
        "counts": None if report.counts is None else to_plain(report.counts),
        "rows_without_wrong_idea": list(report.unreached),
        "rows_with_one_wrong_value": list(report.not_askable),
        "rows_without_published_source": list(report.unpublished),
        "rows_left_idle": list(report.idle_rows),
        "local_changes": [to_plain(one) for one in report.rows],
        "items_changed": [to_plain(one) for one in report.items],
        "items_retired": list(report.retired),
    }


def put_check(page: Page, report: CheckReport, *, every_row: bool = False) -> None:
    """Put a sound check on a page.

    Args:
        page: Where it goes.
        report: What was found.
        every_row: Whether rows are listed that are else only counted.
    """
    page.title(
        say("{school}: rules and questions are sound", school=report.school)
        if report.school
        else say("The built-in rules and questions are sound")
    )
    if report.counts is not None:
        _put_counts(page, report.counts)
    listed = (
        (say("Rows for which no wrong idea decides otherwise"), report.unreached),
        (say("Rows that a wrong idea reaches with one value only: asked as facts"), report.not_askable),
        (say("Rows with no published source behind them"), report.unpublished),
        (say("Rows that the local rules leave without a head"), report.idle_rows),
    )
    for heading, rows in listed:
        page.line(f"{heading}: {len(rows)}")
        for row in rows if every_row else ():
            page.line(row, mark="- ", indent=2)
    _put_changes(page, report.rows, report.items)
    if report.retired:
        page.line(say("No longer asked, since the row is gone: {items}", items=", ".join(report.retired)))


def _put_counts(page: Page, counts: Counts) -> None:
    page.line(
        say(
            "{tables} tables with {rows} rows, {parameters} parameters, {limits} safety limits.",
            tables=counts.tables,
            rows=counts.rows,
            parameters=counts.parameters,
            limits=counts.limits,
        )
    )
    page.line(
        say(
            "{items} items, {scenarios} of them scenarios, for {skills} decisions to hold.",
            items=counts.items,
            scenarios=counts.scenarios,
            skills=counts.skills,
        )
    )
    page.line(
        say(
            "{ideas} wrong ideas, {changing} of them change a decision.",
            ideas=counts.misconceptions,
            changing=counts.changing,
        )
    )


def _put_changes(page: Page, rows: Sequence[RowChange], items: Sequence[ItemChange]) -> None:
    if not rows:
        return
    page.heading(say("What the local rules change"))
    for row in rows:
        before, after = row.before or say("nothing"), row.after or say("nothing")
        page.line(
            say(
                "{rule}: {op} {target}, {before} -> {after}",
                rule=row.rule,
                op=row.op,
                target=row.target,
                before=before,
                after=after,
            ),
            mark="- ",
        )
    page.heading(say("Questions whose answer changes: {count}", count=len(items)))
    for one in items:
        page.line(
            say(
                "{item}: on {changed} of {heads} heads, such as {before} -> {after}",
                item=one.item,
                changed=one.changed,
                heads=one.heads,
                before=value_words(one.decision, one.before),
                after=value_words(one.decision, one.after),
            ),
            mark="- ",
        )
