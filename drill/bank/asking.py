"""What a maker of questions works on: an item, a seed, and the book it stands in."""

import random
from dataclasses import dataclass

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.item import Item
from drill.bank.options import lettered
from drill.bank.question import AnswerForm, Feedback, Option, Piece, Question
from drill.service.consultation import Consultation
from drill.service.shapes import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """One item to be asked once.

    Attributes:
        beliefs: The book's wrong ideas at work.
        item: The item.
        seed: What the generator was made of.
        rng: The seed's generator.
    """

    beliefs: Beliefs
    item: Item
    seed: int
    rng: random.Random

    @property
    def book(self) -> Book:
        """The book that the item stands in."""
        return self.beliefs.book

    def question(
        self,
        *,
        ask: str,
        options: list[Option],
        explanation: str,
        source: str,
        facts: tuple[str, ...] = (),
        consultation: Consultation | None = None,
        decision: str | None = None,
        zone: str | None = None,
        answer_as: AnswerForm = "option",
        unit: str = "",
        tolerance: float = 0.0,
        pieces: tuple[Piece, ...] = (),
        figure: Figure | None = None,
        otherwise: Feedback | None = None,
        rows: tuple[str, ...] = (),
        limits: tuple[str, ...] = (),
        second: Consultation | None = None,
    ) -> Question:
        """Give the question; the options are put in a fair order and get their letters."""
        item = self.item
        return Question(
            item=item.id,
            skill=item.skill,
            topic=item.topic,
            kind=item.kind,
            seed=self.seed,
            facts=facts,
            ask=ask,
            consultation=consultation,
            decision=decision,
            zone=zone,
            options=lettered(options, self.rng),
            explanation=explanation,
            source=source,
            rulebook=self.book.rulebook.digest,
            answer_as=answer_as,
            unit=unit,
            tolerance=tolerance,
            pieces=pieces,
            figure=figure,
            otherwise=otherwise,
            rows=rows or item.about_rows,
            limits=limits or item.about_limits,
            second=second,
        )
