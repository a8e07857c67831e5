"""Lotion works, minute after minute: what was looked at so far, what is done now, when the next look is due.

One value that a screen or a terminal carries from look to look; every step is decided by
:func:`drill.service.processing.next_step`, and nothing here lets anybody wait past the maker's longest time.
"""

from dataclasses import dataclass

from drill.rulebook.domain import UNKNOWN
from drill.rulebook.rulebook import Rulebook
from drill.service.processing import Moment, NextStep, lookouts, next_step

RINSES = ("rinse", "rinse_and_call")


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """Lotion on a head, as it is being watched.

    Attributes:
        longest_min: The maker's longest time in minutes; None where nobody knows it.
        looked: Places looked at so far.
        step: What was decided last; None before the first look.
        next_look_min: Minute of the next look; never past the longest time.
    """

    longest_min: float | None
    looked: frozenset[str] = frozenset()
    step: NextStep | None = None
    next_look_min: float

    @property
    def is_over(self) -> bool:
        """Whether lotion comes off now."""
        return self.step is not None and self.step.do in RINSES


def begin_watch(rulebook: Rulebook, *, longest_min: float | None) -> Watch:
    """Begin when lotion is on the last tool.

    Args:
        rulebook: The rules in force, proved.
        longest_min: The maker's longest time in minutes, more than 0; None where nobody knows it.

    Returns:
        The watch, with the first look to come; over at once where nobody knows how long lotion may stay.

    Raises:
        ValueError: If the longest time is not more than 0.

    Source:
        Parameters ``lookout.*``; common practice.
    """
    if longest_min is None:
        return look(rulebook, Watch(longest_min=None, next_look_min=0.0), minute=0.0)
    first = lookouts(rulebook, longest_min=longest_min)[0]
    return Watch(longest_min=longest_min, next_look_min=first.minute)


def look(
    rulebook: Rulebook,
    watch: Watch,
    *,
    minute: float,
    place: str = UNKNOWN,
    curl: str = UNKNOWN,
    says: str = UNKNOWN,
) -> Watch:
    """Take up what was seen and felt at one minute, and decide what is done next.

    Args:
        rulebook: The rules in force, proved.
        watch: As it stands.
        minute: Minutes since lotion was on the last tool.
        place: Where somebody looked.
        curl: What showed there.
        says: What the client feels.

    Returns:
        The watch with its step; of one that waits, with the minute of the next look.

    Raises:
        ValueError: If a number is out of range, or a value is none of the vocabulary's.

    Source:
        Table ``processing.next``; common practice.
    """
    moment = Moment(
        minute=minute,
        longest_min=watch.longest_min,
        place=place,
        curl=curl,
        says=says,
        looked=watch.looked,
    )
    step = next_step(rulebook, moment)
    seen = {place} if UNKNOWN not in (place, curl) else set()
    return Watch(
        longest_min=watch.longest_min,
        looked=watch.looked | seen,
        step=step,
        next_look_min=minute + step.look_again_min,
    )


def at_minute(rulebook: Rulebook, watch: Watch, *, minute: float) -> Watch:
    """Let the clock run on without a look.

    Args:
        rulebook: The rules in force, proved.
        watch: As it stands.
        minute: Minutes since lotion was on the last tool.

    Returns:
        The same watch, or from the longest time on one that rinses.

    Raises:
        ValueError: If the minute is below 0.

    Source:
        Limit ``longest-time-ends-it``.
    """
    if watch.is_over or watch.longest_min is None or minute < watch.longest_min:
        return watch
    return look(rulebook, watch, minute=minute)
