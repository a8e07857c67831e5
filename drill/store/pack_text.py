"""The bytes of a pack: its first line, and what is looked at before anything is built of the rest.

Format 1 is a first line and a book. Format 2 has pictures behind the book, one after the other; its first
line says where the book ends, and the book how long each picture is. What has no pictures is written in
format 1, which older versions read.
"""

import hashlib
import json
import re
import stat
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from drill.bank.picture import MOST_ALL_BYTES
from drill.basis.words import say
from drill.store.version import program_version

FORMAT, OLDEST, VERSION = "wavedrill.pack", 1, 2
# A school's book has some 0.6 MB, 7,000 objects and 30,000 values.
MOST_BYTES, MOST_OBJECTS, MOST_VALUES = 3_000_000, 40_000, 150_000
MOST_DEPTH = 30
_MOST_HEADER, _MOST_DIGITS = 1_000, 18
_MOST_FILE = _MOST_HEADER + MOST_BYTES + MOST_ALL_BYTES
_DIGEST = re.compile(r"[0-9a-f]{64}")
_MADE_BY = re.compile(r"[0-9A-Za-z.+-]{1,40}")
_TEXT = re.compile(r'"(?:[^"\\]|\\.)*+"')
_BRACKETS = re.compile(r"[\[{\]}]")


class PackFaultError(Exception):
    """A fault of a pack, on its way to become a problem of its file.

    Attributes:
        what: What is the matter.
        mend: What to do.
    """

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(what)
        self.what, self.mend = what, mend


@dataclass(frozen=True, slots=True)
class Header:
    """What the first line says.

    Attributes:
        version: Format of the file.
        made_by: Version of the program that made it.
        size: Bytes of the rest.
        digest: Of the rest, 64 hexadecimal digits.
        book_size: Bytes of the book, with which the rest begins; all of it in format 1.
    """

    version: int
    made_by: str
    size: int
    digest: str
    book_size: int


def text_to_bytes(held: object, pictures: Iterable[bytes] = ()) -> bytes:
    """Write a pack of plain values.

    Args:
        held: What it holds, as JSON values.
        pictures: What stands behind them, in the order in which they name it.

    Returns:
        The file; the same values give the same bytes on every machine.
    """
    book = _json(held)
    parts = (book, *pictures)
    digest = hashlib.sha256()
    for part in parts:
        digest.update(part)
    header = {
        "format": FORMAT,
        "version": OLDEST if len(parts) == 1 else VERSION,
        "made_by": program_version(),
        "bytes": sum(map(len, parts)),
        "digest": digest.hexdigest(),
        **({} if len(parts) == 1 else {"book": len(book)}),
    }
    return b"".join((_json(header), b"\n", *parts))


def text_from_bytes(data: bytes) -> tuple[Header, dict[str, Any], memoryview]:
    """Read a pack to plain values.

    Args:
        data: The file.

    Returns:
        What its first line says, what it holds, and what stands behind that.

    Raises:
        PackFaultError: If it is no pack, is damaged or cut off, is of another format, or is larger, deeper or
            stranger than any pack.
    """
    header, body = _parts(data)
    return header, _held(bytes(body[: header.book_size])), body[header.book_size :]


def read_bytes(path: Path) -> bytes:
    """Read a pack's file, and no more of it than any pack has.

    Args:
        path: The file.

    Returns:
        Its bytes.

    Raises:
        PackFaultError: If it cannot be read, is no ordinary file, or is too large.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise _no_pack()
        with path.open("rb") as file:
            # A size that the system states is no promise, so so much is read and no more.
            data = file.read(_MOST_FILE + 1)
    except (OSError, ValueError) as error:  # a name that holds a NUL is a ValueError
        reason = (getattr(error, "strerror", None) or say("it cannot be read")).lower()
        raise PackFaultError(
            say("cannot read the pack: {reason}", reason=reason), say("check the path and its rights")
        ) from None
    if len(data) > _MOST_FILE:
        raise _too_much()
    return data


def _json(plain: object) -> bytes:
    return json.dumps(plain, separators=(",", ":"), allow_nan=False).encode("ascii")


def _parts(data: bytes) -> tuple[Header, memoryview]:
    """Cut the file into its first line and the rest, and hold the one against the other."""
    line, newline, _ = data[: _MOST_HEADER + 1].partition(b"\n")
    header = _header(line) if newline else None
    if header is None:
        raise _no_pack()
    version = header.version
    if version > VERSION:
        raise PackFaultError(
            say(
                "format {found} was written by a newer version; this one reads {known}",
                found=version,
                known=VERSION,
            ),
            say("bring this program up to date"),
        )
    if version < OLDEST:
        raise PackFaultError(
            say("format {found} is older than this version reads, {known}", found=version, known=OLDEST),
            make_again(),
        )
    body = memoryview(data)[len(line) + 1 :]
    stated = header.size
    if header.book_size > MOST_BYTES or stated - header.book_size > MOST_ALL_BYTES:
        raise _too_much()
    if len(body) < stated:
        raise PackFaultError(
            say(
                "the pack ends after {found} of {stated} bytes", found=f"{len(body):,}", stated=f"{stated:,}"
            ),
            say("copy it again, whole"),
        )
    if len(body) > stated or hashlib.sha256(body).hexdigest() != header.digest:
        raise PackFaultError(
            say("the pack was changed after it was made: its digest is another one"),
            say("copy it again from who made it"),
        )
    return header, body


def _header(line: bytes) -> Header | None:
    """Read the first line; what a newer version adds to it is passed over."""
    try:
        header = _parsed(line)
    except (ValueError, RecursionError):
        return None
    if not isinstance(header, dict) or header.get("format") != FORMAT:
        return None
    if header.get("version") == OLDEST:
        header["book"] = header.get("bytes")
    elif header.get("version") != VERSION:
        header["book"] = 0  # a newer version may say otherwise where its book ends
    whole = all(type(header.get(key)) is int and header[key] >= 0 for key in ("version", "bytes", "book"))
    text = all(
        isinstance(header.get(key), str) and form.fullmatch(header[key])
        for key, form in (("digest", _DIGEST), ("made_by", _MADE_BY))
    )
    if not (whole and text and header["book"] <= header["bytes"]):
        return None
    return Header(header["version"], header["made_by"], header["bytes"], header["digest"], header["book"])


def _held(body: bytes) -> dict[str, Any]:
    """Look at the text before it is built into values: how much, how deep, how large."""
    objects = body.count(b"{")
    if objects > MOST_OBJECTS or objects + body.count(b"[") + body.count(b",") > MOST_VALUES:
        raise _too_much()
    try:
        _refuse_depth(body.decode("ascii"))
        held = _parsed(body)
        json.dumps(held, ensure_ascii=False).encode()  # half of a letter could not be shown or kept
    except (ValueError, RecursionError):
        raise PackFaultError(
            say("the book inside the pack cannot be read"), say("ask who made it for a new one")
        ) from None
    return held if isinstance(held, dict) else {}


def _refuse_depth(text: str) -> None:
    depth = 0
    for mark in _BRACKETS.findall(_TEXT.sub("", text)):
        depth += 1 if mark in "[{" else -1
        if depth > MOST_DEPTH:
            _refuse(mark)


def _parsed(data: bytes) -> Any:  # noqa: ANN401  JSON values are of any type
    return json.loads(
        data.decode("ascii"),
        object_pairs_hook=_object,
        parse_int=_whole,
        parse_float=_number,
        parse_constant=_refuse,
    )


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("a key stands twice")
    return found


def _whole(digits: str) -> int:
    return int(digits) if len(digits) <= _MOST_DIGITS else _refuse(digits)


def _number(text: str) -> float:
    number = float(text)
    return number if abs(number) < 10**_MOST_DIGITS else _refuse(text)


def _refuse(text: str) -> NoReturn:
    raise ValueError(text[:_MOST_DIGITS])


def _no_pack() -> PackFaultError:
    return PackFaultError(say("this file is no pack"), say("name a file that 'wavedrill pack' wrote"))


def _too_much() -> PackFaultError:
    return PackFaultError(
        say("the pack holds more than any school's book"), say("ask who made it for a new one")
    )


def make_again() -> str:
    """Say how a pack of another version is made anew."""
    return say("have it made again from the school's folder: wavedrill pack SCHOOL -o FILE")
