"""Decisions for one head, with the trace."""

from dataclasses import replace

import pytest

from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain
from drill.rulebook.evaluate import Evaluation, UndecidedError, decide
from drill.rulebook.fact import Fact
from drill.rulebook.trace import Rejected


def test_the_first_row_that_holds_decides_and_says_what_it_passed(row, table):
    """The trace names the row, its reason, and for each row before it the input that kept it out."""
    rows = [
        row("a", "firm", when={"wet": "damp", "rest": "never"}),
        row("b", "firm", when={"rest": "never"}),
        row("c", "mild", also=("firm", "mild"), standing="school"),
    ]
    decision = decide(table("knead", rows), {"wet": "damp", "rest": 5.0}, parameters={})
    assert (decision.value, decision.row, decision.because) == ("mild", "c", "c because")
    assert (decision.also, decision.standing, decision.rows) == (("firm",), "school", (rows[2],))
    assert decision.rejected == (
        Rejected(row="a", value="firm", input="rest", was=5.0),
        Rejected(row="b", value="firm", input="rest", was=5.0),
    )
    assert decision.read == {"wet": "damp", "rest": 5.0}


def test_an_unknown_must_be_named(row, table):
    """A row that leaves an input out takes every known value of it, not its unknown."""
    rows = [row("damp", "firm", when={"wet": "damp"}), row("else", "mild")]
    assert decide(table("knead", rows), {"wet": "dry"}, parameters={}).row == "else"
    with pytest.raises(UndecidedError, match="no row of knead holds for wet: unknown") as caught:
        decide(table("knead", rows), {"wet": "unknown"}, parameters={})
    assert (caught.value.table.decision, caught.value.read) == ("knead", {"wet": "unknown"})
    named = [row("not-felt", "mild", when={"wet": "unknown"}), *rows]
    assert decide(table("knead", named), {"wet": "unknown"}, parameters={}).row == "not-felt"


def test_a_table_says_what_its_unknowns_do(row, table):
    """`any` lets a row that leaves the input out hold; a value lets the unknown pass for it."""
    rows = [row("damp", "firm", when={"wet": "damp"}), row("else", "mild")]
    unknown = {"wet": "unknown"}
    assert decide(table("knead", rows, unknowns={"wet": "any"}), unknown, parameters={}).row == "else"
    taken = decide(table("knead", rows, unknowns={"wet": "damp"}), unknown, parameters={})
    assert (taken.row, taken.read) == ("damp", unknown)


def test_the_strictest_outcome_wins_and_all_that_hold_are_reasons(row, table):
    """Order of rows does not matter, save between equals."""
    rows = [
        row("a", "mild"),
        row("b", "firm", when={"wet": "damp"}),
        row("c", "firm", when={"wet": "damp"}),
        row("d", "firm", when={"wet": "dry"}),
    ]
    strictest = table("knead", rows, hit="strictest")
    decision = decide(strictest, {"wet": "damp"}, parameters={})
    assert (decision.value, decision.row) == ("firm", "b")
    assert [one.id for one in decision.rows] == ["a", "b", "c"]
    with pytest.raises(UndecidedError):
        decide(table("knead", rows[1:], hit="strictest"), {"wet": "unknown"}, parameters={})


def test_a_list_holds_every_outcome_in_table_order(row, table):
    """Perhaps none; each source is named once."""
    rows = [row("a", "firm", when={"wet": "damp"}), row("b", "mild", source="B1"), row("c", "firm")]
    found = decide(table("said", rows, hit="collect"), {"wet": "dry"}, parameters={})
    assert (found.value, found.row, found.source) == (("mild", "firm"), "b, c", "B1; memory")
    assert found.because == "b because; c because"
    none = decide(table("said", rows[:1], hit="collect"), {"wet": "dry"}, parameters={})
    assert (none.value, none.rows) == ((), ())


def test_an_outcome_can_be_an_input_or_a_parameter(row, table):
    """A copied value that is no outcome of the table leaves the row out, and the trace says so."""
    rows = [
        row("copy", "wish", then_from="input"),
        row("usual", "style", then_from="parameter"),
        row("rest", "mild"),
    ]
    one = table("knead", rows)
    assert decide(one, {"wish": "firm"}, parameters={"style": "mild"}).row == "copy"
    passed = decide(one, {"wish": "loose"}, parameters={"style": "firm"})
    assert (passed.value, passed.row) == ("firm", "usual")
    assert passed.rejected == (Rejected(row="copy", value="loose", input="wish", was="loose"),)
    last = decide(one, {"wish": "loose"}, parameters={"style": "loose"})
    assert last.row == "rest"
    assert last.rejected[1] == Rejected(row="usual", value="loose", input="style", was="loose")


@pytest.mark.parametrize("hit", ["strictest", "collect"])
def test_a_copied_value_that_is_no_outcome_adds_nothing(hit, row, table):
    """In the tables where several rows count."""
    rows = [row("copy", "wish", then_from="input"), row("rest", "mild")]
    decision = decide(table("knead", rows, hit=hit), {"wish": "loose"}, parameters={})
    assert [one.id for one in decision.rows] == ["rest"]


def test_a_chain_is_decided_when_it_is_read(small, twice):
    """Decisions, facts and entered names are read alike; what is left out is unknown."""
    facts = {"damp_twice": twice}
    evaluation = Evaluation(small, facts=facts, inputs={"wet": "damp"})
    assert [one.id for one in evaluation.collected("said")] == ["say-flour"]
    assert evaluation.decide("knead") is evaluation.decisions["knead"]
    assert (evaluation.read("knead"), evaluation.read("damp_twice")) == ("firm", "yes")
    assert evaluation.read("rest") == "unknown"
    assert Evaluation(small, facts=facts, inputs={}).read("knead") == "mild"


def test_a_list_and_an_unheard_of_name_have_no_value(small):
    """Both are faults of whoever asks."""
    evaluation = Evaluation(small, facts={}, inputs={})
    with pytest.raises(KeyError, match="said is a list"):
        evaluation.read("said")
    with pytest.raises(KeyError, match="yeast"):
        evaluation.read("yeast")


def test_a_zone_asks_the_head_for_what_holds_for_the_whole_head(small, table, row, twice):
    """Each decision is taken once, where it belongs."""
    by_place = table("dust", [row("a", "mild", when={"place": "bowl"}), row("b", "firm")], per="zone")
    whole = Fact(domain=Domain(name="mood", values=("mild",)), needs=(), compute=lambda *_: "mild")
    rulebook = small.with_table(by_place)
    facts = {"damp_twice": twice, "mood": replace(whole, domain=replace(whole.domain, per="zone"))}
    head = Evaluation(rulebook, facts=facts, inputs={"wet": "damp"})
    zone = Evaluation(rulebook, facts=facts, inputs={"place": "bowl"}, zone="bowl", head=head)
    assert zone.decide("dust").zone == "bowl"
    assert zone.decide("knead") is head.decisions["knead"]
    assert (zone.read("wet"), zone.read("damp_twice"), zone.read("mood")) == ("damp", "yes", "mild")
    assert "knead" not in zone.decisions
    assert zone.read("place") == "bowl"
    assert Evaluation(rulebook, facts=facts, inputs={}, zone="board", head=head).read("place") == "unknown"


def test_numbers_are_read_in_the_unit_of_their_domain(row, table):
    """A range takes a number, a value takes its word."""
    rows = [row("short", "mild"), row("never", "firm", when={"rest": "never"}), row("else", "firm")]
    rows[0] = replace(rows[0], when={"rest": Condition(ranges=(Range(high=10, with_high=False),))})
    assert [decide(table("k", rows), {"rest": one}, parameters={}).row for one in (0.0, 10.0, "never")] == [
        "short",
        "else",
        "never",
    ]


def test_a_supposed_decision_is_in_force_for_what_rests_on_it(small):
    """As if it had been taken; a list cannot be supposed."""
    firm = decide(small.tables["knead"], {"wet": "damp"}, parameters={})
    evaluation = Evaluation(small, facts={}, inputs={"wet": "dry"})
    evaluation.suppose(firm)
    assert (evaluation.read("knead"), evaluation.decide("knead")) == ("firm", firm)
    assert evaluation.decide("said").value == ("flour",)
    with pytest.raises(TypeError, match="said is a list and cannot be supposed"):
        evaluation.suppose(evaluation.decide("said"))
