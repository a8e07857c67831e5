"""The built-in rulebook: the YAML files beside the trade's code, to one checked value."""

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import cast, get_args

from drill.basis.problem import Place, Problem, mend_name
from drill.basis.quantity import quantity_from_text
from drill.load.limits import read_limits
from drill.load.names import Names
from drill.load.reading import Fields, Node, read_file
from drill.load.rows import boolean_word, read_flag, read_row, read_source
from drill.rulebook.domain import Domain, Per, Unit, Value
from drill.rulebook.fact import Fact
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import ANY, Hit, Row, Standing, Table
from drill.service.facts import FACTS

RULES = Path(__file__).parent.parent / "service" / "rules"


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

    files = {name: documents(folder / f"{name}.yaml") for name in ("sources", "vocabulary", "limits")}
    prefixed = [(p.stem, one) for p in sorted((folder / "parameters").glob("*.yaml")) for one in documents(p)]
    nodes = [node for path in sorted((folder / "tables").glob("*.yaml")) for node in documents(path)]
    if problems:  # what is missing would be missed everywhere
        return Rulebook(domains={}, tables={}, parameters={}, sources={}), sorted(set(problems))
    sources = _read_sources(files["sources"], problems)
    domains = _read_vocabulary(files["vocabulary"], problems)
    parameters: dict[str, Parameter] = {}
    for prefix, node in prefixed:
        parameters |= read_parameters(node, prefix=prefix, sources=sources, problems=problems)
    heads = [head for node in nodes if (head := _TableHead.read(node, problems))]
    _refuse_twins(heads, problems)
    lists = [head.decision for head in heads if head.hit == "collect"]
    names = Names(domains, {head.decision: head.domain for head in heads}, facts, lists=lists)
    tables = {
        head.decision: head.table(names, sources=sources, parameters=parameters, problems=problems)
        for head in heads
    }
    limits = read_limits(files["limits"], names, sources, problems)
    where = Place(shown(folder / "vocabulary.yaml"))
    for fact in facts.values():
        missing = [need for need in fact.needs if names(need) is None]
        what = f"there is no '{', '.join(missing)}', which {fact.domain.name} is computed from"
        problems += [Problem(where, what, "add it to the names")] if missing else []
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
        bounds = _bounds(entry, span, unit=unit)
        found[f"{prefix}.{key}"] = Parameter(
            name=f"{prefix}.{key}",
            value=value,
            unit=unit,
            choices=choices,
            low=bounds[0],
            high=bounds[1],
            because=entry.text("because", required=True),
            source=read_source(entry, sources),
            standing=cast(Standing, entry.text("standing", choices=get_args(Standing)) or "settled"),
            place=one.place,
        )
        entry.done()
    fields.done()
    return found


def _bounds(entry: Fields, span: tuple[str, ...], *, unit: str) -> tuple[float | None, float | None]:
    node = entry.take("range")
    if node is None:
        return None, None
    bounds = [quantity_from_text(text, unit or "ratio", bare=True) for text in span]
    low, high = bounds if len(bounds) == 2 else (None, None)  # noqa: PLR2004  from and to
    if low is None or high is None or low > high:
        entry.fault(
            node, "'range' is no span", f"write [smallest, largest]{f', each in {unit}' if unit else ''}"
        )
        return None, None
    return low, high


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
            node,
            f"'value' is no number{f' in {unit}' if unit else ''}: '{text}'",
            f"write a number{f' in {unit}' if unit else ''}",
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
    found: dict[str, Domain] = {}
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for one in fields.items("names", required=True):
            entry = Fields(one, problems, what="a name")
            name = entry.text("name", required=True)
            if name in found:
                what = f"the name {name} stands twice, first at {found[name].place}"
                problems.append(Problem(one.place, what, "keep one of the two"))
            domain = Domain(
                name=name,
                values=entry.texts("values"),
                unit=cast(Unit, entry.text("unit", choices=get_args(Unit))),
                per=cast(Per, entry.text("per", choices=get_args(Per)) or "head"),
                safety=read_flag(entry, "safety"),
                entered=read_flag(entry, "entered"),
                ask=entry.text("ask"),
                because=entry.text("because"),
                place=one.place,
            )
            found.setdefault(name, domain)
            entry.done()
        fields.done()
    return found


class _TableHead:
    """A table before its rows: rows may read decisions of tables further down."""

    def __init__(self, node: Node, fields: Fields, domain: Domain, hit: Hit) -> None:
        self.node, self.fields, self.domain, self.hit = node, fields, domain, hit
        self.decision = domain.name

    @classmethod
    def read(cls, node: Node, problems: list[Problem]) -> "_TableHead | None":
        fields = Fields(node, problems, what="a table")
        decision = fields.text("decision", required=True)
        gives = tuple(boolean_word(text, ("yes", "no")) for text in fields.texts("gives", required=True))
        per = cast(Per, fields.text("per", required=True, choices=get_args(Per)) or "head")
        hit = cast(Hit, fields.text("hit", required=True, choices=get_args(Hit)) or "first")
        if not decision:
            return None
        return cls(node, fields, Domain(name=decision, values=gives, per=per, place=node.place), hit)

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
            hit=self.hit,
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
                    one,
                    f"an unknown {name} cannot be taken for what stands here",
                    f"use one of: {', '.join((ANY, *domain.values))}",
                )
            else:
                found[name] = one.value
        return found


def _refuse_twins(heads: Iterable[_TableHead], problems: list[Problem]) -> None:
    first: dict[str, Place] = {}
    for head in heads:
        if head.decision in first:
            what = f"the table {head.decision} stands twice, first at {first[head.decision]}"
            problems.append(Problem(head.node.place, what, "keep one of the two"))
        first.setdefault(head.decision, head.node.place)


def _refuse_twin(row: Row, ids: dict[str, Place], problems: list[Problem]) -> None:
    if row.id in ids:
        problems.append(
            Problem(
                row.place, f"the row id {row.id} stands twice, first in line {ids[row.id].line}", "rename one"
            )
        )
    ids.setdefault(row.id, row.place)
