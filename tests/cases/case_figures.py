"""Figures of a case: what is counted, timed or predicted on its head, as text with at most two decimals."""

from collections.abc import Callable

from written_cases import Case, head_of

from drill.rulebook.rulebook import Rulebook
from drill.service.head import Head
from drill.service.outcome import ZoneOutcome, predict
from drill.service.phases import plan_phases
from drill.service.plan import Plan, plan_service
from drill.service.processing import lookouts

# The maker's longest time on the bottle of every case that says when to look.
LONGEST_MIN = 10.0
# The tools of every case that says how long a phase takes: seconds a tool are minutes of winding.
TOOLS = 60

_Seen = Callable[[ZoneOutcome], object]
_OF_OUTCOME: dict[str, _Seen] = {
    "form": lambda zone: zone.form,
    "evenness": lambda zone: zone.evenness,
    "gap_weeks": lambda zone: zone.gap_weeks,
    "ends_in_two_weeks_mm": lambda zone: zone.later.ends_mm,
}
_Planned = Callable[[Plan], object]
_OF_PLAN: dict[str, _Planned] = {
    "papers_laid_out_on_100": lambda plan: round(100 * plan.totals.papers / _papers_used(plan)),
    "test_curls": lambda plan: plan.test_curls.count,
    "first_look_min": lambda plan: plan.handling.look_out.first_min,
    "next_look_min": lambda plan: plan.handling.look_out.again_min,
}
_READ = ("turns_of_shortest", "wish.against_natural")
_LOOKS = "looks_min"
_PHASE, _TOOLS = "minutes.", "tools"


def _papers_used(plan: Plan) -> int:
    return sum(zone.papers_count for zone in plan.zones.values())


def figures_of(case: Case, rulebook: Rulebook) -> dict[str, object]:
    """Give what the figures that a case states come to under some rules."""
    head = head_of(case, rulebook)
    return {name: _figure(case, head, name) for name in case.stated("figures")}


def _figure(case: Case, head: Head, name: str) -> object:
    if name == _LOOKS:
        looks = lookouts(head.rulebook, longest_min=LONGEST_MIN)
        return tuple(_text(one.minute) for one in looks)
    if name in _OF_PLAN:
        return _text(_OF_PLAN[name](plan_service(head.rulebook, head.consultation)))
    if name.startswith(_PHASE):
        phases = plan_phases(head, tools=TOOLS)
        return next((_text(one.minutes) for one in phases if one.name == name.removeprefix(_PHASE)), "none")
    zone = case.fields["zone"].value
    if name == _TOOLS:
        plan = plan_service(head.rulebook, head.consultation)
        return _text(sum(share.count for share in plan.zones[zone].tools))
    if name in _READ:
        return _text(head.zone(zone).read(name))
    return _text(_OF_OUTCOME[name](predict(head, zones=(zone,)).zones[zone]))


def _text(value: object) -> str:
    return value if isinstance(value, str) else f"{round(float(str(value)), 2):g}"
