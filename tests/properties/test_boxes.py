"""Boxes say what going through every cell says."""

import math
from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from strategies import BOUNDS, POINTS, conditions

from drill.rulebook.boxes import Axis, axis_for, cut_off, meet, outside
from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain

NAMES = ("one", "two", "three")
AXES = {
    "one": Axis(Domain(name="one"), ("a", "b", "c")),
    "two": Axis(Domain(name="two"), ("a", "b")),
    "three": Axis(Domain(name="three"), ("a", "b", "c", "unknown")),
}
boxes = st.fixed_dictionaries({}, optional={name: st.integers(1, AXES[name].full) for name in NAMES})
WEEKS = Domain(name="n", values=("never", "unknown"), unit="weeks")


def _points(box):
    """Every combination of cells that a box allows."""
    return set(
        product(
            *(
                [at for at in range(len(AXES[name].cells)) if box.get(name, AXES[name].full) >> at & 1]
                for name in NAMES
            )
        )
    )


@given(boxes, st.lists(boxes, max_size=5))
def test_what_lies_outside_is_disjoint_and_nothing_is_lost(box, others):
    """The parts outside, and the others, make up the box, and no point is in two parts."""
    parts = list(outside(box, others, AXES))
    points = [_points(part) for part in parts]
    assert sum(map(len, points)) == len(set().union(*points))
    covered = set().union(*(_points(other) for other in others))
    assert set().union(*points) == _points(box) - covered


@given(boxes, boxes)
def test_meeting_and_lying_in_mean_the_same_for_points(one, other):
    """Two boxes meet in the points that both have; one lies in the other where it has no point of its own."""
    both = meet(one, other)
    assert (set() if both is None else _points(both)) == _points(one) & _points(other)
    # A box that names a value set in full lies in one that does not, and the other way round.
    written = {name: one.get(name, AXES[name].full) for name in NAMES}
    assert (not cut_off(written, other)) == (_points(one) <= _points(other))


@given(st.lists(conditions(WEEKS), max_size=4))
def test_the_cells_of_a_quantity_tell_apart_what_conditions_tell_apart(found):
    """Every number from 0 up lies in one cell, and a condition takes all of a cell or nothing of it."""
    axis = axis_for(WEEKS, found)
    cells = [cell for cell in axis.cells if isinstance(cell, Range)]
    for point in POINTS:
        at = [index for index, cell in enumerate(axis.cells) if isinstance(cell, Range) and cell.holds(point)]
        assert len(at) == 1
        for condition in found:
            assert condition.holds(point) == bool(axis.taken_by(condition) >> at[0] & 1), (point, condition)
    assert cells[0].low == 0
    assert cells[-1].high == math.inf


@given(conditions(WEEKS))
def test_named_values_are_cells_of_their_own(condition):
    """A condition takes the cell of each value that it names and of no other."""
    axis = axis_for(WEEKS, [condition])
    for value in WEEKS.values:
        assert bool(axis.taken_by(condition) & axis.of((value,))) == (value in condition.values)
    assert axis.known == axis.full & ~axis.of(("unknown",))


@given(st.sampled_from(BOUNDS))
def test_zero_is_told_from_more_than_zero(bound):
    """A condition `> 0` leaves the 0 out."""
    axis = axis_for(WEEKS, [Condition(ranges=(Range(low=bound, with_low=False),))])
    taken = axis.taken_by(Condition(ranges=(Range(low=bound, with_low=False),)))
    at = next(at for at, cell in enumerate(axis.cells) if isinstance(cell, Range) and cell.holds(bound))
    assert not taken >> at & 1
