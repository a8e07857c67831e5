"""Wrong ideas: what counts for and against one."""

from math import exp, log

import pytest

from drill.memory.belief import (
    CERTAINTY_EVIDENCE,
    HARMFUL_CLEAR_ANSWERS,
    HELD_AT_FIRST,
    REPORT_AT,
    SHOW_AT,
    SLIP_FROM_IDEA,
    UNLEARNED,
    misconception_report,
)
from drill.memory.diagnosis import FIRST_RIGHT

IDEA = "lift-is-always-on-base"


def _report(attempts, *, offered=frozenset({IDEA}), harmful=frozenset()):
    report = misconception_report(attempts, offered=lambda attempt: offered, harmful=harmful)
    return {belief.misconception: belief for belief in report["Ada Reyes"]}


def _wrong(make_attempt, days=0, **values):
    return make_attempt(days=days, **{"correct": False, "misconceptions": (IDEA,)} | values)


@pytest.mark.parametrize("certainty", ["low", "middle", "high"])
def test_belief_after_one_choice_is_bayes_with_certainty_and_unlearning(make_attempt, certainty):
    """One choice moves the log odds by the published form, then some of it is unlearned."""
    belief = _report([_wrong(make_attempt, certainty=certainty)])[IDEA]
    by_chance = (1 - FIRST_RIGHT) / 3
    odds = log(HELD_AT_FIRST / (1 - HELD_AT_FIRST)) + log((1 - SLIP_FROM_IDEA) / by_chance)
    held = 1 / (1 + exp(-odds - CERTAINTY_EVIDENCE[certainty]))
    assert belief.probability == pytest.approx(held * (1 - UNLEARNED))
    assert (belief.offered, belief.chosen, belief.passed_over) == (1, 1, 0)
    assert belief.sure == (certainty == "high")


def test_belief_after_an_exam_keeps_what_no_reason_has_mended(make_attempt):
    """An exam shows no reason, so nothing is unlearned, and asks no certainty."""
    drill = _report([_wrong(make_attempt)])[IDEA]
    exam = _report([_wrong(make_attempt, setting="exam", certainty=None)])[IDEA]
    assert exam.probability > drill.probability


def test_belief_when_passed_over_then_it_falls(make_attempt):
    """Not choosing what the idea would give counts against it."""
    wrong, right = _wrong(make_attempt), make_attempt(days=1)
    before, after = _report([wrong])[IDEA], _report([wrong, right])[IDEA]
    assert after.probability < before.probability
    assert (after.offered, after.chosen, after.passed_over) == (2, 1, 1)
    assert after.last_chosen_day == wrong.day
    untouched = _report([wrong, make_attempt(days=1)], offered=frozenset())[IDEA]
    assert untouched == before


def test_belief_never_passes_its_bounds(make_attempt):
    """However often it is chosen or passed over, a belief can still be turned."""
    always = _report([_wrong(make_attempt, days=n, certainty="high", setting="exam") for n in range(60)])[
        IDEA
    ]
    never = _report([make_attempt(days=n) for n in range(60)])[IDEA]
    assert (always.probability, never.probability) == (0.999, 0.001)
    assert never.last_chosen_day is None


def test_belief_when_chosen_again_and_again_then_it_is_shown_then_reported(make_attempt):
    """The thresholds are passed one after the other, and none before."""
    beliefs = [
        _report([_wrong(make_attempt, days=day, certainty="high") for day in range(count)])[IDEA]
        for count in range(1, 6)
    ]
    for belief in beliefs:
        assert belief.show == (belief.probability >= SHOW_AT)
        assert belief.report == (belief.probability >= REPORT_AT)
    assert beliefs[-1].report
    unsure = _report([_wrong(make_attempt, certainty="low")])[IDEA]
    assert not unsure.show


def test_harmful_idea_is_reported_at_first_sight_until_it_is_passed_over(make_attempt):
    """One choice of an idea that can hurt is told, and stays so until it is cleared."""
    attempts = [_wrong(make_attempt, certainty="low")]
    harmful = frozenset({IDEA})
    assert _report(attempts, harmful=harmful)[IDEA].report
    assert _report(attempts, harmful=harmful)[IDEA].show
    assert not _report(attempts)[IDEA].report
    for day in range(1, HARMFUL_CLEAR_ANSWERS):
        attempts.append(make_attempt(days=day))
        assert _report(attempts, harmful=harmful)[IDEA].report
    attempts.append(make_attempt(days=HARMFUL_CLEAR_ANSWERS))
    assert not _report(attempts, harmful=harmful)[IDEA].report
    assert not _report([make_attempt()], harmful=harmful)[IDEA].report


def test_belief_when_two_ideas_give_the_option_then_each_gains_less(make_attempt):
    """A choice that another idea explains as well says less of each."""
    alone = _report([_wrong(make_attempt)])[IDEA]
    shared = _report([_wrong(make_attempt, misconceptions=(IDEA, "bigger-is-looser"))])
    assert HELD_AT_FIRST < shared[IDEA].probability < alone.probability
    assert shared[IDEA].probability == shared["bigger-is-looser"].probability


def test_report_is_sorted_and_kept_apart_by_student(make_attempt):
    """Each student has a list of their own, the likeliest first."""
    attempts = [
        _wrong(make_attempt),
        make_attempt(student="Bo Lind", correct=False, misconceptions=("other",)),
    ]
    report = misconception_report(attempts, offered=lambda attempt: frozenset({IDEA, "other"}))
    assert [one.misconception for one in report["Ada Reyes"]] == [IDEA, "other"]
    assert [one.misconception for one in report["Bo Lind"]] == ["other", IDEA]
    assert list(report) == ["Ada Reyes", "Bo Lind"]


def test_report_when_the_skill_is_well_known_then_a_wrong_choice_tells_more(make_attempt):
    """A wrong choice by someone who would be right by recall is less likely to be chance."""
    known = [make_attempt(days=day, setting="exam", certainty=None) for day in (0, 3)]
    last = _wrong(make_attempt, days=4)
    fresh = misconception_report([last], offered=lambda attempt: frozenset())["Ada Reyes"][0]
    after = misconception_report([*known, last], offered=lambda attempt: frozenset())["Ada Reyes"][0]
    assert after.probability > fresh.probability
