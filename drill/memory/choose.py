"""Which skill to ask next, and why: the greatest gain on the exam day for a second of study.

A skill is asked once a study day. The sum of the gains is only a model's guess; that an order by due day is
worse was measured on made-up learners, not on students.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp
from typing import Literal

from drill.memory.recall import PARAMETERS, Memory, forgetting_curve, recall_on

# Without an exam day, study for two months ahead: about the rest of a term.
HORIZON_DAYS = 60
# Common practice until a student's own times are known: to read and answer, to read why it was wrong, to
# meet a decision for the first time.
ANSWER_S = 25.0
AFTER_WRONG_S = 20.0
FIRST_TIME_S = 20.0
# What a beginner is taken to know already of a topic that nobody has answered; see diagnosis.FIRST_RIGHT.
KNOWN_SHARE = 0.30
# So far ahead in the order may a skill be fetched to keep two neighbours from being of one topic.
SPREAD = 8
_STABILITY_MIN = 0.001

ReasonKind = Literal["new", "fading", "wrong_last"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a skill is asked, as data; the words are made where they are shown.

    Attributes:
        kind: Never asked, right last time but fading, or wrong last time.
        topic: The topic it belongs to.
        recall: Predicted recall today; None for a new one.
        days_since: Study days since it was last asked; None for a new one.
    """

    kind: ReasonKind
    topic: str
    recall: float | None = None
    days_since: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A skill in its place in the order.

    Attributes:
        skill: What to ask.
        gain_per_s: Weight times the gain in recall on the exam day, for a second of study; 0 or more,
            or a little below where an answer could only hurt.
        reason: Why it is asked.
    """

    skill: str
    gain_per_s: float
    reason: Reason


def stability_if_right(memory: Memory, *, recall: float) -> float:
    """Predict stability after a right and sure answer on a later day.

    Args:
        memory: Before the answer.
        recall: Predicted recall when it is given.

    Returns:
        Days, at least as many as before.

    Source:
        Open Spaced Repetition, the FSRS algorithm, stability after recall (w8, w9, w10).
    """
    w, s = PARAMETERS, memory.stability
    growth: float = exp(w[8]) * (11 - memory.difficulty) * s ** -w[9] * (exp((1 - recall) * w[10]) - 1)
    return s * (1 + growth)


def stability_if_wrong(memory: Memory, *, recall: float) -> float:
    """Predict stability after a wrong answer on a later day.

    Args:
        memory: Before the answer.
        recall: Predicted recall when it is given.

    Returns:
        Days, fewer than before.

    Source:
        Open Spaced Repetition, the FSRS algorithm, stability after forgetting (w11 to w14), not above
        S / e^(w17 w18).
    """
    w, s = PARAMETERS, memory.stability
    long = w[11] * memory.difficulty ** -w[12] * ((s + 1) ** w[13] - 1) * exp((1 - recall) * w[14])
    lowered: float = max(_STABILITY_MIN, min(long, s / exp(w[17] * w[18])))
    return lowered


def _gain_of_new(*, known: float, left_days: int, answer_s: float) -> float:
    # Only those who do not know it gain: scoring a known one as forgotten would make testing look harmful.
    gain = (1 - known) * forgetting_curve(left_days, stability=PARAMETERS[0])
    return gain / (answer_s + FIRST_TIME_S + AFTER_WRONG_S * (1 - known))


def _gain_of_seen(memory: Memory, *, elapsed_days: int, left_days: int, answer_s: float) -> float:
    recall = forgetting_curve(elapsed_days, stability=memory.stability)
    right = forgetting_curve(left_days, stability=stability_if_right(memory, recall=recall))
    wrong = forgetting_curve(left_days, stability=stability_if_wrong(memory, recall=recall))
    unasked = forgetting_curve(elapsed_days + left_days, stability=memory.stability)
    gain = recall * right + (1 - recall) * wrong - unasked
    return gain / (answer_s + AFTER_WRONG_S * (1 - recall))


def _reason(memory: Memory, *, topic: str, today: int) -> Reason:
    return Reason(
        kind="fading" if memory.last_right else "wrong_last",
        topic=topic,
        recall=recall_on(memory, day=today),
        days_since=max(0, today - memory.last_day),
    )


def _left_days(today: int, exam_day: int | None) -> int:
    if exam_day is None or exam_day < today:
        return HORIZON_DAYS
    return max(1, exam_day - today)


def rank_skills(
    memories: Mapping[str, Memory],
    *,
    skills_by_topic: Mapping[str, Sequence[str]],
    today: int,
    exam_day: int | None = None,
    weight_by_topic: Mapping[str, float] | None = None,
    known_by_topic: Mapping[str, float] | None = None,
    seconds_by_skill: Mapping[str, float] | None = None,
) -> tuple[Choice, ...]:
    """Order the skills that may be asked today by what an answer is worth.

    Args:
        memories: Skill to memory, of one student; skills that are not in the topics are passed over.
        skills_by_topic: Topic to its skills.
        today: Study day. A memory whose last day lies after it comes from a clock that once ran ahead,
            and counts as asked the day before.
        exam_day: Study day of the exam; None or one that is past means :data:`HORIZON_DAYS` from today.
        weight_by_topic: Topic to its share of the exam, shared evenly among its skills; a topic left out
            weighs nothing and comes last; None weighs every skill alike. Who wants to raise a topic
            raises its weight.
        known_by_topic: Topic to the share that is known before the first answer
            (``diagnosis.known_shares``); :data:`KNOWN_SHARE` for those left out.
        seconds_by_skill: Skill to the student's usual seconds for an answer; :data:`ANSWER_S` for those
            left out.

    Returns:
        Best first, every skill that was not asked today; :func:`choose_skill` takes from it.

    Source:
        Greedy choice of the greatest predicted gain for its cost; the formulas of the two
        ``stability_if_`` functions and of ``recall.forgetting_curve``.
    """
    left_days = _left_days(today, exam_day)
    choices: list[tuple[int, Choice]] = []
    for topic, skills in skills_by_topic.items():
        weight = 1.0 if weight_by_topic is None else weight_by_topic.get(topic, 0.0) / max(1, len(skills))
        known = (known_by_topic or {}).get(topic, KNOWN_SHARE)
        for place, skill in enumerate(skills):
            answer_s = (seconds_by_skill or {}).get(skill, ANSWER_S)
            memory = memories.get(skill)
            if memory is None:
                gain = _gain_of_new(known=known, left_days=left_days, answer_s=answer_s)
                reason = Reason(kind="new", topic=topic)
            elif memory.last_day == today:
                continue
            else:
                elapsed_days = max(1, today - memory.last_day)
                gain = _gain_of_seen(
                    memory, elapsed_days=elapsed_days, left_days=left_days, answer_s=answer_s
                )
                reason = _reason(memory, topic=topic, today=today)
            choices.append((place, Choice(skill=skill, gain_per_s=weight * gain, reason=reason)))
    # New skills of like worth are taken topic by topic in turn, each topic in its own order.
    choices.sort(key=lambda one: (-one[1].gain_per_s, one[0], one[1].reason.topic, one[1].skill))
    return tuple(choice for _, choice in choices)


def spread_topics(ranked: Sequence[Choice], *, last_topic: str | None = None) -> tuple[Choice, ...]:
    """Keep neighbours of one topic apart.

    Args:
        ranked: Best first.
        last_topic: The topic just asked.

    Returns:
        The same choices. Each place takes the best that is left unless its topic was just asked; then
        the best of another topic among the next :data:`SPREAD`, if there is one. No choice waits longer
        than one place for its turn.
    """
    waiting, order = list(ranked), []
    while waiting:
        place = next((n for n, one in enumerate(waiting[:SPREAD]) if one.reason.topic != last_topic), 0)
        order.append(waiting.pop(place))
        last_topic = order[-1].reason.topic
    return tuple(order)


def choose_skill(ranked: Sequence[Choice], *, last_topic: str | None = None) -> Choice | None:
    """Take the skill to ask next.

    Args:
        ranked: What is left of the order of this sitting; an answer changes only its own skill, which
            then rests until tomorrow, so that the rest need not be ranked again.
        last_topic: The topic just asked; None at the start.

    Returns:
        The skill and the reason; None when every skill has been asked today.
    """
    return next(iter(spread_topics(ranked[:SPREAD], last_topic=last_topic)), None)
