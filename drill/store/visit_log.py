"""The record of visits on SQLite: events are only added, a whole visit can be deleted for good."""

import sqlite3
from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from drill.basis.words import say
from drill.service.record import Event, Result, Visit, with_event
from drill.store import visit_table as table
from drill.store.sqlite_file import Closing, file_problem
from drill.store.visit_file import VISIT_FILE


class VisitLog(Closing):
    """The visits kept on this device."""

    def __init__(self, connection: sqlite3.Connection, *, path: str) -> None:
        """Wrap a connection that :func:`open_visits` made."""
        self.path = path
        self._connection = connection

    def close(self) -> None:
        """Let go of the file; what was waiting beside it goes into it."""
        self._connection.close()

    def open(self, visit: Visit) -> None:
        """Keep a visit that has just been opened.

        Args:
            visit: Without events, with an id of its own.

        Raises:
            ProblemsError: If it cannot be written, or the id stands for another visit.
        """
        with self._writing():
            self._connection.execute(table.INSERT_VISIT, table.visit_to_row(visit))

    def add(self, visit_id: str, event: Event) -> Visit:
        """Add an event to a visit; a first result closes it.

        Args:
            visit_id: The visit.
            event: What happened.

        Returns:
            The visit with it, as it is kept now.

        Raises:
            KeyError: If there is no such visit.
            ProblemsError: If it cannot be written; nothing of it is kept then.
        """
        with self._writing():
            visit = with_event(self._visit(visit_id), event)
            self._connection.execute(table.INSERT_EVENT, table.event_to_row(visit_id, event))
            if isinstance(event, Result):
                self._connection.execute(table.CLOSE_VISIT, [table.held_text(visit), visit_id])
        if isinstance(event, Result):
            self._write_back()
        return visit

    def visit(self, visit_id: str) -> Visit:
        """Give one visit.

        Args:
            visit_id: Its id.

        Returns:
            The visit with its events.

        Raises:
            KeyError: If there is no such visit.
            ProblemsError: If the record cannot be read.
        """
        with VISIT_FILE.telling(self.path):
            return self._visit(visit_id)

    def visits(self, label: str | None = None) -> tuple[Visit, ...]:
        """Give visits in the order of their opening.

        Args:
            label: Of one client, however it is written; None for all.

        Returns:
            The visits with their events.

        Raises:
            ProblemsError: If the record cannot be read.
        """
        sql, values = (
            (table.SELECT_ALL, []) if label is None else (table.SELECT_CLIENT, [table.label_key(label)])
        )
        with VISIT_FILE.telling(self.path):
            return tuple(map(self._whole, self._connection.execute(sql, values).fetchall()))

    def names(self) -> tuple[tuple[str, str], ...]:
        """Give id and label of every visit, in the order of their opening."""
        with VISIT_FILE.telling(self.path):
            return tuple(self._connection.execute(table.SELECT_NAMES).fetchall())

    def delete(self, visit_ids: Collection[str]) -> None:
        """Delete whole visits for good: what was written is overwritten on the disk.

        Args:
            visit_ids: Their ids; one that is not there is passed over.

        Raises:
            ProblemsError: If it cannot be done; then all of them are still there, or, where another program
                is using the record, gone from it but not yet overwritten.
        """
        with self._writing():
            for one in visit_ids:
                self._connection.execute(table.DELETE_VISIT, [one])
                self._connection.execute(table.DELETE_EVENTS, [one])
        self._write_back()

    def _visit(self, visit_id: str) -> Visit:
        row = self._connection.execute(table.SELECT_ONE, [visit_id]).fetchone()
        if row is None:
            raise KeyError(visit_id)
        return self._whole(row)

    def _whole(self, row: tuple[Any, ...]) -> Visit:
        events: Iterable[tuple[str, str]] = self._connection.execute(table.SELECT_EVENTS, [row[0]]).fetchall()
        try:
            return table.visit_from_rows(row, events)
        except (ValueError, TypeError, LookupError) as error:
            raise file_problem(
                self.path,
                say("visit {id} in this record was changed by hand", id=row[0]),
                say("go on with a copy of the record from before, or delete this visit"),
            ) from error

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """Do all of it, or nothing."""
        with VISIT_FILE.telling(self.path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    def _write_back(self) -> None:
        """Bring what waits beside the file into it, so that what was dropped is overwritten at once."""
        with VISIT_FILE.telling(self.path):
            is_busy, *_ = self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        if is_busy:
            raise VISIT_FILE.problem(self.path, "busy")


def open_visits(path: Path, *, read_only: bool = False) -> VisitLog:
    """Open the record of visits.

    Args:
        path: Of its file; where there is none it is made, unless it is only to be read.
        read_only: Neither change the file nor leave any beside it.

    Returns:
        The record, to be closed after use.

    Raises:
        ProblemsError: If the file is no record, is damaged, or was written by a newer version; it is left as
            it is.
    """
    return VisitLog(
        VISIT_FILE.open_to_read(path) if read_only else VISIT_FILE.open_to_write(path), path=str(path)
    )


def no_visits() -> VisitLog:
    """Make an empty record that is kept nowhere, for a device on which nothing was recorded yet."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    VISIT_FILE.make_tables(connection)
    return VisitLog(connection, path=":memory:")
