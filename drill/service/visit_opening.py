"""From a plan to an open record: what of the plan is kept, and which lines of it would give health away."""

import random
from datetime import UTC, datetime

from drill.rulebook.domain import UNKNOWN
from drill.rulebook.table import Row
from drill.service.consultation import consultation_to_plain
from drill.service.plan import Plan
from drill.service.plan_contract import plan_to_plain
from drill.service.record import HEALTH, Visit, moment_text

_ALPHABET = "23456789abcdefghjkmnpqrstuvwxyz"
_DRAWN = 5
# Left out of what is kept: the consultation stands beside it, and the trace follows from both.
_NOT_KEPT = ("consultation", "trace", "client", "format")


def new_visit_id(now: datetime, *, rng: random.Random) -> str:
    """Draw an id that can be typed: the day in UTC and five letters or digits that nobody mixes up.

    Args:
        now: When the visit is opened, aware.
        rng: Where the letters come from.

    Returns:
        Such as ``20260105-k7mpx``.
    """
    return f"{now.astimezone(UTC):%Y%m%d}-{''.join(rng.choices(_ALPHABET, k=_DRAWN))}"


def open_visit(plan: Plan, *, visit_id: str, now: datetime, student_mode: bool = False) -> Visit:
    """Open the record of a planned service, one that is not to be done as well.

    Args:
        plan: The plan.
        visit_id: A fresh id.
        now: When, aware.
        student_mode: Whether the school holds steps back until stops are signed.

    Returns:
        The visit, without an event yet.
    """
    kept = {name: value for name, value in plan_to_plain(plan).items() if name not in _NOT_KEPT}
    condition = next((one.value for one in plan.trace if one.decision == "hair.condition"), UNKNOWN)
    return Visit(
        id=visit_id,
        label=plan.consultation.client,
        opened=moment_text(now),
        student_mode=student_mode,
        consultation=consultation_to_plain(plan.consultation),
        plan={**kept, "hair_condition": str(condition)},
        health_lines=_health_lines(plan),
    )


def _health_lines(plan: Plan) -> dict[str, tuple[int, ...]]:
    """Find the entries of the plan's lists that rest on health."""
    curls = next((one for one in plan.trace if one.decision == "test_curls.needed"), None)
    reasons = [row for row in curls.rows if row.then == curls.value] if curls else []
    rests = {
        "verdict_reasons": map(_reads_health, plan.verdict_reasons),
        "tests": map(_reads_health, plan.tests),
        "instead": map(_reads_health, plan.instead),
        "first_aid": map(_reads_health, plan.first_aid),
        "steps": map(_reads_health, plan.steps),
        "cautions": map(_reads_health, plan.cautions),
        "test_curls.why": map(_reads_health, reasons),
        "ask_first": (one.field.startswith(f"{HEALTH}.") for one in plan.ask_first),
    }
    found = {path: tuple(at for at, one in enumerate(marks) if one) for path, marks in rests.items()}
    return {path: places for path, places in found.items() if places}


def _reads_health(row: Row) -> bool:
    return any(name.startswith(f"{HEALTH}.") for name in row.when)
