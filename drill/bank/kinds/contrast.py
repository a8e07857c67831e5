"""Two heads alike but for one fact: does the answer change? Planner and wrong ideas decide on both."""

from collections.abc import Sequence

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG
from drill.bank.facts import head_facts
from drill.bank.feedback import breaks_limit
from drill.bank.options import option
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.short import short_words
from drill.bank.sides import answers_beside
from drill.bank.touched import joined_limits, limits_of, rows_behind
from drill.bank.two_heads import (
    Pair,
    TwoHeads,
    changes,
    draw_two,
    other_facts,
    own_fact,
    with_held,
    wrong_pairs,
)
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.service.wording import fact_words, name_words, zone_words

# How often the answer is to change from one head to the other: who always sees it change learns that.
CHANGING = 0.5
# Some facts never change an answer, or always; then the heads soon differ in some other fact.
_WITH_OWN_FACT = 12
# Then another fact differs, and one more is the same on both, so that not every head is a usual one.
_OTHER_FACTS = 2
_DRAWS = 60
# Asking every wrong idea on two heads costs most, so it is done on so many pairs of heads only.
_MOST_ASKED = 10
# What is wanted of a question: that the answer changes or stays as drawn, the value it stays on, and that
# its options are the four pairs of two values.
_BEST = (True, True, True)


def make_contrast(asking: Asking) -> Question | None:
    """Make a question about two heads that differ in one fact.

    Args:
        asking: An item with a decision and the fact that differs.

    Returns:
        The question, about as often one whose answer stays as one whose answer changes, and then now on one
        value, now on another; where the item's own fact does not bring that about the heads differ in another
        usual fact. None where no two heads were found on which two wrong ideas decide otherwise.
    """
    wanted, others = _wanted(asking), other_facts(asking)
    found, reached, asked = None, (False, False, False), 0
    for at in range(_DRAWS):
        own = at < _WITH_OWN_FACT or len(others) < _OTHER_FACTS
        two = (
            draw_two(asking, own_fact(asking))
            if own
            else draw_two(asking, *asking.rng.sample(others, _OTHER_FACTS))
        )
        if two is None or (found is not None and (*_as_wanted(two, wanted), True) <= reached):
            continue
        two = with_held(asking, two)
        chosen, asked = wrong_pairs(asking, two), asked + 1
        rank = (
            *_as_wanted(two, wanted),
            len({value for pair in (two.key, *chosen) for value in pair}) == len(two.key),
        )
        if (found is None or rank > reached) and (question := _question(asking, two, chosen)) is not None:
            found, reached = question, rank
        if reached == _BEST or asked == _MOST_ASKED:
            break
    return found


def _wanted(asking: Asking) -> Value | None:
    """Draw the value on which the answer is to stay; None where it is to change."""
    values = sorted(answers_beside(asking.beliefs, asking.item), key=str)
    stays = asking.rng.random() >= CHANGING
    return asking.rng.choice([*values, ""]) if stays else None


def _as_wanted(two: TwoHeads, wanted: Value | None) -> tuple[bool, bool]:
    """Tell whether the answer changes or stays as wanted, and whether on the value wanted."""
    if wanted is None:
        return changes(two.key), True
    return not changes(two.key), two.key[0] == wanted


def _question(asking: Asking, two: TwoHeads, chosen: Sequence[Pair]) -> Question | None:
    """Give the question; None where too few options are from wrong ideas, or it takes too many words."""
    if len(two.held.keys() & {*chosen}) < FEWEST_WRONG:
        return None
    item = asking.item
    right = _feedback_on_key(asking, two)
    options = [_wrong_option(asking, two, pair) for pair in chosen]
    options.append(option(_words(two, two.key), _value(two.key), correct=True, ideas=(), feedback=right))
    question = asking.question(
        facts=(*head_facts(two.heads[0], two.zone), _second_head(two)),
        ask=say(item.stem, zone=zone_words(two.zone)),
        consultation=two.heads[0].consultation,
        second=two.heads[1].consultation,
        zone=two.zone,
        options=options,
        explanation=right.text,
        source=two.decided[1].source,
        rows=tuple(dict.fromkeys(rows_behind(two.heads[0], *two.decided))),
        limits=_limits(two, [two.key, *chosen]),
    )
    return question if len(question.stem.split()) <= MOST_WORDS else None


def _limits(two: TwoHeads, pairs: Sequence[Pair]) -> tuple[str, ...]:
    decision = two.decided[0].decision
    found = (
        limits_of(head, ((decision, two.zone, pair[at]) for pair in pairs))
        for at, head in enumerate(two.heads)
    )
    return joined_limits(two.heads[0].rulebook, *found)


def _second_head(two: TwoHeads) -> str:
    value = two.heads[1].consultation.of(two.differs, two.zone or "top")
    unit = two.heads[1].rulebook.domains[two.differs].unit
    return say("Second head: the same, but {fact}.", fact=fact_words(two.differs, value, unit))


def _value(pair: Pair) -> str:
    return f"{pair[0]} / {pair[1]}"


def _words(two: TwoHeads, pair: Pair) -> str:
    decision, rulebook = two.decided[0].decision, two.heads[0].rulebook
    one, other = (short_words(decision, value, rulebook) for value in pair)
    if not changes(pair):
        return say("Both: {value}", value=one)
    return say("First: {one}. Second: {other}", one=one, other=other)


def _told(two: TwoHeads) -> str:
    """Say what is decided on both, in a sentence."""
    if changes(two.key):
        return say("{words}.", words=_words(two, two.key))
    words = _words(two, two.key)
    return say("{words}. {fact} does not change it here.", words=words, fact=_fact(two))


def _fact(two: TwoHeads) -> str:
    words = name_words(two.differs)
    return words[:1].upper() + words[1:]


def _feedback_on_key(asking: Asking, two: TwoHeads) -> Feedback:
    reasons = dict.fromkeys(say(one.because) for one in two.decided)
    return Feedback(decides=_told(two), seen=" ".join(reasons), look=_look(asking, two))


def _look(asking: Asking, two: TwoHeads) -> str:
    """What to look at next time: the item knows it of its own fact only."""
    return say(asking.item.look) if two.differs in asking.item.contrast else ""


def _wrong_option(asking: Asking, two: TwoHeads, pair: Pair) -> Option:
    ideas = two.held.get(pair, ())
    beliefs = [asking.book.beliefs[idea] for idea in ideas]
    decision = two.decided[0].decision
    unsafe = any(one.harm for one in beliefs) or any(
        breaks_limit(head, decision, two.zone, value) for head, value in zip(two.heads, pair, strict=True)
    )
    # Of the two reasons the one about the head that was judged wrongly is told.
    wrong_at = 1 if two.is_right((pair[0], two.key[1])) else 0
    said = Feedback(
        opening=say("Stop.") if unsafe else "",
        decides=say("{told} {because}", told=_told(two), because=say(two.decided[wrong_at].because)),
        seen=say(beliefs[0].seen) if beliefs else "",
        look=say(beliefs[0].mend) if beliefs else _look(asking, two),
    )
    return option(_words(two, pair), _value(pair), correct=False, ideas=ideas, feedback=said)
