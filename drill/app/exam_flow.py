"""What a touch does in a mock exam: actions into steps of the exam, and the screen that follows."""

from drill.app.screen import Screen
from drill.app.show_exam import (
    exam_item_screen,
    exam_marks_screen,
    exam_rules_screen,
    exam_why_screen,
    minutes_words,
)
from drill.study.exam_session import ExamSession


class ExamFlow:
    """The way through a mock exam.

    Args:
        exam: The student at the exam.
    """

    def __init__(self, exam: ExamSession) -> None:
        self.exam = exam
        self.is_left = False
        self._why: int | None = None
        self._shown = ""

    def screen(self) -> Screen:
        """Give the screen as things stand."""
        exam, book = self.exam, self.exam.book
        if not exam.begun:
            return exam_rules_screen(exam.exam, book)
        if not exam.tick().is_over:
            screen = exam_item_screen(exam.exam, seconds_left=exam.seconds_left)
            self._shown = screen.right
            return screen
        if self._why is not None:
            return exam_why_screen(exam.exam.all_given[self._why], book, number=self._why + 1)
        return exam_marks_screen(exam.exam, exam.marks, book)

    def has_changed(self) -> bool:
        """Tell whether the clock alone has changed what is to be shown."""
        if not self.exam.begun or self.exam.exam.is_over:
            return False
        return self.exam.tick().is_over or minutes_words(self.exam.seconds_left) != self._shown

    def do(self, verb: str, what: str) -> None:
        """Do what a touch asks for.

        Args:
            verb: Of the action.
            what: What stands behind its colon.

        Raises:
            ValueError: If no screen of the exam has such an action.
        """
        match verb:
            case "exam-begin":
                self.exam.begin()
            case "exam-option":
                self.exam.choose(what)
            case "exam-next":
                self.exam.go_on()
            case "exam-end":
                self.exam.end()
            case "exam-why":
                self._why = int(what)
            case "exam-marks":
                self._why = None
            case "exam-leave":
                self.is_left = True
            case _:
                raise ValueError(f"no screen has the action {verb}")

    def back(self) -> None:
        """Go one step back: from a why to the marks, from an item to its end, else out."""
        if self._why is not None:
            self._why = None
        elif self.exam.begun and not self.exam.exam.is_over:
            self.exam.end()
        else:
            self.is_left = True
