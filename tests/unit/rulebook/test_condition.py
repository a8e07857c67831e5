"""What a row asks of one input."""

import math

import pytest

from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain


@pytest.mark.parametrize(
    ("cut", "inside", "without"),
    [
        (Range(2, 5), (2, 3, 5), (1.99, 5.01)),
        (Range(2, 5, with_low=False, with_high=False), (2.01, 4.99), (2, 5)),
        (Range(low=2, with_low=False), (2.01, 1e9, math.inf), (2, 0)),
        (Range(high=2), (0, 2, -1), (2.01,)),
        (Range(2, 2), (2,), (1.99, 2.01)),
    ],
)
def test_a_range_holds_its_bounds_only_where_they_belong(cut, inside, without):
    """Closed and open on either side."""
    assert all(cut.holds(one) for one in inside)
    assert not any(cut.holds(one) for one in without)


def test_a_condition_takes_any_of_its_values_and_ranges():
    """Text meets values, numbers meet ranges."""
    condition = Condition(("never", "unknown"), (Range(high=2), Range(5, 6)))
    assert [one for one in ("never", "unknown", "other", 1.0, 3.0, 5.5) if condition.holds(one)] == [
        "never",
        "unknown",
        1.0,
        5.5,
    ]
    assert not Condition().holds("unknown")
    assert not Condition(("2",)).holds(2.0)


def test_a_domain_knows_its_unknown_and_what_an_added_value_counts_as():
    """A built-in value counts as itself."""
    domain = Domain(name="wet", values=("dry", "unknown", "soaked"), counts_as={"soaked": "damp"})
    assert domain.can_be_unknown
    assert not Domain(name="wet", values=("dry",)).can_be_unknown
    assert (domain.built_in("soaked"), domain.built_in("dry")) == ("damp", "dry")
