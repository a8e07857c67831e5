"""What a question rests on: rows that give its key, limits that its options would break."""

import pytest

from drill.bank.touched import limits_broken, limits_of, rows_behind


def test_row_of_a_decision_is_named_once(make_head):
    """A table's row by its own name; of a figure the rows that choose tool and wrap."""
    head = make_head()
    base, turns = head.decide("base_control", "top"), head.decide("turns", "top")
    assert rows_behind(head, base, base) == ("base_control/everyday-half-off",)
    assert rows_behind(head, turns) == ("tool.size/the-wish-decides", "wrap/everyday-wrap")


@pytest.mark.parametrize(
    ("changes", "zone", "decision", "where", "value", "broken"),
    [
        ({"scalp": "broken"}, {}, "verdict", None, "go", ("sore-scalp-stops-every-service",)),
        ({"scalp": "broken"}, {}, "verdict", None, "postpone", ()),
        ({}, {}, "base_control", "nape_left", "on_base", ("nape-never-on-base",)),
        ({}, {}, "base_control", "top", "on_base", ()),
        ({}, {"hair.growth": "forward"}, "roll_direction", "top", "back", ("growth-is-never-opposed",)),
        ({}, {"hair.growth": "forward"}, "roll_direction", "top", "forward", ()),
    ],
)
def test_limits_that_a_value_breaks(  # noqa: PLR0917
    make_head, changes, zone, decision, where, value, broken
):
    """A limit on the decision, or on a fact that follows from it: rolling against the growth."""
    head = make_head(changes, zone=zone)
    assert limits_broken(head, decision, where, value) == broken


def test_limits_of_several_values_stand_in_the_order_of_the_rulebook(make_head, rulebook):
    """Each once, whichever value breaks it."""
    head = make_head({"scalp": "broken", "history.reaction": "yes"})
    found = limits_of(head, (("verdict", None, value) for value in ("test_first", "go", "go")))
    order = [limit.id for limit in rulebook.limits if limit.id in found]
    assert list(found) == order
    assert {"sore-scalp-stops-every-service", "reaction-stops-a-perm"} <= {*found}
