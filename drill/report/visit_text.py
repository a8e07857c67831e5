"""Visits on a page: a list of them, one with its record, its steps, and what test curls have led to."""

from collections.abc import Sequence

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.page import Page
from drill.service.record import PhaseTime, Reading, SignOff, Visit
from drill.service.revise import Revision
from drill.service.steps_open import TEST_CURLS
from drill.service.visit_contract import steps_of
from drill.service.wording import value_words, zone_words

_STOPS = {
    "consultation": "consultation",
    "wrap": "wrap",
    "saturation": "saturation",
    "test_curl": "test curl",
    "before_take_down": "before take-down",
    TEST_CURLS: "what the test curls showed",
}
_PHASES = {
    "test_curls": "test curls",
    "processing": "lotion",
}


def put_visits(page: Page, visits: Sequence[Visit]) -> None:
    """Put a list of visits on a page.

    Args:
        page: Where it goes.
        visits: In order.
    """
    page.table(
        [say("visit"), say("client"), say("opened"), say("service"), say("state")],
        [
            [one.id, one.label or "-", one.opened[:10], say(one.service.replace("_", " ")), _state(one)]
            for one in visits
        ],
    )


def put_visit(page: Page, visit: Visit) -> None:
    """Put one visit on a page: what was planned, signed, seen, used, and how it came out.

    Args:
        page: Where it goes.
        visit: The visit.
    """
    if page.height:
        page.rows(["", "-" * page.width, ""])
    page.title(
        say("Visit {id}, for {client}", id=visit.id, client=visit.label)
        if visit.label
        else say("Visit {id}", id=visit.id)
    )
    page.line(say("Opened {at}. {state}.", at=_clock(visit.opened), state=_state(visit).capitalize()))
    page.heading(say("Planned"))
    page.line(
        say(
            "{service}. {verdict}.",
            service=say(visit.service.replace("_", " ")).capitalize(),
            verdict=value_words("verdict", visit.plan["verdict"]),
        )
    )
    for reason in visit.plan["verdict_reasons"]:
        page.line(say(reason["because"]), mark="- ")
    _put_tools(page, visit)
    _put_each(page, say("Signed"), [_sign_off_words(one) for one in visit.sign_offs])
    _put_each(page, say("Test curls"), [_reading_words(one) for one in visit.readings])
    _put_each(page, say("Times and products"), [_time_words(one) for one in visit.minutes.values()])
    _put_result(page, visit)
    _put_each(page, say("Notes"), [*visit.plan["notes"], *(one.text for one in visit.notes)])


def put_open_steps(page: Page, visit: Visit) -> None:
    """Put the steps of a visit on a page, the closed ones with what they wait for.

    Args:
        page: Where it goes.
        visit: The visit.
    """
    states = steps_of(visit)
    page.title(say("Steps of visit {id}", id=visit.id))
    if not states:
        page.line(say("This plan has no working steps: {verdict}.", verdict=_verdict(visit)))
        return
    if any(one.waits_for == TEST_CURLS for one in states):
        page.line(say("STOP. The test curls do not let this head go on as planned."), style="alarm")
    page.line(
        say(
            "Nothing holds up a rinse: at the maker's longest time, rinse, signed or not. Lotion works "
            "while you wait for a signature: go on looking."
        )
    )
    signed = visit.signed
    for number, (step, state) in enumerate(zip(visit.plan["steps"], states, strict=True), start=1):
        mark = f"{number:2}. "
        page.line(
            say(step["text"]) if state.is_open else say("CLOSED. {text}", text=say(step["text"])),
            mark=mark,
            style="" if state.is_open else "faint",
        )
        stop = step["sign_off"]
        if stop in signed:
            page.line(say("Signed by {initials}.", initials=signed[stop].initials), indent=len(mark))
        if state.waits_for:
            page.line(say("Waits for: {stop}.", stop=stop_words(state.waits_for)), indent=len(mark))


def put_revision(page: Page, revision: Revision) -> None:
    """Put on a page what follows from test curls.

    Args:
        page: Where it goes.
        revision: What follows.
    """
    page.heading(
        say("After the test curls: {do}", do=value_words("revise", revision.do)),
        style="good" if revision.do == "go_on" else "alarm",
    )
    for words in revision.words:
        page.line(words, mark="- ")
    for because in revision.because:
        page.line(say("Why: {because}", because=because), indent=2, style="faint")
    if revision.strength:
        page.line(
            say("Next lotion to test: one made for {strength} hair.", strength=say(revision.strength)),
            mark="- ",
        )
    for zone, size in revision.tools_mm.items():
        page.line(
            say("Next tool to test, {zone}: {size} mm.", zone=zone_words(zone), size=number_text(size)),
            mark="- ",
        )
    for note in revision.notes:
        page.line(note, mark="- ")
    if revision.excluded:
        places = ", ".join(map(zone_words, revision.excluded))
        page.line(say("Strands of the test lie in: {places}.", places=places), mark="- ")
    page.heading(say("Cautions"))
    for caution in revision.cautions:
        page.line(caution, mark="- ")


def stop_words(stop: str) -> str:
    """Give a stop, or the test curls, in words."""
    return say(_STOPS[stop])


def _state(visit: Visit) -> str:
    if visit.result is None:
        return say("open")
    return say("closed, {outcome}", outcome=say(visit.result.outcome.replace("_", " ")))


def _verdict(visit: Visit) -> str:
    return value_words("verdict", visit.plan["verdict"])


def _clock(at: str) -> str:
    return f"{at[:16].replace('T', ' ')} UTC"


def _put_each(page: Page, heading: str, texts: Sequence[str]) -> None:
    if not texts:
        return
    page.heading(heading)
    for text in texts:
        page.line(text, mark="- ")


def _put_tools(page: Page, visit: Visit) -> None:
    lotion = visit.plan["waving_lotion"]
    if lotion["class"] != "none":
        kind, strength = (say(lotion[name].replace("_", " ")) for name in ("class", "strength"))
        page.line(say("Lotion: {kind}, made for {strength} hair.", kind=kind, strength=strength), mark="- ")
    for name, zone in visit.plan["zones"].items():
        tools = " + ".join(f"{one['count']} x {number_text(one['diameter_mm'])} mm" for one in zone["tools"])
        wrap = say(zone["wrap"].replace("_", " "))
        page.line(f"{zone_words(name)}: {tools}, {wrap}", mark="- ")


def _sign_off_words(one: SignOff) -> str:
    stop, at = stop_words(one.stop), _clock(one.at)
    if one.taken_back:
        return say("{stop}: taken back by {initials}, {at}", stop=stop, initials=one.initials, at=at)
    return say("{stop}: {initials}, {at}", stop=stop, initials=one.initials, at=at)


def _reading_words(one: Reading) -> str:
    seen = say(
        "{minutes}; wet {wet}, dry {dry}, hair {hair}, skin {skin}: {do}",
        minutes=say("time not known") if one.minutes is None else _minutes_words(one.minutes),
        wet=_plain_words(one.wet),
        dry=_plain_words(one.dry),
        hair=_plain_words(one.hair),
        skin=_plain_words(one.skin),
        do=value_words("revise", one.do),
    )
    return say("in place of the one before: {seen}", seen=seen) if one.corrects else seen


def _time_words(one: PhaseTime) -> str:
    phase = say(_PHASES.get(one.phase, one.phase))
    parts = [_minutes_words(one.minutes)]
    if one.longest_min is not None:
        parts.append(say("maker's longest time {minutes}", minutes=_minutes_words(one.longest_min)))
    if one.product:
        parts.append(one.product)
    return f"{phase}: {', '.join(parts)}"


def _minutes_words(minutes: float) -> str:
    return say("{minutes} min", minutes=number_text(minutes))


def _plain_words(value: str) -> str:
    return say(value.replace("_", " "))


def _put_result(page: Page, visit: Visit) -> None:
    result = visit.result
    if result is None:
        return
    page.heading(say("Result"))
    page.line(say("Service: {outcome}.", outcome=_plain_words(result.outcome)), mark="- ")
    if result.curl:
        page.line(say("Curl obtained: {curl}.", curl=_plain_words(result.curl)), mark="- ")
    if result.hair:
        page.line(say("Hair afterwards: {hair}.", hair=_plain_words(result.hair)), mark="- ")
    if result.home_care:
        page.line(say("Home care given: {care}", care=result.home_care), mark="- ")
