"""Faults with their place, and the names that mend them."""

from drill.basis.problem import NOWHERE, Place, Problem, ProblemsError, mend_name, nearest


def test_a_place_is_written_as_editors_open_it():
    """File, line and column, with colons between."""
    assert str(Place("rules/papers.yaml", 14, 3)) == "rules/papers.yaml:14:3"
    assert str(Place("<stdin>")) == "<stdin>:1:1"
    assert NOWHERE.file == ""


def test_a_problem_is_one_line():
    """Where, what, and how to mend it."""
    assert str(Problem(Place("a.yaml", 2, 5), "the row has no 'id'", "add 'id:'")) == (
        "a.yaml:2:5: the row has no 'id'; add 'id:'"
    )


def test_gathered_problems_stand_by_place_each_once():
    """Order of finding and repeats do not show."""
    late, early = Problem(Place("a.yaml", 10), "b", "c"), Problem(Place("a.yaml", 9), "x", "y")
    error = ProblemsError([late, early, late])
    assert error.problems == (early, late)
    assert str(error) == "a.yaml:9:1: x; y\na.yaml:10:1: b; c"


def test_the_nearest_name_is_found_or_none():
    """A slip of a letter is understood, another word is not."""
    names = ("on_base", "off_base", "half_off_base")
    assert nearest("of_base", names) == "off_base"
    assert nearest("spiral", names) is None
    assert nearest("", ()) is None


def test_a_text_too_long_for_a_name_is_no_slip_of_one():
    """However near it is: to compare two long texts letter by letter would take minutes."""
    letters = "".join(chr(0x4E00 + at % 400) for at in range(60_000))
    assert nearest(letters + "a", [letters]) is None
    assert nearest(letters[:99] + "a", [letters[:100]]) == letters[:100]


def test_a_mend_offers_the_nearest_name():
    """One name where it is close."""
    assert mend_name("of_base", ("on_base", "off_base")) == "did you mean 'off_base'?"


def test_a_mend_lists_the_names_in_their_order():
    """All of them where none is close."""
    assert mend_name("spiral", ("on_base", "off_base")) == "use one of: on_base, off_base"


def test_a_mend_without_names_takes_it_out():
    """Where nothing is allowed, nothing is offered."""
    assert mend_name("spiral", ()) == "leave it out"
