"""Dealing items out to topics by weight."""

from hypothesis import given
from hypothesis import strategies as st

from drill.bank.blueprint import Blueprint, Outline, deal

MUCH = {"a": 1000, "b": 1000, "c": 1000, "d": 1000}


def test_a_hundred_items_by_published_shares_come_out_exactly():
    """35, 45, 10 and 10 of a hundred."""
    weights = {"a": 35, "b": 45, "c": 10, "d": 10}
    assert deal(100, weights, MUCH) == weights


def test_what_is_left_over_goes_to_the_largest_remainders():
    """Ties go to what stands first."""
    assert deal(10, {"a": 1, "b": 1, "c": 1}, MUCH) == {"a": 4, "b": 3, "c": 3}
    assert deal(4, {"a": 5, "b": 2, "c": 1}, MUCH) == {"a": 3, "b": 1, "c": 0}


def test_a_topic_that_is_full_leaves_its_items_to_the_others():
    """Weighed again among themselves."""
    assert deal(10, {"a": 8, "b": 1, "c": 1}, {"a": 2, "b": 9, "c": 9}) == {"a": 2, "b": 4, "c": 4}


def test_a_topic_without_weight_or_room_gets_nothing():
    """And where nothing is left, fewer are dealt."""
    assert deal(5, {"a": 0, "b": 1, "c": 1}, {"a": 9, "b": 2}) == {"a": 0, "b": 2, "c": 0}
    assert deal(5, {}, {}) == {}


@given(
    st.integers(0, 60),
    st.lists(st.tuples(st.integers(0, 9), st.integers(0, 12)), min_size=1, max_size=6),
)
def test_as_many_are_dealt_as_there_is_room_for(count, topics):
    """Never more than wanted, never more than fit."""
    weights = {str(at): float(weight) for at, (weight, _) in enumerate(topics)}
    room = {str(at): most for at, (_, most) in enumerate(topics)}
    dealt = deal(count, weights, room)
    assert sum(dealt.values()) == min(count, sum(room[one] for one in weights if weights[one]))
    assert all(0 <= dealt[one] <= room[one] for one in weights)


def test_a_topic_that_is_not_named_weighs_one():
    """So a school's own topic has its place."""
    blueprint = Blueprint(weights={"a": 3.0})
    assert (blueprint.weight("a"), blueprint.weight("ours")) == (3.0, 1.0)


def test_seconds_an_item_are_whole():
    """A part of a second is nobody's."""
    assert Outline(items=110, minutes=90).seconds_an_item == 49
