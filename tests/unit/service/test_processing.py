"""What is done next while lotion is on the hair."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.rulebook.condition import Condition
from drill.rulebook.proof import prove
from drill.service.facts import FACTS
from drill.service.processing import PLACES, Moment, lookouts, next_step

ANY_PLACE = st.sampled_from((*PLACES, "unknown"))
ANY_CURL = st.sampled_from(("none", "weak", "firm", "gum_like", "unknown"))
ANY_FEEL = st.sampled_from(("nothing", "tingles", "burns", "unknown"))
MOMENTS = st.builds(
    Moment,
    minute=st.floats(min_value=0, max_value=60),
    longest_min=st.none() | st.floats(min_value=0.5, max_value=40),
    place=ANY_PLACE,
    curl=ANY_CURL,
    says=ANY_FEEL,
    looked=st.frozensets(st.sampled_from(PLACES)),
)
LOOKED = frozenset({"first_tools", "weakest"})


def at(minute, longest_min=12.0, **seen):
    """Make a moment at which both places have been looked at and nothing hurts."""
    return Moment(
        **{"minute": minute, "longest_min": longest_min, "says": "nothing", "looked": LOOKED, **seen}
    )


@given(moment=MOMENTS)
def test_the_longest_time_burning_and_gum_always_end_it(rulebook, moment):
    """Whatever else is seen; and what is waited for never lies past the limit."""
    step = next_step(rulebook, moment)
    over = moment.longest_min is None or moment.minute >= moment.longest_min
    if over:
        assert step.do in ("rinse", "rinse_and_call")
        assert step.left_min == 0
    if moment.says == "burns" or moment.curl == "gum_like" or moment.longest_min is None:
        assert step.do == "rinse_and_call"
    if step.do == "wait":
        assert 0 < step.look_again_min <= moment.longest_min - moment.minute
        assert moment.says == "nothing"
        assert "weakest" in moment.looked or moment.place == "weakest"
    else:
        assert step.look_again_min == 0
    assert (step.place in PLACES) == (step.do == "look_there_next")
    assert len(step.cautions) == 3
    assert "maker's" in step.cautions[0]
    assert step.words.endswith(".")


@pytest.mark.parametrize(
    ("moment", "do", "row"),
    [
        (at(11.99, curl="none", place="weakest"), "look_there_next", "last-minutes-are-watched"),
        (at(12, curl="none", place="weakest"), "rinse", "longest-time-is-over"),
        (at(5, curl="firm", place="weakest"), "rinse", "weakest-place-is-ready"),
        (at(5, curl="firm", place="first_tools"), "look_there_next", "one-place-does-not-speak-for-all"),
        (at(5, curl="none", place="weakest"), "wait", "no-s-yet"),
        (at(5, curl="weak", place="weakest"), "wait", "an-s-begins"),
        (at(5, curl="weak", place="weakest", says="unknown"), "look_there_next", "client-not-asked"),
        (at(5, curl="weak", place="weakest", says="tingles"), "look_there_next", "tingling-is-looked-at"),
    ],
)
def test_next_step_is_what_the_table_says_of_it(rulebook, moment, do, row):
    """The trace names the row."""
    step = next_step(rulebook, moment)
    assert (step.do, step.decision.row) == (do, row)
    assert step.because == step.decision.because


def test_an_s_that_begins_is_looked_at_sooner_than_none(rulebook):
    """One minute against two, and near the limit only what is left of it."""
    none, weak = (next_step(rulebook, at(5, curl=curl, place="weakest")) for curl in ("none", "weak"))
    assert (none.look_again_min, weak.look_again_min) == (2, 1)
    assert none.left_min == 7


def test_a_place_counts_as_looked_at_only_where_something_was_seen(rulebook):
    """Standing beside it is not looking."""
    nothing = next_step(rulebook, at(2, looked=frozenset({"first_tools"}), place="weakest"))
    assert (nothing.decision.row, nothing.place) == ("weakest-place-not-looked-at", "weakest")
    first = next_step(rulebook, at(2, looked=frozenset(), place="weakest", curl="none"))
    assert (first.decision.row, first.place) == ("first-tools-not-looked-at", "first_tools")
    again = next_step(rulebook, at(10, place="weakest", curl="weak"))
    assert (again.decision.row, again.place) == ("last-minutes-are-watched", "most_resistant")


def test_a_local_row_without_words_of_its_own_shows_its_reason(rulebook):
    """A school may write a row that has only a reason."""
    table = rulebook.tables["processing.next"]
    rows = tuple(replace(row, say="") for row in table.rows)
    changed = rulebook.with_table(replace(table, rows=rows))
    step = next_step(changed, at(12))
    assert step.words == step.because


@pytest.mark.parametrize(
    ("moment", "message"),
    [
        (at(-1), "minute must be 0 or more, got -1"),
        (at(math.nan), "minute must be a number of minutes, got nan"),
        (at(1, math.inf), "longest_min must be a number of minutes, got inf"),
        (at(1, 0.0), "longest_min must be more than 0, got 0.0"),
        (
            at(1, curl="firmish"),
            "processing.curl must be one of none, weak, firm, gum_like, unknown, got firmish",
        ),
    ],
)
def test_what_cannot_be_is_refused(rulebook, moment, message):
    """A slip of the caller is not taken for a harmless value."""
    with pytest.raises(ValueError, match=message):
        next_step(rulebook, moment)


def test_looks_come_early_and_end_with_the_rinse(rulebook):
    """From the second minute every two, at the end every one."""
    found = lookouts(rulebook, longest_min=10)
    assert [one.minute for one in found] == [2, 4, 6, 8, 9, 10]
    assert found[0].places == ("weakest", "first_tools")
    assert found[1].places == ("weakest", "most_resistant")
    assert found[-1].places == ()
    assert found[-1].words == "10 min: the maker's longest time. Rinse now, S or no S."
    assert [one.words.startswith("Look again, water and towels ready") for one in found] == [
        False, False, False, True, True, False,
    ]  # fmt: skip


@given(longest_min=st.floats(min_value=0.01, max_value=90))
def test_no_look_lies_past_the_longest_time(rulebook, longest_min):
    """And the longest time is always among them, last."""
    minutes = [one.minute for one in lookouts(rulebook, longest_min=longest_min)]
    assert minutes == sorted(set(minutes))
    assert minutes[-1] == longest_min
    assert minutes[0] <= 2


def test_no_longest_time_gives_no_looks(rulebook):
    """There is nothing to look forward to."""
    with pytest.raises(ValueError, match="longest_min must be more than 0, got 0"):
        lookouts(rulebook, longest_min=0)
    with pytest.raises(ValueError, match="longest_min must be a number of minutes, got nan"):
        lookouts(rulebook, longest_min=math.nan)


@pytest.mark.parametrize(
    ("when", "then", "limit"),
    [
        ({"processing.time": "over"}, "wait", "longest-time-ends-it"),
        ({"processing.time": "unknown"}, "look_there_next", "longest-time-ends-it"),
        ({"processing.says": "burns"}, "rinse", "burning-is-never-waited-for"),
        ({"processing.curl": "gum_like"}, "rinse", "gum-is-never-waited-for"),
        ({"processing.place": "weakest"}, "look_there_next", "weakest-place-ends-it"),
        ({"processing.says": "tingles"}, "wait", "tingling-is-never-waited-for"),
        ({"processing.looked_weakest": "no"}, "wait", "weakest-place-is-looked-at"),
    ],
)
def test_a_local_rule_cannot_loosen_it(rulebook, when, then, limit):
    """Written before every other row, it breaks a limit, and the proof says which."""
    table = rulebook.tables["processing.next"]
    conditions = {name: Condition((value,), (), value) for name, value in when.items()}
    loose = replace(table.rows[-1], id="local", when=conditions, then=then, also=(), set_by="school")
    proof = prove(
        rulebook.with_table(replace(table, rows=(loose, *table.rows))), facts=FACTS, idle_is_fault=False
    )
    assert any(f"the limit {limit} is broken" in one.what for one in proof.problems)
