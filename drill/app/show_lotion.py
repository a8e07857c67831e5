"""Lotion on a head as a screen: the minute, what was seen, and what is done next.

It counts from the moment that somebody says so, and decides nothing itself: the step comes from the rules.
"""

from dataclasses import dataclass, field

from drill.app.screen import Part, Press, PressRow, Screen, Words
from drill.basis.length import number_text
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN
from drill.rulebook.rulebook import Rulebook
from drill.service.processing import NextStep
from drill.service.watch import RINSES, Watch
from drill.service.wording import value_words

SEEN = ("processing.place", "processing.curl", "processing.says")
_ASKS = {
    "processing.place": "Where you looked",
    "processing.curl": "What shows, unwound one and a half turns",
    "processing.says": "What the client feels",
}
_SHORT = {
    ("processing.place", "first_tools"): "First tools",
    ("processing.place", "weakest"): "Weakest place",
    ("processing.place", "most_resistant"): "Most resistant",
    ("processing.place", "elsewhere"): "Elsewhere",
    ("processing.curl", "none"): "No S yet",
    ("processing.curl", "weak"): "S begins",
    ("processing.curl", "firm"): "Firm S",
    ("processing.curl", "gum_like"): "Like gum",
    ("processing.says", "nothing"): "Nothing",
    ("processing.says", "tingles"): "Tingles",
    ("processing.says", "burns"): "Burns",
}
MINUS = "\N{MINUS SIGN}"
STEPS_MIN = (-5, -1, 1, 5)
MOST_MIN = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Lotion:
    """What the screen knows.

    Attributes:
        longest_min: The maker's longest time as set so far; 0 where nothing is set.
        watch: How it stands; None before lotion is on.
        picked: What was seen since the last step, by name.
        asked_min: Minute of the last step.
    """

    longest_min: int = 0
    watch: Watch | None = None
    picked: dict[str, str] = field(default_factory=dict)
    asked_min: float = 0.0


def lotion_entry(lotion: Lotion | None) -> Press:
    """Give the touch on the first screen that leads here."""
    if lotion is not None and lotion.watch is not None:
        return Press(action="lotion", text=say("Lotion is on: back to the clock"), style="main")
    return Press(action="lotion", text=say("Lotion on a head: when to look"))


def lotion_screen(rulebook: Rulebook, lotion: Lotion, *, minute: float) -> Screen:
    """Show lotion on a head: before it is on, while it works, or when it comes off.

    Args:
        rulebook: The rules in force.
        lotion: What is known.
        minute: Minutes since it was on the last tool.

    Returns:
        The screen.
    """
    if lotion.watch is None:
        return _before(lotion)
    if lotion.watch.is_over:
        return _over(lotion.watch, minute)
    return _working(rulebook, lotion, lotion.watch, minute)


def _screen(name: str, parts: list[Part], foot: tuple[Press, ...], *, right: str = "") -> Screen:
    return Screen(
        name=name,
        title=say("Lotion"),
        leave=Press(action="lotion_leave", text=say("Back"), style="leave"),
        right=right,
        parts=tuple(parts),
        foot=foot,
        caution=say("The maker's directions and longest time come first. Never leave the client."),
    )


def _before(lotion: Lotion) -> Screen:
    set_words = say("{minutes} min", minutes=lotion.longest_min) if lotion.longest_min else say("not set")
    parts: list[Part] = [
        Words(label=say("Longest time, as this product's directions say"), text=set_words, style="verdict"),
        PressRow(
            presses=tuple(
                Press(action=f"lotion_longest:{step}", text=f"{'+' if step > 0 else MINUS} {abs(step)}")
                for step in STEPS_MIN
            )
        ),
        Words(
            text=say(
                "It is the limit, S or no S. Where nobody knows it, no lotion goes on. The minutes count "
                "from the last tool."
            )
        ),
    ]
    foot = (Press(action="lotion_on", text=say("The last tool has its lotion"), style="main"),)
    return _screen("lotion_before", parts, foot if lotion.longest_min else ())


def _working(rulebook: Rulebook, lotion: Lotion, watch: Watch, minute: float) -> Screen:
    due = minute >= watch.next_look_min
    look = (
        say("Look now")
        if due
        else say("Next look at {minute} min", minute=number_text(watch.next_look_min, digits=1))
    )
    parts: list[Part] = []
    if watch.step is not None:
        parts += _step_parts(watch.step, lotion.asked_min)
    parts.append(Words(text=look, style="verdict", sign="other" if due else ""))
    for name in SEEN:
        parts.append(Words(text=say(_ASKS[name]), style="title"))
        presses = tuple(
            Press(
                action=f"lotion_see:{name}={value}",
                text=say(_SHORT.get((name, value), value.replace("_", " ").capitalize())),
                style="choice",
                is_on=lotion.picked.get(name) == value,
            )
            for value in rulebook.domains[name].values
            if value != UNKNOWN
        )
        parts += [PressRow(presses=presses[at : at + 2]) for at in range(0, len(presses), 2)]
    foot = (
        Press(action="lotion_burns", text=say("It burns")),
        Press(action="lotion_next", text=say("What now?"), style="main"),
    )
    # With something picked the screen keeps its place from touch to touch; a new step is read from its top.
    name = "lotion_seen" if lotion.picked else "lotion_works"
    return _screen(name, parts, foot, right=_clock_words(minute, watch))


def _over(watch: Watch, minute: float) -> Screen:
    parts: list[Part] = []
    if watch.step is not None:
        parts += _step_parts(watch.step, minute)
        parts += [Words(text=caution, style="small") for caution in watch.step.cautions]
    foot = (Press(action="lotion_end", text=say("It is rinsed and neutralised"), style="main"),)
    return _screen("lotion_over", parts, foot, right=_clock_words(minute, watch))


def _step_parts(step: NextStep, minute: float) -> list[Part]:
    stops = step.do in RINSES
    parts: list[Part] = [
        Words(
            text=value_words("processing.next", step.do),
            style="verdict",
            sign="stop" if stops else "",
        ),
        Words(
            text=step.words,
            label="" if stops else say("At {minute} min", minute=number_text(minute, digits=1)),
        ),
    ]
    if step.place:
        place = say(_SHORT.get(("processing.place", step.place), step.place))
        parts.append(Words(text=place, label=say("Where"), style="number"))
    parts.append(Words(text=step.because, label=say("Why"), style="small"))
    return parts


def _clock_words(minute: float, watch: Watch) -> str:
    return say("{minute} of {longest} min", minute=int(minute), longest=number_text(watch.longest_min or 0.0))
