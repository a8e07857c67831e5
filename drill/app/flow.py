"""What a touch does: actions into steps of the session, and the screen that follows."""

from contextlib import suppress

from drill.app.opening import problem_screen
from drill.app.screen import Screen
from drill.app.show import done_screen, today_screen
from drill.app.show_question import question_screen, reveal_screen
from drill.basis.problem import Problem, ProblemsError
from drill.study.session import FIVE_MINUTES, TWELVE_QUESTIONS, Session

_GOALS = {"minutes": FIVE_MINUTES, "questions": TWELVE_QUESTIONS}


class Flow:
    """The way through the screens.

    Args:
        session: The student at work.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        self._source_open = False
        self._problems: tuple[Problem, ...] = ()
        self._failed = ""

    def screen(self) -> Screen:
        """Give the screen as things stand; where the log cannot be read, one that says so."""
        if not self._problems:
            try:
                return self._screen()
            except ProblemsError as error:
                self._problems, self._failed = error.problems, ""
        return problem_screen(self._problems)

    def _screen(self) -> Screen:
        session = self.session
        sitting = session.sitting
        if sitting is None:
            return today_screen(
                session.book,
                session.memories,
                day=session.day,
                coming=session.coming(),
                goal=session.goal,
                aside=session.open_sitting(),
            )
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
        return question_screen(sitting, session.book, minutes_used=session.minutes_used)

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

    def back(self) -> bool:
        """Go one step back.

        Returns:
            True where there was a step; False on the first screen, which the system then leaves.
        """
        if self._problems:
            self._problems = ()
            return True
        if self.session.sitting is None:
            return False
        self.press("leave")
        return True

    def _do(self, action: str) -> None:
        session = self.session
        verb, _, what = action.partition(":")
        match verb:
            case "start":
                session.start()
            case "resume":
                session.resume()
            case "goal":
                session.prefer(_GOALS[what])
            case "option":
                session.choose(what)
            case "sure":
                self._say_certainty(what)
            case "next":
                session.go_on()
            case "source":
                self._source_open = not self._source_open
            case "leave" | "home":
                session.put_aside()
            case _:
                raise ValueError(f"no screen has the action {action}")

    def _say_certainty(self, certainty: str) -> None:
        self._source_open = False
        match certainty:
            case "low" | "middle" | "high":
                self.session.say_certainty(certainty)
            case _:
                raise ValueError(f"no certainty is called {certainty}")
