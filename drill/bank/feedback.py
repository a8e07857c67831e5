"""What is said of an option: the deciding fact, what the client would see, when it would be right.

It names the idea, never the person.
"""

from drill.bank.question import Feedback
from drill.basis.words import say
from drill.rulebook.condition import Condition
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.overlay import Overlay
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.head import Head
from drill.service.wording import name_words, stated_words, value_words

_MOST_FACTS = 2


def feedback_on_key(head: Head, decided: Decision, *, look: str) -> Feedback:
    """Say why the key is the key.

    Args:
        head: The head.
        decided: The decision with its trace.
        look: What to look at next time; may be empty.

    Returns:
        The decision, the fact that decides, the reason.
    """
    return Feedback(decides=_decides(head, decided), seen=say(decided.because), look=say(look))


def feedback_on_wrong(
    head: Head, decided: Decision, value: Value, beliefs: tuple[Overlay, ...], *, look: str
) -> Feedback:
    """Say why an option is not the key.

    Args:
        head: The head.
        decided: The right decision with its trace.
        value: The option's value.
        beliefs: The wrong ideas that give it, the likeliest first.
        look: What to look at next time; may be empty.

    Returns:
        The feedback; it opens with ``Stop.`` where the value breaks a limit or the idea can harm.
    """
    unsafe = breaks_limit(head, decided.decision, decided.zone, value) or any(one.harm for one in beliefs)
    return Feedback(
        opening=say("Stop.") if unsafe else "",
        decides=_decides(head, decided),
        seen=say(beliefs[0].seen) if beliefs else say(decided.because),
        right_when=_right_when(head, decided, value),
        look=say(beliefs[0].mend) if beliefs else say(look),
    )


def breaks_limit(head: Head, decision: str, zone: str | None, value: Value) -> bool:
    """Tell whether a value would break a safety limit on this head.

    Args:
        head: The head.
        decision: The decision.
        zone: The zone, or None.
        value: The value to try.

    Returns:
        True where a limit forbids it.
    """
    evaluation = head.zone(zone) if zone else head.evaluation
    for limit in head.rulebook.limits:
        if value not in limit.never.get(decision, ()):
            continue
        if all(condition.holds(evaluation.read(name)) for name, condition in limit.when.items()):
            return True
    return False


def _decides(head: Head, decided: Decision) -> str:
    value = value_words(decided.decision, decided.value if not isinstance(decided.value, tuple) else "")
    facts = _deciding_facts(head, decided)
    if not facts:
        return say("Here: {value}. {because}", value=_lower(value), because=say(decided.because))
    return say("Here: {value}, for {facts}.", value=_lower(value), facts=", ".join(facts))


def _deciding_facts(head: Head, decided: Decision) -> list[str]:
    table = head.rulebook.tables.get(decided.decision)
    row = table.row(decided.row) if table else None
    if row is None:
        return []
    named = list(row.when)[:_MOST_FACTS]
    return [
        f"{name_words(name)}: {stated_words(decided.read[name], _unit(head, name))}"
        for name in named
        if name in decided.read and decided.read[name] != UNKNOWN
    ]


def _right_when(head: Head, decided: Decision, value: Value) -> str:
    table = head.rulebook.tables.get(decided.decision)
    if table is None:
        return ""
    row = next((row for row in table.rows if row.then == value and row.when), None)
    if row is None:
        return ""
    return say(
        "{value} is right for {facts}.",
        value=value_words(decided.decision, value).partition(":")[0],
        facts=", ".join(_condition_words(name, one) for name, one in _few(row)),
    )


def _few(row: Row) -> list[tuple[str, Condition]]:
    return list(row.when.items())[:_MOST_FACTS]


def _condition_words(name: str, condition: Condition) -> str:
    stated = say(" or ").join(stated_words(value) for value in condition.values) or condition.text
    return f"{name_words(name)}: {stated}"


def _unit(head: Head, name: str) -> str:
    domain = head.rulebook.domain(name)
    if domain is not None:
        return domain.unit
    fact = head.evaluation.facts.get(name)
    return fact.domain.unit if fact else ""


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
