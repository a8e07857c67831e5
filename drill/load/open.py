"""Open the book: compiled from YAML when something changed, else from the copy kept of the last time."""

from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from pathlib import Path

from drill.bank.book import Book
from drill.basis.problem import Problem, ProblemsError
from drill.load.compile import DECKS, compile_book
from drill.load.pictures import picture_files
from drill.load.rulebook import RULES
from drill.store.book import digest_of_files, prune_books, read_book, write_book
from drill.store.pack import Pack, read_pack

# Today's and yesterday's of a school, and the built-in one, and the same for who looks at two schools.
KEPT_COPIES = 6


def open_book(school: Path | None, *, day: date, cache: Path | None = None) -> tuple[Book, Sequence[Problem]]:
    """Open the book of a school, or the built-in one.

    Args:
        school: The school's folder; None for none.
        day: The day for which local rules are in force.
        cache: Folder for compiled copies; None to compile anew.

    Returns:
        The book, and every fault found; with faults it is not to be used.
    """
    kept = None
    if cache is not None:
        with suppress(OSError, ProblemsError):  # a file that cannot be read, no copy yet, or a damaged one
            kept = cache / f"book-{_digest(school, day)}.json"
            return read_book(kept), ()
    compiled = compile_book(school, day=day, proved=True)
    if kept is not None and not compiled.problems:
        with suppress(OSError):  # a full or read-only disk costs the next start some time, nothing else
            write_book(kept, compiled.book)
            prune_books(kept.parent, keep=KEPT_COPIES)
    return compiled.book, compiled.problems


def open_pack(path: Path, *, day: date, cache: Path | None = None) -> Pack:
    """Open a pack, held against the built-in book.

    Args:
        path: The pack's file.
        day: The day.
        cache: Folder for compiled copies, and for what was proved before; None to do all anew.

    Returns:
        The pack.

    Raises:
        ProblemsError: If it is no pack, is damaged, is of another version, or breaks a limit.
    """
    built_in, problems = open_book(None, day=day, cache=cache)
    if problems:
        raise ProblemsError(problems)
    return read_pack(path, built_in=built_in, proved=cache)


def _digest(school: Path | None, day: date) -> str:
    folders = [RULES, DECKS, *([school] if school else [])]
    files = sorted(path for folder in folders for path in folder.rglob("*.yaml") if path.is_file())
    files += picture_files(school) if school else []
    # Local rules come into force and end by date, so a school's book is good for its day.
    return f"{digest_of_files(files)}{f'-{day.isoformat()}' if school else ''}"
