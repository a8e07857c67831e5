"""Scenarios: an item and a seed to a head that could sit in the chair.

A usual head is fit for a perm; what the item varies is laid over it. Values are drawn from lists in a fixed
order with the seed's own generator, so every machine draws the same head.
"""

import random
from collections.abc import Mapping, Sequence

from drill.bank.item import Item
from drill.rulebook.domain import Value
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.zones import ZONE_NAMES

# How often each value is met on heads that are fit for a perm: made up for practice, no statistics.
USUAL: Mapping[str, Sequence[Value]] = {
    "service": ("perm",),
    "hair.strand": ("fine", "medium", "medium", "coarse"),
    "hair.density": ("thin", "average", "average", "thick"),
    "hair.pattern": ("straight", "straight", "wavy"),
    "hair.elasticity": ("good",),
    "hair.ends": ("even", "even", "layered"),
    "history.known": ("yes",),
    "history.color": ("none", "none", "semi"),
    "history.lightened": ("none",),
    "history.relaxer": ("none",),
    "history.smoothing": ("no",),
    "history.metallic_dye": ("no",),
    "history.weeks_since_perm": ("never",),
    "history.reaction": ("no",),
    "scalp": ("healthy",),
    "health.treatment": ("none",),
    "wish.curl": ("soft", "medium", "medium", "tight", "body"),
    "wish.root_volume": ("low", "moderate", "moderate", "high"),
    "wish.look": ("waves",),
}
USUAL_LENGTHS_MM = (120.0, 150.0, 180.0, 200.0, 220.0, 250.0)
NAPE_SHARE = 0.8
USUAL_POROSITY = ("resistant", "average", "average", "average", "porous")
USUAL_WEAR = {"top": ("back", "forward"), "side": ("back", "down", "forward"), "back": ("down",)}
_WEEKS_SINCE_COLOR = (4.0, 6.0, 8.0, 12.0)


def usual_values() -> dict[str, tuple[Value, ...]]:
    """Give the facts in which two usual heads can differ, with the values met there, each once."""
    wear = tuple(dict.fromkeys(value for values in USUAL_WEAR.values() for value in values))
    lists = {**USUAL, "hair.length": USUAL_LENGTHS_MM, "hair.porosity": USUAL_POROSITY, "wish.wear": wear}
    found = {name: tuple(dict.fromkeys(values)) for name, values in lists.items()}
    return {name: values for name, values in found.items() if len(values) > 1}


def draw_zone(item: Item, rng: random.Random) -> str | None:
    """Draw the zone that an item asks.

    Args:
        item: The item.
        rng: The seed's generator.

    Returns:
        One of its zones; None for a decision on the head.
    """
    return rng.choice(item.zones) if item.zones else None


def draw_head(item: Item, zone: str | None, rulebook: Rulebook, rng: random.Random) -> Consultation:
    """Draw a head for an item.

    Args:
        item: A scenario item.
        zone: The zone asked; what the item varies of a zone is laid on it, lengths and porosity on all.
        rulebook: Knows which names differ from zone to zone.
        rng: The seed's generator.

    Returns:
        The head, every fact that a perm asks for among what is known.
    """
    head: dict[str, Value] = {name: rng.choice(values) for name, values in USUAL.items()}
    length, porosity = rng.choice(USUAL_LENGTHS_MM), rng.choice(USUAL_POROSITY)
    wear = {kind: rng.choice(values) for kind, values in USUAL_WEAR.items()}
    drawn = {name: rng.choice(item.vary[name]) for name in sorted(item.vary)}
    length_drawn, porosity_drawn = drawn.pop("hair.length", None), drawn.pop("hair.porosity", None)
    zones: dict[str, dict[str, Value]] = {
        name: {
            "hair.length": length_drawn or _nape_is_shorter(name, length),
            "hair.porosity": porosity_drawn or porosity,
            "wish.wear": wear[_kind(name)],
        }
        for name in ZONE_NAMES
    }
    for name, value in drawn.items():
        if rulebook.domains[name].per == "head":
            head[name] = value
        else:
            for one in (zone,) if zone else ZONE_NAMES:
                zones[one][name] = value
    if head["history.color"] in ("semi", "permanent") and "history.weeks_since_color" not in head:
        head["history.weeks_since_color"] = rng.choice(_WEEKS_SINCE_COLOR)
    return Consultation(head=head, zones=zones)


def _nape_is_shorter(zone: str, length_mm: float) -> float:
    return length_mm * NAPE_SHARE if zone.startswith("nape") else length_mm


def _kind(zone: str) -> str:
    return "top" if zone == "top" else "side" if zone.endswith("_side") else "back"
