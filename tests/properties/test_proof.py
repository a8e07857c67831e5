"""The proof on boxes finds what going through every head finds, and what it shows is real."""

import re

from hypothesis import given, settings
from strategies import LIST, Slow, World, worlds

from drill.rulebook.boxes import Axis
from drill.rulebook.condition import Range
from drill.rulebook.evaluate import Evaluation, UndecidedError
from drill.rulebook.proof import prove
from drill.rulebook.space import Space

MANY = settings(max_examples=120, deadline=None)


def _undecided(world, head):
    """The first decision, in the order of the chain, that no row takes."""
    slow = Slow(world, head)
    return next((name for name in ("d", "e") if slow.row(name) is None), None)


def _matches(world, example):
    """The heads that an example states."""
    stated = dict(pair.split(": ") for pair in example.split(", ")) if ": " in example else {}
    heads = list(world.heads())
    for name, text in stated.items():
        heads = [head for head in heads if _is(head[name], text)]
    assert heads, f"no head is {example}"
    return heads


def _is(value, text):
    return value == text if isinstance(value, str) else text == f"{value:g} weeks"


@MANY
@given(worlds())
def test_a_table_is_complete_for_the_proof_where_every_head_is_decided(world):
    """A gap is reported exactly where some head is undecided, and the example is such a head."""
    found = {}
    for problem in prove(world.rulebook, facts=world.facts).problems:
        gap = re.match(r"no row of (\w+) says what to do with (.+)", problem.what)
        if gap:
            found[gap[1]] = gap[2]
    gaps = {_undecided(world, head) for head in world.heads()} - {None}
    assert bool(found) == bool(gaps)
    if "d" in gaps:
        assert "d" in found
    else:
        assert set(found) == gaps
    if found:
        name = next(iter(sorted(found)))
        assert all(_undecided(world, head) == name for head in _matches(world, found[name]))


@MANY
@given(worlds())
def test_idle_rows_are_those_that_decide_no_head(world):
    """A row is idle exactly where it decides, or adds to, nothing on any head."""
    heads = list(world.heads())
    if any(_undecided(world, head) for head in heads):
        return
    used = set()
    for slow in (Slow(world, head) for head in heads):
        for table in world.rulebook.tables.values():
            all_count = table.hit in ("collect", "strictest")
            rows = slow.holding(table) if all_count else [slow.row(table.decision)]
            used |= {f"{table.decision}/{row.id}" for row in rows}
    every = [f"{table.decision}/{row.id}" for table in world.rulebook.tables.values() for row in table.rows]
    proof = prove(world.rulebook, facts=world.facts)
    assert list(proof.idle_rows) == [row for row in every if row not in used]
    told = [problem for problem in proof.problems if "can never be hit" in problem.what]
    assert bool(told) == bool(proof.idle_rows)
    lenient = prove(world.rulebook, facts=world.facts, idle_is_fault=False)
    assert lenient.idle_rows == proof.idle_rows
    assert not any("can never be hit" in problem.what for problem in lenient.problems)


@MANY
@given(worlds())
def test_a_unique_table_is_refused_where_two_rows_hold(world):
    """Two rows that hold at once are reported exactly where some head meets both."""
    heads = list(world.heads())
    if any(_undecided(world, head) for head in heads):
        return
    both = set()
    for slow in (Slow(world, head) for head in heads):
        for table in world.rulebook.tables.values():
            if table.hit == "unique":
                ids = [row.id for row in slow.holding(table)]
                both |= {(table.decision, one, two) for at, one in enumerate(ids) for two in ids[at + 1 :]}
    told = {}
    for problem in prove(world.rulebook, facts=world.facts).problems:
        pair = re.match(r"the rows (\S+) and (\S+) of (\w+) both hold for (.+)", problem.what)
        if pair:
            told[(pair[3], pair[1], pair[2])] = pair[4]
    assert set(told) == both
    for (name, one, two), example in told.items():
        table = world.rulebook.tables[name]
        for head in _matches(world, example):
            assert {one, two} <= {row.id for row in Slow(world, head).holding(table)}


@MANY
@given(worlds())
def test_a_limit_is_broken_for_the_proof_where_some_head_breaks_it(world):
    """What is forbidden or demanded is proved for every head, acceptable outcomes and added values too."""
    heads = list(world.heads())
    if any(_undecided(world, head) for head in heads):
        return
    for limit in world.rulebook.limits:
        alone = World(_only(world.rulebook, limit), world.facts)
        told = [one for one in prove(alone.rulebook, facts=world.facts).problems if "is broken" in one.what]
        assert bool(told) == any(Slow(alone, head).breaks(limit) for head in heads), limit
        for problem in told:
            example = problem.what.partition("for example for ")[2]
            assert all(Slow(alone, head).breaks(limit) for head in _matches(alone, example)), problem


@MANY
@given(worlds())
def test_evaluation_decides_as_the_rows_read(world):
    """Every head gets the outcome, the row, the list and the acceptable outcomes that the rows say."""
    for head in world.heads():
        slow, evaluation = Slow(world, head), Evaluation(world.rulebook, facts=world.facts, inputs=head)
        undecided = _undecided(world, head)
        if undecided == "d":
            _is_undecided(evaluation, "d")
            continue
        for name in ("d",) if undecided else ("d", "e"):
            decision, row = evaluation.decide(name), slow.row(name)
            assert (decision.value, decision.row) == (slow.value(name), row.id)
            assert decision.also == tuple(one for one in row.also if one != decision.value)
            assert decision.value == evaluation.read(name)
        if undecided:
            _is_undecided(evaluation, "e")
            continue
        assert list(evaluation.decide(LIST).value) == slow.listed(LIST)
        assert evaluation.read("f") == slow.value("f")


@MANY
@given(worlds())
def test_evaluation_is_the_first_branch_that_has_the_head(world):
    """The branches of a table, in their order, decide as the table does."""
    space = Space(world.rulebook, facts=world.facts)
    for head in world.heads():
        slow = Slow(world, head)
        for table in (world.rulebook.tables["d"], world.rulebook.tables["e"]):
            read = {name: slow.value(name) for name in table.inputs}
            if None in read.values():
                continue
            first = next((one for one in space.branches(table) if _lies_in(read, one.box, space.axes)), None)
            row = slow.row(table.decision)
            assert (first and first.row.id) == (row and row.id)
            assert (first and first.value) == slow.value(table.decision)


def _is_undecided(evaluation, name):
    try:
        evaluation.decide(name)
    except UndecidedError as error:
        assert error.table.decision == name  # noqa: PT017  hypothesis runs this inside a loop of its own
    else:
        raise AssertionError(f"{name} is decided")


def _lies_in(read, box, axes):
    return all(box.get(name, axes[name].full) >> _cell(axes[name], value) & 1 for name, value in read.items())


def _cell(axis: Axis, value):
    return next(
        at
        for at, cell in enumerate(axis.cells)
        if (cell == value if isinstance(value, str) else isinstance(cell, Range) and cell.holds(value))
    )


def _only(rulebook, limit):
    return type(rulebook)(
        domains=rulebook.domains,
        tables=rulebook.tables,
        parameters=rulebook.parameters,
        limits=(limit,),
        sources={},
    )
