"""The paper of a mock exam: items by the blueprint's weights, each on a head of its own."""

import random
from collections.abc import Iterator

from drill.bank.blueprint import deal
from drill.bank.book import Book
from drill.bank.item import Item
from drill.bank.make import QuestionMaker
from drill.bank.question import Question
from drill.service.head import Head

OPTIONS = 4
USUAL_ITEMS = 40
_SEEDS_AN_ITEM = 12
_LARGEST_SEED = 1_000_000


def exam_weights(book: Book) -> dict[str, float]:
    """Give the weight of each topic: the school's own shares where it states them, else the built-in weights.

    Args:
        book: The book.

    Returns:
        Weight by topic, in deck order; 0 for a topic that a school's shares leave out.
    """
    stated = book.school.blueprint
    return {
        topic: stated.get(topic, 0.0) if stated else book.blueprint.weight(topic) for topic in book.topics
    }


def write_paper(maker: QuestionMaker, *, items: int, seed: int) -> tuple[Question, ...]:
    """Draw up the paper of a mock exam.

    Args:
        maker: Makes the book's questions.
        items: Items wanted.
        seed: Draws items, heads and their order; the same seed gives the same paper.

    Returns:
        Items with four options and one key that is settled, by the weights of the topics, no head and no
        decision twice while others are left; fewer where the book has no more.
    """
    rng = random.Random(f"paper {seed}")  # noqa: S311  a mock exam needs no secret
    weights = exam_weights(maker.book)
    asked = _Asked(maker, rng)
    pools = {topic: asked.of_topic(topic) for topic in weights}
    wanted = deal(items, weights, dict.fromkeys(weights, items))
    paper = {topic: _take(pools[topic], count) for topic, count in wanted.items()}
    # Where a topic ran out, the others make up for it.
    while (missing := items - sum(map(len, paper.values()))) > 0:
        room = {topic: missing for topic in weights if len(paper[topic]) >= wanted[topic]}
        more = deal(missing, {topic: weights[topic] for topic in room}, room)
        if not any(more.values()):
            break
        for topic, count in more.items():
            paper[topic] += _take(pools[topic], count)
            wanted[topic] += count
    drawn = [question for topic in sorted(paper) for question in paper[topic]]
    rng.shuffle(drawn)
    return tuple(drawn)


def _take(pool: Iterator[Question], count: int) -> list[Question]:
    return [question for _, question in zip(range(count), pool, strict=False)]


class _Asked:
    """What is on the paper already."""

    def __init__(self, maker: QuestionMaker, rng: random.Random) -> None:
        self._maker, self._rng = maker, rng
        self._seen: set[str] = set()

    def of_topic(self, topic: str) -> Iterator[Question]:
        """Yield questions of a topic: first one of each decision, then further ones of scenarios."""
        items = [item for item in self._maker.book.items if item.topic == topic and _may_ask(item)]
        self._rng.shuffle(items)
        skills: set[str] = set()
        again = []
        for item in items:
            question = None if item.skill in skills else self._make(item)
            if question is None:
                again.append(item)
            else:
                skills.add(item.skill)
                yield question
        for item in [*again, *items]:
            question = self._make(item)
            if question is not None:
                yield question

    def _make(self, item: Item) -> Question | None:
        for _ in range(1 if item.is_fact else _SEEDS_AN_ITEM):
            question = self._maker.make(item, self._rng.randrange(_LARGEST_SEED))
            if question is None:
                return None
            head = " ".join(question.facts) or item.id
            if head not in self._seen and len(question.options) == OPTIONS and self._is_settled(question):
                self._seen.add(head)
                return question
        return None

    def _is_settled(self, question: Question) -> bool:
        """Tell whether the row that decides is one that no school turns."""
        if question.consultation is None or question.decision is None:
            return True
        rulebook = self._maker.book.rulebook
        table = rulebook.tables.get(question.decision)
        if table is None:
            return True
        head = Head(rulebook, question.consultation, facts=self._maker.beliefs.facts)
        row = table.row(head.decide(question.decision, question.zone).row)
        return row is None or row.standing == "settled"


def _may_ask(item: Item) -> bool:
    return item.kind == "choose" and item.standing == "settled"
