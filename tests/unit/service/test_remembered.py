"""What earlier visits say to the next plan."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from drill.service.plan import plan_service
from drill.service.record import Result, with_event
from drill.service.remembered import remember, remembered_to_plain, with_record
from drill.service.visit_opening import open_visit

PERMED = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)
NOW = PERMED + timedelta(days=90)


@pytest.fixture(scope="module")
def visited(rulebook, consult):
    """A visit, closed with an outcome unless that is left out."""

    def make(outcome="done", *, at=PERMED, curl="as_wished", hair="sound", **stated):
        plan = plan_service(rulebook, consult(**stated))
        visit = open_visit(plan, visit_id=f"{at:%Y%m%d}-abcde", now=at)
        result = Result(at=visit.opened, outcome=outcome, curl=curl, hair=hair)
        return with_event(visit, result) if outcome else visit

    return make


@pytest.fixture(scope="module")
def next_time(consult):
    """The next consultation of the same client, known and last perm left out unless stated."""

    def make(**stated):
        left_out = {"history__known": "unknown", "history__weeks_since_perm": "unknown"}
        return replace(consult(**{**left_out, **stated}), client="Wren")

    return make


def test_what_is_left_out_is_filled_in_and_told(visited, next_time, rulebook):
    """Known, and the weeks since the last perm, whole ones."""
    visits = (visited(at=PERMED - timedelta(days=200)), visited())
    found = remember(next_time(), visits, now=NOW)
    assert found.filled == {"history.known": "yes", "history.weeks_since_perm": 12.0}
    assert found.visits == ("20250619-abcde", "20260105-abcde")
    assert found.asks == ()
    told = " ".join(found.notes)
    assert "for Wren: closed visits 2, the last of 2026-01-05" in told
    assert "12 weeks ago" in told
    plan = plan_service(rulebook, found.consultation)
    after = with_record(plan, found)
    assert after.notes == (*plan.notes, *found.notes)
    assert (after.verdict, after.ask_first) == (plan.verdict, plan.ask_first)
    assert json.loads(json.dumps(remembered_to_plain(found)))["filled"] == found.filled


def test_what_is_stated_wins(visited, next_time):
    """A perm elsewhere since is no contradiction; nothing is filled in, so nothing is told."""
    stated = next_time(history__known="yes", history__weeks_since_perm=5.0)
    found = remember(stated, [visited()], now=NOW)
    assert found.consultation == stated
    assert (found.filled, found.notes, found.asks) == ({}, (), ())


@pytest.mark.parametrize(
    ("field", "stated", "words"),
    [
        ("history.known", "no", "no record of this client"),
        ("history.weeks_since_perm", "never", "never was a perm"),
        ("history.weeks_since_perm", 30.0, "30 weeks ago"),
    ],
)
def test_a_contradiction_is_told_and_asked(visited, next_time, rulebook, *, field, stated, words):
    """What is stated stands until somebody has asked."""
    consultation = next_time(**{field.replace(".", "__"): stated})
    found = remember(consultation, [visited()], now=NOW)
    assert found.consultation.of(field) == consultation.of(field)
    (ask,) = found.asks
    assert ask.field == field
    assert words in ask.because
    assert ask.because in found.notes
    plan = with_record(plan_service(rulebook, found.consultation), found)
    assert plan.ask_first[0] == ask
    assert remembered_to_plain(found)["ask"][0]["field"] == field


def test_a_reaction_on_record_contradicts_a_no(visited, next_time):
    """An unknown one is asked by the plan itself."""
    visits = [visited(history__reaction="yes", outcome="not_done")]
    found = remember(next_time(history__reaction="no"), visits, now=NOW)
    assert [one.field for one in found.asks] == ["history.reaction"]
    assert remember(next_time(history__reaction="unknown"), visits, now=NOW).asks == ()


def test_weeks_from_memory_may_be_one_too_many(visited, next_time):
    """Nobody counts exactly."""
    assert remember(next_time(history__weeks_since_perm=13.0), [visited()], now=NOW).asks == ()
    assert remember(next_time(history__weeks_since_perm=13.5), [visited()], now=NOW).asks != ()


@pytest.mark.parametrize(
    ("service", "outcome", "weeks"),
    [("perm", "stopped", 12.0), ("perm", "not_done", None), ("wet_set", "done", None)],
)
def test_a_perm_counts_once_lotion_was_on_the_hair(visited, next_time, service, outcome, weeks):
    """Stopped or not; a set leaves nothing."""
    found = remember(next_time(), [visited(outcome, service=service)], now=NOW)
    assert found.filled.get("history.weeks_since_perm") == weeks
    assert found.filled["history.known"] == "yes"


def test_an_open_visit_and_a_practice_head_are_no_record(visited, next_time):
    """Nothing is known of how such a visit ends, or of a client."""
    visits = [visited(""), visited(service="practice_wrap")]
    assert remember(next_time(), visits, now=NOW) is None
    assert remember(next_time(), [], now=NOW) is None


@pytest.mark.parametrize(
    ("outcome", "curl", "hair", "told"),
    [
        ("done", "weaker", "sound", "done, weaker, sound"),
        ("done", "as_wished", "harsh", "done, as wished, harsh"),
        ("stopped", "", "broken", "stopped, broken"),
        ("done", "as_wished", "sound", ""),
        ("done", "", "", ""),
    ],
)
def test_a_last_visit_that_did_not_end_well_is_told(visited, next_time, *, outcome, curl, hair, told):
    """Before the same is done again."""
    found = remember(next_time(), [visited(outcome, curl=curl, hair=hair)], now=NOW)
    notes = [one for one in found.notes if "did not end as wished" in one]
    assert bool(notes) is bool(told)
    assert told in "".join(notes)


def test_a_clock_set_back_gives_no_weeks_below_none(visited, next_time):
    """The perm is then taken for one of today."""
    found = remember(next_time(), [visited()], now=PERMED - timedelta(days=30))
    assert found.filled["history.weeks_since_perm"] == 0.0
