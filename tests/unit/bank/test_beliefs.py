"""Wrong ideas at work."""

from dataclasses import replace

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.rulebook.overlay import Change, Overlay


def idea(name, *changes, **values):
    """Make a misconception."""
    return Overlay(id=name, kind="misconception", because="b", source="s", changes=changes, **values)


def beliefs_of(rulebook, *ideas):
    """Put ideas to work upon the built-in rules."""
    return Beliefs(Book(rulebook=rulebook, misconceptions=ideas, items=(), topics={}))


def row_of(rulebook, table, row_id, **values):
    """Give a row with a few changes."""
    return replace(rulebook.tables[table].row(row_id), id="believed", **values)


def test_idea_that_changes_nothing_has_no_rulebook(rulebook):
    """Many wrong ideas change no decision; facts use them."""
    assert beliefs_of(rulebook, idea("idle")).rulebooks == {}


def test_idea_touches_what_rests_on_its_table_and_nothing_else(rulebook):
    """A row about elasticity's condition reaches the base by the hair's condition; papers never."""
    row = row_of(rulebook, "hair.condition", "slow-spring", then="sound")
    beliefs = beliefs_of(rulebook, idea("one", Change(op="add", target="hair.condition", row=row)))
    assert beliefs.touching("hair.condition") == ("one",)
    assert beliefs.touching("base_control") == ("one",)
    assert beliefs.touching("papers") == ()


def test_idea_about_the_decision_itself_stands_before_one_from_afar(rulebook):
    """And a narrow idea before a wide one."""
    near = Change(op="add", target="base_control", row=row_of(rulebook, "base_control", "worn-close"))
    far = Change(op="add", target="hair.condition", row=row_of(rulebook, "hair.condition", "slow-spring"))
    ideas = (idea("a-far", far), idea("b-wide", near, far), idea("c-near", near))
    assert beliefs_of(rulebook, *ideas).touching("base_control") == ("c-near", "b-wide", "a-far")


def test_parameter_touches_the_figures_and_what_is_computed_from_them(rulebook):
    """A thicker tool for the wish changes diameter, turns and the wrap that turns decide; not the papers."""
    beliefs = beliefs_of(rulebook, idea("p", Change(op="set", target="tool.soft_to", value=30.0)))
    for decision in ("tool.diameter_mm", "turns", "wrap", "tool.size"):
        assert beliefs.touching(decision) == ("p",), decision
    assert beliefs.touching("hair.condition") == ()


def test_parameter_that_a_row_reads_touches_its_table(rulebook):
    """The everyday paper is a parameter."""
    beliefs = beliefs_of(rulebook, idea("p", Change(op="set", target="papers.everyday", value="double_flat")))
    assert beliefs.touching("papers") == ("p",)
    assert beliefs.touching("base_control") == ()


def test_idea_gives_its_own_value_and_the_truth_another(rulebook, make_head):
    """Who thinks every strand is on base puts it on base."""
    row = row_of(rulebook, "base_control", "worn-close", when={}, then="on_base")
    beliefs = beliefs_of(
        rulebook, idea("one", Change(op="add", target="base_control", at="worn-close", row=row))
    )
    head = make_head()
    assert head.decide("base_control", "top").value == "half_off_base"
    assert beliefs.decide("one", head.consultation, "base_control", "top") == "on_base"
    assert beliefs.reached(head.consultation, "base_control", "top") == {"on_base": ("one",)}


def test_idea_that_leaves_a_decision_open_or_makes_it_a_list_gives_none(rulebook, make_head):
    """Without its last row a table may decide nothing; a list is no value."""
    beliefs = beliefs_of(rulebook, idea("gap", Change(op="remove", target="wrap", at="everyday-wrap")))
    consultation = make_head().consultation
    assert beliefs.decide("gap", consultation, "wrap", "top") is None
    assert beliefs.decide("gap", consultation, "tests", None) is None
    assert beliefs.reached(consultation, "wrap", "top") == {}
