"""The keys of items about what is at fault: in a plan that is shown, or in hair that is seen afterwards."""

from dataclasses import replace

from drill.bank.item import Item
from drill.basis.problem import mend_name
from drill.load.deck_parts import Known, read_vary, read_wrong, read_zones
from drill.load.reading import Fields, texts_of
from drill.service.faults import READ_AS, Fault
from drill.service.head import TOOL_DIAMETER

FEWEST_PARTS, MOST_PARTS = 3, 4


def read_find_fault(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item that shows a plan with a fault, or with none.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    return replace(
        bare,
        zones=_zones(fields),
        parts=_parts(fields, known),
        vary=read_vary(fields, known.rulebook),
    )


def read_cause(fields: Fields, bare: Item, known: Known) -> Item:
    """Read an item that tells what is seen afterwards.

    Args:
        fields: The item as written; problems are gathered there.
        bare: The item so far.
        known: What it may name.

    Returns:
        The whole item.
    """
    fault, node = fields.text("fault", required=True), fields.take("fault")
    if node is not None and fault and fault not in known.faults:
        fields.fault(node, f"nothing that is seen is called '{fault}'", mend_name(fault, tuple(known.faults)))
    return replace(
        bare,
        fault=fault,
        parts=_causes(fields, known.faults.get(fault)),
        zones=_zones(fields),
        vary=read_vary(fields, known.rulebook),
        wrong=tuple(read_wrong(fields, known, slips=_slips(known, fault))),
    )


def _slips(known: Known, fault: str) -> dict[str, str]:
    """Give what can be blamed without reason: the slips that bring about something else, as options."""
    causes = {slip.id: slip for one in known.faults.values() for slip in one.causes}
    own = known.faults[fault].causes if fault in known.faults else ()
    right = {slip.id for slip in own}
    return {slip.id: slip.as_option for slip in causes.values() if slip.id not in right}


def _causes(fields: Fields, fault: Fault | None) -> tuple[str, ...]:
    """Take the causes that may be the key: decisions that can carry what is seen, or slips by their ids."""
    node = fields.take("causes")
    if node is None:
        return ()
    causes = []
    for name, one in texts_of(node, fields.problems, what="'causes'"):
        can_be = (*fault.carried_by, *(slip.id for slip in fault.causes)) if fault else (name,)
        if name not in can_be:
            fields.fault(one, f"'{name}' is no cause of what is seen", mend_name(name, can_be))
        causes.append(READ_AS.get(name, name))
    return tuple(causes)


def _zones(fields: Fields) -> tuple[str, ...]:
    fields.take("zone", required=True)
    return read_zones(fields)


def _parts(fields: Fields, known: Known) -> tuple[str, ...]:
    node = fields.take("parts", required=True)
    if node is None:
        return ()
    tables = known.rulebook.tables
    shown = (*(name for name, table in tables.items() if table.hit != "collect"), TOOL_DIAMETER)
    parts = []
    for name, one in texts_of(node, fields.problems, what="'parts'"):
        if name not in shown:
            fields.fault(one, f"there is no decision '{name}' to show", mend_name(name, shown))
        elif name in parts:
            fields.fault(one, f"{name} stands twice", "take one out")
        parts.append(name)
    if not FEWEST_PARTS <= len(parts) <= MOST_PARTS:
        what = f"'parts' has {len(parts)} decision{'' if len(parts) == 1 else 's'}"
        fields.fault(node, what, f"write {FEWEST_PARTS} to {MOST_PARTS}, such as base_control, papers, wrap")
    return tuple(parts)
