"""Find the change of a local rule that brought a fault about, so that it is told where it can be mended.

A gap left by a removed row, or a limit that the row guarded, shows in a built-in table; nobody
mends it there.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date

from drill.basis.problem import Problem
from drill.rulebook.boxes import Work
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS


def blame_changes(
    problems: Sequence[Problem], built_in: Rulebook, overlays: Iterable[Overlay], *, day: date, work: Work
) -> tuple[Problem, ...]:
    """Move what a proof found in built-in rules to the changes that brought it about.

    Args:
        problems: What the proof of the rules in force found.
        built_in: The rules without local rules.
        overlays: The local rules that the proof was of, in their order.
        day: The day for which they are in force.
        work: What may be done to narrow the changes down; when it is used up, the last change known to leave
            the fault there is told.

    Returns:
        The problems; one that already stands in a local rule's file stays where it is.
    """
    in_force = [overlay for overlay in overlays if overlay.in_force(day)]
    files = {overlay.place.file for overlay in in_force}
    astray = {_kind(one): one for one in problems if one.place.file not in files}
    if not astray:
        return tuple(problems)
    steps = list(_steps(built_in, in_force))
    found: dict[int, set[str]] = {}
    brought = {kind: _first(kind, steps, found, work) for kind in astray} if steps else {}
    return tuple(
        replace(one, place=brought[_kind(one)].place, what=f"with this change, {one.what}")
        if _kind(one) in brought
        else one
        for one in problems
    )


def _first(
    kind: str, steps: Sequence[tuple[Change, Rulebook]], found: dict[int, set[str]], work: Work
) -> Change:
    """Halve the changes until one is left, before which a fault is not there and after which it is."""
    sound, faulty = 0, len(steps)
    while faulty - sound > 1:
        at = (sound + faulty) // 2
        if at not in found:
            proof = prove(steps[at - 1][1], facts=FACTS, idle_is_fault=False, look_for_idle=False, work=work)
            found[at] = {_kind(one) for one in proof.problems}
        sound, faulty = (sound, at) if kind in found[at] else (at, faulty)
    return steps[faulty - 1][0]


def _steps(rulebook: Rulebook, overlays: Iterable[Overlay]) -> Iterator[tuple[Change, Rulebook]]:
    for overlay in overlays:
        for change in overlay.changes:
            rulebook = apply(rulebook, replace(overlay, changes=(change,)))
            yield change, rulebook


def _kind(problem: Problem) -> str:
    """What is wrong, whatever the example: it may show on another head or row one change later."""
    return problem.what.partition(" by the row ")[0].partition(" for ")[0].partition(" says what to do")[0]
