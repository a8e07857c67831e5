"""Preliminary test curls: whether doubt asks for them, and where on the head they go."""

from dataclasses import dataclass

from drill.rulebook.domain import UNKNOWN
from drill.rulebook.table import Row
from drill.service.consultation import POROSITIES, Consultation
from drill.service.head import Head
from drill.service.partial import wound_zones

STEPS = "test_curls_"
# One in the most resistant place, one in the weakest (common practice).
FEWEST = 2
_FRONT = ("top", "left_side", "right_side")
# Where it shows, first choice first; three, so that one is left when the two others are taken.
_SHOWN = ("left_side", "right_side", "top")
# Where nobody has felt the hair: mostly the most resistant place and the finest one.
_UNFELT = ("nape_center", "top", "back_center", "left_side", "back_left")


@dataclass(frozen=True, slots=True, kw_only=True)
class TestCurls:
    """The preliminary test curls.

    Attributes:
        needed: Whether doubt asks for them.
        zones: Where: the most resistant place, the weakest, one where it shows; empty where none are needed.
        count: How many tools.
        why: Every reason.
        steps: How they are done.
    """

    __test__ = False  # the trade's word, not a test case

    needed: bool
    zones: tuple[str, ...]
    count: int
    why: tuple[str, ...]
    steps: tuple[str, ...]


def plan_test_curls(head: Head, steps: tuple[Row, ...]) -> TestCurls:
    """Plan the preliminary test curls of a head.

    Args:
        head: The head.
        steps: Steps of the service, those of the test among them.

    Returns:
        Whether they are needed, where, why and how.

    Source:
        Table ``test_curls.needed``, parameter ``test_curls.count``; the places are common practice.
    """
    decision = head.decide("test_curls.needed")
    needed = decision.value == "yes"
    most = int(head.rulebook.values["test_curls.count"])
    zones = _places(head.consultation, wound_zones(head))[:most] if needed else ()
    return TestCurls(
        needed=needed,
        zones=zones,
        # Where one section alone is wound, both tools are in it.
        count=max(len(zones), FEWEST) if zones else 0,
        why=tuple(row.because for row in decision.rows if row.then == decision.value),
        steps=tuple(row.say for row in steps if row.then.startswith(STEPS)),
    )


def _places(consultation: Consultation, zones: tuple[str, ...]) -> tuple[str, ...]:
    """Choose the most resistant place, the weakest, and one that shows, among the sections to be wound."""
    by_zone = {zone: str(consultation.of("hair.porosity", zone)) for zone in zones}
    known = {zone: POROSITIES.index(one) for zone, one in by_zone.items() if one != UNKNOWN}
    if not known:
        return tuple(zone for zone in _UNFELT if zone in zones)[:2]
    resistant = min(known, key=lambda zone: (known[zone], zone != "nape_center"))
    weakest = max(known, key=lambda zone: (known[zone], zone in _FRONT, zone == "top"))
    others = (zone for zone in (*_SHOWN, *zones) if zone in zones and zone not in (resistant, weakest))
    shown = next(others, resistant)
    return tuple(dict.fromkeys((resistant, weakest, shown)))
