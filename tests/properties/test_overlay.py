"""Overlays: nothing changes nothing, and whatever passes the proof keeps every limit on every head tried."""

import json
import random
import re
from collections.abc import Iterator
from dataclasses import fields, replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import Slow, worlds

from drill.bank.book import Book
from drill.basis.plain import from_plain, to_plain
from drill.basis.problem import Place, Problem
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.evaluate import Evaluation, UndecidedError
from drill.rulebook.limit import Limit
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.facts import FACTS
from drill.store.book import book_from_text, book_to_text

SOME = settings(max_examples=60, deadline=None)
OVERLAYS, HEADS = 10, 25
HARMLESS = Change(op="set", target="papers.everyday", value="double_flat")
HARMFUL = Change(op="remove", target="verdict", at="hydroxide-relaxer")
SEEDS = [*range(4), *(pytest.param(seed, marks=pytest.mark.long) for seed in range(4, 30))]


def _overlay(*changes: Change) -> Overlay:
    return Overlay(id="ours", kind="local_rule", because="b", source="c", changes=changes)


@SOME
@given(worlds())
def test_an_overlay_of_nothing_changes_nothing(world):
    """But that it is named among those in force."""
    changed = apply(world.rulebook, _overlay())
    assert replace(changed, overlays=()) == world.rulebook
    assert changed.overlays == ("ours",)


@SOME
@given(worlds(), st.randoms(use_true_random=False))
def test_applying_changes_leaves_the_rulebook_given_as_it_was(world, rng):
    """And what is added and removed again is gone."""
    before, digest = to_plain(world.rulebook), world.rulebook.digest
    change = _random_change(world.rulebook, rng)
    changed = apply(world.rulebook, _overlay(change))
    assert to_plain(world.rulebook) == before
    assert replace(changed, overlays=()).digest != digest or change.op in ("replace", "set")
    table = rng.choice(list(world.rulebook.tables.values()))
    new = replace(table.rows[0], id="passing")
    there = Change(op="add", target=table.decision, row=new, at=rng.choice(table.rows).id)
    back = Change(op="remove", target=table.decision, at="passing")
    assert apply(world.rulebook, _overlay(there, back)).tables == world.rulebook.tables


@SOME
@given(worlds())
def test_the_digest_is_of_everything_but_places(world):
    """Any field of any row, table, name or parameter counts; a place never does."""
    rulebook = world.rulebook
    table = rulebook.tables["d"]
    row = table.rows[0]
    moved = replace(row, place=Place("elsewhere.yaml", 7, 7))
    assert rulebook.with_table(replace(table, rows=(moved, *table.rows[1:]))).digest == rulebook.digest
    for field in fields(Row):
        if field.name in ("place", "when", "standing", "then_from"):
            continue
        other = ("x",) if field.name == "also" else "another"
        changed = replace(row, **{field.name: other})
        assert rulebook.with_table(replace(table, rows=(changed, *table.rows[1:]))).digest != rulebook.digest


@SOME
@given(worlds())
def test_a_rulebook_comes_back_equal_from_json(world):
    """And decides alike."""
    text = json.dumps(to_plain(world.rulebook))
    again = from_plain(Rulebook, json.loads(text))
    assert again == world.rulebook
    assert again.digest == world.rulebook.digest


def test_the_book_comes_back_equal_from_its_text(book: Book):
    """Places and all, and the same text again."""
    text = book_to_text(book)
    again = book_from_text(text, shown="book.json")
    assert again == book
    assert again.rulebook.digest == book.rulebook.digest
    assert book_to_text(again) == text


@SOME
@given(worlds(), st.randoms(use_true_random=False))
def test_a_change_decides_only_where_it_reaches(world, rng):
    """A row added at the end of a complete `first` table changes no decision."""
    table = world.rulebook.tables["d"]
    heads = list(world.heads())
    if table.hit != "first" or any(Slow(world, head).row("d") is None for head in heads):
        return
    new = replace(rng.choice(table.rows), id="last", then=rng.choice(table.gives), then_from="value")
    changed = apply(world.rulebook, _overlay(Change(op="add", target="d", row=new)))
    for head in heads:
        before = Evaluation(world.rulebook, facts=world.facts, inputs=head).decide("d")
        after = Evaluation(changed, facts=world.facts, inputs=head).decide("d")
        assert (before.value, before.row) == (after.value, after.row)


def _random_change(rulebook: Rulebook, rng: random.Random) -> Change:
    """Draw one change: a row out, an outcome turned, a row added with a condition or two, a parameter set."""
    table = rng.choice(list(rulebook.tables.values()))
    row = rng.choice(table.rows)
    how = rng.random()
    if how < 0.3:
        return Change(op="remove", target=table.decision, at=row.id)
    turned = replace(row, then=rng.choice(table.gives), then_from="value", also=_also(table.gives, rng))
    if how < 0.6:
        return Change(op="replace", target=table.decision, row=turned)
    named = [name for name in turned.when if rng.random() < 0.6]
    for name in named:
        domain = rulebook.domains.get(name)
        if domain is not None and domain.values and rng.random() < 0.5:
            condition = replace(turned.when[name], values=(rng.choice(domain.values),), ranges=())
            turned = replace(turned, when={**turned.when, name: condition})
    if how < 0.9:
        kept = {name: turned.when[name] for name in named}
        new = replace(turned, id="ours", when=kept)
        return Change(op="add", target=table.decision, row=new, at=rng.choice(table.rows).id)
    parameter = rng.choice([one for one in rulebook.parameters.values() if one.choices])
    return Change(op="set", target=parameter.name, value=rng.choice(parameter.choices))


def _also(gives: tuple[str, ...], rng: random.Random) -> tuple[str, ...]:
    return (rng.choice(gives),) if rng.random() < 0.2 else ()


class Told:
    """Reads limits off decided heads; knows nothing of boxes.

    Args:
        rulebook: The rules.
        rng: Draws what is not stated.
    """

    def __init__(self, rulebook: Rulebook, rng: random.Random) -> None:
        self.rulebook, self.rng = rulebook, rng

    def head(self, stated: dict[str, Value]) -> Evaluation:
        """Draw a zone of a head, with some values stated."""
        inputs = {name: self._draw(name) for name in self.rulebook.domains}
        return Evaluation(self.rulebook, facts=FACTS, inputs={**inputs, **stated})

    def _draw(self, name: str) -> Value:
        domain = self.rulebook.domains[name]
        if domain.unit and (not domain.values or self.rng.random() < 0.7):
            return self.rng.choice((0.0, 1.0, 4.0, 6.0, 8.0, 12.0, 26.0, 60.0, 120.0, 300.0, 600.0))
        # Half of the heads are mostly harmless, since most limits are about heads that get as far as a `go`.
        known = [value for value in domain.values if value != UNKNOWN]
        return self.rng.choice(known if known and self.rng.random() < 0.8 else domain.values)

    def broken(self, zone: Evaluation) -> Iterator[str]:
        """Give the limits that a head breaks, each with what it breaks it by."""
        for limit in self.rulebook.limits:
            if not self._met(zone, limit):
                continue
            for name, values in limit.never.items():
                if self._counted(name, self._value(zone, name)) & {*values}:
                    yield limit.id
            for name, values in limit.demands.items():
                if {*values} - {*zone.decide(name).value}:
                    yield limit.id

    def _met(self, zone: Evaluation, limit: Limit) -> bool:
        return all(condition.holds(zone.read(name)) for name, condition in limit.when.items())

    def _value(self, zone: Evaluation, name: str) -> tuple[Value, ...]:
        """What a name can come to, where an acceptable outcome may be taken for the first choice."""
        if name in self.rulebook.tables:
            decision = zone.decide(name)
            return (decision.value, *decision.also)
        if name not in FACTS:
            return (zone.read(name),)
        needs = product(*(self._value(zone, need) for need in FACTS[name].needs))
        return tuple(FACTS[name].compute(values, self.rulebook.values) for values in needs)

    def _counted(self, name: str, values: tuple[Value, ...]) -> set[Value]:
        return {self.rulebook.built_in(name, str(one)) for one in values}


def _stated(problem: Problem) -> dict[str, Value]:
    """Read an example head back out of a problem."""
    text = re.search(r"(?:for example for|what to do with|both hold for) (.+)$", problem.what)
    assert text, problem
    if text[1] in ("any head", "every head"):
        return {}
    pairs = (pair.split(": ") for pair in text[1].split(", "))
    return {name: _value_of(value) for name, value in pairs}


def _value_of(text: str) -> Value:
    number = re.fullmatch(r"(\d+(?:\.\d+)?) \w+", text)
    return float(number[1]) if number else text


@pytest.mark.parametrize("seed", SEEDS)
def test_what_passes_the_proof_keeps_the_limits_and_what_is_refused_has_an_example(rulebook: Rulebook, seed):
    """Random local rules on the built-in rulebook, and heads decided one by one as the judge."""
    rng = random.Random(seed)
    passed = refused = 0
    for overlay in (_overlay(HARMLESS), _overlay(HARMFUL), *_random_overlays(rulebook, rng)):
        changed = apply(rulebook, overlay)
        problems = prove(changed, facts=FACTS, idle_is_fault=False).problems
        told = Told(changed, rng)
        if not problems:
            passed += 1
            for _ in range(HEADS):
                assert [*told.broken(told.head({}))] == []
        for problem in problems:
            refused += 1
            _is_real(problem, told)
    assert passed
    assert refused


def _random_overlays(rulebook: Rulebook, rng: random.Random) -> Iterator[Overlay]:
    for _ in range(OVERLAYS):
        yield _overlay(*(_random_change(rulebook, rng) for _ in range(rng.choice((1, 1, 2)))))


def _is_real(problem: Problem, told: Told) -> None:
    if "wait for each other" in problem.what:
        return
    stated = _stated(problem)
    free = [name for name in stated if name in FACTS]
    limit = re.match(r"the limit (\S+) is broken", problem.what)
    gap = re.match(r"no row of (\S+) says", problem.what)
    outcomes = []
    for _ in range(40):
        zone = told.head(stated)
        if any(zone.read(name) != stated[name] for name in free):
            continue
        outcomes.append(_shows(zone, told, limit[1] if limit else "", gap[1] if gap else ""))
    # A figure between bounds is stated by a point that no drawn length may give.
    assert any(outcomes) or free, problem


def _shows(zone: Evaluation, told: Told, limit: str, gap: str) -> bool:
    try:
        if gap:
            zone.decide(gap)
            return False
        return limit in told.broken(zone)
    except UndecidedError as error:
        return not gap or error.table.decision == gap
