"""What is noted during a visit: sign-offs, times, words, the result."""

import click

from drill.basis.words import say
from drill.cli.telling import name_or_usage, note, terminal_page
from drill.cli.visit_event import MINUTES, add_event, now_text, refuse_closed, told
from drill.cli.visit_find import AS_JSON, echo_json
from drill.report.visit_text import put_open_steps, stop_words
from drill.service.record import (
    CURLS_OBTAINED,
    DONE,
    HAIR_AFTER,
    LOTION,
    NOT_DONE,
    OUTCOMES,
    PHASES,
    STOPPED,
    STOPS,
    Note,
    PhaseTime,
    Result,
    SignOff,
    Visit,
)
from drill.service.steps_open import stop_before
from drill.service.visit_contract import visit_to_plain

_MOST_INITIALS, _MOST_WORDS = 4, 2000


@click.command("sign", short_help="Sign a stop off.")
@click.argument("name", metavar="VISIT")
@click.argument("stop", metavar="STOP")
@click.option("--initials", metavar="XX", required=True, help="Of the instructor who has looked.")
@click.option("--take-back", is_flag=True, help="Take the sign-off of this stop back.")
@AS_JSON
def sign_command(*, name: str, stop: str, initials: str, take_back: bool, as_json: bool) -> None:
    """Sign a stop of a VISIT off, as the instructor.

    STOP is consultation, wrap, saturation, test_curl or before_take_down. Initials note who looked; they
    prove nothing. No stop holds up a rinse.
    """
    name_or_usage(stop, STOPS, option="STOP")
    letters = initials.strip().upper()
    if not (letters.isalpha() and len(letters) <= _MOST_INITIALS):
        raise click.BadParameter(
            say("'{initials}' are no initials; write one to four letters", initials=initials),
            param_hint="'--initials'",
        )
    visit = add_event(
        name,
        lambda visit: SignOff(
            at=now_text(), stop=_may_sign(visit, stop, take_back), initials=letters, taken_back=take_back
        ),
    )
    if as_json:
        echo_json(visit_to_plain(visit))
        return
    page = terminal_page()
    put_open_steps(page, visit)
    click.echo(page.text, nl=False)


def _may_sign(visit: Visit, stop: str, take_back: bool) -> str:
    refuse_closed(visit)
    steps = visit.plan["steps"]
    if all(step["sign_off"] != stop for step in steps):
        raise click.UsageError(say("the plan of visit {id} has no such stop", id=visit.id))
    if take_back:
        if stop not in visit.signed:
            raise click.UsageError(
                say("{stop} is not signed; there is nothing to take back", stop=stop_words(stop))
            )
        return stop
    before = stop_before(steps, visit.signed, stop=stop) if visit.student_mode else ""
    if before:
        raise click.UsageError(
            say(
                "{stop} waits for an earlier stop; sign first: wavedrill visit sign {id} {before}",
                stop=stop_words(stop),
                id=visit.id,
                before=before,
            )
        )
    return stop


@click.command("time", short_help="Note how long a phase took, and what was used.")
@click.argument("name", metavar="VISIT")
@click.argument("phase", metavar="PHASE")
@click.argument("minutes", metavar="MINUTES", type=MINUTES)
@click.option("--longest", metavar="N", type=MINUTES, help="The maker's longest time in minutes.")
@click.option("--product", metavar="TEXT", default="", help="What was used, as its label calls it.")
@AS_JSON
def time_command(
    *, name: str, phase: str, minutes: float, longest: float | None, product: str, as_json: bool
) -> None:
    """Note how long a phase of a VISIT took; noted again, the later one counts.

    PHASE is test_curls, wrap, saturation, processing (lotion on the hair), rinse, blot, neutraliser, drying
    or finish.
    """
    name_or_usage(phase, PHASES, option="PHASE")
    words = _words(product, option="--product")
    visit = add_event(
        name,
        lambda _: PhaseTime(at=now_text(), phase=phase, minutes=minutes, longest_min=longest, product=words),
    )
    if longest is not None and minutes > longest and phase == LOTION:
        note(say("This is past the maker's longest time. It is noted as it was; tell the instructor."))
    told(visit, as_json=as_json)


@click.command("note", short_help="Note words of your own.")
@click.argument("name", metavar="VISIT")
@click.argument("text", metavar="TEXT")
@AS_JSON
def note_command(*, name: str, text: str, as_json: bool) -> None:
    """Note TEXT on a VISIT.

    Write nothing of a client's health that the next service does not need; what stands here stays.
    """
    words = _words(text, option="TEXT")
    if not words:
        raise click.BadParameter(say("there is nothing in it; write what to note"), param_hint="'TEXT'")
    told(add_event(name, lambda _: Note(at=now_text(), text=words)), as_json=as_json)


@click.command("close", short_help="Note the result and close the visit.")
@click.argument("name", metavar="VISIT")
@click.option("--result", metavar="RESULT", required=True, help="done, stopped (lotion was on), not_done.")
@click.option("--curl", metavar="CURL", default="", help="as_wished, weaker, tighter, uneven, none.")
@click.option("--hair", metavar="HAIR", default="", help="Afterwards: sound, dry, harsh, broken.")
@click.option("--home-care", metavar="TEXT", default="", help="What the client was told for home.")
@AS_JSON
def close_command(*, name: str, result: str, curl: str, hair: str, home_care: str, as_json: bool) -> None:
    """Note the result of a VISIT and close it; closed again, the later result counts.

    What the consultation said of treatment and medicine is dropped then, with every line of the plan that
    would give it away. The next visit asks anew.
    """
    name_or_usage(result, OUTCOMES, option="--result")
    if curl:
        name_or_usage(curl, CURLS_OBTAINED, option="--curl")
    if hair:
        name_or_usage(hair, HAIR_AFTER, option="--hair")
    care = _words(home_care, option="--home-care")

    def closing(visit: Visit) -> Result:
        _refuse_gaps(visit, result=result, curl=curl, hair=hair, told=care)
        return Result(at=now_text(), outcome=result, curl=curl, hair=hair, home_care=care)

    visit = add_event(name, closing)
    stops = [step["sign_off"] for step in visit.plan["steps"] if step["sign_off"] != "none"]
    missing = [stop_words(one) for one in stops if one not in visit.signed]
    if visit.student_mode and missing and result == DONE:
        note(say("Closed without a sign-off at: {stops}.", stops=", ".join(missing)))
    told(visit, as_json=as_json)


def _refuse_gaps(visit: Visit, *, result: str, curl: str, hair: str, told: str) -> None:
    wanted: dict[str, str] = {}
    if result == DONE:
        wanted = {"--curl": curl}
        if visit.service != "practice_wrap":
            wanted |= {"--hair": hair, "--home-care": told}
    elif result == STOPPED:
        wanted = {"--hair": hair}
    elif result == NOT_DONE and (curl or hair):
        raise click.UsageError(say("nothing was done, so there is no --curl and no --hair; leave them out"))
    missing = [option for option, value in wanted.items() if not value]
    if missing:
        raise click.UsageError(
            say("the next visit starts from this record; add {options}", options=", ".join(missing))
        )


def _words(text: str, *, option: str) -> str:
    words = " ".join(text.split())
    if len(words) > _MOST_WORDS:
        raise click.BadParameter(
            say("over {most} letters; write the one thing that counts", most=_MOST_WORDS),
            param_hint=f"'{option}'",
        )
    return words
