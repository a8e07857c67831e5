"""What is said of an option: the deciding fact, what the client would see, when it would be right.

It names the idea, never the person.
"""

from math import isinf

from drill.bank.figure_reason import figure_reason
from drill.bank.question import Feedback
from drill.bank.touched import limits_broken
from drill.basis.words import say
from drill.rulebook.condition import Condition
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError, decide
from drill.rulebook.overlay import Overlay
from drill.rulebook.table import Row, Table
from drill.rulebook.trace import Decision
from drill.service.head import TOOL_DIAMETER, Head
from drill.service.outcome import differences, predict
from drill.service.wording import clause_words, fact_words, stated_words, value_words, zone_words

_MOST_FACTS = 2
# What a client sees first of another decision; where that is nothing, the wrong idea's own words stand.
_SHOWN_BY = {
    "base_control": ("gap", "stress"),
    "base_size": ("lift", "evenness"),
    "wrap": ("evenness", "hangs"),
    "layout": ("part_lines",),
    "papers": ("ends",),
    TOOL_DIAMETER: ("form", "curl"),
}
# The longer signs first, for they begin with the shorter ones.
_SIGNS = {"<=": "at most {amount}", ">=": "at least {amount}", "<": "under {amount}", ">": "over {amount}"}


def feedback_on_key(head: Head, decided: Decision, *, look: str) -> Feedback:
    """Say why the key is the key.

    Args:
        head: The head.
        decided: The decision with its trace.
        look: What to look at next time; may be empty.

    Returns:
        The decision, the fact that decides, the reason.
    """
    return Feedback(decides=_decides(head, decided), seen=_reason(head, decided), look=say(look))


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
        seen=_seen(head, decided, value) or (say(beliefs[0].seen) if beliefs else _reason(head, decided)),
        right_when=_right_when(head, decided, value),
        look=say(beliefs[0].mend) if beliefs else say(look),
    )


def _reason(head: Head, decided: Decision) -> str:
    """Give the row's reason; empty where it has been told with the decision already."""
    because = say(decided.because)
    is_told = _decides(head, decided).endswith(because) or bool(figure_reason(head, decided))
    return "" if is_told else because


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
    return bool(limits_broken(head, decision, zone, value))


def _seen(head: Head, decided: Decision, value: Value) -> str:
    """Say what the client would see of another decision on this very head, as the outcome computes it."""
    if decided.zone is None or decided.decision not in _SHOWN_BY:
        return ""
    zones = (decided.zone,)
    try:
        other = predict(head.supposing(decided, value), hair=head, zones=zones)
    except UndecidedError:
        return ""
    shown = {one.what: one.words for one in differences(predict(head, zones=zones), other)}
    return " ".join(shown[what] for what in _SHOWN_BY[decided.decision] if what in shown)


def _decides(head: Head, decided: Decision) -> str:
    value = "" if isinstance(decided.value, tuple) else _short(head, decided.decision, decided.value)
    reason = figure_reason(head, decided)
    facts = [reason] if reason else _deciding_facts(head, decided)
    if not facts:
        return say("Here: {value}. {because}", value=_lower(value), because=say(decided.because))
    return say("Here: {value}, since {facts}.", value=_lower(value), facts=say(" and ").join(facts))


def _deciding_facts(head: Head, decided: Decision) -> list[str]:
    table = head.rulebook.tables.get(decided.decision)
    row = table.row(decided.row) if table else None
    if row is None:
        return []
    # The service and the zone asked stand in the question already.
    named = [name for name in row.when if name not in ("service", "zone") and name in decided.read]
    facts = (_fact(head, name, decided.read[name]) for name in named)
    return list(dict.fromkeys(facts))[:_MOST_FACTS]


def _fact(head: Head, name: str, value: Value) -> str:
    local = head.rulebook.local_words(name, value)
    return clause_words(name, say(local)) if local else fact_words(name, value, _unit(head, name))


def _right_when(head: Head, decided: Decision, value: Value) -> str:
    """Say what would have to be different for a value: the conditions, of the row nearest to this head."""
    table = head.rulebook.tables.get(decided.decision)
    if table is None:
        return ""
    # Another place on the head is no change of this one.
    wanting = sorted(
        (
            missing
            for row in _rows_for(table, value)
            if 0 < len(missing := _wanting(row, decided)) <= _MOST_FACTS
            and all(name != "zone" for name, _ in missing)
            and _decides_so(head, table, decided, missing, value)
        ),
        key=len,
    )
    if not wanting:
        return ""
    return say(
        "“{value}” would be right if {facts}.",
        value=_short(head, decided.decision, value),
        facts=say(" and ").join(_condition_words(name, one) for name, one in wanting[0]),
    )


def _decides_so(
    head: Head, table: Table, decided: Decision, changes: list[tuple[str, Condition]], value: Value
) -> bool:
    """Tell whether the head with a few facts changed would get a value: a row before may still win."""
    read = {**decided.read, **{name: _example(one) for name, one in changes}}
    try:
        return decide(table, read, parameters=head.rulebook.values).value == value
    except UndecidedError:
        return False


def _example(condition: Condition) -> Value:
    """Give a value that a condition takes."""
    if condition.values:
        return condition.values[0]
    low, high = condition.ranges[0].low, condition.ranges[0].high
    if isinf(high):
        return low + 1
    return high - 1 if isinf(low) else (low + high) / 2


def _rows_for(table: Table, value: Value) -> list[Row]:
    return [row for row in table.rows if row.then_from == "value" and row.then == value]


def _wanting(row: Row, decided: Decision) -> list[tuple[str, Condition]]:
    return [
        (name, one)
        for name, one in row.when.items()
        if name in decided.read and not one.holds(decided.read[name])
    ]


def _condition_words(name: str, condition: Condition) -> str:
    if len(condition.values) == 1 and not condition.ranges:
        return fact_words(name, condition.values[0])
    stated = {one: zone_words(one) if name == "zone" else stated_words(one) for one in condition.values}
    # Some values are said in a clause of their own, such as "this is a wet set".
    own = [one for one in stated if fact_words(name, one) != clause_words(name, stated[one])]
    own = own if name != "zone" else []
    written = [part for part in condition.text.split(", ") if part not in condition.values]
    plain = [words for one, words in stated.items() if one not in own]
    plain += map(_range_words, written if condition.ranges else ())
    clauses = [clause_words(name, say(" or ").join(plain))] if plain else []
    return say(" or ").join([*clauses, *(fact_words(name, one) for one in own)])


def _range_words(written: str) -> str:
    """Write a range without its signs: ``under 15 cm``."""
    for sign, words in _SIGNS.items():
        if written.startswith(sign):
            return say(words, amount=written.removeprefix(sign).strip())
    return written


def _short(head: Head, decision: str, value: Value) -> str:
    return value_words(decision, value, rulebook=head.rulebook).partition(":")[0]


def _unit(head: Head, name: str) -> str:
    domain = head.rulebook.domain(name)
    if domain is not None:
        return domain.unit
    fact = head.evaluation.facts.get(name)
    return fact.domain.unit if fact else ""


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
