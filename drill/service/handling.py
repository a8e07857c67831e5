"""How hands go about it: where to start and to look, in which order, and what is done from rinse to door."""

from collections.abc import Mapping
from dataclasses import dataclass

from drill.rulebook.domain import UNKNOWN
from drill.rulebook.table import Row
from drill.service.consultation import POROSITIES
from drill.service.head import Head
from drill.service.stock import WINDING_ORDER

DECISIONS = (
    "soft_curl",
    "border.guard",
    "cut",
    "equaliser",
    "winding.start",
    "wet_with",
    "spray",
    "saturation.start",
    "look_out.place",
    "look_out.pace",
)
LISTS = ("rinse", "blot", "neutralise", "take_down", "after_care")
_FROM_THE_NAPE = (
    "nape_center",
    "nape_left",
    "nape_right",
    "back_center",
    "back_left",
    "back_right",
    "left_side",
    "right_side",
    "top",
)
_ORDERS = {
    "crown": WINDING_ORDER,
    "nape": _FROM_THE_NAPE,
    "front": (
        "top",
        "left_side",
        "right_side",
        "back_center",
        "back_left",
        "back_right",
        "nape_center",
        "nape_left",
        "nape_right",
    ),
}
# Hair that nobody has felt takes its place among average hair; no lotion is planned on it.
_RANKS: Mapping[str, int] = {name: at for at, name in enumerate(POROSITIES)} | {UNKNOWN: 1}
_LOOKS = {"usual": ("first", "again"), "close": ("close", "close")}


@dataclass(frozen=True, slots=True, kw_only=True)
class LookOut:
    """Where and when the hair is looked at while lotion is on it.

    Attributes:
        zones: The sections to look at first; none where no lotion is used.
        first_min: Minutes after the last tool got its lotion; 0 where none is used.
        again_min: Minutes from one look to the next; 0 where none is used.
    """

    zones: tuple[str, ...]
    first_min: float
    again_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """How a service that works is handled.

    Attributes:
        decisions: Outcome by decision, those of :data:`DECISIONS`.
        winding_order: The sections in the order in which they are wound.
        saturation_order: The sections in the order in which lotion goes on; none in a set.
        look_out: Where and when to look.
        lists: What is done, by the decisions of :data:`LISTS`.
    """

    decisions: Mapping[str, str]
    winding_order: tuple[str, ...]
    saturation_order: tuple[str, ...]
    look_out: LookOut
    lists: Mapping[str, tuple[Row, ...]]


def plan_handling(head: Head, *, zones: tuple[str, ...]) -> Handling:
    """Plan how a service that works is handled.

    Args:
        head: The head.
        zones: The sections that are wound.

    Returns:
        Decisions, orders, the look-out and the lists.

    Source:
        The tables named in :data:`DECISIONS` and :data:`LISTS`; the orders are common practice, parameters
        ``lookout.*``.
    """
    decisions = {name: str(head.decide(name).value) for name in DECISIONS}
    built_in = {name: head.rulebook.built_in(name, value) for name, value in decisions.items()}
    winding_order = _kept(_ORDERS[built_in["winding.start"]], zones)
    saturation_order = _saturation_order(
        head, start=built_in["saturation.start"], wound=winding_order, zones=zones
    )
    return Handling(
        decisions=decisions,
        winding_order=winding_order,
        saturation_order=saturation_order,
        look_out=_look_out(
            head, place=built_in["look_out.place"], pace=built_in["look_out.pace"], order=saturation_order
        ),
        lists={name: head.evaluation.collected(name) for name in LISTS},
    )


def _kept(order: tuple[str, ...], zones: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(zone for zone in order if zone in zones)


def _saturation_order(
    head: Head, *, start: str, wound: tuple[str, ...], zones: tuple[str, ...]
) -> tuple[str, ...]:
    if start == "none":
        return ()
    if start == "as_wound":
        return wound
    order = _kept(_FROM_THE_NAPE, zones)
    return order if start == "nape" else tuple(sorted(order, key=lambda zone: _rank(head, zone)))


def _look_out(head: Head, *, place: str, pace: str, order: tuple[str, ...]) -> LookOut:
    if place == "none" or not order:
        return LookOut(zones=(), first_min=0.0, again_min=0.0)
    first, again = (float(head.rulebook.values[f"lookout.{name}_minutes"]) for name in _LOOKS[pace])
    weakest = max(_rank(head, zone) for zone in order)
    weak = tuple(zone for zone in order if _rank(head, zone) == weakest)
    # Where all places feel alike, the ones wetted first have had the lotion longest.
    zones = order[:1] if place == "first_tools" or len(weak) == len(order) else weak
    return LookOut(zones=zones, first_min=first, again_min=again)


def _rank(head: Head, zone: str) -> int:
    return _RANKS[str(head.consultation.of("hair.porosity", zone))]
