"""``wavedrill aid``: first-aid cards, at once. It opens no book, no record and no settings."""

import json

import click

from drill.basis.problem import mend_name
from drill.basis.words import say
from drill.cli.telling import terminal_page
from drill.report.aid_text import put_aid
from drill.report.page import clean_text
from drill.service.aid import CARDS, aid_card, aid_to_plain


@click.command("aid", short_help="First aid: eye, breath, skin, fainting, hair.")
@click.argument("card", metavar="[CARD]", default="")
@click.option("--json", "as_json", is_flag=True, help="Write JSON on standard output.")
def aid_command(*, card: str, as_json: bool) -> None:
    """Say what is done when something goes wrong: all cards, or one.

    CARD is eye, breath, skin, swallowed, fainting, hair (it gives way in the rinse) or later (in the days
    after). Nothing has to be set up for this. The product's safety sheet and the emergency services come
    before anything written here.
    """
    found = aid_card(card) if card else None
    # Nobody spells well with a client in pain: an unknown name still gets every card.
    cards = (found,) if found else CARDS
    if as_json:
        click.echo(json.dumps(aid_to_plain(cards), indent=2))
    else:
        page = terminal_page()
        put_aid(page, cards)
        click.echo(page.text, nl=False)
    if card and found is None:
        mend = mend_name(card.strip().lower(), tuple(one.id for one in CARDS))
        raise click.BadParameter(
            say(
                "there is no card '{name}', so all of them are shown; {mend}",
                name=clean_text(card),
                mend=mend,
            ),
            param_hint="'CARD'",
        )
