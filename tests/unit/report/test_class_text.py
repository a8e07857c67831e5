"""A class in words."""

import pytest

from drill.report.class_text import about_in_ten


@pytest.mark.parametrize(
    ("probability", "words"),
    [
        (0.0, "less than 1 in 10"),
        (0.04, "less than 1 in 10"),
        (0.12, "about 1 in 10"),
        (0.5, "about 5 in 10"),
        (0.74, "about 7 in 10"),
        (0.96, "more than 9 in 10"),
        (1.0, "more than 9 in 10"),
    ],
)
def test_chances_are_told_in_tenths(probability: float, words: str) -> None:
    """Nothing is ever told as certain."""
    assert about_in_ten(probability) == words
