"""Local rules and wrong ideas as written."""

import pytest

from drill.basis.problem import Place
from drill.load.overlay import COMPUTED_WITH, read_overlay
from drill.load.reading import read_text
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.service.facts import FACTS
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain

HEAD = "overlay: ours\nbecause: We do.\nsource: House rules, p. 3\n"


def _read(text, rulebook, kind="local_rule"):
    (node,), problems = read_text(text.encode(), shown="it.yaml")
    return read_overlay(node, rulebook, problems, kind=kind), [str(one) for one in problems]


def test_a_local_rule_keeps_all_that_is_written(rulebook):
    """Its days, and its changes with their places."""
    text = (
        "kind: local_rule\nfrom: 2026-01-01\nuntil: 20270101\nchanges:\n"
        "  - {op: set, parameter: processing.neutraliser_minutes, value: 6}\n"
        "  - {op: widen, vocabulary: scalp, value: sunburnt, counts_as: irritated}\n"
        "  - {op: remove, table: base_control, row: worn-close}\n"
    )
    overlay, told = _read(HEAD + text, rulebook)
    assert told == []
    assert (overlay.since, overlay.until, overlay.source) == ("2026-01-01", "2027-01-01", "House rules, p. 3")
    assert overlay.changes == (
        Change(
            op="set",
            target="processing.neutraliser_minutes",
            value=6.0,
            place=Place("it.yaml", 8, 5),
        ),
        Change(
            op="widen", target="scalp", value="sunburnt", counts_as="irritated", place=Place("it.yaml", 9, 5)
        ),
        Change(op="remove", target="base_control", at="worn-close", place=Place("it.yaml", 10, 5)),
    )


def test_a_change_rests_on_those_before_it(rulebook):
    """A value that one adds, the next may name; a row that one removes, the next cannot."""
    text = (
        "changes:\n"
        "  - {op: widen, vocabulary: scalp, value: sunburnt, counts_as: irritated}\n"
        "  - op: add\n    table: verdict\n"
        "    row: {id: burnt, when: {scalp: sunburnt}, then: postpone, because: b, source: c}\n"
        "  - {op: remove, table: verdict, row: burnt}\n"
        "  - {op: remove, table: verdict, row: burnt}\n"
    )
    overlay, told = _read(HEAD + text, rulebook)
    assert overlay is None
    assert [one.partition(";")[0] for one in told] == ["it.yaml:10:5: verdict has no row 'burnt'"]


@pytest.mark.parametrize(("word", "harm"), [("yes", True), ("true", True), ("no", False), ("", False)])
def test_a_wrong_idea_can_harm_or_not(rulebook, word, harm):
    """It may change nothing at all."""
    text = "overlay: a\nbelief: b\nbecause: c\nseen: d\nmend: e\nsource: memory\n"
    overlay, told = _read(text + (f"harm: {word}\n" if word else ""), rulebook, "misconception")
    assert told == []
    assert (overlay.harm, overlay.changes, overlay.kind) == (harm, (), "misconception")


def test_a_value_that_no_formula_knows_is_refused_and_any_other_can_be_planned_with(rulebook, sound_head):
    """For every vocabulary, whatever the new value counts as."""
    for name, domain in rulebook.domains.items():
        for counts_as in domain.values:
            text = f"changes: [{{op: widen, vocabulary: {name}, value: brand_new, counts_as: {counts_as}}}]\n"
            overlay, told = _read(HEAD + text, rulebook)
            if name in COMPUTED_WITH:
                assert told[0].startswith(f"it.yaml:4:11: {name} cannot gain a value")
                continue
            assert told == []
            if domain.entered:
                _plans_or_is_refused(apply(rulebook, overlay), sound_head(domain, "brand_new"))


def test_an_outcome_that_no_formula_knows_is_refused_and_any_other_can_be_planned_with(rulebook, sound_head):
    """A table that is widened and decides the new outcome everywhere."""
    for name, table in rulebook.tables.items():
        if name in COMPUTED_WITH:
            continue
        first = table.rows[0]
        row = {"id": "ours", "when": {}, "then": "brand_new", "because": "b", "source": "c", "say": "Do."}
        text = (
            "changes:\n"
            f"  - {{op: widen, vocabulary: {name}, value: brand_new, counts_as: {table.gives[-1]}}}\n"
            f"  - {{op: add, table: {name}, before: {first.id}, row: {row}}}\n"
        )
        overlay, told = _read(HEAD + text, rulebook)
        if {*table.gives} <= {"yes", "no"}:
            assert told[0].startswith(
                f"it.yaml:5:5: {name} is answered by yes or no, and has no third answer"
            )
            continue
        assert told == []
        _plans_or_is_refused(apply(rulebook, overlay), sound_head())


def _plans_or_is_refused(rulebook, consultation):
    try:
        plan = plan_to_plain(plan_service(rulebook, consultation))
    except UndecidedError:
        assert prove(rulebook, facts=FACTS, idle_is_fault=False).problems
    else:
        assert plan["verdict"] in rulebook.tables["verdict"].gives


def test_an_overlay_reads_back_as_it_was_meant(rulebook):
    """A wrong idea of the built-in ones keeps its source among the known works."""
    overlay, told = _read(
        "overlay: a\nbelief: b\nbecause: c\nseen: d\nmend: e\nsource: X2\n", rulebook, "misconception"
    )
    assert told == []
    assert isinstance(overlay, Overlay)
    assert overlay.source == "X2"
