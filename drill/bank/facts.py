"""The head of a question in short lines, in a fixed order: hair, state, history, wish."""

from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.wording import stated_words

_HAIR = ("hair.length", "hair.strand", "hair.density", "hair.pattern", "hair.ends")
_STATE = ("hair.porosity", "hair.elasticity", "hair.growth")
_WISH = ("wish.curl", "wish.root_volume", "wish.look", "wish.wear", "wish.blend")
_LEFT_UNSAID: dict[str, Value] = {"hair.growth": "none", "wish.blend": "no"}
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
    "history.weeks_since_perm": "last perm {span} ago",
    "health.months_since": "it ended {span} ago",
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
    "history.smoothing",
    "history.metallic_dye",
    "history.weeks_since_perm",
    "health.treatment",
    "health.months_since",
)


def head_facts(head: Head, zone: str | None) -> tuple[str, ...]:
    """Write a head for a question.

    Args:
        head: The head.
        zone: The zone asked, whose own values are told; None for the top's.

    Returns:
        A line each for service (unless it is a perm), hair, state, history, wish, and the time where it is
        stated.
    """
    service = str(head.consultation.of("service"))
    lines = [say("Service: {service}.", service=stated_words(service))] if service != "perm" else []
    lines += _line(head, say("Hair"), _HAIR, zone)
    lines += _line(head, say("State"), _STATE, zone)
    lines.append(_history(head))
    lines += _line(head, say("Wish"), _WISH, zone)
    free = head.consultation.of("appointment")
    if not isinstance(free, str):
        lines.append(say("Time: the chair is free for {span}.", span=stated_words(free, "min")))
    return tuple(lines)


def _line(head: Head, title: str, names: tuple[str, ...], zone: str | None) -> list[str]:
    stated = [text for name in names if (text := _stated(head, name, zone))]
    return [f"{title}: {', '.join(stated)}."] if stated else []


def _stated(head: Head, name: str, zone: str | None) -> str:
    value = head.consultation.of(name, zone or "top")
    if value == UNKNOWN:
        return say(_NOT_DONE[name]) if name in _NOT_DONE else ""
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
    return say(_STANDS_OUT[name].get(value, ""))
