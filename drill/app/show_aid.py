"""The first-aid screen as a value: no book, student or log is needed, so nothing can stand in its way."""

from drill.app.screen import Part, Press, Screen, Words
from drill.basis.words import say
from drill.service.aid import BEFORE, CARDS

CLOSE = "aid:close"


def aid_screen() -> Screen:
    """Show what is done when something goes wrong, the most urgent first.

    Returns:
        The screen, with a touch that leads back to where it was opened.
    """
    parts: list[Part] = [Words(text=say("In doubt call the emergency services."), style="number")]
    for card in CARDS:
        parts.append(Words(text=say(card.title), style="verdict", sign="stop"))
        signs = say(card.signs) if card.signs.rstrip(".") != card.title else ""
        first, *others = (say(step) for step in card.do)
        parts.append(Words(text=first, label=signs))
        parts += [Words(text=step) for step in others]
    parts.append(Words(text=" ".join(say(one) for one in BEFORE), style="small"))
    return Screen(
        name="aid",
        title=say("First aid"),
        leave=Press(action=CLOSE, text=say("Back"), style="leave"),
        parts=tuple(parts),
        has_aid=False,
    )
