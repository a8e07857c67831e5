"""What is held, drawn as a wrap."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.app.progress import PLACES, STATES, progress_figure, share_places, state_words, swatch
from drill.service.shapes import Polygon, Polyline
from drill.service.zones import ZONE_NAMES

COUNTS = st.fixed_dictionaries({state: st.integers(0, 400) for state in STATES})


@given(COUNTS)
def test_every_place_is_shared_out_and_no_state_is_hidden(counts):
    """One decision among hundreds is still seen."""
    shared = share_places(counts)
    assert sum(shared.values()) == PLACES
    for state in STATES:
        if sum(counts.values()):
            assert (shared[state] > 0) is (counts[state] > 0)


@given(COUNTS)
def test_places_are_shared_in_proportion(counts):
    """Within the two places that the others may need to be seen."""
    total = sum(counts.values())
    for state, places in share_places(counts).items():
        if total:
            assert abs(places - counts[state] * PLACES / total) < 2.01


def test_as_many_decisions_as_places_are_drawn_one_to_one():
    """Nothing to round."""
    counts = {"holding": 20, "loosening": 4, "not_wound": PLACES - 24}
    assert share_places(counts) == counts


def test_without_any_decision_the_head_is_bare():
    """No tool, a parted base at each place."""
    assert share_places({}) == {"holding": 0, "loosening": 0, "not_wound": PLACES}


@pytest.mark.parametrize(
    ("counts", "strands"),
    [
        ({"holding": 0, "loosening": 0, "not_wound": 5}, 0),
        ({"holding": 5, "loosening": 0, "not_wound": 0}, PLACES),
        ({"holding": 0, "loosening": 5, "not_wound": 0}, 2 * PLACES),
    ],
)
def test_hair_is_drawn_on_tools_that_are_wound(counts, strands):
    """One wound strand a tool that holds; one that loosens shows a loose end as well."""
    shapes = progress_figure(counts).shapes
    assert sum(isinstance(shape, Polyline) and shape.role == "strand" for shape in shapes) == strands


def test_tools_lie_on_all_nine_sections_inside_the_figure():
    """Nothing sticks out of the drawing."""
    figure = progress_figure({"holding": 1, "loosening": 1, "not_wound": 1})
    zones = {shape.key for shape in figure.shapes if isinstance(shape, Polygon) and shape.key}
    assert zones == set(ZONE_NAMES)
    for shape in figure.shapes:
        if isinstance(shape, Polyline):
            assert all(0 <= x <= figure.width_mm and 0 <= y <= figure.height_mm for x, y in shape.points)


def test_the_figure_and_the_legend_say_in_words_what_they_draw():
    """For someone who cannot see them."""
    counts = {"holding": 3, "loosening": 1, "not_wound": 0}
    assert progress_figure(counts).description == (
        "3 decisions are holding. 1 decision is loosening. Every decision has been wound."
    )
    assert [swatch(state).title for state in STATES] == ["holding", "loosening", "not wound"]


@pytest.mark.parametrize("state", STATES)
def test_none_one_and_many_are_said_in_their_own_words(state):
    """No bare nought."""
    none, one, many = (state_words(state, count) for count in (0, 1, 7))
    assert "0" not in none
    assert one.startswith("1 decision is")
    assert many.startswith("7 decisions are")
