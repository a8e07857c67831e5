"""What a touch does to the answer of the present question, in whatever form it is given."""

from contextlib import suppress

from drill.app.draft import is_whole, put_digit, put_step
from drill.bank.question import Question
from drill.study.session import Session

VERBS = ("option", "place", "digit", "erase", "given", "step", "change")


class AnswerFlow:
    """The way to an answer.

    Args:
        session: The student at work.
    """

    def __init__(self, session: Session) -> None:
        self._session = session
        self._draft = ""
        self._question: Question | None = None

    @property
    def draft(self) -> str:
        """What was touched of a number or an order so far; empty on another question."""
        return self._draft if self._question is self._asked else ""

    def do(self, verb: str, what: str) -> None:
        """Do what a touch asks for.

        Args:
            verb: Of the action, one of :data:`VERBS`.
            what: What stands behind its colon.
        """
        match verb:
            case "option":
                self._session.choose(what)
            case "place":
                # Beside the places that are marked there is nothing to choose.
                with suppress(ValueError):
                    self._session.choose(what)
            case "given":
                self._session.choose(self.draft)
            case "step":
                self._put_step(what)
            case "digit":
                self._keep(put_digit(self.draft, what))
            case "erase":
                self._keep(self.draft[:-1])
            case _:
                self._change()

    def _change(self) -> None:
        """Take the answer back to go on with it; of an order the last step with it."""
        self._session.take_back()
        if self._asked is not None and self._asked.answer_as == "order":
            self._keep(self.draft[:-1])

    def _put_step(self, letter: str) -> None:
        self._keep(put_step(self.draft, letter))
        letters = [piece.id for piece in self._asked.pieces] if self._asked else []
        if is_whole(self.draft, letters):
            self._session.choose(self.draft)
        else:
            self._session.take_back()

    def _keep(self, draft: str) -> None:
        self._draft, self._question = draft, self._asked

    @property
    def _asked(self) -> Question | None:
        return self._session.sitting.question if self._session.sitting else None
