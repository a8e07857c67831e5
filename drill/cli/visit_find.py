"""What every ``visit`` command does: open the record, find a visit by its id or by a label, write JSON."""

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from drill.basis.problem import nearest
from drill.basis.words import say
from drill.cli.home import data_folder, read_settings
from drill.cli.records import visits_path
from drill.cli.telling import refuse
from drill.report.page import clean_text
from drill.service.record import Visit
from drill.store.visit_log import VisitLog, no_visits, open_visits
from drill.store.visit_table import label_key

AS_JSON = click.option("--json", "as_json", is_flag=True, help="Write JSON on standard output.")


def echo_json(plain: Any) -> None:  # noqa: ANN401  JSON values are of any type
    """Write JSON on standard output."""
    click.echo(json.dumps(plain, indent=2))


def school_of(stated: Path | None) -> Path | None:
    """Give the school's folder that a command states, else the one in the settings.

    Args:
        stated: As stated; None where it is left out.

    Returns:
        The folder; None where none is set.

    Raises:
        click.exceptions.Exit: If the settings have a fault.
    """
    settings, problems = read_settings(data_folder())
    if problems and stated is None:
        refuse(problems)
    return stated or settings.school


@contextmanager
def kept_visits() -> Iterator[VisitLog]:
    """Open the record to read it.

    Yields:
        The record; an empty one where nothing has been recorded yet.

    Raises:
        ProblemsError: If there is one that cannot be read.
    """
    path = visits_path()
    is_kept = path.exists() and not (path.is_file() and path.stat().st_size == 0)
    with open_visits(path, read_only=True) if is_kept else no_visits() as log:
        yield log


def find_visits(log: VisitLog, name: str) -> tuple[str, ...]:
    """Find visits by an id, or by a client's label.

    Args:
        log: The record.
        name: The id or the label, however it is written.

    Returns:
        The id itself, or those of all visits of the client, in order; at least one.

    Raises:
        click.BadParameter: If there is none; it offers the nearest name.
    """
    names = log.names()
    if any(one == name for one, _ in names):
        return (name,)
    found = tuple(one for one, label in names if label and label_key(label) == label_key(name))
    if not found:
        raise click.BadParameter(_nobody(name, names), param_hint="'VISIT'")
    return found


def find_visit(log: VisitLog, name: str) -> Visit:
    """Find one visit by its id, or by a client's label where that says which one.

    Args:
        log: The record.
        name: The id or the label.

    Returns:
        The visit; of several of one client the only open one.

    Raises:
        click.BadParameter: If there is none, or the label does not say which one.
    """
    found = [log.visit(one) for one in find_visits(log, name)]
    if len(found) > 1:
        found = [one for one in found if not one.closed] or found
    if len(found) > 1:
        what = say("there are several; name one by its id: {ids}", ids=", ".join(one.id for one in found))
        raise click.BadParameter(what, param_hint="'VISIT'")
    return found[0]


def _nobody(name: str, names: Sequence[tuple[str, str]]) -> str:
    by_key = {label_key(one): one for pair in names for one in pair if one}
    close = nearest(label_key(name), by_key)
    if close is None:
        return say("there is no visit '{name}'; see 'wavedrill visit list'", name=clean_text(name))
    return say(
        "there is no visit '{name}'; did you mean '{close}'?", name=clean_text(name), close=by_key[close]
    )
