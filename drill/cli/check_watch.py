"""Check a folder again whenever one of its files changes, until the person ends it."""

import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.telling import note

SECONDS_BETWEEN = 0.5
Seen = dict[Path, tuple[int, int]]


def watch_folder(
    folder: Path,
    check: Callable[[], object],
    *,
    passed_over: Path | None = None,
    wait: Callable[[], None] = lambda: time.sleep(SECONDS_BETWEEN),
) -> None:
    """Check now and after each change, until Ctrl-C.

    Args:
        folder: The folder to watch, with all that is in it.
        check: Checks once and says what it found; faults are said, not raised.
        passed_over: A file that the check itself writes.
        wait: Waits until it is time to look again; a KeyboardInterrupt ends the watch.
    """
    with suppress(KeyboardInterrupt):
        while True:
            seen = _look(folder, passed_over)
            check()
            note(
                say(
                    "Checked at {time}. Waiting for a change; Ctrl-C ends it.", time=f"{local_now():%H:%M:%S}"
                )
            )
            while _look(folder, passed_over) == seen:
                wait()
            note("")


def _look(folder: Path, passed_over: Path | None) -> Seen:
    """Note when each file was changed last, and its size; one that is just being replaced is passed over."""
    found: Seen = {}
    own = passed_over.absolute() if passed_over else None
    for path in sorted(folder.rglob("*")):
        with suppress(OSError):
            state = path.stat()
            if path.absolute() != own:
                found[path] = (state.st_mtime_ns, state.st_size)
    return found
