"""The pictures of a book, kept apart from the rest of it: each once, by the digest of its bytes."""

from collections.abc import Mapping
from dataclasses import replace

from drill.bank.book import Book
from drill.bank.picture import MOST_ALL_BYTES, Picture, picture_from_bytes


def pictures_out(book: Book) -> tuple[Book, dict[str, bytes]]:
    """Take the bytes of all pictures out of a book.

    Args:
        book: The book.

    Returns:
        The book, whose pictures keep all but their bytes; and the bytes by digest, in the digests' order.
    """
    found = {one.picture.sha256: one.picture.data for one in book.items if one.picture is not None}
    if not found:
        return book, {}
    bare = tuple(
        one if one.picture is None else replace(one, picture=replace(one.picture, data=b""))
        for one in book.items
    )
    return replace(book, items=bare), dict(sorted(found.items()))


def pictures_back(book: Book, pictures: Mapping[str, bytes]) -> Book:
    """Put the bytes of all pictures back into a book, and look at each as if it were new.

    Args:
        book: As :func:`pictures_out` gave it, or as somebody else wrote it.
        pictures: Bytes by digest.

    Returns:
        The book; items with the same picture share its bytes.

    Raises:
        PictureRefusedError: If one is no picture that is taken.
        ValueError: If one is not what the book says of it, one is missing, or one is never shown.
    """
    if not pictures and all(item.picture is None for item in book.items):
        return book
    if sum(map(len, pictures.values())) > MOST_ALL_BYTES:
        raise ValueError("more pictures than any school has")
    whole = {digest: picture_from_bytes(data, words="") for digest, data in pictures.items()}
    shown = {one.picture.sha256 for one in book.items if one.picture is not None}
    if shown != set(whole):
        raise ValueError("pictures are missing, or are never shown")
    items = tuple(
        one if one.picture is None else replace(one, picture=_whole(one.picture, whole[one.picture.sha256]))
        for one in book.items
    )
    return replace(book, items=items)


def _whole(stated: Picture, found: Picture) -> Picture:
    """Give a picture its bytes, if it says of them what is found."""
    whole = replace(found, words=stated.words)
    if replace(whole, data=b"") != stated or not stated.words.strip():
        raise ValueError("a picture is not what the book says of it")
    return whole
