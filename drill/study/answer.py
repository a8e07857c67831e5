"""Answers: in words, how one is to be written, and as the log keeps it."""

import random
from datetime import datetime

from drill.bank.question import Option, Question
from drill.basis.length import number_text
from drill.basis.quantity import HOW_TO_WRITE
from drill.basis.words import say
from drill.memory.attempt import Attempt, Certainty, new_attempt_id


def answer_words(question: Question, option: Option) -> str:
    """Say what was answered.

    Args:
        question: The question.
        option: What the answer amounts to, as it was marked.

    Returns:
        The option's text; a number with its unit; steps in the order in which they were put.
    """
    if question.answer_as == "number" and not isinstance(option.value, str):
        return number_words(option.value, question.unit)
    if question.answer_as == "order" and not option.id:
        texts = {piece.id: piece.text for piece in question.pieces}
        return "; ".join(texts[letter] for letter in str(option.value))
    return option.text


def attempt_on(
    question: Question,
    option: Option,
    *,
    student: str,
    device: str,
    day: int,
    now: datetime,
    shown: datetime,
    rng: random.Random,
    certainty: Certainty | None,
) -> Attempt:
    """Give an answer as it goes into the log.

    Args:
        question: The question.
        option: What the answer amounts to, as it was marked.
        student: Who answered.
        device: Where.
        day: Study day.
        now: The time.
        shown: When the question was shown.
        rng: For the attempt's id: on a device the system's own source.
        certainty: How sure; None in an exam, where nobody is asked.

    Returns:
        The attempt.
    """
    return Attempt(
        id=new_attempt_id(now, rng=rng),
        student=student,
        device=device,
        at=now,
        day=day,
        skill=question.skill,
        item=question.item,
        seed=question.seed,
        rulebook=question.rulebook,
        choice=str(option.value),
        correct=option.correct,
        misconceptions=option.misconceptions,
        certainty=certainty,
        seconds=max(0.0, (now - shown).total_seconds()),
        setting="exam" if certainty is None else "drill",
    )


def key_label(question: Question) -> str:
    """Say what the key is called when it is told.

    Args:
        question: The question.

    Returns:
        A few words: a decision has a first choice; a fact, a fault or a cause only holds or does not.
    """
    return say("First choice here") if question.decision else say("What holds")


def number_words(number: float, unit: str) -> str:
    """Say a number with its unit.

    Args:
        number: The number.
        unit: As a question names it.

    Returns:
        For example ``14.5 mm``; of a plain count the number alone.
    """
    written = number_text(number, digits=2)
    return written if unit == "ratio" else say("{number} {unit}", number=written, unit=say(unit))


def how_to_answer(question: Question) -> str:
    """Say how an answer is written that is no option's letter.

    Args:
        question: The question.

    Returns:
        A clause, such as ``a length with its unit, such as 9.5 mm``.
    """
    if question.answer_as == "number":
        return say(HOW_TO_WRITE[question.unit])
    if question.answer_as == "order":
        return say("the letters of all steps in order, each once")
    return say("one of the letters on the head")
