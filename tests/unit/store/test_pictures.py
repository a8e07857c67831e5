"""Pictures in a compiled copy and in a pack: each once, looked at again, refused if they are not sound."""

import hashlib
import json
import tracemalloc
from dataclasses import replace

import pytest

from drill.bank.book import Book
from drill.bank.item import Item, Wrong
from drill.bank.picture import MOST_ALL_BYTES, MOST_BYTES, Picture, picture_from_bytes
from drill.basis.problem import ProblemsError
from drill.store.book import book_from_text, book_to_text
from drill.store.book_pictures import pictures_back, pictures_out
from drill.store.pack import Pack, pack_from_bytes, pack_to_bytes, read_pack
from drill.store.pack_text import MOST_BYTES as MOST_BOOK
from drill.store.pack_text import text_to_bytes

NEW_ONE = "ask who made it for a new one"
APART = f"the book inside the pack does not hold together at 'pictures'; {NEW_ONE}"
ITEM = Item(
    id="ours",
    topic="papers",
    kind="choose",
    stem="Which tray?",
    answer="This one.",
    wrong=(Wrong(text="That one."), Wrong(text="None.")),
    because="So.",
    source="Workroom rules",
)


@pytest.fixture
def tray(make_png) -> Picture:
    return picture_from_bytes(make_png(), words="A tray.")


@pytest.fixture
def shelf(jpeg) -> Picture:
    return picture_from_bytes(jpeg, words="A shelf.")


@pytest.fixture
def shown(book: Book, tray, shelf) -> Book:
    """The book with three questions that show two pictures."""
    more = (
        replace(ITEM, picture=tray),
        replace(ITEM, id="ours-2", picture=replace(tray, words="The same tray.")),
        replace(ITEM, id="ours-3", picture=shelf),
    )
    return replace(book, items=(*book.items, *more))


def opened(data: bytes, book: Book) -> Pack:
    return pack_from_bytes(data, shown="it.pack", built_in=book, is_proved=True)


def told(data: bytes, book: Book) -> str:
    with pytest.raises(ProblemsError) as caught:
        opened(data, book)
    (problem,) = caught.value.problems
    return f"{problem.what}; {problem.mend}"


def parts(data: bytes) -> tuple[dict, dict, bytes]:
    """Take a pack apart: its first line, its values, its pictures."""
    line, _, rest = data.partition(b"\n")
    header = json.loads(line)
    return header, json.loads(rest[: header["book"]]), rest[header["book"] :]


def test_pictures_are_taken_out_once_and_put_back_equal(shown, book, tray, shelf):
    """In the order of their digests; items with the same one share its bytes again."""
    bare, pictures = pictures_out(shown)
    assert list(pictures) == sorted((tray.sha256, shelf.sha256))
    assert {one.picture.data for one in bare.items if one.picture} == {b""}
    again = pictures_back(bare, pictures)
    assert again == shown
    assert again.item("ours").picture.data is again.item("ours-2").picture.data
    assert pictures_out(book) == (book, {})
    assert pictures_back(book, {}) is book


def test_a_kept_copy_holds_the_pictures(shown, book, tray):
    """Each once; without pictures it is as it was before there were any."""
    text = book_to_text(shown)
    assert book_from_text(text, shown="it") == shown
    assert text.count(tray.data.hex()) == 1
    assert '"pictures"' not in book_to_text(book)
    for pictures in ({}, {tray.sha256: "zz"}, [], {tray.sha256: tray.data.hex()}):
        damaged = json.dumps({**json.loads(text), "pictures": pictures})
        with pytest.raises(ProblemsError, match="this is no compiled book"):
            book_from_text(damaged, shown="it")


def test_a_pack_holds_the_pictures_as_they_are(shown, book, tray, shelf):
    """Behind the book, each once; the same book gives the same bytes, another byte another digest."""
    data = pack_to_bytes(Pack(book=shown))
    assert data == pack_to_bytes(Pack(book=shown))
    pack = opened(data, book)
    assert pack.book == shown
    header, held, behind = parts(data)
    assert list(header) == ["format", "version", "made_by", "bytes", "digest", "book"]
    assert header["version"] == 2
    assert list(held["pictures"]) == sorted((tray.sha256, shelf.sha256))
    assert behind == b"".join(one.data for one in sorted((tray, shelf), key=lambda one: one.sha256))
    assert pack.digest == header["digest"] == hashlib.sha256(data.partition(b"\n")[2]).hexdigest()
    other = replace(tray, data=tray.data + b"x", sha256=hashlib.sha256(tray.data + b"x").hexdigest())
    changed = replace(shown, items=(*book.items, replace(ITEM, picture=other)))
    assert opened(pack_to_bytes(Pack(book=changed)), book).digest != pack.digest


def test_a_pack_without_pictures_is_one_that_older_versions_read(book):
    """And a pack that they wrote is opened."""
    data = pack_to_bytes(Pack(book=book))
    header = json.loads(data.partition(b"\n")[0])
    assert header["version"] == 1
    assert "book" not in header
    assert opened(data, book).book == book


def test_a_pack_that_is_cut_off_or_changed_in_a_picture_is_told(shown, book):
    """By its length and its digest, before anything is looked at."""
    data = pack_to_bytes(Pack(book=shown))
    assert told(data[:-1], book).startswith("the pack ends after ")
    assert told(data + b"x", book).startswith("the pack was changed after it was made")
    assert told(data[:-1] + b"x", book).startswith("the pack was changed after it was made")


@pytest.mark.parametrize("version", [1, 2, 3])
def test_a_first_line_that_does_not_say_where_the_book_ends(shown, book, version):
    """In format 2 it must; in format 1 the book is all of it; a newer one may say it otherwise."""
    line, _, rest = pack_to_bytes(Pack(book=shown)).partition(b"\n")
    for end in (None, -1, True, "7", len(rest) + 1):
        header = {**json.loads(line), "version": version, "book": end}
        found = told(json.dumps(header).encode() + b"\n" + rest, book)
        wanted = {1: "the book inside the pack cannot be read", 2: "this file is no pack", 3: "format 3 was"}
        assert found.startswith(wanted[version])


def test_a_picture_that_only_its_words_stand_for_is_refused(shown, book):
    """Missing bytes, or bytes that nothing shows, or a length that is none."""
    _, held, behind = parts(pack_to_bytes(Pack(book=shown)))
    first, second = held["pictures"]
    sizes = held["pictures"]
    cut = behind[: sizes[first]]
    for pictures, blobs in (
        ({}, b""),
        ({first: sizes[first]}, cut),
        ({**sizes, "0" * 64: len(cut)}, behind + cut),
        ({first: sizes[second], second: sizes[first]}, behind),
        ({first: sizes[first] + 1, second: sizes[second]}, behind),
        ({first: -1, second: sizes[second] + sizes[first] + 1}, behind),
        ({first: True, second: 1}, b"xx"),
        ({first: "7"}, b"x" * 7),
        ([first, second], behind),
        (None, behind),
    ):
        found = told(text_to_bytes({**held, "pictures": pictures}, [blobs]), book)
        assert found == APART or found.startswith("a picture inside the pack cannot be used: ")
    # In format 1, where nothing stands behind the book.
    assert told(text_to_bytes({**held, "pictures": {}}), book) == APART


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "jpeg"},
        {"width_dots": 1},
        {"height_dots": 10_000},
        {"words": " "},
        {"data": "00"},
    ],
)
def test_a_picture_is_what_the_book_says_of_it_or_refused(shown, book, change):
    """A screen plans its room by that."""
    _, held, behind = parts(pack_to_bytes(Pack(book=shown)))
    held["book"]["items"][-1]["picture"] |= change
    if change == {"kind": "jpeg"}:
        held["book"]["items"][-3]["picture"] |= change
    assert told(text_to_bytes(held, [behind]), book) == APART


def test_a_digest_that_is_another_ones_is_refused(shown, book, tray):
    """However well it is named in the book."""
    _, held, behind = parts(pack_to_bytes(Pack(book=shown)))
    wrong = "f" * 64
    sizes = {wrong if name == tray.sha256 else name: size for name, size in held["pictures"].items()}
    for item in held["book"]["items"][-3:]:
        if item["picture"]["sha256"] == tray.sha256:
            item["picture"]["sha256"] = wrong
    assert told(text_to_bytes({**held, "pictures": sizes}, [behind]), book) == APART


def bomb(book: Book, data: bytes) -> bytes:
    """Write a pack whose every digest is right, with such a picture in it."""
    stated = Picture(
        words="A tray.",
        kind="png",
        width_dots=6,
        height_dots=4,
        sha256=hashlib.sha256(data).hexdigest(),
        data=data,
    )
    return pack_to_bytes(Pack(book=replace(book, items=(*book.items, replace(ITEM, picture=stated)))))


def test_a_picture_that_would_fill_the_memory_is_refused(book, make_png):
    """As in a school's folder: by its header, before a decoder sees it."""
    start = "a picture inside the pack cannot be used: the picture "
    assert told(bomb(book, make_png(stated=(60_000, 60_000))), book) == (
        f"{start}is 60,000 by 60,000 dots, more than 2,000 a side; {NEW_ONE}"
    )
    assert told(bomb(book, make_png() + b"x" * MOST_BYTES), book).startswith(f"{start}has 1,000,0")
    for data in (b"", b"<svg/>", b"\x7fELF", make_png()[:20]):
        assert told(bomb(book, data), book).startswith("a picture inside the pack cannot be used: ")


def test_more_pictures_than_a_school_has_are_refused(shown, book, make_png):
    """By the first line alone; and a kept copy in the same way."""
    start = make_png()
    many = [start + bytes([number]) * (MOST_BYTES - len(start)) for number in range(13)]
    items = tuple(
        replace(ITEM, id=f"ours-{at}", picture=picture_from_bytes(data, words="w"))
        for at, data in enumerate(many)
    )
    data = pack_to_bytes(Pack(book=replace(book, items=items)))
    assert told(data, book) == f"the pack holds more than any school's book; {NEW_ONE}"
    bare, pictures = pictures_out(replace(book, items=items))
    with pytest.raises(ValueError, match="more pictures than any school has"):
        pictures_back(bare, pictures)


@pytest.fixture
def full(book, make_png, tmp_path):
    """The largest pack that a school can make."""
    start = make_png()
    many = [start + bytes([number]) * (MOST_BYTES - len(start)) for number in range(12)]
    assert sum(map(len, many)) == MOST_ALL_BYTES
    items = tuple(
        replace(ITEM, id=f"ours-{at}", picture=picture_from_bytes(data, words="w"))
        for at, data in enumerate(many)
    )
    path = tmp_path / "full.pack"
    path.write_bytes(pack_to_bytes(Pack(book=replace(book, items=(*book.items, *items)))))
    return path


def peak_bytes(read) -> int:
    tracemalloc.start()
    try:
        pack = read()
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert sum(item.picture is not None for item in pack.book.items) == 12
    return peak


def test_a_pack_full_of_pictures_takes_less_than_fifty_megabytes(book, full):
    """As a file and as pictures, with all that is looked at but its rules."""

    def read() -> Pack:
        return pack_from_bytes(full.read_bytes(), shown="it", built_in=book, is_proved=True)

    assert MOST_ALL_BYTES < peak_bytes(read) < 50 * 1024 * 1024


@pytest.mark.long
def test_a_pack_full_of_pictures_is_proved_in_less_than_fifty_megabytes(book, full, tmp_path):
    """From its file to its mark."""
    assert peak_bytes(lambda: read_pack(full, built_in=book, proved=tmp_path / "kept")) < 50 * 1024 * 1024


def test_a_first_line_that_states_too_much_is_refused(book):
    """Of the book, or of the pictures."""
    for size, end in ((MOST_BOOK + 1, MOST_BOOK + 1), (MOST_ALL_BYTES + 8, 7)):
        header = {"format": "wavedrill.pack", "version": 2, "made_by": "1", "bytes": size, "book": end}
        line = json.dumps({**header, "digest": "0" * 64}).encode()
        assert told(line + b"\n", book) == f"the pack holds more than any school's book; {NEW_ONE}"
