"""Make a question of an item: draw a head, let the planner decide, let wrong ideas decide otherwise."""

import random
from collections.abc import Callable, Mapping
from dataclasses import replace

from drill.bank.asking import Asking
from drill.bank.beliefs import Beliefs
from drill.bank.draw import Draw, draw
from drill.bank.item import Item, Kind
from drill.bank.kinds.ask_next import make_ask_next
from drill.bank.kinds.cause import make_cause
from drill.bank.kinds.choose import make_choose
from drill.bank.kinds.contrast import make_contrast
from drill.bank.kinds.estimate import make_estimate
from drill.bank.kinds.fact import make_fact
from drill.bank.kinds.find_fault import make_find_fault
from drill.bank.kinds.locate import make_locate
from drill.bank.kinds.order import make_order
from drill.bank.kinds.stop_or_go import make_stop_or_go
from drill.bank.question import MOST_WORDS, Question
from drill.basis.words import say

Maker = Callable[[Asking], Question | None]
MAKERS: Mapping[Kind, Maker] = {
    "choose": make_choose,
    "estimate": make_estimate,
    "order": make_order,
    "locate": make_locate,
    "stop_or_go": make_stop_or_go,
    "ask_next": make_ask_next,
    "contrast": make_contrast,
    "find_fault": make_find_fault,
    "cause": make_cause,
}
# A head told in too many words is drawn anew so many times.
_DRAWS = 6


class QuestionMaker:
    """Makes questions of a book's items.

    Args:
        beliefs: The book's wrong ideas at work.
    """

    def __init__(self, beliefs: Beliefs) -> None:
        self.beliefs, self.book = beliefs, beliefs.book

    def make(self, item: Item, seed: int) -> Question | None:
        """Make a question.

        Args:
            item: An item of the book.
            seed: Any number; the same item, seed and rulebook give the same question on every machine.

        Returns:
            The question; None where no head was found on which the item can be asked in so few words that
            a phone shows them.
        """
        question = self._made(item, seed)
        if question is None or item.picture is None:
            return question
        shown = replace(item.picture, words=say(item.picture.words))
        return replace(question, picture=shown)

    def _made(self, item: Item, seed: int) -> Question | None:
        rng = random.Random(f"{item.id} {seed}")  # noqa: S311  a question needs no secret
        asking = Asking(beliefs=self.beliefs, item=item, seed=seed, rng=rng)
        if item.kind == "choose" and not item.decision:
            return make_fact(asking)
        for _ in range(_DRAWS):
            question = MAKERS[item.kind](asking)
            if question is None or len(question.stem.split()) <= MOST_WORDS:
                return question
        return None

    def draw(self, item: Item, rng: random.Random) -> Draw | None:
        """Draw a head on which an item can be asked (:func:`drill.bank.draw.draw`)."""
        return draw(self.beliefs, item, rng)
