"""``wavedrill``, and ``python -m drill``."""

import sys
from typing import TYPE_CHECKING

from drill.basis.words import catalogue
from drill.cli.aid import aid_command
from drill.store.translations import open_translations

if TYPE_CHECKING:
    from collections.abc import Iterable

    from drill.basis.problem import Problem
    from drill.study.session import Session


def main() -> None:
    """Run the command line."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A terminal that lacks a letter shows a mark for it; it is no reason to stop.
            stream.reconfigure(errors="replace")
    with catalogue(open_translations()):
        if sys.argv[1:2] == [aid_command.name]:
            # First aid waits for nothing, and nothing else that is broken stands in its way.
            aid_command(args=sys.argv[2:], prog_name="wavedrill aid")
        from drill.cli.main import wavedrill  # noqa: PLC0415  as above

        wavedrill(prog_name="wavedrill", obj=_open_window)


def _open_window(session: "Session", *, told: "Iterable[Problem]" = ()) -> None:
    # Kivy takes its time to load, and reads the environment as it does: only who wants a window pays.
    from drill.app.main import run_app  # noqa: PLC0415

    run_app(session, told=told)


if __name__ == "__main__":
    main()
