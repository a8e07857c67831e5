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
    assert {"rinse", "keep_drape", "last_rinse"} <= set(_open(found))
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
    assert set(_open(found)) == NEVER_HELD - {"soften_rinse"}


@pytest.mark.parametrize(
    ("stop", "last_open", "first_closed"),
    [
        ("consultation", "sign_consultation", "shampoo"),
        ("wrap", "sign_wrap", "protect"),
        ("saturation", "sign_saturation", "process"),
        ("test_curl", "sign_test_curl", "blot"),
        ("before_take_down", "sign_take_down", "take_down"),
    ],
)
def test_each_stop_holds_its_own_next_step(steps, stop, last_open, first_closed):
    """Blot and neutraliser wait for the test curl, take-down for its own stop, and so on."""
    signed = STOPS[: STOPS.index(stop)]
    found = {one.id: one for one in open_steps(steps(), signed, student_mode=True)}
    assert found[last_open].is_open
    assert (found[first_closed].is_open, found[first_closed].waits_for) == (False, stop)
    after = {one.id: one for one in open_steps(steps(), (*signed, stop), student_mode=True)}
    assert after[first_closed].is_open
    if stop == "test_curl":
        assert not found["neutralise"].is_open
        assert after["neutralise"].is_open
        assert not after["take_down"].is_open


def test_a_softener_is_rinsed_out_whatever_is_signed(steps):
    """It works on as lotion does; what follows it waits."""
    plan_steps = steps(hair__pattern="coily", wish__curl="soft")
    found = {one.id: one for one in open_steps(plan_steps, (), student_mode=True)}
    assert found["soften_rinse"].is_open
    assert not found["soften"].is_open
    assert not found["wrap"].is_open


def test_test_curls_wait_for_the_consultation_alone(steps):
    """They are made between the first stop and the second."""
    plan_steps = steps(history__known="no")
    closed = {
        one.id: one.waits_for for one in open_steps(plan_steps, (), student_mode=True) if not one.is_open
    }
    assert closed["test_curls_wind"] == "consultation"
    found = {one.id: one for one in open_steps(plan_steps, STOPS[:1], student_mode=True)}
    assert all(found[f"test_curls_{name}"].is_open for name in ("wind", "process", "judge"))
    assert found["wrap"].is_open


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
