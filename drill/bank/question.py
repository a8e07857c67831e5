"""A question as a student meets it, and its form for other programs."""

from dataclasses import dataclass
from typing import Any

from drill.basis.plain import to_plain
from drill.rulebook.domain import Value
from drill.service.consultation import Consultation, consultation_to_plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Feedback:
    """What is said of an option, in its form.

    Attributes:
        opening: ``Stop.`` for an unsafe choice, else empty.
        decides: The decision, and the one fact of this head that decides.
        seen: What the client would see.
        right_when: When this option would be right.
        look: What to look at next time.
    """

    opening: str = ""
    decides: str
    seen: str = ""
    right_when: str = ""
    look: str = ""

    @property
    def text(self) -> str:
        """All of it, at most 60 words: the last parts give way to the first."""
        parts = [self.opening, self.decides]
        words = len(" ".join(parts).split())
        for part in (self.seen, self.look, self.right_when):
            words += len(part.split())
            if words <= MOST_WORDS and part:
                parts.append(part)
        return " ".join(part for part in parts if part)


MOST_WORDS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One option.

    Attributes:
        id: Its letter.
        text: As shown.
        value: The decision's value, in the plan's own type; a fact's text.
        correct: Whether it is the key.
        misconceptions: Every wrong idea that gives it, the likeliest first.
        feedback: What is said when it is chosen.
    """

    id: str
    text: str
    value: Value
    correct: bool
    misconceptions: tuple[str, ...]
    feedback: Feedback


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question.

    Attributes:
        item: Id of its item.
        skill: The decision to hold.
        topic: Its topic.
        kind: How it is asked.
        seed: What it was drawn with.
        facts: The head, a fact a line, in a fixed order; empty for a fact item.
        ask: The question itself.
        consultation: The head; None for a fact.
        decision: Dotted path in the plan; None for a fact.
        zone: The zone asked; None for the head and for a fact.
        options: Three to five, in the order shown.
        explanation: Why the key is right.
        source: Where that stands.
        rulebook: Digest of the rules it was made under.
    """

    item: str
    skill: str
    topic: str
    kind: str
    seed: int
    facts: tuple[str, ...]
    ask: str
    consultation: Consultation | None
    decision: str | None
    zone: str | None
    options: tuple[Option, ...]
    explanation: str
    source: str
    rulebook: str

    @property
    def answer(self) -> Option:
        """The key."""
        return next(option for option in self.options if option.correct)

    @property
    def stem(self) -> str:
        """The head and the question in one text."""
        return " ".join((*self.facts, self.ask))

    def option(self, option_id: str) -> Option:
        """Find an option by its letter.

        Raises:
            KeyError: If there is none.
        """
        for option in self.options:
            if option.id == option_id:
                return option
        raise KeyError(option_id)


def question_to_plain(question: Question) -> dict[str, Any]:
    """Write a question for other programs, in the names of the public contract."""
    consultation = question.consultation
    return {
        "item": question.item,
        "skill": question.skill,
        "topic": question.topic,
        "kind": question.kind,
        "seed": question.seed,
        "stem": question.stem,
        "consultation": None if consultation is None else consultation_to_plain(consultation),
        "decision": question.decision,
        "zone": question.zone,
        "options": [
            {
                "id": option.id,
                "text": option.text,
                "value": to_plain(option.value),
                "correct": option.correct,
                "misconception": option.misconceptions[0] if option.misconceptions else None,
                "misconceptions": list(option.misconceptions),
                "explanation": option.feedback.text,
            }
            for option in question.options
        ],
        "answer": question.answer.id,
        "explanation": question.explanation,
        "source": question.source,
        "rulebook": question.rulebook,
    }
