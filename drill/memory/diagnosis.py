"""Memories into what a tutor wants to know of each topic: where a student stands, and on how many answers.

A share of right answers is never shown as a topic's worth: what was practised carries its early mistakes,
and what was not practised has no answers at all.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drill.memory.recall import Memory, recall_on

# Assumed until a class has answered: a lucky guess among about four options, a slip in 25 known answers.
GUESS = 0.25
SLIP = 0.04
# With 30 % known at the start, .30 x .96 + .70 x .25 of first answers are right.
FIRST_RIGHT = 0.463
FIRST_RIGHT_WEIGHT = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TopicStanding:
    """How a student stands in one topic.

    Attributes:
        topic: The topic.
        p_right: Mean probability of a right answer over the topic's skills, today.
        recall: Mean predicted recall over them; an unseen skill counts with the share known at first.
        answers: How many answers this rests on.
        skills_seen: How many of the skills were asked at least once.
        skills: How many skills the topic has.
    """

    topic: str
    p_right: float
    recall: float
    answers: int
    skills_seen: int
    skills: int


def p_right_from_recall(recall: float) -> float:
    """Turn recall into the probability of a right answer.

    Args:
        recall: From 0 to 1.

    Returns:
        From :data:`GUESS` to 1 - :data:`SLIP`.

    Source:
        Three-parameter form with guess and slip; both are assumptions.
    """
    return recall * (1 - SLIP) + (1 - recall) * GUESS


def recall_from_p_right(p_right: float) -> float:
    """Turn the probability of a right answer into recall.

    Args:
        p_right: From 0 to 1.

    Returns:
        Recall, kept between .02 and .95: few answers prove neither nothing nor everything.

    Source:
        The inverse of :func:`p_right_from_recall`.
    """
    return min(max((p_right - GUESS) / (1 - SLIP - GUESS), 0.02), 0.95)


@dataclass(frozen=True, slots=True)
class _First:
    """First answers of one student in one topic."""

    right: int
    given: int


def _first_answers(memories: Mapping[str, Memory], skills: Sequence[str]) -> _First:
    seen = [memories[skill] for skill in skills if skill in memories]
    return _First(sum(memory.first_right for memory in seen), len(seen))


def _prior_weight(firsts: Mapping[tuple[str, str], _First], means: Mapping[str, float]) -> float:
    """Estimate by moments how many answers the class's share is worth for one student."""
    num = den = 0.0
    for (_, topic), first in firsts.items():
        if first.given >= 2:  # noqa: PLR2004  one answer tells nothing of a spread
            variance = means[topic] * (1 - means[topic])
            num += (first.right / first.given - means[topic]) ** 2 - variance / first.given
            den += variance * (1 - 1 / first.given)
    spread = min(max(num / max(den, 1e-9), 0.01), 0.9)
    return 1 / spread - 1


def first_right_shares(
    memories_by_student: Mapping[str, Mapping[str, Memory]], *, skills_by_topic: Mapping[str, Sequence[str]]
) -> dict[tuple[str, str], float]:
    """Estimate how likely each student's first answer in a topic is right.

    Args:
        memories_by_student: Student to skill to memory; a class, or one student alone.
        skills_by_topic: Topic to its skills.

    Returns:
        (student, topic) to a probability: the student's own share, drawn towards the class's share in
        that topic, and that towards :data:`FIRST_RIGHT`.

    Source:
        Beta-binomial empirical Bayes, posterior mean (a + x) / (a + b + n); the prior's weight by the
        method of moments.
    """
    firsts = {
        (student, topic): _first_answers(memories, skills)
        for student, memories in memories_by_student.items()
        for topic, skills in skills_by_topic.items()
    }
    right, given = dict.fromkeys(skills_by_topic, 0), dict.fromkeys(skills_by_topic, 0)
    for (_, topic), first in firsts.items():
        right[topic] += first.right
        given[topic] += first.given
    means = {
        topic: (right[topic] + FIRST_RIGHT_WEIGHT * FIRST_RIGHT) / (given[topic] + FIRST_RIGHT_WEIGHT)
        for topic in skills_by_topic
    }
    weight = _prior_weight(firsts, means)
    return {
        key: (first.right + weight * means[key[1]]) / (first.given + weight) for key, first in firsts.items()
    }


def known_shares(
    memories: Mapping[str, Memory], *, skills_by_topic: Mapping[str, Sequence[str]]
) -> dict[str, float]:
    """Estimate what one student knows of each topic's unseen skills.

    Args:
        memories: Skill to memory, of one student.
        skills_by_topic: Topic to its skills.

    Returns:
        Topic to share, guesses taken out.

    Source:
        :func:`first_right_shares`.
    """
    shares = first_right_shares({"": memories}, skills_by_topic=skills_by_topic)
    return {topic: recall_from_p_right(share) for (_, topic), share in shares.items()}


def _topic_standing(
    topic: str, *, skills: Sequence[str], memories: Mapping[str, Memory], unseen: float, day: int
) -> TopicStanding:
    seen = [memories[skill] for skill in skills if skill in memories]
    recalls = [recall_on(memory, day=day) for memory in seen]
    missing = len(skills) - len(seen)
    return TopicStanding(
        topic=topic,
        p_right=(sum(map(p_right_from_recall, recalls)) + missing * unseen) / len(skills),
        recall=(sum(recalls) + missing * recall_from_p_right(unseen)) / len(skills),
        answers=sum(memory.attempts for memory in seen),
        skills_seen=len(seen),
        skills=len(skills),
    )


def topic_report(
    memories_by_student: Mapping[str, Mapping[str, Memory]],
    *,
    skills_by_topic: Mapping[str, Sequence[str]],
    day: int,
) -> dict[str, tuple[TopicStanding, ...]]:
    """Report each student's topics, the weakest first.

    Args:
        memories_by_student: Student to skill to memory (``recall.fold_class``); a class, or one student.
        skills_by_topic: Topic to its skills; a topic without skills is left out.
        day: Study day to report for.

    Returns:
        Student to standings. ``answers`` and ``skills_seen`` belong beside each value where it is shown.

    Source:
        Mean of ``recall.recall_on`` over the skills, unseen ones by :func:`first_right_shares`.
    """
    topics = {topic: skills for topic, skills in skills_by_topic.items() if skills}
    shares = first_right_shares(memories_by_student, skills_by_topic=topics)
    report = {}
    for student, memories in memories_by_student.items():
        standings = [
            _topic_standing(topic, skills=skills, memories=memories, unseen=shares[student, topic], day=day)
            for topic, skills in topics.items()
        ]
        report[student] = tuple(sorted(standings, key=lambda one: (one.p_right, one.topic)))
    return report
