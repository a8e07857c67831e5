"""What the key of a made question would be under other rules, the head and what is shown left as they are.

A question is made once, under the rules. Its makers are watched for the heads that it does not carry itself.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import ModuleType
from typing import Any

from mutants import Mutant, Tally, changes_nothing, swapped

from drill.bank.item import Item
from drill.bank.kinds import after_test, contrast, find_fault, stop_or_go
from drill.bank.kinds.ask_next import missing_facts
from drill.bank.make import QuestionMaker
from drill.bank.question import Question
from drill.rulebook.boxes import outside
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import Space
from drill.rulebook.table import Row
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import Head

_WATCHED = (after_test, contrast, find_fault, stop_or_go)
Key = Callable[[Rulebook], object]


@dataclass(frozen=True)
class Asked:
    """A question's rows, and its key under any rules."""

    rows: frozenset[str]
    key: Key

    def is_changed_by(self, mutant: Mutant, rulebook: Rulebook) -> bool:
        """Tell whether the question has another key under the mutant, or none."""
        try:
            return self.key(rulebook.with_table(mutant.table)) != self.key(rulebook)
        except UndecidedError:
            return True


def sampled(maker: QuestionMaker, items: Iterable[Item], *, seeds: Iterable[int]) -> list[Asked]:
    """Make questions of items, those left out whose key is written and not decided."""
    found, seeds = [], tuple(seeds)
    with _watching() as seen:
        for item in items:
            for seed in () if item.is_fact or item.kind == "order" else seeds:
                seen.clear()
                question = maker.make(item, seed)
                if question is not None and question.rows:
                    found.append(Asked(frozenset(question.rows), _key_of(question, item, dict(seen))))
    return found


def tally_keys(asked: list[Asked], rulebook: Rulebook, rows: Iterable[str]) -> Tally:
    """Swap the outcome of rows, and count the swaps that give some question another key."""
    made, unnoticed, space = 0, [], Space(rulebook, facts=FACTS)
    for name in rows:
        decision, _, row_id = name.partition("/")
        table = rulebook.tables[decision]
        row = table.row(row_id)
        turning_on_it = [one for one in asked if name in one.rows]
        for mutant in swapped(table, row, rulebook):
            if changes_nothing(mutant, rulebook, but_the_row=True) or decides_no_head(mutant, row, space):
                continue
            made += 1
            if not any(one.is_changed_by(mutant, rulebook) for one in turning_on_it):
                unnoticed.append(str(mutant))
    return Tally(made, tuple(unnoticed))


def decides_no_head(mutant: Mutant, row: Row, space: Space) -> bool:
    """Tell whether a row may give its new outcome without a head that is decided otherwise.

    Nothing is changed by writing out what a parameter says today. Where the strictest row wins, a row can
    stand there for its reason only: on each of its heads another one is as strict. The boxes prove it.
    """
    table, milder = mutant.table, mutant.table.row(row.id)
    if row.then_from == "parameter":
        return milder.then == space.rulebook.values[row.then]
    if table.hit != "strictest" or table.strictness(milder.then) > table.strictness(row.then):
        return False
    branches = space.branches(space.rulebook.tables[table.decision])
    as_strict = [
        one.box
        for one in branches
        if one.row is not row and table.strictness(str(one.value)) >= table.strictness(row.then)
    ]
    alone = (
        part
        for one in branches
        if one.row is row
        for part in outside(one.box, as_strict, space.axes)
        if space.find(part) is not None
    )
    return next(alone, None) is None


@contextmanager
def _watching() -> Iterator[dict[str, Any]]:
    """Keep what each maker passes on to be put into words."""
    seen: dict[str, Any] = {}
    kept = {module: module._question for module in _WATCHED}

    def watch(module: ModuleType) -> None:
        def put(asking, drawn, *others):
            seen["drawn"] = drawn
            return kept[module](asking, drawn, *others)

        module._question = put

    for module in _WATCHED:
        watch(module)
    try:
        yield seen
    finally:
        for module in _WATCHED:
            module._question = kept[module]


def _key_of(question: Question, item: Item, seen: dict[str, Any]) -> Key:
    drawn, zone = seen.get("drawn"), question.zone
    if question.kind == "stop_or_go":
        return lambda rules: _decide(rules, drawn.head.consultation, item.decision, None).value
    if question.kind == "contrast":
        heads = [head.consultation for head in drawn.heads]
        return lambda rules: [_decide(rules, head, item.decision, zone).value for head in heads]
    if question.kind == "find_fault":
        return lambda rules: _faulty(rules, drawn)
    if question.kind == "locate":
        zones = [str(option.value) for option in question.options]
        return lambda rules: [
            one
            for one in zones
            if _decide(rules, question.consultation, item.decision, one).value in item.wanted
        ]
    if question.kind == "ask_next":
        return lambda rules: [one.field for one in missing_facts(rules, Head(rules, question.consultation))][
            :1
        ]
    if question.kind == "cause":
        # A cause that is a size rests on the rows that choose it.
        decisions = [row.partition("/")[0] for row in question.rows]
        return lambda rules: [_planned(rules, question, decision) for decision in decisions]
    return lambda rules: _decide(rules, question.consultation, item.decision, zone).value


def _planned(rules: Rulebook, question: Question, decision: str):
    zone = question.zone if rules.tables[decision].per == "zone" else None
    return _decide(rules, question.consultation, decision, zone).value


def _faulty(rules: Rulebook, shown) -> set[str]:
    """Name the lines of a plan as shown that are neither right nor acceptable."""
    found = set()
    for part, decided in shown.decided.items():
        line = shown.value if part == shown.fault else decided.value
        now = _decide(rules, shown.head.consultation, part, decided.zone)
        if line not in (now.value, *now.also):
            found.add(part)
    return found


def _decide(rules: Rulebook, consultation: Consultation | None, decision: str, zone: str | None):
    return Head(rules, consultation).decide(decision, zone)
