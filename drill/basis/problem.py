"""Faults in what people write: where, what, and how to mend it.

A fault in a user's text is a value, gathered and shown with all the others; it is never an exception that
a user meets as a traceback.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

# A name of one or two letters begins too many others by chance.
_FEWEST_LETTERS = 3
# Names are compared letter by letter, and a text of this length is no slip of a name.
_MOST_LETTERS = 100


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in a text file; line and column count from 1.

    Attributes:
        file: Path as the user gave it, or ``<stdin>``.
        line: Line number.
        column: Column number.
    """

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


NOWHERE = Place("")


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One fault, told so that the reader can mend it.

    Attributes:
        place: Where it stands.
        what: What was found, and what is allowed.
        mend: What to do about it.
    """

    place: Place
    what: str
    mend: str

    def __str__(self) -> str:
        return f"{self.place}: {self.what}; {self.mend}"


class ProblemsError(Exception):
    """Carries gathered problems across a call that cannot return a value.

    Attributes:
        problems: All of them, sorted by place.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(map(str, self.problems)))


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Find the known name that a misspelt one most likely means.

    Args:
        name: The name found.
        names: The names allowed.

    Returns:
        The closest allowed name, or None where none is close; one that begins the other is closest.
    """
    if len(name) > _MOST_LETTERS:
        return None
    names = sorted(names)
    begun = [one for one in names if _begins(one, name) or _begins(name, one)]
    if len(begun) == 1:
        return begun[0]
    close = get_close_matches(name, names, n=1, cutoff=0.6)
    return close[0] if close else None


def _begins(short: str, name: str) -> bool:
    return len(short) >= _FEWEST_LETTERS and name.startswith(short)


def mend_name(name: str, names: Sequence[str]) -> str:
    """Say which name to write instead of an unknown one.

    Args:
        name: The name found.
        names: The names allowed, in the order to list them.

    Returns:
        A mend that offers the nearest name, or lists the allowed ones.
    """
    close = nearest(name, names)
    if close is not None:
        return f"did you mean '{close}'?"
    return f"use one of: {', '.join(names)}" if names else "leave it out"
