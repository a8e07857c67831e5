"""The record of visits on disk: added to, never changed, deleted for good, and never half written."""

import random
import signal
import sqlite3
import stat
import subprocess
import sys
import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from drill.basis.problem import ProblemsError
from drill.service.record import Note, PhaseTime, Reading, Result, SignOff, Visit, with_event
from drill.store import sqlite_file
from drill.store.visit_file import VISIT_FILE
from drill.store.visit_log import no_visits, open_visits
from drill.store.visit_table import FORMAT

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
AT = "2026-03-02T10:00:00+00:00"
PLAN = {
    "service": "perm",
    "verdict": "test_first",
    "verdict_reasons": [{"because": "Fever lately."}, {"because": "No record."}],
    "rulebook": "r1",
    "steps": [],
    "zones": {},
    "waving_lotion": {"class": "alkaline"},
    "hair_condition": "sound",
    "test_curls": {"why": []},
    "notes": [],
}
EVENTS = (
    SignOff(at=AT, stop="wrap", initials="AB"),
    Reading(at=AT, minutes=8.0, longest_min=None, do="go_on", way="none", wet="right"),
    PhaseTime(at=AT, phase="processing", minutes=8.5),
    Note(at=AT, text="Calm scalp."),
)
DONE = Result(at=AT, outcome="done", curl="as_wished", hair="sound", home_care="Dry")


def make(number=1, label="Wren"):
    opened = START + timedelta(days=number)
    return Visit(
        id=f"{opened:%Y%m%d}-{number:05d}",
        label=label,
        opened=opened.isoformat(),
        consultation={"client": label, "health": {"treatment": "SECRETMEDICINE"}},
        plan=PLAN,
        health_lines={"verdict_reasons": (0,)},
    )


@pytest.fixture
def path(tmp_path):
    """A record with 60 visits of 20 clients."""
    path = tmp_path / "visits.sqlite"
    with open_visits(path) as log:
        for number in range(60):
            log.open(make(number, f"Client {number % 20}"))
            log.add(make(number).id, EVENTS[number % 4])
    return path


def _files_hold(folder, text):
    return [one.name for one in folder.iterdir() if text.encode() in one.read_bytes()]


def test_a_visit_comes_back_with_its_events(tmp_path):
    """In the order noted; the last one returned is the one kept."""
    visit = make()
    with open_visits(tmp_path / "v") as log:
        log.open(visit)
        for event in EVENTS:
            visit = with_event(visit, event)
            assert log.add(visit.id, event) == visit
    with open_visits(tmp_path / "v", read_only=True) as log:
        assert log.visit(visit.id) == visit
        assert log.visits() == (visit,)
        assert log.names() == ((visit.id, "Wren"),)


def test_visits_of_a_client_are_found_however_the_label_is_written(tmp_path):
    """In the order of their opening, not of their keeping."""
    with open_visits(tmp_path / "v") as log:
        for number, label in ((3, "Zoë  Wren"), (1, "zoe\u0308 wren"), (2, "Other")):
            log.open(make(number, label))
        assert [one.id[-1] for one in log.visits(" ZOË wren ")] == ["1", "3"]
        assert [one.id[-1] for one in log.visits()] == ["1", "2", "3"]
        assert log.visits("Nobody") == ()
        with pytest.raises(KeyError):
            log.visit("nothing")
        with pytest.raises(KeyError):
            log.add("nothing", DONE)


def test_an_id_stands_for_one_visit(tmp_path):
    """The one that is there stays."""
    with open_visits(tmp_path / "v") as log:
        log.open(make())
        with pytest.raises(ProblemsError, match="another visit has this id"):
            log.open(replace(make(), label="Other"))
        assert [one.label for one in log.visits()] == ["Wren"]


def test_closing_overwrites_what_is_dropped(tmp_path):
    """No file of the folder holds it any more; a correction of the result changes no more than that."""
    with open_visits(tmp_path / "v") as log:
        log.open(make())
        for event in EVENTS:
            log.add(make().id, event)
        assert _files_hold(tmp_path, "SECRETMEDICINE")
        closed = log.add(make().id, DONE)
        assert "health" not in closed.consultation
        assert [one["because"] for one in closed.plan["verdict_reasons"]] == ["No record."]
        assert _files_hold(tmp_path, "SECRETMEDICINE") == _files_hold(tmp_path, "Fever") == []
        again = log.add(make().id, replace(DONE, curl="weaker"))
        assert (again.result.curl, again.closed) == ("weaker", AT)
        assert log.visit(make().id) == again


@pytest.mark.parametrize("share", [1, 3, 20])
def test_deleting_overwrites_whole_visits(path, share):
    """What is deleted is in no file of the folder, and the others are whole."""
    gone = [f"Client {number}" for number in range(share)]
    with open_visits(path) as log:
        before = {one.id: one for one in log.visits()}
        dead = [one.id for label in gone for one in log.visits(label)]
        log.delete([*dead, "not-there"])
        assert len(dead) == 3 * share
        left = {one.id: one for one in log.visits()}
        assert left == {one: visit for one, visit in before.items() if one not in dead}
        for one in dead:
            assert _files_hold(path.parent, one) == []
        for label in gone:
            assert _files_hold(path.parent, f'"{label}"') == []
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert connection.execute("SELECT count(*) FROM event").fetchone() == (60 - len(dead),)
    connection.close()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE event SET held = '{}'",
        "DELETE FROM event",
        "INSERT OR REPLACE INTO event SELECT visit, number, kind, '{}' FROM event",
        "UPDATE visit SET label = 'Other'",
        "UPDATE visit SET held = '{}'",
        "INSERT OR REPLACE INTO visit SELECT id, 'Other', label_key, opened, held, closed FROM visit",
    ],
)
def test_nothing_noted_is_changed_by_hand(path, statement):
    """The database itself refuses."""
    connection = sqlite3.connect(path)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(statement)
    connection.close()


def test_what_cannot_be_written_leaves_everything_as_it_was(tmp_path):
    """Half a letter in a note."""
    with open_visits(tmp_path / "v") as log:
        log.open(make())
        with pytest.raises(ProblemsError, match="cannot be written"):
            log.add(make().id, Note(at=AT, text="\ud800"))
        log.add(make().id, EVENTS[0])
        assert log.visit(make().id) == with_event(make(), EVENTS[0])


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE visit SET held = '[]'",
        "UPDATE visit SET held = '{}'",
        "UPDATE visit SET held = json_remove(held, '$.plan.steps')",
        "UPDATE visit SET held = json_set(held, '$.health_lines.nothing', json('[1]')), closed = 1",
        "UPDATE visit SET opened = 'yesterday'",
        "UPDATE visit SET opened = '2026-03-02T09:00:00'",
        "UPDATE event SET held = '{\"at\": 3}'",
    ],
)
def test_a_visit_changed_by_hand_is_told_and_can_be_deleted(tmp_path, change):
    """By its id; the others are still read."""
    path = tmp_path / "v"
    with open_visits(path) as log:
        log.open(make())
        log.add(make().id, DONE if "lines" in change else EVENTS[0])
    connection = sqlite3.connect(path)
    for name in ("visit_no_update", "event_no_update"):
        connection.execute(f"DROP TRIGGER {name}")
    connection.execute(change)
    connection.commit()
    connection.close()
    with open_visits(path) as log:
        log.open(make(2))
        if "lines" not in change:
            with pytest.raises(ProblemsError, match="changed by hand"):
                log.visit(make().id)
        else:
            with pytest.raises(ProblemsError, match="changed by hand"):
                log.visits()
        log.delete([make().id])
        assert log.visits() == (make(2),)


def test_only_its_owner_may_read_it(tmp_path):
    """And what lies beside it while it is open."""
    with open_visits(tmp_path / "v") as log:
        log.open(make())
        modes = {one.name: stat.S_IMODE(one.stat().st_mode) for one in tmp_path.iterdir()}
    assert modes.keys() >= {"v", "v-wal"}
    assert set(modes.values()) == {0o600}


def test_an_empty_record_is_kept_nowhere(tmp_path):
    """For a device on which nothing was recorded yet."""
    with no_visits() as log:
        assert log.visits() == log.names() == ()
        log.open(make())
        assert log.visits() == (make(),)
    assert list(tmp_path.iterdir()) == []


def _told(path, words):
    """Both ways of opening tell these words, and leave every byte."""
    before = path.read_bytes() if path.is_file() else None
    for read_only in (False, True):
        with pytest.raises(ProblemsError) as caught:
            open_visits(path, read_only=read_only)
        assert str(caught.value).startswith(f"{path}:1:1: ")
        assert words in str(caught.value)
        assert caught.value.problems[0].mend
    assert before is None or path.read_bytes() == before


@pytest.mark.parametrize("content", [b"hello", b"\x00" * 5000, b"SQLite format 3\x00" + b"\x00" * 84])
def test_open_when_the_file_is_no_record_then_it_is_told(tmp_path, content):
    """Any other file is named as none."""
    (tmp_path / "v").write_bytes(content)
    _told(tmp_path / "v", "this file is no record of visits")


def test_open_when_it_is_an_attempt_log_then_it_is_told(tmp_path):
    """The other database of this program is no record either."""
    from drill.store.sqlite_log import open_log

    open_log(tmp_path / "v").close()
    _told(tmp_path / "v", "this file is no record of visits")


def test_open_when_written_by_a_newer_version_then_it_is_told(path):
    """A newer format is refused by number."""
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {FORMAT + 1}")
    connection.close()
    _told(path, f"format {FORMAT + 1} was written by a newer version; this one reads {FORMAT}")


def test_open_when_damaged_then_it_is_told(path):
    """Cut short, or with rubbish inside, or without a table."""
    data = path.read_bytes()
    for share in (0.3, 0.9):
        path.write_bytes(data[: int(len(data) * share)])
        _told(path, "this record of visits is damaged")
    path.write_bytes(data[:8192] + b"\xa5" * 4096 + data[12288:])
    _told(path, "this record of visits is damaged")
    path.write_bytes(data)
    connection = sqlite3.connect(path)
    connection.execute("DROP TABLE event")
    connection.commit()
    connection.close()
    _told(path, "this record of visits is damaged")


def test_open_when_there_is_no_folder_or_it_is_a_folder_then_it_is_told(tmp_path):
    """Nothing is made."""
    _told(tmp_path, "cannot be opened")
    _told(tmp_path / "nowhere" / "v", "cannot be opened")
    with pytest.raises(ProblemsError, match="cannot be opened"):
        open_visits(tmp_path / "v", read_only=True)
    assert list(tmp_path.iterdir()) == []


def test_open_when_the_file_is_empty_then_it_becomes_a_record(tmp_path):
    """A file that a kill left empty is made anew; only reading says that it is empty."""
    path = tmp_path / "v"
    path.touch()
    with pytest.raises(ProblemsError, match="this record is empty"):
        open_visits(path, read_only=True)
    with open_visits(path) as log:
        log.open(make())
        VISIT_FILE.make_tables(log._connection)
        assert log.visits() == (make(),)


def test_read_only_changes_and_leaves_nothing(path):
    """Not even in a folder that cannot be written."""
    before = path.read_bytes()
    with open_visits(path, read_only=True) as log:
        assert len(log.visits()) == 60
        with pytest.raises(ProblemsError, match="cannot be read or written"):
            log.add(make(0).id, EVENTS[0])
    assert [one.name for one in path.parent.iterdir()] == [path.name]
    assert path.read_bytes() == before


def test_read_only_while_it_is_open_sees_what_waits_beside_it(path):
    """What is not yet in the main file is read as well."""
    with open_visits(path) as log:
        log.open(make(90))
        with open_visits(path, read_only=True) as reader:
            assert len(reader.visits()) == 61


def test_while_another_program_uses_it_is_told(path, monkeypatch):
    """A lock that does not go away, and a reader that keeps what was deleted from being overwritten."""
    monkeypatch.setattr(sqlite_file, "BUSY_S", 0.05)
    other = sqlite3.connect(path, isolation_level=None)
    with open_visits(path) as log:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(ProblemsError, match="another program is using"):
            log.add(make(0).id, EVENTS[0])
        other.execute("ROLLBACK")
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM visit").fetchone()
        with pytest.raises(ProblemsError, match="another program is using"):
            log.delete([make(0).id])
        other.execute("ROLLBACK")
        log.delete([make(0).id])
        assert len(log.visits()) == 59
    other.close()
    assert _files_hold(path.parent, make(0).id) == []


CHILD = """
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from drill.service.record import Note, Result, Visit
from drill.store.visit_log import open_visits

at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
plan = dict.fromkeys(
    ("service", "verdict", "rulebook", "hair_condition", "steps", "zones", "waving_lotion", "test_curls"), ""
)
with open_visits(Path(sys.argv[1])) as log:
    for number in range(100000):
        visit = Visit(
            id=f"{sys.argv[2]}-{number}", label="Wren", opened=(at + timedelta(hours=number)).isoformat(),
            consultation={"health": "SECRETMEDICINE"}, plan={**plan, "verdict_reasons": [], "notes": []},
            health_lines={},
        )
        log.open(visit)
        log.add(visit.id, Note(at=visit.opened, text="Calm."))
        log.add(visit.id, Result(at=visit.opened, outcome="done"))
        print(visit.id, flush=True)
"""


@pytest.mark.parametrize("seed", range(4))
def test_kill_loses_nothing_acknowledged_and_leaves_nothing_half(tmp_path, seed):
    """Each visit that was printed after it was kept is whole, and what it dropped is gone."""
    path = tmp_path / "v"
    acknowledged = []
    for round_ in range(2):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD, str(path), f"k{round_}"], stdout=subprocess.PIPE, text=True
        )
        acknowledged += [child.stdout.readline().strip() for _ in range(20)]
        time.sleep(random.Random(seed).random() / 20)
        child.send_signal(signal.SIGKILL)
        rest, _ = child.communicate(timeout=60)
        assert child.returncode == -signal.SIGKILL
        acknowledged += [line.strip() for line in rest.splitlines(keepends=True) if line.endswith("\n")]
        with open_visits(path, read_only=True) as log:
            visits = {one.id: one for one in log.visits()}
        for one in acknowledged:
            assert len(visits[one].notes) == len(visits[one].results) == 1
            assert "health" not in visits[one].consultation
        for one in visits.values():
            assert bool(one.closed) == ("health" not in one.consultation)
            assert one.notes or not one.closed
    with open_visits(path) as log:
        for one in log.visits():
            if not one.closed:
                log.add(one.id, DONE)
    assert _files_hold(tmp_path, "SECRETMEDICINE") == []
