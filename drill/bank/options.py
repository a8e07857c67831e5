"""Options of a question: from a value and what is said of it to letters in a fair order."""

import random
from dataclasses import replace

from drill.bank.question import Feedback, Option
from drill.rulebook.domain import Value
from drill.rulebook.trace import Decision

LETTERS = "abcde"


def single(decided: Decision) -> Value:
    """Give the value of a decision that has one.

    Raises:
        TypeError: If it is a list.
    """
    if isinstance(decided.value, tuple):
        raise TypeError(f"{decided.decision} is a list and has no single key")
    return decided.value


def option(text: str, value: Value, *, correct: bool, ideas: tuple[str, ...], feedback: Feedback) -> Option:
    """Give an option that has no letter yet."""
    return Option(id="", text=text, value=value, correct=correct, misconceptions=ideas, feedback=feedback)


def lettered(options: list[Option], rng: random.Random) -> tuple[Option, ...]:
    """Shuffle options and give them their letters; numbers stand in rising order instead."""
    if all(isinstance(option.value, float) for option in options):
        options.sort(key=lambda option: float(option.value))
    else:
        rng.shuffle(options)
    return tuple(replace(option, id=letter) for option, letter in zip(options, LETTERS, strict=False))
