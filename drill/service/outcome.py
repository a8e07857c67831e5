"""What the client would see of a head that is wound and processed as decided.

Nothing here says how long a lotion stays on. What an outcome is made of, and how two are compared, is in
:mod:`drill.service.difference`; this module is the door to it as well.
"""

from collections.abc import Mapping

from drill.rulebook.domain import Value
from drill.service.coil import finished_curl_mm, wound_diameter_mm
from drill.service.difference import Curl, Difference, Outcome, ZoneOutcome, differences
from drill.service.geometry import weeks_of_growth
from drill.service.head import Head
from drill.service.partial import LEFT_OUT, role_of
from drill.service.shown import bears, breakage, even_lotion, part_lines, shown_ends
from drill.service.winding import Winding
from drill.service.zones import ZONE_NAMES

__all__ = ["Curl", "Difference", "Outcome", "ZoneOutcome", "differences", "predict"]

_WORKING = ("go", "test_first")
_LIFT = {"on_base": 2, "half_off_base": 1, "off_base": 0}
_STRENGTHS = ("treated", "normal", "resistant")


def predict(head: Head, *, hair: Head | None = None, zones: tuple[str, ...] = ZONE_NAMES) -> Outcome:
    """Predict what would be seen.

    Args:
        head: The head with its decisions, perhaps those of someone who holds a wrong idea.
        hair: The same head under the rules in force, where ``head`` is under a wrong idea: what hair is and
            bears does not change with what somebody believes.
        zones: The zones to predict.

    Returns:
        The outcome; without zones where the service is not done. A zone that is left out of it keeps its
        natural pattern.

    Raises:
        UndecidedError: If a wrong idea leaves a decision open.

    Source:
        :mod:`drill.service.coil`; two weeks later: parameters ``outcome.*``, H18; lift, stress and lines:
        common practice.
    """
    truth = hair or head
    done = head.decide("verdict").value in _WORKING
    left_out = [zone for zone in zones if done and role_of(head, zone) == LEFT_OUT]
    return Outcome(
        done=done,
        porosity_even=str(truth.evaluation.read("porosity.even")),
        zones={zone: _zone(head, truth, zone) for zone in zones if done and zone not in left_out},
        as_it_was=dict.fromkeys(left_out, _pattern(truth)),
    )


def _pattern(truth: Head) -> str:
    return truth.rulebook.built_in("hair.pattern", str(truth.evaluation.read("hair.pattern")))


def _form(turns: float, values: Mapping[str, Value]) -> str:
    if turns >= float(values["turns.curl"]):
        return "curl"
    return "wave" if turns >= float(values["turns.wave"]) else "none"


def _zone(head: Head, truth: Head, name: str) -> ZoneOutcome:
    zone, values = head.zone(name), truth.rulebook.values
    winding = head.winding(name)
    base, size, wrap, papers = (
        head.rulebook.built_in(decision, str(zone.read(decision)))
        for decision in ("base_control", "base_size", "wrap", "papers")
    )
    perm = zone.read("service") == "perm"
    today = _today(winding, wrap, float(zone.read("hair.length")))
    return ZoneOutcome(
        zone=name,
        today=today,
        later=_later(today, truth, name) if perm else None,
        turns=winding.turns,
        turns_shortest=winding.turns_shortest,
        form=_form(winding.turns_shortest, values),
        form_longest=_form(winding.turns, values),
        hangs="coils" if wrap == "spiral" else "waves",
        falls=head.rulebook.built_in("roll_direction", str(zone.read("roll_direction"))),
        gap_mm=winding.gap_mm,
        gap_weeks=weeks_of_growth(
            gap_mm=winding.gap_mm, growth_um_per_day=float(values["hair.growth_um_per_day"])
        ),
        lift=max(0, _LIFT[base] - (size != "single")),
        stress=breakage(
            truth.zone(name), on_base=base == "on_base", against=zone.read("roll_against_growth") == "yes"
        ),
        part_lines=part_lines(
            truth.zone(name), layout=head.rulebook.built_in("layout", str(zone.read("layout"))), size=size
        ),
        evenness=even_lotion(truth.zone(name), wrap=wrap, size=size, turns=winding.turns),
        lotion=_lotion(head, truth, name) if perm else "none",
        ends=shown_ends(truth.zone(name), papers=papers),
        papers="none" if papers == "none" else "pass",
    )


def _today(winding: Winding, wrap: str, length_mm: float) -> Curl:
    """Add the middle of the strand to the curl that the winding gives at its two ends."""
    middle_mm = winding.ends_mm
    if wrap == "croquignole":
        middle_mm = wound_diameter_mm(
            length_mm=length_mm / 2,
            tool_mm=winding.tool.diameter_mm,
            layer_mm=winding.ends_mm - winding.tool.diameter_mm,
        )
    # The middle of a layer lies inside its outer face, and a strand of one turn has one size.
    middle_mm = min(max(middle_mm, winding.ends_mm), winding.scalp_mm)
    share = winding.ends_mm / winding.curl_ends_mm
    return Curl(
        ends_mm=winding.curl_ends_mm,
        middle_mm=finished_curl_mm(wound_mm=middle_mm, set_share=min(share, 1.0)),
        scalp_mm=winding.curl_scalp_mm,
    )


def _later(today: Curl, truth: Head, name: str) -> Curl:
    zone, values = truth.zone(name), truth.rulebook.values
    ratio = float(values["outcome.two_weeks_ratio"])
    long = float(zone.read("hair.length")) >= float(values["outcome.heavy_from_mm"])
    if long and (zone.read("hair.density") == "thick" or zone.read("hair.strand") == "coarse"):
        ratio *= float(values["outcome.heavy_ratio"])
    return Curl(
        ends_mm=today.ends_mm * ratio, middle_mm=today.middle_mm * ratio, scalp_mm=today.scalp_mm * ratio
    )


def _lotion(head: Head, truth: Head, name: str) -> str:
    strength = head.rulebook.built_in(
        "waving_lotion.strength", str(head.decide("waving_lotion.strength").value)
    )
    rank = _STRENGTHS.index(strength) if strength in _STRENGTHS else -1
    needs, most = bears(truth.zone(name))
    return "too_much" if rank > most else "weak" if rank < needs else "right"
