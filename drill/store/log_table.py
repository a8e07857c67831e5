# ruff: noqa: S608  every name put into a statement here is one of our own constants; values are bound
"""The tables of an attempt log, the statements on them, and attempts and memories as rows."""

import json
from collections.abc import Sequence
from dataclasses import astuple, fields
from datetime import datetime, timedelta
from typing import Any

from drill.memory.attempt import EPOCH, Attempt
from drill.memory.recall import PARAMETER_SET, Memory

# The database's own field for telling files apart: the bytes of "WAVE".
APPLICATION_ID = 0x57415645
FORMAT = 1
COLUMNS = (
    "id",
    "student",
    "device",
    "at_us",
    "day",
    "skill",
    "item",
    "seed",
    "rulebook",
    "choice",
    "correct",
    "misconceptions",
    "certainty",
    "seconds",
    "setting",
)
_OLD = ", ".join(COLUMNS)
_NEW = ", ".join(f"NEW.{name}" for name in COLUMNS)

SCHEMA = (
    """CREATE TABLE attempt (
        id BLOB PRIMARY KEY CHECK (length(id) = 16),
        student TEXT NOT NULL,
        device TEXT NOT NULL,
        at_us INTEGER NOT NULL,
        day INTEGER NOT NULL,
        skill TEXT NOT NULL,
        item TEXT NOT NULL,
        seed INTEGER NOT NULL CHECK (seed >= 0),
        rulebook TEXT NOT NULL,
        choice TEXT NOT NULL,
        correct INTEGER NOT NULL CHECK (correct IN (0, 1)),
        misconceptions TEXT NOT NULL CHECK (json_valid(misconceptions)),
        certainty TEXT CHECK (certainty IN ('low', 'middle', 'high')),
        seconds REAL NOT NULL CHECK (seconds >= 0),
        setting TEXT NOT NULL CHECK (setting IN ('drill', 'exam'))
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX attempt_in_time ON attempt (student, skill, at_us, id)",
    """CREATE TRIGGER attempt_no_update BEFORE UPDATE ON attempt
        BEGIN SELECT RAISE(ABORT, 'an attempt is never changed'); END""",
    """CREATE TRIGGER attempt_no_delete BEFORE DELETE ON attempt
        BEGIN SELECT RAISE(ABORT, 'an attempt is never deleted'); END""",
    # INSERT OR REPLACE deletes without asking the trigger above, unless a connection is set to ask.
    f"""CREATE TRIGGER attempt_no_other BEFORE INSERT ON attempt
        WHEN EXISTS (SELECT 1 FROM attempt WHERE id = NEW.id AND ({_OLD}) IS NOT ({_NEW}))
        BEGIN SELECT RAISE(ABORT, 'another attempt has this id'); END""",
    """CREATE TABLE received (
        id BLOB PRIMARY KEY REFERENCES attempt (id),
        at_us INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE snapshot (
        student TEXT NOT NULL,
        skill TEXT NOT NULL,
        parameter_set TEXT NOT NULL,
        stability REAL NOT NULL,
        difficulty REAL NOT NULL,
        last_day INTEGER NOT NULL,
        attempts INTEGER NOT NULL,
        right INTEGER NOT NULL,
        first_right INTEGER NOT NULL,
        last_right INTEGER NOT NULL,
        last_at_us INTEGER NOT NULL,
        last_id BLOB NOT NULL,
        PRIMARY KEY (student, skill)
    ) STRICT, WITHOUT ROWID""",
    "CREATE TABLE kept (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
    f"PRAGMA application_id = {APPLICATION_ID}",
    f"PRAGMA user_version = {FORMAT}",
)

_MICROSECOND = timedelta(microseconds=1)
_MEMORY_COLUMNS = tuple(field.name for field in fields(Memory) if field.name != "skill")
_MEMORY_LIST = ", ".join(_MEMORY_COLUMNS)

# Only the id may be met again in silence; OR IGNORE would drop a row that a CHECK refuses as well.
INSERT_ATTEMPT = f"INSERT INTO attempt VALUES ({', '.join('?' * len(COLUMNS))}) ON CONFLICT (id) DO NOTHING"
INSERT_RECEIVED = "INSERT INTO received VALUES (?, ?)"
SELECT_ATTEMPTS = (
    f"SELECT {', '.join(f'attempt.{name}' for name in COLUMNS)}, received.at_us"
    " FROM attempt LEFT JOIN received ON received.id = attempt.id"
)
SELECT_STUDENT = f"{SELECT_ATTEMPTS} WHERE attempt.student = ?"
SELECT_SKILLS = f"{SELECT_STUDENT} AND attempt.skill IN (SELECT value FROM json_each(?))"
SELECT_STUDENTS = "SELECT DISTINCT student FROM attempt ORDER BY student"
COUNT_BY_SKILL = "SELECT skill, count(*) FROM attempt WHERE student = ? GROUP BY skill"
COUNT_SKILL = "SELECT count(*) FROM attempt WHERE student = ? AND skill = ?"
SELECT_SNAPSHOTS = f"SELECT skill, {_MEMORY_LIST} FROM snapshot WHERE student = ? AND parameter_set = ?"
# Good for one more attempt: it counts all the others, and this one is later than all of them.
SELECT_SNAPSHOT_BEFORE = (
    f"{SELECT_SNAPSHOTS} AND skill = ? AND attempts = ? AND (last_at_us, last_id) < (?, ?)"
)
SAVE_SNAPSHOT = (
    f"INSERT OR REPLACE INTO snapshot (student, skill, parameter_set, {_MEMORY_LIST}, last_at_us, last_id)"
    f" VALUES ({', '.join('?' * (len(_MEMORY_COLUMNS) + 5))})"
)
DROP_SNAPSHOT = "DELETE FROM snapshot WHERE student = ? AND skill = ?"
DROP_SNAPSHOTS = "DELETE FROM snapshot"


def to_us(at: datetime) -> int:
    """Count microseconds.

    Args:
        at: An aware time.

    Returns:
        Microseconds since 1970-01-01 in UTC, exact.
    """
    return (at - EPOCH) // _MICROSECOND


def from_us(at_us: int) -> datetime:
    """Find a time from its microseconds.

    Args:
        at_us: Microseconds since 1970-01-01 in UTC.

    Returns:
        The time, UTC, exact.

    Raises:
        OverflowError: If it lies outside the years 1 to 9999.
    """
    return EPOCH + at_us * _MICROSECOND


def attempt_to_row(attempt: Attempt) -> list[object]:
    """Write an attempt as a row.

    Args:
        attempt: Any attempt.

    Returns:
        Values in the order of :data:`COLUMNS`.
    """
    values: dict[str, object] = {field.name: getattr(attempt, field.name) for field in fields(Attempt)}
    values["at_us"] = to_us(attempt.at)
    values["misconceptions"] = json.dumps(attempt.misconceptions)
    return [values[name] for name in COLUMNS]


def attempt_from_row(row: Sequence[Any]) -> tuple[Attempt, datetime | None]:
    """Read a row of :data:`SELECT_ATTEMPTS`.

    Args:
        row: The columns of an attempt, then when it was received.

    Returns:
        The attempt as written, and when it was received, None for one made here.

    Raises:
        ValueError: If the values make no attempt.
        OverflowError: If a time lies outside the years 1 to 9999.
    """
    values = dict(zip(COLUMNS, row, strict=False))
    ideas = json.loads(values.pop("misconceptions"))
    if not isinstance(ideas, list) or not all(isinstance(idea, str) for idea in ideas):
        raise ValueError(f"misconceptions is {ideas!r}, not a list of ids")
    attempt = Attempt(
        at=from_us(values.pop("at_us")),
        correct=bool(values.pop("correct")),
        misconceptions=tuple(ideas),
        **values,
    )
    return attempt, None if row[-1] is None else from_us(row[-1])


def memory_to_row(memory: Memory, *, last: Attempt) -> list[object]:
    """Write a memory as a row of the cache.

    Args:
        memory: What the attempts at one skill add up to.
        last: The last of these attempts.

    Returns:
        Values for :data:`SAVE_SNAPSHOT`.
    """
    return [last.student, memory.skill, PARAMETER_SET, *astuple(memory)[1:], to_us(last.at), last.id]


def memory_from_row(row: Sequence[Any]) -> Memory:
    """Read a row of the cache.

    Args:
        row: The columns of :data:`SELECT_SNAPSHOTS`.

    Returns:
        The memory.
    """
    values = dict(zip(("skill", *_MEMORY_COLUMNS), row, strict=True))
    for name in ("first_right", "last_right"):
        values[name] = bool(values[name])
    return Memory(**values)
