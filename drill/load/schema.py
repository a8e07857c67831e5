"""JSON Schema files for what people write in YAML, made from what the loaders ask for.

They serve an editor, which completes and checks while typing. The loaders stay the judges: what depends on
another file, on the proof, or on how a number is written, only they know.
"""

import json
from collections.abc import Mapping

from drill.bank.item import Item, Kind
from drill.basis.problem import NOWHERE
from drill.load.consultation import BLEND, REQUIRED
from drill.load.deck_kinds import READERS
from drill.load.deck_parts import ANY_ZONE, FEWEST_WRONG, MOST_WRONG, Known
from drill.load.reading import Fields, Node
from drill.load.rulebook import load_rulebook
from drill.load.schema_parts import (
    Schema,
    choice,
    day,
    flag,
    listed,
    mapping,
    one_or_more,
    suggested,
    text,
)
from drill.load.schema_rules import rule_schemas
from drill.rulebook.domain import Domain
from drill.rulebook.rulebook import Rulebook
from drill.service.kit import SHAPES
from drill.service.zones import ZONE_NAMES

SUFFIX = ".schema.json"
DRAFT = "https://json-schema.org/draft/2020-12/schema"
_SHARE = {"anyOf": [{"type": "number"}, {"type": "string", "pattern": r"^\s*[\d./ ]+\s*%?\s*$"}]}


def schema_texts(rulebook: Rulebook | None = None) -> Mapping[str, str]:
    """Write every schema.

    Args:
        rulebook: Knows tables, names and values; the built-in one where left out.

    Returns:
        The JSON text by file name, such as ``deck.schema.json``.
    """
    return {
        f"{kind}{SUFFIX}": json.dumps({"$schema": DRAFT, "title": kind, **schema}, separators=(",", ":"))
        for kind, schema in schemas(rulebook).items()
    }


def schemas(rulebook: Rulebook | None = None) -> dict[str, Schema]:
    """Give every schema by the kind of file.

    Args:
        rulebook: As for :func:`schema_texts`.

    Returns:
        The schemas of school, kit, deck, consultation and of everything that holds rules.
    """
    known = rulebook or load_rulebook()[0]
    return {
        "school": _school(),
        "kit": _kit(),
        "deck": _deck(known),
        "consultation": _consultation(known),
        **rule_schemas(known),
    }


def _school() -> Schema:
    keys = {
        "name": text(),
        "exam_date": day(),
        "pass_mark": _SHARE,
        "student_mode": flag(),
        "blueprint": {"type": "object", "additionalProperties": _SHARE},
        "leave_out": one_or_more(text()),
    }
    return mapping(keys, required=["name"], described="What a school says of itself.")


def _tools() -> Schema:
    keys = {
        "diameter": text(),
        "rim_diameter": text(),
        "length": text(),
        "shape": choice(SHAPES),
        "count": {"anyOf": [{"type": "integer", "minimum": 0}, {"type": "string", "pattern": r"^\d{1,4}$"}]},
    }
    return listed(mapping(keys, required=["diameter", "length", "shape", "count"]), least=1)


def _kit() -> Schema:
    return {
        "anyOf": [_tools(), mapping({"name": text(filled=False), "tools": _tools()}, required=["tools"])],
        "description": "The tools in the drawers; lengths always with their unit.",
    }


def _consultation(rulebook: Rulebook) -> Schema:
    """Give the schema of a consultation, whose dotted and nested keys mean the same."""
    entered = {name: one for name, one in rulebook.domains.items() if one.entered}
    keys: dict[str, Schema] = {"client": one_or_more(text(filled=False))}
    keys["kit"] = {"anyOf": [{"type": "string"}, _kit()]}
    keys |= {name: _field(domain) for name, domain in entered.items()}
    groups = dict.fromkeys(name.partition(".")[0] for name in entered if "." in name)
    for group in groups:
        inside = {
            name.partition(".")[2]: _field(domain)
            for name, domain in entered.items()
            if name.startswith(f"{group}.")
        }
        keys[group] = {"anyOf": [keys[group], mapping(inside)]} if group in keys else mapping(inside)
    found = mapping(keys)
    found["allOf"] = [{"anyOf": [{"required": [name]}, _nested(name)]} for name in REQUIRED]
    return found


def _nested(name: str) -> Schema:
    group, _, key = name.partition(".")
    return {"required": [group], "properties": {group: {"required": [key]}}}


def _field(domain: Domain) -> Schema:
    if domain.name == BLEND:
        return one_or_more(choice((*ZONE_NAMES, "none", "no", "")))
    one = text() if domain.unit else choice(domain.values)
    if domain.per == "head":
        return one
    return {"anyOf": [one, mapping(dict.fromkeys(ZONE_NAMES, one))]}


def _deck(rulebook: Rulebook) -> Schema:
    item: Schema = {
        "type": "object",
        "required": ["id", "kind", "stem"],
        "properties": {"kind": choice(READERS)},
        "allOf": [
            {
                "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
                "then": _item(kind, rulebook),
            }
            for kind in READERS
        ],
    }
    keys = {"topic": text(), "title": text(filled=False), "items": listed(item)}
    return mapping(keys, required=["topic", "items"])


def _item(kind: Kind, rulebook: Rulebook) -> Schema:
    """Give the schema of an item: a key that the rules decide, or one that is written."""
    written, decided = _asked(kind, {}, rulebook), _asked(kind, {"decision": ""}, rulebook)
    # Wrong orders are written even where the plan knows the right one.
    refused = ("answer",) if kind == "order" else ("answer", "wrong")
    if written.get("decision"):
        return _item_keys(kind, decided, rulebook, without=refused)
    if written == decided or ("decision" not in written and "decision" not in decided):
        return _item_keys(kind, written, rulebook)
    return {
        "if": {"required": ["decision"]},
        "then": _item_keys(kind, decided, rulebook, without=refused),
        "else": _item_keys(kind, {key: must for key, must in written.items() if key != "decision"}, rulebook),
    }


def _asked(kind: Kind, given: Mapping[str, str], rulebook: Rulebook) -> dict[str, bool]:
    """Find the keys that the loader asks for in an item of a kind, each with whether it must be there."""
    node = Node(NOWHERE, {key: Node(NOWHERE, value, {}) for key, value in given.items()}, {})
    fields = Fields(node, [], what="an item")
    bare = Item(id="", topic="", kind=kind, stem="")
    READERS[kind](fields, bare, Known(rulebook=rulebook, beliefs={}, sources={}))
    return fields.asked


def _item_keys(
    kind: Kind, asked: Mapping[str, bool], rulebook: Rulebook, *, without: tuple[str, ...] = ()
) -> Schema:
    shared = {
        "id": text(),
        "kind": choice(READERS),
        "stem": text(),
        "look": text(filled=False),
        "picture": mapping(
            {"file": text(), "words": text()},
            required=["file", "words"],
            described="A picture of the school's own, and what it shows in words.",
        ),
    }
    keys = {key: _of_item(kind, key, rulebook) for key in asked if key not in without}
    required = [key for key, must in asked.items() if must and key not in without]
    return mapping({**shared, **keys}, required=["id", "kind", "stem", *required])


def _of_item(kind: Kind, key: str, rulebook: Rulebook) -> Schema:
    # A moment of the lotion, or of the test curls, is stated by names that no consultation has.
    moments = ("processing.", "revise.") if kind == "stop_or_go" else ()
    entered = {name: one for name, one in rulebook.domains.items() if one.entered or name.startswith(moments)}
    varied = {
        name: one_or_more(suggested(domain.values) if domain.values else text())
        for name, domain in entered.items()
    }
    told = "order" if kind == "order" else "text"
    shown = listed(text()) if kind == "order" else text()
    wrong = mapping({told: shown, "misconception": text()}, required=[told])
    if kind == "cause":
        blamed = mapping({"cause": text(), "misconception": text()}, required=["cause"])
        wrong = {"oneOf": [wrong, blamed]}
    known: dict[str, Schema] = {
        "zone": one_or_more(choice((ANY_ZONE, *ZONE_NAMES))),
        "vary": mapping(varied),
        "wrong": listed(wrong, least=FEWEST_WRONG, most=MOST_WRONG),
        "standing": choice(("settled", "school", "contested")),
    }
    # What a kind of its own asks beside these is checked by the loader.
    plain = ("decision", "row", "answer", "because", "source", "tolerance")
    return known.get(key, text() if key in plain else {})
