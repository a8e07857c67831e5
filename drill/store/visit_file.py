"""The file of a record of visits: how it is made, and how it is opened without harm.

A file is looked at before the database touches it: what is no record, is damaged, or was written by a newer
version is told and left as it is. Only its owner may read it.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from drill.basis.problem import ProblemsError
from drill.basis.words import say
from drill.store.log_file import log_problem
from drill.store.visit_table import APPLICATION_ID, FORMAT, SCHEMA, SELECT_EVENTS, SELECT_NAMES

# Where the database's file format keeps its mark, our version and our id (SQLite, Database File Format, 1.3).
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_VERSION_AT = slice(60, 64)
_APPLICATION_AT = slice(68, 72)
_BUSY_S = 10.0
_OWNER_ONLY = 0o600


def damaged(path: str) -> ProblemsError:
    """Make the error for a record that does not hold together.

    Args:
        path: The file, as the user gave it.

    Returns:
        An error to raise.
    """
    return log_problem(
        path,
        what=say("this record of visits is damaged"),
        mend=say("keep the file, and go on with a copy of it from before"),
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
            what=say("there are characters that cannot be written: {text}", text=ascii(error.object)[:80]),
            mend=say("write it in plain letters"),
        ) from error


def _from_sqlite(error: sqlite3.Error, path: str) -> ProblemsError:
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR):
        return damaged(path)
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return busy(path)
    if code == sqlite3.SQLITE_CONSTRAINT:
        return log_problem(
            path,
            what=say("this contradicts what the record holds ({reason})", reason=error),
            mend=say("the record keeps what it has; add a correction"),
        )
    return log_problem(
        path,
        what=say("the record of visits cannot be read or written ({reason})", reason=error),
        mend=say("check that the disk is not full and that you may write in this folder"),
    )


def busy(path: str) -> ProblemsError:
    """Make the error for a record that another program holds.

    Args:
        path: The file, as the user gave it.

    Returns:
        An error to raise.
    """
    return log_problem(
        path,
        what=say("another program is using this record of visits"),
        mend=say("close the other program and try again"),
    )


def check_header(path: Path) -> bool:
    """Look whether a file is a record of visits that this version reads.

    Args:
        path: An existing file.

    Returns:
        True for a record; False for an empty file, in which one can be made.

    Raises:
        ProblemsError: If it is anything else.
    """
    try:
        with path.open("rb") as file:
            header = file.read(_HEADER_BYTES)
    except OSError as error:
        raise _unopened(path, error) from error
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
            what=say("this file is no record of visits"),
            mend=say("move it away, or name another data folder in WAVEDRILL_HOME"),
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


def _unopened(path: Path, error: OSError) -> ProblemsError:
    return log_problem(
        str(path),
        what=say("the record of visits cannot be opened ({reason})", reason=error.strerror or error),
        mend=say("check the path and its rights"),
    )


def _connect(path: Path, query: str) -> sqlite3.Connection:
    return sqlite3.connect(
        f"{path.absolute().as_uri()}?{query}", uri=True, timeout=_BUSY_S, isolation_level=None
    )


def _check_whole(connection: sqlite3.Connection, path: Path) -> None:
    if connection.execute("PRAGMA quick_check(1)").fetchone() != ("ok",):
        raise damaged(str(path))
    for statement in (SELECT_NAMES, SELECT_EVENTS):
        connection.execute(f"{statement} LIMIT 0", [""] * statement.count("?"))


def make_tables(connection: sqlite3.Connection) -> None:
    """Make the tables of a record, unless another process has just made them.

    Args:
        connection: To an empty database, or to a record.
    """
    connection.execute("BEGIN IMMEDIATE")
    if connection.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
        for statement in SCHEMA:
            connection.execute(statement)
    connection.execute("COMMIT")


def open_to_write(path: Path) -> sqlite3.Connection:
    """Open a record to add to it; make it if it is not there.

    Args:
        path: Of the record; its folder must exist.

    Returns:
        A connection on which each commit reaches the disk before it returns, and what is deleted is
        overwritten.

    Raises:
        ProblemsError: If it cannot be a record.
    """
    try:
        # Made before the database makes it, so that its companions too are their owner's only.
        path.touch(mode=_OWNER_ONLY, exist_ok=True)
    except OSError as error:
        raise _unopened(path, error) from error
    is_record = check_header(path)
    with telling(str(path)):
        connection = _connect(path, "mode=rw")
        try:
            connection.execute("PRAGMA secure_delete = ON")
            if is_record:
                _check_whole(connection, path)
            else:
                make_tables(connection)
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA foreign_keys = OFF")
        except BaseException:
            connection.close()
            raise
    return connection


def open_to_read(path: Path) -> sqlite3.Connection:
    """Open a record to read it, changing and leaving nothing.

    Args:
        path: Of an existing record.

    Returns:
        A connection that cannot write.

    Raises:
        ProblemsError: If there is no record.
    """
    if not check_header(path):
        raise log_problem(str(path), what=say("this record is empty"), mend=say("open a visit first"))
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
