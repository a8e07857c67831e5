"""A visit in the names of the public contract, with the fields that a client's record has to hold."""

from collections.abc import Mapping
from typing import Any

from drill.basis.plain import to_plain
from drill.rulebook.domain import UNKNOWN
from drill.service.record import LOTION, Visit
from drill.service.steps_open import OpenStep, open_steps

FORMAT = "visit.v1"
NONE = "none"
_PAST = (
    "color",
    "weeks_since_color",
    "lightened",
    "relaxer",
    "smoothing",
    "metallic_dye",
    "weeks_since_perm",
)
_PRODUCTS = (LOTION, "neutraliser")
_ZONE = (
    "layout",
    "base_direction",
    "roll_direction",
    "base_control",
    "base_size",
    "wrap",
    "tool",
    "tools",
    "papers",
)


def steps_of(visit: Visit) -> tuple[OpenStep, ...]:
    """Tell which steps of a visit are open now.

    Args:
        visit: The visit.

    Returns:
        One for each step of its plan, in order. Test curls that said stop hold it until that reading itself
        is corrected.
    """
    said = [one.do for one in visit.standing_readings]
    return open_steps(
        visit.plan["steps"],
        visit.signed,
        student_mode=visit.student_mode,
        test_curls_say="stop" if "stop" in said else (said[-1] if said else ""),
    )


def analysis_of(visit: Visit) -> dict[str, Any]:
    """Give the analysis before the service.

    Args:
        visit: The visit.

    Returns:
        Condition of hair and scalp, texture, density, porosity, natural movement, length, past chemical
        services; ``unknown`` where the consultation left it out.

    Source:
        sources.yaml X9, the seven fields.
    """
    hair = _group(visit, "hair")
    history = _group(visit, "history")
    return {
        "condition": {
            "hair": visit.plan["hair_condition"],
            "elasticity": hair.get("elasticity", UNKNOWN),
            "scalp": visit.consultation.get("scalp", UNKNOWN),
        },
        "texture": hair.get("strand", UNKNOWN),
        "density": hair.get("density", UNKNOWN),
        "porosity": hair.get("porosity", UNKNOWN),
        "movement": {"pattern": hair.get("pattern", UNKNOWN), "growth": hair.get("growth", NONE)},
        "length": hair.get("length", UNKNOWN),
        "past_services": {name: history.get(name, UNKNOWN) for name in _PAST},
    }


def record_of(visit: Visit) -> dict[str, Any]:
    """Give the record after the service.

    Args:
        visit: The visit.

    Returns:
        Analysis, contra-indications, curl wanted, products with strength and time, tools and winding, curl
        obtained, home care; ``none`` where nothing was noted.

    Source:
        sources.yaml X9, the seven fields.
    """
    result = visit.result
    return {
        "analysis": analysis_of(visit),
        "contra_indications": {
            "verdict": visit.plan["verdict"],
            "reasons": [one["because"] for one in visit.plan["verdict_reasons"]],
            "reaction": _group(visit, "history").get("reaction", UNKNOWN),
        },
        "curl_wanted": _group(visit, "wish").get("curl", UNKNOWN),
        "products": {"waving_lotion": dict(visit.plan["waving_lotion"]), "used": _used(visit)},
        "tools_and_winding": {
            name: {key: zone[key] for key in _ZONE} for name, zone in visit.plan["zones"].items()
        },
        "curl_obtained": result.curl or NONE if result else NONE,
        "home_care": result.home_care or NONE if result else NONE,
    }


def visit_to_plain(visit: Visit) -> dict[str, Any]:
    """Write a visit for other programs.

    Args:
        visit: The visit.

    Returns:
        The contract's object; times in UTC, the word ``none`` where there is nothing.
    """
    states = {one.id: one for one in steps_of(visit)}
    result = visit.result
    return {
        "format": FORMAT,
        "id": visit.id,
        "client": visit.label,
        "opened": visit.opened,
        "closed": visit.closed or NONE,
        "student_mode": visit.student_mode,
        "service": visit.service,
        "verdict": visit.plan["verdict"],
        "rulebook": visit.plan["rulebook"],
        "steps": [
            {**step, "open": states[step["id"]].is_open, "waits_for": states[step["id"]].waits_for or NONE}
            for step in visit.plan["steps"]
        ],
        "sign_offs": [_event(one, "stop", "initials", "taken_back") for one in visit.sign_offs],
        "readings": [
            _event(one, "minutes", "longest_min", "wet", "dry", "hair", "skin", "do", "way", "corrects")
            for one in visit.readings
        ],
        "times": [_event(one, "phase", "minutes", "longest_min", "product") for one in visit.times],
        "result": _event(result, "outcome", "curl", "hair", "home_care") if result else NONE,
        "notes": [_event(one, "text") for one in visit.notes],
        "record": record_of(visit),
        "consultation": dict(visit.consultation),
        "plan": dict(visit.plan),
    }


def _group(visit: Visit, name: str) -> Mapping[str, Any]:
    return visit.consultation.get(name, {})  # type: ignore[no-any-return]


def _used(visit: Visit) -> dict[str, Any]:
    """Give time and product of what lay on the hair."""
    return {
        phase: {
            "product": one.product or NONE,
            "minutes": one.minutes,
            "longest_min": _or_none(one.longest_min),
        }
        for phase, one in visit.minutes.items()
        if phase in _PRODUCTS
    }


def _event(event: object, *names: str) -> dict[str, Any]:
    return {name: _or_none(to_plain(getattr(event, name))) for name in ("at", *names)}


def _or_none(value: Any) -> Any:  # noqa: ANN401  JSON values are of any type
    return NONE if value is None or value == "" else value
