"""The words of cautions, first aid and stops, which no local rule may take away.

A limit demands that a caution is there; a row that replaces it could keep its name and say the opposite.
"""

from collections.abc import Iterator, Mapping

from drill.basis.problem import Problem
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.plan import SIGN_OFFS

# Of each list the outcomes whose words are kept; None for all that a limit demands.
_WORDED: Mapping[str, frozenset[str] | None] = {
    "cautions": None,
    "first_aid": None,
    "steps": frozenset(SIGN_OFFS),
}


def lost_words(built_in: Rulebook, rulebook: Rulebook, *, all_rows: bool = False) -> list[Problem]:
    """Find rows that put other words in the place of words that a limit demands.

    Args:
        built_in: The rules without local rules.
        rulebook: The rules in force.
        all_rows: Whether to look at rows that say they are built in, too.

    Returns:
        A problem for each row that gives a demanded caution, line of first aid or stop without its words.
    """
    return [
        _problem(name, row, words)
        for name, row, words in _worded(built_in, rulebook)
        if (row.set_by or all_rows) and not any(one in row.say for one in words)
    ]


def _worded(built_in: Rulebook, rulebook: Rulebook) -> Iterator[tuple[str, Row, list[str]]]:
    """Give each row of a worded list that gives what is demanded, with the words it may keep."""
    for name, among in _WORDED.items():
        ours, theirs = built_in.tables.get(name), rulebook.tables.get(name)
        if ours is None or theirs is None:
            continue
        demanded = {value for limit in built_in.limits for value in limit.demands.get(name, ())}
        demanded &= demanded if among is None else among
        for row in theirs.rows:
            # What copies its outcome could come to any of them.
            if row.then in demanded or row.then_from != "value":
                yield name, row, [one.say for one in ours.rows if one.then == row.then]


def _problem(name: str, row: Row, words: list[str]) -> Problem:
    what = f"the row {row.id} of {name} takes away the words of '{row.then}', which a limit demands"
    if not words:
        return Problem(row.place, what, "name one outcome under 'then:'")
    return Problem(row.place, what, f"keep them under 'say:' and write your own after them: {words[0]}")
