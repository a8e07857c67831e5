"""A figure of the winding says what it rests on."""

import pytest

from drill.bank.feedback import feedback_on_key
from drill.bank.figure_reason import figure_reason


@pytest.mark.parametrize(
    ("decision", "changes", "told"),
    [
        ("turns", {"wish.curl": "soft"}, "18 cm of hair goes round a"),
        ("curl_ends_mm", {}, "the ends lie first on"),
        ("curl_scalp_mm", {}, "18 cm of hair lies on"),
    ],
)
def test_figure_rests_on_length_tool_and_layers(make_head, decision, changes, told):
    """Each of them is named, with its unit."""
    head = make_head(changes)
    said = feedback_on_key(head, head.decide(decision, "top"), look="").decides
    assert told in said
    assert said.count(" mm") >= 2
    assert "formula" not in said


@pytest.mark.parametrize(
    ("changes", "length_mm", "told"),
    [
        ({"wish.look": "ringlets"}, 300.0, "along a"),
        ({}, 400.0, "half of 40 cm goes round"),
    ],
)
def test_turns_of_other_wraps_say_how_the_hair_lies(make_head, changes, length_mm, told):
    """A spiral has one layer; of a double wrap one tool is counted."""
    head = make_head(changes, zone={"hair.length": length_mm})
    assert told in figure_reason(head, head.decide("turns", "top"))


def test_decision_of_a_table_has_no_such_reason(make_head):
    """Its row says why; and a tool's size is chosen, not computed."""
    head = make_head()
    for decision in ("base_control", "tool.diameter_mm"):
        assert figure_reason(head, head.decide(decision, "top")) == ""
