"""How hard a text is to read, as a school grade."""

import re
from collections.abc import Iterable
from statistics import median

_WORD = re.compile(r"[A-Za-z]+(?:['\u2019-][A-Za-z]+)*|\d+(?:[.,]\d+)*")
_SENTENCE_END = re.compile(r"[.!?:;]+(?:\s|$)")
_VOWELS = re.compile(r"[aeiouy]+")


def reading_grade(text: str) -> float:
    """Give the school grade that reads a text with ease.

    Args:
        text: English, with at least one word.

    Returns:
        The grade of the American school; below 0 for the plainest texts.

    Source:
        Flesch 1948; Kincaid 1975: 0.39 words a sentence + 11.8 syllables a word - 15.59 (from memory).
    """
    words = _WORD.findall(text)
    if not words:
        return 0.0
    sentences = max(1, len(_SENTENCE_END.findall(text.strip() + " ")))
    syllables = sum(map(count_syllables, words))
    return 0.39 * len(words) / sentences + 11.8 * syllables / len(words) - 15.59


def count_syllables(word: str) -> int:
    """Count the syllables of an English word by its groups of vowels.

    Args:
        word: Letters, or the digits of a number, which count as one.

    Returns:
        At least 1; a silent e at the end is none.
    """
    letters = word.lower().replace("\u2019", "'").replace("'s", "s")
    groups = len(_VOWELS.findall(letters))
    silent = letters.endswith(("e", "es", "ed")) and not letters.endswith(
        ("le", "les", "ted", "ded", "ses", "ces", "zes", "ges")
    )
    return max(1, groups - (silent and groups > 1))


def median_grade(texts: Iterable[str]) -> float:
    """Give the grade in the middle of many texts; 0 for none."""
    grades = [reading_grade(text) for text in texts if _WORD.search(text)]
    return median(grades) if grades else 0.0
