"""A mock exam as values: items one after the other against the clock, and no reasons until the end.

Each step takes the exam and what happened, and gives the exam that follows. Nobody is asked how sure they
are.
"""

import random
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from drill.bank.question import Question
from drill.memory.attempt import Attempt
from drill.study.answer import attempt_on
from drill.study.marks import Given


@dataclass(frozen=True, slots=True, kw_only=True)
class Exam:
    """Where a student stands in a mock exam.

    Attributes:
        student: Who sits.
        device: Where.
        day: Study day.
        started: When it started.
        seconds: Seconds for the whole paper.
        paper: Its items.
        given: What became of the items so far.
        shown: When the present item was shown.
        chosen: Letter of the option chosen; empty before the choice.
        ended: When it ended; None while it goes on.
    """

    student: str
    device: str
    day: int
    started: datetime
    seconds: float
    paper: tuple[Question, ...]
    given: tuple[Given, ...] = ()
    shown: datetime
    chosen: str = ""
    ended: datetime | None = None

    @property
    def question(self) -> Question | None:
        """The present item; None when it is over."""
        return None if self.ended or len(self.given) == len(self.paper) else self.paper[len(self.given)]

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""
        return self.question is None

    @property
    def answered(self) -> int:
        """Items answered so far."""
        return sum(one.option is not None for one in self.given)

    @property
    def all_given(self) -> tuple[Given, ...]:
        """What became of every item: those that were not reached are open."""
        rest = (Given(question=one, option=None) for one in self.paper[len(self.given) :])
        return (*self.given, *rest)

    def seconds_left(self, now: datetime) -> float:
        """Give the seconds that are left, 0 when the time is over."""
        return max(0.0, self.seconds - (now - self.started).total_seconds())


def begin_exam(
    paper: tuple[Question, ...], *, student: str, device: str, day: int, seconds_an_item: float, now: datetime
) -> Exam:
    """Begin a mock exam.

    Args:
        paper: Its items.
        student: Who sits.
        device: Where.
        day: Study day.
        seconds_an_item: Seconds that each item adds to the time of the whole.
        now: The time.

    Returns:
        The exam with its first item; over where the paper is empty.
    """
    return Exam(
        student=student,
        device=device,
        day=day,
        started=now,
        seconds=seconds_an_item * len(paper),
        paper=paper,
        shown=now,
    )


def mark_choice(exam: Exam, option_id: str) -> Exam:
    """Take a choice; it may be changed until the next item is asked for.

    Args:
        exam: The exam.
        option_id: Letter of the option.

    Returns:
        The exam; the one given where it is over.

    Raises:
        KeyError: If the item has no such option.
    """
    if exam.question is None:
        return exam
    return replace(exam, chosen=exam.question.option(option_id).id)


def next_item(exam: Exam, *, now: datetime, rng: random.Random) -> tuple[Exam, Attempt | None]:
    """Hand in the choice and go to the next item; without a choice the item is left open.

    Args:
        exam: The exam.
        now: The time; once it is over, what was chosen after it does not count.
        rng: For the attempt's id.

    Returns:
        The exam that follows, and the attempt to keep; None where the item was left open.
    """
    question = exam.question
    if question is None:
        return exam, None
    if not exam.seconds_left(now):
        return end_exam(exam, now=now), None
    if not exam.chosen:
        given = Given(question=question, option=None)
        return _shown(replace(exam, given=(*exam.given, given)), now), None
    option = question.option(exam.chosen)
    attempt = attempt_on(
        question,
        option,
        student=exam.student,
        device=exam.device,
        day=exam.day,
        now=now,
        shown=exam.shown,
        rng=rng,
        certainty=None,
    )
    given = Given(question=question, option=option)
    return _shown(replace(exam, given=(*exam.given, given)), now), attempt


def end_exam(exam: Exam, *, now: datetime) -> Exam:
    """End the exam where it stands, as when the time is over or the student leaves.

    Args:
        exam: The exam.
        now: The time.

    Returns:
        The exam, over; what was not handed in stays open.
    """
    return exam if exam.ended else replace(exam, ended=min(now, _close(exam)), chosen="")


def _shown(exam: Exam, now: datetime) -> Exam:
    done = len(exam.given) == len(exam.paper)
    return replace(exam, shown=now, chosen="", ended=now if done else None)


def _close(exam: Exam) -> datetime:
    return exam.started + timedelta(seconds=exam.seconds)
