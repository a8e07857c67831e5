"""Attempts into the wrong ideas that a student is likely to hold, one probability for each idea.

Counting wrong choices fails as soon as reasons are shown, because students let go of ideas; so belief goes
down again by what they pass over later.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from math import exp, log

from drill.memory.attempt import Attempt, in_time_order
from drill.memory.diagnosis import FIRST_RIGHT, p_right_from_recall
from drill.memory.recall import Memory, add_attempt, recall_on

# Assumptions of a trial on made-up learners, to be held against the first class.
HELD_AT_FIRST = 0.15
SLIP_FROM_IDEA = 0.25  # a student who holds an idea still answers otherwise so often
UNLEARNED = 0.15  # and lets go of it so often when the reason is shown
CERTAINTY_EVIDENCE: Mapping[str | None, float] = {"low": -0.65, "middle": 0.08, "high": 0.60, None: 0.0}
SHOW_AT = 0.5
REPORT_AT = 0.8
# A harmful idea is told at first sight, and until it was offered and passed over so many times in a row.
HARMFUL_CLEAR_ANSWERS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """How likely a student holds one wrong idea now.

    Attributes:
        misconception: Its id.
        probability: From .001 to .999.
        offered: How many times an option of it could be chosen.
        chosen: How many times it was.
        sure: How many of those with high certainty.
        passed_over: How many times in a row it was offered and not chosen, up to now.
        last_chosen_day: Study day of the last choice; None if never chosen.
        show: Whether the student and the tutor are shown it as likely.
        report: Whether the tutor is told to act: very likely, or harmful and chosen of late.
    """

    misconception: str
    probability: float = HELD_AT_FIRST
    offered: int = 0
    chosen: int = 0
    sure: int = 0
    passed_over: int = 0
    last_chosen_day: int | None = None
    show: bool = False
    report: bool = False


def _any_other(ideas: Iterable[str], beliefs: Mapping[str, Belief], but: str) -> float:
    none = 1.0
    for idea in ideas:
        if idea != but:
            none *= 1 - beliefs[idea].probability
    return 1 - none


def _weigh(belief: Belief, *, attempt: Attempt, p_right: float, other: float) -> Belief:
    """Weigh one answer for or against one idea that could have given one of its options."""
    by_chance = min(max((1 - p_right) / 3, 0.02), 0.3)
    chosen = belief.misconception in attempt.misconceptions
    odds = log(belief.probability / (1 - belief.probability))
    if chosen:
        # Another idea that gives the same option explains the choice as well.
        by_chance += (1 - SLIP_FROM_IDEA - by_chance) * other
        odds += log((1 - SLIP_FROM_IDEA) / by_chance) + CERTAINTY_EVIDENCE[attempt.certainty]
    else:
        odds += log(SLIP_FROM_IDEA / (1 - by_chance))
    probability = 1 / (1 + exp(-odds))
    if chosen and attempt.setting == "drill":  # an exam shows no reason
        probability *= 1 - UNLEARNED
    return replace(
        belief,
        probability=min(max(probability, 0.001), 0.999),
        offered=belief.offered + 1,
        chosen=belief.chosen + chosen,
        sure=belief.sure + (chosen and attempt.certainty == "high"),
        passed_over=0 if chosen else belief.passed_over + 1,
        last_chosen_day=attempt.day if chosen else belief.last_chosen_day,
    )


def _judge(belief: Belief, harmful: frozenset[str]) -> Belief:
    alarming = (
        belief.misconception in harmful and belief.chosen > 0 and belief.passed_over < HARMFUL_CLEAR_ANSWERS
    )
    report = alarming or belief.probability >= REPORT_AT
    return replace(belief, show=report or belief.probability >= SHOW_AT, report=report)


@dataclass(slots=True)
class _Student:
    """What is known of one student while the attempts are read."""

    memories: dict[str, Memory]
    beliefs: dict[str, Belief]


def _read_attempt(student: _Student, attempt: Attempt, offered: frozenset[str]) -> None:
    memory = student.memories.get(attempt.skill)
    p_right = FIRST_RIGHT if memory is None else p_right_from_recall(recall_on(memory, day=attempt.day))
    before = student.beliefs
    for idea in offered.union(attempt.misconceptions):
        before.setdefault(idea, Belief(misconception=idea))
    # Every idea is weighed against what was believed before this answer, so that their order is nothing.
    student.beliefs = before | {
        idea: _weigh(
            before[idea],
            attempt=attempt,
            p_right=p_right,
            other=_any_other(attempt.misconceptions, before, idea),
        )
        for idea in sorted(offered.union(attempt.misconceptions))
    }
    student.memories[attempt.skill] = add_attempt(memory, attempt)


def misconception_report(
    attempts: Iterable[Attempt],
    *,
    offered: Callable[[Attempt], frozenset[str]],
    harmful: frozenset[str] = frozenset(),
) -> dict[str, tuple[Belief, ...]]:
    """Report the wrong ideas that each student is likely to hold now.

    Args:
        attempts: Of one or many students, in any order, each once.
        offered: Gives the ids of all wrong ideas that any option of the attempt's question would reveal;
            the log keeps only those of the option chosen, which count as offered in any case.
        harmful: Ids of ideas that can hurt a client: reported at first sight.

    Returns:
        Student to beliefs, the likeliest first; ideas that were never offered are left out.

    Source:
        Bayes' rule in log odds, one value for each student and idea; method after Brown and Burton,
        Cognitive Science 2: 155-192, 1978 (a wrong answer as a right run of a faulty rule). The chances
        are assumptions, named above.
    """
    students: dict[str, _Student] = {}
    for attempt in in_time_order(attempts):
        student = students.setdefault(attempt.student, _Student({}, {}))
        _read_attempt(student, attempt, offered(attempt))
    return {
        name: tuple(
            sorted(
                (_judge(belief, harmful) for belief in students[name].beliefs.values()),
                key=lambda belief: (-belief.probability, belief.misconception),
            )
        )
        for name in sorted(students)
    }
