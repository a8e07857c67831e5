"""A number with its unit: the planner computes it, wrong ideas compute it otherwise."""

from collections.abc import Mapping

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, Draw, draw
from drill.bank.facts import HISTORY, fitted_facts
from drill.bank.feedback import feedback_on_key
from drill.bank.figure_reason import figure_givens
from drill.bank.kinds.choose import MOST_OPTIONS, wrong_option
from drill.bank.options import option
from drill.bank.question import MOST_WORDS, Question
from drill.bank.touched import rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.service.head import COMPUTED_UNITS, TOOL_DIAMETER
from drill.service.wording import value_words, zone_words

USUAL_TOLERANCE = 0.1
_DRAWS = 12


def make_estimate(asking: Asking) -> Question | None:
    """Make a question whose answer is a number.

    Args:
        asking: An item with a decision that is a number.

    Returns:
        The question, whose wrong options lie so far apart, and so far from the key, that no number is near
        two of them; None where no head was found on which it can be asked so.
    """
    tolerance = asking.item.tolerance or USUAL_TOLERANCE
    for _ in range(_DRAWS):
        drawn = draw(asking.beliefs, asking.item, asking.rng)
        if drawn is None:
            return None
        chosen = _far_apart(float(str(drawn.decided.value)), drawn.wrong, tolerance)
        if len(chosen) >= FEWEST_WRONG:
            return _question(asking, drawn, chosen, tolerance)
    return None


def _question(asking: Asking, drawn: Draw, chosen: list[float], tolerance: float) -> Question:
    item, key = asking.item, float(str(drawn.decided.value))
    right = feedback_on_key(drawn.head, drawn.decided, look=item.look)
    options = [wrong_option(asking, drawn, value) for value in chosen]
    options.append(option(value_words(item.decision, key), key, correct=True, ideas=(), feedback=right))
    asked, zone = say(item.stem, zone=zone_words(drawn.zone)), str(drawn.zone)
    return asking.question(
        facts=fitted_facts(
            drawn.head,
            zone,
            figure_givens(drawn.head, item.decision, zone),
            bearing=asking.beliefs.rests_on(TOOL_DIAMETER),
            room=MOST_WORDS - len(asked.split()),
            # What it bears on, how much of a curl stays, is told.
            leave_out=(HISTORY,),
        ),
        ask=asked,
        consultation=drawn.head.consultation,
        decision=item.decision,
        zone=drawn.zone,
        options=options,
        explanation=right.text,
        source=drawn.decided.source,
        answer_as="number",
        unit=COMPUTED_UNITS[item.decision],
        tolerance=tolerance,
        otherwise=right,
        rows=rows_behind(drawn.head, drawn.decided),
    )


def _far_apart(key: float, wrong: Mapping[Value, tuple[str, ...]], tolerance: float) -> list[float]:
    """Keep wrong numbers that nobody could mean together with the key or with each other."""
    kept: list[float] = []
    for value in sorted(wrong, key=lambda one: (-len(wrong[one]), str(one))):
        number = float(str(value))
        if all(abs(number - other) > tolerance * (number + other) for other in (key, *kept)):
            kept.append(number)
    return kept[: MOST_OPTIONS - 1]
