"""Preliminary test curls read back against the plan: go on, change lotion or tool, wait, or stop.

A good test is no permission: the maker's longest time stays the limit and the instructor signs. The strands
of the test are never processed again.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.evaluate import decide
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import Decision
from drill.service.coil import need_not_negative, need_positive
from drill.service.facts import FACTS
from drill.service.head import Head
from drill.service.kit import Kit, Tool, tools_of_shape
from drill.service.plan import Plan

STRENGTHS = ("treated", "normal", "resistant")
DECISION, WAY = "revise", "revise.way"
_STRONGER = {"stronger": 1, "milder": -1}
_LARGER = {"larger": 1, "smaller": -1}


@dataclass(frozen=True, slots=True, kw_only=True)
class TestCurlsSeen:
    """What the test curls have shown.

    Attributes:
        minutes: Minutes that lotion lay on them; None where nobody looked at a clock.
        longest_min: The maker's longest time in minutes; None where it is not known.
        wet: The curl wet: ``none``, ``weak``, ``right``, ``too_tight``, ``frizzy`` or ``unknown``.
        dry: The curl dry, the same.
        hair: The strand afterwards: ``sound``, ``harsh``, ``gum_like``, ``shedding`` or ``unknown``.
        skin: The scalp under them: ``calm``, ``sore`` or ``unknown``.
    """

    __test__ = False  # the trade's word, not a test case

    minutes: float | None
    longest_min: float | None
    wet: str = UNKNOWN
    dry: str = UNKNOWN
    hair: str = UNKNOWN
    skin: str = UNKNOWN


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """What follows from the test curls.

    Attributes:
        do: ``go_on``, ``other_tool``, ``other_lotion``, ``condition_and_wait`` or ``stop``.
        way: ``stronger``, ``milder``, ``smaller``, ``larger`` or ``none``.
        words: What to do, every row that led to it, strictest first.
        because: Why, in the same order.
        minutes: The time of the test as a guide for the head; None where it may not go on.
        strength: Strength of the next lotion to test; empty where the lotion stays or there is none.
        tools_mm: Diameter of the next tool to test, by zone; empty where the tools stay.
        notes: What stands in the way, such as a size that the kit lacks.
        excluded: Zones whose test strands are kept out of every later service.
        cautions: What holds whatever the test has shown.
        trace: Both decisions with their rows.
    """

    do: str
    way: str
    words: tuple[str, ...]
    because: tuple[str, ...]
    minutes: float | None
    strength: str
    tools_mm: Mapping[str, float]
    notes: tuple[str, ...]
    excluded: tuple[str, ...]
    cautions: tuple[str, ...]
    trace: tuple[Decision, ...]


def revise(
    rulebook: Rulebook, plan: Plan, seen: TestCurlsSeen, *, facts: Mapping[str, Fact] = FACTS
) -> Revision:
    """Read test curls against the plan that they tested.

    Args:
        rulebook: The rules in force, those that the plan was made with.
        plan: The plan.
        seen: What the test curls have shown.
        facts: Computed facts by name.

    Returns:
        What follows. A change of lotion or tool is tested anew before the head is wound.

    Raises:
        ValueError: If the plan was made with other rules, a number is out of range, or a value is none of
            the vocabulary's.

    Source:
        Tables ``revise`` and ``revise.way``, limits ``gum-or-shedding-stops`` and those after it; common
        practice.
    """
    if plan.rulebook != rulebook.digest:
        raise ValueError("the plan was made with other rules: plan again before reading the test curls")
    head = Head(rulebook, plan.consultation, facts=facts)
    known = _known(rulebook, seen)
    decision = _decide(head, DECISION, known)
    way = _decide(head, WAY, {**known, DECISION: str(decision.value)})
    do = rulebook.built_in(DECISION, str(decision.value))
    turn = rulebook.built_in(WAY, str(way.value))
    strength, lotion_notes = _next_strength(plan, turn)
    tools_mm, tool_notes = _next_tools(plan, turn)
    rows = [row for row in decision.rows if row.then == decision.value]
    return Revision(
        do=do,
        way=turn,
        words=tuple(dict.fromkeys(say(row.say or row.because) for row in rows)),
        because=tuple(dict.fromkeys(say(row.because) for row in rows)),
        minutes=seen.minutes if do == "go_on" else None,
        strength=strength,
        tools_mm=tools_mm,
        notes=(*lotion_notes, *tool_notes),
        excluded=plan.test_curls.zones,
        cautions=_cautions(),
        trace=(decision, way),
    )


def _known(rulebook: Rulebook, seen: TestCurlsSeen) -> dict[str, str]:
    known = {
        "revise.time": _time(seen),
        "revise.wet": seen.wet,
        "revise.dry": seen.dry,
        "revise.hair": seen.hair,
        "revise.skin": seen.skin,
    }
    for name, value in known.items():
        values = rulebook.domains[name].values
        if value not in values:
            raise ValueError(f"{name} must be one of {', '.join(values)}, got {value}")
    return known


def _time(seen: TestCurlsSeen) -> str:
    for name, value in (("minutes", seen.minutes), ("longest_min", seen.longest_min)):
        if value is not None and not math.isfinite(value):
            raise ValueError(f"{name} must be a number of minutes, got {value}")
    if seen.minutes is not None:
        need_not_negative(minutes=seen.minutes)
    if seen.longest_min is not None:
        need_positive(longest_min=seen.longest_min)
    if seen.minutes is None or seen.longest_min is None:
        return UNKNOWN
    return "within" if seen.minutes <= seen.longest_min else "over"


def _decide(head: Head, decision: str, known: Mapping[str, str]) -> Decision:
    """Decide on the head with what the test has shown laid over it."""
    table = head.rulebook.tables[decision]
    read: dict[str, Value] = {
        name: known[name] if name in known else head.evaluation.read(name) for name in table.inputs
    }
    return decide(table, read, parameters=head.rulebook.values)


def _next_strength(plan: Plan, way: str) -> tuple[str, tuple[str, ...]]:
    if way not in _STRONGER:
        return "", ()
    now = plan.lotion["strength"]
    at = STRENGTHS.index(now) + _STRONGER[way] if now in STRENGTHS else -1
    if 0 <= at < len(STRENGTHS):
        return STRENGTHS[at], ()
    return "", (say("There is no such lotion beyond the one tested; the instructor decides."),)


def _next_tools(plan: Plan, way: str) -> tuple[dict[str, float], tuple[str, ...]]:
    if way not in _LARGER:
        return {}, ()
    found, lacking = dict[str, float](), []
    for name, zone in plan.zones.items():
        tool = _neighbour(plan.consultation.kit, zone.shape, zone.diameter_mm, _LARGER[way])
        if tool is None:
            lacking.append(name)
        else:
            found[name] = tool.diameter_mm
    if not lacking:
        return found, ()
    return found, (say("The kit has no next size for {count} of the zones.", count=len(lacking)),)


def _neighbour(kit: Kit, shape: str, diameter_mm: float, way: int) -> Tool | None:
    """Give the next size of a shape, in the direction asked for."""
    tools = [tool for tool in tools_of_shape(kit, shape) if (tool.diameter_mm - diameter_mm) * way > 0]
    return min(tools, key=lambda tool: abs(tool.diameter_mm - diameter_mm), default=None)


def _cautions() -> tuple[str, ...]:
    return (
        say("The strands of the test are not processed again, whatever follows."),
        say("The maker's longest time stays the limit on the head; the time of the test is a guide only."),
        say("Test curls are no allergy test."),
        say("The licensed practitioner, in a school the instructor, decides."),
    )
