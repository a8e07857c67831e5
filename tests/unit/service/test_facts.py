"""Computed facts that tables read."""

import math

import pytest

from drill.bank.touched import limits_broken
from drill.service.facts import (
    FACTS,
    curl_class,
    density_per_mm2,
    layer_for,
    strand_mm,
    wished_waist_mm,
)
from drill.service.head import Head
from drill.service.still_there import left_on_length


@pytest.mark.parametrize(
    ("curl", "name"),
    [
        ("soft", "soft"), (2.0, "tight"), (11.0, "tight"), (11.01, "medium"), (16.0, "medium"),
        (16.5, "soft"), (24.0, "soft"), (24.01, "body"), (90.0, "body"),
    ],
)  # fmt: skip
def test_diameter_on_a_bound_belongs_to_the_tighter_class(rulebook, curl, name):
    """Tight 6-11, medium 11-16, soft 16-24, body 24-40 mm (common practice)."""
    assert curl_class(curl, rulebook.values) == name
    assert FACTS["wish.curl_class"].compute((curl,), rulebook.values) == name


@pytest.mark.parametrize(
    ("curl", "waist"),
    [
        ("tight", 6.5), ("medium", 10.85), ("soft", 14.85), ("body", 25.5), (11.0, 8.0), (13.5, 10.85),
        (6.0, 5.0), (2.0, 5.0), (40.0, 32.0), (80.0, 32.0),
    ],
)  # fmt: skip
def test_waist_is_the_middle_of_its_class_or_the_point_between_its_bounds(rulebook, curl, waist):
    """Tools 5-8, 9-12.7, 12.7-17, 19-32 mm (common practice); nothing beyond the ends."""
    assert wished_waist_mm(curl, rulebook.values) == pytest.approx(waist)


def test_larger_wish_never_takes_a_thinner_tool(rulebook):
    """In steps of a tenth of a millimetre."""
    waists = [wished_waist_mm(one / 10, rulebook.values) for one in range(20, 1000)]
    assert waists == sorted(waists)


def test_unknown_strand_and_density_count_as_the_middle(rulebook):
    """Fine is thinner, thick is denser."""
    values = rulebook.values
    assert strand_mm("unknown", values) == strand_mm("medium", values)
    assert strand_mm("fine", values) < strand_mm("medium", values) < strand_mm("coarse", values)
    assert density_per_mm2("unknown", values) == density_per_mm2("average", values) == pytest.approx(1.9)
    assert (
        density_per_mm2("thin", values)
        < density_per_mm2("average", values)
        < density_per_mm2("thick", values)
    )


def test_layer_is_the_hair_of_one_base_over_its_packing(rulebook):
    """t = rho b (pi phi^2 / 4) / p, worked out by hand."""
    values = rulebook.values
    layer = layer_for(strand="medium", density="average", base_depth_mm=13.0, parameters=values)
    hair = values["hair.medium_mm"]
    assert layer == pytest.approx(1.9 * 13.0 * math.pi * hair**2 / 4 / values["base.packing"])


@pytest.mark.parametrize(
    ("weeks", "longest", "left"),
    [
        ("never", 180.0, "none"), ("unknown", 180.0, "unknown"), (0.0, 180.0, "all"), (2.0, 180.0, "all"),
        (26.0, 180.0, "part"), (70.0, 180.0, "part"), (71.0, 180.0, "none"), (26.0, 60.0, "none"),
    ],
)  # fmt: skip
def test_old_perm_goes_as_hair_grows(rulebook, weeks, longest, left):
    """At 0.367 mm a day (H10) 18 cm have grown after 70 weeks and half a day."""
    assert left_on_length(weeks, longest, rulebook.values) == left


@pytest.mark.parametrize(
    ("wish", "zone", "worn"),
    [("left", "top", "left"), ("unknown", "top", "back"), ("unknown", "nape_left", "down")],
)
def test_unstated_wear_is_how_that_part_of_the_head_falls(wish, zone, worn):
    """The top falls back, the rest down."""
    assert FACTS["zone.wear"].compute((wish, zone), {}) == worn


@pytest.mark.parametrize(
    ("direction", "growth", "against"),
    [
        ("down", "up", "yes"),
        ("down", "down", "no"),
        ("back", "up", "no"),
        ("left", "whorl", "no"),
        ("up", "none", "no"),
    ],
)
@pytest.mark.parametrize("name", ["wear_against_growth", "roll_against_growth"])
def test_against_means_more_than_ninety_degrees(name, direction, growth, against):
    """Across is not against, and a whorl has no one direction."""
    assert FACTS[name].compute((direction, growth), {}) == against


def test_turns_on_the_wished_tool_fall_with_the_curl(rulebook):
    """A larger tool takes fewer turns; by hand pi d N for a thin layer is near the length."""
    turns = [
        FACTS["turns_of_shortest"].compute(("unknown", 180.0, curl, "medium", "average"), rulebook.values)
        for curl in ("tight", "medium", "soft", "body")
    ]
    assert turns == sorted(turns, reverse=True)
    assert 180.0 / (math.pi * 25.5 * 1.25) < turns[-1] < 180.0 / (math.pi * 25.5)


def test_turns_on_one_tool_are_those_of_the_longest_strands(rulebook):
    """Where no kit is at hand the wished tool counts; what else the choice reads has no part in it."""
    long, short = (
        FACTS["turns_on_one_tool"].compute(
            (length, "medium", "medium", "average", 60.0, "straight", "as_wished", "single"),
            rulebook.values,
        )
        for length in (300.0, 180.0)
    )
    known = FACTS["turns_of_shortest"].compute(
        ("unknown", 180.0, "medium", "medium", "average"), rulebook.values
    )
    assert long > short == known


def test_limits_of_a_decision_on_the_whole_head_can_be_asked_though_no_zone_is_looked_at(consult, rulebook):
    """A head has no one length, so no fact that needs one may need a decision on the whole head."""
    head = Head(rulebook, consult())
    per_head = [name for name, table in rulebook.tables.items() if table.per == "head"]
    for name in per_head:
        limits_broken(head, name, None, rulebook.tables[name].gives[0])
    by_zone = {name for name, fact in FACTS.items() if fact.domain.per == "zone"}
    assert not [name for name in by_zone if set(FACTS[name].needs) & set(per_head)]
