"""The head of a question in short lines, in a fixed order: hair, state, history, wish."""

from collections.abc import Sequence, Set

from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.wording import name_words, stated_words

_HAIR = ("hair.length", "hair.strand", "hair.density", "hair.pattern", "hair.ends")
_STATE = ("hair.porosity", "hair.elasticity", "hair.growth")
_WISH = ("wish.part", "wish.curl", "wish.root_volume", "wish.look", "wish.wear", "wish.blend")
_LEFT_UNSAID: dict[str, Value] = {
    "hair.growth": "none",
    "wish.blend": "no",
    "wish.part": "whole",
    "pace": "beginner",
}
_NOT_DONE = {
    "hair.porosity": "porosity not felt yet",
    "hair.elasticity": "elasticity not tested yet",
    "hair.ends": "ends not looked at yet",
}
_STATED = {
    "hair.length": "{words}",
    "hair.strand": "{words} strands",
    "hair.density": "{words} density",
    "hair.pattern": "{words}",
    "hair.ends": "{words} ends",
    "hair.porosity": "{words} porosity",
    "hair.elasticity": "{words} elasticity",
    "wish.part": "only the {words} to be waved",
    "wish.curl": "{words} curl",
    "wish.root_volume": "{words} lift at the scalp",
    "wish.look": "{words}",
    "wish.wear": "worn {words}",
    "wish.blend": "two directions to blend here",
}
# Values that read badly with the word of their field.
_BY_VALUE: dict[tuple[str, Value], str] = {
    ("hair.porosity", "resistant"): "resistant surface",
    ("hair.porosity", "porous"): "porous surface",
    ("hair.porosity", "overporous"): "overporous surface",
    ("hair.elasticity", "none"): "no elasticity",
    ("wish.curl", "body"): "body and no curl",
    ("wish.part", "regrowth"): "only the new growth to be waved",
}
# What stands out in a history; whatever else is known is clear and is said in one word for all.
_STANDS_OUT: dict[str, dict[Value, str]] = {
    "scalp": {
        "irritated": "scalp irritated",
        "broken": "scalp broken",
        UNKNOWN: "scalp not looked at yet",
    },
    "history.known": {"no": "no record here", UNKNOWN: "record not looked up"},
    "history.reaction": {
        "yes": "reacted to an earlier product",
        UNKNOWN: "earlier reactions not asked",
    },
    "history.color": {
        "semi": "semi-permanent colour",
        "permanent": "permanent colour",
        UNKNOWN: "colour not asked",
    },
    "history.lightened": {
        "highlights": "highlights",
        "all_over": "lightened all over",
        "twice": "lightened twice",
        UNKNOWN: "lightening not asked",
    },
    "history.relaxer": {
        "thio": "straightened with thio",
        "hydroxide": "hydroxide relaxer on the lengths",
        "unsure": "a relaxer that nobody can name",
        UNKNOWN: "relaxers not asked",
    },
    "history.smoothing": {"yes": "smoothing service on the lengths"},
    "history.metallic_dye": {
        "suspected": "a gradual or plant dye of unknown make",
        "yes": "metallic dye",
        UNKNOWN: "metal dyes not asked",
    },
    "health.treatment": {
        "new_medicine": "new medicine",
        "chemotherapy": "chemotherapy",
        UNKNOWN: "treatment not asked",
    },
}
_SPANS = {
    "history.weeks_since_color": "coloured {span} ago",
    "history.weeks_since_relaxer": "straightened {span} ago",
    "history.weeks_since_perm": "last perm {span} ago",
    "health.months_since": "it ended {span} ago",
}
# Where there is not room for all that is known.
_LEFT_OUT_FIRST = (
    "wish.wear",
    "wish.root_volume",
    "hair.ends",
    "wish.look",
    "hair.density",
    "hair.strand",
    "hair.pattern",
)
# Names the line about scalp, history and health, to leave it out as a whole.
HISTORY = "history"
# Where something is said that does not fit it, a "none" is told too.
_SAID_NONE: dict[str, str] = {
    "history.color": "no colour on the hair",
    "history.relaxer": "never straightened",
    "health.treatment": "no treatment",
}
_SPEAKS_AGAINST = {
    "history.color": "history.weeks_since_color",
    "history.relaxer": "history.weeks_since_relaxer",
    "health.treatment": "health.months_since",
}
# Spans are told right after what they belong to.
_HISTORY = (
    "scalp",
    "history.known",
    "history.reaction",
    "history.color",
    "history.weeks_since_color",
    "history.lightened",
    "history.relaxer",
    "history.weeks_since_relaxer",
    "history.smoothing",
    "history.metallic_dye",
    "history.weeks_since_perm",
    "health.treatment",
    "health.months_since",
)


def head_facts(head: Head, zone: str | None, *, leave_out: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Write a head for a question.

    Args:
        head: The head.
        zone: The zone asked, whose own values are told; None for the top's.
        leave_out: Names that are told elsewhere.

    Returns:
        A line each for service (unless it is a perm), hair, state, history, wish, and the time where it is
        stated.
    """
    service = str(head.consultation.of("service"))
    lines = [say("Service: {service}.", service=stated_words(service))] if service != "perm" else []
    lines += _line(head, say("Hair"), _kept(_HAIR, leave_out), zone)
    lines += _line(head, say("State"), _kept(_STATE, leave_out), zone)
    lines += [] if HISTORY in leave_out else [_history(head)]
    lines += _line(head, say("Wish"), _kept(_WISH, leave_out), zone)
    pace = head.consultation.of("pace")
    if pace != _LEFT_UNSAID["pace"]:
        lines.append(say("Hands: {pace}.", pace=stated_words(pace)))
    free = head.consultation.of("appointment")
    if not isinstance(free, str):
        lines.append(say("Time: the chair is free for {span}.", span=stated_words(free, "min")))
    return tuple(lines)


def fitted_facts(
    head: Head,
    zone: str | None,
    lines: Sequence[str],
    *,
    bearing: Set[str],
    room: int,
    leave_out: tuple[str, ...] = (),
) -> tuple[str, ...]:
    """Write a head and further lines; where they take too many words, without facts that decide nothing.

    Args:
        head: The head.
        zone: The zone asked, or None.
        lines: What is told beside the head.
        bearing: What the decisions asked rest on; none of it is left out.
        room: Words that there is room for.
        leave_out: Names that are told elsewhere.

    Returns:
        The lines of the head, then the further ones; with as few left out as fit, or all that may be.
    """
    idle = [name for name in _LEFT_OUT_FIRST if name not in bearing]
    told: tuple[str, ...] = ()
    for count in range(len(idle) + 1):
        told = (*head_facts(head, zone, leave_out=(*leave_out, *idle[:count])), *lines)
        if len(" ".join(told).split()) <= room:
            break
    return told


def place_facts(head: Head, zone: str, *, names: tuple[str, ...]) -> str:
    """Write what is told of one place where places differ.

    Args:
        head: The head.
        zone: The place.
        names: What is told of it, in order.

    Returns:
        The facts with commas between; empty where there is nothing to say.
    """
    return ", ".join(text for name in names if (text := _stated(head, name, zone)))


def _kept(names: tuple[str, ...], leave_out: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if name not in leave_out)


def _line(head: Head, title: str, names: tuple[str, ...], zone: str | None) -> list[str]:
    stated = place_facts(head, zone or "top", names=names)
    return [f"{title}: {stated}."] if stated else []


def _stated(head: Head, name: str, zone: str) -> str:
    value = head.consultation.of(name, zone)
    if value == UNKNOWN:
        return say(_NOT_DONE[name]) if name in _NOT_DONE else ""
    local = _local(head, name, value)
    if local:
        return local
    if value == _LEFT_UNSAID.get(name):
        return ""
    if (name, value) in _BY_VALUE:
        return say(_BY_VALUE[name, value])
    if name == "hair.growth":
        return say("a whorl here") if value == "whorl" else say("grows {words}", words=stated_words(value))
    return say(_STATED[name], words=stated_words(value, head.rulebook.domains[name].unit))


def _history(head: Head) -> str:
    told = [text for name in _HISTORY if (text := _told(head, head.consultation, name))]
    if not told:
        return say("Scalp, history and health: clear.")
    return say("History: {told}; the rest is clear.", told=", ".join(told))


def _told(head: Head, consultation: Consultation, name: str) -> str:
    value = consultation.of(name)
    if name in _SPANS:
        if isinstance(value, str):
            return ""
        return say(_SPANS[name], span=stated_words(value, head.rulebook.domains[name].unit))
    if value == "none" and name in _SAID_NONE and _is_spoken_against(consultation, name):
        return say(_SAID_NONE[name])
    return _local(head, name, value) or say(_STANDS_OUT[name].get(value, ""))


def _is_spoken_against(consultation: Consultation, name: str) -> bool:
    """Tell whether a consultation holds a date of what it says there never was, or a dye without a colour."""
    has_date = not isinstance(consultation.of(_SPEAKS_AGAINST[name]), str)
    return has_date or (name == "history.color" and consultation.of("history.metallic_dye") == "yes")


def _local(head: Head, name: str, value: Value) -> str:
    """Say a value that a local rule added, of which nothing is known here; empty for any other."""
    domain = head.rulebook.domains[name]
    if str(value) not in domain.counts_as:
        return ""
    words = say(domain.words.get(str(value), "")) or stated_words(value)
    return f"{name_words(name)}: {words}"
