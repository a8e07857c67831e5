"""The interval of a share of marks, against published figures and another implementation.

Figures: Wilson, JASA 22, 209-212, 1927, as printed in the manual pages of two statistics packages
(second-hand). 95 %: 5 of 10 gives .2366 to .7634, 15 of 50 .1910 to .4375, 0 of 10 up to .2775, 84 of 85
.9363 to .9979.
"""

import pytest
from scipy.stats import binomtest

from drill.study.marks import wilson_interval


@pytest.mark.parametrize(
    ("right", "items", "low", "high"),
    [(5, 10, 0.2366, 0.7634), (15, 50, 0.1910, 0.4375), (0, 10, 0.0, 0.2775), (84, 85, 0.9363, 0.9979)],
)
def test_interval_is_the_published_one(right, items, low, high):
    """To the digits printed."""
    found = wilson_interval(right, items)
    assert found == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize("items", [1, 2, 7, 40, 110])
def test_interval_is_that_of_another_implementation(items):
    """For every number right."""
    for right in range(items + 1):
        other = binomtest(right, items).proportion_ci(confidence_level=0.95, method="wilson")
        assert wilson_interval(right, items) == pytest.approx((other.low, other.high), abs=1e-9)
