"""The head of a question in short lines, in a fixed order: hair, history, wish."""

from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.head import Head
from drill.service.wording import name_words, stated_words

# What goes without saying on a head that is fit for a perm, and is said in one line for all.
CLEAR: dict[str, tuple[Value, ...]] = {
    "scalp": ("healthy",),
    "history.known": ("yes",),
    "history.reaction": ("no",),
    "history.relaxer": ("none",),
    "history.smoothing": ("no",),
    "history.metallic_dye": ("no",),
    "history.color": ("none",),
    "history.lightened": ("none",),
    "history.weeks_since_perm": ("never",),
    "health.treatment": ("none",),
}
_HAIR = ("hair.length", "hair.strand", "hair.density", "hair.pattern", "hair.ends")
_STATE = ("hair.porosity", "hair.elasticity", "hair.growth")
_WISH = ("wish.curl", "wish.root_volume", "wish.look", "wish.wear", "wish.blend")
_SAFETY = (
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
_LEFT_UNSAID: dict[str, Value] = {"hair.growth": "none", "wish.blend": "no"}


def head_facts(head: Head, decision: str, zone: str | None) -> tuple[str, ...]:
    """Write a head for a question.

    Args:
        head: The head.
        decision: The decision asked; what it rests on is always among the facts.
        zone: The zone asked, or None.

    Returns:
        A line each for service, hair, state, history and wish.
    """
    consultation = head.consultation
    lines = []
    service = str(consultation.of("service"))
    if service != "perm":
        lines.append(say("Service: {service}.", service=stated_words(service)))
    for title, names in ((say("Hair"), _HAIR), (say("State"), _STATE), (say("Wish"), _WISH)):
        stated = [text for name in names if (text := _stated(head, name, zone))]
        if stated:
            lines.append(f"{title}: {', '.join(stated)}.")
    lines.insert(len(lines) - 1, _history(head, decision))
    return tuple(lines)


def _history(head: Head, decision: str) -> str:
    consultation = head.consultation
    odd = [name for name in _SAFETY if consultation.of(name) not in CLEAR.get(name, (UNKNOWN,))]
    told = ", ".join(
        f"{name_words(name)} {stated_words(consultation.of(name), head.rulebook.domains[name].unit)}"
        for name in odd
    )
    if not odd:
        return say("Scalp, history and health: clear.")
    return say("History: {told}; the rest is clear.", told=told)


def _stated(head: Head, name: str, zone: str | None) -> str:
    value = head.consultation.of(name, zone or "top")
    if value == UNKNOWN:
        return say(_NOT_DONE[name]) if name in _NOT_DONE else ""
    if value == _LEFT_UNSAID.get(name):
        return ""
    words = stated_words(value, head.rulebook.domains[name].unit)
    if name == "hair.growth":
        return say("grows to a whorl") if value == "whorl" else say("grows {words}", words=words)
    return words if name == "hair.length" else say(_SENTENCE[name], words=words)


_NOT_DONE = {"hair.porosity": "porosity not felt yet", "hair.elasticity": "elasticity not tested yet"}
_SENTENCE = {
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
