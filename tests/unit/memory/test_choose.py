"""The order of skills: what is asked, why, and how topics are kept apart."""

import pytest

from drill.memory.choose import (
    AFTER_WRONG_S,
    ANSWER_S,
    FIRST_TIME_S,
    HORIZON_DAYS,
    KNOWN_SHARE,
    SPREAD,
    Choice,
    Reason,
    choose_skill,
    rank_skills,
    spread_topics,
    stability_if_right,
    stability_if_wrong,
)
from drill.memory.recall import PARAMETERS, Memory, add_attempt, forgetting_curve, recall_on

TODAY = 20_500


def _memory(skill, **values):
    fields = {"stability": 10.0, "difficulty": 5.0, "last_day": TODAY - 8, "attempts": 2, "right": 1}
    return Memory(skill=skill, **fields | {"first_right": False, "last_right": True} | values)


def _order(memories, topics, **values):
    return [one.skill for one in rank_skills(memories, skills_by_topic=topics, today=TODAY, **values)]


@pytest.mark.parametrize("correct", [True, False])
def test_predicted_stability_is_what_the_fold_gives(make_attempt, correct):
    """The two short formulas give what the fold gives after the answer."""
    memory = None
    for days in (0, 1, 4, 11, 30, 75):
        attempt = make_attempt(days=days, correct=correct, certainty="high")
        after = add_attempt(memory, attempt)
        if memory is not None:
            recall = recall_on(memory, day=attempt.day)
            formula = stability_if_right if correct else stability_if_wrong
            assert formula(memory, recall=recall) == pytest.approx(after.stability, rel=1e-9)
        memory = after


def test_stability_if_wrong_never_falls_to_nothing():
    """A tiny stability stays above zero, so that the curve can be drawn."""
    assert stability_if_wrong(_memory("a", stability=0.001, difficulty=10.0), recall=0.9) == 0.001


def test_gain_of_a_new_skill_is_the_formula_s():
    """An unseen skill is worth what those gain who do not know it, for the seconds that it takes."""
    (choice,) = rank_skills({}, skills_by_topic={"t": ["a"]}, today=TODAY, exam_day=TODAY + 20)
    unknown = 1 - KNOWN_SHARE
    gain = unknown * forgetting_curve(20, stability=PARAMETERS[0])
    assert choice.gain_per_s == pytest.approx(gain / (ANSWER_S + FIRST_TIME_S + AFTER_WRONG_S * unknown))
    assert choice.reason == Reason(kind="new", topic="t")


def test_gain_of_a_seen_skill_is_the_formula_s():
    """A seen skill is worth the gain in recall at the exam over not asking it."""
    memory = _memory("a")
    (choice,) = rank_skills({"a": memory}, skills_by_topic={"t": ["a"]}, today=TODAY, exam_day=TODAY + 20)
    p = forgetting_curve(8, stability=10.0)
    right = forgetting_curve(20, stability=stability_if_right(memory, recall=p))
    wrong = forgetting_curve(20, stability=stability_if_wrong(memory, recall=p))
    gain = p * right + (1 - p) * wrong - forgetting_curve(28, stability=10.0)
    assert choice.gain_per_s == pytest.approx(gain / (ANSWER_S + AFTER_WRONG_S * (1 - p)))
    assert choice.reason == Reason(kind="fading", topic="t", recall=p, days_since=8)


def test_rank_when_asked_today_then_it_rests():
    """A skill is asked once a study day; all asked means nothing to choose."""
    memories = {"a": _memory("a", last_day=TODAY), "b": _memory("b")}
    assert _order(memories, {"t": ["a", "b"]}) == ["b"]
    assert choose_skill(rank_skills(memories, skills_by_topic={"t": ["a"]}, today=TODAY)) is None


def test_rank_when_a_clock_once_ran_ahead_then_the_skill_is_not_lost():
    """A last day that lies ahead does not hide the skill until then."""
    memories = {"a": _memory("a", last_day=TODAY + 300)}
    (choice,) = rank_skills(memories, skills_by_topic={"t": ["a"]}, today=TODAY)
    yesterday = {"a": _memory("a", last_day=TODAY - 1)}
    (same,) = rank_skills(yesterday, skills_by_topic={"t": ["a"]}, today=TODAY)
    assert choice.gain_per_s == same.gain_per_s
    assert choice.reason.days_since == 0


def test_rank_when_weights_differ_then_the_heavier_topic_comes_first():
    """A topic's weight is shared by its skills; one that is not in the exam comes last."""
    topics = {"heavy": ["h1", "h2"], "light": ["l1"], "none": ["n1"]}
    assert _order({}, topics, weight_by_topic={"heavy": 0.9, "light": 0.1}) == ["h1", "h2", "l1", "n1"]
    # 0.5 over 5 skills is less than 0.2 over one.
    wide = {"wide": list("abcde"), "narrow": ["n"]}
    assert _order({}, wide, weight_by_topic={"wide": 0.5, "narrow": 0.2})[0] == "n"


def test_rank_when_a_topic_is_known_then_it_can_wait():
    """What is known already gains less."""
    topics = {"known": ["k"], "unknown": ["u"]}
    assert _order({}, topics, known_by_topic={"known": 0.9, "unknown": 0.1}) == ["u", "k"]


def test_rank_when_a_skill_takes_long_then_it_is_worth_less_a_second():
    """Gain is counted for a second of study."""
    assert _order({}, {"t": ["a", "b"]}, seconds_by_skill={"a": 60.0}) == ["b", "a"]


def test_rank_when_all_is_alike_then_the_topics_take_turns():
    """Equal gains have one order on every machine: topic by topic in turn, each in its own order."""
    assert _order({}, {"t": ["c", "a"], "u": ["b"]}) == ["c", "b", "a"]


def test_rank_when_the_exam_is_near_then_fresh_memories_lose_their_place():
    """The exam day changes the order; a past one is the same as none."""
    topics = {"t": ["old", "new"]}
    memories = {"old": _memory("old", last_day=TODAY - 30)}
    gains = {}
    for exam_day in (None, TODAY - 1, TODAY, TODAY + 1, TODAY + HORIZON_DAYS):
        ranked = rank_skills(memories, skills_by_topic=topics, today=TODAY, exam_day=exam_day)
        gains[exam_day] = {one.skill: one.gain_per_s for one in ranked}
    assert gains[None] == gains[TODAY - 1] == gains[TODAY + HORIZON_DAYS]
    assert gains[TODAY] == gains[TODAY + 1] != gains[None]


def test_reason_when_wrong_last_then_it_says_so():
    """A skill that went wrong last time is asked for that reason."""
    memories = {"a": _memory("a", last_right=False)}
    choice = choose_skill(rank_skills(memories, skills_by_topic={"t": ["a"]}, today=TODAY))
    assert choice is not None
    assert choice.reason.kind == "wrong_last"
    assert choice.reason.topic == "t"


def _choices(topics):
    return [
        Choice(skill=f"{n:02}", gain_per_s=1.0, reason=Reason(kind="new", topic=topic))
        for n, topic in enumerate(topics)
    ]


def test_spread_when_topics_mix_then_neighbours_differ():
    """The best that is not of the topic just asked takes the place."""
    order = spread_topics(_choices("aaabbb"))
    assert "".join(one.reason.topic for one in order) == "ababab"
    assert [one.skill for one in order] == ["00", "03", "01", "04", "02", "05"]


def test_spread_when_another_topic_is_too_far_then_the_best_is_taken():
    """Nothing is fetched from beyond the next eight."""
    near = spread_topics(_choices("a" * SPREAD + "b"))
    assert near[1].reason.topic == "b"
    far = spread_topics(_choices("a" * (SPREAD + 1) + "b"))
    assert far[1].skill == "01"
    assert far[2].reason.topic == "b"


def test_choose_when_the_topic_was_just_asked_then_another_comes():
    """The first of a sitting is the best; after it, the best of another topic."""
    ranked = _choices("aab")
    assert choose_skill(ranked).skill == "00"
    assert choose_skill(ranked, last_topic="a").skill == "02"
    assert choose_skill(ranked[:2], last_topic="a").skill == "00"
