"""What a local rule changes, in sentences that the text and the page share."""

from drill.bank.differences import MINUTES, Example
from drill.bank.impact import ItemChange, RowChange
from drill.bank.rule_impact import RuleImpact
from drill.basis.words import say
from drill.rulebook.rulebook import Rulebook
from drill.service.wording import name_words, value_words, zone_words


def change_words(row: RowChange) -> str:
    """Say what a local rule touches, and from what to what."""
    words = say(
        "{op} {target}, {before} -> {after}",
        op=row.op,
        target=row.target,
        before=row.before or say("nothing"),
        after=row.after or say("nothing"),
    )
    if row.counts_as:
        return say("{change}, which counts as {value}", change=words, value=row.counts_as)
    if row.said_after:
        return say("{change}, with the words: {words}", change=words, words=row.said_after)
    return words


def days_words(rule: RuleImpact) -> str:
    """Say from when until when a local rule holds; empty for always."""
    if rule.since and rule.until:
        return say("from {since} until {until}", since=rule.since, until=rule.until)
    if rule.since:
        return say("from {since}", since=rule.since)
    return say("until {until}", until=rule.until) if rule.until else ""


def heads_words(rule: RuleImpact) -> str:
    """Say on how many of a hundred heads a local rule changes a decision, and which ones."""
    if not rule.changed:
        return say("No decision on any of {heads} heads compared changes.", heads=rule.heads)
    return say(
        "On {share} of 100 heads a decision changes ({changed} of {heads} compared): {decisions}.",
        share=round(rule.per_hundred) or 1,
        changed=rule.changed,
        heads=rule.heads,
        decisions=", ".join(f"{decision_words(name)} {count}" for name, count in rule.decisions.items()),
    )


def decision_words(decision: str) -> str:
    """Name a decision as a person says it."""
    if decision.startswith(f"{MINUTES}."):
        return say("minutes for {phase}", phase=decision.rpartition(".")[2].replace("_", " "))
    return name_words(decision)


def where_words(one: Example) -> str:
    """Say which decision of an example it is, and where on the head."""
    words = decision_words(one.difference.decision)
    return f"{words}, {zone_words(one.difference.zone)}" if one.difference.zone else words


def before_words(one: Example) -> str:
    """Say what was decided before; of a list what is gone."""
    return one.difference.before or say("nothing")


def after_words(one: Example) -> str:
    """Say what is decided after; of a list what is new."""
    return one.difference.after or say("nothing")


def item_words(one: ItemChange, rulebook: Rulebook | None = None) -> str:
    """Say on how many heads an item's key changes, with one before and after."""
    after = value_words(one.decision, one.after, rulebook=rulebook) if one.after else say("no answer")
    return say(
        "{item}: on {changed} of {heads} heads, such as {before} -> {after}",
        item=one.item,
        changed=one.changed,
        heads=one.heads,
        before=value_words(one.decision, one.before, rulebook=rulebook),
        after=after,
    )


def warnings(rule: RuleImpact) -> list[tuple[str, tuple[str, ...]]]:
    """Give what an instructor must look at: a heading each, and the ids."""
    listed = (
        (say("Questions that have a second right answer now"), rule.ambiguous),
        (say("Questions that a head leaves without an answer"), rule.undecidable),
        (
            say("Wrong ideas that are true now; retire them under 'leave_out' in school.yaml"),
            rule.true_ideas,
        ),
    )
    return [(heading, ids) for heading, ids in listed if ids]
