"""What clients say when they do not know the word: vague answers, and the question that settles each.

A vague answer is never taken as a fact; it stays unknown until the question is answered.
"""

from collections.abc import Mapping
from dataclasses import dataclass

# By field of the consultation: how people say it, and what to ask back.
_VAGUE: Mapping[str, tuple[str, str]] = {
    "scalp": (
        "It is always a bit red. I only scratched.",
        "Where, since when, and does it sting when water runs over it? Look there.",
    ),
    "history.reaction": (
        "I am a bit sensitive. My head got hot once.",
        "After which product, how soon, and what did the skin look like the day after?",
    ),
    "history.relaxer": (
        "Something to make it smoother, a mild one. One without lye.",
        "Is that hair still there, and who can name the pack? A mild one, or one without lye, can be a "
        "hydroxide.",
    ),
    "history.smoothing": (
        "A treatment against the frizz. A cure with the iron.",
        "Was it ironed in, and did it stay straight after washing?",
    ),
    "history.metallic_dye": (
        "Something natural. A cream that takes the grey away bit by bit.",
        "What stands on the pack? Natural is no ingredient, and bit by bit is how metal dyes work.",
    ),
    "history.color": (
        "Only a rinse. Just a gloss.",
        "Did it wash out, or did a line grow out? What grew out was a lasting colour.",
    ),
    "history.lightened": (
        "The sun did that. They only put a toner on.",
        "What was done before the toner, and were strands in foil or under a cap?",
    ),
    "history.weeks_since_perm": (
        "Ages ago. That has long grown out.",
        "In which season, and how long was the hair then? What has not been cut off is still permed.",
    ),
    "history.known": (
        "I have been here before.",
        "Under which name, and is there a record of it?",
    ),
    "health.treatment": (
        "I have been a bit run down.",
        "Has a treatment or a medicine changed lately, yes or no? No more is asked.",
    ),
    "wish.look": (
        "Just a bit of movement.",
        "Like this picture, lying in waves, or like that one, hanging in coils?",
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Vague:
    """A vague answer.

    Attributes:
        says: How a client says it.
        ask_back: The question that settles it.
    """

    says: str
    ask_back: str


def vague_words(field: str) -> Vague | None:
    """Give what a client may say about a field, and what to ask back.

    Args:
        field: Its name in the consultation.

    Returns:
        Both as English texts; None for what is looked at and felt, not asked.

    Source:
        common practice.
    """
    found = _VAGUE.get(field)
    return Vague(says=found[0], ask_back=found[1]) if found else None
