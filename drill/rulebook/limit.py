"""Safety as data, apart from the tables: what must never be decided, whatever the rows say."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from drill.basis.problem import NOWHERE, Place
from drill.rulebook.condition import Condition


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit: where the premise holds, some outcomes are forbidden and some demanded.

    Attributes:
        id: Kebab-case id.
        when: The premise: a condition for each name; empty means always.
        never: Outcomes forbidden, by decision.
        demands: Outcomes that must be in the list, by ``collect`` decision.
        because: The harm it keeps off.
        source: A key of the sources, ``common practice`` or ``memory``.
        place: Where it is written.
    """

    id: str
    when: Mapping[str, Condition]
    never: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    demands: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    because: str
    source: str
    place: Place = NOWHERE
