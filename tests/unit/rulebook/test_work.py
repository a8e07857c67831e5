"""How much a proof may take, and what a value that a local rule added is taken for."""

import random

import pytest

from drill.basis.problem import NOWHERE, Place
from drill.rulebook import space
from drill.rulebook.boxes import MOST_CELLS, MOST_WORK, Axis, TooWideError, Work, axis_for, outside
from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain
from drill.rulebook.evaluate import Evaluation
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.space import Space
from drill.rulebook.table import Row
from drill.service.facts import FACTS

AGAINST = "roll_against_growth"


def test_work_is_counted_to_its_end():
    """What is left may be taken, and no more."""
    work = Work(3)
    work.take(2)
    work.take(1)
    with pytest.raises(TooWideError):
        work.take(1)


def test_taking_boxes_away_is_work():
    """A box that others cover but in part is looked at again for each part, until the work is used up."""
    axes = {name: Axis(Domain(name=name), tuple("abcdef")) for name in "xyz"}
    others = [{"x": 1 << at, "y": 1 << at, "z": 1 << at} for at in range(6)]
    work = Work(10_000)
    assert list(outside({}, others, axes, work=work)) == list(outside({}, others, axes))
    spent = 10_000 - work.left
    assert spent > 2 * len(others)
    assert list(outside({}, others, axes, work=Work(spent)))
    with pytest.raises(TooWideError):
        list(outside({}, others, axes, work=Work(spent - 1)))


def test_a_name_of_too_many_cells_is_told():
    """Every bound cuts two cells more."""
    weeks, at = Domain(name="n", values=("never",), unit="weeks"), range(1, MOST_CELLS // 2)
    assert len(axis_for(weeks, [Condition(ranges=(Range(one, one),)) for one in at]).cells) == MOST_CELLS
    with pytest.raises(TooWideError, match="n falls into more than 500 cells"):
        axis_for(weeks, [Condition(ranges=(Range(one, one + 0.5),)) for one in at])


def test_rules_with_too_many_combinations_are_told(rulebook: Rulebook):
    """A proof that would not end says so instead; without a local row there is no place to name."""
    proof = prove(rulebook, facts=FACTS, work=Work(1_000))
    assert [(one.place, one.what) for one in proof.problems] == [
        (NOWHERE, "these rules have more combinations than can be looked through")
    ]
    assert proof.idle_rows == ()


def test_the_local_row_that_names_most_is_told_as_too_wide(rulebook: Rulebook):
    """At its place, since it can be mended there."""
    scalp, strand = Condition(values=("broken",)), Condition(values=("fine", "coarse"))
    rows = [
        Row(id=name, when=when, then="decline", because="b", source="c", place=Place("r.yaml", at))
        for at, (name, when) in enumerate(
            {
                "one": {"scalp": scalp},
                "two": {"scalp": scalp, "hair.strand": strand},
                "three": {"scalp": scalp, "history.known": Condition(values=("no",))},
            }.items(),
            start=1,
        )
    ]
    changed = apply(rulebook, _overlay(*(Change(op="add", target="verdict", row=row) for row in rows)))
    (problem,) = prove(changed, facts=FACTS, work=Work(1_000)).problems
    assert str(problem) == (
        "r.yaml:2:1: with the row two of verdict, these rules have more combinations than can be looked "
        "through; let rows name fewer facts, and a vocabulary have fewer values"
    )


def test_the_built_in_rules_are_far_from_the_bound(rulebook: Rulebook):
    """Ten times their work, and ten times their widest name, are still looked through."""
    work = Work()
    assert not prove(rulebook, facts=FACTS, work=work).problems
    assert (MOST_WORK - work.left) * 10 < MOST_WORK
    assert max(len(axis.cells) for axis in Space(rulebook, facts=FACTS).axes.values()) * 10 < MOST_CELLS


@pytest.mark.parametrize(("table", "named"), [("verdict", 6), ("base_control", 8)])
def test_rows_that_name_much_end_all_the_same(rulebook: Rulebook, table: str, named: int):
    """Fifty rows, each with all values but one of several facts: far too wide, and told."""
    rng = random.Random(table)
    entered = [name for name, one in rulebook.domains.items() if one.entered and one.per == "head"]
    wide = [name for name in entered if len(rulebook.domains[name].values) > 2]
    changes = [
        Change(op="add", target=table, row=_wide_row(rulebook, f"r{at}", rng.sample(wide, named), rng))
        for at in range(50)
    ]
    work = Work(MOST_WORK // 20)
    (problem,) = prove(apply(rulebook, _overlay(*changes)), facts=FACTS, work=work).problems
    assert "more combinations than can be looked through" in problem.what
    assert work.left < 0


def _wide_row(rulebook: Rulebook, row_id: str, names: list[str], rng: random.Random) -> Row:
    when = {
        name: Condition(values=tuple(rng.sample(values, len(values) - 1)))
        for name in names
        if (values := rulebook.domains[name].values)
    }
    then = "decline" if len(names) < 8 else "off_base"
    return Row(id=row_id, when=when, then=then, because="b", source="c")


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
