"""Limits as written, to typed values."""

from collections.abc import Iterable, Mapping

from drill.basis.problem import Place, Problem, mend_name
from drill.load.names import Names
from drill.load.reading import Fields, Node
from drill.load.rows import read_condition, read_source
from drill.rulebook.limit import Limit


def read_limits(
    nodes: Iterable[Node], names: Names, sources: Mapping[str, str], problems: list[Problem]
) -> tuple[Limit, ...]:
    """Read the limits of some documents.

    Args:
        nodes: The documents, each with a list ``limits``.
        names: What a premise may read and an outcome may be of.
        sources: Known sources by key.
        problems: Where faults are gathered.

    Returns:
        The limits in their order.
    """
    found: dict[str, Limit] = {}
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for one in fields.items("limits", required=True):
            limit = _read_limit(one, names, sources, problems)
            if limit.id in found:
                what = f"the limit {limit.id} stands twice, first at {found[limit.id].place}"
                problems.append(Problem(limit.place, what, "rename one"))
            found[limit.id] = limit
        fields.done()
    return tuple(found.values())


def _read_limit(node: Node, names: Names, sources: Mapping[str, str], problems: list[Problem]) -> Limit:
    entry, when = Fields(node, problems, what="a limit"), {}
    for name, condition_node, place in entry.pairs("when"):
        domain = names(name)
        if domain is None or name in names.lists:
            problems.append(_no_input(name, place, names))
            continue
        condition = read_condition(condition_node, domain, problems)
        if condition is not None:
            when[name] = condition
    limit = Limit(
        id=entry.text("id", required=True),
        when=when,
        never=_outcomes(entry, "never", names),
        demands=_outcomes(entry, "demands", names),
        because=entry.text("because", required=True),
        source=read_source(entry, sources),
        place=node.place,
    )
    if entry.take("never") is None and entry.take("demands") is None:
        entry.fault(node, "the limit forbids nothing and demands nothing", "add 'never:' or 'demands:'")
    entry.done()
    return limit


def _outcomes(entry: Fields, key: str, names: Names) -> dict[str, tuple[str, ...]]:
    found = {}
    for name, node, place in entry.pairs(key):
        domain = names(name)
        if domain is None:
            entry.problems.append(
                Problem(place, f"there is no decision '{name}'", mend_name(name, names.names))
            )
            continue
        if key == "demands" and name not in names.lists:
            entry.problems.append(
                Problem(place, f"{name} is not a list, so nothing can be demanded of it", "forbid the others")
            )
            continue
        condition = read_condition(node, domain, entry.problems)
        found[name] = condition.values if condition else ()
    return found


def _no_input(name: str, place: Place, names: Names) -> Problem:
    if name in names.lists:
        return Problem(place, f"{name} is a list, which cannot be read", "read what its rows read")
    return Problem(place, f"there is no input '{name}'", mend_name(name, names.names))
