"""What each screen says, offers and draws; no window is opened."""

import subprocess
import sys
from dataclasses import replace
from datetime import timedelta

import pytest
from small_book import BOOK, new_session

from drill.app.flow import Flow
from drill.app.opening import opening_screen, problem_screen
from drill.app.screen import Answer, Picture, Words
from drill.app.show_question import caution_words, question_screen, reveal_screen
from drill.bank.book import School
from drill.basis.problem import NOWHERE, Place, Problem
from drill.service.shapes import Polygon
from drill.study.session import FIVE_MINUTES, TWELVE_QUESTIONS


@pytest.fixture
def flow(session):
    return Flow(session)


def labelled(screen):
    return {part.label: part.text for part in screen.parts if isinstance(part, Words) and part.label}


def pictures(screen):
    return [part for part in (*screen.aside, *screen.parts) if isinstance(part, Picture)]


def press_until(flow, wanted):
    """Answer rightly until a question is shown for which something holds."""
    screen = flow.press("start")
    while not wanted(flow.session.sitting.question):
        answer_now(flow)
        screen = flow.press("next")
    return screen


def answer_now(flow, *, value=None, certainty="middle"):
    question = flow.session.sitting.question
    option = next(one for one in question.options if (one.correct if value is None else one.value == value))
    flow.press(f"option:{option.id}")
    return flow.press(f"sure:{certainty}")


def test_screens_are_made_without_a_window():
    """Nothing of the framework is loaded."""
    code = "import sys, drill.app.flow, drill.app.opening; sys.exit('kivy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_the_first_screen_is_made_before_the_model_of_memory_is_loaded():
    """What takes long to load waits."""
    code = "import sys, drill.app.opening; sys.exit('fsrs' in sys.modules or 'drill.bank' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


class TestToday:
    def test_a_new_student_sees_what_has_not_been_met(self, flow):
        """All five decisions, and why they come."""
        screen = flow.screen()
        assert screen.name == "today"
        assert screen.title == "Larkfield School of Hair"
        assert "Not met yet: 5" in screen.texts
        assert "The first one is from: Base control." in screen.texts
        assert [press.action for press in screen.presses] == [
            "goal:minutes", "goal:questions", "exam", "lotion", "start",
        ]  # fmt: skip
        assert not screen.caution

    def test_on_a_later_day_it_says_what_held_and_what_did_not(self, flow, clock):
        """Three reasons, each with its number."""
        press_until(flow, lambda question: question.decision == "papers")
        answer_now(flow, value=next(o.value for o in flow.session.sitting.question.options if not o.correct))
        flow.press("leave")
        clock.at += timedelta(days=3)
        told = next(text for text in flow.screen().texts if "Did not hold last time" in text)
        before = len(flow.session.memories) - 1
        assert told.splitlines()[0] == "Did not hold last time: 1"
        assert f"Held, and begins to fade: {before}" in told
        assert f"Not met yet: {5 - 1 - before}" in told

    def test_topics_say_their_states_in_words(self, flow):
        """States without a decision are left out."""
        assert labelled(flow.screen())["Base control"] == "2 not wound"

    @pytest.mark.parametrize(
        ("exam_date", "words"),
        [
            ("2026-04-12", "Theory exam in 41 days, 12 April"),
            ("2026-03-03", "Theory exam tomorrow, 3 March"),
            ("2026-03-02", "Theory exam today"),
            ("2026-03-01", None),
            ("", None),
        ],
    )
    def test_the_exam_is_told_until_its_day(self, log, clock, exam_date, words):
        """In days and by its date."""
        book = replace(BOOK, school=School(exam_date=exam_date))
        screen = Flow(new_session(log, clock=clock, book=book)).screen()
        assert screen.title == "Today"
        assert [text for text in screen.texts if text.startswith("Theory exam")] == ([words] if words else [])

    def test_the_chosen_length_is_marked(self, flow):
        """One of the two."""
        assert on(flow.screen()) == ["goal:questions"]
        assert on(flow.press("goal:minutes")) == ["goal:minutes"]
        assert flow.session.goal == FIVE_MINUTES
        assert on(flow.press("goal:questions")) == ["goal:questions"]
        assert flow.session.goal == TWELVE_QUESTIONS

    def test_when_all_was_asked_nothing_can_be_started(self, flow):
        """Until tomorrow."""
        press_until(flow, lambda question: len(flow.session.asked) == 4)
        answer_now(flow)
        flow.press("next")
        screen = flow.press("home")
        assert "Everything has been asked today and rests until tomorrow." in screen.texts
        assert [press.action for press in screen.presses] == ["exam", "lotion"]

    def test_a_book_without_questions_says_so(self, log, clock):
        """No empty start."""
        screen = Flow(new_session(log, clock=clock, book=replace(BOOK, items=()))).screen()
        assert "There is no question set in this book." in screen.texts
        assert [press.action for press in screen.presses] == ["lotion"]

    def test_a_sitting_put_aside_can_go_on_or_start_anew(self, flow):
        """It says how far it was."""
        flow.press("start")
        answer_now(flow)
        screen = flow.press("leave")
        assert "A sitting waits: 1 of 12 answered." in screen.texts
        assert [press.action for press in screen.foot] == ["start", "resume"]
        assert flow.press("resume").right == "2 of 12"

    def test_a_sitting_of_minutes_put_aside_says_its_count(self, flow):
        """There is no whole to compare with."""
        flow.press("goal:minutes")
        flow.press("start")
        answer_now(flow)
        assert "A sitting waits: 1 answered." in flow.press("leave").texts


def on(screen):
    return [press.action for press in screen.presses if press.is_on]


class TestQuestion:
    def test_the_head_comes_first_with_its_facts_and_the_zone_marked(self, flow):
        """The facts are those of the question, in its order."""
        screen = press_until(flow, lambda question: question.decision is not None)
        question = flow.session.sitting.question
        (picture,) = screen.aside
        told = [f"{words.label}: {words.text}" if words.label else words.text for words in picture.beside]
        assert [one.lower() for one in told] == [fact.lower() for fact in question.facts]
        marked = [s.key for s in picture.figure.shapes if isinstance(s, Polygon) and s.role == "chosen"]
        assert marked == [question.zone]
        assert screen.caution == caution_words()

    def test_the_way_the_hair_grows_is_drawn_and_explained(self, flow):
        """An arrow, and a line that says what it is."""
        seen = set()
        flow.press("start")
        while flow.session.sitting.phase != "done":
            question = flow.session.sitting.question
            if question.zone:
                grown = question.consultation.of("hair.growth", question.zone) != "none"
                (picture,) = flow.screen().aside
                assert ("Arrow" in picture.caption) is grown
                assert any(shape.role == "key" for shape in picture.figure.shapes) is grown
                seen.add(grown)
            answer_now(flow)
            flow.press("next")
        assert seen == {True, False}

    def test_a_question_on_the_whole_head_marks_no_zone(self, flow):
        """It says so."""
        press_until(flow, lambda question: question.decision is not None)
        session = flow.session
        whole = replace(session.sitting.question, zone=None, decision="verdict")
        sitting = replace(session.sitting, question=whole)
        (picture,) = question_screen(sitting, BOOK, minutes_used=0).aside
        assert picture.caption.startswith("The whole head")
        assert not any(shape.role == "chosen" for shape in picture.figure.shapes)

    def test_a_fact_has_no_head(self, flow):
        """Only the question and its options."""
        screen = press_until(flow, lambda question: question.decision is None)
        assert screen.aside == ()
        assert sum(isinstance(part, Answer) for part in screen.parts) == 3

    def test_before_a_choice_there_is_no_certainty_and_no_key(self, flow):
        """Nothing shows which option is right."""
        screen = flow.press("start")
        assert not any(action.startswith("sure:") for action in actions(screen))
        assert on(screen) == []
        assert not any(part.sign for part in screen.parts if isinstance(part, Words))

    def test_certainties_stand_in_the_chosen_answer_from_low_to_high(self, flow):
        """As actions at the chair."""
        flow.press("start")
        screen = flow.press("option:b")
        answers = [part for part in screen.parts if isinstance(part, Answer)]
        assert [len(answer.certainties) for answer in answers] == [0, 3, *[0] * (len(answers) - 2)]
        certainties = answers[1].certainties
        assert [press.text for press in certainties] == ["I'd ask first", "I'd check", "I'd do it"]
        assert [press.action for press in certainties] == ["sure:low", "sure:middle", "sure:high"]
        assert screen.show == ("option:b", "sure:high")

    def test_count_and_share_follow_the_sitting(self, flow):
        """Of twelve questions."""
        assert flow.press("start").right == "1 of 12"
        assert flow.screen().share == 0
        assert answer_now(flow).right == "1 of 12"
        assert flow.screen().share == pytest.approx(1 / 12)
        assert flow.press("next").right == "2 of 12"

    def test_minutes_count_down_to_the_last_question(self, flow, clock):
        """Five, two and a half, and less than one."""
        flow.press("goal:minutes")
        assert flow.press("start").right == "5 min left"
        clock.pass_s(180)
        assert flow.screen().right == "2 min left"
        assert flow.screen().share == pytest.approx(0.6)
        clock.pass_s(200)
        assert flow.screen().right == "last one"
        assert flow.screen().share == 1

    def test_a_sitting_without_an_end_shows_its_number(self, flow):
        """No share of an unknown whole."""
        flow.press("start")
        session = flow.session
        endless = replace(session.sitting, goal=replace(session.sitting.goal, questions=None))
        screen = question_screen(endless, BOOK, minutes_used=3)
        assert (screen.right, screen.share) == ("1", None)

    def test_no_question_is_no_screen(self, flow):
        """A fault of the program, told at once."""
        flow.press("start")
        empty = replace(flow.session.sitting, question=None, phase="done")
        with pytest.raises(ValueError, match="no question"):
            question_screen(empty, BOOK, minutes_used=0)
        with pytest.raises(ValueError, match="no answer"):
            reveal_screen(empty, BOOK, minutes_used=0, source_open=False)


def actions(screen):
    return [press.action for press in screen.presses]


class TestReveal:
    def test_a_right_choice_is_told_with_its_reason(self, flow):
        """And no key beside it."""
        press_until(flow, lambda question: question.decision == "papers")
        question = flow.session.sitting.question
        screen = answer_now(flow)
        told = labelled(screen)
        assert (screen.parts[0].text, screen.parts[0].sign) == ("That holds", "right")
        assert told["You chose"] == question.answer.text
        assert "First choice here" not in told
        assert told["What decides"] == question.answer.feedback.decides
        assert told["Why"] == question.answer.feedback.seen
        assert screen.caution == caution_words()

    def test_a_wrong_choice_names_the_key_and_blames_nobody(self, flow):
        """What the client would see, and what to look at next time."""
        press_until(flow, lambda question: question.decision == "papers")
        question = flow.session.sitting.question
        screen = answer_now(flow, value="single_flat")
        told = labelled(screen)
        assert (screen.parts[0].text, screen.parts[0].sign) == ("Not on this head", "other")
        assert told["First choice here"] == question.answer.text
        said = next(one.feedback for one in question.options if one.value == "single_flat")
        assert told["What the client would see"] == said.seen
        assert told["Next time"] == said.look
        words = " ".join(screen.texts).lower()
        assert not any(blame in words for blame in ("wrong", "mistake", "you failed", "incorrect", "score"))

    def test_a_fact_speaks_of_no_head(self, flow):
        """There is none."""
        press_until(flow, lambda question: question.skill == "winding/band-on-the-tool")
        screen = answer_now(flow, value="Close to the scalp")
        assert screen.parts[0].text == "That does not hold"
        assert labelled(screen)["What holds"] == "Straight across the top of the tool, clear of the scalp"

    def test_an_unsafe_choice_is_stopped(self, flow):
        """Before all else."""
        press_until(flow, lambda question: question.skill == "base_control/everyday-half-off")
        screen = answer_now(flow, value="on_base")
        assert (screen.parts[0].text, screen.parts[0].sign) == ("Stop.", "stop")

    def test_feedback_keeps_its_order_and_its_length(self, flow):
        """At most sixty words, the deciding fact first."""
        flow.press("start")
        labels = [
            "What decides",
            "What the client would see",
            "Why",
            "When your choice is right",
            "Next time",
        ]
        while flow.session.sitting.phase != "done":
            wrong = next(one for one in flow.session.sitting.question.options if not one.correct)
            screen = answer_now(flow, value=wrong.value)
            told = labelled(screen)
            shown = [label for label in told if label in labels]
            assert shown == sorted(shown, key=labels.index)
            assert shown[0] == "What decides"
            assert sum(len(told[label].split()) for label in shown) <= 60
            flow.press("next")

    def test_base_control_is_drawn_as_it_is_and_as_it_was_chosen(self, flow):
        """From the side; one view where the choice holds."""
        press_until(flow, lambda question: question.skill == "base_control/everyday-half-off")
        wrong = answer_now(flow, value="off_base")
        assert [one.caption for one in pictures(wrong)[:2]] == [
            "Here: Half off base",
            "Your choice: Off base",
        ]
        here, chosen = pictures(wrong)[:2]
        assert "half off its base" in here.figure.title
        assert "off its base" in chosen.figure.title

    def test_base_control_that_holds_is_drawn_once(self, flow):
        """With the head below it."""
        press_until(flow, lambda question: question.skill == "base_control/everyday-half-off")
        captions = [one.caption for one in pictures(answer_now(flow))]
        assert captions[0] == "Here: Half off base"
        assert len(captions) == 2

    def test_other_decisions_have_no_side_view(self, flow):
        """Only the head map."""
        press_until(flow, lambda question: question.decision == "papers")
        assert len(pictures(answer_now(flow))) == 1

    def test_the_source_unfolds_and_folds_and_is_shut_on_the_next_answer(self, flow):
        """A published key would be written out; common practice is said as it is."""
        flow.press("start")
        answer_now(flow)
        assert "Common practice" not in flow.screen().texts
        screen = flow.press("source")
        assert "Common practice" in screen.texts
        assert screen.show == ("source",)
        flow.press("next")
        assert "Common practice" not in answer_now(flow).texts

    def test_a_published_source_is_written_out(self, flow):
        """The key itself says nothing to a student."""
        flow.press("start")
        answer_now(flow)
        sitting = flow.session.sitting
        key, line = next(iter(BOOK.rulebook.sources.items()))
        question = replace(sitting.last.question, source=key)
        told = replace(sitting, answered=(replace(sitting.last, question=question),))
        assert line in reveal_screen(told, BOOK, minutes_used=0, source_open=True).texts


class TestDone:
    def answer_all(self, flow, wrong):
        flow.press("start")
        while flow.session.sitting.phase != "done":
            question = flow.session.sitting.question
            answer_now(flow, value=wrong.get(question.skill))
            flow.press("next")
        return flow.screen()

    def test_it_says_what_held_what_needs_work_and_the_ideas_met(self, flow):
        """Ideas are told as ideas, with what mends them."""
        screen = self.answer_all(flow, {"papers/double-for-layered-ends": "single_flat"})
        parts = list(screen.parts)
        held, work = (parts.index(Words(text=title, style="title")) for title in ("Held", "Needs work"))
        assert held < work
        assert [part.sign for part in parts[held + 1 : work]] == ["right"] * (work - held - 1)
        assert parts[work + 1].sign == "other"
        assert "end papers" in parts[work + 1].text
        told = labelled(screen)
        assert told["“One flat paper does for every strand.”"].startswith("Look at the ends first")
        assert "Come back tomorrow" in told["Tomorrow"]
        assert screen.caution == caution_words()

    def test_without_a_wrong_answer_nothing_needs_work(self, flow):
        """No empty headings."""
        texts = self.answer_all(flow, {}).texts
        assert "Needs work" not in texts
        assert "Ideas met today" not in texts

    def test_what_was_answered_before_a_break_counts_as_well(self, flow, log, clock):
        """Question and idea, from the log and the book."""
        press_until(flow, lambda question: question.decision == "papers")
        answer_now(flow, value="single_flat")
        clock.pass_s(60)
        again = Flow(new_session(log, clock=clock))
        again.press("resume")
        while again.session.sitting.phase != "done":
            answer_now(again)
            clock.pass_s(10)
            again.press("next")
        assert "“One flat paper does for every strand.”" in again.screen().texts
        assert any("end papers" in text for text in again.screen().texts)
        assert len(again.session.asked) == 5

    def test_a_sitting_with_nothing_to_ask_says_so(self, flow):
        """Started by another front after all was asked."""
        self.answer_all(flow, {})
        flow.session.start()
        assert any("Everything has been asked today." in text for text in flow.screen().texts)

    def test_where_some_are_left_they_can_wait(self, flow):
        """A sitting of minutes that ran out."""
        flow.press("goal:minutes")
        flow.press("start")
        answer_now(flow)
        flow.session.sitting = replace(
            flow.session.sitting, started=flow.session.sitting.started - timedelta(minutes=6)
        )
        screen = flow.press("next")
        assert labelled(screen)["Tomorrow"] == "Come back tomorrow: what was asked today rests until then."


class TestOpeningAndProblems:
    def test_the_opening_shows_a_bare_head(self):
        """Nothing to touch."""
        screen = opening_screen()
        assert screen.presses == ()
        assert len(screen.aside) == 1

    def test_a_problem_says_what_where_and_what_helps(self):
        """Without a place where there is none."""
        problems = [
            Problem(Place("a.log", 2, 3), "it is damaged", "use a copy"),
            Problem(NOWHERE, "no room", "tidy"),
        ]
        screen = problem_screen(problems)
        assert {"a.log:2:3", "it is damaged", "use a copy", "no room", "tidy"} <= set(screen.texts)
        assert [press.action for press in screen.presses] == ["again"]
