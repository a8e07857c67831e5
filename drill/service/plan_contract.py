"""A plan in the names of the public contract, as JSON values.

Other people's programs read these names: extend them, never rename them.
"""

from typing import Any

from drill.basis.plain import to_plain
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.consultation import consultation_to_plain
from drill.service.plan import SIGN_OFFS, Plan, ZonePlan

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
        "first_aid": [{"id": row.then, "text": row.say} for row in plan.first_aid],
        "ask_first": [{"field": one.field, "ask": one.ask, "because": one.because} for one in plan.ask_first],
        "tests": [{"kind": row.then, "where": row.say, "because": row.because} for row in plan.tests],
        "instead": [row.say for row in plan.instead],
        "zones": {name: _zone(zone) for name, zone in plan.zones.items()},
        "waving_lotion": dict(plan.lotion),
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
        "consultation": consultation_to_plain(plan.consultation),
        "trace": [_decision(one) for one in plan.trace],
    }


def _zone(zone: ZonePlan) -> dict[str, Any]:
    decisions = {name: value for name, value in zone.decisions.items() if not name.startswith("tool.")}
    return {
        **decisions,
        "tool": {
            "shape": zone.shape,
            "size": zone.decisions["tool.size"],
            "diameter_mm": zone.diameter_mm,
        },
        "tools": to_plain(zone.tools),
        "turns": zone.turns,
        "curl_ends_mm": zone.curl_ends_mm,
        "curl_scalp_mm": zone.curl_scalp_mm,
        "gap_mm": zone.gap_mm,
        "papers_count": zone.papers_count,
    }


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
