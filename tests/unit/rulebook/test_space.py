"""The graph of decisions as boxes."""

import pytest

from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain
from drill.rulebook.fact import Fact
from drill.rulebook.limit import Limit
from drill.rulebook.space import MOST_COMBINATIONS, CycleError, Space


def test_ranks_say_what_is_decided_after_what(small, twice, row, table):
    """Entered names are 0, and so is a fact that is not over named values."""
    free = Fact(domain=Domain(name="turns", unit="turns"), needs=("rest",), compute=lambda *_: 1.0)
    fixed = table("fixed", [row("always", "mild")])
    space = Space(small.with_table(fixed), facts={"damp_twice": twice, "turns": free})
    assert space.ranks == {"wet": 0, "knead": 1, "said": 2, "fixed": 1, "damp_twice": 1, "turns": 0}


def test_a_circle_of_decisions_is_named(small, row, table):
    """Its first name stands again at the end."""
    circle = table("wish", [row("a", "mild", when={"knead": "firm"})])
    back = table("knead", [row("b", "mild", when={"wish": "firm"})])
    with pytest.raises(CycleError) as caught:
        _ = Space(small.with_table(circle).with_table(back), facts={}).ranks
    assert caught.value.names == ("knead", "wish", "knead")
    assert str(caught.value) == "knead -> wish -> knead"


def test_a_name_that_nobody_has_is_no_domain(small, twice):
    """Entered names, decisions and facts have one."""
    space = Space(small, facts={"damp_twice": twice})
    assert space.domain("damp_twice").values == ("yes", "no")
    assert space.domain("knead").values == ("mild", "firm")
    with pytest.raises(KeyError, match="yeast"):
        space.domain("yeast")


def test_cells_are_cut_at_the_bounds_of_tables_and_limits(small, row, table):
    """Both count, since a proof compares them."""
    rows = [row("a", "mild"), row("b", "firm")]
    object.__setattr__(rows[0], "when", {"rest": Condition(ranges=(Range(low=10),))})
    limit = Limit(
        id="x",
        when={"rest": Condition(ranges=(Range(high=30, with_high=False),))},
        because="",
        source="memory",
    )
    rulebook = small.with_table(table("knead", rows))
    space = Space(type(rulebook)(**{**_fields(rulebook), "limits": (limit,)}), facts={})
    assert [
        str(one) if isinstance(one, str) else (one.low, one.high) for one in space.axes["rest"].cells
    ] == [
        "never",
        (0, 10),
        (10, 10),
        (10, 30),
        (30, 30),
        (30, float("inf")),
    ]


def test_an_example_states_what_is_entered(small):
    """A decision is left out: nobody can enter it."""
    space = Space(small, facts={})
    wet, knead = space.axes["wet"], space.axes["knead"]
    box = {"wet": wet.of(("damp", "unknown")), "knead": knead.of(("firm",)), "rest": space.axes["rest"].full}
    assert space.example(box) == "wet: damp"


def test_a_real_head_is_found_through_decisions_and_facts(small, twice):
    """The box shrinks to entered names that lead to it, or there is none."""
    space = Space(small, facts={"damp_twice": twice})
    firm = {"knead": space.axes["knead"].of(("firm",))}
    found = space.find(firm)
    assert space.example(found) == "wet: damp"
    dry = {**firm, "damp_twice": space.axes["damp_twice"].of(("no",))}
    assert space.find(dry) is None
    listed = {"said": space.axes["said"].of(("slow",))}
    assert space.example(space.find(listed)) == "wet: dry"


def test_a_list_leads_to_every_outcome_that_it_can_hold(small, row, table):
    """Its rows do not exclude each other."""
    both = table("said", [row("a", "slow"), row("b", "flour")], gives=("slow", "flour"), hit="collect")
    space = Space(small.with_table(both), facts={})
    assert space.find({"said": space.axes["said"].of(("flour",))}) is not None


def test_a_fact_of_too_many_combinations_is_not_tabulated(small):
    """It would take the proof minutes; the fault is the engine's own."""
    wide = tuple(f"v{number}" for number in range(150))
    domains = {name: Domain(name=name, values=wide) for name in ("one", "two")}
    assert len(wide) ** len(domains) > MOST_COMBINATIONS
    rulebook = type(small)(**{**_fields(small), "domains": domains, "tables": {}})
    fact = Fact(domain=Domain(name="f", values=("yes", "no")), needs=tuple(domains), compute=lambda *_: "no")
    space = Space(rulebook, facts={"f": fact})
    with pytest.raises(ValueError, match="the fact f has 22500 combinations, too many to tabulate"):
        space.find({"f": space.axes["f"].of(("yes",))})


def test_a_row_that_copies_splits_into_its_outcomes(small, row, table):
    """Each where the input has that value; an unknown is copied as what it is taken for."""
    rows = [row("copy", "wet", then_from="input")]
    for unknowns, damp in [
        ({}, ("damp",)),
        ({"wet": "any"}, ("damp",)),
        ({"wet": "damp"}, ("damp", "unknown")),
    ]:
        one = table("look", rows, gives=("damp", "soaked"), unknowns=unknowns)
        space = Space(small.with_table(one), facts={})
        (branch,) = space.branches(one)
        assert (branch.value, branch.box["wet"]) == ("damp", space.axes["wet"].of(damp))


def test_a_strictest_table_is_tried_from_its_strictest_outcome_down(small, row, table):
    """Equals keep their order."""
    rows = [row("a", "mild"), row("b", "firm"), row("c", "mild"), row("d", "firm")]
    one = table("look", rows, hit="strictest")
    space = Space(small.with_table(one), facts={})
    assert [branch.row.id for branch in space.branches(one)] == ["b", "d", "a", "c"]


def test_a_fact_is_computed_once_for_every_combination(small, twice):
    """However often it is asked."""
    calls = []

    def compute(values, _parameters):
        calls.append(values)
        return "yes"

    counted = Fact(domain=twice.domain, needs=twice.needs, compute=compute)
    space = Space(small, facts={"damp_twice": counted})
    yes = {"damp_twice": space.axes["damp_twice"].of(("yes",)), "wet": space.axes["wet"].of(("dry",))}
    assert [space.example(space.find(yes)) for _ in range(2)] == ["wet: dry"] * 2
    assert len(calls) == 3


def test_a_decision_that_two_others_read_is_ranked_once(small, row, table):
    """It stands before both."""
    both = table("dust", [row("a", "mild", when={"knead": "mild", "wet": "dry"}), row("b", "firm")])
    assert Space(small.with_table(both), facts={}).ranks["dust"] == 2


def _fields(rulebook):
    return {
        "domains": rulebook.domains,
        "tables": rulebook.tables,
        "parameters": rulebook.parameters,
        "limits": rulebook.limits,
        "sources": rulebook.sources,
    }
