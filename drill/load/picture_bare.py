"""A picture without what its camera wrote beside it: place, day, maker, remarks.

A photo tells where it was taken. Nobody who gives a question to thirty phones means to tell that.
"""

from collections.abc import Iterator

_PNG_SIGNATURE = 8
# Remarks, day, camera data; none of them changes a dot.
_PNG_REMARKS = frozenset((b"eXIf", b"tEXt", b"zTXt", b"iTXt", b"tIME"))
# Application data and remarks. The first and the fifteenth say how the dots are meant and stay.
_JPEG_REMARKS = frozenset((*range(0xE1, 0xEE), 0xEF, 0xFE))
_JPEG_DOTS = 0xDA
_JPEG_ALONE = frozenset((0x01, *range(0xD0, 0xDA)))


def bare_picture(data: bytes) -> bytes:
    """Take out of a picture what is written beside its dots.

    Args:
        data: A PNG or JPEG file; anything else comes back as it is.

    Returns:
        The same dots without remarks, day, place and camera. What cannot be followed to its end stays as it
        is from there on, for the header's own check to judge.

    Source:
        W3C, Portable Network Graphics, 5.3 and 11.3 (chunks); ITU-T T.81, B.1.1.4 and B.2.4 (segments); from
        memory.
    """
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return data[:_PNG_SIGNATURE] + b"".join(_png_kept(data))
    if data.startswith(b"\xff\xd8"):
        return data[:2] + b"".join(_jpeg_kept(data))
    return data


def _png_kept(data: bytes) -> Iterator[bytes]:
    at = _PNG_SIGNATURE
    while at + 12 <= len(data):
        end = at + 12 + int.from_bytes(data[at : at + 4], "big")
        if data[at + 4 : at + 8] not in _PNG_REMARKS:
            yield data[at:end]
        at = end
    yield data[at:]


def _jpeg_kept(data: bytes) -> Iterator[bytes]:
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF and data[at + 1] != _JPEG_DOTS:  # noqa: PLR2004  a marker
        if data[at + 1] == 0xFF or data[at + 1] in _JPEG_ALONE:  # noqa: PLR2004  a filling byte
            end = at + (1 if data[at + 1] == 0xFF else 2)  # noqa: PLR2004
        else:
            end = at + 2 + max(2, int.from_bytes(data[at + 2 : at + 4], "big"))
        if data[at + 1] not in _JPEG_REMARKS:
            yield data[at:end]
        at = end
    yield data[at:]
