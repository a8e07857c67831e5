"""A school's own picture: bytes, what their header says of them, and what it shows in words.

The header is read here, before any decoder sees the bytes: a small file can stand for a picture that fills
the memory. What else is in the bytes only a decoder knows, and it may still refuse them.
"""

import hashlib
import zlib
from dataclasses import dataclass, field
from typing import Literal

PictureKind = Literal["png", "jpeg"]

MOST_BYTES = 1_000_000
# Of all pictures of a school, each counted once: a phone that opens a pack has them in memory twice, as a
# file and as pictures, and takes no more than 50 MB in all.
MOST_ALL_BYTES = 12_000_000
# So a picture has at most four million dots, which a decoder turns into 16 MB.
MOST_SIDE_DOTS = 2_000

_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_HEADER = b"\x00\x00\x00\x0dIHDR"
_PNG_ENDS = len(_PNG) + 25
_JPEG = b"\xff\xd8\xff"
# Start of frame, in all its forms; three numbers among them stand for something else.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
# Markers that stand alone, without a length.
_ALONE = frozenset((0x01, *range(0xD0, 0xD8)))
# From here on come the dots, or nothing.
_ENDS = frozenset((0xD9, 0xDA))


class PictureRefusedError(ValueError):
    """A picture that is not taken.

    Attributes:
        what: What is the matter.
        mend: What to do.
    """

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(what)
        self.what, self.mend = what, mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture that a question shows.

    Attributes:
        words: What it shows, in words, for whoever hears the screen or reads a terminal.
        kind: How its bytes are written.
        width_dots: Dots in a row.
        height_dots: Rows.
        sha256: Digest of its bytes, 64 hexadecimal digits: two items with the same bytes share them.
        data: The bytes; empty only where they are kept apart, as in a pack.
    """

    words: str
    kind: PictureKind
    width_dots: int
    height_dots: int
    sha256: str
    data: bytes = field(default=b"", repr=False)


def picture_from_bytes(data: bytes, *, words: str) -> Picture:
    """Take a picture.

    Args:
        data: A whole file; no more of it is read than its header.
        words: What it shows.

    Returns:
        The picture.

    Raises:
        PictureRefusedError: If it is neither PNG nor JPEG, its header is damaged or cut off, or it is larger
            than a question needs.

    Source:
        W3C, Portable Network Graphics, 5.2 and 11.2.2 (signature, IHDR); ITU-T T.81, B.1.1 and B.2.2
        (markers, frame header); from memory.
    """
    if len(data) > MOST_BYTES:
        raise PictureRefusedError(
            f"the picture has {len(data):,} bytes, more than {MOST_BYTES:,}",
            "save it smaller: 1,000 dots across are enough for a phone",
        )
    kind = _kind(data)
    sides = _png_sides(data) if kind == "png" else _jpeg_sides(data)
    if sides is None or 0 in sides:
        raise PictureRefusedError(
            "the picture's first bytes are damaged or cut off", "save it anew from a picture program"
        )
    if max(sides) > MOST_SIDE_DOTS:
        raise PictureRefusedError(
            f"the picture is {sides[0]:,} by {sides[1]:,} dots, more than {MOST_SIDE_DOTS:,} a side",
            "save it smaller: 1,000 dots across are enough for a phone",
        )
    return Picture(
        words=words,
        kind=kind,
        width_dots=sides[0],
        height_dots=sides[1],
        sha256=hashlib.sha256(data).hexdigest(),
        data=data,
    )


def _kind(data: bytes) -> PictureKind:
    if data.startswith(_PNG):
        return "png"
    if data.startswith(_JPEG):
        return "jpeg"
    raise PictureRefusedError(
        "the picture is neither PNG nor JPEG by its first bytes",
        "save it as PNG or JPEG; another name alone changes nothing inside",
    )


def _png_sides(data: bytes) -> tuple[int, int] | None:
    """Read width and height of a PNG; None where its header is damaged or cut off."""
    header = data[len(_PNG) : _PNG_ENDS]
    if len(header) < _PNG_ENDS - len(_PNG) or not header.startswith(_PNG_HEADER):
        return None
    if zlib.crc32(header[4:21]) != int.from_bytes(header[21:], "big"):
        return None
    return int.from_bytes(header[8:12], "big"), int.from_bytes(header[12:16], "big")


def _jpeg_sides(data: bytes) -> tuple[int, int] | None:
    """Read width and height of a JPEG, segment by segment; None where no frame header is found."""
    at = 2
    while at + 9 <= len(data) and data[at] == 0xFF:  # noqa: PLR2004  every marker begins so
        marker = data[at + 1]
        length = int.from_bytes(data[at + 2 : at + 4], "big")
        if marker in _FRAMES:
            return int.from_bytes(data[at + 7 : at + 9], "big"), int.from_bytes(data[at + 5 : at + 7], "big")
        if marker == 0xFF:  # noqa: PLR2004  a filling byte before the marker
            at += 1
        elif marker in _ALONE:
            at += 2
        elif marker in _ENDS or length < 2:  # noqa: PLR2004  a length counts its own two bytes
            return None
        else:
            at += 2 + length
    return None
