"""Feedback: the fact that decides, what is seen, when it would be right, and Stop where it would hurt."""

import pytest

from drill.bank.feedback import (
    _decides_so,
    _example,
    _range_words,
    breaks_limit,
    feedback_on_key,
    feedback_on_wrong,
)
from drill.bank.question import MOST_WORDS, Feedback
from drill.rulebook.condition import Condition, Range
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.overlay import Change, Overlay, apply
from drill.service.head import TOOL_DIAMETER

IDEA = Overlay(
    id="idea", kind="misconception", because="b", source="s", belief="x", seen="It drops.", mend="Mend it."
)
HARM = Overlay(
    id="harm",
    kind="misconception",
    because="b",
    source="s",
    belief="x",
    seen="It burns.",
    mend="Rinse.",
    harm=True,
)


def test_key_says_the_decision_the_fact_and_the_reason(make_head):
    """The reason is the row's own."""
    head = make_head({"history.relaxer": "hydroxide"})
    decided = head.decide("verdict")
    feedback = feedback_on_key(head, decided, look="Ask for the pack.")
    assert feedback.opening == ""
    assert "hydroxide relaxer is on the lengths" in feedback.decides
    assert feedback.seen == decided.because
    assert feedback.text.endswith("Ask for the pack.")


def test_wrong_option_tells_what_the_client_would_see_of_it_on_this_head(make_head):
    """What the outcome computes comes first, and the idea's sentence mends it."""
    head = make_head({"hair.ends": "layered"})
    decided = head.decide("papers", "top")
    feedback = feedback_on_wrong(head, decided, "bookend", (IDEA,), look="Look.")
    assert (feedback.seen, feedback.look) == ("Some ends slip out of the paper and stand off.", "Mend it.")
    assert not feedback.opening
    base = make_head().decide("base_control", "top")
    assert (
        "mm at the scalp stay straight" in feedback_on_wrong(make_head(), base, "off_base", (), look="").seen
    )


def test_wrong_option_of_which_nothing_is_seen_tells_the_idea(make_head):
    """With an idea its own words; without one the item's look, and the row's reason once."""
    head = make_head()
    decided = head.decide("base_direction", "top")
    with_idea = feedback_on_wrong(head, decided, "vertical", (IDEA,), look="Look.")
    assert (with_idea.seen, with_idea.look) == ("It drops.", "Mend it.")
    without = feedback_on_wrong(head, decided, "vertical", (), look="Look.")
    assert (without.seen, without.look) == ("", "Look.")
    assert without.text.count(decided.because) == 1


@pytest.mark.parametrize(
    ("decision", "value", "words"),
    [
        ("tool.diameter_mm", 25.4, "The curl is larger"),
        ("wrap", "spiral", "It hangs in coils of one size"),
        ("base_size", "double", "The hair lies close to the head."),
    ],
)
def test_wrong_option_is_wound_on_this_head(make_head, decision, value, words):
    """Whatever rests on the choice follows it."""
    head = make_head()
    assert words in feedback_on_wrong(head, head.decide(decision, "top"), value, (), look="").seen


@pytest.mark.parametrize(("value", "stops"), [("go", True), ("test_first", True), ("postpone", False)])
def test_value_that_a_limit_forbids_is_stopped(make_head, value, stops):
    """Relaxed hair is never permed, tested or not; putting it off breaks no limit."""
    head = make_head({"history.relaxer": "unsure"})
    assert breaks_limit(head, "verdict", None, value) == stops
    feedback = feedback_on_wrong(head, head.decide("verdict"), value, (), look="")
    assert (feedback.opening == "Stop.") == stops


def test_idea_that_can_harm_is_stopped_although_no_limit_forbids_its_value(make_head):
    """The idea is dangerous, whatever it happens to give here."""
    head = make_head()
    assert feedback_on_wrong(head, head.decide("verdict"), "decline", (HARM,), look="").opening == "Stop."
    assert not breaks_limit(head, "verdict", None, "decline")


def test_limit_of_a_zone_holds_in_its_zone_only(make_head):
    """The nape is never on base; the top of sound hair may be."""
    head = make_head({"wish.root_volume": "high"})
    assert breaks_limit(head, "base_control", "nape_left", "on_base")
    assert not breaks_limit(head, "base_control", "top", "on_base")


@pytest.mark.parametrize(
    ("zone", "decision", "value", "said"),
    [
        ("top", "base_control", "off_base", "low"),
        ("top", "layout", "bricklay", "fine"),
        ("top", "papers", "double_flat", "layered"),
        (None, "verdict", "decline", "hydroxide"),
    ],
)
def test_option_says_when_it_would_be_right(make_head, zone, decision, value, said):
    """The nearest row that gives the value, in as few changes as it takes."""
    head = make_head()
    feedback = feedback_on_wrong(head, head.decide(decision, zone), value, (), look="")
    assert "would be right if" in feedback.right_when
    assert said in feedback.right_when


@pytest.mark.parametrize(
    ("changes", "decision", "value"),
    [
        # Thio on top of a smoothing service is still declined.
        ({"history.smoothing": "yes"}, "verdict", "test_first"),
        # Short fine hair that is coily still wants twice its own curl.
        ({"hair.pattern": "coily"}, "tool.size", "as_wished"),
        # Worn close stays off base at a whorl as well.
        ({"wish.root_volume": "low"}, "base_control", "half_off_base"),
    ],
)
def test_option_never_says_it_would_be_right_where_another_row_still_wins(
    make_head, changes, decision, value
):
    """What is said would be right is decided once more with the facts changed."""
    head = make_head(changes)
    zone = None if decision == "verdict" else "top"
    feedback = feedback_on_wrong(head, head.decide(decision, zone), value, (), look="")
    for wrong in ("thio", "fine", "whorl"):
        assert wrong not in feedback.right_when


def test_span_and_range_are_said_in_words(make_head):
    """No sign of mathematics reaches a student."""
    head = make_head({"health.treatment": "chemotherapy"})
    decided = head.decide("verdict")
    assert "nobody knows when the treatment ended" in feedback_on_key(head, decided, look="").decides
    told = feedback_on_wrong(head, decided, "test_first", (), look="").right_when
    assert told == "“Make test curls first” would be right if the treatment ended at least 6 months ago."
    assert not set("<>=") & set(told)


def test_range_without_a_row_of_its_own_is_tried_at_an_example():
    """Open above, open below, and closed on both sides."""
    assert _example(Condition(values=("a", "b"))) == "a"
    assert _example(Condition(ranges=(Range(low=30),))) == 31
    assert _example(Condition(ranges=(Range(high=15, with_high=False),))) == 14
    assert _example(Condition(ranges=(Range(low=10, high=20),))) == 15
    assert [
        _range_words(text) for text in ("< 15 cm", ">= 30 cm", "<= 2", "> 9.5 turns", "12 in to 18 in")
    ] == [
        "under 15 cm",
        "at least 30 cm",
        "at most 2",
        "over 9.5 turns",
        "12 in to 18 in",
    ]


def test_figure_of_a_formula_has_no_row_to_be_right_by(make_head):
    """A tool's diameter is chosen out of the kit; no row says when another would be right."""
    head = make_head()
    decided = head.decide(TOOL_DIAMETER, "top")
    feedback = feedback_on_wrong(head, decided, 25.4, (), look="Look.")
    assert feedback.right_when == ""
    assert feedback.decides.startswith("Here: ")


def test_row_about_service_and_zone_alone_has_no_fact_to_tell(make_head):
    """Both stand in the question already."""
    head = make_head({"service": "practice_wrap", "hair.density": "thin"})
    feedback = feedback_on_key(head, head.decide("layout", "top"), look="")
    assert feedback.decides.startswith("Here: straight set. The nine-section wrap")
    assert not feedback.seen


def test_feedback_leaves_its_last_parts_out_beyond_sixty_words():
    """The decision always stays; what does not fit is left out whole."""
    long = " ".join(["word"] * 40) + "."
    feedback = Feedback(
        opening="Stop.", decides="Here: a, since b.", seen=long, look=long, right_when="Short."
    )
    assert feedback.text.startswith("Stop. Here: a, since b. word")
    assert len(feedback.text.split()) <= MOST_WORDS
    assert feedback.text.count(".") >= 3


def test_change_that_would_leave_a_gap_is_not_said_to_be_right(rulebook, make_head):
    """Under a school's rules a table may have no answer there; then nothing is promised."""
    gap = apply(
        rulebook,
        Overlay(
            id="gap",
            kind="local_rule",
            because="b",
            source="s",
            changes=(Change(op="remove", target="papers", at="double-for-layered-ends"),),
        ),
    )
    head = make_head()
    decided = head.decide("papers", "top")
    layered = [("hair.ends", Condition(values=("layered",)))]
    table = rulebook.tables["papers"]
    assert _decides_so(head, table, decided, layered, "double_flat")
    assert not _decides_so(head, gap.tables["papers"], decided, layered, "double_flat")


def test_outcome_that_nobody_can_predict_leaves_the_ideas_own_words(make_head, monkeypatch):
    """Another decision may lead to a head that no table knows."""
    head = make_head()
    decided = head.decide("base_control", "top")

    def undecided(*_args, **_kwargs):
        raise UndecidedError(head.rulebook.tables["papers"], {})

    monkeypatch.setattr("drill.bank.feedback.predict", undecided)
    assert feedback_on_wrong(head, decided, "off_base", (IDEA,), look="").seen == "It drops."
