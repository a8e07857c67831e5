"""Lotion on the hair, on a page: what is done next, when to look, and how to say what was seen."""

from collections.abc import Mapping, Sequence

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.page import Page
from drill.service.processing import Lookout, NextStep
from drill.service.watch import RINSES
from drill.service.wording import value_words

PLACE, CURL, SAYS = "processing.place", "processing.curl", "processing.says"
SEEN = (PLACE, CURL, SAYS)
_HEADS = {PLACE: "where you looked", CURL: "what shows", SAYS: "the client"}
_SHORT = {
    (PLACE, "first_tools"): "first tools",
    (PLACE, "weakest"): "weakest place",
    (PLACE, "most_resistant"): "most resistant",
    (PLACE, "elsewhere"): "elsewhere",
    (CURL, "none"): "no S yet",
    (CURL, "weak"): "S begins",
    (CURL, "firm"): "firm S",
    (CURL, "gum_like"): "like gum",
    (SAYS, "nothing"): "feels nothing",
    (SAYS, "tingles"): "it tingles",
    (SAYS, "burns"): "it burns",
}


def seen_words(name: str, value: str) -> str:
    """Say in a word or two what was seen or felt.

    Args:
        name: One of :data:`SEEN`.
        value: Its value; one of a local rule is written as it is named.

    Returns:
        Words short enough for a list of choices.
    """
    return say(_SHORT.get((name, value), value.replace("_", " ")))


def put_step(page: Page, step: NextStep, *, minute: float) -> None:
    """Put what is done next on a page.

    Args:
        page: Where it goes.
        step: The step.
        minute: Minutes since lotion was on the last tool.
    """
    stops = step.do in RINSES
    page.heading(
        say(
            "{minute} min: {do}",
            minute=number_text(minute),
            do=value_words("processing.next", step.do),
        ),
        style="alarm" if stops else "strong",
    )
    page.line(step.words)
    if step.place:
        page.line(say("Where: {place}.", place=seen_words(PLACE, step.place)))
    if step.look_again_min:
        page.line(say("Look again in {minutes} min.", minutes=number_text(step.look_again_min)))
    page.line(say("Why: {because}", because=step.because), style="faint")
    if step.left_min and not stops:
        page.line(
            say("{minutes} min are left of the maker's longest time.", minutes=number_text(step.left_min))
        )


def put_lookouts(page: Page, looks: Sequence[Lookout]) -> None:
    """Put the times to look on a page.

    Args:
        page: Where they go.
        looks: In order; the last one is the longest time.
    """
    page.heading(say("Times to look, none to wait for"))
    *before, last = looks
    page.line(
        say(
            "At {minutes} min: weakest place first. Ask each time what the scalp feels.",
            minutes=", ".join(number_text(one.minute) for one in before) or "0",
        ),
        mark="- ",
    )
    page.line(last.words, mark="- ", style="alarm")


def put_choices(page: Page, choices: Mapping[str, Sequence[str]]) -> None:
    """Put on a page how three numbers say what was seen.

    Args:
        page: Where it goes.
        choices: Values by name, in the order of their numbers from 1.
    """
    page.heading(say("Say what you see with three numbers, such as 221; 0 for not looked, not asked"))
    for name, values in choices.items():
        told = "  ".join(
            f"{number} {seen_words(name, value)}" for number, value in enumerate(values, start=1)
        )
        page.line(f"{say(_HEADS[name])}: {told}", mark="  ")
    page.line(say("b: it burns. q: leave; lotion stays on the hair, and so do you."), mark="  ")


def put_always(page: Page, cautions: Sequence[str]) -> None:
    """Put on a page what holds at every minute.

    Args:
        page: Where it goes.
        cautions: The cautions of a step.
    """
    page.heading(say("Cautions"))
    for caution in cautions:
        page.line(caution, mark="- ")
