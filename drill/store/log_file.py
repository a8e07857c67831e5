"""The file of an attempt log: what is in it, how it is made, and how it is opened without harm.

A file is looked at before the database touches it: what is no log, is damaged, or was written by a newer
version is told and left as it is.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.memory.attempt import Attempt
from drill.store.log_table import APPLICATION_ID, FORMAT, SCHEMA, SELECT_ATTEMPTS

# Where the database's file format keeps its mark, our version and our id (SQLite, Database File Format, 1.3).
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_VERSION_AT = slice(60, 64)
_APPLICATION_AT = slice(68, 72)
_BUSY_S = 10.0


def log_problem(path: str, *, what: str, mend: str) -> ProblemsError:
    """Make the error for a log file that cannot be used.

    Args:
        path: The file, as the user gave it.
        what: What is the matter.
        mend: What to do.

    Returns:
        An error to raise.
    """
    return ProblemsError([Problem(Place(path), what, mend)])


def contradiction(attempt: Attempt, *, origin: str) -> Problem:
    """Tell of an attempt from elsewhere that has the id of another one here.

    Args:
        attempt: The one from elsewhere.
        origin: The file it comes from.

    Returns:
        A problem of that file.
    """
    return Problem(
        Place(origin),
        say(
            "attempt {id} of {student} differs from the one that the log holds under the same id",
            id=attempt.id.hex(),
            student=attempt.student,
        ),
        say("one of the two was changed after it was made; take the file from the student's own device"),
    )


def _damaged(path: str) -> ProblemsError:
    return log_problem(
        path,
        what=say("this attempt log is damaged"),
        mend=say("keep the file, and go on with a copy of it from before, or gather the attempts again"),
    )


def _from_sqlite(error: sqlite3.Error, path: str) -> ProblemsError:
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR):
        return _damaged(path)
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return log_problem(
            path,
            what=say("another program is writing to this attempt log"),
            mend=say("close the other program and try again"),
        )
    if code == sqlite3.SQLITE_CONSTRAINT:
        return log_problem(
            path,
            what=say("an attempt contradicts what the log holds under the same id ({reason})", reason=error),
            mend=say("the log keeps what it has; answer again"),
        )
    return log_problem(
        path,
        what=say("the attempt log cannot be read or written ({reason})", reason=error),
        mend=say("check that the disk is not full and that you may write in this folder"),
    )


@contextmanager
def telling(path: str) -> Iterator[None]:
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
        raise _from_sqlite(error, path) from error
    except UnicodeEncodeError as error:
        raise log_problem(
            path,
            what=say("a name holds characters that cannot be written: {text}", text=ascii(error.object)),
            mend=say("write the name in plain letters"),
        ) from error


def _read_header(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(_HEADER_BYTES)
    except OSError as error:
        raise log_problem(
            str(path),
            what=say("the attempt log cannot be opened ({reason})", reason=error.strerror or error),
            mend=say("check the path and that you may read it"),
        ) from error


def check_header(path: Path) -> bool:
    """Look whether a file is an attempt log that this version reads.

    Args:
        path: An existing file.

    Returns:
        True for a log; False for an empty file, in which a log can be made.

    Raises:
        ProblemsError: If it is anything else.
    """
    header = _read_header(path)
    if not header:
        return False
    is_ours = (
        len(header) == _HEADER_BYTES
        and header.startswith(_MAGIC)
        and int.from_bytes(header[_APPLICATION_AT], "big") == APPLICATION_ID
    )
    if not is_ours:
        raise log_problem(
            str(path),
            what=say("this file is no attempt log"),
            mend=say("give the path of a log, or of a file that does not exist yet"),
        )
    version = int.from_bytes(header[_VERSION_AT], "big")
    if version > FORMAT:
        raise log_problem(
            str(path),
            what=say(
                "format {found} was written by a newer version; this one reads {known}",
                found=version,
                known=FORMAT,
            ),
            mend=say("bring this program up to date"),
        )
    return True


def _connect(path: Path, query: str) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?{query}", uri=True, timeout=_BUSY_S)


def _check_whole(connection: sqlite3.Connection, path: Path) -> None:
    if connection.execute("PRAGMA quick_check(1)").fetchone() != ("ok",):
        raise _damaged(str(path))
    connection.execute(f"{SELECT_ATTEMPTS} LIMIT 0")


def make_tables(connection: sqlite3.Connection) -> None:
    """Make the tables of a log, unless another process has just made them.

    Args:
        connection: To an empty database, or to a log.
    """
    connection.execute("BEGIN IMMEDIATE")
    if connection.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
        for statement in SCHEMA:
            connection.execute(statement)
    connection.execute("COMMIT")


def open_to_write(path: Path) -> sqlite3.Connection:
    """Open a log to add to it; make it if it is not there.

    Args:
        path: Of the log; its folder must exist.

    Returns:
        A connection on which each commit reaches the disk before it returns.

    Raises:
        ProblemsError: If it cannot be a log.
    """
    is_log = path.exists() and check_header(path)
    with telling(str(path)):
        connection = _connect(path, "mode=rwc")
        try:
            if is_log:
                _check_whole(connection, path)
            else:
                # Before the write-ahead mode is set, so that the file's own header names it from the start.
                make_tables(connection)
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
        except BaseException:
            connection.close()
            raise
    return connection


def open_to_read(path: Path) -> sqlite3.Connection:
    """Open a log to read it, changing and leaving nothing.

    Args:
        path: Of an existing log.

    Returns:
        A connection that cannot write.

    Raises:
        ProblemsError: If there is no log.
    """
    if not check_header(path):
        raise log_problem(str(path), what=say("this attempt log is empty"), mend=say("give another file"))
    # With nothing waiting beside it nobody writes, and the database need make no files of its own to read.
    waiting = path.with_name(f"{path.name}-wal").exists()
    with telling(str(path)):
        connection = _connect(path, "mode=ro" if waiting else "mode=ro&immutable=1")
        try:
            _check_whole(connection, path)
        except BaseException:
            connection.close()
            raise
    return connection
