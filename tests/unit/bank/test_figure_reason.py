"""A figure of the winding says what it rests on."""

import math

import pytest

from drill.bank.feedback import feedback_on_key
from drill.bank.figure_reason import figure_givens, figure_reason


@pytest.mark.parametrize(
    ("decision", "changes", "told"),
    [
        ("turns", {"wish.curl": "soft"}, "18 cm of hair goes round a"),
        ("curl_ends_mm", {}, "the ends lie on"),
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


def test_what_is_measured_first_is_given_but_not_the_tool_of_this_hair(make_head):
    """The tool of the wish with its neighbours, the layer, and of a curl what stays of it."""
    head = make_head({"wish.curl": "soft"}, zone={"hair.length": 340.0, "hair.density": "thick"})
    tools, layer = figure_givens(head, "turns", "top")
    assert tools == "Tools: 14.3 mm by the wish; 12.7 and 15.9 mm beside it."
    assert head.winding("top").tool.diameter_mm == 12.7
    assert layer.startswith("A layer of hair: 0.")
    assert figure_givens(head, "curl_ends_mm", "top")[1].endswith(" in 100 of the bend stays.")


@pytest.mark.parametrize(
    ("decision", "within"), [("turns", 0.1), ("curl_ends_mm", 0.1), ("curl_scalp_mm", 0.1)]
)
def test_figure_can_be_reckoned_from_what_is_given(make_head, decision, within):
    """By a quadratic on paper: length over pi is tool times turns plus layer times turns squared.

    Source:
        The length of an Archimedean spiral wound in layers; common handbook formula for wound rolls, from
        memory.
    """
    head = make_head({"wish.curl": "medium"})
    layer_mm = float(figure_givens(head, decision, "top")[1].split()[4])
    tool_mm, length_mm = head.winding("top").tool.diameter_mm, 180.0
    turns = (-tool_mm + (tool_mm**2 + 4 * layer_mm * length_mm / math.pi) ** 0.5) / (2 * layer_mm)
    kept = head.winding("top").ends_mm / head.winding("top").curl_ends_mm
    by_hand = {
        "turns": turns,
        "curl_ends_mm": (tool_mm + layer_mm) / kept,
        "curl_scalp_mm": (tool_mm + 2 * layer_mm * turns) / kept,
    }
    assert by_hand[decision] == pytest.approx(head.decide(decision, "top").value, rel=within)


def test_where_two_sizes_would_do_the_tool_itself_is_given(make_head):
    """At the nape the size for the wish is right as well; only one of them is reckoned with."""
    head = make_head({"wish.curl": "tight"})
    assert head.choice("nape_center").also == (6.4,)
    assert figure_givens(head, "turns", "nape_center")[0] == "Tool: 4.8 mm."


def test_curl_at_the_scalp_of_a_double_tool_has_half_of_the_hair(make_head):
    """The other half lies on the tool at the ends."""
    head = make_head(zone={"hair.length": 400.0})
    told = figure_reason(head, head.decide("curl_scalp_mm", "top"))
    assert told.startswith("half of 40 cm lies on the ")
