"""Small random rulebooks, every head that they can meet, and a slow reading of what they mean.

The slow reading shares nothing with the proof: it goes through every head one by one.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any

from hypothesis import strategies as st

from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain, Value
from drill.rulebook.fact import Fact
from drill.rulebook.limit import Limit
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row, Table

BOUNDS = (0.0, 2.0, 5.0)
# Every bound, and for each pair of neighbouring bounds a point between them.
POINTS = (0.0, 1.0, 2.0, 2.5, 3.0, 3.5, 5.0, 6.0)
LETTERS = ("p", "q", "r")
LIST = "list"


@dataclass(frozen=True)
class World:
    """A rulebook with its facts.

    Attributes:
        rulebook: The rulebook.
        facts: Computed facts by name.
    """

    rulebook: Rulebook
    facts: Mapping[str, Fact]

    def heads(self) -> Iterator[dict[str, Value]]:
        """Go through every head that differs in something a condition can tell."""
        names = list(self.rulebook.domains)
        for values in product(*(self._values(name) for name in names)):
            yield dict(zip(names, values, strict=True))

    def _values(self, name: str) -> tuple[Value, ...]:
        domain = self.rulebook.domains[name]
        return (*domain.values, *(POINTS if domain.unit else ()))

    def domain(self, name: str) -> Domain:
        """Give the domain of any name."""
        found = self.facts[name].domain if name in self.facts else self.rulebook.domain(name)
        assert found is not None
        return found


class Slow:
    """What a rulebook means for one head, read row by row.

    Args:
        world: The rulebook.
        head: A value for every entered name.
        forced: Decisions taken as given.
    """

    def __init__(
        self, world: World, head: Mapping[str, Value], forced: Mapping[str, str] | None = None
    ) -> None:
        self.world, self.head, self.forced = world, head, forced or {}

    def value(self, name: str) -> Value | None:
        """Give the value of a name; None where a table on the way says nothing."""
        if name in self.forced:
            return self.forced[name]
        if name in self.head:
            return self.head[name]
        if name in self.world.facts:
            fact = self.world.facts[name]
            # A fact takes an added value for what it counts as.
            needs = [self._counted(need, self.value(need)) for need in fact.needs]
            return None if None in needs else fact.compute(needs, self.world.rulebook.values)
        row = self.row(name)
        return None if row is None else self.outcome(self.world.rulebook.tables[name], row)

    def _counted(self, name: str, value: Value | None) -> Value | None:
        rulebook = self.world.rulebook
        if name in rulebook.domains:
            return rulebook.domains[name].counts_as.get(str(value), value)
        return rulebook.tables[name].counts_as.get(str(value), value) if name in rulebook.tables else value

    def listed(self, name: str) -> list[str]:
        """Give what a list holds."""
        table = self.world.rulebook.tables[name]
        return [str(self.outcome(table, row)) for row in self.holding(table)]

    def holding(self, table: Table) -> list[Row]:
        """Give the rows that hold, in table order."""
        return [row for row in table.rows if self._holds(table, row)]

    def row(self, name: str) -> Row | None:
        """Give the row that decides."""
        table = self.world.rulebook.tables[name]
        held = self.holding(table)
        if table.hit == "strictest" and held:
            return max(held, key=lambda row: table.gives.index(str(self.outcome(table, row))))
        return held[0] if held else None

    def outcome(self, table: Table, row: Row) -> Value | None:
        """Give what a row decides, None where that is no outcome of its table."""
        value: Value | None = row.then
        if row.then_from == "parameter":
            value = self.world.rulebook.parameters[row.then].value
        elif row.then_from == "input":
            value = self._settled(table, row.then)
        return value if value in table.gives else None

    def worlds(self, names: list[str]) -> Iterator["Slow"]:
        """Go through every way of taking an acceptable outcome for the first choice of some decisions."""
        if not names:
            yield self
            return
        row = self.row(names[0])
        if row is None:
            return
        first = str(self.outcome(self.world.rulebook.tables[names[0]], row))
        for value in (first, *row.also):
            yield from Slow(self.world, self.head, {**self.forced, names[0]: value}).worlds(names[1:])

    def breaks(self, limit: Limit) -> bool:
        """Tell whether the head breaks a limit."""
        if self._premise(limit) and any(
            value not in self.listed(name) for name, values in limit.demands.items() for value in values
        ):
            return True
        return any(self._breaks_never(limit, name, values) for name, values in limit.never.items())

    def _breaks_never(self, limit: Limit, name: str, values: tuple[str, ...]) -> bool:
        domain = self.world.domain(name)
        if name == LIST:
            return self._premise(limit) and any(domain.built_in(one) in values for one in self.listed(name))
        needs = self.world.facts[name].needs if name in self.world.facts else (name,)
        decided = sorted(need for need in needs if need in self.world.rulebook.tables)
        return any(
            one._premise(limit) and domain.built_in(str(one.value(name))) in values
            for one in self.worlds(decided)
        )

    def _premise(self, limit: Limit) -> bool:
        for name, condition in limit.when.items():
            value = self.value(name)
            assert value is not None
            counted = self.world.domain(name).built_in(value) if isinstance(value, str) else value
            if not condition.holds(value) and not condition.holds(counted):
                return False
        return True

    def _settled(self, table: Table, name: str) -> Value | None:
        value, taken_for = self.value(name), table.unknowns.get(name, "any")
        return taken_for if value == "unknown" and taken_for != "any" else value

    def _holds(self, table: Table, row: Row) -> bool:
        for name in table.inputs:
            value = self._settled(table, name)
            if value is None:
                return False
            if name in row.when:
                if not row.when[name].holds(value):
                    return False
            elif value == "unknown" and name not in table.unknowns:
                return False
        return self.outcome(table, row) is not None


@st.composite
def ranges(draw: st.DrawFn) -> Range:
    """Draw a range between bounds, open or closed on either side, or a single point."""
    low, high = sorted((draw(st.sampled_from(BOUNDS)), draw(st.sampled_from(BOUNDS))))
    shape = draw(st.sampled_from(["between", "below", "above"]))
    with_low, with_high = draw(st.booleans()), draw(st.booleans())
    if shape == "below":
        return Range(high=high, with_high=with_high)
    if shape == "above":
        return Range(low=low, with_low=with_low)
    return Range(low, high)


@st.composite
def conditions(draw: st.DrawFn, domain: Domain) -> Condition:
    """Draw a condition on a domain."""
    cuts = draw(st.lists(ranges(), max_size=2)) if domain.unit else []
    fewest = 0 if cuts else 1
    named = [value for value in domain.values if value not in domain.counts_as or draw(st.booleans())]
    values = draw(st.lists(st.sampled_from(named), min_size=fewest, max_size=3, unique=True))
    return Condition(tuple(values), tuple(cuts))


@st.composite
def worlds(draw: st.DrawFn) -> World:
    """Draw a small rulebook: three entered names, two facts, two decisions in a chain, a list, limits."""
    domains = {
        "a": Domain(name="a", values=("p", "q", "unknown"), entered=True),
        "b": Domain(name="b", values=("p", "q"), entered=True),
        "n": Domain(name="n", values=("never", "unknown"), unit="weeks", entered=True),
    }
    if draw(st.booleans()):
        widened = Domain(name="a", values=("p", "q", "unknown", "w"), entered=True, counts_as={"w": "p"})
        domains["a"] = widened
    parameters = {
        "usual": Parameter(
            name="usual",
            value=draw(st.sampled_from(("p", "q", "z"))),
            choices=("p", "q", "z"),
            because="",
            source="memory",
        )
    }
    counts = draw(st.sampled_from([{}, {"w": "q"}]))
    known = dict(domains)
    facts = {"f": draw(_facts("f", ("a", "b"), known))}
    known["f"] = facts["f"].domain
    tables = {"d": draw(_tables("d", known, counts_as=counts))}
    known["d"] = Domain(name="d", values=tables["d"].gives, counts_as=counts)
    facts["g"] = draw(_facts("g", ("d", "b"), known))
    known["g"] = facts["g"].domain
    tables["e"] = draw(_tables("e", known))
    known["e"] = Domain(name="e", values=tables["e"].gives)
    tables[LIST] = draw(_tables(LIST, known, hit="collect"))
    limits = draw(st.lists(_limits(known, {**known, LIST: Domain(name=LIST, values=LETTERS)}), max_size=3))
    rulebook = Rulebook(
        domains=domains,
        tables=tables,
        parameters=parameters,
        limits=tuple(limits),
        sources={},
    )
    return World(rulebook, facts)


@st.composite
def _facts(draw: st.DrawFn, name: str, needs: tuple[str, str], known: Mapping[str, Domain]) -> Fact:
    pairs = list(product(*(known[need].values for need in needs)))
    given = {pair: draw(st.sampled_from(("p", "q"))) for pair in pairs}

    def compute(values: Any, _parameters: Any) -> str:
        return given[tuple(values)]

    return Fact(domain=Domain(name=name, values=("p", "q")), needs=needs, compute=compute)


@st.composite
def _tables(
    draw: st.DrawFn,
    decision: str,
    known: Mapping[str, Domain],
    *,
    hit: str = "",
    counts_as: Mapping[str, str] | None = None,
) -> Table:
    hit = hit or draw(st.sampled_from(["first", "unique", "strictest"]))
    gives = (*LETTERS[:2], *(counts_as or ()), *LETTERS[2:])
    inputs = draw(st.lists(st.sampled_from(list(known)), min_size=1, max_size=3, unique=True))
    rows = draw(
        st.lists(rows_of(gives, {name: known[name] for name in inputs}, hit=hit), min_size=1, max_size=4)
    )
    # A row for everything else leaves more than a few rulebooks complete.
    if draw(st.booleans()) or hit == "collect":
        rows.append(Row(id="rest", when={}, then=draw(st.sampled_from(gives)), because="", source="memory"))
    unknowns = {}
    for name in inputs:
        choices = ["named", "any", *(value for value in known[name].values if value != "unknown")]
        chosen = draw(st.sampled_from(choices)) if "unknown" in known[name].values else "named"
        if chosen != "named":
            unknowns[name] = chosen
    return Table(
        decision=decision,
        question="",
        per="head",
        gives=gives,
        hit=hit,  # type: ignore[arg-type]
        unknowns=unknowns,
        rows=tuple(_renamed(row, f"row-{at}") for at, row in enumerate(rows)),
        counts_as=counts_as or {},
    )


@st.composite
def rows_of(draw: st.DrawFn, gives: tuple[str, ...], known: Mapping[str, Domain], *, hit: str) -> Row:
    """Draw a row of a table."""
    when = {}
    for name in known:
        if draw(st.booleans()):
            when[name] = draw(conditions(known[name]))
    then, then_from = draw(st.sampled_from(gives)), "value"
    kind = draw(st.integers(0, 9))
    if kind == 0:
        then, then_from = "usual", "parameter"
    elif kind == 1:
        then, then_from = draw(st.sampled_from(list(known))), "input"
    also = () if hit == "collect" else tuple(draw(st.lists(st.sampled_from(gives), max_size=1)))
    return Row(id="", when=when, then=then, then_from=then_from, also=also, because="", source="memory")  # type: ignore[arg-type]


@st.composite
def _limits(draw: st.DrawFn, known: Mapping[str, Domain], outcomes: Mapping[str, Domain]) -> Limit:
    names = draw(st.lists(st.sampled_from(list(known)), max_size=2, unique=True))
    when = {name: draw(conditions(known[name])) for name in names}
    if draw(st.integers(0, 3)) == 0:
        values = draw(st.lists(st.sampled_from(LETTERS), min_size=1, max_size=2, unique=True))
        return _limit(when, demands={LIST: tuple(values)})
    name = draw(st.sampled_from(list(outcomes)))
    built_in = [value for value in outcomes[name].values if value not in outcomes[name].counts_as]
    values = draw(st.lists(st.sampled_from(built_in), min_size=1, max_size=2, unique=True))
    return _limit(when, never={name: tuple(values)})


def _limit(when: Mapping[str, Condition], **outcomes: Any) -> Limit:
    return Limit(id=f"limit-{sorted(when)}", when=when, because="because", source="memory", **outcomes)


def _renamed(row: Row, row_id: str) -> Row:
    return Row(
        id=row_id,
        when=row.when,
        then=row.then,
        then_from=row.then_from,
        also=row.also,
        because="",
        source="memory",
    )
