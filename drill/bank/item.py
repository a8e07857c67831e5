"""An item as a deck holds it: a scenario template without a key, or a fact with key and source."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from drill.bank.picture import Picture
from drill.basis.problem import NOWHERE, Place
from drill.rulebook.domain import Value
from drill.rulebook.table import Standing

Kind = Literal[
    "choose", "estimate", "order", "find_fault", "locate", "cause", "ask_next", "contrast", "stop_or_go"
]
# Before the id of a limit that a fact is about.
LIMITS = "limits/"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """A wrong option of a fact.

    Attributes:
        text: As shown.
        misconception: The wrong idea that it shows; empty where it shows none.
        order: Of steps to put in order: numbers of the item's steps, from 0, in this wrong order.
    """

    text: str
    misconception: str = ""
    order: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One item.

    Attributes:
        id: Kebab-case id, unique in the bank.
        topic: The deck's topic.
        kind: How it is asked.
        stem: The question; ``{zone}`` stands for the zone asked.
        decision: The decision asked; empty for a fact and for what no one decision holds.
        row: The row that must decide; empty for any.
        zones: Zones that it may ask; empty for a decision on the head.
        vary: For a scenario: the values drawn, by name.
        answer: For a fact: the key.
        wrong: For a fact: the wrong options.
        because: For a fact: why the key is right.
        source: For a fact: where it stands.
        standing: For a fact: as for a row.
        look: What to look at next time.
        tolerance: To estimate: how far off an answer may be, as a share of the key.
        steps: To order: the steps in their right order.
        parts: To find a fault: the decisions that are shown.
        wanted: To locate: the values whose place is asked.
        contrast: To contrast: the one fact in which the two heads differ, with its values.
        fault: To find a cause: what is seen afterwards.
        about: Of what is written and not decided: the rows (``decision/row``) and limits (``limits/id``)
            that it asks.
        picture: A school's own picture that is shown with it; None where it has none.
        place: Where it is written.
    """

    id: str
    topic: str
    kind: Kind
    stem: str
    decision: str = ""
    row: str = ""
    zones: tuple[str, ...] = ()
    vary: Mapping[str, tuple[Value, ...]] = field(default_factory=dict)
    answer: str = ""
    wrong: tuple[Wrong, ...] = ()
    because: str = ""
    source: str = ""
    standing: Standing = "settled"
    look: str = ""
    tolerance: float = 0.0
    steps: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    wanted: tuple[Value, ...] = ()
    contrast: Mapping[str, tuple[Value, ...]] = field(default_factory=dict)
    fault: str = ""
    about: tuple[str, ...] = ()
    picture: Picture | None = None
    place: Place = NOWHERE

    @property
    def skill(self) -> str:
        """The decision to hold: a row of a decision, a decision, or what the item alone asks."""
        if self.decision and self.row:
            return f"{self.decision}/{self.row}"
        return (
            self.decision
            if self.kind in ("choose", "estimate") and self.decision
            else f"{self.topic}/{self.id}"
        )

    @property
    def about_rows(self) -> tuple[str, ...]:
        """The rows that a fact asks."""
        return tuple(one for one in self.about if not one.startswith(LIMITS))

    @property
    def about_limits(self) -> tuple[str, ...]:
        """The ids of the limits that a fact asks."""
        return tuple(one.removeprefix(LIMITS) for one in self.about if one.startswith(LIMITS))

    @property
    def is_fact(self) -> bool:
        """Whether key and options are written, not decided."""
        return bool(self.answer or (self.steps and not self.decision))
