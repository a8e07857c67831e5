"""Values in as few words as tell them apart, for where several stand in one line."""

from drill.rulebook.domain import Value
from drill.rulebook.rulebook import Rulebook
from drill.service.wording import value_words


def short_words(decision: str, value: Value, rulebook: Rulebook) -> str:
    """Write a value without what explains it.

    Args:
        decision: Dotted path in the plan.
        value: Its value.
        rulebook: The rules in force.

    Returns:
        The words up to the first colon or comma, with a small letter; all of them where another value of the
        decision begins alike.
    """
    words = value_words(decision, value, rulebook=rulebook)
    short = _cut(words)
    table = rulebook.tables.get(decision)
    others = [value_words(decision, one, rulebook=rulebook) for one in table.gives] if table else []
    found = words if sum(_cut(one) == short for one in others) > 1 else short
    return found[:1].lower() + found[1:]


def _cut(words: str) -> str:
    return words.partition(":")[0].partition(",")[0]
