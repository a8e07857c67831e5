"""A question as a student meets it, and its form for other programs."""

from dataclasses import dataclass, replace
from math import isfinite
from typing import Any, Literal

from drill.bank.picture import Picture
from drill.basis.plain import to_plain
from drill.basis.quantity import quantity_from_text
from drill.rulebook.domain import Value
from drill.service.consultation import Consultation, consultation_to_plain
from drill.service.shapes import Figure

AnswerForm = Literal["option", "number", "order", "place"]


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
class Piece:
    """One step to be put in its place.

    Attributes:
        id: Its letter.
        text: As shown.
    """

    id: str
    text: str


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
        options: Three to five, in the order shown; a number, an order or a place is marked by them too.
        explanation: Why the key is right.
        source: Where that stands.
        rulebook: Digest of the rules it was made under.
        answer_as: How it is answered: by an option's letter, by a number with its unit, by the letters of
            the pieces in order, or by a place of the figure, each of which is an option's value.
        unit: Of a number: ``mm``, ``turns``, ``min``, or ``ratio`` for a plain count.
        tolerance: Of a number: how far off it may be, as a share of the option's value.
        pieces: Steps to put in order, as shuffled.
        figure: What is drawn with it; None where nothing but the head is.
        picture: A school's own picture that is shown with it; None where the item has none.
        second: The second of two heads; None where one is asked.
        otherwise: What is said of an answer that is none of the options; None where there can be none.
        rows: The rows that give its key, as ``decision/row``; of a fact those that it names.
        limits: The safety limits that one of its options would break; of a fact those that it names.
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
    answer_as: AnswerForm = "option"
    unit: str = ""
    tolerance: float = 0.0
    pieces: tuple[Piece, ...] = ()
    figure: Figure | None = None
    otherwise: Feedback | None = None
    rows: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    picture: Picture | None = None
    second: Consultation | None = None

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

    def marked(self, answer: str) -> Option:
        """Read an answer in the question's own form.

        Args:
            answer: An option's letter, always; else a number with its unit, the letters of the pieces in
                order, or a place of the figure.

        Returns:
            The option that the answer amounts to; one without letter and without a wrong idea where it
            amounts to none.

        Raises:
            KeyError: If it is no letter of an option, and the question takes letters only.
            ValueError: If it is no such number, order or place.
        """
        if self.answer_as == "option" or any(option.id == answer for option in self.options):
            return self.option(answer)
        if self.answer_as == "number":
            return self._number(answer)
        return self._order(answer) if self.answer_as == "order" else self._place(answer)

    def _number(self, answer: str) -> Option:
        number = quantity_from_text(answer, self.unit, bare=True)
        if number is None:
            number = quantity_from_text(f"{answer.strip()} {self.unit}", self.unit)
        if number is None or not isfinite(number):
            raise ValueError(f"{answer} is no number in {self.unit}")
        near = [option for option in self.options if self._is_near(number, option)]
        near.sort(key=lambda option: (not option.correct, abs(number - float(str(option.value)))))
        return replace(near[0], text=answer, value=number) if near else self._other(answer, number)

    def _is_near(self, number: float, option: Option) -> bool:
        value = float(str(option.value))
        return abs(number - value) <= abs(value) * self.tolerance

    def _order(self, answer: str) -> Option:
        letters = answer.replace(" ", "").lower()
        if sorted(letters) != sorted(piece.id for piece in self.pieces):
            raise ValueError(f"{answer} does not name each step once")
        return self._of_value(letters)

    def _place(self, answer: str) -> Option:
        if all(option.value != answer for option in self.options):
            raise ValueError(f"{answer} is no place that is marked")
        return self._of_value(answer)

    def _of_value(self, value: str) -> Option:
        found = (option for option in self.options if option.value == value)
        return next(found, self._other(value, value))

    def _other(self, text: str, value: Value) -> Option:
        said = self.otherwise or self.answer.feedback
        return Option(id="", text=text, value=value, correct=False, misconceptions=(), feedback=said)


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
        "answer_as": question.answer_as,
        "unit": question.unit,
        "tolerance": question.tolerance,
        "pieces": [{"id": piece.id, "text": piece.text} for piece in question.pieces],
        "rows": list(question.rows),
        "limits": list(question.limits),
        "picture": None if question.picture is None else _picture_to_plain(question.picture),
        "second_consultation": None if question.second is None else consultation_to_plain(question.second),
    }


def _picture_to_plain(picture: Picture) -> dict[str, Any]:
    return {
        "words": picture.words,
        "kind": picture.kind,
        "width": picture.width_dots,
        "height": picture.height_dots,
        "sha256": picture.sha256,
    }
