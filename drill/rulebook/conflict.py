"""Conflicts of local rules: two that are in force together and pull at the same thing.

One of the two would silently win, and which one would depend on the names of their files; so both are told.
"""

from collections.abc import Iterable, Iterator

from drill.basis.problem import Problem
from drill.rulebook.overlay import Change, Overlay

_MEND = "keep one of the two, or let one end ('until') before the other begins ('from')"
_DONE = {"set": "set", "replace": "replaced", "remove": "removed", "add": "added", "widen": "added"}


def conflicts(overlay: Overlay, before: Iterable[Overlay]) -> list[Problem]:
    """Find what a local rule has in conflict with the ones before it.

    Args:
        overlay: The local rule.
        before: The local rules before it, in order; those never in force together with it are passed over.

    Returns:
        One a pair of changes, at the place of the later one, naming the place of the earlier one.
    """
    return [
        problem
        for other in before
        if other.overlaps(overlay)
        for earlier in other.changes
        for later in overlay.changes
        for problem in _of_pair(later, earlier, other.id)
    ]


def _of_pair(later: Change, earlier: Change, rule: str) -> Iterator[Problem]:
    touched = _touched(later)
    if touched == _touched(earlier):
        again = "" if later.op == earlier.op else f"{_DONE[earlier.op]} "
        what = f"{_words(later)} is {_DONE[later.op]} here and {again}at {earlier.place}"
        yield Problem(later.place, f"{what} by the local rule {rule}", _MEND)
    elif _takes_anchor(earlier, later):
        yield Problem(
            later.place,
            f"a row is added before the row {later.at} of {later.target}, "
            f"which is removed at {earlier.place} by the local rule {rule}",
            _MEND,
        )
    elif _takes_anchor(later, earlier):
        yield Problem(
            later.place,
            f"the row {later.at} of {later.target} is removed here, and at {earlier.place} the local rule "
            f"{rule} adds a row before it",
            _MEND,
        )


def _touched(change: Change) -> tuple[str, ...]:
    """Name what a change settles; two changes that settle the same are in conflict."""
    if change.op in ("replace", "remove"):
        return ("row", change.target, _row(change))
    if change.op == "add":
        return ("new row", change.target, _row(change))
    return (
        ("value", change.target, str(change.value)) if change.op == "widen" else ("parameter", change.target)
    )


def _row(change: Change) -> str:
    return change.row.id if change.row is not None else change.at


def _words(change: Change) -> str:
    if change.op == "set":
        return f"the parameter {change.target}"
    if change.op == "widen":
        return f"the value {change.value} of {change.target}"
    return f"the row {_row(change)} of {change.target}"


def _takes_anchor(removing: Change, adding: Change) -> bool:
    """Tell whether one change removes the row before which the other adds one."""
    return (
        removing.op == "remove"
        and adding.op == "add"
        and (removing.target, removing.at) == (adding.target, adding.at)
    )
