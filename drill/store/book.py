"""A compiled book on disk: one JSON file that every front opens, so there is one way in."""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from drill.bank.book import Book
from drill.basis.plain import from_plain, to_plain
from drill.basis.problem import Place, Problem, ProblemsError
from drill.store.book_pictures import pictures_back, pictures_out
from drill.store.version import program_version
from drill.store.whole import write_whole

FORMAT = "book.v1"
MOST_BYTES = 50_000_000


def book_to_text(book: Book) -> str:
    """Write a book as JSON, places kept; each of its pictures once."""
    bare, pictures = pictures_out(book)
    held = {
        "format": FORMAT,
        "book": to_plain(bare),
        **({"pictures": to_plain(pictures)} if pictures else {}),
    }
    return json.dumps(held, ensure_ascii=False, separators=(",", ":"))


def book_from_text(text: str, *, shown: str) -> Book:
    """Open a book.

    Args:
        text: As :func:`book_to_text` wrote it.
        shown: The file's name in problems.

    Returns:
        The book.

    Raises:
        ProblemsError: If the text is no book of this format.
    """
    try:
        plain = json.loads(text)
        book = from_plain(Book, plain["book"]) if plain["format"] == FORMAT else None
        if isinstance(book, Book):
            book = pictures_back(book, from_plain(Mapping[str, bytes], plain.get("pictures", {})))
    except (ValueError, TypeError, KeyError, RecursionError):
        book = None
    if not isinstance(book, Book):
        raise ProblemsError([_no_book(shown)])
    return book


def read_book(path: Path) -> Book:
    """Open a compiled book.

    Args:
        path: Its file.

    Returns:
        The book.

    Raises:
        ProblemsError: If the file cannot be read or is no book.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            raise ProblemsError([_no_book(str(path))])
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        raise ProblemsError([_no_book(str(path))]) from None
    return book_from_text(text, shown=str(path))


def write_book(path: Path, book: Book) -> None:
    """Keep a compiled book; a reader never meets half of it.

    Args:
        path: Where; its folder is made where it is missing.
        book: The book.

    Raises:
        OSError: If it cannot be written.
    """
    write_whole(path, book_to_text(book).encode())


def prune_books(folder: Path, *, keep: int) -> None:
    """Drop the oldest compiled copies of a folder.

    Args:
        folder: Holds copies ``book-*``, and what a kill left of one half written.
        keep: How many of the newest stay.
    """
    copies = [(path.stat().st_mtime_ns, path.name, path) for path in folder.glob("book-*")]
    for _, _, path in sorted(copies, reverse=True)[keep:]:
        path.unlink(missing_ok=True)


def digest_of_files(paths: list[Path]) -> str:
    """Give a digest of files by name and content, in the order given, and of this version of the program."""
    digest = hashlib.sha256(f"{FORMAT}\0{program_version()}\0".encode())
    for path in paths:
        data = path.read_bytes()
        digest.update(f"{path}\0{len(data)}\0".encode("utf-8", "surrogateescape"))
        digest.update(data)
    return digest.hexdigest()[:24]


def _no_book(shown: str) -> Problem:
    return Problem(Place(shown), "this is no compiled book", "compile it again from its school folder")
