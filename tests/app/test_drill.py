"""A student drills on the phone: taps, reads, is cut off, and goes on."""

import pytest
from small_book import Clock, new_session

from drill.basis.problem import Place, Problem, ProblemsError
from drill.store.sqlite_log import open_log


def wrong_option(session):
    return next(option for option in session.sitting.question.options if not option.correct)


def answer(phone, session, *, right=True, certainty="middle"):
    question = session.sitting.question
    option = question.answer if right else wrong_option(session)
    phone.tap(f"option:{option.id}")
    phone.tap(f"sure:{certainty}")
    return question, option


def test_the_first_screen_shows_the_head_what_comes_and_the_exam(phone):
    """The head comes first, in words as well."""
    assert phone.app.view.screen.name == "today"
    assert "Larkfield School of Hair" in phone.texts
    assert "Theory exam in 41 days, 12 April" in phone.texts
    assert "No decision is holding yet." in phone.texts
    assert "5 decisions are not wound yet." in phone.texts
    assert "Not met yet: 5" in phone.texts


def test_what_the_screen_value_says_is_on_the_glass(phone, session):
    """Every text of the value is drawn, and no other."""
    phone.tap("start")
    for step in ("option:a", "sure:low", "source", "next"):
        assert sorted(phone.texts) == sorted(phone.app.view.screen.texts)
        phone.tap(step)
    assert sorted(phone.texts) == sorted(phone.app.view.screen.texts)


def test_each_answer_is_in_the_log_before_its_reveal_is_read(phone, session, log, clock):
    """Several questions by tapping; the log has each as it was given."""
    phone.tap("start")
    for count, (right, certainty) in enumerate([(True, "high"), (False, "low"), (True, "middle")], start=1):
        clock.pass_s(20)
        question, option = answer(phone, session, right=right, certainty=certainty)
        kept = log.attempts("Wren")
        assert len(kept) == count
        assert kept[-1].skill == question.skill
        assert kept[-1].choice == str(option.value)
        assert kept[-1].correct is right
        assert kept[-1].certainty == certainty
        assert kept[-1].misconceptions == option.misconceptions
        assert kept[-1].seconds == 20
        assert phone.app.view.screen.name == "reveal"
        assert ("That holds" in phone.texts) is right
        assert option.text in phone.texts
        assert question.answer.text in phone.texts
        phone.tap("next")
    assert "4 of 12" in phone.texts


def test_certainty_is_asked_inside_the_chosen_answer_and_nothing_is_revealed(phone, session, log):
    """One under the other, from the least sure to the surest, before the log or the screen says a thing."""
    phone.tap("start")
    phone.tap("option:b")
    names = [f"sure:{one}" for one in ("low", "middle", "high")]
    places = [phone.touches[name].to_window(*phone.touches[name].center) for name in names]
    assert [x for x, _ in places] == [places[0][0]] * 3
    assert places[0][1] > places[1][1] > places[2][1]
    card = phone.touches["option:b"].parent
    assert all(phone.touches[name].parent is card for name in names)
    assert phone.touches["option:a"].parent is not card
    assert {"I'd ask first", "I'd check", "I'd do it"} <= set(phone.texts)
    assert log.attempts("Wren") == ()
    assert "That holds" not in phone.texts


def test_a_choice_can_be_changed_until_the_certainty_is_said(phone, session, log):
    """The certainties move into the new choice."""
    phone.tap("start")
    phone.tap("option:a")
    phone.tap("option:c")
    assert phone.touches["sure:low"].parent is phone.touches["option:c"].parent
    phone.tap("sure:low")
    assert [one.choice for one in log.attempts("Wren")] == [
        str(session.sitting.last.question.option("c").value)
    ]


def test_the_certainties_are_in_sight_without_scrolling(phone):
    """Who chooses the last option sees at once what comes next."""
    phone.tap("start")
    last = max(action for action in phone.touches if action.startswith("option:"))
    phone.tap(last)
    for certainty in ("low", "middle", "high"):
        assert phone.is_in_sight(phone.touches[f"sure:{certainty}"])


def test_the_source_is_told_on_demand(phone):
    """Folded at first."""
    phone.tap("start")
    phone.tap("option:a")
    phone.tap("sure:middle")
    assert "Common practice" not in phone.texts
    phone.tap("source")
    assert "Common practice" in phone.texts
    assert phone.is_in_sight(phone.touches["source"])
    phone.tap("source")
    assert "Common practice" not in phone.texts


def test_after_a_kill_the_sitting_goes_on_with_its_count(switch_on, log, clock, tmp_path):
    """A new process on the same log: the same day, the same count."""
    first = new_session(log, clock=clock)
    phone = switch_on(first)
    phone.tap("start")
    for _ in range(2):
        answer(phone, first)
        phone.tap("next")
    phone.close()
    log.close()
    clock.pass_s(60)
    with open_log(tmp_path / "wren.log") as reopened:
        second = new_session(reopened, clock=clock)
        again = switch_on(second)
        assert "A sitting waits: 2 of 12 answered." in again.texts
        again.tap("resume")
        assert "3 of 12" in again.texts
        answer(again, second)
        assert len(reopened.attempts("Wren")) == 3
        again.close()


def test_on_the_next_study_day_nothing_waits(switch_on, log):
    """The day turned over in between."""
    first = new_session(log, clock=Clock())
    phone = switch_on(first)
    phone.tap("start")
    answer(phone, first)
    phone.close()
    clock = Clock()
    clock.pass_s(24 * 3600)
    assert "resume" not in switch_on(new_session(log, clock=clock)).touches


def test_back_puts_the_sitting_aside_and_then_leaves_the_app(phone):
    """The key of the system, twice."""
    phone.tap("start")
    phone.tap("option:a")
    assert phone.back()
    assert phone.app.view.screen.name == "today"
    assert "resume" in phone.touches
    assert not phone.back()


def test_pause_leaves_to_the_head(phone):
    """The touch in the bar does what the key does."""
    phone.tap("start")
    phone.tap("leave")
    assert "A sitting waits: 0 of 12 answered." in phone.texts


def test_turning_the_phone_keeps_the_choice(phone, session):
    """On its side the head stands beside the question."""
    phone.tap("start")
    phone.tap("option:b")
    assert len(phone.app.view.scrolls) == 1
    phone.turn(800, 360)
    assert session.sitting.chosen == "b"
    assert len(phone.app.view.scrolls) == 2
    assert phone.app.view.scrolls[0].x < phone.app.view.scrolls[1].x
    assert phone.is_in_sight(phone.touches["sure:high"])
    phone.tap("sure:high")
    assert phone.app.view.screen.name == "reveal"
    phone.turn(360, 640)
    assert len(phone.app.view.scrolls) == 1
    phone.tap("next")
    assert "2 of 12" in phone.texts


def test_time_with_the_screen_dark_counts_for_nothing(phone, session, log, clock):
    """The system pauses the app for an hour between question and answer."""
    phone.tap("start")
    clock.pass_s(10)
    assert phone.app.dispatch("on_pause") is True
    clock.pass_s(3600)
    phone.app.dispatch("on_resume")
    phone.wait(0.1)
    clock.pass_s(5)
    answer(phone, session)
    assert log.attempts("Wren")[0].seconds == 15


def test_a_long_screen_is_read_by_dragging(phone):
    """What is below comes up with the finger."""
    scroll = phone.app.view.scrolls[0]
    before = scroll.scroll_y
    phone.drag((360, 400), (360, 900))
    assert scroll.scroll_y < before


def test_the_length_of_a_sitting_is_chosen_and_kept(phone, log, clock):
    """Five minutes, now and the next time."""
    phone.tap("goal:minutes")
    assert phone.touches["goal:minutes"].press_value.is_on
    assert not phone.touches["goal:questions"].press_value.is_on
    phone.tap("start")
    assert "5 min left" in phone.texts
    assert new_session(log, clock=clock).goal.minutes == 5


def test_a_whole_sitting_ends_with_what_held_and_what_needs_work(phone, session):
    """Until nothing is left today."""
    phone.tap("start")
    asked = []
    while session.sitting.phase != "done":
        question, _ = answer(phone, session, right=len(asked) != 1)
        asked.append(question)
        phone.tap("next")
    assert len(asked) == 5
    assert {"Done for now", "Held", "Needs work", "4 decisions are holding."} <= set(phone.texts)
    phone.tap("home")
    assert "Everything has been asked today and rests until tomorrow." in phone.texts
    assert "start" not in phone.touches


def test_the_first_frame_does_not_wait_for_the_book(switch_on, session):
    """What opens the session is called when a screen has been drawn."""
    seen = []

    def open_session():
        from kivy.core.window import Window

        seen.append([widget.screen.name for root in Window.children for widget in root.children])
        return session

    phone = switch_on(open_session)
    assert seen == [["opening"]]
    assert phone.app.view.screen.name == "today"


def test_a_log_that_cannot_be_opened_is_told_and_tried_again(switch_on, session):
    """With what was found and what helps; no traceback."""
    calls = []

    def open_session():
        calls.append(1)
        if len(calls) == 1:
            raise ProblemsError([Problem(Place("wren.log"), "this file is no log", "use another name")])
        return session

    phone = switch_on(open_session)
    assert {"wren.log:1:1", "this file is no log", "use another name"} <= set(phone.texts)
    phone.tap("again")
    assert phone.app.view.screen.name == "today"


class FullDisk:
    """A log whose disk is full until it is told otherwise."""

    def __init__(self, log):
        self.log, self.is_full = log, True

    def append(self, attempt):
        if self.is_full:
            raise ProblemsError([Problem(Place("wren.log"), "the disk is full", "make room")])
        self.log.append(attempt)

    def __getattr__(self, name):
        return getattr(self.log, name)


def test_an_answer_that_cannot_be_kept_is_not_revealed(switch_on, log, clock):
    """The reveal comes once the answer is in the log."""
    disk = FullDisk(log)
    session = new_session(disk, clock=clock)
    phone = switch_on(session)
    phone.tap("start")
    answer(phone, session)
    assert "the disk is full" in phone.texts
    assert "That holds" not in phone.texts
    assert log.attempts("Wren") == ()
    disk.is_full = False
    phone.tap("again")
    assert "That holds" in phone.texts
    assert len(log.attempts("Wren")) == 1


@pytest.mark.parametrize("key", [8, 13, 282])
def test_other_keys_change_nothing(phone, key):
    """The framework's own panels stay shut."""
    before = phone.texts
    phone.Window.dispatch("on_keyboard", key, 0, None, [])
    phone.wait(0.2)
    assert phone.texts == before
