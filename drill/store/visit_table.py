"""The tables of a record of visits, the statements on them, and visits and events as rows."""

import json
import unicodedata
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from drill.basis.plain import from_plain, to_plain
from drill.service.record import Event, Note, PhaseTime, Reading, Result, SignOff, Visit, with_event

# The database's own field for telling files apart: the bytes of "WVIS".
APPLICATION_ID = 0x57564953
FORMAT = 1
KINDS: Mapping[str, type[Event]] = {
    "sign_off": SignOff,
    "reading": Reading,
    "time": PhaseTime,
    "result": Result,
    "note": Note,
}
_KIND_OF = {kind: name for name, kind in KINDS.items()}
# What a visit is opened with; events are rows of their own.
_OPENED = ("student_mode", "consultation", "plan", "health_lines")
_GIVEN = ("id", "label", "opened")
_NEEDED = frozenset(
    {
        "service",
        "verdict",
        "verdict_reasons",
        "rulebook",
        "steps",
        "zones",
        "waving_lotion",
        "hair_condition",
        "test_curls",
        "notes",
    }
)

SCHEMA = (
    """CREATE TABLE visit (
        id TEXT PRIMARY KEY CHECK (length(id) > 0),
        label TEXT NOT NULL,
        label_key TEXT NOT NULL,
        opened TEXT NOT NULL,
        held TEXT NOT NULL CHECK (json_valid(held)),
        closed INTEGER NOT NULL CHECK (closed IN (0, 1))
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX visit_of_client ON visit (label_key, opened, id)",
    f"""CREATE TABLE event (
        visit TEXT NOT NULL REFERENCES visit (id),
        number INTEGER NOT NULL CHECK (number > 0),
        kind TEXT NOT NULL CHECK (kind IN ({", ".join(f"'{name}'" for name in KINDS)})),
        held TEXT NOT NULL CHECK (json_valid(held)),
        PRIMARY KEY (visit, number)
    ) STRICT, WITHOUT ROWID""",
    # A visit changes once: when it is closed, and what is kept no longer than that leaves it.
    """CREATE TRIGGER visit_no_update BEFORE UPDATE ON visit
        WHEN OLD.closed = 1 OR NEW.closed = 0
            OR (OLD.id, OLD.label, OLD.label_key, OLD.opened)
                IS NOT (NEW.id, NEW.label, NEW.label_key, NEW.opened)
        BEGIN SELECT RAISE(ABORT, 'a visit changes only when it is closed'); END""",
    """CREATE TRIGGER visit_no_other BEFORE INSERT ON visit
        WHEN EXISTS (SELECT 1 FROM visit WHERE id = NEW.id)
        BEGIN SELECT RAISE(ABORT, 'another visit has this id'); END""",
    """CREATE TRIGGER event_no_update BEFORE UPDATE ON event
        BEGIN SELECT RAISE(ABORT, 'what was noted is never changed'); END""",
    # A whole visit may go, one event of it may not.
    """CREATE TRIGGER event_no_delete BEFORE DELETE ON event
        WHEN EXISTS (SELECT 1 FROM visit WHERE id = OLD.visit)
        BEGIN SELECT RAISE(ABORT, 'what was noted is deleted only with its visit'); END""",
    """CREATE TRIGGER event_no_other BEFORE INSERT ON event
        WHEN EXISTS (SELECT 1 FROM event WHERE visit = NEW.visit AND number = NEW.number)
        BEGIN SELECT RAISE(ABORT, 'another event has this place'); END""",
    f"PRAGMA application_id = {APPLICATION_ID}",
    f"PRAGMA user_version = {FORMAT}",
)

INSERT_VISIT = "INSERT INTO visit VALUES (?, ?, ?, ?, ?, 0)"
CLOSE_VISIT = "UPDATE visit SET held = ?, closed = 1 WHERE id = ? AND closed = 0"
INSERT_EVENT = "INSERT INTO event SELECT ?, coalesce(max(number), 0) + 1, ?, ? FROM event WHERE visit = ?"
SELECT_VISITS = "SELECT id, label, opened, held FROM visit"
SELECT_ALL = f"{SELECT_VISITS} ORDER BY opened, id"
SELECT_CLIENT = f"{SELECT_VISITS} WHERE label_key = ? ORDER BY opened, id"
SELECT_ONE = f"{SELECT_VISITS} WHERE id = ?"
SELECT_EVENTS = "SELECT kind, held FROM event WHERE visit = ? ORDER BY number"
SELECT_NAMES = "SELECT id, label FROM visit ORDER BY opened, id"
DELETE_VISIT = "DELETE FROM visit WHERE id = ?"
DELETE_EVENTS = "DELETE FROM event WHERE visit = ?"


def label_key(label: str) -> str:
    """Give what two ways of writing one label have in common.

    Args:
        label: A client's label.

    Returns:
        It without case, with single blanks, its letters composed.
    """
    return unicodedata.normalize("NFC", " ".join(label.split())).casefold()


def visit_to_row(visit: Visit) -> list[str]:
    """Write a visit as it is opened.

    Args:
        visit: Without events.

    Returns:
        Values for :data:`INSERT_VISIT`.
    """
    return [visit.id, visit.label, label_key(visit.label), visit.opened, held_text(visit)]


def held_text(visit: Visit) -> str:
    """Write what a visit was opened with, as far as it is still kept."""
    plain = to_plain(visit)
    return _text({name: plain[name] for name in _OPENED if name in plain})


def event_to_row(visit_id: str, event: Event) -> list[str]:
    """Write an event.

    Args:
        visit_id: Its visit.
        event: The event.

    Returns:
        Values for :data:`INSERT_EVENT`.
    """
    return [visit_id, _KIND_OF[type(event)], _text(to_plain(event)), visit_id]


def visit_from_rows(row: tuple[Any, ...], events: Iterable[tuple[str, str]]) -> Visit:
    """Read a visit.

    Args:
        row: A row of :data:`SELECT_VISITS`.
        events: Rows of :data:`SELECT_EVENTS`, in order.

    Returns:
        The visit with its events.

    Raises:
        ValueError: If the values make no visit.
        TypeError: If the values make no visit.
        LookupError: If the values make no visit.
    """
    *given, held = row
    visit: Visit = from_plain(Visit, {**json.loads(held), **dict(zip(_GIVEN, given, strict=True))})
    for kind, text in events:
        visit = with_event(visit, from_plain(KINDS[kind], json.loads(text)))
    missing = _NEEDED - visit.plan.keys()
    if missing or datetime.fromisoformat(visit.opened).tzinfo is None:
        raise ValueError(f"visit {visit.id} lacks its time or {', '.join(sorted(missing))}")
    return visit


def _text(plain: object) -> str:
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))
