"""One of three to five: the planner gives the key of a head, wrong ideas give the rest."""

import random
from collections.abc import Iterable, Mapping, Sequence

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, Draw, no_answer, one_name_each, same_by_another_name
from drill.bank.facts import head_facts
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.options import option, single
from drill.bank.question import Option, Question
from drill.bank.sides import answers_beside, draw_on_any_side
from drill.bank.touched import limits_of, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.service.head import TOOL_DIAMETER
from drill.service.kit import tools_of_shape
from drill.service.wording import value_words, zone_words

MOST_OPTIONS = 4


def make_choose(asking: Asking) -> Question | None:
    """Make a question with one of a few answers.

    Args:
        asking: An item with a decision.

    Returns:
        The question; None where no head was found on which the item can be asked.
    """
    drawn = draw_on_any_side(asking.beliefs, asking.item, asking.rng)
    return None if drawn is None else _question(asking, drawn)


def _question(asking: Asking, drawn: Draw) -> Question:
    item, decided = asking.item, drawn.decided
    key = single(decided)
    chosen = _wrong_values(asking, drawn)
    right = feedback_on_key(drawn.head, decided, look=drawn.look)
    options = [wrong_option(asking, drawn, value) for value in chosen]
    words = value_words(item.decision, key, rulebook=drawn.head.rulebook)
    options.append(option(words, key, correct=True, ideas=(), feedback=right))
    return asking.question(
        facts=head_facts(drawn.head, drawn.zone),
        ask=say(item.stem, zone=zone_words(drawn.zone)),
        consultation=drawn.head.consultation,
        decision=item.decision,
        zone=drawn.zone,
        options=options,
        explanation=right.text,
        source=decided.source,
        rows=rows_behind(drawn.head, decided),
        limits=limits_of(drawn.head, ((item.decision, drawn.zone, one.value) for one in options)),
    )


def wrong_option(asking: Asking, drawn: Draw, value: Value) -> Option:
    """Give a wrong value as an option, with the ideas that lead to it and what is said of it.

    Args:
        asking: The item.
        drawn: The head on which it is asked.
        value: The value.

    Returns:
        The option.
    """
    ideas = drawn.wrong.get(value, ())
    overlays = tuple(asking.book.beliefs[one] for one in ideas)
    said = feedback_on_wrong(drawn.head, drawn.decided, value, overlays, look=drawn.look)
    words = value_words(asking.item.decision, value, rulebook=drawn.head.rulebook)
    return option(words, value, correct=False, ideas=ideas, feedback=said)


def _wrong_values(asking: Asking, drawn: Draw) -> list[Value]:
    """Choose wrong values: two that wrong ideas give, the others of all that is left.

    Which of them stand there must not tell which answer is right: so they are drawn, and what is right on
    other heads of the decision goes before what never is; what no row ever gives is left out where it can be.
    """
    met = answers_beside(asking.beliefs, asking.item)
    held = _commonest_first(drawn.wrong, met, asking.rng)
    left = _fillers(drawn, taken=(single(drawn.decided), *drawn.decided.also, *held))
    chosen, rest = held[:FEWEST_WRONG], _commonest_first((*held[FEWEST_WRONG:], *left), met, asking.rng)
    table = drawn.head.rulebook.tables.get(asking.item.decision)
    if table is not None and all(row.then_from == "value" for row in table.rows):
        given = {row.then for row in table.rows}
        rest = [value for value in rest if value in given]
    return [*chosen, *rest][: MOST_OPTIONS - 1]


def _commonest_first(values: Iterable[Value], met: Mapping[Value, int], rng: random.Random) -> list[Value]:
    shuffled = sorted(values, key=str)
    rng.shuffle(shuffled)
    return sorted(shuffled, key=lambda value: -met.get(value, 0))


def _fillers(drawn: Draw, *, taken: Sequence[Value]) -> list[Value]:
    """Give further values of the decision, for when wrong ideas run out."""
    decision = drawn.decided.decision
    table = drawn.head.rulebook.tables.get(decision)
    if table is not None and table.hit == "strictest":
        # Only less care: more than is needed would stand there as a mistake.
        milder = table.gives[: table.strictness(str(drawn.decided.value))]
        return [value for value in milder if value not in taken]
    if table is not None:
        alike = same_by_another_name(drawn.head.rulebook, drawn.decided)
        out = {*taken, *alike, "unknown", *no_answer(decision)}
        return [same[-1] for same in one_name_each(table) if not out.intersection(same)]
    if decision != TOOL_DIAMETER or drawn.zone is None:
        return []
    key = float(str(drawn.decided.value))
    kit = drawn.head.consultation.kit
    sizes = {tool.diameter_mm for tool in tools_of_shape(kit, drawn.head.choice(drawn.zone).tool.shape)}
    # The sizes next to the key would be a quarrel, not a mistake.
    others = sorted(sizes - set(taken), key=lambda size: abs(size - key))
    return list(others[2:])
