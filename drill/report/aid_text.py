"""First-aid cards on a page: large words first, one thing to do a line."""

from collections.abc import Sequence

from drill.basis.words import say
from drill.report.page import Page
from drill.service.aid import BEFORE, AidCard


def put_aid(page: Page, cards: Sequence[AidCard]) -> None:
    """Put first-aid cards on a page.

    Args:
        page: Where they go.
        cards: In order.
    """
    page.title(say("First aid"))
    page.line(say("In doubt call the emergency services."), style="alarm")
    for card in cards:
        page.heading(say(card.title).upper(), style="alarm")
        if card.signs.rstrip(".") != card.title:
            page.line(say(card.signs), style="strong")
        for step in card.do:
            page.line(say(step), mark="! ")
    page.blank()
    for text in BEFORE:
        page.line(say(text), style="faint")
