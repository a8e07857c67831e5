"""A program killed in the middle of its work loses no answer that it has acknowledged."""

import random
import signal
import sqlite3
import subprocess
import sys
import time

import pytest

from drill.store.sqlite_log import open_log

CHILD = """
import random, sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from drill.memory.attempt import Attempt, new_attempt_id, study_day
from drill.store.sqlite_log import open_log

rng = random.Random(int(sys.argv[2]))
at = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)
with open_log(Path(sys.argv[1])) as log:
    while True:
        at += timedelta(minutes=rng.randint(1, 400))
        attempt = Attempt(
            id=new_attempt_id(at, rng=rng), student="Ada Reyes", device="tablet-1", at=at,
            day=study_day(at, tz_offset=timedelta(0)), skill=f"s{rng.randint(0, 30)}", item="i", seed=1,
            rulebook="r1", choice="on_base", correct=rng.random() < 0.7, misconceptions=(),
            certainty="middle", seconds=9.5, setting="drill",
        )
        log.append(attempt)
        print(attempt.id.hex(), flush=True)
"""


@pytest.mark.parametrize("seed", range(5))
def test_kill_loses_nothing_acknowledged(tmp_path, seed):
    """Every id that was printed after its answer was kept is in the log, with a cache that is the fold."""
    path = tmp_path / "ada.log"
    acknowledged = []
    for round_ in range(2):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD, str(path), str(seed * 10 + round_)],
            stdout=subprocess.PIPE,
            text=True,
        )
        acknowledged += [child.stdout.readline().strip() for _ in range(40)]
        time.sleep(random.Random(seed).random() / 20)
        child.send_signal(signal.SIGKILL)
        rest, _ = child.communicate(timeout=60)
        assert child.returncode == -signal.SIGKILL
        # A last line without its end was cut by the kill: nobody has read it as an acknowledgement.
        acknowledged += [line.strip() for line in rest.splitlines(keepends=True) if line.endswith("\n")]
        assert all(len(one) == 32 for one in acknowledged)
        with open_log(path, read_only=True) as log:
            assert {bytes.fromhex(one) for one in acknowledged} <= {one.id for one in log.attempts()}
    with open_log(path) as log:
        cached = log.memories("Ada Reyes")
        log.drop_memories()
        assert log.memories("Ada Reyes") == cached
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
