"""Hold a row of a pack against the names of its rulebook, as the loader holds a row as written."""

from drill.rulebook.condition import Condition
from drill.rulebook.domain import Domain
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row, Table
from drill.service.facts import FACTS


def is_row_sound(row: Row, table: Table, rulebook: Rulebook) -> bool:
    """Tell whether everything that a row reads and gives is known.

    Args:
        row: The row.
        table: Its table.
        rulebook: Knows the names.

    Returns:
        Whether it could be decided by.
    """
    return (
        _is_outcome(row, table, rulebook)
        and set(row.also) <= set(table.gives)
        and all(_is_asked(name, condition, table, rulebook) for name, condition in row.when.items())
    )


def _is_outcome(row: Row, table: Table, rulebook: Rulebook) -> bool:
    if row.then_from == "value":
        return row.then in table.gives
    if row.then_from == "input":
        return _read(row.then, table, rulebook) is not None
    parameter = rulebook.parameters.get(row.then)
    return parameter is not None and bool(parameter.choices) and set(parameter.choices) <= set(table.gives)


def _is_asked(name: str, condition: Condition, table: Table, rulebook: Rulebook) -> bool:
    domain = _read(name, table, rulebook)
    return (
        domain is not None
        and bool(condition.values or condition.ranges)
        and set(condition.values) <= set(domain.values)
        and (not condition.ranges or bool(domain.unit))
        and all(one.low <= one.high for one in condition.ranges)
    )


def _read(name: str, table: Table, rulebook: Rulebook) -> Domain | None:
    """Give the domain of a name where a table may read it."""
    read = rulebook.tables.get(name)
    if read is not None and read.hit == "collect":
        return None
    domain = FACTS[name].domain if name in FACTS else rulebook.domain(name)
    if domain is None or (table.per == "head" and domain.per == "zone"):
        return None
    return domain
