"""One student's session on one device: the sitting, joined with the book, the log and the clock.

Every front drives a student's work through this one object, so that no screen can forget to keep an answer.
An attempt is in the log before its reveal can be seen, and a sitting that was cut off goes on where it stood,
on the same study day.
"""

import json
import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cached_property

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.make import QuestionMaker
from drill.bank.question import Question
from drill.basis.plain import to_plain
from drill.memory.attempt import Attempt, Certainty, study_day
from drill.memory.choose import Choice, rank_skills
from drill.memory.recall import Memory, add_attempt
from drill.study.open_sitting import OpenSitting, SittingLog, read_kept
from drill.study.sitting import (
    Goal,
    Sitting,
    begin,
    choose_option,
    go_on,
    question_for,
    say_certainty,
    take_back,
)
from drill.study.standing import exam_day, skills_by_topic

OPEN_SITTING = "open_sitting"
GOAL = "goal"
TWELVE_QUESTIONS = Goal(questions=12)
FIVE_MINUTES = Goal(minutes=5)


class Session:
    """A student at work.

    Args:
        book: What is asked.
        log: Where the attempts are kept.
        student: Who it is.
        device: Where.
        clock: Gives the time, aware, in the local time of the place: the study day turns by it.
        rng: For the attempts' ids: on a device the system's own source.
        goal: How long a sitting lasts, unless the student chose otherwise before.
    """

    def __init__(
        self,
        book: Book,
        *,
        log: SittingLog,
        student: str,
        device: str,
        clock: Callable[[], datetime],
        rng: random.Random,
        goal: Goal = TWELVE_QUESTIONS,
    ) -> None:
        self.book, self.student, self.device = book, student, device
        self._log, self._clock, self.rng = log, clock, rng
        self.goal = read_kept(Goal, log.kept(GOAL)) or goal
        self.sitting: Sitting | None = None
        self._open: OpenSitting | None = None
        self._paused: datetime | None = None

    @cached_property
    def maker(self) -> QuestionMaker:
        """Makes the book's questions; made when the first one is asked for."""
        return QuestionMaker(Beliefs(self.book))

    @cached_property
    def memories(self) -> dict[str, Memory]:
        """What the student's attempts add up to; each answer is added as it is given."""
        return self._log.memories(self.student)

    @property
    def now(self) -> datetime:
        """The time, in UTC."""
        return self._clock().astimezone(UTC)

    @property
    def day(self) -> int:
        """Study day; a sitting keeps the one on which it began."""
        local = self._clock()
        return study_day(local, tz_offset=local.utcoffset() or timedelta(0))

    @property
    def minutes_used(self) -> float:
        """Minutes of the sitting so far, without the time it was put aside."""
        return 0.0 if self.sitting is None else (self.now - self.sitting.started).total_seconds() / 60

    @property
    def asked(self) -> Mapping[str, tuple[str, ...]]:
        """The decisions answered in this sitting, each with the wrong ideas that the answer showed."""
        return self._open.asked if self._open else {}

    def coming(self) -> tuple[Choice, ...]:
        """Rank the decisions that may be asked today, best first, each with the reason why."""
        return rank_skills(
            self.memories,
            skills_by_topic=skills_by_topic(self.book),
            today=self.day,
            exam_day=exam_day(self.book),
        )

    def open_sitting(self) -> OpenSitting | None:
        """Give the sitting of today that was cut off or put aside, if there is one."""
        kept: OpenSitting | None = read_kept(OpenSitting, self._log.kept(OPEN_SITTING))
        if kept is None or kept.student != self.student or kept.day != self.day:
            return None
        asked = {skill: ideas for skill, ideas in kept.asked.items() if self._was_asked(skill)}
        return replace(kept, asked=asked)

    def prefer(self, goal: Goal) -> None:
        """Keep how long this student's sittings last from now on.

        Args:
            goal: The goal chosen.
        """
        self._log.keep(GOAL, json.dumps(to_plain(goal)))
        self.goal = goal

    def start(self, *, topic: str | None = None) -> Sitting:
        """Start a new sitting; one that was open is over.

        Args:
            topic: Ask this topic only; None for all.

        Returns:
            The sitting with its first question, or done where nothing is left to ask today.
        """
        return self._begin(
            OpenSitting(
                student=self.student, day=self.day, goal=self.goal, used_s=0.0, topic=topic or "", asked={}
            )
        )

    def resume(self) -> Sitting | None:
        """Take up the open sitting of today.

        Returns:
            The sitting with the count and the time that it had; None where none is open.
        """
        kept = self.open_sitting()
        return None if kept is None else self._begin(kept)

    def choose(self, answer: str) -> Sitting:
        """Take the student's answer; it may be changed until the certainty is said.

        Args:
            answer: In the question's own form (:func:`drill.study.sitting.choose_option`).

        Returns:
            The sitting.

        Raises:
            KeyError: If the question has no such option.
            ValueError: If there is no sitting, or it is no such number, order or place.
        """
        self.sitting = choose_option(self._sitting(), answer)
        return self.sitting

    def take_back(self) -> Sitting:
        """Take the answer back, as long as no certainty is said, and give the sitting."""
        self.sitting = take_back(self._sitting())
        return self.sitting

    def say_certainty(self, certainty: Certainty) -> Sitting:
        """Take how sure the student is, and keep the attempt; only then is the reveal open.

        Args:
            certainty: ``low``, ``middle`` or ``high``.

        Returns:
            The sitting in the phase ``reveal``.

        Raises:
            ValueError: If no choice waits for it.
        """
        sitting = self._sitting()
        after, attempt = say_certainty(sitting, certainty, now=self.now, rng=self.rng)
        kept = self._keep_open(sitting, {**self.asked, attempt.skill: attempt.misconceptions})
        self.keep(attempt)
        self.sitting, self._open = after, kept
        return after

    def keep(self, attempt: Attempt) -> None:
        """Keep an attempt; when this returns, it is in the log.

        Args:
            attempt: Of this student.
        """
        memory = add_attempt(self.memories.get(attempt.skill), attempt)
        self._log.append(attempt)
        self.memories[attempt.skill] = memory

    def go_on(self) -> Sitting:
        """Ask the next question, or end the sitting.

        Returns:
            The sitting with its next question; done where its goal is reached or nothing is left today.

        Raises:
            ValueError: If there is no sitting.
        """
        self.sitting = go_on(self.maker, self._sitting(), now=self.now)
        if self.sitting.phase == "done":
            self._log.forget(OPEN_SITTING)
        return self.sitting

    def put_aside(self) -> None:
        """Leave the sitting; it can be taken up again on the same study day."""
        if self.sitting is not None and self.sitting.phase != "done":
            self._keep_open(self.sitting, self.asked)
        self.sitting = None

    def pause(self) -> None:
        """Stop the clock of the sitting, as when the screen goes dark; what matters is kept."""
        if self.sitting is not None and self.sitting.phase != "done" and self._paused is None:
            self._paused = self.now
            self._keep_open(self.sitting, self.asked)

    def unpause(self) -> None:
        """Let the clock of the sitting run on; the time between counts neither for it nor for an answer."""
        if self._paused is not None and self.sitting is not None:
            away = max(timedelta(0), self.now - self._paused)
            shown = self.sitting.shown
            self.sitting = replace(
                self.sitting,
                started=self.sitting.started + away,
                shown=None if shown is None else shown + away,
            )
        self._paused = None

    def questions_asked(self) -> tuple[Question, ...]:
        """Give the questions answered in this sitting, those from before it was cut off among them."""
        sitting = self._sitting()
        known = {one.question.skill: one.question for one in sitting.answered}
        made = (
            known.get(skill) or question_for(self.maker, skill, student=self.student, day=sitting.day)
            for skill in self.asked
            if skill in self.book.skills
        )
        return tuple(question for question in made if question is not None)

    def _begin(self, kept: OpenSitting) -> Sitting:
        now = self.now
        self._open = kept
        self.sitting = begin(
            self.maker,
            student=self.student,
            device=self.device,
            day=kept.day,
            goal=kept.goal,
            now=now,
            memories=self.memories,
            started=now - timedelta(seconds=kept.used_s),
            before=len(kept.asked),
            topic=kept.topic or None,
        )
        if self.sitting.phase == "done":
            self._log.forget(OPEN_SITTING)
        else:
            self._keep_open(self.sitting, kept.asked)
        return self.sitting

    def _keep_open(self, sitting: Sitting, asked: Mapping[str, tuple[str, ...]]) -> OpenSitting:
        used_s = max(0.0, (self.now - sitting.started).total_seconds())
        topic = self._open.topic if self._open else ""
        kept = OpenSitting(
            student=sitting.student,
            day=sitting.day,
            goal=sitting.goal,
            used_s=used_s,
            topic=topic,
            asked=asked,
        )
        self._log.keep(OPEN_SITTING, json.dumps(to_plain(kept)))
        return kept

    def _was_asked(self, skill: str) -> bool:
        memory = self.memories.get(skill)
        return memory is not None and memory.last_day >= self.day

    def _sitting(self) -> Sitting:
        if self.sitting is None:
            raise ValueError("there is no sitting")
        return self.sitting
