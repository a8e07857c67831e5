"""``wavedrill``, and ``python -m drill``."""

import sys
from typing import TYPE_CHECKING

from drill.basis.words import catalogue
from drill.cli.main import wavedrill
from drill.store.translations import open_translations

if TYPE_CHECKING:
    from drill.study.session import Session


def main() -> None:
    """Run the command line."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A terminal that lacks a letter shows a mark for it; it is no reason to stop.
            stream.reconfigure(errors="replace")
    with catalogue(open_translations()):
        wavedrill(prog_name="wavedrill", obj=_open_window)


def _open_window(session: "Session") -> None:
    # Kivy takes its time to load, and reads the environment as it does: only who wants a window pays.
    from drill.app.main import run_app  # noqa: PLC0415

    run_app(session)


if __name__ == "__main__":
    main()
