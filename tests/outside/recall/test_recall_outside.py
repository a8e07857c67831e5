"""Recall against the published curve, and against the library's own replay; see SOURCE.md."""

import csv
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path
from uuid import RFC_4122, UUID

import pytest
from fsrs import Card, Rating, ReviewLog, Scheduler  # noqa: TID251  the check must not go through our module

from drill.memory.attempt import Attempt, grade, in_time_order, new_attempt_id, study_day
from drill.memory.recall import fold_attempts, forgetting_curve, recall_on

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
START = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)
W20 = 0.1542  # the default decay of version 6, as published

with (Path(__file__).parent / "curve.csv").open(encoding="utf-8") as file:
    CURVE = [{name: float(value) for name, value in row.items()} for row in csv.DictReader(file)]


@pytest.mark.parametrize("row", CURVE)
def test_curve_is_the_published_one(row):
    """Our one formula gives the table of version 5 with its decay."""
    found = forgetting_curve(row["elapsed_days"], stability=row["stability_days"], decay=-0.5)
    assert found == pytest.approx(row["recall"], abs=5e-5)
    assert found == pytest.approx(
        (1 + 19 / 81 * row["elapsed_days"] / row["stability_days"]) ** -0.5, rel=1e-12
    )


@pytest.mark.parametrize("stability", [0.01, 0.212, 2.3065, 10.0, 400.0])
def test_curve_with_the_default_decay_is_version_6(stability):
    """With no decay given the curve is that of version 6."""
    factor = 0.9 ** (-1 / W20) - 1
    for days in (0, 1, 2, 7, 30, 60, 365):
        published = (1 + factor * days / stability) ** -W20
        assert forgetting_curve(days, stability=stability) == pytest.approx(published, rel=1e-12)


def _history(seed):
    """One student over a term: days apart, twice a day, a clock that never goes back, exams between."""
    rng = random.Random(seed)
    attempts, at = [], START
    for _ in range(rng.randint(1, 120)):
        at += timedelta(hours=rng.choice((0, 0.01, 1, 9, 20, 24, 30, 72, 400)) + rng.random())
        setting = rng.choice(("drill", "drill", "exam"))
        attempts.append(
            Attempt(
                id=new_attempt_id(at, rng=rng),
                student="Ada Reyes",
                device="tablet-1",
                at=at,
                day=study_day(at, tz_offset=timedelta(hours=-6)),
                skill=f"s{rng.randint(1, 4)}",
                item="i",
                seed=1,
                rulebook="r1",
                choice="x",
                correct=rng.random() < 0.7,
                misconceptions=(),
                certainty=None if setting == "exam" else rng.choice(("low", "middle", "high")),
                seconds=9.0,
                setting=setting,
            )
        )
    return attempts


@pytest.mark.parametrize("seed", range(60))
def test_fold_is_the_library_s_own_replay(seed):
    """Stability, difficulty and recall are those of the library's replay of the same answers."""
    attempts = _history(seed)
    scheduler = Scheduler(learning_steps=(), relearning_steps=(), enable_fuzzing=False)
    folded = fold_attempts(attempts)
    assert set(folded) == {one.skill for one in attempts}
    for skill, memory in folded.items():
        mine = [one for one in in_time_order(attempts) if one.skill == skill]
        reviews = [
            ReviewLog(
                card_id=1,
                rating=Rating(grade(one)),
                review_datetime=EPOCH + timedelta(days=one.day),
                review_duration=None,
            )
            for one in mine
        ]
        card = scheduler.reschedule_card(Card(card_id=1, due=EPOCH), reviews)
        assert memory.stability == pytest.approx(card.stability, rel=1e-9)
        assert memory.difficulty == pytest.approx(card.difficulty, rel=1e-9)
        assert EPOCH + timedelta(days=memory.last_day) == card.last_review
        assert memory.attempts == len(mine)
        for later in (0, 1, 30):
            at = card.last_review + timedelta(days=later)
            theirs = scheduler.get_card_retrievability(card, at)
            assert recall_on(memory, day=memory.last_day + later) == pytest.approx(theirs, rel=1e-9)


def test_id_is_a_version_7_uuid_to_the_standard_library():
    """The library that reads such ids finds version, variant and time in ours."""
    at = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)
    made = UUID(bytes=new_attempt_id(at, rng=random.Random(1)))
    assert (made.version, made.variant) == (7, RFC_4122)
    assert str(made).startswith("017f22e2-79b0-7")
