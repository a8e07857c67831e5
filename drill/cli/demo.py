"""Invented students and a few weeks of their made-up answers, so that there is something to look at.

The answers come of a seed: a student who holds a wrong idea chooses what it gives, and lets go of it now and
then when the reason is shown. Their days count back from now, so that nothing goes stale.
"""

import random
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.make import QuestionMaker
from drill.bank.question import Option, Question
from drill.memory.attempt import Attempt, Certainty, study_day
from drill.memory.diagnosis import p_right_from_recall
from drill.memory.recall import Memory, fold_attempts, recall_on
from drill.study.session import Session
from drill.study.sitting import Goal

_PACKAGE = Path(__file__).parent.parent
_INSIDE, _BESIDE = _PACKAGE / "demo", _PACKAGE.parent / "assets" / "demo"
# A checkout has its demo beside the package, an installed copy inside it.
DEMO_SCHOOL = _INSIDE if _INSIDE.is_dir() else _BESIDE
DEMO_STUDENT = "Ilka (invented)"
DEMO_SEED = 7

_AFTERNOON_H = 16
# Who holds a wrong idea chooses otherwise so often, and lets go of it so often when the reason is shown.
_SLIP = 0.2
_UNLEARNED = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """What an invented student is like.

    Attributes:
        name: The name in the log.
        known: Chance of a right answer at what was never asked.
        ideas: How many wrong ideas the student brings along.
        weeks: Since when the student has been answering.
        days_a_week: On how many days of a week, up to 7.
        questions: Answers a day.
    """

    name: str
    known: float
    ideas: int
    weeks: int
    days_a_week: int
    questions: int


PROFILES = (
    Profile(name=DEMO_STUDENT, known=0.5, ideas=16, weeks=4, days_a_week=3, questions=10),
    Profile(name="Bram (invented)", known=0.35, ideas=30, weeks=4, days_a_week=2, questions=9),
    Profile(name="Saskia (invented)", known=0.7, ideas=8, weeks=4, days_a_week=3, questions=10),
    Profile(name="Yusuf (invented)", known=0.55, ideas=14, weeks=2, days_a_week=3, questions=8),
)


@dataclass(slots=True)
class _Answers:
    """A log in memory that keeps what a session keeps."""

    attempts: list[Attempt] = field(default_factory=list)
    values: dict[str, str] = field(default_factory=dict)

    def append(self, attempt: Attempt) -> None:
        self.attempts.append(attempt)

    def memories(self, student: str) -> dict[str, Memory]:
        return fold_attempts(one for one in self.attempts if one.student == student)

    def keep(self, key: str, value: str) -> None:
        self.values[key] = value

    def kept(self, key: str) -> str | None:
        return self.values.get(key)

    def forget(self, key: str) -> None:
        self.values.pop(key, None)


class _Invented:
    """An invented student who answers; the session's clock is theirs."""

    def __init__(self, profile: Profile, book: Book, *, now: datetime, rng: random.Random) -> None:
        self.profile, self.now, self._rng = profile, now, rng
        ideas = sorted(one.id for one in book.misconceptions)
        self._held = set(rng.sample(ideas, min(profile.ideas, len(ideas))))

    def clock(self) -> datetime:
        return self.now

    def answer(self, question: Question, memory: Memory | None, *, day: int) -> tuple[str, Certainty]:
        """Choose an option, and say how sure."""
        self.now += timedelta(seconds=self._rng.uniform(8, 35))
        tempting = [one for one in question.options if self._held.intersection(one.misconceptions)]
        if tempting and self._rng.random() > _SLIP:
            return self._rng.choice(tempting).id, self._certainty((0.1, 0.3))
        chance = self.profile.known if memory is None else p_right_from_recall(recall_on(memory, day=day))
        if self._rng.random() < chance:
            return question.answer.id, self._certainty((0.1, 0.3) if memory else (0.2, 0.5))
        wrong: Sequence[Option] = [one for one in question.options if not one.correct]
        return self._rng.choice(wrong).id, self._certainty((0.5, 0.4))

    def read(self, option: Option) -> None:
        """Read the reason, and let go of an idea now and then."""
        self.now += timedelta(seconds=self._rng.uniform(4, 20))
        for idea in sorted(self._held.intersection(option.misconceptions)):
            if self._rng.random() < _UNLEARNED:
                self._held.discard(idea)

    def _certainty(self, shares: tuple[float, float]) -> Certainty:
        drawn = self._rng.random()
        if drawn < shares[0]:
            return "low"
        return "middle" if drawn < sum(shares) else "high"


def demo_attempts(
    book: Book, profile: Profile, *, now: datetime, seed: int = DEMO_SEED, maker: QuestionMaker | None = None
) -> tuple[Attempt, ...]:
    """Make up the answers of one invented student.

    Args:
        book: What is asked.
        profile: What the student is like.
        now: The time, aware; the last answer is of the study day before.
        seed: The same seed, book and day give the same answers.
        maker: Makes the book's questions, where one is at hand.

    Returns:
        The answers in the order given.
    """
    rng = random.Random(f"demo {seed} {profile.name}")  # noqa: S311  made-up answers need no secret
    start = now.replace(hour=_AFTERNOON_H, minute=0, second=0, microsecond=0)
    # Before the day turns over, the evening still belongs to yesterday.
    start -= timedelta(days=_study_day(start) - _study_day(now))
    student, answers = _Invented(profile, book, now=start, rng=rng), _Answers()
    session = Session(
        book,
        log=answers,
        student=profile.name,
        device="demo",
        clock=student.clock,
        rng=rng,
        goal=Goal(questions=profile.questions),
    )
    if maker is not None:
        session.maker = maker
    for week in range(profile.weeks, 0, -1):
        for weekday in sorted(rng.sample(range(7), profile.days_a_week), reverse=True):
            student.now = start - timedelta(days=7 * (week - 1) + weekday + 1, minutes=-rng.randrange(120))
            _sit(session, student)
    return tuple(answers.attempts)


def demo_class(book: Book, *, now: datetime, seed: int = DEMO_SEED) -> tuple[Attempt, ...]:
    """Make up the answers of an invented class.

    Args:
        book: What is asked.
        now: The time, aware.
        seed: The same seed, book and day give the same answers.

    Returns:
        The answers, student after student.
    """
    maker = QuestionMaker(Beliefs(book))
    return tuple(
        attempt
        for profile in PROFILES
        for attempt in demo_attempts(book, profile, now=now, seed=seed, maker=maker)
    )


def _study_day(now: datetime) -> int:
    return study_day(now, tz_offset=now.utcoffset() or timedelta(0))


def _sit(session: Session, student: _Invented) -> None:
    sitting = session.start()
    while sitting.phase != "done" and sitting.question is not None:
        memory = session.memories.get(sitting.question.skill)
        option, certainty = student.answer(sitting.question, memory, day=sitting.day)
        chosen = sitting.question.option(option)
        session.choose(option)
        session.say_certainty(certainty)
        student.read(chosen)
        sitting = session.go_on()
