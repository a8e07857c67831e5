"""What the proof says, word for word, and where."""

from dataclasses import replace

import pytest

from drill.basis.problem import Place
from drill.rulebook.condition import Condition, Range
from drill.rulebook.limit import Limit
from drill.rulebook.proof import prove


def _limit(limit_id="never-firm", **values):
    fields = {"when": {}, "because": "it tears", "source": "memory", "place": Place("limits.yaml", 9, 5)}
    return Limit(id=limit_id, **fields | values)


def _told(rulebook, facts=None, **values):
    return [str(one) for one in prove(rulebook, facts=facts or {}, **values).problems]


def test_a_sound_rulebook_has_no_problems(small):
    """And no idle rows."""
    proof = prove(small, facts={})
    assert (proof.problems, proof.idle_rows) == ((), ())


def test_a_gap_names_a_head(small, row, table):
    """With how to close it."""
    gap = small.with_table(table("knead", [row("a", "mild", when={"wet": "damp"})]))
    assert _told(replace(gap, tables={"knead": gap.tables["knead"]})) == [
        "t.yaml:1:1: no row of knead says what to do with wet: dry; add a row for it, or say under "
        "'unknowns' what an unknown is taken for"
    ]


def test_a_gap_behind_another_decision_names_what_is_entered(small, row, table):
    """Nobody can enter `knead`."""
    behind = small.with_table(table("dust", [row("a", "mild", when={"knead": "mild"})]))
    assert _told(behind)[0].startswith("t.yaml:1:1: no row of dust says what to do with wet: damp;")


def test_a_gap_everywhere_is_any_head(small, row, table):
    """A table without a row that can hold."""
    rows = [replace(row("a", "mild"), then="style", then_from="parameter")]
    none = small.with_table(table("dust", rows, gives=("slow", "flour")))
    assert [one.partition(";")[0] for one in _told(none)] == [
        "t.yaml:1:1: no row of dust says what to do with any head",
        "t.yaml:3:5: the row a of dust can never be hit: the rows before it take every head it names",
    ]


def test_two_rows_of_a_unique_table_name_a_head(small, row, table):
    """At the later row."""
    rows = [
        row("a", "mild", when={"wet": ("dry", "damp")}),
        row("b", "firm", when={"wet": ("damp", "unknown")}),
    ]
    assert _told(small.with_table(table("knead", rows, hit="unique"))) == [
        "t.yaml:3:5: the rows a and b of knead both hold for wet: damp; a 'unique' table decides each head "
        "once: narrow one of the two"
    ]
    everywhere = table("knead", [row("a", "mild"), row("b", "firm", when={})], hit="unique")
    told = _told(small.with_table(everywhere), idle_is_fault=False)
    assert "the rows a and b of knead both hold for every head" in told[0]


def test_a_row_that_no_head_reaches_is_a_fault_or_a_note(small, row, table):
    """A fault in the built-in rules, a note under a local rule."""
    rows = [row("a", "mild", when={"wet": ("dry", "damp", "unknown")}), row("b", "firm", when={"wet": "dry"})]
    late = small.with_table(table("knead", rows))
    late = replace(late, tables={"knead": late.tables["knead"]})
    assert _told(late) == [
        "t.yaml:3:5: the row b of knead can never be hit: the rows before it take every head it names; "
        "move it up, narrow the row before it, or remove it"
    ]
    lenient = prove(late, facts={}, idle_is_fault=False)
    assert (lenient.problems, lenient.idle_rows) == ((), ("knead/b",))


def test_a_row_below_all_numbers_is_idle(small, row, table):
    """Time is never negative."""
    never = replace(row("a", "mild"), when={"rest": Condition(ranges=(Range(high=0, with_high=False),))})
    rows = [never, row("b", "firm")]
    assert prove(small.with_table(table("knead", rows)), facts={}).idle_rows == ("knead/a", "said/say-slow")


def test_a_circle_is_told_at_one_of_its_tables(small, row, table):
    """And nothing else, since nothing else can be proved."""
    circle = small.with_table(table("knead", [row("b", "mild", when={"said": "slow"})]))
    assert _told(circle) == [
        "t.yaml:1:1: these decisions wait for each other: knead -> said -> knead; let one of them read what "
        "it needs from the consultation instead"
    ]


def test_a_circle_through_a_fact_has_a_place_too(small, twice, row, table):
    """Where it begins at a fact, the place is empty."""
    fact = replace(twice, needs=("dust",))
    circle = small.with_table(table("dust", [row("b", "mild", when={"damp_twice": "yes"})]))
    told = _told(circle, {"damp_twice": fact})
    assert told[0].startswith("t.yaml:1:1: these decisions wait for each other: dust -> damp_twice -> dust;")
    own = replace(twice, needs=("damp_twice",))
    assert _told(small, {"damp_twice": own})[0].startswith(
        ":1:1: these decisions wait for each other: damp_twice"
    )


def test_a_safety_fact_that_is_unknown_never_passes_as_harmless(small):
    """`any` is allowed, a value is not; a name that no table reads does not count."""
    taken = replace(small.tables["knead"], unknowns={"wet": "dry", "yeast": "fresh"})
    assert _told(small.with_table(taken)) == [
        "t.yaml:1:1: the table knead takes an unknown wet for 'dry'; a safety fact that is unknown must be "
        "named by a row, or be 'any'"
    ]
    harmless = replace(small.domains["wet"], safety=False)
    assert _told(replace(small.with_table(taken), domains={**small.domains, "wet": harmless})) == []


def test_what_a_limit_forbids_is_told_with_a_head_and_the_reason(small):
    """At the row that decides it; the rows of a local rule first."""
    limits = (_limit(never={"knead": ("firm",)}),)
    assert _told(replace(small, limits=limits)) == [
        "t.yaml:3:5: the limit never-firm is broken: knead is firm by the row damp-is-firm, "
        "for example for wet: damp; keep the "
        "limit (it tears); a local rule may tighten it, never loosen it"
    ]
    rows = tuple(
        replace(one, set_by="local", place=Place("rules/mine.yaml", 6)) for one in small.tables["knead"].rows
    )
    local = small.with_table(replace(small.tables["knead"], rows=(small.tables["knead"].rows[0], rows[0])))
    local = local.with_table(
        replace(small.tables["knead"], rows=(*small.tables["knead"].rows, replace(rows[0], id="mine")))
    )
    told = _told(replace(local, limits=limits), idle_is_fault=False)
    assert told[0].startswith("rules/mine.yaml:6:1: the limit never-firm is broken")


def test_what_a_limit_demands_must_be_in_the_list(small):
    """Each thing by itself."""
    limit = _limit("always-slow", demands={"said": ("slow", "flour")}, when={"wet": Condition(("damp",))})
    told = _told(replace(small, limits=(limit,)))
    assert [one.partition(";")[0] for one in told] == [
        "t.yaml:3:5: the limit always-slow is broken: said lacks slow, for example for wet: damp"
    ]


@pytest.mark.parametrize("outcome", [{"never": {"wet": ("damp",)}}, {"demands": {"said": ("other",)}}])
def test_a_broken_limit_without_rows_is_told_at_the_limit(small, outcome):
    """Where no row can be blamed, or nothing restricts the head."""
    bare = replace(
        small, limits=(_limit(**outcome),), tables={"said": replace(small.tables["said"], rows=())}
    )
    (told,) = _told(bare)
    assert told.startswith("limits.yaml:9:5: the limit never-firm is broken")
    assert ("for any head" in told) == ("demands" in outcome)


def test_an_acceptable_outcome_keeps_the_limit_too(small, row):
    """And so does what a fact makes of it."""
    rows = (row("a", "mild", also=("firm",)),)
    softer = replace(small, tables={"knead": replace(small.tables["knead"], rows=rows)})
    assert "is broken" in _told(replace(softer, limits=(_limit(never={"knead": ("firm",)}),)))[0]
    kept = replace(softer, limits=(_limit(when={"knead": Condition(("firm",))}, never={"wet": ("damp",)}),))
    assert _told(kept) == []


def test_a_limit_reaches_through_a_fact(small, twice, row):
    """The rows of the decisions that the fact reads are named."""
    fact = replace(twice, needs=("knead",), compute=lambda values, _: "yes" if values == ["firm"] else "no")
    limit = _limit(never={"damp_twice": ("yes",)})
    rows = (row("a", "mild", also=("firm",), place=Place("x.yaml", 7)),)
    softer = small.with_table(replace(small.tables["knead"], rows=rows))
    told = _told(replace(softer, limits=(limit,)), {"damp_twice": fact}, idle_is_fault=False)
    assert told[0].startswith("x.yaml:7:1: the limit never-firm is broken: damp_twice is yes")


def test_an_added_value_counts_as_the_built_in_one(small, row):
    """In what is forbidden, and in the premise."""
    widened = replace(
        small.tables["knead"],
        gives=("mild", "firm", "hard"),
        counts_as={"hard": "firm"},
        rows=(row("a", "hard", when={"wet": "damp"}), row("b", "mild")),
    )
    only = replace(small, tables={"knead": widened})
    assert "knead is firm" in _told(replace(only, limits=(_limit(never={"knead": ("firm",)}),)))[0]
    premise = _limit(when={"knead": Condition(("firm",))}, never={"wet": ("damp",)})
    assert "wet is damp" in _told(replace(only, limits=(premise,)))[0]


def test_a_premise_that_no_head_meets_forbids_nothing(small):
    """A range below all numbers, or a value against itself."""
    below = {"rest": Condition(ranges=(Range(high=0, with_high=False),))}
    same = {"wet": Condition(("dry",))}
    limits = (
        _limit("below", when=below, never={"knead": ("firm",)}, demands={"said": ("slow",)}),
        _limit("same", when=same, never={"wet": ("damp",)}),
    )
    assert _told(replace(small, limits=limits)) == []


def test_rows_of_a_unique_table_that_never_meet_are_sound(small, row, table):
    """Nor is one row in conflict with itself where it copies an input."""
    rows = [
        row("copy", "wet", then_from="input", when={"wet": "dry"}),
        row("rest", "damp", when={"wet": "damp"}),
    ]
    unique = table(
        "look", [*rows, row("none", "dry", when={"wet": "unknown"})], gives=("dry", "damp"), hit="unique"
    )
    assert _told(small.with_table(unique)) == []


def test_what_no_head_can_bring_about_is_no_gap_and_no_breach(small, row, table):
    """A table need not decide what the tables before it never give."""
    mild = small.with_table(table("knead", [row("a", "mild")], unknowns={"wet": "any"}))
    dust = table("dust", [row("a", "mild", when={"knead": "mild"})])
    limit = _limit(when={"knead": Condition(("firm",))}, demands={"said": ("flour",)})
    told = _told(replace(mild.with_table(dust), limits=(limit,)), idle_is_fault=False)
    assert told == []
