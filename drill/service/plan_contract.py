"""A plan in the names of the public contract, as JSON values.

Other people's programs read these names: extend them, never rename them.
"""

from typing import Any

from drill.basis.plain import to_plain
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.consultation import consultation_to_plain
from drill.service.handling import DECISIONS, LISTS
from drill.service.plan import SIGN_OFFS, Plan
from drill.service.zone_plan import NONE, ZonePlan

FORMAT = "plan.v1"


def plan_to_plain(plan: Plan) -> dict[str, Any]:
    """Write a plan for other programs.

    Args:
        plan: The plan.

    Returns:
        The contract's object; lengths in millimetres, the word ``none`` where there is nothing.
    """
    return {
        "format": FORMAT,
        "client": plan.consultation.client,
        "service": str(plan.consultation.of("service")),
        "rulebook": plan.rulebook,
        "verdict": plan.verdict,
        "verdict_reasons": [_reason(row) for row in plan.verdict_reasons],
        "hair": {"condition": plan.hair_condition},
        "first_aid": [{"id": row.then, "text": row.say} for row in plan.first_aid],
        "questions": [{"id": row.then, "ask": row.say, "because": row.because} for row in plan.questions],
        "ask_first": [{"field": one.field, "ask": one.ask, "because": one.because} for one in plan.ask_first],
        "tests": [{"kind": row.then, "where": row.say, "because": row.because} for row in plan.tests],
        "instead": [row.say for row in plan.instead],
        "zones": {name: _zone(zone) for name, zone in plan.zones.items()},
        "waving_lotion": dict(plan.lotion),
        **_handling(plan),
        "test_curls": {
            "needed": plan.test_curls.needed,
            "zones": list(plan.test_curls.zones),
            "count": plan.test_curls.count,
            "why": list(plan.test_curls.why),
            "steps": list(plan.test_curls.steps),
        },
        "steps": [_step(row) for row in plan.steps],
        "cautions": [row.say for row in plan.cautions],
        "notes": list(plan.notes),
        "totals": to_plain(plan.totals),
        "phases": to_plain(plan.phases),
        "consultation": consultation_to_plain(plan.consultation),
        "trace": [_decision(one) for one in plan.trace],
    }


def _zone(zone: ZonePlan) -> dict[str, Any]:
    decisions = {name: value for name, value in zone.decisions.items() if "." not in name}
    return {
        **decisions,
        "part": {"role": zone.role},
        "tool": {
            "shape": zone.shape,
            "size": zone.decisions["tool.size"],
            "diameter_mm": zone.diameter_mm,
        },
        "tools": to_plain(zone.tools),
        "turns": zone.turns,
        "turns_shortest": zone.turns_shortest,
        "curl_ends_mm": zone.curl_ends_mm,
        "curl_scalp_mm": zone.curl_scalp_mm,
        "gap_mm": zone.gap_mm,
        "papers_count": zone.papers_count,
    }


def _handling(plan: Plan) -> dict[str, Any]:
    """Write orders, the look-out and the lists; ``none`` and empty where the service is not done."""
    handling = plan.handling
    values = handling.decisions if handling else dict.fromkeys(DECISIONS, NONE)
    look_out = handling.look_out if handling else None
    nested: dict[str, Any] = {}
    for name, value in values.items():
        group, _, key = name.rpartition(".")
        (nested.setdefault(group, {}) if group else nested)[key] = value
    nested["winding"]["order"] = list(handling.winding_order) if handling else []
    nested["saturation"]["order"] = list(handling.saturation_order) if handling else []
    nested["look_out"] |= {
        "zones": list(look_out.zones) if look_out else [],
        "first_min": look_out.first_min if look_out else 0.0,
        "again_min": look_out.again_min if look_out else 0.0,
    }
    lists = {name: [row.say for row in handling.lists[name]] if handling else [] for name in LISTS}
    # What stops softening may be what stops the service, so it is told either way.
    return nested | lists | {"soft_curl": plan.soft_curl}


def _step(row: Row) -> dict[str, Any]:
    sign_off = SIGN_OFFS.get(row.then)
    return {"id": row.then, "text": row.say, "because": row.because, "sign_off": sign_off or "none"}


def _reason(row: Row) -> dict[str, Any]:
    return {"row": row.id, "value": row.then, "because": row.because, "source": row.source}


def _decision(one: Decision) -> dict[str, Any]:
    return {
        "decision": one.decision,
        "zone": one.zone or "none",
        "value": to_plain(one.value),
        "also": list(one.also),
        "standing": one.standing,
        "row": one.row or "none",
        "because": one.because or "none",
        "source": one.source or "none",
        "rejected": to_plain(one.rejected),
        "read": dict(one.read),
    }
