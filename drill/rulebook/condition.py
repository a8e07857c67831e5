"""What a row asks of one input: named values, or ranges of a quantity. Nothing else."""

import math
from dataclasses import dataclass

from drill.rulebook.domain import Value


@dataclass(frozen=True, slots=True)
class Range:
    """An interval of a quantity, in the unit of its domain.

    Attributes:
        low: Lower bound, minus infinity where there is none.
        high: Upper bound, infinity where there is none.
        with_low: Whether the lower bound itself belongs to it.
        with_high: Whether the upper bound itself belongs to it.
    """

    low: float = -math.inf
    high: float = math.inf
    with_low: bool = True
    with_high: bool = True

    def holds(self, number: float) -> bool:
        """Tell whether a number lies in the interval."""
        above = number > self.low or (self.with_low and number == self.low)
        return above and (number < self.high or (self.with_high and number == self.high))


@dataclass(frozen=True, slots=True)
class Condition:
    """The values of one input that a row accepts.

    Attributes:
        values: Named values, in the order written.
        ranges: Intervals of its quantity.
        text: The condition as written, for people.
    """

    values: tuple[str, ...] = ()
    ranges: tuple[Range, ...] = ()
    text: str = ""

    def holds(self, value: Value) -> bool:
        """Tell whether a value is accepted.

        Args:
            value: A named value, or a number in the unit of the input.

        Returns:
            True where one of the values or ranges takes it.
        """
        if isinstance(value, str):
            return value in self.values
        return any(one.holds(value) for one in self.ranges)
