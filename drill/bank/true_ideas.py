"""Wrong ideas that a local rule makes true: who holds one now decides as the rules do."""

from collections.abc import Iterable, Mapping, Set

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Overlay, apply, fits
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import Head
from drill.service.zones import ZONE_NAMES

Decided = Value | tuple[str, ...] | None


def ideas_come_true(
    ideas: Iterable[Overlay],
    heads: Iterable[Consultation],
    *,
    before: Rulebook,
    after: Rulebook,
    changed: Set[str],
    facts: Mapping[str, Fact] = FACTS,
) -> tuple[str, ...]:
    """Find the wrong ideas that a local rule makes true.

    Args:
        ideas: Wrong ideas that change a decision.
        heads: The heads to try them on.
        before: The rules without the local rule.
        after: The rules with it.
        changed: The decisions that differ on some of the heads; an idea about others cannot come true.
        facts: Computed facts by name.

    Returns:
        The ids of those that decided otherwise than the rules on some of the heads, and decide as the rules
        do on each of these now.
    """
    # Each head keeps what was decided on it, so all ideas are held against the same ones.
    pairs = [(Head(before, head, facts=facts), Head(after, head, facts=facts)) for head in heads]
    return tuple(
        idea.id
        for idea in ideas
        if changed & _decisions(idea, before)
        and fits(before, idea)
        and _comes_true(idea, pairs, before=before, facts=facts)
    )


def _comes_true(
    idea: Overlay,
    pairs: Iterable[tuple[Head, Head]],
    *,
    before: Rulebook,
    facts: Mapping[str, Fact],
) -> bool:
    believed, erred = apply(before, idea), False
    decisions = sorted(_decisions(idea, before))
    for truth, now in pairs:
        held = Head(believed, truth.consultation, facts=facts)
        for decision in decisions:
            for zone in ZONE_NAMES if before.tables[decision].per == "zone" else (None,):
                wrong = _decide(held, decision, zone)
                if wrong == _decide(truth, decision, zone):
                    continue
                if wrong != _decide(now, decision, zone):
                    return False
                erred = True
    return erred


def _decisions(idea: Overlay, rulebook: Rulebook) -> set[str]:
    """Name the decisions that an idea is about: tables it changes, or whose rows read what it sets."""
    targets = {change.target for change in idea.changes}
    return {
        table.decision
        for table in rulebook.tables.values()
        if table.decision in targets
        or any(row.then_from == "parameter" and row.then in targets for row in table.rows)
    }


def _decide(head: Head, decision: str, zone: str | None) -> Decided:
    try:
        return head.decide(decision, zone).value
    except UndecidedError:
        return None
