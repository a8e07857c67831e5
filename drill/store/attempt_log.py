"""What an attempt log must do, whatever keeps it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Protocol

from drill.memory.attempt import Attempt
from drill.memory.recall import Memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Received:
    """What came of taking in attempts from elsewhere.

    Attributes:
        new: How many were not here before.
        known: How many were.
        ahead: Those of the new ones whose clock ran ahead, in the order of time and id.
    """

    new: int
    known: int
    ahead: tuple[Attempt, ...]


class AttemptLog(Protocol):
    """An append-only set of attempts, with derived memories and a few values of its own."""

    def append(self, attempt: Attempt) -> None:
        """Keep one attempt; when this returns, it survives a kill and the power going out."""
        ...

    def receive(self, attempts: Iterable[Attempt], *, now: datetime, origin: str) -> Received:
        """Take in attempts made elsewhere: all of them, or none where one contradicts the log."""
        ...

    def merge(self, other: Path, *, now: datetime) -> Received:
        """Take in all attempts of another log file, which is not changed."""
        ...

    def students(self) -> tuple[str, ...]:
        """Name the students with at least one attempt, sorted."""
        ...

    def attempts(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give the attempts of one student or of all, as written, in the order of time and id."""
        ...

    def clamped_attempts(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give the attempts with the times brought back where a clock ran ahead, for derived state."""
        ...

    def ahead(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give the attempts, as written, whose clock ran ahead of the clock that received them."""
        ...

    def memories(self, student: str) -> dict[str, Memory]:
        """Give what one student's attempts add up to, skill to memory."""
        ...

    def keep(self, key: str, value: str) -> None:
        """Keep a value that may change, such as an open sitting or a setting."""
        ...

    def kept(self, key: str) -> str | None:
        """Give a kept value, or None."""
        ...

    def forget(self, key: str) -> None:
        """Drop a kept value, if there is one."""
        ...

    def close(self) -> None:
        """Let go of the file."""
        ...
