"""Values and names in the words of the trade, for screens, pages and questions."""

from fractions import Fraction

from drill.basis.length import Length, length_text, number_text
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.rulebook import Rulebook
from drill.service.words_of_facts import FACTS, NAMES
from drill.service.words_of_values import VALUES
from drill.service.zones import ZONE_NAMES, zone_label

_SPANS = {
    "history.weeks_since_color": "it was coloured {span} ago",
    "history.weeks_since_perm": "the last perm was {span} ago",
    "history.weeks_since_relaxer": "it was straightened {span} ago",
    "health.months_since": "the treatment ended {span} ago",
}
_DAYS_A_WEEK = 7
_TOOL_DIAMETER = "tool.diameter_mm"


def value_words(decision: str, value: Value, *, rulebook: Rulebook | None = None) -> str:
    """Write an outcome of a decision as a person says it.

    Args:
        decision: Dotted path in the plan.
        value: Its value.
        rulebook: The rules in force, which hold the words of values that a local rule added.

    Returns:
        Words in the reader's language; a value that a local rule added without words is written as it is
        named.

    Source:
        The trade's words; common practice.
    """
    if isinstance(value, str):
        local = rulebook.local_words(decision, value) if rulebook else ""
        return say(local or VALUES.get(decision, {}).get(value, value.replace("_", " ").capitalize()))
    if decision == _TOOL_DIAMETER:
        return say("{size} tool", size=length_text(_mm(value)))
    if decision.endswith("_mm"):
        return length_text(_mm(value))
    if decision == "turns":
        return say("{count} turns", count=number_text(value, digits=1))
    return number_text(value, digits=2)


def name_words(name: str) -> str:
    """Write a name of the vocabulary as a person says it.

    Source:
        The trade's words; common practice.
    """
    return say(NAMES.get(name, name.rpartition(".")[2].replace("_", " ")))


def fact_words(name: str, value: Value, unit: str = "") -> str:
    """Write a fact of a head as a clause.

    Args:
        name: Dotted name.
        value: Its value.
        unit: Unit of a number.

    Returns:
        For example ``elasticity is reduced`` or ``there is a whorl``.

    Source:
        The trade's words; common practice.
    """
    if (name, value) in FACTS:
        return say(FACTS[name, value])
    words = zone_words(str(value)) if name == "zone" else stated_words(value, unit)
    return clause_words(name, words)


def clause_words(name: str, words: str) -> str:
    """Join a name and the words of its value to a clause.

    Args:
        name: Dotted name.
        words: Its value in words.

    Returns:
        For example ``density is thick`` or ``the last perm was 6 weeks ago``.

    Source:
        The trade's words; common practice.
    """
    if name in _SPANS and any(map(str.isdigit, words)):
        return say(_SPANS[name], span=words)
    return say("{name} is {words}", name=say("the zone") if name == "zone" else name_words(name), words=words)


def zone_words(zone: str | None) -> str:
    """Write a zone as a person says it; ``head`` for none.

    Source:
        The nine-section head; common practice.
    """
    return zone_label(zone) if zone in ZONE_NAMES else say("head")


def stated_words(value: Value, unit: str = "") -> str:
    """Write a value as it is stated of a head.

    Args:
        value: Named value or number.
        unit: Unit of the number.

    Returns:
        For example ``reduced``, ``21 cm``, ``6 weeks`` or, of less than a week, ``4 days``.

    Source:
        None; a way to write.
    """
    if isinstance(value, str):
        return say(value.replace("_", " "))
    if unit == "mm":
        return length_text(_mm(value))
    if unit == "weeks" and 0 < value < 1:
        value, unit = max(1, round(value * _DAYS_A_WEEK)), "days"
    # One week, one month, one minute: a unit in full letters has its own word for one.
    name = unit.removesuffix("s") if value == 1 else unit
    return f"{number_text(value)} {say(name)}".strip() if name else number_text(value)


def _mm(value: float) -> Length:
    return Length(Fraction(str(value)))
