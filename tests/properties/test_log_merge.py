"""Logs of several devices are one set of attempts: neither order nor repetition changes the state."""

import random
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory.attempt import Attempt, in_time_order, new_attempt_id, study_day
from drill.memory.recall import add_attempt, fold_attempts, fold_class
from drill.store.sqlite_log import SqliteLog, memory_log, open_log

START = datetime(2026, 1, 5, 3, 0, tzinfo=UTC)


@st.composite
def histories(draw, least=0, most=40):
    """Attempts of two students on two devices at few moments, so that times tie often."""
    rng = random.Random(draw(st.integers(0, 2**32)))
    attempts = []
    for _ in range(draw(st.integers(least, most))):
        at = START + timedelta(hours=draw(st.integers(0, 200)))
        setting = draw(st.sampled_from(("drill", "exam")))
        attempts.append(
            Attempt(
                id=new_attempt_id(at, rng=rng),
                student=draw(st.sampled_from(("Ada", "Bo"))),
                device=draw(st.sampled_from(("phone", "tablet"))),
                at=at,
                day=study_day(at, tz_offset=timedelta(hours=draw(st.sampled_from((-8, 0, 9))))),
                skill=draw(st.sampled_from(("a", "b", "c"))),
                item="i",
                seed=draw(st.integers(0, 99)),
                rulebook="r",
                choice="x",
                correct=draw(st.booleans()),
                misconceptions=(),
                certainty=None if setting == "exam" else draw(st.sampled_from(("low", "middle", "high"))),
                seconds=draw(st.floats(0, 300)),
                setting=setting,
            )
        )
    return attempts


def _state(log: SqliteLog):
    return {student: log.memories(student) for student in log.students()}


@given(histories(), st.randoms(use_true_random=False))
def test_fold_does_not_see_the_order_of_its_attempts(attempts, rng):
    """Any order of the same attempts folds to the same memories."""
    folded = fold_class(attempts)
    rng.shuffle(attempts)
    assert fold_class(attempts) == folded


@given(histories(least=1))
def test_fold_is_one_step_at_a_time(attempts):
    """Adding attempts one by one gives what the fold gives: a cache may go on from where it is."""
    mine = [one for one in attempts if one.student == attempts[0].student]
    memories = {}
    for attempt in in_time_order(mine):
        memories[attempt.skill] = add_attempt(memories.get(attempt.skill), attempt)
    assert memories == fold_attempts(mine)
    assert all(memory.stability > 0 and 1 <= memory.difficulty <= 10 for memory in memories.values())


@given(histories(), st.randoms(use_true_random=False))
def test_any_way_of_merging_gives_one_state(attempts, rng):
    """Parts with overlaps, in any order, with repetitions, by answer or by bundle: one log, one state."""
    now = START + timedelta(days=30)
    with memory_log() as whole:
        for attempt in attempts:
            whole.append(attempt)
        expected, state = whole.attempts(), _state(whole)
    assert state == fold_class(attempts)
    for _ in range(3):
        parts = [rng.sample(attempts, rng.randint(0, len(attempts))) for _ in range(3)] + [attempts]
        rng.shuffle(parts)
        with memory_log() as log:
            for part in parts:
                if rng.random() < 0.3:
                    for attempt in part:
                        log.append(attempt)
                else:
                    taken = log.receive(part, now=now, origin="part")
                    assert taken.new + taken.known == len(part)
                if rng.random() < 0.5:  # a cache made half way must not go stale
                    _state(log)
            assert log.attempts() == expected
            assert _state(log) == state


@settings(max_examples=12)
@given(histories(least=3), st.randoms(use_true_random=False))
def test_three_devices_that_exchange_files_end_alike(attempts, rng):
    """Devices that merge each other's files, round by round, hold the same log and the same state."""
    now = START + timedelta(days=30)
    with TemporaryDirectory() as folder:
        paths = [Path(folder) / f"{name}.log" for name in ("one", "two", "three")]
        for path in paths:
            with open_log(path) as log:
                log.receive(rng.sample(attempts, len(attempts) // 2), now=now, origin="made")
        pairs = list(pairwise([*paths, *paths, *paths]))
        for here, there in pairs + [(there, here) for here, there in pairs]:
            with open_log(here) as log:
                log.merge(there, now=now)
        found = []
        for path in paths:
            with open_log(path, read_only=True) as log:
                found.append((log.attempts(), _state(log)))
    assert found[0] == found[1] == found[2]
