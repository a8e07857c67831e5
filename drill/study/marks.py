"""Marks of a mock exam: by topic, each with the interval in which the true share may lie."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from drill.bank.question import Option, Question

# The normal quantile that leaves a twentieth outside, half on each side.
_Z = 1.959963984540054


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What became of one item of an exam.

    Attributes:
        question: The item.
        option: What was chosen; None where it was left open.
    """

    question: Question
    option: Option | None

    @property
    def right(self) -> bool:
        """Whether it brings the mark."""
        return self.option is not None and self.option.correct


@dataclass(frozen=True, slots=True, kw_only=True)
class TopicMarks:
    """Marks of one topic, or of all.

    Attributes:
        topic: The topic; empty for all.
        right: Items that were right.
        items: Items that were asked.
        low: Lower end of the interval of the share, 0 to 1.
        high: Its upper end.
    """

    topic: str
    right: int
    items: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """Share of the marks, 0 to 1."""
        return self.right / self.items if self.items else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What a mock exam came to.

    Attributes:
        all: All items together.
        topics: Topic by topic, in the order met in the exam.
        left_open: Items without an answer; they bring no mark.
        ideas: Wrong ideas that the answers showed, with how many did, the most frequent first.
        pass_mark: Share of the marks that passes, 0 to 1.
    """

    all: TopicMarks
    topics: tuple[TopicMarks, ...]
    left_open: int
    ideas: Mapping[str, int]
    pass_mark: float

    @property
    def passes(self) -> bool:
        """Whether the marks reach the pass mark."""
        # A share of 0.7 of 10 is 7, whatever a machine makes of 0.7 * 10.
        return self.all.right + 1e-9 >= self.pass_mark * self.all.items


def mark(given: Sequence[Given], *, pass_mark: float) -> Marks:
    """Mark an exam.

    Args:
        given: Every item; one that was left open counts as wrong.
        pass_mark: Share of the marks that passes, 0 to 1.

    Returns:
        The marks.
    """
    topics: dict[str, list[Given]] = {}
    for one in given:
        topics.setdefault(one.question.topic, []).append(one)
    # Several ideas may give one option; the likeliest stands first.
    ideas = Counter(one.option.misconceptions[0] for one in given if one.option and one.option.misconceptions)
    return Marks(
        all=_topic_marks("", given),
        topics=tuple(_topic_marks(topic, ones) for topic, ones in topics.items()),
        left_open=sum(one.option is None for one in given),
        ideas=dict(sorted(ideas.items(), key=lambda pair: (-pair[1], pair[0]))),
        pass_mark=pass_mark,
    )


def wilson_interval(right: int, items: int) -> tuple[float, float]:
    """Give the interval in which the true share of right answers lies, 95 times in 100.

    Args:
        right: Right answers.
        items: Answers.

    Returns:
        Its two ends, 0 to 1; all of it where nothing was asked.

    Source:
        Wilson, JASA 22, 209-212, 1927; Brown, Cai, DasGupta, Statist. Sci. 16, 101-133, 2001 (second-hand).
    """
    if not items:
        return 0.0, 1.0
    share, z2 = right / items, _Z * _Z
    middle = share + z2 / (2 * items)
    half = _Z * sqrt(share * (1 - share) / items + z2 / (4 * items * items))
    whole = 1 + z2 / items
    return max(0.0, (middle - half) / whole), min(1.0, (middle + half) / whole)


def _topic_marks(topic: str, given: Iterable[Given]) -> TopicMarks:
    ones = tuple(given)
    right = sum(one.right for one in ones)
    low, high = wilson_interval(right, len(ones))
    return TopicMarks(topic=topic, right=right, items=len(ones), low=low, high=high)
