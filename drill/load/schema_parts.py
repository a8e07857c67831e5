"""Pieces of JSON Schema in the way that this program reads YAML: every value is text until it is asked for.

An editor's own reader makes numbers and booleans of some texts, so those are let through where text is read.
"""

from collections.abc import Collection, Iterable, Mapping
from typing import Any

Schema = dict[str, Any]

_SCALARS = ["string", "number", "boolean"]
DAY_PATTERN = r"^\d{4}-?\d{2}-?\d{2}$"


def text(*, filled: bool = True) -> Schema:
    """Give the schema of one text.

    Args:
        filled: Whether it must hold something.

    Returns:
        The schema.
    """
    return {"type": _SCALARS, "pattern": r"\S"} if filled else {"type": [*_SCALARS, "null"]}


def choice(values: Iterable[str]) -> Schema:
    """Give the schema of one of some values; YAML's booleans stand for yes and no."""
    found: list[str | bool] = list(values)
    found += [word for name, word in (("yes", True), ("no", False)) if name in found]
    return {"enum": found}


def suggested(values: Iterable[str]) -> Schema:
    """Give the schema of a text for which some values are offered: a local rule may add more."""
    return {"anyOf": [choice(values), text()]}


def one_or_more(one: Schema) -> Schema:
    """Give the schema of one value or a list of them."""
    return {"anyOf": [one, {"type": "array", "items": one}]}


def day() -> Schema:
    """Give the schema of a day, such as 2031-06-12."""
    return {"type": ["string", "integer"], "pattern": DAY_PATTERN}


def flag() -> Schema:
    """Give the schema of yes or no."""
    return {"enum": ["yes", "no", "true", "false", True, False]}


def mapping(
    keys: Mapping[str, Schema], *, required: Collection[str] = (), described: str = "", others: bool = False
) -> Schema:
    """Give the schema of 'name: value' lines.

    Args:
        keys: The keys allowed, each with its schema.
        required: The keys that must be there.
        described: What it is, for whoever hovers over it.
        others: Whether other keys may stand there too.

    Returns:
        The schema.
    """
    found: Schema = {"type": "object", "properties": dict(keys)}
    if not others:
        found["additionalProperties"] = False
    if required:
        found["required"] = list(required)
    if described:
        found["description"] = described
    return found


def listed(one: Schema, *, least: int = 0, most: int | None = None) -> Schema:
    """Give the schema of a list."""
    found: Schema = {"type": "array", "items": one}
    if least:
        found["minItems"] = least
    if most is not None:
        found["maxItems"] = most
    return found


def by_name(names: Iterable[str], one: Schema) -> Schema:
    """Give the schema of 'name: value' lines whose names are known and whose values are alike."""
    return mapping(dict.fromkeys(names, one))
