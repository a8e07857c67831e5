"""Recall: the fold, clocks that go back, and what the screen is told."""

import random
from importlib.metadata import version

import pytest

from drill.memory import recall
from drill.memory.recall import (
    HOLDING_RECALL,
    LIBRARY_VERSION,
    PARAMETER_SET,
    Memory,
    add_attempt,
    fold_attempts,
    fold_class,
    forgetting_curve,
    holding_state,
    recall_on,
)


def test_parameter_set_names_the_library_that_is_installed():
    """A cache made with another version of the library is told by its name."""
    assert version("fsrs") == LIBRARY_VERSION
    assert PARAMETER_SET.startswith(f"fsrs-{LIBRARY_VERSION}-")
    assert len(recall.PARAMETERS) == 21


def test_first_attempt_when_added_then_it_is_counted(make_attempt):
    """A first right answer makes a memory with a stability above that of a wrong one."""
    right = add_attempt(None, make_attempt())
    wrong = add_attempt(None, make_attempt(correct=False))
    assert (right.attempts, right.right, right.first_right, right.last_right) == (1, 1, True, True)
    assert (wrong.attempts, wrong.right, wrong.first_right, wrong.last_right) == (1, 0, False, False)
    assert right.stability > wrong.stability
    assert right.difficulty < wrong.difficulty


def test_add_attempt_when_right_then_wrong_then_first_stays_and_last_moves(make_attempt):
    """The first answer is remembered, the last replaced, both counted."""
    memory = add_attempt(add_attempt(None, make_attempt()), make_attempt(days=2, correct=False))
    assert (memory.attempts, memory.right, memory.first_right, memory.last_right) == (2, 1, True, False)


def test_add_attempt_when_unsure_then_it_grows_less(make_attempt):
    """A right but unsure answer strengthens less than a sure one, and never as little as a wrong one."""
    first = add_attempt(None, make_attempt())
    wrong, low, high = (
        add_attempt(first, make_attempt(days=5, certainty=certainty, correct=correct)).stability
        for certainty, correct in (("high", False), ("low", True), ("high", True))
    )
    assert wrong < low < high


def test_add_attempt_when_the_clock_goes_back_then_the_day_stays(make_attempt):
    """A study day before the last one counts as the last one."""
    later = add_attempt(None, make_attempt(days=10))
    back = add_attempt(later, make_attempt(days=3))
    same = add_attempt(later, make_attempt(days=10))
    assert back == same
    assert back.last_day == later.last_day


def test_add_attempt_when_of_another_skill_then_it_is_refused(make_attempt):
    """A memory takes only attempts of its own skill."""
    memory = add_attempt(None, make_attempt())
    with pytest.raises(ValueError, match="the memory is of base-control, the attempt of papers"):
        add_attempt(memory, make_attempt(skill="papers"))


def test_add_attempt_counts_study_days_not_hours(make_attempt):
    """An answer 23 hours later on the next study day is one of the next day."""
    first = add_attempt(None, make_attempt())
    next_day = add_attempt(first, make_attempt(days=23 / 24, day=first.last_day + 1))
    assert next_day.stability == add_attempt(first, make_attempt(days=1)).stability
    assert next_day.stability > add_attempt(first, make_attempt(days=0.01)).stability


def test_fold_when_shuffled_then_it_gives_the_same(make_attempt):
    """The order in which attempts come to hand changes nothing, ties in time among them."""
    rng = random.Random(3)
    attempts = [
        make_attempt(days=n // 3, skill=f"skill-{n % 2}", correct=n % 4 > 0, certainty=("low", "high")[n % 2])
        for n in range(60)
    ]
    folded = fold_attempts(attempts)
    for _ in range(10):
        rng.shuffle(attempts)
        assert fold_attempts(attempts) == folded
    assert sum(memory.attempts for memory in folded.values()) == 60
    assert fold_attempts([]) == {}


def test_fold_when_of_two_students_then_it_is_refused(make_attempt):
    """One memory is never made of two students' answers."""
    attempts = [make_attempt(student="Bo Lind"), make_attempt(student="Ada Reyes")]
    with pytest.raises(ValueError, match="several students: Ada Reyes, Bo Lind"):
        fold_attempts(attempts)
    folded = fold_class(attempts)
    assert list(folded) == ["Ada Reyes", "Bo Lind"]
    assert folded["Bo Lind"] == fold_attempts(attempts[:1])


def test_recall_is_one_at_once_and_nine_tenths_at_stability():
    """The curve starts at 1, passes .90 at the stability, and falls."""
    assert forgetting_curve(0, stability=4.0) == 1
    assert forgetting_curve(4, stability=4.0) == pytest.approx(0.9, abs=1e-12)
    values = [forgetting_curve(days, stability=4.0) for days in range(400)]
    assert values == sorted(values, reverse=True)
    assert values[-1] > 0


def test_recall_on_a_day_before_the_last_counts_as_that_day(make_attempt):
    """Recall never passes 1 where a clock went back."""
    memory = add_attempt(None, make_attempt())
    assert recall_on(memory, day=memory.last_day - 5) == 1
    assert recall_on(memory, day=memory.last_day + 5) < 1


def _memory(**values):
    fields = {"skill": "s", "stability": 10.0, "difficulty": 5.0, "last_day": 100, "attempts": 2, "right": 1}
    return Memory(**fields | {"first_right": False, "last_right": True} | values)


def test_holding_state():
    """Never asked, fading, wrong last and holding are told apart."""
    assert holding_state(None, day=100) == "not_wound"
    assert holding_state(_memory(), day=100) == "holding"
    assert holding_state(_memory(), day=110) == "holding"
    assert holding_state(_memory(last_right=False), day=100) == "loosening"
    last_good = max(day for day in range(100, 400) if recall_on(_memory(), day=day) >= HOLDING_RECALL)
    assert holding_state(_memory(), day=last_good) == "holding"
    assert holding_state(_memory(), day=last_good + 1) == "loosening"
