"""The steps of a plan under the phases they belong to, with minutes, orders and what hands do there."""

from collections.abc import Iterable, Sequence

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.page import Page
from drill.rulebook.table import Row
from drill.service.handling import Handling
from drill.service.plan import SIGN_OFFS, Plan
from drill.service.wording import value_words, zone_words
from drill.service.zones import ZONE_NAMES

# The step that opens each group; a step that a local rule adds stays in the group that it stands in.
_OPENS = {
    "set_up": "before",
    "test_curls_wind": "test_curls",
    "measure_again": "ready",
    "equalise": "ready",
    "guard_lengths": "ready",
    "section": "ready",
    "soften": "softening",
    "sub_section": "winding",
    "guard_border": "saturation",
    "protect": "saturation",
    "process": "processing",
    "rinse": "rinse",
    "blot": "blot",
    "neutralise": "neutraliser",
    "dry_set": "dry",
    "sign_take_down": "take_down",
    "take_down": "take_down",
    "judge": "finish",
}
_HEADS = {
    "before": "Before",
    "test_curls": "Test curls",
    "ready": "Getting the hair ready",
    "softening": "Softening",
    "winding": "Winding",
    "saturation": "Putting the lotion on",
    "processing": "While the lotion works",
    "rinse": "Rinse",
    "blot": "Blot",
    "neutraliser": "Neutraliser",
    "dry": "Drying",
    "take_down": "Take-down",
    "finish": "Judge, home care, record",
}
_SHORT = {"before": "before", "saturation": "lotion on", "processing": "lotion works", "finish": "finish"}
# The step that each list of the handling tells in full.
_LISTS = {
    "rinse": "rinse",
    "blot": "blot",
    "neutralise": "neutralise",
    "take_down": "take_down",
    "after_care": "after_care",
}
# A row of those lists that a step of its own says.
_OF_ITS_OWN = {"work_through": "last_rinse"}
_PACES = {
    "beginner": "at a beginner's pace",
    "exam_ready": "at the pace of a student ready for the exam",
    "stylist": "at a stylist's pace",
}


def pace_words(pace: str) -> str:
    """Say at whose pace minutes are counted.

    Args:
        pace: As the vocabulary has it; one of a local rule is written as it is named.
    """
    return say(_PACES.get(pace, f"at the pace: {pace.replace('_', ' ')}"))


def put_time(page: Page, plan: Plan) -> None:
    """Put the phases with their minutes on a page, against the time that the chair is free.

    Args:
        page: Where they go.
        plan: The plan; one without phases says nothing.
    """
    if not plan.phases:
        return
    pace = pace_words(str(plan.consultation.of("pace")))
    page.heading(say("Time: about {minutes} minutes {pace}", minutes=plan.totals.minutes, pace=pace))
    told = [f"{_phase_words(one.name)} {one.minutes}" for one in plan.phases]
    page.line(f"{', '.join(told)}.")
    free = plan.consultation.of("appointment")
    if isinstance(free, float):
        left = free - plan.totals.minutes
        words = (
            say(
                "The chair is free for {free} minutes; {left} are left over.",
                free=f"{free:g}",
                left=f"{left:g}",
            )
            if left >= 0
            else say(
                "The chair is free for {free} minutes; {left} are missing. Book a longer time.",
                free=f"{free:g}",
                left=f"{-left:g}",
            )
        )
        page.line(words, style="" if left >= 0 else "alarm")


def put_steps(page: Page, plan: Plan, *, why: bool = False) -> None:
    """Put the steps on a page, each group under its phase; the five stops stand out.

    Args:
        page: Where they go.
        plan: The plan; one that does not work has no steps.
        why: Whether each step tells its reason.
    """
    if not plan.steps:
        return
    page.heading(say("Steps"))
    minutes = {one.name: one.minutes for one in plan.phases}
    lists = _lists(plan)
    group = ""
    for number, row in enumerate(plan.steps, start=1):
        opened = _OPENS.get(row.then, group)
        if opened != group:
            group = opened
            page.blank()
            page.line(_head(plan, group, minutes.get(group)), style="strong")
            if plan.handling:
                _put_lines(page, _handling(plan, plan.handling, group))
        mark = f"{number:2}. "
        told = _told(row, lists.get(_LISTS.get(row.then, ""), ()))
        page.line(told[0], mark=mark, style="alarm" if row.then in SIGN_OFFS else "")
        for text in told[1:]:
            page.line(text, indent=len(mark))
        if why:
            page.line(say("Why: {because}", because=say(row.because)), indent=len(mark), style="faint")


def _lists(plan: Plan) -> dict[str, list[Row]]:
    there = {row.then for row in plan.steps}
    lists = plan.handling.lists if plan.handling else {}
    return {
        name: [row for row in rows if _OF_ITS_OWN.get(row.then) not in there] for name, rows in lists.items()
    }


def _told(row: Row, full: Sequence[Row]) -> list[str]:
    """Say a step; where a list tells it in full, the list, and a school's own words beside it."""
    if row.then in SIGN_OFFS:
        return [say("STOP. {text}", text=say(row.say))]
    texts = [say(one.say) for one in full]
    return [say(row.say), *texts] if row.set_by or not texts else texts


def _head(plan: Plan, group: str, minutes: int | None) -> str:
    words = say(_HEADS[group])
    if group == "saturation" and plan.lotion["class"] == "none":
        words = say("Showing saturation, with water")
    return say("{phase}, about {minutes} min", phase=words, minutes=minutes) if minutes else words


def _phase_words(name: str) -> str:
    return say(_SHORT.get(name, name.replace("_", " ")))


def _put_lines(page: Page, lines: Iterable[str]) -> None:
    for line in lines:
        page.line(line, mark="  - ")


def _handling(plan: Plan, handling: Handling, group: str) -> list[str]:
    """Say what a plan decides for the hands in one phase."""
    decided = handling.decisions
    if group == "ready":
        told = [value_words("cut", decided["cut"])]
        if decided["equaliser"] == "yes":
            told.append(value_words("equaliser", "yes"))
        return [f"{one}." for one in told]
    if group == "winding":
        start = value_words("winding.start", decided["winding.start"])
        order = ", ".join(map(zone_words, handling.winding_order))
        return [
            say("{start}, in this order: {zones}.", start=start, zones=order),
            f"{value_words('wet_with', decided['wet_with'])}. {value_words('spray', decided['spray'])}.",
            *_by_zone(plan, "pull"),
            *_by_zone(plan, "band"),
        ]
    if group == "saturation" and handling.saturation_order:
        order = ", ".join(map(zone_words, handling.saturation_order))
        start = value_words("saturation.start", decided["saturation.start"])
        return [say("First: {start}. Order: {zones}.", start=start.lower(), zones=order)]
    if group == "processing" and handling.look_out.zones:
        look = handling.look_out
        return [
            say(
                "Look first at {place}: {zones}. First look after {first} min, then every {again} min, and "
                "never past the maker's longest time.",
                place=value_words("look_out.place", decided["look_out.place"]).lower(),
                zones=", ".join(map(zone_words, look.zones)),
                first=number_text(look.first_min),
                again=number_text(look.again_min),
            )
        ]
    return []


def _by_zone(plan: Plan, decision: str) -> list[str]:
    """Say a decision of the zones once for all that share it, the most usual value first."""
    zones: dict[str, list[str]] = {}
    for name, zone in plan.zones.items():
        if zone.tools:
            zones.setdefault(zone.decisions[decision], []).append(name)
    ranked = sorted(zones.items(), key=lambda pair: -len(pair[1]))
    return [
        say("{value}.", value=value_words(decision, value))
        if len(where) == len(ZONE_NAMES)
        else say(
            "{value}: {zones}.", value=value_words(decision, value), zones=", ".join(map(zone_words, where))
        )
        for value, where in ranked
    ]
