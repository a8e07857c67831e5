"""Any bytes at all are a picture within its limits, or are refused in words; in a pack too."""

import random
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from drill.bank.item import Item, Wrong
from drill.bank.picture import MOST_SIDE_DOTS, PictureRefusedError, picture_from_bytes
from drill.basis.problem import ProblemsError
from drill.load.pictures import SchoolPictures
from drill.store.pack import Pack, pack_from_bytes, pack_to_bytes

STARTS = (b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR", b"\xff\xd8\xff", b"\xff\xd8\xff\xe0\0\x02\xff\xc0\0\x0b")
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


def _well_told(what: str, mend: str) -> None:
    assert what.strip()
    assert mend.strip()


def is_taken(data: bytes) -> bool:
    """Take it within its limits, or refuse it in words."""
    try:
        picture = picture_from_bytes(data, words="w")
    except PictureRefusedError as refused:
        _well_told(refused.what, refused.mend)
        return False
    assert 0 < picture.width_dots <= MOST_SIDE_DOTS
    assert 0 < picture.height_dots <= MOST_SIDE_DOTS
    return True


@given(st.sampled_from((b"", *STARTS)), st.binary(max_size=200))
@example(b"\xff\xd8\xff", b"\xff" * 200)
@example(b"\xff\xd8\xff\xe0", b"\0\x02" + b"\xff\xe0\0\x02" * 40)
def test_any_bytes_are_taken_or_refused(start, rest):
    """And never waited for."""
    is_taken(start + rest)


def test_damaged_pictures_are_taken_or_refused(make_png, jpeg):
    """A bit, a byte or a piece of a sound one changed; what is taken keeps within its limits."""
    rng = random.Random("damaged pictures")
    taken = 0
    for whole in (make_png(30, 20), jpeg):
        for _ in range(1_000):
            data = bytearray(whole)
            for _ in range(rng.choice((1, 1, 2, 5))):
                at = rng.randrange(len(data))
                data[at : at + rng.choice((0, 1, 1, 4))] = rng.randbytes(rng.choice((0, 1, 1, 4)))
            taken += is_taken(bytes(data))
    assert 100 < taken < 1_950


@given(
    st.text(max_size=40)
    | st.lists(st.sampled_from(["..", "pictures", "/", "\\", "x.png", ".", ""])).map("/".join)
)
def test_any_path_names_a_picture_of_the_folder_or_is_told(tmp_path_factory, path):
    """Here the folder has none, and what lies beside it is never read."""
    folder = tmp_path_factory.getbasetemp() / "school-without-pictures"
    folder.mkdir(exist_ok=True)
    with pytest.raises(PictureRefusedError) as refused:
        SchoolPictures(folder).read(path, words="w")
    assert refused.value.what
    assert refused.value.mend


def test_a_pack_whose_pictures_were_damaged_is_told(book, make_png):
    """Somewhere in what stands behind the book, or in the first line."""
    picture = picture_from_bytes(make_png(30, 20), words="A tray.")
    small = replace(book, items=(replace(ITEM, picture=picture),))
    data = pack_to_bytes(Pack(book=small))
    line = data.index(b"\n")
    rng = random.Random("damaged packs")
    for number in range(60):
        low, high = (0, line) if number % 2 else (len(data) - len(picture.data), len(data))
        at = rng.randrange(low, high)
        damaged = data[:at] + bytes([data[at] ^ (1 << rng.randrange(8))]) + data[at + 1 :]
        try:
            pack = pack_from_bytes(damaged, shown="it", built_in=book, is_proved=True)
        except ProblemsError as error:
            for one in error.problems:
                _well_told(one.what, one.mend)
        else:
            # Only the version that made it may be said otherwise unseen.
            assert pack.book == small
            assert at < line
