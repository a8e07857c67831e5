"""The reading grade, against grades computed of words, sentences and syllables counted by hand.

Formula: Flesch 1948, Kincaid 1975 (from memory); 1 sentence of 6 words and 6 syllables gives -1.45, one of 13
words and 26 syllables 13.08 (computed of the formula).
"""

import pytest

from drill.bank.readable import count_syllables, median_grade, reading_grade


def test_grade_of_a_plain_sentence():
    """Six words of one syllable."""
    assert reading_grade("The cat sat on the mat.") == pytest.approx(-1.45, abs=5e-3)


def test_grade_of_a_hard_sentence():
    """Thirteen words of two syllables."""
    text = "Under many little tables seven purple rabbits quickly carry yellow paper over many."
    assert sum(map(count_syllables, text.rstrip(".").split())) == 26
    assert reading_grade(text) == pytest.approx(13.08, abs=5e-3)


@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("hair", 1),
        ("tools", 1),
        ("base", 1),
        ("lotion", 2),
        ("table", 2),
        ("combed", 1),
        ("seated", 2),
        ("45", 1),
    ],
)
def test_syllables_are_counted(word, syllables):
    """As spoken; a silent e is none."""
    assert count_syllables(word) == syllables


def test_middle_grade_leaves_out_what_has_no_words():
    """And nothing at all has the grade 0."""
    assert median_grade(["", "..."]) == 0
    assert reading_grade("?") == 0
    assert median_grade(["The cat sat on the mat.", ""]) == pytest.approx(-1.45, abs=5e-3)
