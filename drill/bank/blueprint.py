"""How a mock exam is made up: what weighs how much, and how long an item may take."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

UNSTATED_WEIGHT = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A published outline of a theory exam, for the whole trade.

    Attributes:
        title: What it is called.
        source: Where it stands.
        items: Items of the exam.
        minutes: Time for all of them.
        shares: Share of the marks by subject, 0 to 1, together 1.
    """

    title: str = ""
    source: str = ""
    items: int = 110
    minutes: float = 90.0
    shares: Mapping[str, float] = field(default_factory=dict)

    @property
    def seconds_an_item(self) -> int:
        """Whole seconds for an item."""
        return int(self.minutes * 60 / self.items)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blueprint:
    """How a mock exam is made up.

    Attributes:
        outline: The published outline that gives the time.
        weights: How much each topic weighs against the others; one that is left out weighs 1.
        because: Why they are as they are.
        source: Where the weights stand.
    """

    outline: Outline = field(default_factory=Outline)
    weights: Mapping[str, float] = field(default_factory=dict)
    because: str = ""
    source: str = ""

    def weight(self, topic: str) -> float:
        """Give the weight of a topic."""
        return self.weights.get(topic, UNSTATED_WEIGHT)


def deal(count: int, weights: Mapping[str, float], room: Mapping[str, int]) -> dict[str, int]:
    """Deal items out to topics by their weights.

    Args:
        count: Items wanted.
        weights: Weight by topic, 0 or more.
        room: The most items that each topic has.

    Returns:
        Items by topic, in the order of the weights: as many as wanted, or as there is room for in topics that
        weigh something.

    Source:
        method of largest remainders (general mathematics); what a full topic cannot take is dealt again.
    """
    dealt = dict.fromkeys(weights, 0)
    while (left := count - sum(dealt.values())) > 0:
        open_topics = [topic for topic in weights if weights[topic] > 0 and dealt[topic] < room.get(topic, 0)]
        if not open_topics:
            break
        for topic, more in _largest_remainders(left, [(one, weights[one]) for one in open_topics]):
            dealt[topic] = min(room[topic], dealt[topic] + more)
    return dealt


def _largest_remainders(count: int, weights: Sequence[tuple[str, float]]) -> list[tuple[str, int]]:
    whole = sum(weight for _, weight in weights)
    exact = [(topic, count * weight / whole) for topic, weight in weights]
    left = count - sum(int(share) for _, share in exact)
    # Rounded, so that a machine's last digit never decides between two alike.
    first = sorted(range(len(exact)), key=lambda at: (-round(exact[at][1] % 1, 9), at))[:left]
    return [(topic, int(share) + (at in first)) for at, (topic, share) in enumerate(exact)]
