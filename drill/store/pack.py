"""A pack: one file with everything that a phone needs of a school.

The first line is a short JSON object that says what the file is; then come the book and the kit as JSON in
ASCII letters, and the school's pictures as they are. Nothing else is packed tight, and nothing is named as a
path or run: opening a pack reads so many bytes, looks at them, and builds values. What is told of a pack
never depends on what the pack says of itself.
"""

import hashlib
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from drill.bank.book import Book
from drill.bank.picture import PictureRefusedError
from drill.basis.plain import from_plain, to_plain
from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.service.kit import Kit
from drill.store.book_pictures import pictures_back, pictures_out
from drill.store.pack_check import what_is_unsound
from drill.store.pack_text import (
    Header,
    PackFaultError,
    make_again,
    read_bytes,
    text_from_bytes,
    text_to_bytes,
)
from drill.store.version import is_newer, program_version
from drill.store.whole import write_whole

SUFFIX = ".pack"


@dataclass(frozen=True, kw_only=True)
class Pack:
    """What a pack holds.

    Attributes:
        book: The school's book, its local rules in force.
        kit: Its tools; None where it has none of its own.
        good_until: First day on which another set of local rules is in force (ISO date); empty for none.
        digest: Of all this, 64 hexadecimal digits; empty before it is written.
        made_by: Version of the program that made it.
    """

    book: Book
    kit: Kit | None = None
    good_until: str = ""
    digest: str = ""
    made_by: str = ""


def pack_to_bytes(pack: Pack) -> bytes:
    """Write a pack.

    Args:
        pack: Its book, kit and last day.

    Returns:
        The file; the same pack gives the same bytes on every machine.
    """
    book, pictures = pictures_out(pack.book)
    held = {"book": to_plain(book), "kit": to_plain(pack.kit), "good_until": pack.good_until}
    if pictures:
        held["pictures"] = {digest: len(data) for digest, data in pictures.items()}
    return text_to_bytes(held, pictures.values())


def pack_from_bytes(data: bytes, *, shown: str, built_in: Book, is_proved: bool = False) -> Pack:
    """Open a pack.

    Args:
        data: The file.
        shown: Its name in problems.
        built_in: This version's own book: its limits hold for a pack too.
        is_proved: Whether a pack with this digest was proved before.

    Returns:
        The pack.

    Raises:
        ProblemsError: If it is no pack, is damaged, is of another version, or breaks a limit.
    """
    try:
        header, held, behind = text_from_bytes(data)
        sizes = held.pop("pictures", {})
        pack = _with_pictures(_pack_of(held, header), sizes, behind)
        _refuse_unsound(pack, built_in, is_proved=is_proved)
    except PackFaultError as fault:
        raise ProblemsError([Problem(Place(shown), fault.what, fault.mend)]) from None
    return pack


def read_pack(path: Path, *, built_in: Book, proved: Path | None = None) -> Pack:
    """Open a pack's file.

    Args:
        path: The file.
        built_in: This version's own book.
        proved: Folder that keeps which packs were proved before; None to prove it whatever was before.

    Returns:
        The pack.

    Raises:
        ProblemsError: As :func:`pack_from_bytes`, or if the file cannot be read.
    """
    try:
        data = read_bytes(path)
    except PackFaultError as fault:
        raise ProblemsError([Problem(Place(str(path)), fault.what, fault.mend)]) from None
    mark = _mark(data, built_in, proved)
    is_proved = mark is not None and mark.exists()
    pack = pack_from_bytes(data, shown=str(path), built_in=built_in, is_proved=is_proved)
    if mark is not None and not is_proved:
        try:
            write_whole(mark, b"")
        except OSError:
            return pack  # a full or read-only disk costs the next start some time, nothing else
    return pack


def _mark(data: bytes, built_in: Book, folder: Path | None) -> Path | None:
    """Name the file that stands for: these very bytes were proved by this very version and rulebook."""
    if folder is None:
        return None
    digest = hashlib.sha256(f"{program_version()}\0{built_in.rulebook.digest}\0".encode())
    digest.update(data)
    return folder / f"proved-{digest.hexdigest()[:32]}"


def _pack_of(held: dict[str, Any], header: Header) -> Pack:
    try:
        pack: Pack = from_plain(Pack, held)
    except (TypeError, ValueError):
        raise _strange(header.made_by, say("what its book is made of")) from None
    if pack.digest or pack.made_by:
        raise _strange(header.made_by, say("what its book is made of"))
    return Pack(
        book=pack.book,
        kit=pack.kit,
        good_until=pack.good_until,
        digest=header.digest,
        made_by=header.made_by,
    )


def _with_pictures(pack: Pack, sizes: object, behind: memoryview) -> Pack:
    """Cut the pictures apart, and give each to the items that show it."""
    try:
        book = pictures_back(pack.book, _cut(sizes, behind))
    except PictureRefusedError as error:
        what = say("a picture inside the pack cannot be used: {what}", what=error.what)
        raise PackFaultError(what, say("ask who made it for a new one")) from None
    except ValueError:
        what = say("the book inside the pack does not hold together at '{name}'", name="pictures")
        raise PackFaultError(what, say("ask who made it for a new one")) from None
    return replace(pack, book=book)


def _cut(sizes: object, behind: memoryview) -> dict[str, bytes]:
    if not isinstance(sizes, dict) or not all(type(size) is int and size >= 0 for size in sizes.values()):
        raise ValueError("the pictures have no sizes")
    if sum(sizes.values()) != len(behind):
        raise ValueError("the pictures are longer or shorter than they should be")
    pictures, at = {}, 0
    for digest, size in sizes.items():
        pictures[digest] = bytes(behind[at : at + size])
        at += size
    return pictures


def _refuse_unsound(pack: Pack, built_in: Book, *, is_proved: bool) -> None:
    found = what_is_unsound(pack.book, pack.kit, pack.good_until, built_in=built_in, is_proved=is_proved)
    if found is None:
        return
    if found.is_broken:
        raise PackFaultError(found.what, say("ask who made it for a new one"))
    raise _strange(pack.made_by, found.what)


def _strange(made_by: str, where: str) -> PackFaultError:
    """Tell of a pack that does not fit this version, and which of the two to bring up to date."""
    own = program_version()
    what = say(
        "version {made_by} made this pack, and it differs from this version, {own}, in {where}",
        made_by=made_by,
        own=own,
        where=where,
    )
    return PackFaultError(
        what, say("bring this program up to date") if is_newer(made_by, own) else make_again()
    )
