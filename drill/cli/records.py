"""The record of visits in the data folder: opened when it is needed, looked up for the next plan."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.home import data_folder
from drill.service.consultation import Consultation
from drill.service.remembered import Remembered, remember
from drill.store.visit_log import VisitLog, open_visits

VISITS_FILE = "visits.sqlite"


def visits_path() -> Path:
    """Give the path of the record on this device, there or not."""
    return data_folder() / VISITS_FILE


@contextmanager
def visits_to_write() -> Iterator[VisitLog]:
    """Open the record to add to it; it and its folder are made where they are missing.

    Yields:
        The record; it is closed afterwards.

    Raises:
        ProblemsError: If it cannot be used.
    """
    path = visits_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = say("cannot make the data folder: {reason}", reason=(error.strerror or "").lower())
        mend = say("name another one in WAVEDRILL_HOME")
        raise ProblemsError([Problem(Place(str(path.parent)), what, mend)]) from error
    with open_visits(path) as log:
        yield log


class Records:
    """What the record knows of clients; opened when the first label asks for it.

    Args:
        stack: Closes what is opened.
        wanted: Whether to look at all.
    """

    def __init__(self, stack: ExitStack, *, wanted: bool) -> None:
        self._stack, self._wanted = stack, wanted
        self._log: VisitLog | None = None

    def of(self, consultation: Consultation) -> Remembered | None:
        """Lay the client's record under a consultation.

        Args:
            consultation: As stated.

        Returns:
            It with what the record adds; None without a label, or without a record of it.

        Raises:
            ProblemsError: If there is a record that cannot be read.
        """
        if not (self._wanted and consultation.client.strip()):
            return None
        log = self._opened()
        if log is None:
            return None
        return remember(consultation, log.visits(consultation.client), now=local_now())

    def _opened(self) -> VisitLog | None:
        if self._log is None and visits_path().exists():
            try:
                self._log = self._stack.enter_context(open_visits(visits_path(), read_only=True))
            except ProblemsError as error:
                raise ProblemsError(_or_without(error)) from error
        return self._log


@contextmanager
def client_records(*, wanted: bool) -> Iterator[Records]:
    """Look clients up while their services are planned.

    Args:
        wanted: Whether to look at all.

    Yields:
        What to ask; whatever it opens is closed afterwards.
    """
    with ExitStack() as stack:
        yield Records(stack, wanted=wanted)


def _or_without(error: ProblemsError) -> Iterator[Problem]:
    for one in error.problems:
        yield replace(one, mend=say("{mend}; or plan with --no-records", mend=one.mend))
