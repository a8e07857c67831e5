"""The record of a visit: what it holds, what it drops, and the ids it is found by."""

import json
import random
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.basis.plain import from_plain, to_plain
from drill.service.plan import plan_service
from drill.service.record import (
    STOPS,
    Note,
    PhaseTime,
    Reading,
    Result,
    SignOff,
    Visit,
    moment_text,
    with_event,
    without_health,
)
from drill.service.visit_contract import steps_of, visit_to_plain
from drill.service.visit_opening import new_visit_id, open_visit

NOW = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)
AT = "2026-03-02T10:00:00+00:00"
TELLING = ("chemo", "medicine", "hormone", "fever", "care team", "treatment")


@pytest.fixture(scope="module")
def opened(rulebook, consult):
    """Open the visit of a head; what is stated is laid over a fit one."""

    def make(student_mode=False, **stated):
        plan = plan_service(rulebook, consult(**stated))
        return open_visit(plan, visit_id="20260302-abcde", now=NOW, student_mode=student_mode)

    return make


def _reading(do="go_on", **stated):
    return Reading(at=AT, minutes=8.0, longest_min=12.0, do=do, way="none", **stated)


def test_a_visit_holds_plan_consultation_and_digest(opened, rulebook):
    """Without the trace, which follows from both."""
    visit = opened()
    assert visit.opened == "2026-03-02T09:30:00+00:00"
    assert visit.plan["rulebook"] == rulebook.digest
    assert visit.service == "perm"
    assert {"trace", "consultation", "client"}.isdisjoint(visit.plan)
    assert visit.consultation["hair"]["length"] == "180 mm"
    assert visit.plan["hair_condition"] == "sound"
    assert (visit.closed, visit.result, dict(visit.signed)) == ("", None, {})


def test_events_are_added_and_the_later_one_counts(opened):
    """A correction stands beside what it corrects."""
    visit = opened()
    events = [
        SignOff(at=AT, stop="wrap", initials="AB"),
        SignOff(at=AT, stop="consultation", initials="AB"),
        SignOff(at=AT, stop="consultation", initials="CD"),
        SignOff(at=AT, stop="wrap", initials="AB", taken_back=True),
        PhaseTime(at=AT, phase="rinse", minutes=5.0),
        PhaseTime(at=AT, phase="processing", minutes=9.0, product="House wave"),
        PhaseTime(at=AT, phase="rinse", minutes=6.0),
        Note(at=AT, text="Calm."),
        Result(at=AT, outcome="done", curl="weaker", hair="sound", home_care="Dry"),
        Result(
            at="2026-03-03T08:00:00+00:00", outcome="done", curl="as_wished", hair="sound", home_care="Dry"
        ),
    ]
    for event in events:
        visit = with_event(visit, event)
    assert {stop: one.initials for stop, one in visit.signed.items()} == {"consultation": "CD"}
    assert {phase: one.minutes for phase, one in visit.minutes.items()} == {"processing": 9.0, "rinse": 6.0}
    assert list(visit.minutes) == ["processing", "rinse"]
    assert len(visit.sign_offs) == 4
    assert len(visit.times) == 3
    assert visit.closed == AT
    assert visit.result.curl == "as_wished"
    assert [one.text for one in visit.notes] == ["Calm."]


def test_a_reading_stands_in_place_of_the_one_it_corrects(opened):
    """Both stay on the record."""
    visit = opened()
    for one in (_reading(corrects=True), _reading(do="stop"), _reading(do="other_tool", corrects=True)):
        visit = with_event(visit, one)
    assert [one.do for one in visit.standing_readings] == ["go_on", "other_tool"]
    assert len(visit.readings) == 3


@given(data=st.data())
def test_a_visit_comes_back_from_json_as_it_was(opened, data):
    """Whatever was noted."""
    texts = st.text(max_size=8)
    events = st.one_of(
        st.builds(SignOff, at=st.just(AT), stop=st.sampled_from(STOPS), initials=texts),
        st.builds(Note, at=st.just(AT), text=texts),
        st.builds(PhaseTime, at=st.just(AT), phase=st.just("wrap"), minutes=st.floats(1, 90), product=texts),
        st.builds(Result, at=st.just(AT), outcome=st.just("done"), home_care=texts),
        st.builds(_reading, do=st.sampled_from(("go_on", "stop")), wet=texts),
    )
    visit = opened(health__treatment=data.draw(st.sampled_from(("none", "new_medicine"))))
    for event in data.draw(st.lists(events, max_size=5)):
        visit = with_event(visit, event)
    text = json.dumps(to_plain(visit))
    assert from_plain(Visit, json.loads(text)) == visit
    json.dumps(visit_to_plain(visit))


@pytest.mark.parametrize(
    "stated",
    [
        {"health__treatment": "new_medicine"},
        {"health__treatment": "chemotherapy", "health__months_since": 2.0},
        {"health__treatment": "chemotherapy", "health__months_since": 9.0},
        {"health__treatment": "chemotherapy"},
        {"health__treatment": "unknown"},
    ],
)
def test_closing_drops_health_and_every_line_that_gives_it_away(opened, stated):
    """Lines that stand on other facts stay, and so does the verdict."""
    before = opened(history__known="no", **stated)
    after = with_event(before, Result(at=AT, outcome="not_done"))
    told, left = (json.dumps(to_plain(one)).lower() for one in (before, after))
    plain = json.dumps(to_plain(opened(history__known="no"))).lower()
    words = [word for word in TELLING if word not in plain]
    assert any(word in told for word in words)
    assert [word for word in words if word in left] == []
    assert "health" not in after.consultation
    assert after.health_lines == {}
    assert after.plan["verdict"] == before.plan["verdict"]
    assert without_health(after) == after


def test_closing_drops_nothing_of_a_head_without_such_facts(opened):
    """What was planned is kept word for word, but for the answer that there was nothing."""
    before = opened(history__known="no", history__reaction="yes")
    after = with_event(before, Result(at=AT, outcome="not_done"))
    assert after.plan == before.plan
    assert after.consultation["history"]["reaction"] == "yes"
    assert {*before.consultation} - {*after.consultation} == {"health"}


def test_a_declined_service_and_a_set_are_recorded_too(opened):
    """Without steps, with the reason."""
    declined = opened(history__relaxer="hydroxide")
    assert declined.plan["verdict"] == "decline"
    assert declined.plan["verdict_reasons"]
    assert steps_of(declined) == ()
    assert opened(service="wet_set").service == "wet_set"


def test_ids_begin_with_the_day_and_differ():
    """In UTC, of letters and digits that nobody mixes up."""
    rng = random.Random(1)
    late = datetime(2026, 3, 2, 23, 30, tzinfo=timezone(timedelta(hours=-5)))
    found = {new_visit_id(late, rng=rng) for _ in range(500)}
    assert len(found) == 500
    assert all(one.startswith("20260303-") for one in found)
    assert not set("01ilo") & set("".join(one[9:] for one in found))


def test_a_time_without_its_zone_is_refused():
    """It would mean another moment elsewhere."""
    with pytest.raises(ValueError, match="zone"):
        moment_text(datetime(2026, 3, 2, 9, 30))  # noqa: DTZ001


@pytest.mark.parametrize(
    ("dos", "is_open"),
    [((), True), (("go_on",), True), (("other_lotion", "go_on"), True), (("stop", "go_on"), False)],
)
def test_test_curls_that_said_stop_hold_the_visit(opened, dos, is_open):
    """A better reading afterwards does not undo it, unless it corrects it."""
    visit = opened(history__known="no")
    for do in dos:
        visit = with_event(visit, _reading(do=do))
    states = {one.id: one for one in steps_of(visit)}
    assert states["saturate_first"].is_open is is_open
    assert states["rinse"].is_open


def test_a_stop_that_was_a_slip_is_corrected(opened):
    """By a reading in its place."""
    visit = with_event(opened(history__known="no"), _reading(do="stop"))
    corrected = with_event(visit, _reading(corrects=True))
    assert all(one.is_open for one in steps_of(corrected))
    assert not all(one.is_open for one in steps_of(visit))


def test_the_contract_says_none_where_there_is_nothing(opened):
    """Never null, never an empty word."""
    visit = with_event(opened(), PhaseTime(at=AT, phase="processing", minutes=9.0))
    plain = visit_to_plain(with_event(visit, _reading()))
    assert plain["closed"] == plain["result"] == "none"
    assert plain["record"]["curl_obtained"] == plain["record"]["home_care"] == "none"
    assert plain["record"]["products"]["used"] == {
        "processing": {"product": "none", "minutes": 9.0, "longest_min": "none"}
    }
    assert "null" not in json.dumps({**plain, "plan": {}})
    assert plain["steps"][0]["open"] is True
    done = visit_to_plain(with_event(visit, Result(at=AT, outcome="done", curl="tighter")))
    assert (done["record"]["curl_obtained"], done["record"]["home_care"]) == ("tighter", "none")
    assert done["result"]["hair"] == "none"
