"""Lotion watched minute by minute."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.service.processing import PLACES, lookouts
from drill.service.watch import RINSES, at_minute, begin_watch, look

LOOKS = st.lists(
    st.tuples(
        st.floats(min_value=0, max_value=30),
        st.sampled_from((*PLACES, "unknown")),
        st.sampled_from(("none", "weak", "firm", "gum_like", "unknown")),
        st.sampled_from(("nothing", "tingles", "burns", "unknown")),
    ),
    max_size=6,
)


def test_it_begins_with_the_first_look_to_come(rulebook):
    """Early, and never past a short longest time."""
    watch = begin_watch(rulebook, longest_min=12)
    assert watch.next_look_min == lookouts(rulebook, longest_min=12)[0].minute
    assert not watch.is_over
    assert begin_watch(rulebook, longest_min=1).next_look_min == 1


def test_lotion_of_unknown_time_comes_off_at_once(rulebook):
    """Nobody knows how long it may stay."""
    watch = begin_watch(rulebook, longest_min=None)
    assert watch.is_over
    assert watch.step.do == "rinse_and_call"


def test_places_looked_at_are_remembered(rulebook):
    """Weakest and first tools, then a beginning S is waited for, a minute at a time."""
    watch = begin_watch(rulebook, longest_min=12)
    watch = look(rulebook, watch, minute=2, place="first_tools", curl="none", says="nothing")
    assert (watch.step.do, watch.step.place) == ("look_there_next", "weakest")
    assert watch.next_look_min == 2
    watch = look(rulebook, watch, minute=2.5, place="weakest", curl="weak", says="nothing")
    assert watch.looked == {"first_tools", "weakest"}
    assert watch.step.do == "wait"
    assert watch.next_look_min == 3.5
    watch = look(rulebook, watch, minute=3.5, place="weakest", curl="firm", says="nothing")
    assert watch.step.do == "rinse"


def test_a_place_named_without_a_look_does_not_count(rulebook):
    """Nor a look at a place that nobody named."""
    watch = begin_watch(rulebook, longest_min=12)
    assert not look(rulebook, watch, minute=1, place="weakest", says="nothing").looked
    assert not look(rulebook, watch, minute=1, curl="none", says="nothing").looked


def test_the_clock_alone_ends_it_at_the_longest_time(rulebook):
    """Nothing changes before; what is over stays over."""
    watch = begin_watch(rulebook, longest_min=12)
    assert at_minute(rulebook, watch, minute=11.9) is watch
    over = at_minute(rulebook, watch, minute=12)
    assert over.step.do == "rinse"
    assert at_minute(rulebook, over, minute=13) is over


@given(looks=LOOKS, longest=st.floats(min_value=1, max_value=20))
def test_no_next_look_lies_past_the_longest_time(rulebook, looks, longest):
    """However it goes on; from the longest time on it rinses."""
    watch = begin_watch(rulebook, longest_min=longest)
    for minute, place, curl, says in sorted(looks):
        watch = at_minute(rulebook, watch, minute=minute)
        if watch.is_over:
            break
        assert watch.next_look_min <= longest
        watch = look(rulebook, watch, minute=minute, place=place, curl=curl, says=says)
    assert watch.is_over == (watch.step is not None and watch.step.do in RINSES)
    assert at_minute(rulebook, watch, minute=longest).is_over


def test_a_longest_time_of_nothing_is_refused(rulebook):
    """A fault of ours, for a screen never lets it through."""
    with pytest.raises(ValueError, match="longest_min"):
        begin_watch(rulebook, longest_min=0)
