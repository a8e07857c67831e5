"""Which steps are open before, between and after the five stops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.record import STOPS
from drill.service.steps_open import NEVER_HELD, open_steps, stop_before

SIGNED = st.sets(st.sampled_from(STOPS))


@pytest.fixture(scope="module")
def steps(rulebook, consult):
    """The steps of a service in the contract's form."""

    def make(**stated):
        return plan_to_plain(plan_service(rulebook, consult(**stated)))["steps"]

    return make


def _open(found):
    return [one.id for one in found if one.is_open]


def test_without_student_mode_everything_is_open(steps):
    """The stops belong to a school."""
    found = open_steps(steps(), (), student_mode=False)
    assert all(one.is_open and not one.waits_for for one in found)
    assert [one.id for one in found] == [step["id"] for step in steps()]


@pytest.mark.parametrize("service", ["perm", "practice_wrap"])
def test_what_comes_after_a_stop_waits_until_it_is_signed(steps, service):
    """Stop by stop; the stop itself is open, to be signed."""
    plan_steps = steps(service=service)
    ids = [step["id"] for step in plan_steps]
    at = {step["sign_off"]: ids.index(step["id"]) for step in plan_steps if step["sign_off"] != "none"}
    assert tuple(at) == STOPS
    for count, stop in enumerate(STOPS):
        found = open_steps(plan_steps, STOPS[:count], student_mode=True)
        expected = [one for number, one in enumerate(ids) if number <= at[stop] or one in NEVER_HELD]
        assert _open(found) == expected
        assert {one.waits_for for one in found if not one.is_open} == {stop}
    assert _open(open_steps(plan_steps, STOPS, student_mode=True)) == ids


@given(
    signed=SIGNED,
    student_mode=st.booleans(),
    say=st.sampled_from(("", "go_on", "other_tool", "other_lotion", "condition_and_wait", "stop")),
)
def test_the_rinse_is_never_held_up(steps, signed, student_mode, say):
    """Whatever is signed or not, whatever the test curls showed; and signing only opens."""
    plan_steps = steps(history__known="no")
    found = open_steps(plan_steps, signed, student_mode=student_mode, test_curls_say=say)
    assert {"rinse", "last_rinse"} <= set(_open(found))
    more = open_steps(plan_steps, STOPS, student_mode=student_mode, test_curls_say=say)
    assert set(_open(found)) <= set(_open(more))
    assert all(one.is_open == (not one.waits_for) for one in found)


@pytest.mark.parametrize("say", ["other_tool", "other_lotion", "condition_and_wait", "stop"])
def test_test_curls_that_do_not_let_it_go_on_hold_what_follows(steps, say):
    """In a school or not."""
    plan_steps = steps(history__known="no")
    ids = [step["id"] for step in plan_steps]
    found = open_steps(plan_steps, STOPS, student_mode=False, test_curls_say=say)
    judged = ids.index("test_curls_judge")
    assert _open(found) == [one for at, one in enumerate(ids) if at <= judged or one in NEVER_HELD]
    assert {one.waits_for for one in found if not one.is_open} == {"test_curls"}


def test_a_bad_reading_holds_a_plan_that_asked_for_no_test_curls(steps):
    """Somebody made them all the same, and they said stop."""
    found = open_steps(steps(), STOPS, student_mode=False, test_curls_say="stop")
    assert set(_open(found)) == NEVER_HELD


def test_a_set_has_no_stops_and_no_steps_give_no_states(steps):
    """Nothing to hold."""
    assert all(one.is_open for one in open_steps(steps(service="wet_set"), (), student_mode=True))
    assert open_steps((), (), student_mode=True) == ()


def test_the_stop_before_is_the_first_that_is_not_signed(steps):
    """None before the first one."""
    assert stop_before(steps(), (), stop="consultation") == ""
    assert stop_before(steps(), (), stop="saturation") == "consultation"
    assert stop_before(steps(), ("consultation",), stop="saturation") == "wrap"
    assert stop_before(steps(), STOPS[:2], stop="saturation") == ""
