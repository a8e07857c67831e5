"""Lotion is on the hair: when to look, and what is done next. Decided by a table, minute by minute.

The maker's longest time is the limit, S or no S. Nothing here tells a stylist to wait past it, and nothing
computes how long a lotion needs.
"""

import math
from dataclasses import dataclass

from drill.basis.length import number_text
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import Decision
from drill.service.coil import need_not_negative, need_positive
from drill.service.facts import FACTS

DECISION = "processing.next"
PLACES = ("first_tools", "weakest", "most_resistant", "elsewhere")
_LOOKS = "look_there_next"
_WAITS = "wait"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """What is known at one moment while lotion works.

    Attributes:
        minute: Minutes since lotion was on the last tool, 0 or more.
        longest_min: The maker's longest time in minutes; None where nobody at the chair knows it.
        place: Where the curl was just looked at: one of :data:`PLACES`, or ``unknown``.
        curl: What shows: ``none``, ``weak``, ``firm``, ``gum_like``, or ``unknown`` where nobody looked.
        says: What the client feels: ``nothing``, ``tingles``, ``burns``, or ``unknown`` where nobody asked.
        looked: Places looked at so far, the present one counted anyway.
    """

    minute: float
    longest_min: float | None
    place: str = UNKNOWN
    curl: str = UNKNOWN
    says: str = UNKNOWN
    looked: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """What is done next.

    Attributes:
        decision: The decision with its trace.
        do: ``wait``, ``look_there_next``, ``rinse`` or ``rinse_and_call``.
        words: What to do, in words.
        because: Why.
        place: Where to look; empty where nothing is looked at.
        look_again_min: Minutes until the next look, never past the longest time; 0 for at once.
        left_min: Minutes left of the longest time; 0 where it is over or not known.
        cautions: What holds at every moment.
    """

    decision: Decision
    do: str
    words: str
    because: str
    place: str = ""
    look_again_min: float = 0.0
    left_min: float = 0.0
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lookout:
    """One look that is due.

    Attributes:
        minute: Minutes since lotion was on the last tool.
        places: Where, in order; empty at the longest time, when lotion comes off whatever shows.
        words: What to do, in words.
    """

    minute: float
    places: tuple[str, ...]
    words: str


def next_step(rulebook: Rulebook, moment: Moment) -> NextStep:
    """Decide what is done next while lotion is on the hair.

    Args:
        rulebook: The rules in force, proved.
        moment: What is known now.

    Returns:
        The step with its trace.

    Raises:
        ValueError: If a number is out of range, or a value is none of the vocabulary's.

    Source:
        Table ``processing.next``, limits ``longest-time-ends-it`` and those after it; common practice.
    """
    inputs = _inputs(rulebook, moment)
    decision = Evaluation(rulebook, facts=FACTS, inputs=inputs).decide(DECISION)
    do = rulebook.built_in(DECISION, str(decision.value))
    left = 0.0 if moment.longest_min is None else max(0.0, moment.longest_min - moment.minute)
    return NextStep(
        decision=decision,
        do=do,
        words=say(decision.rows[0].say or decision.because),
        because=say(decision.because),
        place=_look_at(moment) if do == _LOOKS else "",
        look_again_min=min(left, _pause_min(rulebook, inputs)) if do == _WAITS else 0.0,
        left_min=left,
        cautions=_cautions(),
    )


def lookouts(rulebook: Rulebook, *, longest_min: float) -> tuple[Lookout, ...]:
    """List when to look, from the first early look to the end of the maker's longest time.

    Args:
        rulebook: The rules in force.
        longest_min: The maker's longest time in minutes, more than 0.

    Returns:
        In order of time. The last one is the longest time itself, when lotion is rinsed off.

    Raises:
        ValueError: If the longest time is not more than 0.

    Source:
        Parameters ``lookout.*``; early, since in one published solution half of the bonds were open after
        about two minutes (H1). These are times to look, never times to wait.
    """
    _need_finite(longest_min=longest_min)
    need_positive(longest_min=longest_min)
    values = rulebook.values
    first, again, close, last = (
        float(values[f"lookout.{name}_minutes"]) for name in ("first", "again", "close", "last")
    )
    found: list[Lookout] = []
    minute = min(first, longest_min)
    while minute < longest_min:
        early = not found
        near = minute >= longest_min - last
        found.append(
            Lookout(
                minute=minute,
                places=("weakest", "first_tools") if early else ("weakest", "most_resistant"),
                words=_look_words(early=early, near=near),
            )
        )
        minute = min(minute + (close if near else again), longest_min)
    end = say(
        "{minutes} min: the maker's longest time. Rinse now, S or no S.", minutes=number_text(longest_min)
    )
    return (*found, Lookout(minute=longest_min, places=(), words=end))


def _inputs(rulebook: Rulebook, moment: Moment) -> dict[str, str | float]:
    looked = moment.looked | ({moment.place} if moment.curl != UNKNOWN else frozenset())
    inputs = {
        "processing.time": _time(rulebook, moment),
        "processing.curl": moment.curl,
        "processing.place": moment.place,
        "processing.says": moment.says,
        "processing.looked_first": "yes" if "first_tools" in looked else "no",
        "processing.looked_weakest": "yes" if "weakest" in looked else "no",
    }
    for name, value in inputs.items():
        known = rulebook.domains[name].values
        if value not in known:
            raise ValueError(f"{name} must be one of {', '.join(known)}, got {value}")
    return {**inputs}


def _time(rulebook: Rulebook, moment: Moment) -> str:
    _need_finite(minute=moment.minute)
    need_not_negative(minute=moment.minute)
    if moment.longest_min is None:
        return UNKNOWN
    _need_finite(longest_min=moment.longest_min)
    need_positive(longest_min=moment.longest_min)
    left = moment.longest_min - moment.minute
    if left <= 0:
        return "over"
    return "last_minutes" if left <= float(rulebook.values["lookout.last_minutes"]) else "working"


def _need_finite(**values: float) -> None:
    for name, value in values.items():
        if not math.isfinite(value):
            raise ValueError(f"{name} must be a number of minutes, got {value}")


def _pause_min(rulebook: Rulebook, inputs: dict[str, str | float]) -> float:
    close = inputs["processing.curl"] != "none" or inputs["processing.time"] != "working"
    return float(rulebook.values["lookout.close_minutes" if close else "lookout.again_minutes"])


def _look_at(moment: Moment) -> str:
    """Name the place to look at: the weakest first of all, then where lotion went first, then last."""
    if moment.place == "weakest" and moment.curl != UNKNOWN:
        return "first_tools" if "first_tools" not in moment.looked else "most_resistant"
    return "weakest"


def _look_words(*, early: bool, near: bool) -> str:
    if early:
        return say(
            "First look: the weakest place and the tools that got lotion first. Ask what the scalp feels."
        )
    if near:
        return say("Look again, water and towels ready. Ask what the scalp feels.")
    return say("Look again at the weakest place and at the most resistant one. Ask what the scalp feels.")


def _cautions() -> tuple[str, ...]:
    return (
        say("The maker's directions and longest time come before anything shown here."),
        say("Never leave the client. Burning means rinse now; lotion in an eye means running water at once."),
        say("The licensed practitioner, in a school the instructor, decides."),
    )
