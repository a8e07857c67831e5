"""First-aid cards: what is done when something goes wrong, before anything else and without anything else.

They stand in the code, so that they can be shown when no book opens, no record is found and nobody has said
who works. They defer to the product's safety sheet and to the emergency services, and never say how a hurt is
treated beyond the first minutes. The table ``first_aid`` says the same words in a plan; a test holds the two
together.
"""

from dataclasses import dataclass

from drill.basis.words import say

FORMAT = "aid.v1"


@dataclass(frozen=True, slots=True, kw_only=True)
class AidCard:
    """One card.

    Attributes:
        id: What it is asked for by.
        row: The outcome of the table ``first_aid`` that says the same.
        title: Its heading.
        signs: How it shows.
        do: What to do, in order.
    """

    id: str
    row: str
    title: str
    signs: str
    do: tuple[str, ...]


# The most urgent first.
CARDS = (
    AidCard(
        id="eye",
        row="eye",
        title="Eye",
        signs="Lotion or neutraliser in an eye.",
        do=(
            "Rinse at once with running lukewarm water for at least 15 minutes, lids held open, lenses out, "
            "then get medical help and take the product's sheet along.",
        ),
    ),
    AidCard(
        id="breath",
        row="breathing",
        title="Breath",
        signs="Trouble breathing, a swelling face, faintness.",
        do=(
            "Call the emergency services at once, stop the service, bring fresh air, rinse if somebody else "
            "can, and stay with the person.",
        ),
    ),
    AidCard(
        id="skin",
        row="burning",
        title="Skin",
        signs="Burning or stinging, or skin that reddens.",
        do=(
            "Rinse now with plenty of lukewarm water, for a long time, take wet cotton away, call the "
            "instructor.",
            "Skin that stays red or blisters is seen by a physician.",
        ),
    ),
    AidCard(
        id="swallowed",
        row="swallowed",
        title="Swallowed",
        signs="Swallowed.",
        do=(
            "Call the poison centre or emergency services at once with the product's sheet in hand, and do "
            "what they say.",
            "Do not make anybody vomit.",
        ),
    ),
    AidCard(
        id="fainting",
        row="fainting",
        title="Fainting",
        signs="Pale, dizzy, about to faint.",
        do=(
            "Lay the person down flat, legs up, tools in as they are, fresh air, and stay there.",
            "Call the emergency services when it does not pass within a minute or two, comes with trouble "
            "breathing, or in doubt.",
            "Somebody else rinses the lotion as soon as that is safe.",
        ),
    ),
    AidCard(
        id="hair",
        row="hair_gives_way",
        title="Hair gives way in the rinse",
        signs="Hair gives way in the rinse.",
        do=(
            "Do not pull, comb or unwind.",
            "Go on rinsing with a soft lukewarm stream, call the instructor, and let the maker's directions "
            "or the maker's own number say how and whether the neutraliser goes on.",
            "Look at the skin as well, and write down what was used.",
        ),
    ),
    AidCard(
        id="later",
        row="later_reaction",
        title="In the days after",
        signs="Itching, swelling or blisters in the days after.",
        do=(
            "See a physician and take the product's name along; no further chemical service until it is "
            "cleared up.",
        ),
    ),
)
BEFORE = (
    "Before the first bottle is opened, know where the product's safety sheet, the eye rinse and the "
    "emergency number are.",
    "They come before anything written here.",
)


def aid_card(name: str) -> AidCard | None:
    """Find a card by its id.

    Args:
        name: As typed; capitals and blanks at its ends do not matter.

    Returns:
        The card; None where there is none.

    Source:
        None; a look-up.
    """
    return next((one for one in CARDS if one.id == name.strip().lower()), None)


def aid_to_plain(cards: tuple[AidCard, ...] = CARDS) -> dict[str, object]:
    """Write cards for other programs.

    Args:
        cards: In order.

    Returns:
        The contract's object, with what comes before every card.

    Source:
        Table ``first_aid``; common practice, sources.yaml C3.
    """
    return {
        "format": FORMAT,
        "before": [say(one) for one in BEFORE],
        "cards": [
            {
                "id": one.id,
                "title": say(one.title),
                "signs": say(one.signs),
                "do": [say(step) for step in one.do],
            }
            for one in cards
        ],
    }
