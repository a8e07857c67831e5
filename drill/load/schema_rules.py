"""Schemas of the files that rules are written in: tables, parameters, limits, names, overlays."""

from typing import get_args

from drill.load.names import names_of
from drill.load.overlay import COMPUTED_WITH
from drill.load.rows import READ_INSTEAD
from drill.load.schema_parts import (
    Schema,
    by_name,
    choice,
    day,
    flag,
    listed,
    mapping,
    one_or_more,
    suggested,
    text,
)
from drill.rulebook.domain import Per, Unit
from drill.rulebook.overlay import Kind
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Hit, Standing


def rule_schemas(rulebook: Rulebook) -> dict[str, Schema]:
    """Give the schemas of everything that holds rules.

    Args:
        rulebook: Knows tables, parameters, names and values.

    Returns:
        By the kind of file.
    """
    return {
        "local_rule": _overlay(rulebook, kind="local_rule"),
        "misconceptions": mapping(
            {"misconceptions": listed(_overlay(rulebook, kind="misconception"))}, required=["misconceptions"]
        ),
        "table": _table(rulebook),
        "parameters": mapping(
            {"parameters": {"type": "object", "additionalProperties": _parameter()}}, required=["parameters"]
        ),
        "limits": mapping({"limits": listed(_limit(rulebook))}, required=["limits"]),
        "vocabulary": mapping({"names": listed(_name())}, required=["names"]),
        "sources": mapping(
            {"sources": {"type": "object", "additionalProperties": text(filled=False)}}, required=["sources"]
        ),
    }


def _overlay(rulebook: Rulebook, *, kind: Kind) -> Schema:
    told = ("belief", "seen", "mend")
    keys = {
        "overlay": text(),
        "kind": choice([kind]),
        "from": day(),
        "until": day(),
        "because": text(),
        "source": text(),
        **{key: text(filled=kind == "misconception") for key in told},
        "harm": flag(),
        "changes": listed(_change(rulebook), least=1 if kind == "local_rule" else 0),
    }
    required = ["overlay", "because", "source"]
    return mapping(keys, required=required + (["changes"] if kind == "local_rule" else list(told)))


def _change(rulebook: Rulebook) -> Schema:
    """Give the schema of a change: which keys belong to it is told by 'op'."""
    tables, parameters = list(rulebook.tables), list(rulebook.parameters)
    vocabularies = [name for name in (*rulebook.domains, *tables) if name not in COMPUTED_WITH]
    row = _row(rulebook)
    ways = {
        "add": mapping({"table": choice(tables), "before": text(), "row": row}, required=["table", "row"]),
        "replace": mapping({"table": choice(tables), "row": row}, required=["table", "row"]),
        "remove": mapping({"table": choice(tables), "row": text()}, required=["table", "row"]),
        "set": mapping({"parameter": choice(parameters), "value": text()}, required=["parameter", "value"]),
        "widen": mapping(
            {
                "vocabulary": choice(vocabularies),
                "value": text(),
                "counts_as": text(),
                "words": text(filled=False),
            },
            required=["vocabulary", "value", "counts_as"],
        ),
    }
    for op, schema in ways.items():
        schema["properties"] = {"op": {"const": op}, **schema["properties"]}
    return {
        "type": "object",
        "required": ["op"],
        "properties": {"op": choice(ways)},
        "allOf": [
            {"if": {"properties": {"op": {"const": op}}, "required": ["op"]}, "then": schema}
            for op, schema in ways.items()
        ],
    }


def _row(rulebook: Rulebook) -> Schema:
    copied = mapping({"as": text(), "parameter": choice(rulebook.parameters)})
    keys = {
        "id": text(),
        "when": _conditions(rulebook),
        "then": {"anyOf": [text(), copied]},
        "also": one_or_more(text()),
        "because": text(),
        "source": text(),
        "standing": choice(get_args(Standing)),
        "say": text(filled=False),
    }
    return mapping(keys, required=["id", "then", "because", "source"])


def _conditions(rulebook: Rulebook) -> Schema:
    names = names_of(rulebook)
    found = {}
    for name in names.names:
        domain = names(name)
        if domain is not None and name not in READ_INSTEAD and name not in names.lists:
            # Numbers come as ranges, whose writing only the loader reads.
            found[name] = one_or_more(suggested(domain.values) if domain.values else text())
    return mapping(found)


def _table(rulebook: Rulebook) -> Schema:
    inputs = [name for name in names_of(rulebook).names if name not in READ_INSTEAD]
    keys = {
        "decision": text(),
        "question": text(),
        "per": choice(get_args(Per)),
        "gives": one_or_more(text()),
        "hit": choice(get_args(Hit)),
        "unknowns": {"anyOf": [choice(["any"]), by_name(inputs, text())]},
        "rows": listed(_row(rulebook)),
    }
    return mapping(keys, required=["decision", "question", "per", "gives", "hit", "rows"])


def _parameter() -> Schema:
    keys = {
        "value": text(),
        "unit": text(filled=False),
        "choices": one_or_more(text()),
        "range": listed(text(), least=2, most=2),
        "because": text(),
        "source": text(),
        "standing": choice(get_args(Standing)),
    }
    return mapping(keys, required=["value", "because", "source"])


def _limit(rulebook: Rulebook) -> Schema:
    names = names_of(rulebook)
    readable = [name for name in names.names if name not in names.lists]
    keys = {
        "id": text(),
        "when": by_name(readable, one_or_more(text())),
        "never": by_name(names.names, one_or_more(text())),
        "demands": by_name(list(names.lists), one_or_more(text())),
        "because": text(),
        "source": text(),
    }
    found = mapping(keys, required=["id", "because", "source"])
    found["anyOf"] = [{"required": ["never"]}, {"required": ["demands"]}]
    return found


def _name() -> Schema:
    keys = {
        "name": text(),
        "values": one_or_more(text()),
        "unit": choice(get_args(Unit)),
        "per": choice(get_args(Per)),
        "safety": flag(),
        "entered": flag(),
        "ask": text(filled=False),
        "because": text(filled=False),
    }
    return mapping(keys, required=["name"])
