"""The trace: which row decided, why, and what was rejected on the way."""

from collections.abc import Mapping
from dataclasses import dataclass

from drill.rulebook.domain import Value
from drill.rulebook.table import Row, Standing

COMPUTED = "computed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rejected:
    """A row that stood before the deciding one and did not hold.

    Attributes:
        row: Its id.
        value: What it would have decided.
        input: The input that kept it out.
        was: The value of that input.
    """

    row: str
    value: Value
    input: str
    was: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """One decision taken.

    Attributes:
        decision: Dotted name.
        zone: The zone it holds for; None for the head.
        value: The outcome; of a ``collect`` table a tuple of outcomes.
        also: Outcomes that are acceptable too.
        standing: Of the deciding row.
        row: Id of the deciding row; ``computed`` for a figure that a formula gave.
        because: Reason of the deciding row.
        source: Source of the deciding row.
        rejected: Rows before it that did not hold.
        rows: Every row that held, in table order.
        read: What the table read.
    """

    decision: str
    zone: str | None = None
    value: Value | tuple[str, ...]
    also: tuple[Value, ...] = ()
    standing: Standing = "settled"
    row: str
    because: str
    source: str
    rejected: tuple[Rejected, ...] = ()
    rows: tuple[Row, ...] = ()
    read: Mapping[str, Value]
