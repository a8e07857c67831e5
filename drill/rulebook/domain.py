"""What a name in the rulebook can be: its values, its unit, and what its unknown means.

A value is text (a named value) or a number in the domain's own unit.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from drill.basis.problem import NOWHERE, Place

Value = str | float
Per = Literal["head", "zone"]
Unit = Literal["", "mm", "weeks", "months", "min", "turns", "ratio"]

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Domain:
    """The values that one name can take.

    Attributes:
        name: Dotted name, such as ``hair.porosity``.
        values: Named values in their order, ``unknown`` among them where the fact may be missing.
        unit: Unit of its numbers; empty where it takes named values only.
        per: Whether it holds for the head or for one zone.
        safety: Whether ``unknown`` must never pass as a harmless value.
        entered: Whether a consultation states it; otherwise it is derived.
        ask: How to find out; empty where nobody is asked.
        because: Why it matters.
        counts_as: For values that a local rule added: the built-in value that limits take it for.
        words: For values that a local rule added: what people call them.
        place: Where it is written.
    """

    name: str
    values: tuple[str, ...] = ()
    unit: Unit = ""
    per: Per = "head"
    safety: bool = False
    entered: bool = False
    ask: str = ""
    because: str = ""
    counts_as: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    place: Place = NOWHERE

    @property
    def can_be_unknown(self) -> bool:
        """Whether the fact may be missing."""
        return UNKNOWN in self.values

    def built_in(self, value: str) -> str:
        """Give the built-in value that a value counts as (itself, unless a local rule added it)."""
        return self.counts_as.get(value, value)
