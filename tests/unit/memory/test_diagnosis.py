"""Weak topics: what is mixed into a topic's standing."""

import pytest

from drill.memory.diagnosis import (
    FIRST_RIGHT,
    GUESS,
    SLIP,
    first_right_shares,
    known_shares,
    p_right_from_recall,
    recall_from_p_right,
    topic_report,
)
from drill.memory.recall import fold_class, recall_on


def test_guess_and_slip_bound_a_right_answer():
    """Nobody is below a guess or above a slip; the way back is bounded too."""
    assert p_right_from_recall(0) == GUESS
    assert p_right_from_recall(1) == pytest.approx(1 - SLIP)
    assert recall_from_p_right(p_right_from_recall(0.6)) == pytest.approx(0.6)
    assert (recall_from_p_right(0.1), recall_from_p_right(1.0)) == (0.02, 0.95)


def test_share_when_nobody_has_answered_then_it_is_the_prior():
    """Without an answer the prior stands."""
    shares = first_right_shares({"Ada": {}}, skills_by_topic={"t": ["a"]})
    assert shares == {("Ada", "t"): pytest.approx(FIRST_RIGHT)}
    known = known_shares({}, skills_by_topic={"t": ["a"]})
    assert known == {"t": pytest.approx(0.30, abs=1e-3)}


def _class(make_attempt, marks):
    """Fold first answers: student to text of 1 and 0, skill by skill."""
    return fold_class(
        make_attempt(student=student, skill=f"s{n}", correct=mark == "1")
        for student, text in marks.items()
        for n, mark in enumerate(text)
    )


def test_share_when_one_student_is_better_then_it_lies_between_own_and_class(make_attempt):
    """A student's share is drawn towards the class's, and keeps its side of it."""
    folded = _class(make_attempt, {"Ada": "1111", "Bo": "0000", "Cy": "1"})
    shares = first_right_shares(folded, skills_by_topic={"t": [f"s{n}" for n in range(4)]})
    mean = (5 + 10 * FIRST_RIGHT) / (9 + 10)
    assert 0 < shares["Bo", "t"] < mean < shares["Cy", "t"] < shares["Ada", "t"] < 1


def test_share_when_the_class_agrees_then_it_is_drawn_hard(make_attempt):
    """Where students hardly differ, one's own few answers count for little."""
    topics = {"t": [f"s{n}" for n in range(8)]}
    alike = _class(make_attempt, {"Ada": "11110000", "Bo": "11000011", "Cy": "10101010", "Di": "1111"})
    apart = _class(make_attempt, {"Ada": "11111111", "Bo": "00000000", "Cy": "00000000", "Di": "1111"})
    shares_alike = first_right_shares(alike, skills_by_topic=topics)
    shares_apart = first_right_shares(apart, skills_by_topic=topics)
    assert shares_alike["Di", "t"] < 0.7
    assert shares_apart["Di", "t"] > 0.8


def test_report_when_part_is_seen_then_the_rest_is_filled_in(make_attempt):
    """Seen skills count by recall, unseen ones by the share of first answers."""
    attempts = [
        make_attempt(skill="a", correct=False),
        make_attempt(skill="a", days=1),
        make_attempt(skill="b"),
    ]
    folded = fold_class(attempts)
    topics = {"t": ["a", "b", "c"], "u": ["d"], "empty": []}
    day = attempts[0].day + 9
    standings = {one.topic: one for one in topic_report(folded, skills_by_topic=topics, day=day)["Ada Reyes"]}
    assert set(standings) == {"t", "u"}
    t = standings["t"]
    assert (t.answers, t.skills_seen, t.skills) == (3, 2, 3)
    shares = first_right_shares(folded, skills_by_topic={"t": ["a", "b", "c"], "u": ["d"]})
    unseen = shares["Ada Reyes", "t"]
    recalls = [recall_on(memory, day=day) for memory in folded["Ada Reyes"].values()]
    assert t.p_right == pytest.approx((sum(map(p_right_from_recall, recalls)) + unseen) / 3)
    assert t.recall == pytest.approx((sum(recalls) + recall_from_p_right(unseen)) / 3)
    u = standings["u"]
    assert (u.answers, u.skills_seen) == (0, 0)
    assert u.p_right == pytest.approx(shares["Ada Reyes", "u"])


def test_report_puts_the_weakest_topic_first(make_attempt):
    """Topics come from the weakest to the strongest, by name where they tie."""
    attempts = [make_attempt(skill="strong"), make_attempt(skill="weak", correct=False)]
    topics = {"z": ["strong"], "y": ["weak"], "b": ["new-1"], "a": ["new-2"]}
    report = topic_report(fold_class(attempts), skills_by_topic=topics, day=attempts[0].day + 20)
    order = [one.topic for one in report["Ada Reyes"]]
    assert order.index("y") < order.index("z")
    assert order.index("a") == order.index("b") - 1
