"""A systematic sample of heads: every value of every field, each on a head that is otherwise as usually met.

What is compared under two rulebooks is compared on these, so that no field is passed over by chance.
"""

import random
from collections.abc import Iterator, Mapping

from drill.bank.item import Item
from drill.bank.scenario import draw_head
from drill.rulebook.domain import Domain, Value
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.zones import ZONE_NAMES

# Numbers of a field that takes any, from small to large: in millimetres, weeks, months or minutes.
NUMBERS: Mapping[str, tuple[float, ...]] = {
    "hair.length": (60.0, 100.0, 150.0, 200.0, 250.0, 320.0, 460.0),
    "hair.shortest": (40.0, 80.0, 120.0),
    "wish.curl": (7.0, 13.0, 20.0, 30.0),
    "history.weeks_since_color": (0.5, 2.0, 8.0, 20.0),
    "history.weeks_since_relaxer": (4.0, 30.0, 90.0),
    "history.weeks_since_perm": (4.0, 12.0, 30.0, 60.0),
    "health.months_since": (2.0, 9.0, 24.0),
    "appointment": (90.0, 240.0, 400.0),
}


def sample_heads(rulebook: Rulebook) -> tuple[Consultation, ...]:
    """Give the sample for a rulebook.

    Args:
        rulebook: Names the fields and their values.

    Returns:
        For every value of every field one head that has it, in all zones where it is a zone's own; the same
        heads on every machine, and a value that is added changes none of the others.
    """
    usual = Item(id="sample", topic="", kind="choose", stem="")
    found = []
    for name, value in _stated(rulebook):
        rng = random.Random(f"sample {name} {value}")  # noqa: S311  a sample needs no secret
        found.append(_with(draw_head(usual, None, rulebook, rng), rulebook.domains[name], value))
    return tuple(found)


def _stated(rulebook: Rulebook) -> Iterator[tuple[str, Value]]:
    for name, domain in rulebook.domains.items():
        if domain.entered:
            yield from ((name, value) for value in domain.values)
            yield from ((name, number) for number in NUMBERS.get(name, ()))


def _with(head: Consultation, domain: Domain, value: Value) -> Consultation:
    if domain.per == "head":
        return Consultation(head={**head.head, domain.name: value}, zones=head.zones)
    zones = {zone: {**head.zones[zone], domain.name: value} for zone in ZONE_NAMES}
    return Consultation(head=head.head, zones=zones)
