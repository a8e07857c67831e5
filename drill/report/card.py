"""A plan as one printable sheet to hang at the station: HTML, whole in itself, nothing fetched, no scripts.

It is for reading and signing at the chair. It never grants permission: the licensed practitioner, the maker's
directions and local codes decide, and it says so.
"""

from collections.abc import Iterable, Sequence

from drill.basis.words import say
from drill.report.card_beside import beside_html, has_lotion
from drill.report.card_style import STYLE
from drill.report.card_timeline import TIMELINE_STYLE, stop_numbers, timeline_html
from drill.report.card_zones import views_html, zones_html
from drill.report.svg import markup_text
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.plan import SIGN_OFFS, Plan
from drill.service.wording import value_words

_SERVICES = {
    "perm": "Perm",
    "wet_set": "Wet set, no chemicals",
    "practice_wrap": "Practice wrap with water",
}
_MOST_OF_A_LABEL = 40
# What a text takes beside its letters, in letters: the rest of its last line, and a line to write on.
_NEW_LINE, _ANSWER = 30, 160
# What the line of the phases takes, in letters.
_TIMELINE = 450
# Most letters that a sheet holds at each size of them (measured), with the head on it and without.
_ROOM = {
    True: (("roomy", 3500), ("even", 4600), ("close", 6050), ("tight", 6980), ("tightest", 7850)),
    False: (("roomy", 6500), ("even", 7300), ("close", 8300), ("tight", 9000)),
}


def plan_card_html(plan: Plan, *, rulebook: Rulebook | None = None) -> str:
    """Write a plan as a card: one page of A4 or Letter.

    Args:
        plan: The plan.
        rulebook: The rules that it was planned under; they tell how values of local rules are drawn.

    Returns:
        A whole HTML document. Of a service that is not done it says why, what to ask and what to do instead.
    """
    body = _working(plan, rulebook) if plan.zones else _not_done(plan)
    service = _service(plan)
    size = _size(plan)
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{markup_text(_titled(service, plan))}</title>\n"
        f"<style>{STYLE}{TIMELINE_STYLE}</style>\n</head>\n<body>\n"
        f'<main class="card {size}">\n{_head(plan, service)}\n{body}\n{_foot(plan)}\n</main>\n'
        "</body>\n</html>\n"
    )


def _working(plan: Plan, rulebook: Rulebook | None) -> str:
    return "\n".join(
        (
            _first_aid(plan),
            views_html(plan, rulebook=rulebook),
            f'<div class="beside"><div>{zones_html(plan)}{_tests(plan)}{_notes(plan)}{_blanks()}</div>'
            f"<div>{beside_html(plan)}</div></div>",
            timeline_html(plan),
            _steps(plan),
            _cautions(plan),
        )
    )


def _not_done(plan: Plan) -> str:
    tests = [(say(row.say), say(row.because)) for row in plan.tests]
    asked = [(say(one.ask), say(one.because)) for one in plan.ask_first]
    return "\n".join(
        (
            _blanks(),
            _reasons(plan),
            _instead(plan),
            _first_aid(plan),
            _listed(
                say("Answers that do not fit together: ask them once more"),
                (say(row.say) for row in plan.questions),
                columns="two",
            ),
            _told(say("Ask first, in this order"), asked, answers=True),
            _told(say("Tests, in this order; each waits until the one before it is clear"), tests),
            _notes(plan),
            _cautions(plan),
        )
    )


def _instead(plan: Plan) -> str:
    return _listed(say("Instead"), (say(row.say) for row in plan.instead), columns="two")


def _service(plan: Plan) -> str:
    service = str(plan.consultation.of("service"))
    return say(_SERVICES.get(service, service.replace("_", " ")))


def _label(plan: Plan) -> str:
    """Give the client's label, cut where it would push everything else off the sheet."""
    label = plan.consultation.client
    return label if len(label) <= _MOST_OF_A_LABEL else f"{label[: _MOST_OF_A_LABEL - 1]}…"


def _titled(service: str, plan: Plan) -> str:
    return f"{service}: {_label(plan)}" if plan.consultation.client else service


def _size(plan: Plan) -> str:
    """Choose letters that let the whole text stand on one sheet."""
    letters = _letters(plan)
    return next((size for size, most in _ROOM[bool(plan.zones)] if letters <= most), "fullest")


def _letters(plan: Plan) -> int:
    """Count the letters of the longer texts; each begins on a line of its own."""
    rows = [*plan.first_aid, *_cautions_left(plan)]
    texts = [row.say for row in rows] + [row.because for row in plan.verdict_reasons] + [*plan.notes]
    texts += [_first_sentence(say(row.say)) for row in plan.steps]
    if not plan.zones:
        texts += [row.say for row in (*plan.instead, *plan.questions)]
        texts += [f"{row.say} {row.because}" for row in plan.tests]
        texts += [f"{one.ask} {one.because}".ljust(_ANSWER) for one in plan.ask_first]
    line = _TIMELINE if plan.phases else 0
    return line + sum(len(text) + _NEW_LINE for text in texts)


def _head(plan: Plan, service: str) -> str:
    stopped = "" if plan.zones else " stopped"
    why = " ".join(say(row.because) for row in plan.verdict_reasons) if plan.zones else ""
    return (
        f"<header><div><h1>{markup_text(_titled(service, plan))}</h1><p>{markup_text(_deferring())}</p>"
        f"<p><strong>{markup_text(why)}</strong></p></div>"
        f'<div class="verdict{stopped}">{markup_text(value_words("verdict", plan.verdict))}</div></header>'
    )


def _blanks() -> str:
    blanks = "".join(
        f"<span>{markup_text(words)}</span>"
        for words in (say("Date"), say("Done by"), say("Instructor, in a school"), say("Record no."))
    )
    return f'<div class="blanks">{blanks}</div>'


def _deferring() -> str:
    return say(
        "A plan is a proposal, never permission. The licensed practitioner, the maker's directions and local "
        "codes decide."
    )


def _foot(plan: Plan) -> str:
    told = [say("Steps in short; the plan tells them in full.")] if plan.steps else []
    told.append(say("What is seen at the chair comes first. Rules {digest}.", digest=plan.rulebook[:12]))
    return f"<footer>{markup_text(' '.join(told))}</footer>"


def _first_aid(plan: Plan) -> str:
    heading = say("If something goes wrong: read this before the first step")
    return _listed(heading, (say(row.say) for row in plan.first_aid), kind="aid")


def _reasons(plan: Plan) -> str:
    heading = say("Why: {verdict}", verdict=value_words("verdict", plan.verdict))
    return _listed(heading, (say(row.because) for row in plan.verdict_reasons), columns="two")


def _cautions(plan: Plan) -> str:
    return _listed(say("Cautions"), (say(row.say) for row in _cautions_left(plan)), columns="columns")


def _cautions_left(plan: Plan) -> list[Row]:
    """Leave out what stands on the card already, and larger; a school's own words stay."""
    there = {row.then for row in plan.steps if row.then in SIGN_OFFS}
    told = {"sign_offs": bool(there), "longest_time": has_lotion(plan), "burn_or_eye": bool(plan.first_aid)}
    if not plan.zones:
        return list(plan.cautions)
    return [row for row in plan.cautions if row.set_by or not told.get(row.then, False)]


def _notes(plan: Plan) -> str:
    return _listed(say("Notes"), plan.notes, columns="two")


def _tests(plan: Plan) -> str:
    """Name the tests on one line; what each is for stands in the plan."""
    if not plan.tests:
        return ""
    kinds = "; ".join(say(kind.replace("_", " ")) for kind in dict.fromkeys(row.then for row in plan.tests))
    words = say("Tests first, each clear before the next: {tests}.", tests=kinds)
    return f"<section><p><strong>{markup_text(words)}</strong></p></section>"


def _listed(heading: str, texts: Iterable[str], *, kind: str = "", columns: str = "") -> str:
    items = "".join(f"<li>{markup_text(text)}</li>" for text in texts)
    if not items:
        return ""
    return (
        f'<section class="{kind}"><h2>{markup_text(heading)}</h2><ul class="{columns}">{items}</ul></section>'
    )


def _told(heading: str, pairs: Sequence[tuple[str, str]], *, answers: bool = False) -> str:
    """List what to do with its reason, with a line to write the answer on where one is wanted."""
    line = '<span class="answer"></span>' if answers else ""
    items = "".join(
        f'<li>{markup_text(text)} <span class="why">{markup_text(because)}</span>{line}</li>'
        for text, because in pairs
    )
    if not items:
        return ""
    return f'<section class="asked"><h2>{markup_text(heading)}</h2><ol class="two">{items}</ol></section>'


def _steps(plan: Plan) -> str:
    """List the steps; the instructor's stops are boxes with room for time and initials."""
    items, numbers = [], stop_numbers(plan)
    for row in plan.steps:
        if row.then in SIGN_OFFS:
            stop = SIGN_OFFS[row.then]
            words = say("STOP {number}: {what}", number=numbers[stop], what=say(stop.replace("_", " ")))
            blanks = "".join(
                f'<span class="sign">{markup_text(blank)}</span>' for blank in (say("time"), say("initials"))
            )
            items.append(f'<li class="stop">{markup_text(words)}{blanks}</li>')
        else:
            items.append(f"<li>{markup_text(_first_sentence(say(row.say)))}</li>")
    heading = markup_text(say("In this order; nothing goes past a stop unsigned"))
    return f'<section><h2>{heading}</h2><ol class="steps columns">{"".join(items)}</ol></section>'


def _first_sentence(text: str) -> str:
    first, dot, _ = text.partition(". ")
    return f"{first}." if dot else text
