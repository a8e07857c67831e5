"""What is seen after a perm, as written, to checked values."""

from collections.abc import Iterator
from pathlib import Path

from drill.basis.problem import Place, Problem, mend_name
from drill.load.reading import Fields, Node, read_file
from drill.load.rows import read_source
from drill.load.rulebook import RULES
from drill.rulebook.rulebook import Rulebook
from drill.service.faults import Fault, KnownCause


def load_faults(
    rulebook: Rulebook, *, path: Path = RULES / "faults.yaml"
) -> tuple[tuple[Fault, ...], list[Problem]]:
    """Read the faults and their causes.

    Args:
        rulebook: Knows the decisions and the sources.
        path: The file, with a list ``faults``.

    Returns:
        The faults in the file's order, and what is wrong with the file; with problems it is not to be used.
    """
    nodes, problems = read_file(path)
    found: dict[str, Fault] = {}
    for node in nodes:
        fields = Fields(node, problems, what="the file")
        for one in fields.items("faults", required=True):
            fault = _read_fault(one, rulebook, problems)
            if fault.id in found:
                problems.append(_twin(one.place, fault.id, found[fault.id].place))
            found.setdefault(fault.id, fault)
        fields.done()
    return tuple(found.values()), sorted(set(problems))


def _read_fault(node: Node, rulebook: Rulebook, problems: list[Problem]) -> Fault:
    fields = Fields(node, problems, what="a fault")
    fault = Fault(
        id=fields.text("id", required=True),
        seen=fields.text("seen", required=True),
        carried_by=fields.texts("carried_by"),
        causes=tuple(_read_causes(fields, rulebook, problems)),
        place=node.place,
    )
    carried = fields.take("carried_by")
    for name in fault.carried_by:
        if name not in rulebook.tables and carried is not None:
            fields.fault(carried, f"there is no decision '{name}'", mend_name(name, tuple(rulebook.tables)))
    fields.done()
    return fault


def _read_causes(fields: Fields, rulebook: Rulebook, problems: list[Problem]) -> Iterator[KnownCause]:
    seen: dict[str, Place] = {}
    for node in fields.items("causes", required=True):
        entry = Fields(node, problems, what="a cause")
        known = KnownCause(
            id=entry.text("id", required=True),
            cause=entry.text("cause", required=True),
            mend=entry.text("mend", required=True),
            source=read_source(entry, rulebook.sources),
            place=node.place,
        )
        entry.done()
        if known.id in seen:
            problems.append(_twin(node.place, known.id, seen[known.id]))
        seen.setdefault(known.id, node.place)
        yield known


def _twin(place: Place, name: str, first: Place) -> Problem:
    return Problem(place, f"{name} stands twice, first at {first}", "rename one")
