"""Files and standard input, cut into YAML documents: one that is broken leaves its neighbours whole."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import BinaryIO

from drill.basis.problem import Place, Problem
from drill.basis.words import say
from drill.load.reading import MOST_BYTES, Node, read_text

STDIN = "-"
STDIN_SHOWN = "<stdin>"
# A marker at the start of a line ends a document wherever it stands (YAML 1.2.2, 9.1.2 and 7.3).
_MARKER = re.compile(rb"^---(?=[ \t\r\n]|\Z)", re.MULTILINE)
_EMPTY = re.compile(rb"(?:---)?(?:[ \t]*(?:#[^\n]*|%[^\n]*|\.\.\.[ \t]*)?\r?(?:\n|\Z))*\Z")


@dataclass(frozen=True, slots=True)
class Document:
    """One YAML document, or what is wrong with it.

    Attributes:
        shown: Name of its file, for problems.
        folder: Where file names in it start from.
        first_line: Line of the file before its first one.
        node: What it holds; None where it could not be read.
        problems: Why it could not be read.
    """

    shown: str
    folder: Path
    first_line: int
    node: Node | None
    problems: tuple[Problem, ...]

    def placed(self, problems: Iterable[Problem]) -> list[Problem]:
        """Move problems found in this document to where they stand in its file.

        Args:
            problems: With lines counted from the document's first; those of other files stay.
        """
        return [_moved(one, self.shown, self.first_line) for one in problems]


def read_documents(path: Path, *, stdin: BinaryIO) -> Iterator[Document]:
    """Read the documents of a file, or of standard input.

    Args:
        path: The file; ``-`` for standard input.
        stdin: Standard input.

    Yields:
        At least one document, in order.
    """
    is_stdin = str(path) == STDIN
    shown, folder = (STDIN_SHOWN, Path()) if is_stdin else (str(path), path.parent)
    data = stdin.read() if is_stdin else _read_bytes(path)
    if isinstance(data, Problem):
        yield Document(shown, folder, 0, None, (data,))
        return
    count = 0
    for first_line, part in _parts(data):
        nodes, problems = read_text(part, shown=shown)
        moved = tuple(_moved(one, shown, first_line) for one in problems)
        found: list[Node | None] = [*nodes] or [None]
        for node in found:
            count += 1
            faults = moved or (() if node else (_empty(shown),))
            yield Document(shown, folder, first_line, node, faults)
    if not count:
        yield Document(shown, folder, 0, None, (_empty(shown),))


def _read_bytes(path: Path) -> bytes | Problem:
    try:
        with path.open("rb") as file:
            # A size that the system states is no promise, so so much is read and no more.
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or say("it cannot be read")).lower()
        what = say("cannot read the file: {reason}", reason=reason)
        return Problem(Place(str(path)), what, say("check the path and its rights"))
    if len(data) > MOST_BYTES:
        what = say("the file is over {most} bytes", most=f"{MOST_BYTES:,}")
        return Problem(Place(str(path)), what, say("split it up"))
    return data


def _parts(data: bytes) -> Iterator[tuple[int, bytes]]:
    """Cut at the markers; what says nothing before the first one goes with it, at the end it is dropped."""
    cuts = [found.start() for found in _MARKER.finditer(data)]
    if cuts and _EMPTY.match(data[: cuts[0]].removeprefix(b"\xef\xbb\xbf")):
        cuts = cuts[1:]
    starts, ends = [0, *cuts], [*cuts, len(data)]
    line, at = 0, 0
    for number, (start, end) in enumerate(zip(starts, ends, strict=True)):
        line, at = line + data.count(b"\n", at, start), start
        part = data[start:end]
        is_last = number == len(starts) - 1
        if is_last and _EMPTY.match(part.removeprefix(b"\xef\xbb\xbf")):
            return
        yield line, part


def _empty(shown: str) -> Problem:
    return Problem(
        Place(shown),
        say("there is nothing here"),
        say("write a consultation, with 'hair.length' and 'wish.curl'"),
    )


def _moved(problem: Problem, shown: str, lines: int) -> Problem:
    place = problem.place
    if place.file != shown or not lines:
        return problem
    return replace(problem, place=replace(place, line=place.line + lines))
