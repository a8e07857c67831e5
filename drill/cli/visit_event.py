"""What the commands share that note something: find the visit, add one event, tell what is kept now."""

import math
from collections.abc import Callable
from typing import Any

import click

from drill.basis.length import number_from_text
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.records import visits_to_write
from drill.cli.telling import note
from drill.cli.visit_find import echo_json, find_visit, kept_visits
from drill.service.record import Event, Visit, moment_text
from drill.service.visit_contract import visit_to_plain

_MOST_MINUTES = 600


class _Minutes(click.ParamType[float]):
    """Minutes.

    Args:
        from_0: Whether 0 is one of them.
    """

    name = "minutes"

    def __init__(self, *, from_0: bool = False) -> None:
        self._from_0 = from_0

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:  # noqa: ANN401
        """Read a number of minutes, or refuse it."""
        number = number_from_text(str(value))
        if number is None or not (math.isfinite(number) and 0 <= number <= _MOST_MINUTES):
            self.fail(self._refusal(value), param, ctx)
        if number == 0 and not self._from_0:
            self.fail(self._refusal(value), param, ctx)
        return float(number)

    def _refusal(self, value: object) -> str:
        if self._from_0:
            return say("'{value}' is no number of minutes from 0 to {most}", value=value, most=_MOST_MINUTES)
        return say("'{value}' is no number of minutes over 0, up to {most}", value=value, most=_MOST_MINUTES)


MINUTES, MINUTES_FROM_0 = _Minutes(), _Minutes(from_0=True)


def now_text() -> str:
    """Give the time as a record keeps it."""
    return moment_text(local_now())


def add_event(name: str, make: Callable[[Visit], Event]) -> Visit:
    """Find a visit, make an event for it, and keep it.

    Args:
        name: Id or label of the visit.
        make: Makes the event, or refuses to; then everything stays as it was.

    Returns:
        The visit with the event, as it is kept now.

    Raises:
        click.UsageError: If there is no such visit, or the event is refused.
        ProblemsError: If the record cannot be used.
    """
    with kept_visits() as log:
        visit = find_visit(log, name)
    event = make(visit)
    with visits_to_write() as kept:
        return kept.add(visit.id, event)


def refuse_closed(visit: Visit) -> None:
    """Refuse what can only happen while a visit is open.

    Args:
        visit: The visit.

    Raises:
        click.UsageError: If it is closed.
    """
    if visit.closed:
        raise click.UsageError(
            say("visit {id} is closed; note what is missing with 'wavedrill visit note'", id=visit.id)
        )


def told(visit: Visit, *, as_json: bool) -> None:
    """Tell that something was noted, or write the visit as JSON."""
    if as_json:
        echo_json(visit_to_plain(visit))
    else:
        note(say("Noted. See it with: wavedrill visit show {id}", id=visit.id))
