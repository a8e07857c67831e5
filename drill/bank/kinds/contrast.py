"""Two heads alike but for one fact: does the answer change? Planner and wrong ideas decide on both."""

import random
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, is_asked_on, same_by_another_name
from drill.bank.facts import head_facts
from drill.bank.feedback import breaks_limit
from drill.bank.options import option, single
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.scenario import draw_head, draw_zone
from drill.bank.short import short_words
from drill.bank.touched import joined_limits, limits_of, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.trace import Decision
from drill.service.head import Head
from drill.service.wording import fact_words, name_words, zone_words

# How often the answer is to change from one head to the other: who always sees it change learns that.
CHANGING = 0.5
_DRAWS = 40
_WAITING = 12
_WRONG = 3
_DRAWN_WITH = 2**32

Pair = tuple[Value, Value]


@dataclass(frozen=True, slots=True)
class _Two:
    """Two heads, what is decided on each, and what wrong ideas decide on them."""

    heads: tuple[Head, Head]
    zone: str | None
    decided: tuple[Decision, Decision]
    differs: str
    held: Mapping[Pair, tuple[str, ...]]

    @property
    def key(self) -> Pair:
        return single(self.decided[0]), single(self.decided[1])


def make_contrast(asking: Asking) -> Question | None:
    """Make a question about two heads that differ in one fact.

    Args:
        asking: An item with a decision and the fact that differs.

    Returns:
        The question, about as often one whose answer stays as one whose answer changes where the heads of the
        item allow both; None where no two heads were found on which two wrong ideas decide otherwise.
    """
    wanted = asking.rng.random() < CHANGING
    found, since = None, 0
    for _ in range(_DRAWS):
        # Some facts never change an answer, or always; then the other kind is not waited for any longer.
        since += found is not None
        two = _draw(asking) if since <= _WAITING else None
        if two is None or (found is not None and _changes(two.key) != wanted):
            continue
        question = _question(asking, two, _choose(two, asking.rng))
        named = sum(bool(one.misconceptions) for one in question.options)
        if named < FEWEST_WRONG or len(question.stem.split()) > MOST_WORDS:
            continue
        found = question
        if _changes(two.key) == wanted:
            break
    return found


def _draw(asking: Asking) -> _Two | None:
    item, rng, rulebook = asking.item, asking.rng, asking.book.rulebook
    zone = draw_zone(item, rng)
    ((name, values),) = item.contrast.items()
    drawn_with = rng.randrange(_DRAWN_WITH)
    heads = []
    for value in rng.sample(values, 2):
        # Both are drawn with the same dice, so that nothing else tells them apart.
        dice = random.Random(drawn_with)  # noqa: S311  a question needs no secret
        varied = replace(item, vary={**item.vary, name: (value,)})
        heads.append(Head(rulebook, draw_head(varied, zone, rulebook, dice), facts=asking.beliefs.facts))
    one, other = heads
    if not all(is_asked_on(head, item.decision) for head in heads):
        return None
    decided = (one.decide(item.decision, zone), other.decide(item.decision, zone))
    held = _held(asking, (one, other), zone, decided)
    return _Two((one, other), zone, decided, name, held)


def _held(
    asking: Asking, heads: tuple[Head, Head], zone: str | None, decided: tuple[Decision, Decision]
) -> dict[Pair, tuple[str, ...]]:
    """Give the pairs that wrong ideas decide, those left out that nobody could call wrong."""
    first, second = (
        {
            idea: value
            for value, ideas in asking.beliefs.reached(head.consultation, asking.item.decision, zone).items()
            for idea in ideas
        }
        for head in heads
    )
    right = _right(heads[0], decided)
    found: dict[Pair, tuple[str, ...]] = {}
    held = [one for one in asking.beliefs.touching(asking.item.decision) if one in first and one in second]
    for idea in held:
        pair = (first[idea], second[idea])
        if not _is_right(pair, right):
            found[pair] = (*found.get(pair, ()), idea)
    return found


def _right(head: Head, decided: tuple[Decision, Decision]) -> tuple[set[Value], set[Value]]:
    """Give what is right or acceptable on each head."""
    one, other = ({single(each), *each.also, *same_by_another_name(head.rulebook, each)} for each in decided)
    return one, other


def _is_right(pair: Pair, right: tuple[Collection[Value], Collection[Value]]) -> bool:
    return pair[0] in right[0] and pair[1] in right[1]


def _changes(pair: Pair) -> bool:
    return pair[0] != pair[1]


def _choose(two: _Two, rng: random.Random) -> list[Pair]:
    """Choose wrong pairs, so that as many options change as stay: then neither tells the key."""
    held = sorted(two.held, key=str)
    values = sorted({value for pair in (two.key, *held) for value in pair}, key=str)
    right = _right(two.heads[0], two.decided)
    others = [(one, other) for one in values for other in values if (one, other) not in two.held]
    others = [pair for pair in others if not _is_right(pair, right)]
    rng.shuffle(held)
    rng.shuffle(others)
    chosen = [*_of(held, two, like=False)[:1], *_of(held, two, like=True)[:1]]
    chosen = chosen if len(chosen) >= FEWEST_WRONG else held[:FEWEST_WRONG]
    waiting = [pair for pair in (*held, *others) if pair not in chosen]
    # Two that change and two that stay, the key among them.
    lacking = len(_of(chosen, two, like=False)) < FEWEST_WRONG
    best = _of(waiting, two, like=not lacking)
    return [*chosen, *best, *waiting][:_WRONG]


def _of(pairs: Iterable[Pair], two: _Two, *, like: bool) -> list[Pair]:
    """Keep the pairs that change, or stay, as the key does; or those that do not."""
    return [pair for pair in pairs if (_changes(pair) == _changes(two.key)) == like]


def _question(asking: Asking, two: _Two, chosen: Sequence[Pair]) -> Question:
    item = asking.item
    right = _feedback_on_key(asking, two)
    options = [_wrong_option(asking, two, pair) for pair in chosen]
    options.append(option(_words(two, two.key), _value(two.key), correct=True, ideas=(), feedback=right))
    return asking.question(
        facts=(*head_facts(two.heads[0], two.zone), _second_head(two)),
        ask=say(item.stem, zone=zone_words(two.zone)),
        consultation=two.heads[0].consultation,
        zone=two.zone,
        options=options,
        explanation=right.text,
        source=two.decided[1].source,
        rows=tuple(dict.fromkeys(rows_behind(two.heads[0], *two.decided))),
        limits=_limits(two, [two.key, *chosen]),
    )


def _limits(two: _Two, pairs: Sequence[Pair]) -> tuple[str, ...]:
    decision = two.decided[0].decision
    found = (
        limits_of(head, ((decision, two.zone, pair[at]) for pair in pairs))
        for at, head in enumerate(two.heads)
    )
    return joined_limits(two.heads[0].rulebook, *found)


def _second_head(two: _Two) -> str:
    value = two.heads[1].consultation.of(two.differs, two.zone or "top")
    unit = two.heads[1].rulebook.domains[two.differs].unit
    return say("Second head: the same, but {fact}.", fact=fact_words(two.differs, value, unit))


def _value(pair: Pair) -> str:
    return f"{pair[0]} / {pair[1]}"


def _words(two: _Two, pair: Pair) -> str:
    decision, rulebook = two.decided[0].decision, two.heads[0].rulebook
    one, other = (short_words(decision, value, rulebook) for value in pair)
    if not _changes(pair):
        return say("Both: {value}", value=one)
    return say("First: {one}. Second: {other}", one=one, other=other)


def _told(two: _Two) -> str:
    """Say what is decided on both, in a sentence."""
    if _changes(two.key):
        return say("{words}.", words=_words(two, two.key))
    words = _words(two, two.key)
    return say("{words}. {fact} does not change it here.", words=words, fact=_fact(two))


def _fact(two: _Two) -> str:
    words = name_words(two.differs)
    return words[:1].upper() + words[1:]


def _feedback_on_key(asking: Asking, two: _Two) -> Feedback:
    reasons = dict.fromkeys(say(one.because) for one in two.decided)
    return Feedback(decides=_told(two), seen=" ".join(reasons), look=say(asking.item.look))


def _wrong_option(asking: Asking, two: _Two, pair: Pair) -> Option:
    ideas = two.held.get(pair, ())
    beliefs = [asking.book.beliefs[idea] for idea in ideas]
    decision = two.decided[0].decision
    unsafe = any(one.harm for one in beliefs) or any(
        breaks_limit(head, decision, two.zone, value) for head, value in zip(two.heads, pair, strict=True)
    )
    # Of the two reasons the one about the head that was judged wrongly is told.
    wrong_at = 0 if pair[1] == two.key[1] else 1
    said = Feedback(
        opening=say("Stop.") if unsafe else "",
        decides=say("{told} {because}", told=_told(two), because=say(two.decided[wrong_at].because)),
        seen=say(beliefs[0].seen) if beliefs else "",
        look=say(beliefs[0].mend) if beliefs else say(asking.item.look),
    )
    return option(_words(two, pair), _value(pair), correct=False, ideas=ideas, feedback=said)
