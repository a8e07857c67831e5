"""The blueprint of the mock exam, from the file beside the question sets."""

from collections.abc import Collection
from pathlib import Path

from drill.bank.blueprint import Blueprint, Outline
from drill.basis.length import number_from_text
from drill.basis.problem import Problem, mend_name
from drill.basis.quantity import quantity_from_text
from drill.load.reading import Fields, read_file, texts_of
from drill.load.rows import read_source
from drill.rulebook.rulebook import Rulebook

BLUEPRINT_FILE = "blueprint.yaml"
_ROUNDING = 0.005


def load_blueprint(
    path: Path, rulebook: Rulebook, topics: Collection[str], problems: list[Problem]
) -> Blueprint:
    """Read how a mock exam is made up.

    Args:
        path: The file; where there is none, every topic weighs the same.
        rulebook: Knows the sources.
        topics: The topics of the built-in decks.
        problems: Where faults are gathered.

    Returns:
        The blueprint.
    """
    blueprint = Blueprint()
    if not path.is_file():
        return blueprint
    nodes, faults = read_file(path)
    problems += faults
    for node in nodes:
        fields = Fields(node, problems, what="the blueprint")
        outline = Outline()
        stated = fields.take("outline", required=True)
        if stated is not None:
            outline = _read_outline(Fields(stated, problems, what="the outline"), rulebook)
        blueprint = Blueprint(
            outline=outline,
            weights=_read_weights(fields, topics),
            because=fields.text("because", required=True),
            source=read_source(fields, rulebook.sources),
        )
        fields.done()
    return blueprint


def _read_outline(fields: Fields, rulebook: Rulebook) -> Outline:
    outline = Outline(
        title=fields.text("title", required=True),
        source=read_source(fields, rulebook.sources),
        items=int(_read_number(fields, "items", "", Outline().items)),
        minutes=_read_number(fields, "time", "min", Outline().minutes),
        shares=_read_shares(fields),
    )
    fields.done()
    return outline


def _read_number(fields: Fields, key: str, unit: str, otherwise: float) -> float:
    node, text = fields.take(key, required=True), fields.text(key)
    if node is None:
        return otherwise
    number = quantity_from_text(text, unit) if unit else number_from_text(text)
    if number is None or number < 1:
        fields.fault(node, f"'{key}' cannot be '{text}'", f"write {'90 min' if unit else 'a whole number'}")
        return otherwise
    return float(number)


def _read_shares(fields: Fields) -> dict[str, float]:
    shares: dict[str, float] = {}
    for name, node, _ in fields.pairs("shares", required=True):
        for text, one in texts_of(node, fields.problems, what=name):
            number = number_from_text(text.removesuffix("%"))
            if number is None or not 0 <= number <= 100:  # noqa: PLR2004  per cent
                fields.fault(one, f"{name} cannot be '{text}'", "write a share of the marks, such as 35 %")
            else:
                shares[name] = float(number) / 100
    stated = fields.take("shares")
    if stated is not None and shares and abs(sum(shares.values()) - 1) > _ROUNDING:
        fields.fault(stated, f"the shares make {sum(shares.values()):.0%}, not 100 %", "mend one of them")
    return shares


def _read_weights(fields: Fields, topics: Collection[str]) -> dict[str, float]:
    weights: dict[str, float] = {}
    for name, node, place in fields.pairs("weights", required=True):
        if name not in topics:
            mend = mend_name(name, tuple(topics))
            fields.problems.append(Problem(place, f"there is no topic '{name}'", mend))
        for text, one in texts_of(node, fields.problems, what=name):
            number = number_from_text(text)
            if number is None or number < 0:
                fields.fault(one, f"{name} cannot weigh '{text}'", "write a number from 0 up, such as 2")
            else:
                weights[name] = float(number)
    return weights
