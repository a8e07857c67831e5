"""Attempts to test with."""

import random
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from drill.memory.attempt import Attempt, new_attempt_id, study_day

START = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)


@pytest.fixture
def make_attempt() -> Callable[..., Attempt]:
    """Make attempts: `days` after the start, anything else by name; ids come from one seeded source."""
    rng = random.Random(7)

    def make(*, days: float = 0, **values: Any) -> Attempt:
        at = values.pop("at", START + timedelta(days=days))
        fields: dict[str, Any] = {
            "id": values.pop("id", None) or new_attempt_id(at, rng=rng),
            "student": "Ada Reyes",
            "device": "tablet-1",
            "at": at,
            "day": values["day"] if "day" in values else study_day(at, tz_offset=timedelta(0)),
            "skill": "base-control",
            "item": "base-for-lift",
            "seed": 1,
            "rulebook": "r1",
            "choice": "on_base",
            "correct": True,
            "misconceptions": (),
            "certainty": "middle",
            "seconds": 12.5,
            "setting": "drill",
        }
        return Attempt(**fields | values)

    return make
