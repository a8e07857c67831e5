"""A mock exam of one student on one device: the exam, joined with the book, the log and the clock.

What is handed in is in the log before the next item can be seen, so nothing is lost where it breaks off.
"""

from dataclasses import replace

from drill.study.exam import Exam, begin_exam, end_exam, mark_choice, next_item
from drill.study.exam_paper import USUAL_ITEMS, write_paper
from drill.study.marks import Marks, mark
from drill.study.session import Session


class ExamSession:
    """A student at a mock exam.

    Args:
        session: The student at work; keeps what is handed in.
        seed: Draws the paper.
        items: Items wanted.
    """

    def __init__(self, session: Session, *, seed: int, items: int = USUAL_ITEMS) -> None:
        self.session, self.book = session, session.book
        self.begun = False
        self.exam: Exam = begin_exam(
            write_paper(session.maker, items=items, seed=seed),
            student=session.student,
            device=session.device,
            day=session.day,
            seconds_an_item=self.book.blueprint.outline.seconds_an_item,
            now=session.now,
        )

    @property
    def seconds_left(self) -> float:
        """Seconds that are left."""
        return self.exam.seconds_left(self.session.now)

    @property
    def marks(self) -> Marks:
        """The marks as things stand, open items counted as wrong."""
        return mark(self.exam.all_given, pass_mark=self.book.school.pass_mark)

    def begin(self) -> Exam:
        """Begin to count the time now, when the rules have been read.

        Returns:
            The exam.
        """
        self.begun, now = True, self.session.now
        self.exam = replace(self.exam, started=now, shown=now)
        return self.exam

    def choose(self, option_id: str) -> Exam:
        """Take a choice; it may be changed until the next item is asked for.

        Args:
            option_id: Letter of the option.

        Returns:
            The exam.

        Raises:
            KeyError: If the item has no such option.
        """
        self.exam = mark_choice(self.exam, option_id)
        return self.exam

    def go_on(self) -> Exam:
        """Hand in the choice and go to the next item; once the time is over, end.

        Returns:
            The exam.
        """
        after, attempt = next_item(self.exam, now=self.session.now, rng=self.session.rng)
        if attempt is not None:
            self.session.keep(attempt)
        self.exam = after
        return after

    def tick(self) -> Exam:
        """Look at the clock, and end where the time is over.

        Returns:
            The exam.
        """
        if not self.exam.is_over and not self.seconds_left:
            self.end()
        return self.exam

    def end(self) -> Exam:
        """End where it stands; what was handed in is kept.

        Returns:
            The exam.
        """
        self.exam = end_exam(self.exam, now=self.session.now)
        return self.exam
