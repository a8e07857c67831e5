"""Steps put in order: as a deck writes them, or as the plan of a head has them."""

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drill.bank.asking import Asking
from drill.bank.draw import MOST_DRAWS
from drill.bank.item import Item
from drill.bank.options import option
from drill.bank.question import Feedback, Option, Piece, Question
from drill.bank.scenario import draw_head
from drill.bank.touched import row_name
from drill.basis.words import say
from drill.rulebook.table import Row
from drill.service.wording import value_words

STEPS = "steps"
FEWEST_WRONG = 2
_LETTERS = "abcdef"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Steps:
    """Steps to be put in order.

    Attributes:
        texts: As shown, in the order in which the item writes them.
        right: Their numbers, in the right order.
        why: Why they stand so; of a plan the reason of each step.
        source: Where that stands.
        rows: Of a plan the rows that put them there.
    """

    texts: tuple[str, ...]
    right: tuple[int, ...]
    why: Mapping[int, str]
    source: str
    rows: tuple[str, ...] = ()


def make_order(asking: Asking) -> Question | None:
    """Make a question whose answer is an order.

    Args:
        asking: An item with steps, and with wrong orders that wrong ideas give.

    Returns:
        The question; None where no head was found whose plan has all of the steps.
    """
    steps = _planned(asking) if asking.item.decision else _written(asking.item)
    if steps is None:
        return None
    wrong = [one for one in asking.item.wrong if one.order != steps.right]
    if len(wrong) < FEWEST_WRONG:
        return None
    letters = _shuffled(steps.right, asking.rng)
    right = _feedback_on_key(asking.item, steps)
    options = [_wrong(asking, steps, letters, one.order, one.misconception) for one in wrong]
    options.append(_option(steps, letters, steps.right, correct=True, ideas=(), said=right))
    pieces = tuple(
        sorted((Piece(id=letters[at], text=text) for at, text in enumerate(steps.texts)), key=_letter)
    )
    return asking.question(
        ask=say(asking.item.stem),
        options=options,
        explanation=right.text,
        source=steps.source,
        answer_as="order",
        pieces=pieces,
        otherwise=right,
        rows=steps.rows,
    )


def _letter(piece: Piece) -> str:
    return piece.id


def _written(item: Item) -> _Steps:
    right = tuple(range(len(item.steps)))
    return _Steps(texts=tuple(map(say, item.steps)), right=right, why={}, source=item.source)


def _planned(asking: Asking) -> _Steps | None:
    """Draw heads until the plan of one has all steps of the item, and take its order."""
    item, rulebook = asking.item, asking.book.rulebook
    for _ in range(MOST_DRAWS):
        head = asking.beliefs.head(draw_head(item, None, rulebook, asking.rng))
        rows = head.evaluation.collected(STEPS)
        taken = [row for row in rows if row.then in item.steps]
        if sorted(row.then for row in taken) == sorted(item.steps):
            return _of_plan(item, taken)
    return None


def _of_plan(item: Item, rows: Sequence[Row]) -> _Steps:
    right = tuple(item.steps.index(row.then) for row in rows)
    return _Steps(
        texts=tuple(value_words(STEPS, step) for step in item.steps),
        right=right,
        why={at: say(row.because) for at, row in zip(right, rows, strict=True)},
        source=rows[0].source,
        rows=tuple(row_name(STEPS, row.id) for row in rows),
    )


def _shuffled(right: Sequence[int], rng: random.Random) -> dict[int, str]:
    """Give each step a letter, so that the letters in their own order are no answer."""
    numbers = list(right)
    while numbers == list(right):
        rng.shuffle(numbers)
    return {number: letter for letter, number in zip(_LETTERS, numbers, strict=False)}


def _feedback_on_key(item: Item, steps: _Steps) -> Feedback:
    told = _joined(steps, steps.right)
    if not steps.why:
        return Feedback(
            decides=say("In order: {steps}.", steps=told), seen=say(item.because), look=say(item.look)
        )
    # Of the reasons those of the steps that are put in a wrong place.
    late = [_first_missed(steps.right, one.order) for one in item.wrong if one.order != steps.right]
    reasons = dict.fromkeys(steps.why[at] for at in late)
    return Feedback(
        decides=say("In order: {steps}.", steps=told), seen=" ".join(reasons), look=say(item.look)
    )


def _first_missed(right: Sequence[int], wrong: Sequence[int]) -> int:
    return next(one for one, other in zip(right, wrong, strict=True) if one != other)


def _wrong(
    asking: Asking, steps: _Steps, letters: Mapping[int, str], order: tuple[int, ...], misconception: str
) -> Option:
    belief = asking.book.beliefs.get(misconception)
    missed = _first_missed(steps.right, order)
    because = steps.why.get(missed) or say(asking.item.because)
    said = Feedback(
        opening=say("Stop.") if belief and belief.harm else "",
        decides=say(
            "“{step}” comes earlier. {because}", step=_first_big(steps.texts[missed]), because=because
        ),
        seen=say(belief.seen) if belief else "",
        look=say(belief.mend) if belief else say(asking.item.look),
    )
    ideas = (misconception,) if belief else ()
    return _option(steps, letters, order, correct=False, ideas=ideas, said=said)


def _option(
    steps: _Steps,
    letters: Mapping[int, str],
    order: Sequence[int],
    *,
    correct: bool,
    ideas: tuple[str, ...],
    said: Feedback,
) -> Option:
    value = "".join(letters[at] for at in order)
    return option(_first_big(_joined(steps, order)), value, correct=correct, ideas=ideas, feedback=said)


def _joined(steps: _Steps, order: Sequence[int]) -> str:
    return "; ".join(steps.texts[at][:1].lower() + steps.texts[at][1:] for at in order)


def _first_big(text: str) -> str:
    return text[:1].upper() + text[1:]
