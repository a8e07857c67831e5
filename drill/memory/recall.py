"""Attempts into what a student can be expected to recall, skill by skill.

The only module that speaks to the forgetting model's library; its words for grades and states stay here.
Days are whole study days, put to the library as midnights in UTC: by clock times it would take a next-day
answer given 23 hours later for one of the same day.
"""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal, cast

from fsrs import Card, Rating, Scheduler, State  # noqa: TID251  this is the module that may
from fsrs.scheduler import DEFAULT_PARAMETERS  # noqa: TID251  this is the module that may

from drill.memory.attempt import EPOCH, Attempt, grade, in_time_order

LIBRARY_VERSION = "6.3.2"
PARAMETERS = tuple(map(float, DEFAULT_PARAMETERS))
# A cache of memories is good only for the library and the numbers that made it.
PARAMETER_SET = f"fsrs-{LIBRARY_VERSION}-{hashlib.sha256(repr(PARAMETERS).encode()).hexdigest()[:12]}"
DECAY = -PARAMETERS[20]
# At a predicted recall of .80 a student marks about 82 in 100 (a slip in 25 known answers, a lucky guess in
# 4 unknown ones), clear of the usual pass mark of 75; at .70 the expected mark is the pass mark itself.
HOLDING_RECALL = 0.80

HoldingState = Literal["not_wound", "loosening", "holding"]

# No steps of minutes and no dice: each attempt has a fresh scenario, and replay must repeat itself.
_SCHEDULER = Scheduler(PARAMETERS, learning_steps=(), relearning_steps=(), enable_fuzzing=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Memory:
    """What the attempts at one skill add up to.

    Attributes:
        skill: The skill.
        stability: Days until recall has fallen to .90.
        difficulty: From 1, easy, to 10.
        last_day: Study day of the last attempt.
        attempts: How many there were.
        right: How many of them were right.
        first_right: Whether the first was right, before any teaching here.
        last_right: Whether the last was right.
    """

    skill: str
    stability: float
    difficulty: float
    last_day: int
    attempts: int
    right: int
    first_right: bool
    last_right: bool


def forgetting_curve(elapsed_days: float, *, stability: float, decay: float = DECAY) -> float:
    """Predict recall some days after the last attempt.

    Args:
        elapsed_days: Days since, 0 or more.
        stability: Days until recall has fallen to .90, above 0.
        decay: Exponent of the curve, below 0.

    Returns:
        From 1, at once, towards 0.

    Source:
        Open Spaced Repetition, the FSRS algorithm, forgetting curve of version 6:
        R = (1 + F t / S)^d with F = 0.9^(1/d) - 1 and d = -w20; version 4.5 had d = -0.5.
    """
    factor: float = 0.9 ** (1 / decay) - 1
    recall: float = (1 + factor * elapsed_days / stability) ** decay
    return recall


def recall_on(memory: Memory, *, day: int) -> float:
    """Predict recall of a skill on a study day.

    Args:
        memory: Of a skill that was asked at least once.
        day: Study day; one before the last attempt counts as the day of it.

    Returns:
        Probability from 0 to 1.

    Source:
        :func:`forgetting_curve`.
    """
    return forgetting_curve(max(0, day - memory.last_day), stability=memory.stability)


def holding_state(memory: Memory | None, *, day: int) -> HoldingState:
    """Say how a skill holds, in the trade's picture.

    Args:
        memory: None for a skill never asked.
        day: Study day to say it for.

    Returns:
        ``not_wound`` if never asked; ``holding`` if the last answer was right and predicted recall is at
        least :data:`HOLDING_RECALL`; else ``loosening``.
    """
    if memory is None:
        return "not_wound"
    # Just after a wrong answer the curve stands at 1, since the reason has been read: that is no proof.
    holds = memory.last_right and recall_on(memory, day=day) >= HOLDING_RECALL
    return "holding" if holds else "loosening"


def _card_id(skill: str) -> int:
    # The library makes an id from the clock, and sleeps, unless it is given one.
    return int.from_bytes(hashlib.sha256(skill.encode("utf-8", "surrogatepass")).digest()[:6], "big")


def add_attempt(memory: Memory | None, attempt: Attempt) -> Memory:
    """Add one attempt to what is known of its skill.

    Args:
        memory: All earlier attempts at this skill; None for the first.
        attempt: Later than all of them in the order of time and id. A study day before the last one,
            from a clock that went back, counts as the last one.

    Returns:
        The memory with the attempt in it.

    Raises:
        ValueError: If the memory is of another skill.

    Source:
        fsrs 6.3.2 with its default parameters, no learning steps, no fuzz.
    """
    skill = attempt.skill
    if memory is not None and memory.skill != skill:
        raise ValueError(f"the memory is of {memory.skill}, the attempt of {skill}")
    day = attempt.day if memory is None else max(attempt.day, memory.last_day)
    card = Card(card_id=_card_id(skill), due=EPOCH)
    if memory is not None:
        card = Card(
            card_id=_card_id(skill),
            state=State.Review,
            stability=memory.stability,
            difficulty=memory.difficulty,
            due=EPOCH,
            last_review=EPOCH + timedelta(days=memory.last_day),
        )
    card, _ = _SCHEDULER.review_card(card, Rating(grade(attempt)), EPOCH + timedelta(days=day))
    # The library types both as optional, for a card never reviewed; this one was.
    return Memory(
        skill=skill,
        stability=cast("float", card.stability),
        difficulty=cast("float", card.difficulty),
        last_day=day,
        attempts=1 if memory is None else memory.attempts + 1,
        right=attempt.correct + (0 if memory is None else memory.right),
        first_right=attempt.correct if memory is None else memory.first_right,
        last_right=attempt.correct,
    )


def fold_attempts(attempts: Iterable[Attempt]) -> dict[str, Memory]:
    """Fold one student's attempts into a memory of each skill.

    Args:
        attempts: Of one student, in any order, each once.

    Returns:
        Skill to memory, for every skill that was asked, in order of the first attempt.

    Raises:
        ValueError: If the attempts are of several students.

    Source:
        :func:`add_attempt`, in the order of time and id.
    """
    memories: dict[str, Memory] = {}
    students: set[str] = set()
    for attempt in in_time_order(attempts):
        students.add(attempt.student)
        memories[attempt.skill] = add_attempt(memories.get(attempt.skill), attempt)
    if len(students) > 1:
        raise ValueError(f"attempts of several students: {', '.join(sorted(students))}")
    return memories


def fold_class(attempts: Iterable[Attempt]) -> dict[str, dict[str, Memory]]:
    """Fold the attempts of many students.

    Args:
        attempts: In any order, each once.

    Returns:
        Student to what :func:`fold_attempts` gives, in order of their names.

    Source:
        :func:`fold_attempts`.
    """
    by_student: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        by_student.setdefault(attempt.student, []).append(attempt)
    return {student: fold_attempts(by_student[student]) for student in sorted(by_student)}
