"""A sitting: one question after the other, as values.

Each step takes the sitting and what happened, and gives the sitting that follows; nothing is read, written
or drawn here. The shell keeps the attempt that a step returns before it shows what follows.
"""

import hashlib
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from drill.bank.make import QuestionMaker
from drill.bank.question import Option, Question
from drill.memory.attempt import Attempt, Certainty
from drill.memory.choose import Choice, choose_skill, rank_skills
from drill.memory.recall import Memory
from drill.study.answer import attempt_on
from drill.study.standing import exam_day, skills_by_topic

Phase = Literal["question", "certainty", "reveal", "done"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """How long a sitting lasts.

    Attributes:
        questions: Questions to answer; None for no such bound.
        minutes: Minutes after which no new question starts; None for no such bound.
    """

    questions: int | None = None
    minutes: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """A question that was answered.

    Attributes:
        question: The question.
        option: What was chosen.
        attempt: As it goes into the log.
    """

    question: Question
    option: Option
    attempt: Attempt


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """Where a student stands in a sitting.

    Attributes:
        student: Who sits.
        device: Where.
        day: Study day.
        goal: How long it lasts.
        started: When it started.
        phase: ``question``, ``certainty``, ``reveal`` or ``done``.
        waiting: Decisions still to ask today, best first.
        question: The question shown; None when done.
        reason: Why it is asked; None when done.
        shown: When it was shown.
        chosen: The answer as it was given, in the question's own form; empty before it.
        before: Questions of this sitting that were answered before it was resumed.
        answered: Questions answered since.
    """

    student: str
    device: str
    day: int
    goal: Goal
    started: datetime
    phase: Phase
    waiting: tuple[Choice, ...]
    question: Question | None = None
    reason: Choice | None = None
    shown: datetime | None = None
    chosen: str = ""
    before: int = 0
    answered: tuple[Answered, ...] = ()

    @property
    def count(self) -> int:
        """Questions answered in this sitting so far."""
        return self.before + len(self.answered)

    @property
    def last(self) -> Answered | None:
        """The question answered last."""
        return self.answered[-1] if self.answered else None


def begin(
    maker: QuestionMaker,
    *,
    student: str,
    device: str,
    day: int,
    goal: Goal,
    now: datetime,
    memories: Mapping[str, Memory],
    started: datetime | None = None,
    before: int = 0,
    topic: str | None = None,
) -> Sitting:
    """Begin a sitting, or take one up again.

    Args:
        maker: Makes the book's questions.
        student: Who sits.
        device: Where.
        day: Study day.
        goal: How long it lasts.
        now: The time.
        memories: What the student's attempts add up to, by decision to hold.
        started: When it started, for one that is taken up again.
        before: Its questions that are answered already.
        topic: Ask this topic only; None for all.

    Returns:
        The sitting with its first question, or done where nothing is left to ask today.
    """
    waiting = rank_skills(
        memories,
        skills_by_topic=skills_by_topic(maker.book, topic=topic),
        today=day,
        exam_day=exam_day(maker.book),
    )
    sitting = Sitting(
        student=student,
        device=device,
        day=day,
        goal=goal,
        started=started or now,
        phase="question",
        waiting=waiting,
        before=before,
    )
    return _ask_next(maker, sitting, now)


def choose_option(sitting: Sitting, answer: str) -> Sitting:
    """Take the student's answer; certainty is asked next.

    Args:
        sitting: In the phase ``question``, or ``certainty`` where the answer is changed.
        answer: In the question's own form: an option's letter, a number with its unit, the letters of the
            steps in order, or a place of the figure.

    Returns:
        The sitting in the phase ``certainty``; the sitting given where no question is open.

    Raises:
        KeyError: If the question has no such option.
        ValueError: If it is no such number, order or place.
    """
    if sitting.question is None or sitting.phase not in ("question", "certainty"):
        return sitting
    sitting.question.marked(answer)
    return replace(sitting, phase="certainty", chosen=answer)


def take_back(sitting: Sitting) -> Sitting:
    """Take an answer back before the certainty is said.

    Args:
        sitting: In the phase ``certainty``.

    Returns:
        The sitting in the phase ``question``, nothing chosen; the sitting given in any other phase.
    """
    return replace(sitting, phase="question", chosen="") if sitting.phase == "certainty" else sitting


def say_certainty(
    sitting: Sitting, certainty: Certainty, *, now: datetime, rng: random.Random
) -> tuple[Sitting, Attempt]:
    """Take how sure the student is, and mark the answer.

    Args:
        sitting: In the phase ``certainty``.
        certainty: ``low``, ``middle`` or ``high``.
        now: The time.
        rng: For the attempt's id: on a device the system's own source.

    Returns:
        The sitting in the phase ``reveal``, and the attempt to keep before it is shown.

    Raises:
        ValueError: If the sitting is in another phase.
    """
    if sitting.question is None or sitting.phase != "certainty":
        raise ValueError(f"no answer to mark in the phase {sitting.phase}")
    question, option = sitting.question, sitting.question.marked(sitting.chosen)
    attempt = attempt_on(
        question,
        option,
        student=sitting.student,
        device=sitting.device,
        day=sitting.day,
        now=now,
        shown=sitting.shown or now,
        rng=rng,
        certainty=certainty,
    )
    answered = Answered(question=question, option=option, attempt=attempt)
    return replace(sitting, phase="reveal", answered=(*sitting.answered, answered)), attempt


def go_on(maker: QuestionMaker, sitting: Sitting, *, now: datetime) -> Sitting:
    """Ask the next question, or end the sitting.

    Args:
        maker: Makes the book's questions.
        sitting: In the phase ``reveal``.
        now: The time.

    Returns:
        The sitting with its next question; done where its goal is reached or nothing is left to ask today.
    """
    if sitting.phase != "reveal":
        return sitting
    return _ask_next(maker, sitting, now)


def question_for(maker: QuestionMaker, skill: str, *, student: str, day: int) -> Question | None:
    """Make the question of a decision for one student and day.

    The same student meets the same question again when a sitting is taken up on the same day, and a fresh
    one on any other day.

    Args:
        maker: Makes the book's questions.
        skill: The decision to hold.
        student: Who is asked.
        day: Study day.

    Returns:
        The question; None where none of the decision's items can be asked.
    """
    items = maker.book.skills[skill]
    start = _number_of(student, day, skill)
    for step in range(len(items)):
        item = items[(start + step) % len(items)]
        question = maker.make(item, start % 1_000_000)
        if question is not None:
            return question
    return None


def _ask_next(maker: QuestionMaker, sitting: Sitting, now: datetime) -> Sitting:
    waiting: Sequence[Choice] = sitting.waiting
    last = sitting.last.question.topic if sitting.last else None
    while not _is_over(sitting, now):
        choice = choose_skill(waiting, last_topic=last)
        if choice is None:
            break
        waiting = tuple(one for one in waiting if one is not choice)
        question = question_for(maker, choice.skill, student=sitting.student, day=sitting.day)
        if question is not None:
            return replace(
                sitting,
                phase="question",
                waiting=tuple(waiting),
                question=question,
                reason=choice,
                shown=now,
                chosen="",
            )
    return replace(sitting, phase="done", question=None, reason=None, shown=None, chosen="")


def _is_over(sitting: Sitting, now: datetime) -> bool:
    goal = sitting.goal
    if goal.questions is not None and sitting.count >= goal.questions:
        return True
    return goal.minutes is not None and now - sitting.started >= timedelta(minutes=goal.minutes)


def _number_of(*parts: object) -> int:
    text = "\x1f".join(map(str, parts))
    return int.from_bytes(hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()[:6], "big")
