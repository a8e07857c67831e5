"""A mock exam on the screens: how it goes, items against the clock, marks, and whys on demand."""

from dataclasses import replace

import pytest
from small_book import BOOK, new_session

from drill.app.flow import Flow
from drill.app.show_exam import exam_item_screen, minutes_words
from drill.app.show_question import caution_words
from drill.bank.blueprint import Blueprint, Outline
from drill.bank.book import School
from drill.bank.item import Item, Wrong
from drill.study.exam import end_exam
from drill.study.exam_session import ExamSession

HARM = "lift-is-always-on-base"


def fact(number):
    return Item(
        id=f"fact-{number}",
        topic="base_control",
        kind="choose",
        stem=f"what is {number}?",
        answer="this",
        wrong=(Wrong(text="that", misconception=HARM), Wrong(text="those"), Wrong(text="none")),
        because="So it is.",
        source="common practice",
    )


EXAM_BOOK = replace(
    BOOK,
    items=tuple(fact(n) for n in range(4)),
    blueprint=Blueprint(
        outline=Outline(title="Theory examination", source="X1", items=4, minutes=4),
        because="These are ours.",
    ),
)


@pytest.fixture
def flow(log, clock):
    return Flow(new_session(log, clock=clock, book=EXAM_BOOK))


def options_of(flow):
    return {one.text: f"exam-option:{one.id}" for one in flow.exam.exam.exam.question.options}


def actions(screen):
    return [press.action for press in screen.presses]


def test_the_exam_is_reached_from_the_first_screen_and_told_before_it_begins(flow, clock):
    """Items, time, where both come from; the clock waits."""
    assert "exam" in actions(flow.screen())
    screen = flow.press("exam")
    assert (screen.name, screen.title) == ("exam-rules", "Mock exam")
    told = " ".join(screen.texts)
    assert "4 items" in told
    assert "4 minutes, 60 seconds an item." in told
    assert "Theory examination (National-Interstate Council" in told
    assert "These are ours." in told
    assert actions(screen) == ["exam-leave", "exam-begin"]
    clock.pass_s(600)
    assert flow.press("exam-begin").right == "4 min left"


def test_a_schools_shares_are_told(log, clock):
    """In place of the built-in weights."""
    book = replace(
        EXAM_BOOK, school=School(name="Larkfield", blueprint={"base_control": 1.0}), blueprint=Blueprint()
    )
    screen = Flow(new_session(log, clock=clock, book=book)).press("exam")
    assert "As Larkfield states." in screen.texts
    assert "Where the time comes from" not in screen.texts


def test_an_item_asks_no_certainty_and_tells_nothing(flow, log):
    """A choice can be changed until it is handed in."""
    flow.press("exam")
    screen = flow.press("exam-begin")
    assert (screen.name, screen.title, screen.foot[0].text) == ("exam-item", "1 of 4", "Leave it open")
    assert screen.share == 0
    options = options_of(flow)
    screen = flow.press(options["that"])
    assert screen.foot[0].text == "Hand in"
    assert screen.show == (options["that"],)
    screen = flow.press(options["this"])
    assert [press.text for press in screen.presses if press.is_on] == ["this"]
    assert not any("I'd" in text for text in screen.texts)
    assert log.attempts("Wren") == ()
    screen = flow.press("exam-next")
    assert (screen.name, screen.title) == ("exam-item", "2 of 4")
    (attempt,) = log.attempts("Wren")
    assert (attempt.setting, attempt.correct, attempt.certainty) == ("exam", True, None)


def to_the_marks(flow):
    """One right, one that shows an idea, two left open."""
    flow.press("exam")
    flow.press("exam-begin")
    for text in ("this", "that"):
        flow.press(options_of(flow)[text])
        flow.press("exam-next")
    flow.press("exam-next")
    return flow.press("exam-next")


def test_marks_come_by_topic_with_interval_pass_mark_and_ideas(flow):
    """And each item leads to its why."""
    screen = to_the_marks(flow)
    told = " ".join(screen.texts)
    assert screen.name == "exam-marks"
    assert "1 of 4" in told
    assert f"Pass mark {100 * EXAM_BOOK.school.pass_mark:.0f} % not reached" in told
    # Wilson, 1 of 4.
    assert "By these marks from 5 to 70 % of such items would be right." in told
    assert "Left open, without a mark: 2" in told
    assert f"“{EXAM_BOOK.beliefs[HARM].belief}” (1)" in told
    assert EXAM_BOOK.beliefs[HARM].mend in told
    assert screen.caution == caution_words()
    assert [one for one in actions(screen) if one.startswith("exam-why")] == [
        f"exam-why:{n}" for n in range(4)
    ]


def test_a_why_says_what_was_chosen_and_what_holds(flow):
    """Open items too; back leads to the marks, and from there to the first screen."""
    to_the_marks(flow)
    right, wrong, open_one = (flow.press(f"exam-why:{at}") for at in (0, 1, 2))
    assert (right.name, right.title) == ("exam-why", "Item 1")
    assert [part.sign for part in right.parts[:2]] == ["", "right"]
    assert (wrong.parts[1].text, wrong.parts[1].sign) == ("that", "other")
    assert open_one.parts[1].text == "Left open"
    assert "So it is." in " ".join(open_one.texts)
    assert flow.press("exam-marks").name == "exam-marks"
    flow.press("exam-why:1")
    assert flow.back()
    assert flow.screen().name == "exam-marks"
    assert flow.back()
    assert flow.screen().name == "today"
    assert not flow.back()


def test_a_passed_exam_without_a_wrong_idea_says_so(flow):
    """All four held; the marks then name no idea and nothing open."""
    flow.press("exam")
    flow.press("exam-begin")
    for _ in range(4):
        flow.press(options_of(flow)["this"])
        screen = flow.press("exam-next")
    told = " ".join(screen.texts)
    assert " % reached" in told
    assert "Ideas met" not in told
    assert "Left open" not in told
    assert flow.press("exam-leave").name == "today"


def test_the_clock_alone_changes_the_screen_once_a_minute_and_ends_the_exam(flow, clock):
    """What was handed in before counts."""
    assert not flow.tick()
    flow.press("exam")
    assert not flow.tick()
    flow.press("exam-begin")
    clock.pass_s(30)
    assert flow.tick()
    assert flow.screen().right == "3 min left"
    assert not flow.tick()
    clock.pass_s(200)
    assert flow.screen().right == "last minute"
    clock.pass_s(11)
    assert flow.tick()
    assert flow.screen().name == "exam-marks"
    assert not flow.tick()


def test_leaving_an_exam_ends_it_and_keeps_what_was_handed_in(flow, log):
    """By the bar or by the system's way back."""
    flow.press("exam")
    flow.press("exam-begin")
    flow.press(options_of(flow)["this"])
    flow.press("exam-next")
    assert flow.back()
    assert flow.screen().name == "exam-marks"
    assert len(log.attempts("Wren")) == 1
    flow.press("exam-leave")
    flow.press("exam")
    flow.press("exam-begin")
    assert flow.press("exam-end").name == "exam-marks"


def test_before_it_begins_back_leads_out(flow):
    """Nothing was asked."""
    flow.press("exam")
    assert flow.back()
    assert flow.screen().name == "today"


def test_a_book_without_such_items_cannot_begin(log, clock):
    """It says so; without any item there is no way to an exam at all."""
    three = replace(fact(1), wrong=(Wrong(text="that"), Wrong(text="those")))
    screen = Flow(new_session(log, clock=clock, book=replace(EXAM_BOOK, items=(three,)))).press("exam")
    assert "There is nothing to ask in this book." in screen.texts
    assert actions(screen) == ["exam-leave"]
    bare = Flow(new_session(log, clock=clock, book=replace(EXAM_BOOK, items=())))
    assert "exam" not in actions(bare.screen())


def test_actions_that_no_screen_has_are_refused(flow):
    """Within an exam and outside."""
    with pytest.raises(ValueError, match="exam-begin"):
        flow.press("exam-begin")
    flow.press("exam")
    with pytest.raises(ValueError, match="exam-fly"):
        flow.press("exam-fly")


def test_an_exam_that_is_over_shows_no_item(log, clock):
    """A front asks for the marks then."""
    session = ExamSession(new_session(log, clock=clock, book=EXAM_BOOK), seed=1)
    with pytest.raises(ValueError, match="over"):
        exam_item_screen(end_exam(session.exam, now=session.session.now), seconds_left=0)


@pytest.mark.parametrize(
    ("seconds", "words"), [(59.9, "last minute"), (60, "1 min left"), (1960, "32 min left")]
)
def test_time_is_told_in_whole_minutes(seconds, words):
    """So that it does not press."""
    assert minutes_words(seconds) == words
