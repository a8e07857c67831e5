"""An item as a deck holds it: a scenario template without a key, or a fact with key and source."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from drill.basis.problem import NOWHERE, Place
from drill.rulebook.domain import Value
from drill.rulebook.table import Standing

Kind = Literal["choose"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """A wrong option of a fact.

    Attributes:
        text: As shown.
        misconception: The wrong idea that it shows; empty where it shows none.
    """

    text: str
    misconception: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One item.

    Attributes:
        id: Kebab-case id, unique in the bank.
        topic: The deck's topic.
        kind: How it is asked.
        stem: The question; ``{zone}`` stands for the zone asked.
        decision: The decision asked; empty for a fact.
        row: The row that must decide; empty for any.
        zones: Zones that it may ask; empty for a decision on the head.
        vary: For a scenario: the values drawn, by name.
        answer: For a fact: the key.
        wrong: For a fact: the wrong options.
        because: For a fact: why the key is right.
        source: For a fact: where it stands.
        standing: For a fact: as for a row.
        look: What to look at next time.
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
    place: Place = NOWHERE

    @property
    def skill(self) -> str:
        """The decision to hold: a row of a decision, a decision, or a fact."""
        if not self.decision:
            return f"{self.topic}/{self.id}"
        return f"{self.decision}/{self.row}" if self.row else self.decision
