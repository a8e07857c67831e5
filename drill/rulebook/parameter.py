"""A value that the rules or the geometry read by name, with its unit and source."""

from dataclasses import dataclass

from drill.basis.problem import NOWHERE, Place
from drill.rulebook.domain import Value
from drill.rulebook.table import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """One parameter.

    Attributes:
        name: Dotted path, such as ``base.packing``.
        value: A number in its unit, or a named value.
        unit: For example ``mm``, ``min``, ``ratio``; empty for a named value.
        choices: Named values that it may take; empty for a number.
        low: Smallest number a local rule may set.
        high: Largest number a local rule may set.
        because: What it is for.
        source: A key of the sources, ``common practice`` or ``memory``.
        standing: As for a row.
        place: Where it is written.
        set_by: The overlay that set it; empty for the built-in value.
    """

    name: str
    value: Value
    unit: str = ""
    choices: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    because: str
    source: str
    standing: Standing = "settled"
    place: Place = NOWHERE
    set_by: str = ""
