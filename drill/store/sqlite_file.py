"""A file of ours that a database keeps: how it is made, and how it is opened without harm.

A file is looked at before the database touches it: what is none of ours, is damaged, or was written by a
newer version is told and left as it is. What kind of file it is, and the words for it, are its own.
"""

import sqlite3
from abc import ABC, abstractmethod
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Literal, Self

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say

# Where the database's file format keeps its mark, our version and our id (SQLite, Database File Format, 1.3).
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_VERSION_AT = slice(60, 64)
_APPLICATION_AT = slice(68, 72)
BUSY_S = 10.0


class Closing(ABC):
    """What is closed at the end of a ``with`` block."""

    @abstractmethod
    def close(self) -> None:
        """Let go of the file."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


class SqliteFile(ABC):
    """One kind of file.

    Attributes:
        application_id: The database's own field for telling files apart.
        format: Version of the tables.
        schema: Statements that make the tables.
        probes: Statements that a whole file answers.
        settings: Statements that settle a connection before anything is written.
        autocommit: Whether transactions are ours to begin; otherwise Python begins them.
    """

    application_id: int
    format: int
    schema: tuple[str, ...]
    probes: tuple[str, ...]
    settings: tuple[str, ...] = ()
    autocommit = False

    @abstractmethod
    def words(self, fault: str, **values: object) -> tuple[str, str]:
        """Say a fault in the words of this kind of file.

        Args:
            fault: ``damaged``, ``busy``, ``contradicts``, ``unusable``, ``letters``, ``unopened``, ``other``
                or ``empty``.
            values: What the words name.

        Returns:
            What is the matter, and what to do.
        """

    def problem(self, path: str, fault: str, **values: object) -> ProblemsError:
        """Make the error for a fault of a file.

        Args:
            path: The file, as the user gave it.
            fault: As for :meth:`words`.
            values: What the words name.

        Returns:
            An error to raise.
        """
        return file_problem(path, *self.words(fault, **values))

    @contextmanager
    def telling(self, path: str) -> Iterator[None]:
        """Turn what the database throws into a problem of the file.

        Args:
            path: The file, as the user gave it.

        Yields:
            Nothing.

        Raises:
            ProblemsError: In place of any error of the database.
        """
        try:
            yield
        except sqlite3.Error as error:
            raise self.problem(path, _fault_of(error), reason=error) from error
        except UnicodeEncodeError as error:
            raise self.problem(path, "letters", text=ascii(error.object)) from error

    def check_header(self, path: Path) -> bool:
        """Look whether a file is of this kind and can be read by this version.

        Args:
            path: An existing file.

        Returns:
            True for one of ours; False for an empty file, in which one can be made.

        Raises:
            ProblemsError: If it is anything else.
        """
        try:
            with path.open("rb") as file:
                header = file.read(_HEADER_BYTES)
        except OSError as error:
            raise self.problem(str(path), "unopened", reason=error.strerror or error) from error
        if not header:
            return False
        is_ours = (
            len(header) == _HEADER_BYTES
            and header.startswith(_MAGIC)
            and int.from_bytes(header[_APPLICATION_AT], "big") == self.application_id
        )
        if not is_ours:
            raise self.problem(str(path), "other")
        version = int.from_bytes(header[_VERSION_AT], "big")
        if version > self.format:
            raise newer_problem(str(path), found=version, known=self.format)
        return True

    def make_tables(self, connection: sqlite3.Connection) -> None:
        """Make the tables, unless another process has just made them.

        Args:
            connection: To an empty database, or to a file of this kind.
        """
        connection.execute("BEGIN IMMEDIATE")
        if connection.execute("PRAGMA application_id").fetchone() != (self.application_id,):
            for statement in self.schema:
                connection.execute(statement)
        connection.execute("COMMIT")

    def prepare(self, path: Path) -> tuple[bool, str]:
        """Look at a file before it is opened to write.

        Args:
            path: The file, there or not.

        Returns:
            Whether it is one of ours already, and how the database is to open it.

        Raises:
            ProblemsError: If it cannot be one of ours.
        """
        return path.exists() and self.check_header(path), "mode=rwc"

    def open_to_write(self, path: Path) -> sqlite3.Connection:
        """Open a file to add to it; make it if it is not there.

        Args:
            path: Of the file; its folder must exist.

        Returns:
            A connection on which each commit reaches the disk before it returns.

        Raises:
            ProblemsError: If it cannot be one of ours.
        """
        is_ours, query = self.prepare(path)
        with self.telling(str(path)):
            connection = self._connect(path, query)
            try:
                for statement in self.settings:
                    connection.execute(statement)
                if is_ours:
                    self._check_whole(connection, path)
                else:
                    # Before the write-ahead mode is set, so that the file's header names it from the start.
                    self.make_tables(connection)
                connection.execute("PRAGMA journal_mode = WAL")
                connection.execute("PRAGMA synchronous = FULL")
            except BaseException:
                connection.close()
                raise
        return connection

    def open_to_read(self, path: Path) -> sqlite3.Connection:
        """Open a file to read it, changing and leaving nothing.

        Args:
            path: Of an existing file.

        Returns:
            A connection that cannot write.

        Raises:
            ProblemsError: If there is none of ours.
        """
        if not self.check_header(path):
            raise self.problem(str(path), "empty")
        # With nothing waiting beside it nobody writes, and the database need make no files to read it.
        waiting = path.with_name(f"{path.name}-wal").exists()
        with self.telling(str(path)):
            connection = self._connect(path, "mode=ro" if waiting else "mode=ro&immutable=1")
            try:
                self._check_whole(connection, path)
            except BaseException:
                connection.close()
                raise
        return connection

    def _connect(self, path: Path, query: str) -> sqlite3.Connection:
        address = f"{path.absolute().as_uri()}?{query}"
        level: Literal["DEFERRED"] | None = None if self.autocommit else "DEFERRED"
        return sqlite3.connect(address, uri=True, timeout=BUSY_S, isolation_level=level)

    def _check_whole(self, connection: sqlite3.Connection, path: Path) -> None:
        if connection.execute("PRAGMA quick_check(1)").fetchone() != ("ok",):
            raise self.problem(str(path), "damaged")
        for statement in self.probes:
            connection.execute(f"{statement} LIMIT 0", [""] * statement.count("?"))


def file_problem(path: str, what: str, mend: str) -> ProblemsError:
    """Make the error for a file that cannot be used.

    Args:
        path: The file, as the user gave it.
        what: What is the matter.
        mend: What to do.

    Returns:
        An error to raise.
    """
    return ProblemsError([Problem(Place(path), what, mend)])


def newer_problem(path: str, *, found: int, known: int) -> ProblemsError:
    """Make the error for a file that a newer version wrote.

    Args:
        path: The file, as the user gave it.
        found: Its format.
        known: The newest format that this version reads.

    Returns:
        An error to raise.
    """
    what = say(
        "format {found} was written by a newer version; this one reads {known}", found=found, known=known
    )
    return file_problem(path, what, say("bring this program up to date"))


def _fault_of(error: sqlite3.Error) -> str:
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR):
        return "damaged"
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return "busy"
    return "contradicts" if code == sqlite3.SQLITE_CONSTRAINT else "unusable"
