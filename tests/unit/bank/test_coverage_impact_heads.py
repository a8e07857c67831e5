"""What can be asked of a row, what local rules change, and heads on which a row decides."""

import random
from dataclasses import replace
from itertools import islice

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.coverage import RowReach, count, reach
from drill.bank.heads import _number_in, _weeks_for, heads_for_row
from drill.bank.impact import HEADS_AN_ITEM, ItemDraws, row_changes
from drill.bank.item import Item
from drill.rulebook.boxes import Work
from drill.rulebook.condition import Range
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.space import Space
from drill.service.facts import FACTS
from drill.service.head import Head


@pytest.fixture(scope="module")
def space(rulebook):
    """The built-in rules as boxes."""
    return Space(rulebook, facts=FACTS)


def test_counts_are_those_of_the_book(book):
    """Counted once more by hand, from the book's own parts."""
    counts = count(book)
    tables = book.rulebook.tables.values()
    assert counts.tables == len(book.rulebook.tables)
    assert counts.rows == sum(len(table.rows) for table in tables)
    assert counts.parameters == len(book.rulebook.parameters)
    assert counts.limits == len(book.rulebook.limits)
    assert counts.items == len(book.items)
    written = [item for item in book.items if item.answer or (item.kind == "order" and not item.decision)]
    assert counts.scenarios + len(written) == counts.items
    assert counts.skills == len(book.skills) <= counts.items
    assert counts.changing <= counts.misconceptions == len(book.misconceptions)
    unpublished = [
        row for table in tables for row in table.rows if row.source in ("common practice", "memory")
    ]
    assert counts.unpublished_rows == len(unpublished) < counts.rows
    assert 0 < counts.unpublished_parameters < counts.parameters


def test_row_is_askable_with_two_wrong_values_on_one_head():
    """One wrong value is no choice."""
    one = RowReach(decision="d", row="r", reached={"x": ("a",)})
    two = RowReach(decision="d", row="r", reached={"x": ("a",), "y": ("b",)})
    assert (one.askable, two.askable) == (False, True)


def test_reach_names_every_row_of_a_single_outcome_once(beliefs, rulebook):
    """Lists are left out; a good part of the rows can be asked; wrong values are none of the right ones."""
    found = reach(beliefs)
    rows = [
        (table.decision, row.id)
        for table in rulebook.tables.values()
        if table.hit != "collect"
        for row in table.rows
    ]
    assert [(one.decision, one.row) for one in found] == rows
    assert sum(one.askable for one in found) > 40
    for one in found:
        row = rulebook.tables[one.decision].row(one.row)
        if row.then_from == "value":
            assert row.then not in one.reached
        assert not set(row.also) & set(one.reached)


def test_reach_passes_over_heads_that_nothing_decides(rulebook):
    """A rulebook with a gap is not stopped by it."""
    gap = apply(
        rulebook,
        Overlay(
            id="gap",
            kind="local_rule",
            because="b",
            source="s",
            changes=(Change(op="remove", target="roll_direction", at="as-it-is-worn"),),
        ),
    )
    found = reach(Beliefs(Book(rulebook=gap, misconceptions=(), items=(), topics={})))
    assert found
    assert not any(one.reached for one in found)


@pytest.mark.parametrize(
    ("decision", "row"),
    [
        ("base_control", "nape-stays-low"),
        ("base_control", "whorl-never-on-base"),
        ("verdict", "perm-upon-perm"),
        ("verdict", "porosity-not-felt"),
        ("verdict", "fresh-semi-permanent-colour"),
        ("waving_lotion.class", "mild-until-an-old-perm-is-asked"),
        ("papers", "double-for-layered-ends"),
        ("roll_direction", "growth-wins"),
        ("tool.size", "long-and-thick-drops"),
    ],
)
def test_heads_for_a_row_are_mostly_decided_by_it(space, rulebook, decision, row):
    """Of twenty heads more than half are decided by the row, and each is a whole head."""
    table = rulebook.tables[decision]
    heads = list(islice(heads_for_row(space, table, table.row(row), random.Random(4)), 20))
    assert len(heads) == 20
    hit = 0
    for consultation, zone in heads:
        assert (zone is None) == (table.per == "head")
        held = Head(rulebook, consultation).decide(decision, zone)
        hit += row in ([one.id for one in held.rows] if table.hit == "strictest" else [held.row])
    assert hit > 10


def test_heads_for_a_row_are_the_same_for_the_same_seed(space, rulebook):
    """Whoever reports a head can find it again."""
    table = rulebook.tables["verdict"]
    row = table.row("scalp-broken")
    first = list(islice(heads_for_row(space, table, row, random.Random(2)), 5))
    assert first == list(islice(heads_for_row(space, table, row, random.Random(2)), 5))


def test_row_that_no_head_reaches_yields_none(rulebook):
    """A row behind one that catches everything is never met."""
    table = rulebook.tables["wrap"]
    late = replace(table.row("everyday-wrap"), id="too-late")
    longer = rulebook.with_table(replace(table, rows=(*table.rows, late)))
    heads = heads_for_row(Space(longer, facts=FACTS), longer.tables["wrap"], late, random.Random(1))
    assert list(islice(heads, 3)) == []


def test_where_the_work_is_used_up_no_head_is_found(rulebook):
    """Looking for heads ends like a proof, and is no fault."""
    table = rulebook.tables["verdict"]
    tired = Space(rulebook, facts=FACTS, work=Work(100))
    assert next(heads_for_row(tired, table, table.rows[-1], random.Random(1)), None) is None


def test_number_is_drawn_inside_its_range():
    """Closed, open above, and a single point."""
    rng = random.Random(3)
    assert all(2 < _number_in(Range(low=2.0, high=12.0), rng) < 12 for _ in range(20))
    assert all(100 < _number_in(Range(low=100.0), rng) <= 160 for _ in range(20))
    assert _number_in(Range(low=6.0, high=6.0), rng) == 6.0


def local(rulebook, *changes):
    """Make a local rule."""
    return Overlay(id="ours", kind="local_rule", because="b", source="s", changes=changes)


def test_row_changes_tell_before_and_after(rulebook):
    """One a change: rows added, replaced, taken out, and a parameter set."""
    row = rulebook.tables["papers"].row("double-for-layered-ends")
    rule = local(
        rulebook,
        Change(op="replace", target="papers", row=replace(row, then="bookend")),
        Change(op="remove", target="layout", at="bricklay-for-thin-hair"),
        Change(
            op="add",
            target="papers",
            at="double-for-layered-ends",
            row=replace(row, id="ours", then="single_flat"),
        ),
        Change(op="set", target="papers.everyday", value="double_flat"),
        Change(op="widen", target="papers", value="cushion", counts_as="bookend"),
    )
    assert [(one.op, one.target, one.before, one.after) for one in row_changes(rulebook, (rule,))] == [
        ("replace", "papers/double-for-layered-ends", "double_flat", "bookend"),
        ("remove", "layout/bricklay-for-thin-hair", "bricklay", ""),
        ("add", "papers/ours", "", "single_flat"),
        ("set", "papers.everyday", "bookend", "double_flat"),
        ("widen", "papers", "", "cushion"),
    ]
    assert {one.rule for one in row_changes(rulebook, (rule,))} == {"ours"}


def test_item_changes_name_the_items_whose_answer_is_another(book, rulebook):
    """A school that teaches two flat papers changes the answer on even ends and no other item."""
    change = Change(op="set", target="papers.everyday", value="double_flat")
    ours = apply(rulebook, local(rulebook, change))
    even = Item(
        id="even",
        topic="t",
        kind="find_fault",
        stem="?",
        parts=("papers", "base_size", "parting"),
        zones=("top",),
        vary={"hair.ends": ("even",)},
    )
    layered = replace(
        even, id="layered", kind="choose", decision="papers", parts=(), vary={"hair.ends": ("layered",)}
    )
    fact = Item(id="fact", topic="t", kind="choose", stem="?", answer="x")
    gone = replace(layered, id="gone", row="no-such-row")
    never = Item(id="never", topic="t", kind="choose", stem="?", decision="test_curls.needed")
    school = Book(
        rulebook=ours, misconceptions=book.misconceptions, items=(even, layered, fact, gone, never), topics={}
    )
    rules = (local(rulebook, change),)
    found = ItemDraws(school, rulebook).changes(rulebook, ours, rules=rules)
    assert [(one.item, one.decision, one.before, one.after) for one in found] == [
        ("even", "papers", "bookend", "double_flat")
    ]
    assert found[0].changed == found[0].heads == HEADS_AN_ITEM


def test_plan_that_no_head_is_served_for_is_passed_over(book, rulebook):
    """An item about a plan whose clients are all sent home shows none."""
    change = Change(op="set", target="papers.everyday", value="double_flat")
    ours = apply(rulebook, local(rulebook, change))
    sore = Item(
        id="sore",
        topic="t",
        kind="find_fault",
        stem="?",
        parts=("papers", "base_size", "parting"),
        zones=("top",),
        vary={"scalp": ("broken",)},
    )
    school = Book(rulebook=ours, misconceptions=book.misconceptions, items=(sore,), topics={})
    rules = (local(rulebook, change),)
    assert ItemDraws(school, rulebook).changes(rulebook, ours, rules=rules) == ()


def test_item_that_a_local_rule_leaves_undecided_is_an_answer_changed_to_nothing(book, rulebook):
    """A gap is shown, not passed over."""
    change = Change(op="remove", target="papers", at="everyday-paper")
    gap = apply(rulebook, local(rulebook, change))
    even = Item(
        id="even",
        topic="t",
        kind="find_fault",
        stem="?",
        parts=("papers", "base_size", "parting"),
        zones=("top",),
        vary={"hair.ends": ("even",)},
    )
    school = Book(rulebook=gap, misconceptions=book.misconceptions, items=(even,), topics={})
    rules = (local(rulebook, change),)
    found = ItemDraws(school, rulebook).changes(rulebook, gap, rules=rules)
    assert (found[0].after, found[0].undecided) == ("", HEADS_AN_ITEM)


@pytest.mark.parametrize(
    ("left", "allowed", "drawn"),
    [
        ("none", None, "never"),
        ("none", {"never", "unknown"}, "never"),
        ("unknown", {"never", "unknown"}, "unknown"),
        ("all", {"never"}, "never"),
    ],
)
def test_weeks_since_a_perm_go_with_what_is_left_of_it_as_far_as_a_part_allows(space, left, allowed, drawn):
    """A grown-out perm is told as never, one that nobody asked about as unknown."""
    cells = space.axes["history.weeks_since_perm"].cells
    part = {}
    if allowed is not None:
        part["history.weeks_since_perm"] = sum(1 << at for at, cell in enumerate(cells) if cell in allowed)
    assert _weeks_for(space, part, left, random.Random(1)) == drawn


def test_weeks_since_a_perm_are_drawn_from_the_ranges_of_a_part(space):
    """What is still there was done within the weeks that the row asks for."""
    cells = space.axes["history.weeks_since_perm"].cells
    at = next(at for at, cell in enumerate(cells) if isinstance(cell, Range) and cell.holds(4.0))
    part = {"history.weeks_since_perm": 1 << at}
    assert cells[at].holds(_weeks_for(space, part, "all", random.Random(1)))
