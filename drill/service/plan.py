"""Plan a service: every decision with its reason, in one value.

A plan is a proposal, never permission: the licensed practitioner, the maker's directions and the law decide.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.rulebook.trace import Decision
from drill.service.ask_first import Missing, ask_first
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.handling import Handling, plan_handling
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER, Head
from drill.service.partial import LEFT_OUT, ROLE
from drill.service.phases import Phase, plan_phases
from drill.service.test_curls import TestCurls, plan_test_curls
from drill.service.tool_choice import turns_needed
from drill.service.zone_plan import PAPERS_PER_TOOL, ZonePlan, plan_zones
from drill.service.zones import zone_label

__all__ = [
    "HEAD_DECISIONS",
    "PAPERS_PER_TOOL",
    "SIGN_OFFS",
    "WORKING",
    "Plan",
    "Totals",
    "ZonePlan",
    "plan_service",
]

WORKING = ("go", "test_first")
HEAD_DECISIONS = (
    "waving_lotion.class",
    "waving_lotion.strength",
    "waving_lotion.ester",
    "waving_lotion.heat",
)
# The instructor's five stops among the steps.
SIGN_OFFS = {
    "sign_consultation": "consultation",
    "sign_wrap": "wrap",
    "sign_saturation": "saturation",
    "sign_test_curl": "test_curl",
    "sign_take_down": "before_take_down",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """Sums over the head.

    Attributes:
        tools: Tools in all.
        papers: End papers in all, spare ones among them.
        minutes: Minutes in the chair at the worker's pace; 0 for a service that is not done.
    """

    tools: int
    papers: int
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A planned service.

    Attributes:
        consultation: What it was planned for.
        rulebook: Digest of the rules.
        verdict: Whether it is done.
        verdict_reasons: The rows that gave it, strictest first.
        hair_condition: What the hair bears.
        soft_curl: Whether the natural curl is loosened first, or why it is not.
        questions: Answers that do not fit together, each to be asked once more.
        ask_first: Facts to get, the most deciding first.
        tests: Tests in the order to be done.
        instead: What to do in place of a service that is not done.
        first_aid: What to know before any step.
        zones: The nine zones of a plan that works, else none; one that is left out has no tools.
        handling: Orders, where to look, and what is done from rinse to door; None of a plan that does not
            work.
        lotion: ``class``, ``strength``, ``ester``, ``heat``.
        test_curls: Preliminary test curls.
        steps: In order; of a plan that does not work, none.
        cautions: Always there where lotion is planned.
        notes: What the plan had to settle: growth against wear, tools that run short, time.
        totals: Sums.
        phases: The phases in order with their minutes; of a plan that does not work, none.
        trace: Every decision with its row.
    """

    consultation: Consultation
    rulebook: str
    verdict: str
    verdict_reasons: tuple[Row, ...]
    hair_condition: str
    soft_curl: str
    questions: tuple[Row, ...]
    ask_first: tuple[Missing, ...]
    tests: tuple[Row, ...]
    instead: tuple[Row, ...]
    first_aid: tuple[Row, ...]
    zones: Mapping[str, ZonePlan]
    handling: Handling | None
    lotion: Mapping[str, str]
    test_curls: TestCurls
    steps: tuple[Row, ...]
    cautions: tuple[Row, ...]
    notes: tuple[str, ...]
    totals: Totals
    phases: tuple[Phase, ...]
    trace: tuple[Decision, ...]


def plan_service(
    rulebook: Rulebook, consultation: Consultation, *, facts: Mapping[str, Fact] = FACTS
) -> Plan:
    """Plan a service.

    Args:
        rulebook: The rules in force, proved.
        consultation: What is known of the head.
        facts: Computed facts by name.

    Returns:
        The plan; one whose verdict is neither ``go`` nor ``test_first`` has no zones and no working steps.

    Source:
        The rulebook's rows, each with its own.
    """
    head = Head(rulebook, consultation, facts=facts)
    verdict = head.decide("verdict")
    works = verdict.value in WORKING
    zones, lacking = plan_zones(head) if works else ({}, 0)
    steps = head.evaluation.collected("steps") if works else ()
    tools = sum(share.count for zone in zones.values() for share in zone.tools)
    phases = plan_phases(head, tools=tools) if works else ()
    totals = _totals(head, zones, tools=tools, phases=phases)
    curls = plan_test_curls(head, steps)
    plan = Plan(
        consultation=consultation,
        rulebook=rulebook.digest,
        verdict=str(verdict.value),
        verdict_reasons=_reasons(head, verdict),
        hair_condition=str(head.decide("hair.condition").value),
        soft_curl=str(head.decide("soft_curl").value),
        questions=head.evaluation.collected("questions"),
        ask_first=ask_first(rulebook, _asked_with(head), facts=facts),
        tests=head.evaluation.collected("tests"),
        instead=head.evaluation.collected("instead"),
        first_aid=head.evaluation.collected("first_aid"),
        zones=zones,
        handling=plan_handling(head, zones=_wound(zones)) if works else None,
        lotion={name.partition(".")[2]: str(head.decide(name).value) for name in HEAD_DECISIONS},
        test_curls=curls,
        steps=steps,
        cautions=head.evaluation.collected("cautions"),
        notes=_notes(head, zones, totals, lacking),
        totals=totals,
        phases=phases,
        trace=(),
    )
    return _with_trace(plan, head)


def _asked_with(head: Head) -> dict[str, Value]:
    """Give what the verdict reads when it is asked which missing fact decides most.

    Answers that do not fit stop the service whatever else is answered, so they count as cleared up here.
    """
    domains = head.rulebook.domains
    inputs = {name: head.evaluation.read(name) for name, domain in domains.items() if domain.per == "head"}
    return inputs | {"answers.fit": "yes"}


def _reasons(head: Head, verdict: Decision) -> tuple[Row, ...]:
    """Order the rows that held by strictness, and leave out what a stricter one makes idle talk."""
    table = head.rulebook.tables["verdict"]
    mildest = table.gives[0]
    held = [row for row in verdict.rows if row.then != mildest] or list(verdict.rows)
    return tuple(sorted(held, key=lambda row: -table.strictness(row.then)))


def _wound(zones: Mapping[str, ZonePlan]) -> tuple[str, ...]:
    return tuple(name for name, zone in zones.items() if zone.role != LEFT_OUT)


def _totals(head: Head, zones: Mapping[str, ZonePlan], *, tools: int, phases: tuple[Phase, ...]) -> Totals:
    papers = sum(zone.papers_count for zone in zones.values())
    spare = float(head.rulebook.values["papers.spare_share"])
    return Totals(
        tools=tools, papers=round(papers * (1 + spare)), minutes=sum(phase.minutes for phase in phases)
    )


def _notes(head: Head, zones: Mapping[str, ZonePlan], totals: Totals, lacking: int) -> tuple[str, ...]:
    notes = []
    wound = _wound(zones)
    against = [zone for zone in wound if head.zone(zone).read("wear_against_growth") == "yes"]
    if against:
        notes.append(
            say("Growth wins over the wish in: {zones}. Tell the client why.", zones=_zone_words(against))
        )
    needed = turns_needed(head.evaluation.read("wish.curl_class"), head.rulebook.values)
    short = [zone for zone in wound if head.winding(zone).turns_shortest < needed]
    if short:
        notes.append(
            say(
                "Too short for the wished curl in: {zones}. The hair does not go round the tool often enough "
                "there; show the client what will come of it.",
                zones=_zone_words(short),
            )
        )
    mixed = [
        zone
        for zone in wound
        if any(share.diameter_mm != zones[zone].diameter_mm for share in zones[zone].tools)
    ]
    if mixed:
        notes.append(
            say(
                "The chosen size runs out in: {zones}. Wind the sizes listed there in turn, so that no line "
                "shows.",
                zones=_zone_words(mixed),
            )
        )
    if lacking:
        notes.append(say("The kit lacks {count} tools for this head.", count=lacking))
    free = head.consultation.of("appointment")
    if isinstance(free, float) and totals.minutes > free:
        notes.append(
            say(
                "The chair is free for {free} minutes; this takes about {needed}. Book a longer time.",
                free=f"{free:g}",
                needed=totals.minutes,
            )
        )
    return tuple(notes)


def _zone_words(zones: list[str]) -> str:
    return ", ".join(map(zone_label, zones))


def _with_trace(plan: Plan, head: Head) -> Plan:
    trace = list(head.evaluation.decisions.values())
    for zone in _wound(plan.zones):
        trace += head.zone(zone).decisions.values()
        trace += [head.decide(name, zone) for name in (TOOL_DIAMETER, *COMPUTED_FIGURES)]
    trace += [head.decide(ROLE, zone) for zone, one in plan.zones.items() if one.role == LEFT_OUT]
    return replace(plan, trace=tuple(trace))
