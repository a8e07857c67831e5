"""Local rules and misconceptions as written, to overlays on a rulebook."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import cast, get_args

from drill.basis.problem import Problem, mend_name
from drill.load.names import names_of
from drill.load.reading import Fields, Node
from drill.load.rows import read_flag, read_row, read_source
from drill.load.rulebook import parameter_value
from drill.rulebook.fact import Fact
from drill.rulebook.overlay import Change, ChangeError, Kind, Op, Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS
from drill.store.pack_check import MOST_ROWS, MOST_VALUES

# A value that no formula knows would have no figure.
COMPUTED_WITH = (
    "hair.strand",
    "hair.density",
    "hair.porosity",
    "wish.curl",
    "wish.wear",
    "zone",
    "tool.shape",
    "waving_lotion.strength",
)
# A check looks at every change by itself, and a pack takes no longer table and no wider vocabulary.
MOST_CHANGES = 100
_YES_NO = frozenset({"yes", "no"})


def read_overlay(
    node: Node,
    rulebook: Rulebook,
    problems: list[Problem],
    *,
    kind: Kind,
    facts: Mapping[str, Fact] = FACTS,
) -> Overlay | None:
    """Read one overlay against the rulebook that it changes.

    Args:
        node: As written.
        rulebook: The rules it is written for; a local rule may rest on the local rules before it.
        problems: Where faults are gathered.
        kind: What it must be.
        facts: Computed facts that its rows may read.

    Returns:
        The overlay, or None where it has a fault.
    """
    before = len(problems)
    fields = Fields(node, problems, what="an overlay" if kind == "local_rule" else "a misconception")
    overlay_id = fields.text("overlay", required=True)
    stated = fields.text("kind", choices=get_args(Kind)) or kind
    kind_node = fields.take("kind")
    if stated != kind and kind_node is not None:
        fields.fault(
            kind_node, f"this is a {stated}, and a {kind} is wanted here", "move it to the other folder"
        )
    # A local rule is an instructor's own: any text names its source, such as a page of a board's outline.
    sources = rulebook.sources if kind == "misconception" else {}
    overlay = Overlay(
        id=overlay_id,
        kind=kind,
        because=fields.text("because", required=True),
        source=read_source(fields, sources),
        since=_day(fields, "from"),
        until=_day(fields, "until"),
        belief=fields.text("belief", required=kind == "misconception"),
        seen=fields.text("seen", required=kind == "misconception"),
        mend=fields.text("mend", required=kind == "misconception"),
        harm=read_flag(fields, "harm"),
        changes=_read_changes(fields, rulebook, overlay_id, facts, sources),
        place=node.place,
    )
    fields.done()
    until_node = fields.take("until")
    if until_node is not None and overlay.until and overlay.until <= overlay.since:
        what = f"'until' is {overlay.until}, not after 'from', {overlay.since}"
        fields.fault(until_node, what, "let it end after it begins, or leave 'until' out")
    if kind == "local_rule" and not overlay.changes and len(problems) == before:
        fields.fault(node, "this local rule changes nothing", "list its changes under 'changes:'")
    return overlay if len(problems) == before else None


def period_of(node: Node) -> Overlay:
    """Read only the days of an overlay as written; a day that is none counts as not stated.

    Args:
        node: As written.

    Returns:
        An overlay without changes, in force when the written one is.
    """
    fields = Fields(node, [], what="an overlay")
    since, until = _day(fields, "from"), _day(fields, "until")
    return Overlay(id="", kind="local_rule", because="", source="", since=since, until=until)


def _read_changes(
    fields: Fields,
    rulebook: Rulebook,
    overlay_id: str,
    facts: Mapping[str, Fact],
    sources: Mapping[str, str],
) -> tuple[Change, ...]:
    """Read changes one after the other, each against the rulebook as the ones before it left it."""
    changes = []
    nodes = fields.items("changes")
    if len(nodes) > MOST_CHANGES:
        what = f"a local rule has {len(nodes)} changes, more than {MOST_CHANGES}"
        fields.fault(nodes[MOST_CHANGES], what, "leave out what changes no answer, and let a row name more")
    for node in nodes[:MOST_CHANGES]:
        before = len(fields.problems)
        change = _read_change(node, rulebook, facts, sources, fields.problems)
        if change is None or len(fields.problems) > before:
            continue
        try:
            rulebook = apply(
                rulebook, Overlay(id=overlay_id, kind="local_rule", because="", source="", changes=(change,))
            )
        except ChangeError as error:
            fields.problems.append(error.problem)
            continue
        fields.problems += _grown_too_long(change, rulebook)
        changes.append(change)
    return tuple(changes)


def _grown_too_long(change: Change, rulebook: Rulebook) -> Iterator[Problem]:
    table, domain = rulebook.tables.get(change.target), rulebook.domain(change.target)
    if change.op == "add" and table is not None and len(table.rows) == MOST_ROWS + 1:
        what = f"with this row, {table.decision} has more than {MOST_ROWS} rows"
        yield Problem(change.place, what, "let one row name what several rows decide alike")
    if change.op == "widen" and domain is not None and len(domain.values) == MOST_VALUES + 1:
        what = f"with this value, {change.target} has more than {MOST_VALUES} values"
        yield Problem(change.place, what, "leave out values that no row tells apart")


def _read_change(
    node: Node,
    rulebook: Rulebook,
    facts: Mapping[str, Fact],
    sources: Mapping[str, str],
    problems: list[Problem],
) -> Change | None:
    fields = Fields(node, problems, what="a change")
    op = cast(Op, fields.text("op", required=True, choices=get_args(Op)))
    if not op:
        return None
    if op == "set":
        change = _read_set(fields, rulebook)
    elif op == "widen":
        change = _read_widen(fields, rulebook)
    else:
        change = _read_row_change(fields, op, rulebook, facts, sources)
    fields.done()
    return change


def _read_widen(fields: Fields, rulebook: Rulebook) -> Change:
    name = fields.text("vocabulary", required=True)
    table = rulebook.tables.get(name)
    if table is not None and {*table.gives} <= _YES_NO:
        fields.fault(
            fields.node,
            f"{name} is answered by yes or no, and has no third answer",
            "write rows for the values that it has",
        )
    if name in COMPUTED_WITH:
        fields.fault(
            fields.node,
            f"{name} cannot gain a value: what comes out in figures is computed from its values",
            "write rows for the values that it has",
        )
    return Change(
        op="widen",
        target=name,
        value=fields.text("value", required=True),
        counts_as=fields.text("counts_as", required=True),
        words=fields.text("words"),
        place=fields.node.place,
    )


def _read_set(fields: Fields, rulebook: Rulebook) -> Change | None:
    name = fields.text("parameter", required=True)
    parameter = rulebook.parameters.get(name)
    if parameter is None:
        fields.take("value", required=True)
        if name:
            fields.fault(
                fields.node,
                f"the rulebook has no parameter '{name}'",
                mend_name(name, tuple(rulebook.parameters)),
            )
        return None
    value = parameter_value(fields, unit=parameter.unit, choices=parameter.choices)
    return Change(op="set", target=name, value=value, place=fields.node.place)


def _read_row_change(
    fields: Fields, op: Op, rulebook: Rulebook, facts: Mapping[str, Fact], sources: Mapping[str, str]
) -> Change | None:
    name = fields.text("table", required=True)
    table = rulebook.tables.get(name)
    if op == "remove":
        return Change(op=op, target=name, at=fields.text("row", required=True), place=fields.node.place)
    at = fields.text("before") if op == "add" else ""
    node = fields.take("row", required=True)
    if table is None or node is None:
        if name and table is None:
            fields.fault(
                fields.node, f"the rulebook has no table '{name}'", mend_name(name, tuple(rulebook.tables))
            )
        return None
    row = read_row(
        node,
        find=names_of(rulebook, facts=facts),
        gives=table.gives,
        per=table.per,
        sources=sources,
        parameters=rulebook.parameters,
        problems=fields.problems,
    )
    return Change(op=op, target=name, row=row, at=at, place=fields.node.place)


def _day(fields: Fields, key: str) -> str:
    text, node = fields.text(key), fields.take(key)
    if node is None or not text:
        return ""
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        fields.fault(node, f"'{key}' is not a day: '{text}'", "write it as 2026-01-31")
        return ""
