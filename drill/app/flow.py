"""What a touch does: actions into steps of the session, and the screen that follows."""

from contextlib import suppress
from dataclasses import replace

from drill.app.answer_flow import VERBS, AnswerFlow
from drill.app.exam_flow import ExamFlow
from drill.app.lotion_flow import LotionFlow
from drill.app.opening import problem_screen
from drill.app.screen import Screen
from drill.app.show import done_screen, today_screen
from drill.app.show_exam import exam_entry
from drill.app.show_lotion import lotion_entry
from drill.app.show_question import question_screen, reveal_screen
from drill.basis.problem import Problem, ProblemsError
from drill.study.exam_session import ExamSession
from drill.study.session import FIVE_MINUTES, TWELVE_QUESTIONS, Session

_PAPERS = 1_000_000
_GOALS = {"minutes": FIVE_MINUTES, "questions": TWELVE_QUESTIONS}


class Flow:
    """The way through the screens.

    Args:
        session: The student at work.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        self.answer = AnswerFlow(session)
        self._source_open = False
        self._problems: tuple[Problem, ...] = ()
        self._failed = ""
        self.exam: ExamFlow | None = None
        self.lotion = LotionFlow(session.book.rulebook, clock=lambda: session.now)

    def screen(self) -> Screen:
        """Give the screen as things stand; where the log cannot be read, one that says so."""
        if not self._problems:
            try:
                return self._screen()
            except ProblemsError as error:
                self._problems, self._failed = error.problems, ""
        return problem_screen(self._problems)

    def _screen(self) -> Screen:
        if self.lotion.is_open:
            return self.lotion.screen()
        if self.exam is not None:
            return self.exam.screen()
        session = self.session
        sitting = session.sitting
        if sitting is None:
            today = today_screen(
                session.book,
                session.memories,
                day=session.day,
                coming=session.coming(),
                goal=session.goal,
                aside=session.open_sitting(),
            )
            entries = (exam_entry(),) if session.book.items else ()
            return replace(today, parts=(*today.parts, *entries, lotion_entry(self.lotion.lotion)))
        if sitting.phase == "done":
            return done_screen(
                session.book,
                session.memories,
                day=sitting.day,
                asked=session.asked,
                questions=session.questions_asked(),
                left=len(session.coming()),
            )
        if sitting.phase == "reveal":
            return reveal_screen(
                sitting, session.book, minutes_used=session.minutes_used, source_open=self._source_open
            )
        return question_screen(
            sitting, session.book, minutes_used=session.minutes_used, draft=self.answer.draft
        )

    def press(self, action: str) -> Screen:
        """Do what a touch asks for.

        Args:
            action: Of a touch on the screen.

        Returns:
            The screen that follows; where something stood in the way, one that says so and offers to try
            the same again.

        Raises:
            ValueError: If no screen has such an action.
        """
        if action == "again":
            action, self._problems = self._failed, ()
        try:
            if action:
                self._do(action)
        except ProblemsError as error:
            self._problems, self._failed = error.problems, action
        return self.screen()

    def pause(self) -> None:
        """Stop the clock of the sitting, as when the screen goes dark."""
        # Every answer is kept already; where this cannot be written, only seconds are lost.
        with suppress(ProblemsError):
            self.session.pause()

    def unpause(self) -> Screen:
        """Let the clock run on.

        Returns:
            The screen as things stand now, on a new study day where one has begun.
        """
        self.session.unpause()
        return self.screen()

    def tick(self) -> bool:
        """Look at the clocks of lotion and of an exam.

        Returns:
            True where it alone has changed what is to be shown.
        """
        return self.lotion.has_changed() or (self.exam is not None and self.exam.has_changed())

    def back(self) -> bool:
        """Go one step back.

        Returns:
            True where there was a step; False on the first screen, which the system then leaves.
        """
        if self._problems:
            self._problems = ()
            return True
        if self.lotion.is_open:
            self.press("lotion_leave")
            return True
        if self.exam is not None:
            self.exam.back()
            self._leave_exam()
            return True
        if self.session.sitting is None:
            return False
        self.press("leave")
        return True

    def _do(self, action: str) -> None:
        verb, _, what = action.partition(":")
        if verb.startswith("lotion"):
            self.lotion.do(verb, what)
            return
        if verb.startswith("exam"):
            self._do_in_exam(verb, what)
            return
        if verb in VERBS:
            self.answer.do(verb, what)
            return
        self._do_in_sitting(verb, what)

    def _do_in_sitting(self, verb: str, what: str) -> None:
        session = self.session
        match verb:
            case "start":
                session.start()
            case "resume":
                session.resume()
            case "goal":
                session.prefer(_GOALS[what])
            case "sure":
                self._say_certainty(what)
            case "next":
                session.go_on()
            case "source":
                self._source_open = not self._source_open
            case "leave" | "home":
                session.put_aside()
            case _:
                raise ValueError(f"no screen has the action {verb}")

    def _do_in_exam(self, verb: str, what: str) -> None:
        session = self.session
        if self.exam is None and verb == "exam":
            self.exam = ExamFlow(ExamSession(session, seed=session.rng.randrange(_PAPERS)))
        elif self.exam is not None:
            self.exam.do(verb, what)
            self._leave_exam()
        else:
            raise ValueError(f"no screen has the action {verb}")

    def _leave_exam(self) -> None:
        if self.exam is not None and self.exam.is_left:
            self.exam = None

    def _say_certainty(self, certainty: str) -> None:
        self._source_open = False
        match certainty:
            case "low" | "middle" | "high":
                self.session.say_certainty(certainty)
            case _:
                raise ValueError(f"no certainty is called {certainty}")
