"""A fact: key, options and source are written in the deck."""

from drill.bank.asking import Asking
from drill.bank.options import option
from drill.bank.question import Feedback, Option, Question
from drill.basis.words import say


def make_fact(asking: Asking) -> Question:
    """Make a question of a fact.

    Args:
        asking: An item with key and options.

    Returns:
        The question.
    """
    item = asking.item
    right = Feedback(decides=say(item.because), look=say(item.look))
    options = [option(say(item.answer), item.answer, correct=True, ideas=(), feedback=right)]
    options += [wrong_fact(asking, one.text, one.text, one.misconception) for one in item.wrong]
    return asking.question(ask=say(item.stem), options=options, explanation=right.text, source=item.source)


def wrong_fact(asking: Asking, text: str, value: str, misconception: str) -> Option:
    """Give a written wrong option with what is said of it.

    Args:
        asking: The item.
        text: As written.
        value: Its value.
        misconception: The wrong idea that it shows; empty for none.

    Returns:
        The option; it opens with ``Stop.`` where the idea can harm.
    """
    belief = asking.book.beliefs.get(misconception)
    said = Feedback(
        opening=say("Stop.") if belief and belief.harm else "",
        decides=say(asking.item.because),
        seen=say(belief.seen) if belief else "",
        look=say(belief.mend) if belief else say(asking.item.look),
    )
    ideas = (misconception,) if belief else ()
    return option(say(text), value, correct=False, ideas=ideas, feedback=said)
