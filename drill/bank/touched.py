"""What a question rests on: the rows that give its key, and the limits that its options would break."""

from collections.abc import Iterable

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import COMPUTED, Decision
from drill.service.head import Head

# The tables that choose the tool and how the strand goes on it; every figure of the winding rests on them.
_BEHIND_FIGURES = ("tool.size", "wrap")

Named = tuple[str, str | None, Value]


def row_name(decision: str, row: str) -> str:
    """Name a row among all tables: ``decision/row``."""
    return f"{decision}/{row}"


def rows_behind(head: Head, *decided: Decision) -> tuple[str, ...]:
    """Name the rows that give decisions.

    Args:
        head: The head that they were taken on.
        decided: The decisions; of a figure of the winding the rows that choose tool and wrap count.

    Returns:
        ``decision/row``, each once, in the order of the decisions.
    """
    found: dict[str, None] = {}
    for one in decided:
        if one.row != COMPUTED:
            found[row_name(one.decision, one.row)] = None
        else:
            for name in _BEHIND_FIGURES:
                found[row_name(name, head.decide(name, one.zone).row)] = None
    return tuple(found)


def limits_broken(head: Head, decision: str, zone: str | None, value: Value) -> tuple[str, ...]:
    """Name the safety limits that a value would break on a head.

    Args:
        head: The head.
        decision: The decision.
        zone: The zone, or None.
        value: The value to try.

    Returns:
        Ids in the order of the rulebook; a limit on a fact counts where the fact follows from the decision.
    """
    evaluation = head.zone(zone) if zone else head.evaluation
    return tuple(
        limit.id
        for limit in head.rulebook.limits
        if any(
            _follows(evaluation, name, decision, value) in forbidden
            for name, forbidden in limit.never.items()
        )
        and all(condition.holds(evaluation.read(name)) for name, condition in limit.when.items())
    )


def _follows(evaluation: Evaluation, name: str, decision: str, value: Value) -> Value | None:
    """Give what a decision or a fact is when a value is chosen; None where it does not follow from it."""
    if name == decision:
        return value
    fact = evaluation.facts.get(name)
    if fact is None or decision not in fact.needs:
        return None
    rulebook = evaluation.rulebook
    needed = [
        rulebook.counted(need, value if need == decision else evaluation.read(need)) for need in fact.needs
    ]
    return fact.compute(needed, rulebook.values)


def limits_of(head: Head, values: Iterable[Named]) -> tuple[str, ...]:
    """Name the limits that any of some values would break on a head.

    Args:
        head: The head.
        values: Decision, zone and value of each.

    Returns:
        Ids in the order of the rulebook.
    """
    return joined_limits(head.rulebook, *(limits_broken(head, *one) for one in values))


def joined_limits(rulebook: Rulebook, *found: tuple[str, ...]) -> tuple[str, ...]:
    """Join limits that were found on several heads, each once and in the order of the rulebook."""
    named = {one for some in found for one in some}
    return tuple(limit.id for limit in rulebook.limits if limit.id in named)
