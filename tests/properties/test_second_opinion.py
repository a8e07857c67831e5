"""The planner's verdict against a second opinion, over every combination of what the gate looks at.

Both opinions are the strictest of many small ones, so each is written as boxes (products of value sets), and
the boxes are compared level by level: every head that one opinion stops at least so strictly is stopped so by
the other. That is all of the 2.5 million thousand million combinations, though nobody tries them one by one.
Beside it both are asked directly wherever up to two answers (in the long run, three) differ from those of a
harmless head.

Where the boxes come from:

* of the second opinion by probing: a worry is run on a dictionary that tells what it looks at, and once more
  for every value of that, until it has answered; nothing about its text is assumed;
* of the planner by its rows, each condition asked value by value; a condition on another table is replaced by
  that table's own rows.

A number stands for all numbers that neither opinion tells apart: every bound that a condition has or that a
worry compares with, a point between any two of them, and one beyond either end.
"""

import itertools
import math

import pytest
from second_opinion import STRICTNESS, WORRIES, second_opinion

from drill.rulebook.evaluate import Evaluation, decide
from drill.service.facts import FACTS

# Tables that the verdict rests on. Those that take their strictest row are replaced by their rows.
BY_ROWS = ("answers.fit", "test_curls.needed")
TABULATED = ("soft_curl",)


class Watched(float):
    """A number that tells what it is compared with."""

    seen: set

    def __new__(cls, value, seen):
        number = super().__new__(cls, value)
        number.seen = seen
        return number

    def __lt__(self, other):
        self.seen.add(other)
        return float(self) < other

    __le__ = __gt__ = __ge__ = None  # a worry that compares in another way fails here instead of going unseen
    __eq__ = float.__eq__
    __hash__ = float.__hash__


class Asked(dict):
    """Answers given so far; stops the worry at the first that is missing."""

    def __missing__(self, name):
        raise LookupError(name)


def probe(worry, axes, given=None):
    """Give the boxes of a worry: what it looked at, and what it then said."""
    given = given or {}
    try:
        said = worry(Asked(given))
    except LookupError as missing:
        (name,) = missing.args
        return [leaf for value in axes[name] for leaf in probe(worry, axes, {**given, name: value})]
    return [(given, said)]


@pytest.fixture(scope="module")
def axes(rulebook):
    """Every value of everything that either opinion looks at, numbers by their classes."""
    tables = [rulebook.tables[name] for name in ("verdict", *BY_ROWS, *TABULATED, "hair.condition")]
    conditions = [(name, one) for table in tables for row in table.rows for name, one in row.when.items()]
    found = {}
    for name in dict.fromkeys(name for name, _ in conditions):
        if name in rulebook.tables:
            continue
        domain = FACTS[name].domain if name in FACTS else rulebook.domains[name]
        bounds = {
            bound
            for asked, one in conditions
            if asked == name
            for part in one.ranges
            for bound in (part.low, part.high)
            if math.isfinite(bound)
        }
        numbers = _classes(sorted(bounds | _compared_with(name, rulebook))) if domain.unit else ()
        found[name] = (*domain.values, *numbers)
    return found


def _compared_with(name, rulebook):
    """Run every worry on watched numbers until each has said all that it compares this one with."""
    seen = set()
    values = {
        one.name: one.values + (Watched(0, seen if one.name == name else set()),) * bool(one.unit)
        for one in (*rulebook.domains.values(), *(fact.domain for fact in FACTS.values()))
    }
    # Comparisons lie behind the named values, on either side of one another: small numbers and large ones.
    for number in (0.0, 1e9):
        numbers = {
            one: tuple(Watched(number, v.seen) if isinstance(v, Watched) else v for v in some)
            for one, some in values.items()
        }
        for worry in WORRIES:
            probe(worry, numbers)
    return seen


def _classes(bounds):
    if not bounds:
        return (1.0,)  # only whether it is known makes a difference
    between = [(low + high) / 2 for low, high in itertools.pairwise(bounds)]
    return tuple(sorted({*bounds, *between, max(0.0, bounds[0] - 0.5), bounds[-1] + 1.0}))


class Space:
    """Boxes as sets of bits: for each axis that a box narrows, the values that it takes."""

    def __init__(self, axes):
        self.axes = axes
        self.at = {name: {value: 1 << i for i, value in enumerate(some)} for name, some in axes.items()}
        self.whole = {name: (1 << len(some)) - 1 for name, some in axes.items()}

    def box(self, given):
        return {name: self.at[name][value] for name, value in given.items()}

    def taken(self, name, holds):
        return sum(bit for value, bit in self.at[name].items() if holds(value))

    def meet(self, one, other):
        """Narrow one box to another; None where nothing is left."""
        met = dict(one)
        for name, bits in other.items():
            met[name] = met.get(name, self.whole[name]) & bits
            if not met[name]:
                return None
        return met

    def uncovered(self, box, boxes):
        """Find a part of a box that none of the boxes takes, or None."""
        boxes = [one for one in boxes if self.meet(box, one) is not None]
        if not boxes:
            return box
        # The box that cuts the least is looked at first.
        cuts = [
            [name for name, bits in one.items() if box.get(name, self.whole[name]) & ~bits] for one in boxes
        ]
        nearest = min(range(len(boxes)), key=lambda at: len(cuts[at]))
        if not cuts[nearest]:
            return None
        name = cuts[nearest][0]
        bits, mine = boxes[nearest][name], box.get(name, self.whole[name])
        for part in (mine & ~bits, mine & bits):
            left = self.uncovered({**box, name: part}, boxes)
            if left is not None:
                return left
        return None

    def example(self, box):
        """Give one head of a box, in words."""
        return {
            name: next(value for value, bit in self.at[name].items() if bit & bits)
            for name, bits in box.items()
        }


def merged(space, leaves):
    """Join boxes that differ in one axis only; the same heads in fewer boxes."""
    boxes = [dict(box) for box in leaves]
    for name in space.axes:
        joined = {}
        for box in boxes:
            rest = tuple(sorted((other, bits) for other, bits in box.items() if other != name))
            joined[rest] = joined.get(rest, 0) | box.get(name, space.whole[name])
        boxes = [
            {**dict(rest), **({name: bits} if bits != space.whole[name] else {})}
            for rest, bits in joined.items()
        ]
    return boxes


@pytest.fixture(scope="module")
def space(axes):
    return Space(axes)


@pytest.fixture(scope="module")
def second_boxes(space):
    """The second opinion as boxes by what it says."""
    boxes = {one: [] for one in STRICTNESS}
    for worry in WORRIES:
        leaves = probe(worry, space.axes)
        for said in STRICTNESS:
            boxes[said] += merged(space, [space.box(given) for given, saying in leaves if saying == said])
    return boxes


@pytest.fixture(scope="module")
def planner_boxes(space, rulebook):
    """The planner as boxes by what its rows say."""
    table = rulebook.tables["verdict"]
    assert table.hit == "strictest"
    assert table.gives == STRICTNESS
    boxes = {one: [] for one in STRICTNESS}
    for row in table.rows:
        assert row.then_from == "value"
        boxes[row.then] += _row_boxes(space, rulebook, row)
    return boxes


def _row_boxes(space, rulebook, row):
    boxes = [{}]
    for name, condition in row.when.items():
        if name in BY_ROWS:
            table = rulebook.tables[name]
            # The strictest outcome only: then the table says it wherever one of its rows does.
            assert condition.values == (table.gives[-1],)
            assert table.hit == "strictest"
            parts = [
                box
                for one in table.rows
                if one.then == table.gives[-1]
                for box in _row_boxes(space, rulebook, one)
            ]
        elif name in TABULATED:
            parts = [box for value in condition.values for box in _tabulated(space, rulebook, name, value)]
        else:
            parts = [{name: space.taken(name, condition.holds)}]
        met = (space.meet(box, part) for box in boxes for part in parts)
        boxes = [box for box in met if box is not None]
    return boxes


def _tabulated(space, rulebook, name, value):
    """Ask a table for every combination of its inputs, a decision among them for those of its own."""
    return merged(space, [space.box(given) for given, said in _asked(space, rulebook, name) if said == value])


def _asked(space, rulebook, name, *, done={}):  # noqa: B006  each table is asked once
    if name in done:
        return done[name]
    table = rulebook.tables[name]
    inner = next((one for one in table.inputs if one in rulebook.tables), None)
    plain = [one for one in table.inputs if one != inner]
    inners = _asked(space, rulebook, inner) if inner else [({}, None)]
    said_by = {}
    found = []
    for values in itertools.product(*(space.axes[one] for one in plain)):
        given = dict(zip(plain, values, strict=True))
        for below, decided in inners:
            if any(given.get(one, value) != value for one, value in below.items()):
                continue
            key = (values, decided)
            if key not in said_by:
                read = given | ({inner: decided} if inner else {})
                said_by[key] = decide(table, read, parameters=rulebook.values).value
            found.append(({**below, **given}, said_by[key]))
    done[name] = found
    return found


def _at_least(boxes, level):
    return [box for said in STRICTNESS[STRICTNESS.index(level) :] for box in boxes[said]]


def test_combinations_are_counted(axes):
    """Twenty-five axes, of which every head is in one class each; a new one changes the number."""
    assert len(axes) == 25
    assert math.prod(map(len, axes.values())) == 2_548_039_680_000_000


@pytest.mark.parametrize("level", STRICTNESS[1:])
def test_both_opinions_stop_the_same_heads_of_all_combinations(space, second_boxes, planner_boxes, level):
    """At least so strictly, level by level; with all levels alike the verdicts are."""
    second, planner = _at_least(second_boxes, level), _at_least(planner_boxes, level)
    assert second
    for one, other, whose in ((second, planner, "the second opinion"), (planner, second, "the planner")):
        for box in one:
            left = space.uncovered(box, other)
            assert left is None, f"only {whose} says {level} or stricter for {space.example(left)}"


def test_every_head_gets_a_verdict(space, planner_boxes):
    """Where nothing speaks against it the mildest row holds."""
    assert space.uncovered({}, [box for some in planner_boxes.values() for box in some]) is None


HARMLESS = {
    "service": "perm", "scalp": "healthy", "history.reaction": "no", "history.relaxer": "none",
    "history.weeks_since_relaxer": "unknown", "relaxer.left": "none", "history.smoothing": "no",
    "history.metallic_dye": "no", "hair.elasticity": "good", "porosity.weakest": "average",
    "porosity.strongest": "average", "history.lightened": "none", "history.color": "none",
    "history.weeks_since_color": "unknown", "color.left": "none", "perm.left": "none",
    "history.weeks_since_perm": "never", "growth.new": "none", "health.treatment": "none",
    "health.months_since": "unknown", "wish.part": "whole", "history.known": "yes", "appointment": "unknown",
    "hair.pattern": "straight", "wish.against_natural": "tighter",
}  # fmt: skip


def _planned(rulebook, head):
    """Ask the planner's own tables; what is computed from lengths and dates is given."""
    facts = {name: fact for name, fact in FACTS.items() if name not in head}
    return Evaluation(rulebook, facts=facts, inputs=head).read("verdict")


def test_harmless_head_goes(rulebook, axes):
    """Or else nothing below would mean anything."""
    assert set(HARMLESS) == set(axes)
    assert _planned(rulebook, HARMLESS) == second_opinion(HARMLESS) == "go"


def test_both_say_the_same_wherever_two_answers_differ_from_a_harmless_head(rulebook, axes):
    """Asked directly, so that nothing rests on the boxes: every pair of values of every pair of axes."""
    seen = dict.fromkeys(STRICTNESS, 0)
    for one, other in itertools.combinations(axes, 2):
        for values in itertools.product(axes[one], axes[other]):
            head = HARMLESS | dict(zip((one, other), values, strict=True))
            said = second_opinion(head)
            assert _planned(rulebook, head) == said, head
            seen[said] += 1
    assert min(seen.values()) > 50, seen


def _check_triples(rulebook, axes, *, one_in):
    """Ask both where three answers differ from those of a harmless head, or one in so many times."""
    met = 0
    for names in itertools.combinations(axes, 3):
        for values in itertools.product(*(axes[name] for name in names)):
            met += 1
            if met % one_in == 0:
                head = HARMLESS | dict(zip(names, values, strict=True))
                assert _planned(rulebook, head) == second_opinion(head), head
    return met // one_in


def test_both_say_the_same_on_a_fiftieth_of_all_heads_with_three_answers_changed(rulebook, axes):
    """The step is no multiple of any axis, so that every value of each is met."""
    assert _check_triples(rulebook, axes, one_in=47) > 3_500


@pytest.mark.long
def test_both_say_the_same_wherever_three_answers_differ_from_a_harmless_head(rulebook, axes):
    """All of them."""
    assert _check_triples(rulebook, axes, one_in=1) > 170_000


def _differ(space, one, other):
    """Tell whether two opinions differ anywhere at all."""
    return any(
        space.uncovered(box, _at_least(others, level)) is not None
        for level in STRICTNESS[1:]
        for some, others in ((one, other), (other, one))
        for box in _at_least(some, level)
    )


def test_a_missing_or_a_milder_row_is_noticed(space, rulebook, second_boxes):
    """A comparison that cannot fail compares nothing: each row in its turn is taken out.

    A doubt stands in two rows, its own and the one for all that need the test; only the latter is missed.
    """
    table = rulebook.tables["verdict"]
    by_row = {row.id: _row_boxes(space, rulebook, row) for row in table.rows}
    for gone in table.rows:
        boxes = {one: [] for one in STRICTNESS}
        for row in table.rows:
            boxes["go" if row is gone else row.then] += by_row[row.id]
        assert _differ(space, second_boxes, boxes) == (gone.then not in ("go", "test_first")) or (
            gone.id == "a-doubt-is-tested-first"
        ), gone.id
