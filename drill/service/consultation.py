"""A consultation: what is known of one head, and what the client wishes.

Whatever is left out is unknown. Named values and numbers are those of the vocabulary; lengths are in
millimetres, spans in the unit of their field.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from drill.rulebook.domain import UNKNOWN, Value
from drill.service.kit import BUILT_IN_KIT, Kit
from drill.service.zones import ZONE_NAMES

LEFT_OUT: Mapping[str, Value] = {"wish.part": "whole", "pace": "beginner"}
LEFT_OUT_BY_ZONE: Mapping[str, Value] = {"hair.growth": "none", "wish.blend": "no"}
POROSITIES = ("resistant", "average", "porous", "overporous")


@dataclass(frozen=True, slots=True, kw_only=True)
class Consultation:
    """What is known of one head.

    Attributes:
        head: Values that hold for the whole head, by name.
        zones: For each of the nine zones its own values by name: ``hair.length``, ``hair.porosity``,
            ``hair.growth``, ``hair.shortest``, ``wish.wear``, ``wish.blend``.
        client: A label; never required.
        kit: The tools at hand.
    """

    head: Mapping[str, Value]
    zones: Mapping[str, Mapping[str, Value]]
    client: str = ""
    kit: Kit = field(default=BUILT_IN_KIT)

    def of(self, name: str, zone: str | None = None) -> Value:
        """Give the value of an entered name.

        Args:
            name: Dotted name.
            zone: The zone, for a name that differs from zone to zone.

        Returns:
            Its value; where it is left out what that means, mostly ``unknown``.
        """
        if zone is not None and name in self.zones[zone]:
            return self.zones[zone][name]
        return self.head.get(name, LEFT_OUT_BY_ZONE.get(name, LEFT_OUT.get(name, UNKNOWN)))

    def each_zone(self, name: str) -> tuple[Value, ...]:
        """Give a name's value in each of the nine zones, in their order."""
        return tuple(self.of(name, zone) for zone in ZONE_NAMES)


def consultation_to_plain(consultation: Consultation) -> dict[str, Any]:
    """Write a consultation in the form that ``plan`` reads.

    Args:
        consultation: The consultation.

    Returns:
        Nested keys as a person would write them, lengths with their unit, the kit written out; a field that
        is the same in every zone is written once, and unknown ones are left out.
    """
    plain: dict[str, Any] = {}
    if consultation.client:
        plain["client"] = consultation.client
    for name, value in consultation.head.items():
        if value != UNKNOWN:
            _put(plain, name, _written(name, value))
    blend = [zone for zone in ZONE_NAMES if consultation.of("wish.blend", zone) == "yes"]
    for name in dict.fromkeys(name for zone in consultation.zones.values() for name in zone):
        if name == "wish.blend":
            continue
        by_zone = {zone: consultation.of(name, zone) for zone in ZONE_NAMES}
        stated = {
            zone: _written(name, value)
            for zone, value in by_zone.items()
            if value != UNKNOWN and (name, value) != ("hair.growth", "none")
        }
        # Growth is always written zone by zone: a head has no one growth.
        once = name != "hair.growth" and len(set(by_zone.values())) == 1
        if stated:
            _put(plain, name, next(iter(stated.values())) if once else stated)
    if blend:
        _put(plain, "wish.blend", blend)
    plain["kit"] = kit_to_plain(consultation.kit)
    return plain


def kit_to_plain(kit: Kit) -> dict[str, Any]:
    """Write a kit in the form that ``plan`` reads."""
    return {
        "name": kit.name,
        "tools": [
            {
                "diameter": _mm_text(tool.diameter_mm),
                "rim_diameter": _mm_text(tool.rim_diameter_mm),
                "length": _mm_text(tool.length_mm),
                "shape": tool.shape,
                "count": tool.count,
            }
            for tool in kit.tools
        ],
    }


def head_inputs(consultation: Consultation, *, still_there: Mapping[str, Value]) -> dict[str, Value]:
    """Give what the head's tables read.

    Args:
        consultation: The consultation.
        still_there: What of earlier services is still on the length, by name.

    Returns:
        The entered values and what follows from the nine zones together; a fact that is unknown in one zone
        is unknown for the head.
    """
    lengths = [float(value) for value in consultation.each_zone("hair.length")]
    porosities = [str(value) for value in consultation.each_zone("hair.porosity")]
    weakest = strongest = even = UNKNOWN
    if UNKNOWN in porosities:
        # Nothing is weaker than overporous, whatever the places are that nobody has felt.
        weakest = "overporous" if "overporous" in porosities else UNKNOWN
    else:
        ranked = sorted(porosities, key=POROSITIES.index)
        strongest, weakest = ranked[0], ranked[-1]
        even = "yes" if strongest == weakest else "no"
    return {
        **LEFT_OUT,
        **consultation.head,
        "porosity.weakest": weakest,
        "porosity.strongest": strongest,
        "porosity.even": even,
        "length.longest": max(lengths),
        "length.shortest": min(lengths),
        **still_there,
    }


def zone_inputs(consultation: Consultation, zone: str) -> dict[str, Value]:
    """Give what a zone's tables read: its own values and its name."""
    return {**LEFT_OUT_BY_ZONE, **consultation.zones[zone], "zone": zone}


def _put(plain: dict[str, Any], name: str, value: object) -> None:
    group, _, key = name.rpartition(".")
    (plain.setdefault(group, {}) if group else plain)[key] = value


def _written(name: str, value: Value) -> str | float:
    if isinstance(value, str):
        return value
    if name in ("hair.length", "hair.shortest", "wish.curl"):
        return _mm_text(value)
    return int(value) if value == int(value) else value


def _mm_text(length_mm: float) -> str:
    """Write every digit: a tool of 3/8 in is read back as 9.525 mm, not as one of 9.5 mm."""
    return f"{float(length_mm)!r}".removesuffix(".0") + " mm"
