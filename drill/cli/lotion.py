"""``wavedrill lotion``: lotion is on the hair; what is done next, once or minute by minute."""

import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.in_force import rules_in_force
from drill.cli.lines import Lines, TypedLines
from drill.cli.telling import name_or_usage, note, terminal_page
from drill.cli.visit_event import MINUTES, MINUTES_FROM_0
from drill.cli.visit_find import AS_JSON, echo_json, school_of
from drill.report.lotion_text import SEEN, put_always, put_choices, put_lookouts, put_step
from drill.rulebook.domain import UNKNOWN
from drill.rulebook.rulebook import Rulebook
from drill.service.processing import PLACES, Lookout, Moment, NextStep, lookouts, next_step
from drill.service.watch import Watch, at_minute, begin_watch, look

FORMAT = "lotion.v1"
_LEAVE, _BURNS = "q", "b"
_SECONDS_A_MINUTE = 60


@click.command("lotion", short_help="Lotion is on: what is done next.")
@click.option("--minute", metavar="N", type=MINUTES_FROM_0, help="Minutes since it was on the last tool.")
@click.option("--longest", metavar="N", type=MINUTES, help="The maker's longest time in minutes.")
@click.option(
    "--place",
    metavar="PLACE",
    default=UNKNOWN,
    help="Where you looked: first_tools, weakest, most_resistant, elsewhere.",
)
@click.option("--curl", metavar="CURL", default=UNKNOWN, help="What shows: none, weak, firm, gum_like.")
@click.option("--says", metavar="FEELS", default=UNKNOWN, help="The client: nothing, tingles, burns.")
@click.option("--looked", metavar="PLACE", multiple=True, help="Looked at before; may be given again.")
@click.option(
    "--school",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="The school's folder; the one in your settings where left out.",
)
@AS_JSON
def lotion_command(
    *,
    minute: float | None,
    longest: float | None,
    place: str,
    curl: str,
    says: str,
    looked: tuple[str, ...],
    school: Path | None,
    as_json: bool,
) -> None:
    """Say what is done next while lotion is on the hair.

    With --minute it answers once: wait, look there next, rinse, or rinse and call. Without, on a terminal, it
    goes along minute by minute and tells when a look is due. What is left out is unknown, and nothing unknown
    counts as harmless.

    The maker's longest time is the limit, S or no S; where it is not known, lotion comes off. Nothing here
    computes how long a lotion needs. The licensed practitioner decides, in a school the instructor.
    """
    rulebook = _rules(school)
    seen = {"processing.place": place, "processing.curl": curl, "processing.says": says}
    for name, value in seen.items():
        name_or_usage(value, rulebook.domains[name].values, option=f"--{name.partition('.')[2]}")
    for one in looked:
        name_or_usage(one, PLACES, option="--looked")
    if minute is not None:
        moment = Moment(
            minute=minute, longest_min=longest, place=place, curl=curl, says=says, looked=frozenset(looked)
        )
        _answer_once(rulebook, moment, as_json=as_json)
        return
    if as_json or not _is_live():
        raise click.UsageError(say("without a terminal to go along in, say which minute it is: --minute N"))
    watch_lotion(rulebook, lines=TypedLines(sys.stdin), clock=local_now, longest_min=longest)


def watch_lotion(
    rulebook: Rulebook, *, lines: Lines, clock: Callable[[], datetime], longest_min: float | None
) -> None:
    """Go along minute by minute until lotion comes off, or the person leaves.

    Args:
        rulebook: The rules in force.
        lines: What is typed.
        clock: Gives the time.
        longest_min: The maker's longest time; None where nobody knows it.
    """
    start = clock()
    choices = {name: _values(rulebook, name) for name in SEEN}
    watch = begin_watch(rulebook, longest_min=longest_min)
    page = terminal_page()
    page.title(say("Lotion is on; the minutes count from the last tool"))
    if longest_min is not None:
        put_lookouts(page, lookouts(rulebook, longest_min=longest_min))
        put_choices(page, choices)
    click.echo(page.text)
    called_for = -1.0
    while not watch.is_over:
        minute = _minutes(start, clock)
        called_for = _call(watch, minute, called_for)
        try:
            line = lines.next(_wait_s(watch, minute))
        except (EOFError, KeyboardInterrupt):
            line = _LEAVE
        if line == _LEAVE:
            note(say("Lotion is still on the hair. Go on by the clock; rinse at the maker's longest time."))
            return
        minute = _minutes(start, clock)
        if line is not None:
            before, watch = watch, _taken_up(rulebook, watch, line, minute, choices)
            if watch is not before and not watch.is_over:
                _put(watch.step, minute)
                called_for = minute  # the step has just said where to look
        watch = at_minute(rulebook, watch, minute=minute)
    _put_end(watch, _minutes(start, clock))


def _rules(school: Path | None) -> Rulebook:
    try:
        return rules_in_force(school_of(school)).rulebook
    except click.exceptions.Exit:
        if school is not None:
            raise
        # Lotion does not wait until somebody has mended the settings or the school's folder.
        note(say("Going on with the built-in rules."))
        return rules_in_force(None).rulebook


def _is_live() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _values(rulebook: Rulebook, name: str) -> tuple[str, ...]:
    return tuple(one for one in rulebook.domains[name].values if one != UNKNOWN)


def _minutes(start: datetime, clock: Callable[[], datetime]) -> float:
    return max(0.0, round((clock() - start).total_seconds() / _SECONDS_A_MINUTE, 1))


def _wait_s(watch: Watch, minute: float) -> float:
    """Give the seconds to the next look, or where that is past, to the longest time."""
    ends = watch.longest_min if watch.next_look_min <= minute else watch.next_look_min
    return max(0.5, ((ends or 0.0) - minute) * _SECONDS_A_MINUTE)


def _call(watch: Watch, minute: float, called_for: float) -> float:
    """Call once for each look that is due; the bell is for who stands behind the chair."""
    if minute < watch.next_look_min:
        click.echo(
            say("{now} min. Next look at {then} min.", now=f"{minute:g}", then=f"{watch.next_look_min:g}")
        )
    elif called_for != watch.next_look_min:
        click.echo(say("{now} min. LOOK NOW, and ask what the scalp feels.", now=f"{minute:g}") + "\a")
        return watch.next_look_min
    return called_for


def _taken_up(
    rulebook: Rulebook, watch: Watch, line: str, minute: float, choices: dict[str, tuple[str, ...]]
) -> Watch:
    if line.lower() == _BURNS:
        return look(rulebook, watch, minute=minute, says="burns")
    picked = _picked(line, choices)
    if picked is None:
        click.echo(say("Three numbers, such as 221: where, what shows, what the client feels."))
        return watch
    place, curl, says = picked
    return look(rulebook, watch, minute=minute, place=place, curl=curl, says=says)


def _picked(line: str, choices: dict[str, tuple[str, ...]]) -> list[str] | None:
    digits = [one for one in line if not one.isspace()]
    if len(digits) != len(choices) or not all(one.isascii() and one.isdigit() for one in digits):
        return None
    found = []
    for digit, values in zip(map(int, digits), choices.values(), strict=True):
        if digit > len(values):
            return None
        found.append(values[digit - 1] if digit else UNKNOWN)
    return found


def _put(step: NextStep | None, minute: float) -> None:
    if step is not None:
        page = terminal_page()
        put_step(page, step, minute=minute)
        click.echo(page.text, nl=False)


def _put_end(watch: Watch, minute: float) -> None:
    if watch.step is not None:
        page = terminal_page()
        put_step(page, watch.step, minute=minute)
        put_always(page, watch.step.cautions)
        click.echo(f"{page.text}\a", nl=False)


def _answer_once(rulebook: Rulebook, moment: Moment, *, as_json: bool) -> None:
    step = next_step(rulebook, moment)
    looks = lookouts(rulebook, longest_min=moment.longest_min) if moment.longest_min else ()
    if as_json:
        echo_json(_step_to_plain(step) | {"lookouts": [_look_to_plain(one) for one in looks]})
        return
    page = terminal_page()
    put_step(page, step, minute=moment.minute)
    if looks and moment.minute < looks[-1].minute:
        put_lookouts(page, looks)
    put_always(page, step.cautions)
    click.echo(page.text, nl=False)


def _step_to_plain(step: NextStep) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "do": step.do,
        "words": step.words,
        "because": step.because,
        "place": step.place or "none",
        "look_again_min": step.look_again_min,
        "left_min": step.left_min,
        "row": step.decision.row,
        "source": step.decision.source,
        "cautions": list(step.cautions),
    }


def _look_to_plain(one: Lookout) -> dict[str, Any]:
    return {"minute": one.minute, "places": list(one.places), "words": one.words}
