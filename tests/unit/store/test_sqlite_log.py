"""The log in a file: what it keeps, refuses, gathers and caches."""

import random
import sqlite3
from datetime import timedelta

import pytest

from drill.basis.problem import ProblemsError
from drill.memory.attempt import in_time_order
from drill.memory.recall import PARAMETER_SET, fold_attempts
from drill.store import log_table
from drill.store.attempt_log import AttemptLog
from drill.store.sqlite_log import memory_log, open_log


@pytest.fixture
def path(tmp_path):
    return tmp_path / "class.log"


def _many(make_attempt, count=60, **values):
    return [
        make_attempt(days=n / 4, skill=f"skill-{n % 5}", correct=n % 3 > 0, seed=n, **values)
        for n in range(count)
    ]


def _snapshots(path):
    connection = sqlite3.connect(path)
    rows = connection.execute("SELECT student, skill, attempts FROM snapshot ORDER BY 1, 2").fetchall()
    connection.close()
    return rows


def test_append_when_read_again_then_every_field_is_the_same(make_attempt, path):
    """An attempt comes back as it went in, to the microsecond, whatever its texts hold."""
    attempts = [
        make_attempt(),
        make_attempt(days=1.000000123, student="Zoë O'Hara; --", misconceptions=("a", 'b"c'), certainty=None),
        make_attempt(days=2, setting="exam", certainty=None, correct=False, seconds=0.0, seed=2**63 - 1),
        make_attempt(days=3, choice="", skill="\x00\u2028", certainty="low"),
    ]
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
    with open_log(path) as log:
        assert list(log.attempts()) == in_time_order(attempts)
        assert log.attempts("Zoë O'Hara; --") == (attempts[1],)
        assert log.attempts("nobody") == ()
        assert log.students() == ("Ada Reyes", "Zoë O'Hara; --")


def test_log_keeps_the_protocol(path):
    """The file's log is one that the rest of the house can be given."""
    with open_log(path) as log:
        taken: AttemptLog = log
        assert taken.students() == ()


def test_append_when_given_twice_then_it_counts_once(make_attempt, path):
    """The same attempt again changes nothing."""
    attempt = make_attempt()
    with open_log(path) as log:
        log.append(attempt)
        log.append(attempt)
        assert log.attempts() == (attempt,)
        assert log.memories("Ada Reyes")["base-control"].attempts == 1


def test_append_when_the_id_stands_for_another_then_it_is_told(make_attempt, path):
    """An id is never used for two different attempts."""
    attempt = make_attempt()
    with open_log(path) as log:
        log.append(attempt)
        with pytest.raises(ProblemsError, match="contradicts what the log holds under the same id"):
            log.append(make_attempt(id=attempt.id, choice="off_base"))
        assert log.attempts() == (attempt,)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE attempt SET correct = 0",
        "DELETE FROM attempt",
        "INSERT OR REPLACE INTO attempt SELECT id, 'Eve', device, at_us, day, skill, item, seed, rulebook,"
        " choice, correct, misconceptions, certainty, seconds, setting FROM attempt",
        "REPLACE INTO attempt SELECT id, student, device, at_us, day, skill, item, seed, rulebook, choice,"
        " correct, misconceptions, 'low', seconds, setting FROM attempt",
        "UPDATE OR IGNORE attempt SET certainty = NULL",
        "INSERT INTO attempt SELECT randomblob(15), student, device, at_us, day, skill, item, seed, rulebook,"
        " choice, correct, misconceptions, certainty, seconds, setting FROM attempt",
        "INSERT INTO attempt SELECT randomblob(16), student, device, 'today', day, skill, item, seed,"
        " rulebook, choice, correct, misconceptions, certainty, seconds, setting FROM attempt",
        "INSERT INTO attempt SELECT randomblob(16), student, device, at_us, day, skill, item, seed, rulebook,"
        " choice, correct, misconceptions, 'perhaps', seconds, setting FROM attempt",
    ],
)
def test_table_when_another_program_meddles_then_it_refuses(make_attempt, path, statement):
    """Even a plain connection cannot change, delete, replace or misshape a row."""
    attempt = make_attempt()
    with open_log(path) as log:
        log.append(attempt)
    connection = sqlite3.connect(path)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(statement)
    connection.commit()
    connection.close()
    with open_log(path) as log:
        assert log.attempts() == (attempt,)


def test_append_when_a_value_is_outside_the_table_then_it_is_told_not_dropped(make_attempt, path):
    """A row that the table refuses is never passed over in silence."""
    with open_log(path) as log:
        with pytest.raises(ProblemsError):
            log.append(make_attempt(certainty="perhaps"))
        with pytest.raises(ProblemsError, match="characters that cannot be written"):
            log.append(make_attempt(student="\ud800"))
        assert log.attempts() == ()


def test_file_is_set_to_reach_the_disk_at_each_answer(path):
    """The journal is written ahead and every commit waits for the disk."""
    with open_log(path) as log:
        assert log._db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert log._db.execute("PRAGMA synchronous").fetchone() == (2,)


def test_append_makes_one_commit(make_attempt, path):
    """The attempt and its cache go in together: another connection sees both or neither."""
    with open_log(path) as log:
        seen = []
        other = sqlite3.connect(path)
        for attempt in _many(make_attempt, 5):
            before = other.execute("PRAGMA data_version").fetchone()
            log.append(attempt)
            changed = other.execute("PRAGMA data_version").fetchone() != before
            counts = other.execute(
                "SELECT (SELECT count(*) FROM attempt), (SELECT sum(attempts) FROM snapshot)"
            ).fetchone()
            seen.append((changed, *counts))
        other.close()
    assert seen == [(True, n, n) for n in range(1, 6)]


def test_memories_when_appended_one_by_one_then_they_are_the_fold(make_attempt, path):
    """The cache says what the fold says, and is there without folding."""
    attempts = _many(make_attempt)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
        assert log.memories("Ada Reyes") == fold_attempts(attempts)
        assert list(log.memories("Ada Reyes")) == sorted(f"skill-{n}" for n in range(5))
        assert log.memories("nobody") == {}
    assert _snapshots(path) == [("Ada Reyes", f"skill-{n}", 12) for n in range(5)]


def test_memories_when_an_older_attempt_comes_then_its_skill_is_folded_anew(make_attempt, path):
    """A late arrival drops the cache of its skill only, and the fold is right again."""
    attempts = _many(make_attempt)
    late = attempts.pop(7)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
        log.append(late)
        assert late.skill not in [skill for _, skill, _ in _snapshots(path)]
        assert len(_snapshots(path)) == 4
        assert log.memories("Ada Reyes") == fold_attempts([*attempts, late])
        assert len(_snapshots(path)) == 5


def test_memories_when_times_tie_then_the_id_decides_in_the_cache_as_well(make_attempt, path):
    """Of two attempts at one moment, the one with the smaller id is folded first, whichever came first."""
    ties = [make_attempt(correct=n % 2 == 0) for n in range(6)]
    with open_log(path) as log:
        for attempt in sorted(ties, key=lambda one: one.id, reverse=True):
            log.append(attempt)
            log.memories("Ada Reyes")
        assert log.memories("Ada Reyes") == fold_attempts(ties)


@pytest.mark.parametrize(
    "harm",
    [
        "DELETE FROM snapshot",
        "DELETE FROM snapshot WHERE skill = 'skill-2'",
        "UPDATE snapshot SET parameter_set = 'fsrs-other', stability = 77",
        "UPDATE snapshot SET attempts = attempts - 1, stability = 77 WHERE skill = 'skill-1'",
    ],
)
def test_memories_when_the_cache_is_gone_or_of_other_numbers_then_it_is_rebuilt(make_attempt, path, harm):
    """A cache that is missing, partial, miscounted or of another library is not believed."""
    attempts = _many(make_attempt)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
    connection = sqlite3.connect(path)
    connection.execute(harm)
    connection.commit()
    connection.close()
    with open_log(path) as log:
        assert log.memories("Ada Reyes") == fold_attempts(attempts)
        more = make_attempt(days=40, skill="skill-1")
        log.append(more)
        assert log.memories("Ada Reyes") == fold_attempts([*attempts, more])
        log.drop_memories()
        assert _snapshots(path) == []
        assert log.memories("Ada Reyes") == fold_attempts([*attempts, more])
    assert len(_snapshots(path)) == 5


def test_memories_when_appended_on_a_stale_cache_then_they_are_not_built_on_it(make_attempt, path):
    """An answer on a cache of another library drops it; nothing is added to wrong numbers."""
    attempts = _many(make_attempt, 10)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
        log._db.execute("UPDATE snapshot SET parameter_set = 'fsrs-other'")
        more = make_attempt(days=40, skill="skill-1")
        log.append(more)
        assert ("Ada Reyes", "skill-1", 3) not in _snapshots(path)
        assert log.memories("Ada Reyes") == fold_attempts([*attempts, more])
        rows = log._db.execute("SELECT DISTINCT parameter_set FROM snapshot").fetchall()
    assert rows == [(PARAMETER_SET,)]


def test_receive_counts_new_and_known(make_attempt, path):
    """What is here already is passed over; when the rest came is kept."""
    attempts = _many(make_attempt, 12)
    now = attempts[-1].at + timedelta(hours=1)
    with open_log(path) as log:
        log.append(attempts[0])
        taken = log.receive(attempts, now=now, origin="other")
        assert (taken.new, taken.known, taken.ahead) == (11, 1, ())
        again = log.receive(attempts, now=now, origin="other")
        assert (again.new, again.known) == (0, 12)
        assert log.memories("Ada Reyes") == fold_attempts(attempts)
        received = log._db.execute("SELECT count(*), min(at_us), max(at_us) FROM received").fetchone()
    assert received == (11, log_table.to_us(now), log_table.to_us(now))


def test_receive_when_one_contradicts_then_none_is_taken_and_all_faults_are_told(make_attempt, path):
    """A log that was changed by hand is refused whole, with each contradiction named."""
    attempts = _many(make_attempt, 6)
    changed = [make_attempt(id=one.id, at=one.at, choice="changed") for one in attempts[:2]]
    with open_log(path) as log:
        for attempt in attempts[:2]:
            log.append(attempt)
        with pytest.raises(ProblemsError) as caught:
            log.receive([*changed, *attempts[2:]], now=attempts[-1].at, origin="bo.log")
        assert len(caught.value.problems) == 2
        for one in changed:
            assert f"bo.log:1:1: attempt {one.id.hex()} of Ada Reyes differs" in str(caught.value)
        assert list(log.attempts()) == attempts[:2]


def test_merge_takes_another_log_and_leaves_it_as_it_is(make_attempt, path, tmp_path):
    """Two logs with a common part make their union; the other file keeps every byte."""
    attempts = _many(make_attempt, 30)
    other = tmp_path / "phone.log"
    with open_log(other) as log:
        for attempt in attempts[10:]:
            log.append(attempt)
    before = other.read_bytes()
    now = attempts[-1].at + timedelta(hours=1)
    with open_log(path) as log:
        for attempt in attempts[:20]:
            log.append(attempt)
        taken = log.merge(other, now=now)
        assert (taken.new, taken.known) == (10, 10)
        assert list(log.attempts()) == in_time_order(attempts)
        assert log.memories("Ada Reyes") == fold_attempts(attempts)
        assert log.merge(other, now=now).new == 0
    assert other.read_bytes() == before
    assert {one.name for one in tmp_path.iterdir()} == {"phone.log", "class.log"}


def test_merge_with_itself_changes_nothing(make_attempt, path):
    """A log merged into itself is the same log."""
    attempts = _many(make_attempt, 8)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
        taken = log.merge(path, now=attempts[-1].at)
        assert (taken.new, taken.known) == (0, 8)


def test_clock_that_ran_ahead_is_flagged_and_clamped_in_derived_state_only(make_attempt, path):
    """A phone thirty days ahead: the log keeps its times, recall is counted from the day of receipt."""
    attempts = _many(make_attempt, 20)
    ahead = [make_attempt(days=35, skill="skill-0", device="phone-2"), make_attempt(days=36, skill="skill-9")]
    now = attempts[-1].at + timedelta(hours=2)
    with open_log(path) as log:
        for attempt in attempts:
            log.append(attempt)
        taken = log.receive(ahead, now=now, origin="phone-2.log")
        assert taken.ahead == tuple(ahead)
        assert log.ahead() == log.ahead("Ada Reyes") == tuple(ahead)
        assert list(log.attempts()) == [*attempts, *ahead]
        clamped = log.clamped_attempts("Ada Reyes")
        assert [one.at for one in clamped[-2:]] == [now, now]
        memories = log.memories("Ada Reyes")
        assert memories == fold_attempts(clamped)
        assert memories["skill-9"].last_day <= attempts[-1].day + 1
        # The next answer comes after the clamped time, though long before the time as written.
        following = make_attempt(days=6, skill="skill-0")
        log.append(following)
        assert ("Ada Reyes", "skill-0", 6) in _snapshots(path)
        assert log.memories("Ada Reyes") == fold_attempts([*clamped, following])


def test_gathering_in_memory(make_attempt, tmp_path):
    """Logs are gathered where nothing is kept, for a report on several files."""
    rng = random.Random(5)
    attempts = _many(make_attempt, 30)
    for name in ("one.log", "two.log"):
        with open_log(tmp_path / name) as log:
            for attempt in rng.sample(attempts, 20):
                log.append(attempt)
    with memory_log() as log:
        for name in ("one.log", "two.log"):
            log.merge(tmp_path / name, now=attempts[-1].at)
        assert set(log.attempts()) <= set(attempts)
        assert log.memories("Ada Reyes") == fold_attempts(log.attempts())


def test_kept_values_change_and_go(path):
    """An open sitting and settings are kept, replaced and forgotten."""
    with open_log(path) as log:
        assert log.kept("sitting") is None
        log.keep("sitting", '{"n": 1}')
        log.keep("sitting", '{"n": 2}')
    with open_log(path) as log:
        assert log.kept("sitting") == '{"n": 2}'
        log.forget("sitting")
        log.forget("sitting")
        assert log.kept("sitting") is None


def test_row_changed_by_force_is_told(make_attempt, path):
    """A row that makes no attempt is a problem of the file, not a traceback."""
    with open_log(path) as log:
        log.append(make_attempt())
    for change in ("day = 7", "misconceptions = '[1]'", "misconceptions = '{}'", "at_us = 1 << 62"):
        connection = sqlite3.connect(path)
        trigger = connection.execute(
            "SELECT sql FROM sqlite_master WHERE name = 'attempt_no_update'"
        ).fetchone()[0]
        connection.execute("DROP TRIGGER attempt_no_update")
        connection.execute(f"UPDATE attempt SET {change}")
        connection.execute(trigger)
        connection.commit()
        connection.close()
        with open_log(path) as log, pytest.raises(ProblemsError, match="changed by hand"):
            log.attempts()
