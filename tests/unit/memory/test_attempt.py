"""Attempts: what they refuse, their ids, days and grades."""

import random
from datetime import UTC, datetime, timedelta, timezone

import pytest

from drill.memory.attempt import clamp_attempt, grade, in_time_order, is_ahead, new_attempt_id, study_day

NOON = datetime(2026, 1, 5, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("values", "word"),
    [
        ({"id": b"short"}, "id"),
        ({"at": datetime(2026, 1, 5), "id": bytes(16), "day": 20458}, "at"),  # noqa: DTZ001  the fault under test
        ({"at": NOON.astimezone(timezone(timedelta(hours=1)))}, "at"),
        ({"at": datetime(1969, 12, 31, 23, tzinfo=UTC), "id": bytes(16), "day": 0}, "at"),
        ({"at": datetime(3000, 1, 1, tzinfo=UTC)}, "at"),
        ({"day": 0}, "day"),
        ({"seed": -1}, "seed"),
        ({"seed": 2**63}, "seed"),
        ({"seconds": -0.1}, "seconds"),
        ({"seconds": float("nan")}, "seconds"),
        ({"seconds": float("inf")}, "seconds"),
    ],
)
def test_attempt_when_a_field_is_impossible_then_it_is_named(make_attempt, values, word):
    """An impossible value is refused by the name of its field."""
    with pytest.raises(ValueError, match=f"^{word} "):
        make_attempt(**values)


def test_id_has_the_published_layout():
    """An id has the version, variant and time of RFC 9562, section 5.7 and its appendix A.6."""
    # The standard's example time: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00, 0x017F22E279B0 ms.
    at = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)
    made = new_attempt_id(at, rng=random.Random(1))
    assert made[:6].hex() == "017f22e279b0"
    assert made[6] >> 4 == 7
    assert made[8] >> 6 == 0b10
    assert len(made) == 16


def test_ids_when_made_later_then_they_sort_later():
    """Ids sort by the millisecond, whatever the random bits."""
    rng = random.Random(2)
    ids = [new_attempt_id(NOON + timedelta(milliseconds=n), rng=rng) for n in range(200)]
    assert ids == sorted(ids)
    assert len(set(ids)) == 200
    assert len({new_attempt_id(NOON, rng=rng) for _ in range(200)}) == 200


@pytest.mark.parametrize(
    ("now", "offset_hours", "date"),
    [
        (datetime(2026, 1, 5, 2, 59, 59, 999999, tzinfo=UTC), 0, datetime(2026, 1, 4, tzinfo=UTC)),
        (datetime(2026, 1, 5, 3, 0, tzinfo=UTC), 0, datetime(2026, 1, 5, tzinfo=UTC)),
        (datetime(2026, 1, 5, 8, 59, tzinfo=UTC), -6, datetime(2026, 1, 4, tzinfo=UTC)),
        (datetime(2026, 1, 5, 9, 0, tzinfo=UTC), -6, datetime(2026, 1, 5, tzinfo=UTC)),
        (datetime(2026, 1, 5, 15, 30, tzinfo=UTC), 13, datetime(2026, 1, 6, tzinfo=UTC)),
        (
            datetime(2026, 1, 5, 4, 0, tzinfo=timezone(timedelta(hours=5))),
            5,
            datetime(2026, 1, 5, tzinfo=UTC),
        ),
        (datetime(1970, 1, 1, 0, 0, tzinfo=UTC), 0, datetime(1969, 12, 31, tzinfo=UTC)),
    ],
)
def test_study_day_turns_at_three_in_the_morning(now, offset_hours, date):
    """A day begins at 3 in the morning, local time."""
    days = (date - datetime(1970, 1, 1, tzinfo=UTC)).days
    assert study_day(now, tz_offset=timedelta(hours=offset_hours)) == days


@pytest.mark.parametrize("offset_hours", range(-12, 15))
def test_study_day_in_every_time_zone_is_a_day_that_an_attempt_takes(make_attempt, offset_hours):
    """Whatever the hour and the zone, the study day fits the time."""
    for hour in range(24):
        at = NOON + timedelta(hours=hour)
        day = study_day(at, tz_offset=timedelta(hours=offset_hours))
        assert make_attempt(at=at, day=day).day == day


@pytest.mark.parametrize(
    ("correct", "certainty", "setting", "expected"),
    [
        (False, "low", "drill", 1),
        (False, "middle", "drill", 1),
        (False, "high", "drill", 1),
        (True, "low", "drill", 2),
        (True, "middle", "drill", 3),
        (True, "high", "drill", 3),
        (False, None, "exam", 1),
        (True, None, "exam", 3),
    ],
)
def test_grade(make_attempt, correct, certainty, setting, expected):
    """Wrong is 1, right but unsure 2, right 3; an exam asks for no certainty."""
    assert grade(make_attempt(correct=correct, certainty=certainty, setting=setting)) == expected


def test_order_when_times_tie_then_the_id_decides(make_attempt):
    """Ties in time have one order, whichever way they come."""
    ties = [make_attempt(skill=str(n)) for n in range(10)]
    early = make_attempt(days=-1)
    expected = [early, *sorted(ties, key=lambda one: one.id)]
    assert in_time_order([*ties, early]) == expected
    assert in_time_order([early, *reversed(ties)]) == expected


def test_clamp_when_the_clock_was_right_then_nothing_changes(make_attempt):
    """An attempt made here, or received within five minutes of its time, stays as written."""
    attempt = make_attempt()
    assert clamp_attempt(attempt, received=None) is attempt
    assert clamp_attempt(attempt, received=attempt.at + timedelta(days=3)) is attempt
    assert clamp_attempt(attempt, received=attempt.at - timedelta(minutes=5)) is attempt
    assert not is_ahead(attempt, received=attempt.at - timedelta(minutes=5))


def test_clamp_when_the_clock_ran_ahead_then_time_and_day_come_back(make_attempt):
    """A clock thirty days ahead loses its lead, and the day moves by as many days."""
    attempt = make_attempt(days=30)
    received = attempt.at - timedelta(days=30)
    assert is_ahead(attempt, received=received)
    clamped = clamp_attempt(attempt, received=received)
    assert (clamped.at, clamped.day) == (received, attempt.day - 30)
    assert clamped.id == attempt.id
    assert clamp_attempt(attempt, received=attempt.at - timedelta(minutes=6)).day == attempt.day
