"""A sitting that is not over, as a device keeps it between two runs; the log has the last word on it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from drill.basis.plain import from_plain
from drill.memory.attempt import Attempt
from drill.memory.recall import Memory
from drill.study.sitting import Goal


class SittingLog(Protocol):
    """What a session needs of an attempt log."""

    def append(self, attempt: Attempt) -> None:
        """Keep one attempt; when this returns, it survives a kill and the power going out."""
        ...

    def memories(self, student: str) -> dict[str, Memory]:
        """Give what one student's attempts add up to, skill to memory."""
        ...

    def keep(self, key: str, value: str) -> None:
        """Keep a value that may change."""
        ...

    def kept(self, key: str) -> str | None:
        """Give a kept value, or None."""
        ...

    def forget(self, key: str) -> None:
        """Drop a kept value, if there is one."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenSitting:
    """A sitting that is not over, as the log keeps it.

    Attributes:
        student: Who sits.
        day: Study day.
        goal: How long it lasts.
        used_s: Seconds used up to the last step.
        topic: The only topic asked; empty for all.
        asked: For each decision answered, in order, the wrong ideas that the answer showed. A decision
            enters it before its attempt enters the log, which has the last word.
    """

    student: str
    day: int
    goal: Goal
    used_s: float
    topic: str
    asked: Mapping[str, tuple[str, ...]]


def read_kept(kind: Any, text: str | None) -> Any:  # noqa: ANN401  the kind says what comes back
    """Read a kept value.

    Args:
        kind: The type wanted.
        text: Its JSON text, or None where nothing is kept.

    Returns:
        The value; None where there is none. One that another version wrote in another shape is as good as
        none: it only says where to go on.
    """
    if text is None:
        return None
    try:
        return from_plain(kind, json.loads(text))
    except (TypeError, ValueError, AttributeError):
        return None
