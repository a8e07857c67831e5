"""Lines that a person types, waited for no longer than a clock allows."""

import queue
import threading
from typing import Protocol, TextIO


class Lines(Protocol):
    """Where typed lines come from."""

    def next(self, timeout_s: float) -> str | None:
        """Give the next line; None when nothing was typed in time.

        Args:
            timeout_s: Seconds to wait at most.

        Raises:
            EOFError: If nothing more can come.
        """
        ...


class TypedLines:
    """Lines of a stream, read beside the clock: a thread waits for them, so that nobody else has to.

    Args:
        stream: Such as standard input.
    """

    def __init__(self, stream: TextIO) -> None:
        self._lines: queue.Queue[str | None] = queue.Queue()
        # It may wait for a line for ever; the program does not wait for it.
        threading.Thread(target=self._read, args=(stream,), daemon=True).start()

    def next(self, timeout_s: float) -> str | None:
        """Give the next line; None when nothing was typed in time."""
        try:
            line = self._lines.get(timeout=max(0.0, timeout_s))
        except queue.Empty:
            return None
        if line is None:
            raise EOFError
        return line

    def _read(self, stream: TextIO) -> None:
        try:
            for line in stream:
                self._lines.put(line.strip())
        finally:
            self._lines.put(None)
