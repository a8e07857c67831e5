"""A head on which an item can be asked: its row decides there, and wrong ideas decide otherwise."""

import random
from collections.abc import Mapping, Set
from dataclasses import dataclass, replace

from drill.bank.beliefs import Beliefs
from drill.bank.item import Item
from drill.bank.scenario import draw_head, draw_zone
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError, decide
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Table
from drill.rulebook.trace import Decision
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.plan import WORKING

MOST_DRAWS = 120
# How far off a reckoning by hand may be, as a share of it.
RECKONED_WITHIN = 0.12
# Nobody asks these of a service without lotion.
_OF_LOTION, NOTHING = ("waving_lotion.", "look_out."), "none"
FEWEST_WRONG = 2
# What is decided before a service may start, so that a head is asked about that is not fit for it.
_BEFORE = (
    "verdict",
    "hair.condition",
    "test_curls.needed",
    "tests",
    "soft_curl",
    "answers.fit",
    "revise",
    "revise.way",
)


@dataclass(frozen=True, slots=True)
class Draw:
    """A head on which an item can be asked.

    Attributes:
        head: The head.
        zone: The zone asked, or None.
        decided: The planner's decision.
        wrong: Wrong values with the ideas that give them.
        look: What to look at next time.
    """

    head: Head
    zone: str | None
    decided: Decision
    wrong: Mapping[Value, tuple[str, ...]]
    look: str = ""


def draw(beliefs: Beliefs, item: Item, rng: random.Random) -> Draw | None:
    """Draw heads until one is met on which the item can be asked.

    Args:
        beliefs: The book's wrong ideas at work.
        item: A scenario item.
        rng: The seed's generator.

    Returns:
        The first head on which the item's row decides and two wrong ideas decide differently, each to a
        value that is neither right nor acceptable; None after :data:`MOST_DRAWS` tries.
    """
    for _ in range(MOST_DRAWS):
        zone = draw_zone(item, rng)
        found = draw_on(beliefs, item, draw_head(item, zone, beliefs.book.rulebook, rng), zone)
        if found is not None:
            return found
    return None


def draw_on(beliefs: Beliefs, item: Item, consultation: Consultation, zone: str | None) -> Draw | None:
    """Take a head for an item, if it can be asked there.

    Args:
        beliefs: The book's wrong ideas at work.
        item: A scenario item.
        consultation: The head.
        zone: The zone to ask; None for a decision on the head.

    Returns:
        The head with what is decided there; None where the item's row does not decide, or fewer than two
        wrong ideas decide otherwise.
    """
    head = beliefs.head(consultation)
    decided = _decided(beliefs, item, head, zone)
    if decided is None:
        return None
    wrong = wrong_values(beliefs, item, consultation, zone, decided)
    return Draw(head, zone, decided, wrong, item.look) if len(wrong) >= FEWEST_WRONG else None


def _decided(beliefs: Beliefs, item: Item, head: Head, zone: str | None) -> Decision | None:
    """Decide, and keep only what the item wants to ask: its row, decisive, on a head that is served."""
    if not is_asked_on(head, item.decision):
        return None
    decided = head.decide(item.decision, zone)
    if item.row and decided.row != item.row:
        return None
    table = beliefs.book.rulebook.tables.get(item.decision)
    if table is None:
        return decided
    return decided if is_decisive(beliefs, table, decided) and is_clear_cut(beliefs, decided) else None


def is_asked_on(head: Head, decision: str) -> bool:
    """Tell whether a decision is asked on a head: how it is wound only where it is served."""
    return decision in _BEFORE or head.decide("verdict").value in WORKING


def is_clear_cut(beliefs: Beliefs, decided: Decision) -> bool:
    """Tell whether a little more or less of what is only reckoned, such as turns, leaves the answer as it is.

    Who reckons by hand is a little off; a question whose answer hangs on that little would be a quarrel.
    """
    rulebook = beliefs.book.rulebook
    table = rulebook.tables.get(decided.decision)
    reckoned = [
        (name, value)
        for name, value in decided.read.items()
        if isinstance(value, float) and name in beliefs.facts and beliefs.facts[name].domain.unit == "turns"
    ]
    if table is None or not reckoned:
        return True
    for name, value in reckoned:
        for off in (1 - RECKONED_WITHIN, 1 + RECKONED_WITHIN):
            read = {**decided.read, name: value * off}
            if decide(table, read, parameters=rulebook.values).value != decided.value:
                return False
    return True


def is_decisive(beliefs: Beliefs, table: Table, decided: Decision) -> bool:
    """Tell whether the answer, or what is acceptable beside it, would be another without the row."""
    if table.hit == "strictest":
        return _is_alone(beliefs, table, decided)
    rows = tuple(row for row in table.rows if row.id != decided.row)
    try:
        without = decide(replace(table, rows=rows), decided.read, parameters=beliefs.book.rulebook.values)
    except (UndecidedError, KeyError):
        return True
    return (without.value, set(without.also)) != (decided.value, set(decided.also))


def _is_alone(beliefs: Beliefs, table: Table, decided: Decision) -> bool:
    """Tell whether no other row is as strict, those aside that only repeat another decision."""
    tables = beliefs.book.rulebook.tables
    others = [row for row in decided.rows if row.id != decided.row and not tables.keys() & row.when.keys()]
    return all(table.strictness(row.then) < table.strictness(str(decided.value)) for row in others)


def wrong_values(
    beliefs: Beliefs, item: Item, consultation: Consultation, zone: str | None, decided: Decision
) -> dict[Value, tuple[str, ...]]:
    """Gather what wrong ideas decide on a head that is neither right nor acceptable.

    Args:
        beliefs: The book's wrong ideas at work.
        item: The item, whose decision is asked.
        consultation: The head.
        zone: The zone, or None.
        decided: The planner's decision.

    Returns:
        For each such value the ideas that give it, those about the facts that decide first. An idea that
        sends the client home decides on no lotion: to the question which one, that is no answer.
    """
    rulebook = beliefs.book.rulebook
    reached = _by_one_name(rulebook, item.decision, beliefs.reached(consultation, item.decision, zone))
    refused = {decided.value, *decided.also}
    refused |= same_by_another_name(beliefs.book.rulebook, decided)
    refused |= no_answer(item.decision)
    about = _names_of_row(beliefs, decided)
    return {
        value: tuple(sorted(ideas, key=lambda idea: not _is_about(beliefs, idea, about)))
        for value, ideas in reached.items()
        if value not in refused
    }


def no_answer(decision: str) -> Set[Value]:
    """Give the values that are no answer to a decision where it is asked.

    Args:
        decision: Dotted path in the plan.

    Returns:
        None at all, where it is asked which lotion a head gets that is served, or where to look at it.
    """
    return {NOTHING} if decision.startswith(_OF_LOTION) else set()


def _by_one_name(
    rulebook: Rulebook, decision: str, reached: Mapping[Value, tuple[str, ...]]
) -> Mapping[Value, tuple[str, ...]]:
    """Put values that count as the same under one name, the local one: both would give the key away."""
    table = rulebook.tables.get(decision)
    if table is None or not table.counts_as:
        return reached
    found: dict[Value, tuple[str, ...]] = {}
    for same in one_name_each(table):
        ideas = [idea for value in same for idea in reached.get(value, ())]
        if ideas:
            found[next(value for value in reversed(same) if value in reached)] = tuple(dict.fromkeys(ideas))
    return found


def one_name_each(table: Table) -> tuple[tuple[str, ...], ...]:
    """Group the outcomes of a table that count as the same.

    Args:
        table: The table.

    Returns:
        One group a built-in outcome, that one first, then the names that local rules gave.
    """
    groups: dict[str, tuple[str, ...]] = {}
    for value in table.gives:
        built_in = table.counts_as.get(value, value)
        groups[built_in] = (*groups.get(built_in, ()), value)
    return tuple(groups.values())


def same_by_another_name(rulebook: Rulebook, decided: Decision) -> set[Value]:
    """Give the values that are right under another name: a local rule may have given one a name of its own.

    Args:
        rulebook: Knows which built-in value a local one counts as.
        decided: The decision.

    Returns:
        The values that count as the key or as an acceptable value; none of them is a wrong answer.
    """
    table = rulebook.tables.get(decided.decision)
    if table is None or not table.counts_as or isinstance(decided.value, tuple):
        return set()
    right = {table.counts_as.get(str(one), one) for one in (decided.value, *decided.also)}
    return {one for one in table.gives if table.counts_as.get(one, one) in right}


def _names_of_row(beliefs: Beliefs, decided: Decision) -> Set[str]:
    table = beliefs.book.rulebook.tables.get(decided.decision)
    row = table.row(decided.row) if table else None
    return row.when.keys() - {"service", "zone"} if row else set()


def _is_about(beliefs: Beliefs, idea: str, names: Set[str]) -> bool:
    """Tell whether a wrong idea turns on the very facts that decide: then it is the likelier one."""
    changes = beliefs.book.beliefs[idea].changes
    return any(change.row is not None and names & change.row.when.keys() for change in changes)
