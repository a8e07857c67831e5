"""Opening a log: what is told, and what is left as it was."""

import shutil
import sqlite3

import pytest

from drill.basis.problem import ProblemsError
from drill.store import sqlite_file
from drill.store.log_file import LOG_FILE
from drill.store.log_table import FORMAT
from drill.store.sqlite_log import open_log


@pytest.fixture
def path(make_attempt, tmp_path):
    """A log with 400 attempts in it."""
    path = tmp_path / "ada.log"
    with open_log(path) as log:
        attempts = [make_attempt(days=n / 9, skill=f"s{n % 40}") for n in range(400)]
        log.receive(attempts, now=attempts[-1].at, origin="made")
        log.memories("Ada Reyes")
    return path


def _told(path, words, *, beside=()):
    """Both ways of opening tell these words, and leave every byte."""
    before = path.read_bytes() if path.is_file() else None
    for read_only in (False, True):
        with pytest.raises(ProblemsError) as caught:
            open_log(path, read_only=read_only)
        assert str(caught.value).startswith(f"{path}:1:1: ")
        assert words in str(caught.value)
        assert caught.value.problems[0].mend
    assert before is None or path.read_bytes() == before
    assert {one.name for one in path.parent.iterdir() if one.name.startswith(path.name)} <= {
        path.name,
        *beside,
    }


@pytest.mark.parametrize(
    "content",
    [
        b"hello",
        b"\x00" * 5000,
        b"SQLite format 3\x00",
        b"SQLite format 3\x00" + b"\x00" * 84,
        b"answer: on_base\n" * 500,
    ],
)
def test_open_when_the_file_is_no_log_then_it_is_told(tmp_path, content):
    """Any other file is named as no log."""
    path = tmp_path / "notes.txt"
    path.write_bytes(content)
    _told(path, "this file is no attempt log")


def test_open_when_it_is_another_program_s_database_then_it_is_told(tmp_path):
    """A database of something else is not written into."""
    path = tmp_path / "other.db"
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE attempt (id)")
    connection.commit()
    connection.close()
    _told(path, "this file is no attempt log")


def test_open_when_written_by_a_newer_version_then_it_is_told(path):
    """A newer format is refused by number."""
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {FORMAT + 1}")
    connection.close()
    _told(path, f"format {FORMAT + 1} was written by a newer version; this one reads {FORMAT}")


def test_open_when_cut_short_then_it_is_told(path):
    """A log that lost its end is damaged."""
    data = path.read_bytes()
    for share in (0.2, 0.5, 0.95):
        path.write_bytes(data[: int(len(data) * share)])
        _told(path, "this attempt log is damaged", beside=("ada.log-wal", "ada.log-shm"))


def test_open_when_pages_are_overwritten_then_it_is_told(path):
    """A log with rubbish inside is damaged, before anything is added to it."""
    data = bytearray(path.read_bytes())
    data[8192:12288] = b"\xa5" * 4096
    path.write_bytes(data)
    _told(path, "this attempt log is damaged", beside=("ada.log-wal", "ada.log-shm"))


def test_open_when_a_table_is_missing_then_it_is_told(path):
    """Our mark without our tables is damage too."""
    connection = sqlite3.connect(path)
    connection.execute("DROP TABLE received")
    connection.commit()
    connection.close()
    _told(path, "this attempt log is damaged", beside=("ada.log-wal", "ada.log-shm"))


def test_open_when_there_is_no_folder_or_it_is_a_folder_then_it_is_told(tmp_path):
    """A path that cannot be a file is told, and nothing is made."""
    _told(tmp_path, "cannot be opened")
    with pytest.raises(ProblemsError, match="cannot be read or written"):
        open_log(tmp_path / "nowhere" / "ada.log")
    with pytest.raises(ProblemsError, match="cannot be opened"):
        open_log(tmp_path / "ada.log", read_only=True)
    assert list(tmp_path.iterdir()) == []


def test_open_when_the_file_is_empty_then_it_becomes_a_log(make_attempt, tmp_path):
    """A file that a kill left empty is made anew; only reading says that it is empty."""
    path = tmp_path / "ada.log"
    path.touch()
    with pytest.raises(ProblemsError, match="this attempt log is empty"):
        open_log(path, read_only=True)
    with open_log(path) as log:
        log.append(make_attempt())
    with open_log(path, read_only=True) as log:
        assert len(log.attempts()) == 1


def test_make_when_another_process_made_it_then_it_is_left(path):
    """Making tables in a log changes nothing."""
    connection = sqlite3.connect(path)
    LOG_FILE.make_tables(connection)
    assert connection.execute("SELECT count(*) FROM attempt").fetchone() == (400,)
    connection.close()


def test_read_only_changes_and_leaves_nothing(make_attempt, path):
    """Reading a closed log makes no file, even in a folder that cannot be written, and cannot write."""
    before = path.read_bytes()
    path.parent.chmod(0o555)
    path.chmod(0o444)
    try:
        with open_log(path, read_only=True) as log:
            assert len(log.attempts()) == 400
            assert len(log.memories("Ada Reyes")) == 40
            assert [one.name for one in path.parent.iterdir()] == ["ada.log"]
            with pytest.raises(ProblemsError, match="cannot be read or written"):
                log.append(make_attempt())
    finally:
        path.parent.chmod(0o755)
        path.chmod(0o644)
    assert [one.name for one in path.parent.iterdir()] == ["ada.log"]
    assert path.read_bytes() == before


def test_read_only_when_the_cache_is_stale_then_it_folds_and_writes_nothing(make_attempt, path):
    """A reader without a good cache folds for itself."""
    with open_log(path) as log:
        memories = log.memories("Ada Reyes")
        log.drop_memories()
    before = path.read_bytes()
    with open_log(path, read_only=True) as log:
        assert log.memories("Ada Reyes") == memories
    assert path.read_bytes() == before


def test_read_only_while_the_log_is_open_sees_what_waits_beside_it(make_attempt, path):
    """Answers not yet in the main file are read as well, and stay where they are."""
    with open_log(path) as log:
        log.append(make_attempt(days=90))
        before = path.read_bytes()
        with open_log(path, read_only=True) as reader:
            assert len(reader.attempts()) == 401
        assert path.read_bytes() == before
        log.append(make_attempt(days=91))
        assert len(log.attempts()) == 402


def test_copy_with_what_waited_beside_it_is_read_whole(make_attempt, path, tmp_path):
    """A log copied from a killed program, both files, gives every answer."""
    copies = tmp_path / "copies"
    copies.mkdir()
    with open_log(path) as log:
        log.append(make_attempt(days=90))
        for name in ("ada.log", "ada.log-wal"):
            shutil.copy(path.parent / name, copies / name)
    with open_log(copies / "ada.log", read_only=True) as log:
        assert len(log.attempts()) == 401


def test_write_while_another_program_writes_is_told(make_attempt, path, monkeypatch):
    """A lock that does not go away is a problem with a mend."""
    monkeypatch.setattr(sqlite_file, "BUSY_S", 0.05)
    other = sqlite3.connect(path)
    with open_log(path) as log:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(ProblemsError, match="another program is writing"):
            log.append(make_attempt(days=90))
        other.execute("ROLLBACK")
        log.append(make_attempt(days=90))
        assert len(log.attempts()) == 401
    other.close()
