"""What differs between the plans of one head under two rulebooks, in words."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass

from drill.bank.facts import head_facts
from drill.basis.length import number_text
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import Decision
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import Head
from drill.service.plan import Plan, plan_service
from drill.service.wording import value_words

MINUTES = "minutes"
Told = Value | tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One decision that is another.

    Attributes:
        decision: Dotted name; ``minutes.PHASE`` for the time that a phase is given.
        zone: The zone, or None.
        before: The decision before, in words; of a list only what is gone.
        after: The decision after, in words; of a list only what is new.
        row: The row that decides after; empty where none does.
        because: Its reason.
    """

    decision: str
    zone: str | None
    before: str
    after: str
    row: str = ""
    because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A head on which a decision is another.

    Attributes:
        head: The head in short lines.
        difference: The decision before and after.
    """

    head: tuple[str, ...]
    difference: Difference


class Planned:
    """The decisions on one head under one rulebook, ready to be compared.

    Args:
        rulebook: The rules.
        consultation: The head.
        facts: Computed facts by name.
    """

    def __init__(
        self, rulebook: Rulebook, consultation: Consultation, *, facts: Mapping[str, Fact] = FACTS
    ) -> None:
        self._rulebook = rulebook
        self.decided: dict[tuple[str, str | None], Decision] = {}
        self.told: Mapping[tuple[str, str | None], Told] = {}
        # One local rule may leave a gap that the next one fills.
        with suppress(UndecidedError):
            plan = plan_service(rulebook, consultation, facts=facts)
            self.decided = {(one.decision, one.zone): one for one in plan.trace}
            self.told = {**_told(plan), **_minutes(plan)}

    def differences(self, after: "Planned") -> Iterator[Difference]:
        """Give what other rules decide otherwise; what only one of the two decides is passed over."""
        for key, was in self.told.items():
            now = after.told.get(key, was)
            if now != was:
                decided = after.decided.get(key)
                yield Difference(
                    decision=key[0],
                    zone=key[1],
                    before=self.words(key[0], was, without=now),
                    after=after.words(key[0], now, without=was),
                    row=decided.row if decided and not isinstance(now, tuple) else "",
                    because=decided.because if decided and not isinstance(now, tuple) else "",
                )

    def words(self, decision: str, told: Told, *, without: Told) -> str:
        """Write what is decided; of a list only what the other one lacks."""
        if isinstance(told, tuple):
            return " ".join(say(one) for one in told if not isinstance(without, tuple) or one not in without)
        if decision.startswith(MINUTES) and not isinstance(told, str):
            return say("{minutes} minutes", minutes=number_text(told))
        return value_words(decision, told, rulebook=self._rulebook)


def example(rulebook: Rulebook, consultation: Consultation, difference: Difference) -> Example:
    """Write a head with one of its differences.

    Args:
        rulebook: The rules that know every value of the head.
        consultation: The head.
        difference: What differs on it.

    Returns:
        Both, in words.
    """
    return Example(head=head_facts(Head(rulebook, consultation), difference.zone), difference=difference)


def _told(plan: Plan) -> dict[tuple[str, str | None], Told]:
    return {(one.decision, one.zone): _of(one) for one in plan.trace}


def _of(decided: Decision) -> Told:
    """Give a value, or what a list says: a row may say something else and stand for the same step."""
    if not isinstance(decided.value, tuple):
        return decided.value
    return tuple(row.say or row.then for row in decided.rows)


def _minutes(plan: Plan) -> dict[tuple[str, str | None], Told]:
    return {(f"{MINUTES}.{phase.name}", None): float(phase.minutes) for phase in plan.phases}
