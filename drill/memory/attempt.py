"""One answer of one student, as the log keeps it: raw facts, never a grade or a due day.

An attempt is written once and never changed; all that is believed about a student is computed from these.
"""

import math
import random
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import Literal

Certainty = Literal["low", "middle", "high"]
Setting = Literal["drill", "exam"]

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
# The id holds 48 bits of milliseconds since 1970, so nothing is older; the upper bound keeps a century of
# days after it inside what a datetime can hold.
LATEST = datetime(3000, 1, 1, tzinfo=UTC)
ID_BYTES = 16
LARGEST_SEED = 2**63 - 1  # the log's integers have 64 bits
DAY_TURNS_AT = timedelta(hours=3)
# Two clocks that people call right differ by less; only a larger lead is a clock that ran ahead.
CLOCK_TOLERANCE = timedelta(minutes=5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One answer.

    Attributes:
        id: 16 bytes, time first (:func:`new_attempt_id`).
        student: Whose answer it is.
        device: Where it was given.
        at: When, aware, at an offset of 0 from UTC, from 1970 to 2999.
        day: Study day (:func:`study_day`), fixed when the attempt is made; at most one off the UTC date.
        skill: What was asked for.
        item: Which item asked.
        seed: What the scenario was drawn with, 0 to 2**63 - 1.
        rulebook: Digest of the rules that gave the key.
        choice: The option chosen.
        correct: True for the key and for a choice that is acceptable beside it.
        misconceptions: Every wrong idea that would have given the option chosen.
        certainty: How sure the student said to be; None in a mock exam.
        seconds: From showing the question to the choice, 0 or more.
        setting: A drill shows the reason after each answer, an exam does not.
    """

    id: bytes
    student: str
    device: str
    at: datetime
    day: int
    skill: str
    item: str
    seed: int
    rulebook: str
    choice: str
    correct: bool
    misconceptions: tuple[str, ...]
    certainty: Certainty | None
    seconds: float
    setting: Setting

    def __post_init__(self) -> None:
        if len(self.id) != ID_BYTES:
            raise ValueError(f"id has {len(self.id)} bytes, not {ID_BYTES}")
        if self.at.utcoffset() != timedelta(0) or not EPOCH <= self.at < LATEST:
            raise ValueError(f"at is {self.at}, not a UTC time from 1970 to 2999")
        if abs(self.day - _utc_day(self.at)) > 1:
            raise ValueError(f"day {self.day} is not a study day of {self.at}")
        if not 0 <= self.seed <= LARGEST_SEED:
            raise ValueError(f"seed is {self.seed}, not from 0 to {LARGEST_SEED}")
        if not (math.isfinite(self.seconds) and self.seconds >= 0):
            raise ValueError(f"seconds is {self.seconds}, not 0 or more")


def _utc_day(at: datetime) -> int:
    return (at - EPOCH).days


def new_attempt_id(now: datetime, *, rng: random.Random) -> bytes:
    """Make an id that sorts by time.

    Args:
        now: The time of the attempt, aware, from 1970 on.
        rng: Where the 74 random bits come from; on a device the system's own source, since two devices
            that draw from the same seed would make the same ids.

    Returns:
        16 bytes: 48 bits of milliseconds since 1970, then version, variant and random bits.

    Source:
        RFC 9562, section 5.7 (UUID version 7).
    """
    ms = (now - EPOCH) // timedelta(milliseconds=1)
    low = (0b10 << 62) | rng.getrandbits(62)
    return (
        ms.to_bytes(6, "big") + ((7 << 12) | rng.getrandbits(12)).to_bytes(2, "big") + low.to_bytes(8, "big")
    )


def study_day(now: datetime, *, tz_offset: timedelta) -> int:
    """Find the study day that a moment belongs to.

    Args:
        now: Any aware time.
        tz_offset: Local time minus UTC, where the student is.

    Returns:
        Days since 1970-01-01 by the local calendar, turning over at 3 in the morning, so that an answer
        after midnight belongs to the evening before.
    """
    return (now - EPOCH + tz_offset - DAY_TURNS_AT).days


def grade(attempt: Attempt) -> Literal[1, 2, 3]:
    """Grade an attempt for the memory model.

    Args:
        attempt: Any attempt.

    Returns:
        1 for wrong, 2 for right but unsure, 3 for right; right in an exam, where nobody is asked how sure
        they are, is 3. The model's fourth grade is not used: certainty is a trait of the person as well.
    """
    if not attempt.correct:
        return 1
    return 2 if attempt.certainty == "low" else 3


def in_time_order(attempts: Iterable[Attempt]) -> list[Attempt]:
    """Put attempts in the one order in which they are replayed.

    Args:
        attempts: In any order, of any devices.

    Returns:
        Sorted by time, and by id where times tie: the same order on every machine.
    """
    return sorted(attempts, key=lambda attempt: (attempt.at, attempt.id))


def is_ahead(attempt: Attempt, *, received: datetime) -> bool:
    """Tell whether the device's clock ran ahead when the attempt was made.

    Args:
        attempt: As written.
        received: When another machine received it, by its own clock.

    Returns:
        True if it claims to have been made more than five minutes after it was received.
    """
    return attempt.at > received + CLOCK_TOLERANCE


def clamp_attempt(attempt: Attempt, *, received: datetime | None) -> Attempt:
    """Bring back an attempt whose clock ran ahead, for derived state only.

    Args:
        attempt: As written; the log keeps it so.
        received: When another machine received it, UTC; None for an attempt made here.

    Returns:
        The attempt itself, or one with the time of receipt and the study day moved by as many days.
    """
    if received is None or not is_ahead(attempt, received=received):
        return attempt
    lead_days = _utc_day(attempt.at) - _utc_day(received)
    return replace(attempt, at=received, day=attempt.day - lead_days)
