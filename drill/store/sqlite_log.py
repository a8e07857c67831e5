"""The attempt log in one SQLite file: on the phone, on a desktop, and where a class is gathered.

One commit an answer. Beside the attempts the file holds when merged ones were received, a cache of memories
that may be dropped at any time, and a few values that change.
"""

import json
import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path

from sqlite_utils import Database

from drill.basis.problem import ProblemsError
from drill.basis.words import say
from drill.memory.attempt import Attempt, clamp_attempt, in_time_order, is_ahead
from drill.memory.recall import PARAMETER_SET, Memory, add_attempt
from drill.store import log_table as table
from drill.store.attempt_log import Received
from drill.store.log_file import LOG_FILE, contradiction
from drill.store.sqlite_file import Closing, file_problem


class SqliteLog(Closing):
    """An attempt log on SQLite; it keeps the promises of :class:`drill.store.attempt_log.AttemptLog`."""

    def __init__(self, connection: sqlite3.Connection, *, path: str, read_only: bool) -> None:
        """Wrap a connection that :func:`open_log` or :func:`memory_log` made."""
        self.path = path
        self.read_only = read_only
        self._db = Database(connection, execute_plugins=False)

    def close(self) -> None:
        """Let go of the file; what was waiting beside it goes into it."""
        self._db.close()

    def append(self, attempt: Attempt) -> None:
        """Keep one attempt of this device.

        Args:
            attempt: With an id of its own; the same attempt again changes nothing.

        Raises:
            ProblemsError: If it cannot be written, or the id stands for another attempt.
        """
        with LOG_FILE.telling(self.path), self._db.atomic():
            if self._insert(attempt):
                self._advance(attempt)

    def receive(self, attempts: Iterable[Attempt], *, now: datetime, origin: str) -> Received:
        """Take in attempts made elsewhere, in one transaction.

        Args:
            attempts: In any order; those already here are passed over.
            now: When they are received, UTC.
            origin: The file they come from, to name in a problem.

        Returns:
            How many were new and known, and those from a clock that ran ahead.

        Raises:
            ProblemsError: If any has the id of another attempt here; nothing is taken in then.
        """
        new: list[Attempt] = []
        known = 0
        problems = []
        with LOG_FILE.telling(self.path), self._db.atomic():
            for attempt in in_time_order(attempts):
                try:
                    is_new = self._insert(attempt)
                except sqlite3.IntegrityError:
                    problems.append(contradiction(attempt, origin=origin))
                    continue
                known += not is_new
                if is_new:
                    new.append(attempt)
                    self._db.execute(table.INSERT_RECEIVED, [attempt.id, table.to_us(now)])
            if problems:
                raise ProblemsError(problems)
            self._drop_snapshots({(one.student, one.skill) for one in new})
        ahead = tuple(one for one in new if is_ahead(one, received=now))
        return Received(new=len(new), known=known, ahead=ahead)

    def merge(self, other: Path, *, now: datetime) -> Received:
        """Take in all attempts of another log file, which is not changed.

        Args:
            other: Path of the other log.
            now: When they are received, UTC.

        Returns:
            As :meth:`receive`.

        Raises:
            ProblemsError: As :meth:`receive`, or if the other file is no log.
        """
        with open_log(other, read_only=True) as log:
            attempts = log.attempts()
        return self.receive(attempts, now=now, origin=str(other))

    def students(self) -> tuple[str, ...]:
        """Name the students with at least one attempt.

        Returns:
            Sorted names.
        """
        with LOG_FILE.telling(self.path):
            rows = self._db.execute(table.SELECT_STUDENTS).fetchall()
        return tuple(student for (student,) in rows)

    def attempts(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give attempts as written.

        Args:
            student: Whose; None for everybody's.

        Returns:
            In the order of time and id.
        """
        return tuple(in_time_order(attempt for attempt, _ in self._read(student)))

    def clamped_attempts(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give attempts for derived state: times are brought back where a clock ran ahead.

        Args:
            student: Whose; None for everybody's.

        Returns:
            In the order of time and id.
        """
        return tuple(in_time_order(clamp_attempt(one, received=at) for one, at in self._read(student)))

    def ahead(self, student: str | None = None) -> tuple[Attempt, ...]:
        """Give the attempts whose clock ran ahead of the one that received them.

        Args:
            student: Whose; None for everybody's.

        Returns:
            As written, in the order of time and id.
        """
        pairs = self._read(student)
        return tuple(in_time_order(one for one, at in pairs if at is not None and is_ahead(one, received=at)))

    def _insert(self, attempt: Attempt) -> bool:
        return self._db.execute(table.INSERT_ATTEMPT, table.attempt_to_row(attempt)).rowcount == 1

    def _read(
        self, student: str | None, skills: Sequence[str] | None = None
    ) -> list[tuple[Attempt, datetime | None]]:
        if student is None:
            sql, values = table.SELECT_ATTEMPTS, []
        elif skills is None:
            sql, values = table.SELECT_STUDENT, [student]
        else:
            sql, values = table.SELECT_SKILLS, [student, json.dumps(skills)]
        with LOG_FILE.telling(self.path):
            rows = self._db.execute(sql, values).fetchall()
        try:
            return [table.attempt_from_row(row) for row in rows]
        except (ValueError, OverflowError) as error:
            raise file_problem(
                self.path,
                say("an attempt in this log was changed by hand ({reason})", reason=error),
                say("go on with a copy of the log from before"),
            ) from error

    def memories(self, student: str) -> dict[str, Memory]:
        """Give what one student's attempts add up to.

        Args:
            student: The student.

        Returns:
            Skill to memory, sorted by skill: from the cache where it counts every attempt, folded anew,
            and cached unless the log is read only, where it does not.
        """
        with LOG_FILE.telling(self.path):
            counts = dict(self._db.execute(table.COUNT_BY_SKILL, [student]).fetchall())
            rows = self._db.execute(table.SELECT_SNAPSHOTS, [student, PARAMETER_SET]).fetchall()
        memories = {memory.skill: memory for memory in map(table.memory_from_row, rows)}
        stale = [
            skill for skill, n in counts.items() if skill not in memories or memories[skill].attempts != n
        ]
        if stale:
            memories |= self._fold(student, stale)
        return {skill: memories[skill] for skill in sorted(counts)}

    def drop_memories(self) -> None:
        """Throw the cache away; the next reading folds it anew."""
        with LOG_FILE.telling(self.path):
            self._db.execute(table.DROP_SNAPSHOTS)

    def _fold(self, student: str, skills: Sequence[str]) -> dict[str, Memory]:
        clamped = in_time_order(clamp_attempt(one, received=at) for one, at in self._read(student, skills))
        memories: dict[str, Memory] = {}
        last: dict[str, Attempt] = {}
        for attempt in clamped:
            memories[attempt.skill] = add_attempt(memories.get(attempt.skill), attempt)
            last[attempt.skill] = attempt
        if not self.read_only:
            with LOG_FILE.telling(self.path), self._db.atomic():
                for skill, memory in memories.items():
                    self._save(memory, last[skill])
        return memories

    def _save(self, memory: Memory, last: Attempt) -> None:
        self._db.execute(table.SAVE_SNAPSHOT, table.memory_to_row(memory, last=last))

    def _advance(self, attempt: Attempt) -> None:
        """Add an attempt just written to the cache, where it is the latest of its skill."""
        student, skill = attempt.student, attempt.skill
        (count,) = self._db.execute(table.COUNT_SKILL, [student, skill]).fetchone()
        row = self._db.execute(
            table.SELECT_SNAPSHOT_BEFORE,
            [student, PARAMETER_SET, skill, count - 1, table.to_us(attempt.at), attempt.id],
        ).fetchone()
        if row is not None or count == 1:
            memory = None if row is None else table.memory_from_row(row)
            self._save(add_attempt(memory, attempt), attempt)
        else:
            self._drop_snapshots({(student, skill)})

    def _drop_snapshots(self, pairs: Iterable[tuple[str, str]]) -> None:
        for pair in sorted(pairs):
            self._db.execute(table.DROP_SNAPSHOT, pair)

    def keep(self, key: str, value: str) -> None:
        """Keep a value that may change, such as an open sitting or a setting.

        Args:
            key: Its name.
            value: Its text, in place of any earlier one.
        """
        with LOG_FILE.telling(self.path):
            self._db.execute("INSERT OR REPLACE INTO kept VALUES (?, ?)", [key, value])

    def kept(self, key: str) -> str | None:
        """Give a kept value.

        Args:
            key: Its name.

        Returns:
            Its text, or None where nothing is kept.
        """
        with LOG_FILE.telling(self.path):
            row = self._db.execute("SELECT value FROM kept WHERE key = ?", [key]).fetchone()
        return None if row is None else str(row[0])

    def forget(self, key: str) -> None:
        """Drop a kept value, if there is one.

        Args:
            key: Its name.
        """
        with LOG_FILE.telling(self.path):
            self._db.execute("DELETE FROM kept WHERE key = ?", [key])


def open_log(path: Path, *, read_only: bool = False) -> SqliteLog:
    """Open an attempt log.

    Args:
        path: Of the log; where there is none it is made, unless it is only to be read.
        read_only: Neither change the file nor leave any beside it.

    Returns:
        The log, to be closed after use.

    Raises:
        ProblemsError: If the file is no log, is damaged, or was written by a newer version; it is left
            as it is.
    """
    connection = LOG_FILE.open_to_read(path) if read_only else LOG_FILE.open_to_write(path)
    with LOG_FILE.telling(str(path)):
        return SqliteLog(connection, path=str(path), read_only=read_only)


def memory_log() -> SqliteLog:
    """Make an empty log that is kept nowhere, to gather other logs in.

    Returns:
        The log; it is gone when it is closed.
    """
    connection = sqlite3.connect(":memory:")
    LOG_FILE.make_tables(connection)
    return SqliteLog(connection, path=":memory:", read_only=False)
