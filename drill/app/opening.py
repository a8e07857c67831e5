"""The screens that need no book: it is being opened, or something stands in the way.

Nothing here reaches the book or the log, so that the first screen is drawn before they are read.
"""

from collections.abc import Iterable

from drill.app.progress import progress_figure
from drill.app.screen import Part, Picture, Press, Screen, Words
from drill.basis.problem import NOWHERE, Problem
from drill.basis.words import say

HEAD_DP = 264.0


def opening_screen() -> Screen:
    """Show that the book is being opened."""
    return Screen(
        name="opening",
        title=say("Today"),
        aside=(Picture(figure=progress_figure({}), height_dp=HEAD_DP),),
        parts=(Words(text=say("Opening the question sets."), style="small"),),
    )


def problem_screen(problems: Iterable[Problem], *, goes_on: bool = False) -> Screen:
    """Show what stands in the way, and how to mend it.

    Args:
        problems: At least one.
        goes_on: Whether the drill goes on without what cannot be used.

    Returns:
        The screen, with a touch that tries again, or that goes on.
    """
    head = say("Your school's pack is not used") if goes_on else say("Something stands in the way")
    parts: list[Part] = [Words(text=head, style="verdict", sign="stop")]
    for problem in problems:
        place = str(problem.place) if problem.place != NOWHERE else ""
        parts.append(Words(text=problem.what, label=place))
        parts.append(Words(text=problem.mend, label=say("What helps")))
    foot = Press(action="again", text=say("Try again"), style="main")
    if goes_on:
        parts.append(Words(text=say("Until then the built-in questions are asked.")))
        foot = Press(action="go_on", text=say("Go on"), style="main")
    return Screen(
        name="problem",
        title=say("Not yet"),
        parts=tuple(parts),
        foot=(foot,),
    )
