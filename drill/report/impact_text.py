"""What the local rules change, as text."""

from collections.abc import Sequence

from drill.bank.rule_impact import RuleImpact
from drill.basis.words import say
from drill.report.impact_words import (
    after_words,
    before_words,
    change_words,
    days_words,
    heads_words,
    item_words,
    warnings,
    where_words,
)
from drill.report.page import Page
from drill.rulebook.rulebook import Rulebook


def put_impacts(page: Page, rules: Sequence[RuleImpact], *, rulebook: Rulebook | None = None) -> None:
    """Put what each local rule changes on a page, in the order in which they are laid over each other.

    Args:
        page: Where it goes.
        rules: What each changes; nothing is put down for none.
        rulebook: The rules in force, which know the words of what was added.
    """
    if rules:
        page.heading(say("What the local rules change, in the order of their files"))
    for number, rule in enumerate(rules, start=1):
        _put_rule(page, rule, number, rulebook)


def _put_rule(page: Page, rule: RuleImpact, number: int, rulebook: Rulebook | None) -> None:
    days = days_words(rule)
    page.heading(f"{number}. {rule.rule}{f', {days}' if days else ''}")
    page.line(say("{because} [{source}]", because=say(rule.because), source=rule.source), indent=3)
    for row in rule.rows:
        page.line(change_words(row), mark="- ", indent=3)
    page.line(heads_words(rule), indent=3)
    for one in rule.examples:
        page.line(" ".join(one.head), mark="- ", indent=3)
        page.line(
            say(
                "{where}: {before} -> {after}",
                where=where_words(one).capitalize(),
                before=before_words(one),
                after=after_words(one),
            ),
            indent=5,
        )
    page.line(say("Questions whose answer changes: {count}", count=len(rule.items)), indent=3)
    for item in rule.items:
        page.line(item_words(item, rulebook), mark="- ", indent=3)
    for heading, ids in warnings(rule):
        page.line(f"{heading}: {', '.join(ids)}", indent=3, style="alarm")
