"""How much a proof may take, and what a value that a local rule added is taken for."""

import pytest

from drill.rulebook import space
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.facts import FACTS

AGAINST = "roll_against_growth"


def test_rules_with_too_many_combinations_are_told(rulebook: Rulebook, monkeypatch: pytest.MonkeyPatch):
    """A proof that would not end says so instead."""
    monkeypatch.setattr(space, "MOST_STEPS", 100)
    proof = prove(rulebook, facts=FACTS)
    assert [one.what for one in proof.problems] == [
        "these rules have more combinations than can be looked through"
    ]
    assert proof.idle_rows == ()


def test_a_fact_of_too_many_combinations_is_told(rulebook: Rulebook, monkeypatch: pytest.MonkeyPatch):
    """As the same fault."""
    monkeypatch.setattr(space, "MOST_COMBINATIONS", 3)
    (problem,) = prove(rulebook, facts=FACTS).problems
    assert problem.mend == "let rows name fewer facts, and a vocabulary have fewer values"


def test_what_is_forgotten_is_found_again(rulebook: Rulebook, monkeypatch: pytest.MonkeyPatch):
    """A small memory costs time, nothing else."""
    changed = apply(rulebook, _overlay(Change(op="remove", target="verdict", at="hydroxide-relaxer")))
    expected = prove(changed, facts=FACTS, idle_is_fault=False)
    assert expected.problems
    monkeypatch.setattr(space, "MOST_REMEMBERED", 50)
    assert prove(changed, facts=FACTS, idle_is_fault=False) == expected


def test_idle_rows_are_looked_for_only_where_asked(rulebook: Rulebook):
    """A row behind one that takes every head is idle."""
    row = Row(id="ours", when={}, then="on_base", because="b", source="c")
    changed = apply(rulebook, _overlay(Change(op="add", target="base_control", row=row)))
    assert prove(changed, facts=FACTS, idle_is_fault=False).idle_rows == ("base_control/ours",)
    assert prove(changed, facts=FACTS, idle_is_fault=False, look_for_idle=False).idle_rows == ()


def _overlay(*changes: Change) -> Overlay:
    return Overlay(id="ours", kind="local_rule", because="b", source="c", changes=changes)


@pytest.mark.parametrize(("counts_as", "against"), [("left", "yes"), ("right", "no")])
def test_a_fact_takes_an_added_value_for_what_it_counts_as(rulebook: Rulebook, counts_as: str, against: str):
    """Whatever it is called, hair that grows to the right is not rolled to the left."""
    row = Row(id="ours", when={}, then="aside", because="b", source="c")
    changed = apply(
        rulebook,
        _overlay(
            Change(op="widen", target="roll_direction", value="aside", counts_as=counts_as),
            Change(
                op="add", target="roll_direction", row=row, at=rulebook.tables["roll_direction"].rows[0].id
            ),
        ),
    )
    head = Evaluation(changed, facts=FACTS, inputs={"hair.growth": "right", "zone": "top"})
    assert head.read("roll_direction") == "aside"
    assert head.read(AGAINST) == against
    told = [one.what for one in prove(changed, facts=FACTS, idle_is_fault=False).problems]
    assert any("growth-is-never-opposed" in what for what in told)


def test_only_what_was_added_counts_as_something_else(rulebook: Rulebook):
    """Numbers, built-in values and names nobody knows are what they are."""
    wider = apply(
        rulebook,
        _overlay(Change(op="widen", target="scalp", value="sunburnt", counts_as="irritated")),
    )
    assert wider.counted("scalp", "sunburnt") == "irritated"
    assert wider.counted("scalp", "broken") == "broken"
    assert wider.counted("scalp", 3.0) == 3.0
    assert rulebook.counted("scalp", "sunburnt") == "sunburnt"
    assert rulebook.counted("no.name", "x") == "x"
