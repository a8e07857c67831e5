"""The phases of a service as a line on the card: minutes to plan for each, and where the five stops lie."""

from drill.basis.words import say
from drill.report.plan_steps_text import pace_words
from drill.report.svg import markup_text
from drill.service.plan import SIGN_OFFS, Plan

# The phase that each stop ends.
_ENDS = {
    "consultation": "before",
    "wrap": "winding",
    "saturation": "saturation",
    "test_curl": "processing",
    "before_take_down": "neutraliser",
}
_WORDS = {"saturation": "lotion on", "processing": "lotion works", "test_curls": "test curls"}
# Narrower than this no word fits: short phases are drawn longer than they are, and say so by their number.
_PARTS, _FEWEST = 40, 3
# The page has no styles of its own on any element; a phase so many parts long has the class of that length.
TIMELINE_STYLE = "".join(f".part{count} {{ flex-grow: {count}; }} " for count in range(_FEWEST, _PARTS + 1))


def timeline_html(plan: Plan) -> str:
    """Draw the phases of a plan one after the other.

    Args:
        plan: The plan; one without phases has no line.

    Returns:
        Markup: a heading, and the phases with their minutes and the numbered stops between them.
    """
    if not plan.phases:
        return ""
    stops = stop_numbers(plan)
    at_end = {phase: stops[stop] for stop, phase in _ENDS.items() if stop in stops}
    parts = []
    for one in plan.phases:
        parts_long = max(round(_PARTS * one.minutes / max(1, plan.totals.minutes)), _FEWEST)
        words = say(_WORDS.get(one.name, one.name.replace("_", " ")))
        parts.append(
            f'<span class="phase part{parts_long}"><strong>{one.minutes}</strong> {markup_text(words)}</span>'
        )
        if one.name in at_end:
            parts.append(f'<span class="halt">{at_end[one.name]}</span>')
    heading = say(
        "Minutes to plan for, {minutes} in all {pace}",
        minutes=plan.totals.minutes,
        pace=pace_words(str(plan.consultation.of("pace"))),
    )
    if at_end:
        heading = say("{heading}; in black, the stops", heading=heading)
    line = f'<div class="line">{"".join(parts)}</div>'
    return f'<section class="time"><h2>{markup_text(heading)}</h2>{line}</section>'


def stop_numbers(plan: Plan) -> dict[str, int]:
    """Number the stops of a plan from 1, in the order of its steps.

    Args:
        plan: The plan.

    Returns:
        Number by stop; empty where the service has none.
    """
    stops = [SIGN_OFFS[row.then] for row in plan.steps if row.then in SIGN_OFFS]
    return {stop: number for number, stop in enumerate(stops, start=1)}
