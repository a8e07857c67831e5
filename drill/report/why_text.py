"""The row behind every decision of a plan, with its reason and source, for those who ask why."""

from collections.abc import Iterable

from drill.basis.words import say
from drill.report.page import Page
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import COMPUTED, Decision
from drill.service.plan import Plan
from drill.service.wording import value_words, zone_words
from drill.service.zones import ZONE_NAMES


def put_why(page: Page, plan: Plan, rulebook: Rulebook) -> None:
    """Put the rows behind a plan on a page.

    Args:
        page: Where they go.
        plan: The plan.
        rulebook: The rules that it was made under.
    """
    page.heading(say("Why: the row behind every decision"))
    cited: set[str] = set()
    for group in _alike(plan.trace):
        one = group[0]
        # A figure comes of a formula and not of a row; steps and cautions say their own reason.
        if one.row == COMPUTED or one.decision not in rulebook.tables:
            continue
        if isinstance(one.value, tuple):
            cited |= _put_list(page, one, rulebook)
            continue
        cited.add(one.source)
        question = say(rulebook.tables[one.decision].question)
        words = value_words(one.decision, one.value, rulebook=rulebook)
        page.line(f"{question} {words}{_where(group)}.", mark="- ")
        _put_row(page, one.row, because=one.because, source=one.source)
    published = sorted(cited & rulebook.sources.keys())
    if published:
        page.heading(say("Sources"))
    for key in published:
        page.line(f"{key}: {rulebook.sources[key]}", mark="- ")


def _put_list(page: Page, one: Decision, rulebook: Rulebook) -> set[str]:
    if not one.rows:
        return set()
    page.line(say(rulebook.tables[one.decision].question), mark="- ")
    for row in one.rows:
        _put_row(page, row.id, because=row.because, source=row.source)
    return {row.source for row in one.rows}


def _put_row(page: Page, row: str, *, because: str, source: str) -> None:
    page.line(
        say("{because} [{row}; {source}]", because=say(because), row=row, source=source),
        indent=2,
        style="faint",
    )


def _alike(trace: Iterable[Decision]) -> list[list[Decision]]:
    """Put decisions of several zones together where one row gave them all the same."""
    groups: dict[tuple[str, object, str], list[Decision]] = {}
    for one in trace:
        groups.setdefault((one.decision, one.value, one.row), []).append(one)
    return list(groups.values())


def _where(group: list[Decision]) -> str:
    zones = [one.zone for one in group if one.zone]
    if not zones:
        return ""
    if len(zones) == len(ZONE_NAMES):
        return say(" (the whole head)")
    return f" ({', '.join(zone_words(zone) for zone in zones)})"
