"""Two heads alike but for one fact, what is decided on each, and what wrong ideas decide on both."""

import random
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, is_asked_on, is_clear_cut, no_answer, same_by_another_name
from drill.bank.options import single
from drill.bank.scenario import draw_head, draw_zone, usual_values
from drill.bank.sides import answers_beside
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.trace import Decision
from drill.service.head import Head

WRONG_PAIRS = 3
_DRAWN_WITH = 2**32

Pair = tuple[Value, Value]
Differing = tuple[str, Sequence[Value]]


@dataclass(frozen=True, slots=True)
class TwoHeads:
    """Two heads that differ in one fact.

    Attributes:
        heads: The heads.
        zone: The zone asked, or None.
        decided: What is decided on each.
        differs: The fact in which they differ.
        held: What wrong ideas decide on both, with their ids; what is right on both is left out.
    """

    heads: tuple[Head, Head]
    zone: str | None
    decided: tuple[Decision, Decision]
    differs: str
    held: Mapping[Pair, tuple[str, ...]] = field(default_factory=dict)

    @property
    def key(self) -> Pair:
        """The two values decided."""
        return single(self.decided[0]), single(self.decided[1])

    def is_right(self, pair: Pair) -> bool:
        """Tell whether nobody could call a pair wrong."""
        return all(one in right for one, right in zip(pair, self._right(), strict=True))

    def _right(self) -> tuple[set[Value], set[Value]]:
        one, other = (
            {single(each), *each.also, *same_by_another_name(self.heads[0].rulebook, each)}
            for each in self.decided
        )
        return one, other


def changes(pair: Pair) -> bool:
    """Tell whether the answer is another on the second head."""
    return pair[0] != pair[1]


def own_fact(asking: Asking) -> Differing:
    """Give the fact that an item contrasts, with its values."""
    ((name, values),) = asking.item.contrast.items()
    return name, values


def other_facts(asking: Asking) -> list[Differing]:
    """Give further facts in which two heads can differ: what the decision rests on, what usual heads vary."""
    rulebook, item = asking.book.rulebook, asking.item
    rests_on = (
        rulebook.domains[name]
        for name in sorted(asking.beliefs.rests_on(item.decision))
        if name in rulebook.domains
    )
    facts: dict[str, Sequence[Value]] = {
        domain.name: [value for value in domain.values if value != UNKNOWN]
        for domain in rests_on
        if domain.entered and not domain.unit
    }
    facts.update(usual_values())
    facts.update(item.vary)
    return [(name, values) for name, values in facts.items() if len(values) > 1 and name not in item.contrast]


def draw_two(asking: Asking, differing: Differing, beside: Differing | None = None) -> TwoHeads | None:
    """Draw two heads and decide on both.

    Args:
        asking: An item with a decision and the fact that it contrasts.
        differing: The fact in which the heads are to differ.
        beside: A fact that is the same on both and not settled by the item, with its values; None for none.

    Returns:
        The heads, with nothing held yet; None where one of them is not served, or a figure lies near a bound.
    """
    item, rng, rulebook = asking.item, asking.rng, asking.book.rulebook
    name, values = differing
    both: dict[str, Sequence[Value]] = {**item.vary, **item.contrast}
    both.update([beside] if beside else [])
    zone = draw_zone(item, rng)
    drawn_with = rng.randrange(_DRAWN_WITH)
    heads = []
    for value in rng.sample(values, 2):
        # Both are drawn with the same dice, so that nothing else tells them apart.
        dice = random.Random(drawn_with)  # noqa: S311  a question needs no secret
        varied = replace(item, vary={**{one: tuple(each) for one, each in both.items()}, name: (value,)})
        heads.append(asking.beliefs.head(draw_head(varied, zone, rulebook, dice)))
    one, other = heads
    if not all(is_asked_on(head, item.decision) for head in heads):
        return None
    decided = (one.decide(item.decision, zone), other.decide(item.decision, zone))
    if not all(is_clear_cut(asking.beliefs, each) for each in decided):
        return None
    return TwoHeads((one, other), zone, decided, name)


def with_held(asking: Asking, two: TwoHeads) -> TwoHeads:
    """Add what wrong ideas decide on two heads."""
    decision = asking.item.decision
    first, second = (
        {
            idea: value
            for value, ideas in asking.beliefs.reached(head.consultation, decision, two.zone).items()
            for idea in ideas
        }
        for head in two.heads
    )
    held: dict[Pair, tuple[str, ...]] = {}
    for idea in asking.beliefs.touching(decision):
        if idea not in first or idea not in second:
            continue
        pair = (first[idea], second[idea])
        if not two.is_right(pair) and no_answer(decision).isdisjoint(pair):
            held[pair] = (*held.get(pair, ()), idea)
    return replace(two, held=held)


def wrong_pairs(asking: Asking, two: TwoHeads) -> list[Pair]:
    """Choose wrong pairs, so that as many options change as stay and each value stands in as many.

    Best are the four pairs of two values, the key among them: then neither a value nor a change tells it.

    Args:
        asking: The item.
        two: The heads, with what is held.

    Returns:
        At most three; of these two at least are held, if two are.
    """
    met, held, rng = answers_beside(asking.beliefs, asking.item), sorted(two.held, key=str), asking.rng
    rng.shuffle(held)
    seconds = sorted({value for pair in held for value in pair} - {two.key[0]}, key=str)
    rng.shuffle(seconds)
    seconds = [two.key[1]] if changes(two.key) else sorted(seconds, key=lambda value: -met.get(value, 0))
    for second in seconds:
        square = _not_right(two, (two.key[0], second))
        if len(square) == WRONG_PAIRS and len(two.held.keys() & {*square}) >= FEWEST_WRONG:
            return square
    values = sorted({value for pair in (two.key, *held) for value in pair}, key=str)
    others = [pair for pair in _not_right(two, values) if pair not in two.held]
    rng.shuffle(others)
    # What is right on other heads goes before what never is.
    held.sort(key=lambda pair: -sum(value in met for value in pair))
    others.sort(key=lambda pair: -sum(value in met for value in pair))
    chosen = [*_of(held, two, like=False)[:1], *_of(held, two, like=True)[:1]]
    chosen = chosen if len(chosen) >= FEWEST_WRONG else held[:FEWEST_WRONG]
    waiting = [pair for pair in (*held, *others) if pair not in chosen]
    # Two that change and two that stay, the key among them.
    lacking = len(_of(chosen, two, like=False)) < FEWEST_WRONG
    best = _of(waiting, two, like=not lacking)
    return [*chosen, *best, *waiting][:WRONG_PAIRS]


def _not_right(two: TwoHeads, values: Sequence[Value]) -> list[Pair]:
    pairs = ((one, other) for one in values for other in values)
    return [pair for pair in pairs if pair != two.key and not two.is_right(pair)]


def _of(pairs: Iterable[Pair], two: TwoHeads, *, like: bool) -> list[Pair]:
    """Keep the pairs that change, or stay, as the key does; or those that do not."""
    return [pair for pair in pairs if (changes(pair) == changes(two.key)) == like]
