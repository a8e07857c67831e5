"""Boxes: products of value sets, so that a table is proved on a few boxes instead of every combination.

Every name's values are cut into *cells*: each named value is one; the numbers fall apart at every bound that
any condition names. A box gives, for each name it restricts, the cells it allows as a bit mask; a name left
out is unrestricted.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from drill.basis.length import number_text
from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import UNKNOWN, Domain

Box = Mapping[str, int]
# In boxes looked at. The proof of the built-in rules takes 1.7 million, and their widest name has 43 cells.
MOST_WORK, MOST_CELLS = 20_000_000, 500


class TooWideError(ValueError):
    """Rules with more combinations than can be looked through."""


@dataclass(slots=True)
class Work:
    """What searches may still do. It is counted, not timed: the same rules end alike on every machine.

    Attributes:
        left: Boxes that may still be looked at.
    """

    left: int = MOST_WORK

    def take(self, boxes: int) -> None:
        """Do some of it.

        Args:
            boxes: How many boxes are looked at.

        Raises:
            TooWideError: If so much is not left.
        """
        self.left -= boxes
        if self.left < 0:
            raise TooWideError("these rules have more combinations than can be looked through")


@dataclass(frozen=True, slots=True)
class Axis:
    """The cells of one name.

    Attributes:
        domain: What the name can be.
        cells: Named values, then intervals of its numbers in rising order.
    """

    domain: Domain
    cells: tuple[str | Range, ...]

    @property
    def full(self) -> int:
        """The mask of every cell."""
        return (1 << len(self.cells)) - 1

    @property
    def known(self) -> int:
        """The mask of every cell but ``unknown``."""
        return self.full & ~self.of((UNKNOWN,))

    def of(self, values: Iterable[str]) -> int:
        """Give the mask of some named values; those it does not have are left out."""
        wanted = set(values)
        return sum(1 << at for at, cell in enumerate(self.cells) if cell in wanted)

    def counting_as(self, values: Iterable[str]) -> int:
        """Give the mask of values and of those that a local rule lets count as them."""
        wanted = set(values)
        return sum(
            1 << at
            for at, cell in enumerate(self.cells)
            if isinstance(cell, str) and self.domain.built_in(cell) in wanted
        )

    def taken_by(self, condition: Condition) -> int:
        """Give the mask of the cells that a condition accepts."""
        return self.of(condition.values) | sum(
            1 << at
            for at, cell in enumerate(self.cells)
            if isinstance(cell, Range) and condition.holds(_inside(cell))
        )

    def example(self, mask: int) -> str:
        """Write the first cell of a mask as a person would state it."""
        cell = next(cell for at, cell in enumerate(self.cells) if mask >> at & 1)
        return cell if isinstance(cell, str) else f"{number_text(_inside(cell))} {self.domain.unit}"


def axis_for(domain: Domain, conditions: Iterable[Condition]) -> Axis:
    """Cut a domain into cells at every bound that some condition names.

    Args:
        domain: The values of the name.
        conditions: Every condition on it, of all tables and limits.

    Returns:
        Its axis; a domain without unit has named cells only.

    Raises:
        TooWideError: If they are too many.
    """
    bounds = sorted({bound for one in conditions for cut in one.ranges for bound in (cut.low, cut.high)})
    if len(domain.values) + 2 * len(bounds) > MOST_CELLS:
        raise TooWideError(f"{domain.name} falls into more than {MOST_CELLS} cells")
    if not domain.unit:
        return Axis(domain, domain.values)
    cells: list[str | Range] = list(domain.values)
    low, with_low = 0.0, True
    for bound in bounds:
        if not 0 <= bound < math.inf:
            continue
        if bound > 0:
            cells.append(Range(low, bound, with_low=with_low, with_high=False))
        cells.append(Range(bound, bound))
        low, with_low = bound, False
    cells.append(Range(low, math.inf, with_low=with_low, with_high=False))
    return Axis(domain, tuple(cells))


def meet(one: Box, other: Box) -> dict[str, int] | None:
    """Cut two boxes; None where they have nothing in common."""
    both = dict(one)
    for name, mask in other.items():
        both[name] = both.get(name, mask) & mask
        if not both[name]:
            return None
    return both


def touch(one: Box, other: Box) -> bool:
    """Tell whether two boxes have anything in common."""
    for name, mask in other.items():
        mine = one.get(name)
        if mine is not None and not mine & mask:
            return False
    return True


def cut_off(box: Box, other: Box) -> int:
    """Count the names in which a box reaches beyond another; none where it lies wholly inside."""
    count = 0
    for name, mask in other.items():
        mine = box.get(name)
        if mine is None or mine & ~mask:
            count += 1
    return count


def outside(
    box: Box, others: Sequence[Box], axes: Mapping[str, Axis], *, work: Work | None = None
) -> Iterator[dict[str, int]]:
    """Walk through the parts of a box that lie outside all others.

    Args:
        box: The box.
        others: What is taken away.
        axes: The cells of every name.
        work: What may still be done; where left out, as much as one proof may do.

    Yields:
        Disjoint boxes; nothing where the others cover the box.

    Raises:
        TooWideError: If the work is used up.
    """
    work = work or Work()
    work.take(1 + len(others))
    touching = [other for other in others if touch(box, other)]
    if not touching:
        yield dict(box)
        return
    # Taking away first what restricts fewest names keeps the number of parts small.
    beyond = [cut_off(box, other) for other in touching]
    fewest = min(beyond)
    if not fewest:
        return
    other = touching[beyond.index(fewest)]
    rest = [one for one in touching if one is not other]
    inside = dict(box)
    for name, mask in other.items():
        mine = inside.get(name, axes[name].full)
        if mine & ~mask:
            yield from outside({**inside, name: mine & ~mask}, rest, axes, work=work)
        inside[name] = mine & mask


def _inside(cell: Range) -> float:
    if cell.low == cell.high:
        return cell.low
    return cell.low + 1 if cell.high == math.inf else (cell.low + cell.high) / 2
