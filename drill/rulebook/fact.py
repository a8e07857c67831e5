"""A computed fact: a pure function that the floor above lends to the rulebook."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from drill.rulebook.domain import Domain, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One computed fact.

    Attributes:
        domain: Its name and values.
        needs: Names it reads, in order.
        compute: Takes the values of ``needs`` in order, and the parameters by name.
    """

    domain: Domain
    needs: tuple[str, ...]
    compute: Callable[[Sequence[Value], Mapping[str, Value]], Value]
