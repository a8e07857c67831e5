"""A value that a local rule gave another name never stands beside its twin."""

from drill.bank.draw import _by_one_name, one_name_each
from drill.rulebook.overlay import Change, Overlay, apply


def widened(rulebook):
    """Give two local names for one wrap, and one for another."""
    changes = tuple(
        Change(op="widen", target="wrap", value=value, counts_as=counts_as)
        for value, counts_as in (("piggyback", "double_tool"), ("twin", "piggyback"), ("coil", "spiral"))
    )
    return apply(rulebook, Overlay(id="o", kind="local_rule", because="b", source="s", changes=changes))


def test_outcomes_that_count_as_the_same_stand_together(rulebook):
    """The built-in one first; without local names each stands alone."""
    assert one_name_each(rulebook.tables["wrap"]) == (("croquignole",), ("spiral",), ("double_tool",))
    assert one_name_each(widened(rulebook).tables["wrap"]) == (
        ("croquignole",),
        ("spiral", "coil"),
        ("double_tool", "piggyback", "twin"),
    )


def test_wrong_values_are_told_by_one_name_with_the_ideas_of_all(rulebook):
    """The local one where it was reached; a figure and a table without local names stay as they are."""
    reached = {"double_tool": ("a", "b"), "piggyback": ("b", "c"), "spiral": ("d",)}
    assert _by_one_name(widened(rulebook), "wrap", reached) == {
        "spiral": ("d",),
        "piggyback": ("a", "b", "c"),
    }
    assert _by_one_name(rulebook, "wrap", reached) is reached
    assert _by_one_name(rulebook, "tool.diameter_mm", reached) is reached
