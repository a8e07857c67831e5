"""What the proof of rules and questions found, and what a school's rules change."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drill.bank.asked import Asked, Gap, Share, What
from drill.bank.coverage import Counts, RowReach
from drill.bank.impact import ItemChange
from drill.bank.looked import Looked
from drill.bank.rule_impact import RuleImpact
from drill.basis.plain import to_plain
from drill.basis.problem import Problem
from drill.basis.words import say
from drill.report.impact_text import put_impacts
from drill.report.page import Page
from drill.rulebook.rulebook import Rulebook

FORMAT = "check.v1"
_NAMES: Mapping[What, str] = {
    "row": "rows",
    "misconception": "misconceptions",
    "zone": "zones",
    "limit": "limits",
}
_SHARES: Mapping[What, str] = {
    "row": "{asked} of {count} rows are asked, {percent} %",
    "misconception": "{asked} of {count} wrong ideas are offered, {percent} %",
    "zone": "{asked} of {count} zones are asked, {percent} %",
    "limit": "{asked} of {count} safety limits are at stake in a question, {percent} %",
}


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
        rules: What each local rule changes.
        items: Items whose answer those in force change together.
        retired: Ids of items that are no longer asked, since their row is gone.
        retired_ideas: Ids of wrong ideas about something that is gone.
        rulebook: The rules in force; None where faults kept them from being assembled.
        looked: How the questions read; None where faults kept them from being made.
        asked: What the questions ask and what not; None where faults kept them from being made.
    """

    school: str = ""
    problems: tuple[Problem, ...] = ()
    counts: Counts | None = None
    reach: tuple[RowReach, ...] = ()
    unpublished: tuple[str, ...] = ()
    idle_rows: tuple[str, ...] = ()
    rules: tuple[RuleImpact, ...] = ()
    items: tuple[ItemChange, ...] = ()
    retired: tuple[str, ...] = ()
    retired_ideas: tuple[str, ...] = ()
    rulebook: Rulebook | None = None
    looked: Looked | None = None
    asked: Asked | None = None

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
        "local_changes": [to_plain(row) for rule in report.rules for row in rule.rows],
        "local_rules": [
            {**to_plain(rule), "heads_changed_of_100": round(rule.per_hundred, 1)} for rule in report.rules
        ],
        "items_changed": [to_plain(one) for one in report.items],
        "items_retired": list(report.retired),
        "ideas_retired": list(report.retired_ideas),
        "reading_grade": None
        if report.looked is None
        else {
            "questions": report.looked.questions,
            "stems": report.looked.stem_grade,
            "explanations": report.looked.explanation_grade,
        },
        "asked": None if report.asked is None else _asked_to_plain(report.asked),
    }


def _asked_to_plain(asked: Asked) -> dict[str, Any]:
    return {
        "questions": len(asked.questions),
        "percent": {_NAMES[one.what]: round(one.percent, 2) for one in asked.shares},
        "counts": {_NAMES[one.what]: {"asked": one.asked, "of": one.count} for one in asked.shares},
        "not_asked": {
            _NAMES[one.what]: [_gap_to_plain(gap) for gap in asked.gaps if gap.what == one.what]
            for one in asked.shares
        },
        "items_without_question": [item.id for item in asked.silent],
    }


def _gap_to_plain(gap: Gap) -> dict[str, Any]:
    plain = {"name": gap.name, "place": str(gap.place) if gap.place.file else ""}
    return {**plain, "as_scenario": gap.scenario} if gap.what == "row" else plain


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
    # A school's folder may hold no question yet.
    if report.looked is not None and report.looked.questions:
        page.line(
            say(
                "Read with ease by school grade {stems} (questions) and {told} (explanations), in the "
                "middle.",
                stems=report.looked.stem_grade,
                told=report.looked.explanation_grade,
            )
        )
    if report.asked is not None:
        _put_asked(page, report.asked)
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
    put_impacts(page, report.rules, rulebook=report.rulebook)
    if len(report.rules) > 1:
        page.heading(
            say("All local rules together change the answer of {count} items", count=len(report.items))
        )
    for words, ids in (
        (say("No longer asked, since the row is gone: {items}"), report.retired),
        (say("Wrong ideas retired, since what they are about is gone: {items}"), report.retired_ideas),
    ):
        if ids:
            page.line(words.replace("{items}", ", ".join(ids)))


def _put_asked(page: Page, asked: Asked) -> None:
    """Say what share of rows, wrong ideas, zones and limits is asked, and name what is not."""
    for share in asked.shares:
        page.line(_share_words(share))
        for gap in asked.gaps:
            if gap.what == share.what:
                place = f"{gap.place}: " if gap.place.file else ""
                page.line(f"{place}{_gap_words(gap)}", mark="- ", indent=2)
    if asked.silent:
        page.line(say("Items of which no question could be made: {count}", count=len(asked.silent)))
        for item in asked.silent:
            page.line(f"{item.place}: {item.id}", mark="- ", indent=2)


def _share_words(share: Share) -> str:
    return say(
        _SHARES[share.what], asked=share.asked, count=share.count, percent=f"{int(share.percent * 10) / 10:g}"
    )


def _gap_words(gap: Gap) -> str:
    if gap.what != "row":
        return gap.name
    if gap.scenario:
        return say("{row}; a scenario can ask it", row=gap.name)
    return say("{row}; let a fact name it under 'about'", row=gap.name)


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
