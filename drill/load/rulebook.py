"""The built-in rulebook: the YAML files beside the trade's code, to one checked value."""

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import cast, get_args

from drill.basis.problem import Place, Problem, mend_name
from drill.basis.quantity import quantity_from_text
from drill.load.reading import Fields, Node, read_file
from drill.load.rows import boolean_word, read_condition, read_row, read_source
from drill.rulebook.domain import Domain, Per, Unit, Value
from drill.rulebook.fact import Fact
from drill.rulebook.limit import Limit
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import ANY, Hit, Row, Standing, Table
from drill.service.facts import FACTS

RULES = Path(__file__).parent.parent / "service" / "rules"


class Names:
    """Finds the domain of any name that a row may read.

    Args:
        domains: What a consultation states or the planner supplies.
        tables: The decisions.
        facts: Computed facts.
    """

    def __init__(
        self, domains: Mapping[str, Domain], tables: Mapping[str, Domain], facts: Mapping[str, Fact]
    ) -> None:
        self._found = {**domains, **tables, **{name: fact.domain for name, fact in facts.items()}}

    @property
    def names(self) -> tuple[str, ...]:
        """Every name, for mends."""
        return tuple(self._found)

    def __call__(self, name: str) -> Domain | None:
        """Give the domain of a name, or None."""
        return self._found.get(name)


def names_of(rulebook: Rulebook, *, facts: Mapping[str, Fact] = FACTS) -> Names:
    """Give every name that a row of a rulebook, or of an overlay on it, may read."""
    decided = {name: rulebook.domain(name) for name in rulebook.tables}
    return Names(rulebook.domains, {name: one for name, one in decided.items() if one}, facts)


def load_rulebook(
    folder: Path = RULES, *, facts: Mapping[str, Fact] = FACTS, shown: Callable[[Path], str] = str
) -> tuple[Rulebook, list[Problem]]:
    """Read a rulebook from its folder.

    Args:
        folder: Holds ``vocabulary.yaml``, ``sources.yaml``, ``limits.yaml``, ``parameters/`` and ``tables/``.
        facts: Computed facts that rows may read.
        shown: How a file's path is shown in problems.

    Returns:
        The rulebook, and every fault found with its place; with faults the rulebook is not whole.
    """
    problems: list[Problem] = []

    def documents(path: Path) -> list[Node]:
        nodes, faults = read_file(path, shown=shown(path))
        problems.extend(faults)
        return nodes

    sources = _read_sources(documents(folder / "sources.yaml"), problems)
    domains = _read_vocabulary(documents(folder / "vocabulary.yaml"), problems)
    parameters: dict[str, Parameter] = {}
    for path in sorted((folder / "parameters").glob("*.yaml")):
        for node in documents(path):
            parameters |= read_parameters(node, prefix=path.stem, sources=sources, problems=problems)
    nodes = [node for path in sorted((folder / "tables").glob("*.yaml")) for node in documents(path)]
    heads = [head for node in nodes if (head := _TableHead.read(node, problems))]
    names = Names(domains, {head.decision: head.domain for head in heads}, facts)
    tables = {
        head.decision: head.table(names, sources=sources, parameters=parameters, problems=problems)
        for head in heads
    }
    limits = _read_limits(documents(folder / "limits.yaml"), names, sources, problems)
    return (
        Rulebook(domains=domains, tables=tables, parameters=parameters, limits=limits, sources=sources),
        sorted(set(problems)),
    )


def read_parameters(
    node: Node, *, prefix: str, sources: Mapping[str, str], problems: list[Problem]
) -> dict[str, Parameter]:
    """Read the parameters of one file; a parameter's name is the file's name, a dot and its key."""
    fields = Fields(node, problems, what="the file")
    found = {}
    for key, one, _ in fields.pairs("parameters", required=True):
        entry = Fields(one, problems, what="a parameter")
        choices, span = entry.texts("choices"), entry.texts("range")
        unit = entry.text("unit")
        value = parameter_value(entry, unit=unit, choices=choices)
        bounds = [quantity_from_text(text, unit or "ratio", bare=True) for text in span] or [None, None]
        found[f"{prefix}.{key}"] = Parameter(
            name=f"{prefix}.{key}",
            value=value,
            unit=unit,
            choices=choices,
            low=bounds[0],
            high=bounds[-1],
            because=entry.text("because", required=True),
            source=read_source(entry, sources),
            standing=cast(Standing, entry.text("standing", choices=get_args(Standing)) or "settled"),
            place=one.place,
        )
        entry.done()
    fields.done()
    return found


def parameter_value(entry: Fields, *, unit: str, choices: tuple[str, ...]) -> Value:
    """Read the ``value`` of a parameter: one of its choices, or a number in its unit."""
    text = entry.text("value", required=True)
    node = entry.take("value")
    if node is None or not text:
        return ""
    if choices:
        if text not in choices:
            entry.fault(node, f"'value' cannot be '{text}'", mend_name(text, choices))
        return text
    number = quantity_from_text(text, unit or "ratio", bare=True)
    if number is None:  # a parameter's number may stand bare, since the parameter states its unit
        number = quantity_from_text(f"{text} {unit}", unit) if unit else None
    if number is None:
        entry.fault(
            node, f"'value' is no number of {unit or 'plain count'}: '{text}'", f"write a number in {unit}"
        )
        return ""
    return number


def _read_sources(nodes: Iterable[Node], problems: list[Problem]) -> dict[str, str]:
    found = {}
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for key, one, place in fields.pairs("sources", required=True):
            if isinstance(one.value, str):
                found[key] = one.value
            else:
                problems.append(Problem(place, f"the source {key} is not one line of text", "write one line"))
        fields.done()
    return found


def _read_vocabulary(nodes: Iterable[Node], problems: list[Problem]) -> dict[str, Domain]:
    found = {}
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for one in fields.items("names", required=True):
            entry = Fields(one, problems, what="a name")
            name = entry.text("name", required=True)
            found[name] = Domain(
                name=name,
                values=entry.texts("values"),
                unit=cast(Unit, entry.text("unit", choices=get_args(Unit))),
                per=cast(Per, entry.text("per", choices=get_args(Per)) or "head"),
                safety=_flag(entry, "safety"),
                entered=_flag(entry, "entered"),
                ask=entry.text("ask"),
                because=entry.text("because"),
                place=one.place,
            )
            entry.done()
        fields.done()
    return found


def _flag(entry: Fields, key: str) -> bool:
    text = entry.text(key)
    return bool(text) and boolean_word(text, ("yes", "no")) == "yes"


class _TableHead:
    """A table before its rows: rows may read decisions of tables further down."""

    def __init__(self, node: Node, fields: Fields, domain: Domain) -> None:
        self.node, self.fields, self.domain = node, fields, domain
        self.decision = domain.name

    @classmethod
    def read(cls, node: Node, problems: list[Problem]) -> "_TableHead | None":
        fields = Fields(node, problems, what="a table")
        decision = fields.text("decision", required=True)
        gives = tuple(boolean_word(text, ("yes", "no")) for text in fields.texts("gives", required=True))
        per = cast(Per, fields.text("per", required=True, choices=get_args(Per)) or "head")
        if not decision:
            return None
        return cls(node, fields, Domain(name=decision, values=gives, per=per, place=node.place))

    def table(
        self,
        names: Names,
        *,
        sources: Mapping[str, str],
        parameters: Mapping[str, Parameter],
        problems: list[Problem],
    ) -> Table:
        fields, rows, ids = self.fields, [], dict[str, Place]()
        for node in fields.items("rows", required=True):
            row = read_row(
                node,
                find=names,
                gives=self.domain.values,
                per=self.domain.per,
                sources=sources,
                parameters=parameters,
                problems=problems,
            )
            if row is not None:
                rows.append(row)
                _refuse_twin(row, ids, problems)
        table = Table(
            decision=self.decision,
            question=fields.text("question", required=True),
            per=self.domain.per,
            gives=self.domain.values,
            hit=cast(Hit, fields.text("hit", required=True, choices=get_args(Hit)) or "first"),
            unknowns=self._unknowns(names, rows),
            rows=tuple(rows),
            place=self.node.place,
        )
        fields.done()
        return table

    def _unknowns(self, names: Names, rows: list[Row]) -> dict[str, str]:
        node = self.fields.take("unknowns")
        if node is None:
            return {}
        if node.value == ANY:
            return {name: ANY for row in rows for name in row.when}
        found = {}
        for name, one, place in self.fields.pairs("unknowns"):
            domain = names(name)
            if domain is None:
                self.fields.problems.append(
                    Problem(place, f"there is no input '{name}'", mend_name(name, names.names))
                )
            elif not isinstance(one.value, str) or one.value not in (ANY, *domain.values):
                self.fields.fault(
                    one, f"an unknown {name} cannot be taken for that", f"use {ANY} or a value of it"
                )
            else:
                found[name] = one.value
        return found


def _refuse_twin(row: Row, ids: dict[str, Place], problems: list[Problem]) -> None:
    if row.id in ids:
        problems.append(
            Problem(
                row.place, f"the row id {row.id} stands twice, first in line {ids[row.id].line}", "rename one"
            )
        )
    ids.setdefault(row.id, row.place)


def _read_limits(
    nodes: Iterable[Node], names: Names, sources: Mapping[str, str], problems: list[Problem]
) -> tuple[Limit, ...]:
    found = []
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for one in fields.items("limits", required=True):
            entry = Fields(one, problems, what="a limit")
            when = {}
            for name, condition_node, place in entry.pairs("when"):
                domain = names(name)
                if domain is None:
                    problems.append(
                        Problem(place, f"there is no input '{name}'", mend_name(name, names.names))
                    )
                    continue
                condition = read_condition(condition_node, domain, problems)
                if condition is not None:
                    when[name] = condition
            found.append(
                Limit(
                    id=entry.text("id", required=True),
                    when=when,
                    never=_outcomes(entry, "never", names),
                    demands=_outcomes(entry, "demands", names),
                    because=entry.text("because", required=True),
                    source=read_source(entry, sources),
                    place=one.place,
                )
            )
            entry.done()
        fields.done()
    return tuple(found)


def _outcomes(entry: Fields, key: str, names: Names) -> dict[str, tuple[str, ...]]:
    found = {}
    for name, node, place in entry.pairs(key):
        domain = names(name)
        if domain is None:
            entry.problems.append(
                Problem(place, f"there is no decision '{name}'", mend_name(name, names.names))
            )
            continue
        condition = read_condition(node, domain, entry.problems)
        found[name] = condition.values if condition else ()
    return found
