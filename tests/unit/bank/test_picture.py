"""A school's own picture: what its header says is read before any decoder sees it."""

import hashlib
import json
from dataclasses import replace

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.bank.picture import MOST_BYTES, PictureRefusedError, picture_from_bytes
from drill.bank.question import question_to_plain
from drill.basis.words import catalogue

DAMAGED = "the picture's first bytes are damaged or cut off"
NEITHER = "the picture is neither PNG nor JPEG by its first bytes"


def refused(data: bytes) -> str:
    with pytest.raises(PictureRefusedError) as caught:
        picture_from_bytes(data, words="A tray.")
    assert caught.value.mend
    return caught.value.what


def test_a_png_tells_its_sides(make_png):
    """In dots, with the digest of all its bytes."""
    data = make_png(30, 20)
    picture = picture_from_bytes(data, words="A tray.")
    assert (picture.kind, picture.width_dots, picture.height_dots) == ("png", 30, 20)
    assert (picture.words, picture.data) == ("A tray.", data)
    assert picture.sha256 == hashlib.sha256(data).hexdigest()
    assert "data" not in repr(picture)


def test_a_jpeg_of_a_real_encoder_tells_its_sides(jpeg):
    """They stand behind tables of any length."""
    picture = picture_from_bytes(jpeg, words="A rectangle.")
    assert (picture.kind, picture.width_dots, picture.height_dots) == ("jpeg", 24, 10)


def frame(marker: int, width: int, height: int) -> bytes:
    sides = height.to_bytes(2, "big") + width.to_bytes(2, "big")
    return bytes([0xFF, marker, 0, 11, 8]) + sides + b"\x01\x01\x11\0"


@pytest.mark.parametrize(
    "marker", [*range(0xC0, 0xC4), *range(0xC5, 0xC8), *range(0xC9, 0xCC), 0xCD, 0xCE, 0xCF]
)
def test_every_form_of_a_frame_is_read(marker):
    """Plain, progressive, arithmetic: whatever a decoder takes."""
    picture = picture_from_bytes(b"\xff\xd8" + frame(marker, 300, 200), words="w")
    assert (picture.width_dots, picture.height_dots) == (300, 200)


@pytest.mark.parametrize(
    "before",
    [
        b"\xff\xe0\0\x04ab",
        b"\xff\xff\xff",
        b"\xff\x01",
        b"\xff\xd0\xff\xd7",
        b"\xff\xc4\0\x05abc",
        b"\xff\xfe\0\x02",
        # A smaller picture inside a segment is not the picture.
        b"\xff\xe1" + (2 + 13).to_bytes(2, "big") + frame(0xC0, 8, 8),
    ],
)
def test_what_stands_before_the_frame_is_passed_over(before):
    """Segments by their length, lone markers, bytes that fill."""
    picture = picture_from_bytes(b"\xff\xd8" + before + frame(0xC0, 300, 200), words="w")
    assert (picture.width_dots, picture.height_dots) == (300, 200)


@pytest.mark.parametrize(
    "after",
    [
        b"\xff",
        b"\xff\xc0\0\x0b\x08\0",
        b"\xff\xda\0\x0c" + frame(0xC0, 300, 200),
        b"\xff\xd9" + frame(0xC0, 300, 200),
        b"\xff\xe0\0\x01" + frame(0xC0, 300, 200),
        b"\xff\xe0\xff\xff" + frame(0xC0, 300, 200),
        b"\xff\xe0\0\x02\0\0" + frame(0xC0, 300, 200),
        b"\xff" * 900,
        frame(0xC0, 0, 200),
        frame(0xC0, 300, 0),
    ],
)
def test_a_jpeg_without_a_sound_frame_is_refused(after):
    """Cut off, dots before the frame, a length that leads nowhere, no width or height."""

    assert refused(b"\xff\xd8\xff\xe0\0\x02" + after) == DAMAGED


def test_a_png_whose_header_is_cut_off_or_changed_is_refused(make_png):
    """Wherever it ends, and whatever byte of the header is another one."""
    data = make_png()
    for end in range(8, 33):
        assert refused(data[:end]) == DAMAGED
    for at in range(8, 33):
        changed = bytearray(data)
        changed[at] ^= 1
        assert refused(bytes(changed)) == DAMAGED
    assert picture_from_bytes(data[:33], words="w").width_dots == 6


def test_sides_of_nothing_are_refused(make_png):
    """A picture of no dots."""
    assert refused(make_png(stated=(0, 5))) == DAMAGED
    assert refused(make_png(stated=(5, 0))) == DAMAGED


def test_a_small_file_that_stands_for_a_huge_picture_is_refused(make_png):
    """By what its header says, before a decoder would fill the memory."""
    told = "the picture is 60,000 by 70,000 dots, more than 2,000 a side"
    assert refused(make_png(stated=(60_000, 70_000))) == told
    assert refused(make_png(stated=(2**32 - 1, 1))).startswith("the picture is 4,294,967,295 by 1 dots")
    assert refused(b"\xff\xd8" + frame(0xC2, 65_535, 65_535)).startswith("the picture is 65,535 by 65,535")
    assert refused(make_png(stated=(2_001, 1))).endswith("more than 2,000 a side")
    assert refused(make_png(stated=(1, 2_001))).endswith("more than 2,000 a side")
    assert picture_from_bytes(make_png(stated=(2_000, 2_000)), words="w").height_dots == 2_000


def test_a_large_file_is_refused(make_png):
    """A byte too many is enough."""
    data = make_png()
    assert picture_from_bytes(data + b"\0" * (MOST_BYTES - len(data)), words="w").kind == "png"
    assert refused(data + b"\0" * (MOST_BYTES + 1 - len(data))) == (
        "the picture has 1,000,001 bytes, more than 1,000,000"
    )


@pytest.mark.parametrize(
    "data", [b"", b"GIF89a" + b"\0" * 40, b"<svg/>", b"PNG", b"\x89PNG\r\n\x1a", b"\xff\xd8", b"RIFF    WEBP"]
)
def test_other_bytes_are_no_picture(data):
    """Whatever the file is called."""
    assert refused(data) == NEITHER


class _Shouting:
    def gettext(self, message: str) -> str:
        return message.upper()


def test_a_question_shows_the_picture_of_its_item(book, make_png):
    """Of a fact and of a scenario; its words are said as all others are."""
    picture = picture_from_bytes(make_png(), words="A tray.")
    maker = QuestionMaker(Beliefs(book))
    fact = next(item for item in book.items if item.answer)
    scenario = next(item for item in book.items if item.decision == "papers")
    for item in (fact, scenario):
        question = maker.make(replace(item, picture=picture), 1)
        assert question.picture == picture
        assert replace(question, picture=None) == maker.make(item, 1)
        with catalogue(_Shouting()):
            assert maker.make(replace(item, picture=picture), 1).picture.words == "A TRAY."


def test_an_item_that_cannot_be_asked_shows_nothing(book, make_png):
    """There is no question to show it with."""
    picture = picture_from_bytes(make_png(), words="A tray.")
    item = next(item for item in book.items if item.decision == "papers")
    maker = QuestionMaker(Beliefs(book))
    maker._made = lambda *_: None
    assert maker.make(replace(item, picture=picture), 1) is None


def test_a_question_tells_other_programs_of_its_picture(book, make_png):
    """Without its bytes; null where there is none."""
    item = next(item for item in book.items if item.answer)
    maker = QuestionMaker(Beliefs(book))
    assert question_to_plain(maker.make(item, 1))["picture"] is None
    picture = picture_from_bytes(make_png(30, 20), words="A tray.")
    plain = json.loads(json.dumps(question_to_plain(maker.make(replace(item, picture=picture), 1))))
    assert plain["picture"] == {
        "words": "A tray.",
        "kind": "png",
        "width": 30,
        "height": 20,
        "sha256": picture.sha256,
    }
