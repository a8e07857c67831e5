"""A school's own pictures, from its folder to its book: each once, and none from anywhere else."""

import os
from datetime import date

import pytest

from drill.bank.picture import MOST_ALL_BYTES, MOST_BYTES, PictureRefusedError
from drill.load.compile import compile_book
from drill.load.decks import read_deck
from drill.load.open import open_book
from drill.load.pack import pack_of
from drill.load.pictures import SchoolPictures, picture_files
from drill.load.reading import read_text

DAY = date(2026, 11, 25)
ITEM = """
  - id: {name}
    kind: choose
    stem: What lies in the tray?
    picture: {{file: {file}, words: {words}}}
    answer: Tools.
    wrong: [{{text: Papers.}}, {{text: Clips.}}]
    because: It was laid out so.
    source: Workroom rules, p. 1
"""
SCENARIO = """
  - id: on-a-head
    kind: choose
    decision: papers
    zone: any
    stem: The {zone}. Which paper?
    picture: {file: pictures/tray.png, words: The dish of papers.}
"""
PUT_THERE = "put the file into the folder 'pictures' beside school.yaml, and write its name there"


@pytest.fixture
def school(tmp_path, make_png, jpeg):
    """A folder with three pictures, two of them of the same bytes."""
    folder = tmp_path / "school"
    for name in ("pictures/deep", "decks"):
        (folder / name).mkdir(parents=True)
    (folder / "school.yaml").write_text("name: Birch Lane (invented)\n", encoding="utf-8")
    (folder / "pictures" / "tray.png").write_bytes(make_png())
    (folder / "pictures" / "deep" / "same.png").write_bytes(make_png())
    (folder / "pictures" / "shelf.jpg").write_bytes(jpeg)
    return folder


def write_deck(school, *names, words="A tray."):
    items = "".join(ITEM.format(name=f"item-{at}", file=name, words=words) for at, name in enumerate(names))
    text = f"topic: house_rules\nitems:{items}{SCENARIO}"
    (school / "decks" / "ours.yaml").write_text(text, encoding="utf-8")


def told(pictures, written):
    with pytest.raises(PictureRefusedError) as caught:
        pictures.read(written, words="w")
    return f"{caught.value.what}; {caught.value.mend}"


def test_pictures_come_into_the_book(school):
    """Of a fact and of a scenario, both strokes in a path, and the same bytes once in memory."""
    write_deck(school, "pictures/tray.png", "pictures/deep/same.png", r"pictures\shelf.jpg")
    compiled = compile_book(school, day=DAY, proved=True)
    assert compiled.problems == ()
    items = {item.id: item.picture for item in compiled.book.items if item.picture is not None}
    assert list(items) == ["item-0", "item-1", "item-2", "on-a-head"]
    first, second, third, head = items.values()
    assert first == second
    assert first.data is second.data is head.data
    assert (first.kind, third.kind) == ("png", "jpeg")
    assert (first.words, head.words) == ("A tray.", "The dish of papers.")


def test_an_item_with_a_fault_in_its_picture_is_left_out(school, rulebook):
    """And its neighbours stay."""
    write_deck(school, "pictures/tray.png", "pictures/trai.png")
    compiled = compile_book(school, day=DAY, proved=True)
    (problem,) = compiled.problems
    assert str(problem).endswith(
        "decks/ours.yaml:15:21: there is no picture 'pictures/trai.png'; did you mean 'pictures/tray.png'?"
    )
    assert compiled.book.item("item-1") is None
    assert compiled.book.item("on-a-head") is not None


def test_every_kind_of_item_may_show_one(school, rulebook):
    """What is asked has nothing to do with it."""
    text = """
topic: t
items:
  - {id: a, kind: estimate, decision: turns, zone: any, stem: s, tolerance: 10 %, PIC}
  - {id: b, kind: locate, decision: base_control, zone: any, wanted: on_base, stem: s, PIC}
  - {id: c, kind: stop_or_go, row: burns, stem: s, PIC}
"""
    picture = "picture: {file: pictures/tray.png, words: w}"
    (node,), _ = read_text(text.replace("PIC", picture).encode(), shown="it.yaml")
    problems = []
    _, _, items = read_deck(node, rulebook, problems, beliefs={}, local=True, pictures=SchoolPictures(school))
    assert not [one for one in problems if "picture" in one.what]
    assert items
    assert all(item.picture.words == "w" for item in items)


def test_no_link_leads_out_of_the_folder(school, tmp_path, make_png):
    """Of a file, of a folder, of the folder of pictures itself; one that stays inside is taken."""
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "secret.png").write_bytes(make_png())
    (school / "pictures" / "link.png").symlink_to(tmp_path / "outside" / "secret.png")
    (school / "pictures" / "folder").symlink_to(tmp_path / "outside")
    (school / "pictures" / "inside.png").symlink_to(school / "pictures" / "tray.png")
    pictures = SchoolPictures(school)
    copy = "copy the file itself into the folder 'pictures'"
    for name in ("pictures/link.png", "pictures/folder/secret.png"):
        assert told(pictures, name) == f"'{name}' is a link that leads out of the school's folder; {copy}"
    assert pictures.read("pictures/inside.png", words="w").kind == "png"
    assert not any("secret" in name for name in pictures.names)
    (school / "pictures").rename(tmp_path / "moved")
    (school / "pictures").symlink_to(tmp_path / "moved")
    assert "is a link that leads out" in told(SchoolPictures(school), "pictures/tray.png")
    assert picture_files(school) == []


def test_a_school_folder_that_is_a_link_itself_is_taken(school, tmp_path):
    """What lies in it lies in it."""
    (tmp_path / "link").symlink_to(school)
    assert SchoolPictures(tmp_path / "link").read("pictures/tray.png", words="w").kind == "png"


def test_paths_that_lead_nowhere_are_told(school):
    """Links to nowhere and in a ring, names too long or of letters that no name has, a pipe, a folder."""
    folder = school / "pictures"
    (folder / "gone.png").symlink_to(folder / "not-there.png")
    (folder / "ring.png").symlink_to(folder / "ring.png")
    os.mkfifo(folder / "pipe.png")
    pictures = SchoolPictures(school)
    rights = "check the path and its rights"
    assert told(pictures, "pictures/gone.png").startswith("there is no picture 'pictures/gone.png'; ")
    assert told(pictures, "pictures/tray.png/x.png").startswith("there is no picture 'pictures/tray.png/x")
    assert told(pictures, "pictures/ring.png") == f"cannot read the picture: it cannot be read; {rights}"
    assert told(pictures, "pictures/a\0b.png") == f"cannot read the picture: it cannot be read; {rights}"
    assert told(pictures, f"pictures/{'x' * 300}") == f"cannot read the picture: file name too long; {rights}"
    for name in ("pictures/pipe.png", "pictures/deep", "pictures"):
        assert told(pictures, name) == f"'{name}' is no file; name a PNG or JPEG file"
    assert pictures.names == ("pictures/deep/same.png", "pictures/shelf.jpg", "pictures/tray.png")


@pytest.mark.parametrize(
    "written",
    ["../tray.png", "pictures/../../x.png", "/pictures/tray.png", "//host/share/x.png", "C:/x.png", "C:x.png",
     r"..\x.png", r"\\host\share\x.png", "pictures/..", "/dev/zero"],
)  # fmt: skip
def test_no_path_leads_out_of_the_folder(school, written):
    """However it is written, on whatever system."""
    assert (
        told(SchoolPictures(school), written) == f"'{written}' leads out of the school's folder; {PUT_THERE}"
    )


def test_what_lies_elsewhere_in_the_folder_is_told(school, make_png):
    """Names are offered where there are few, hidden ones never; else where to put it."""
    (school / "tray.png").write_bytes(make_png())
    (school / "pictures" / ".hidden.png").write_bytes(make_png())
    pictures = SchoolPictures(school)
    what = "'tray.png' does not lie in the folder 'pictures'"
    assert told(pictures, "tray.png") == f"{what}; did you mean 'pictures/tray.png'?"
    listed = "use one of: pictures/deep/same.png, pictures/shelf.jpg, pictures/tray.png"
    assert told(pictures, "other").endswith(f"; {listed}")
    assert told(pictures, ".").endswith(f"; {listed}")
    for number in range(9):
        (school / "pictures" / f"{number}.png").write_bytes(make_png())
    assert told(pictures, "another").endswith(f"; {PUT_THERE}")
    assert told(SchoolPictures(school / "decks"), "another").endswith(f"; {PUT_THERE}")


def test_a_picture_that_is_too_large_is_not_read_to_its_end(school):
    """A hole of a gigabyte on the disk."""
    with (school / "pictures" / "huge.png").open("wb") as file:
        file.truncate(1_000_000_000)
    assert told(SchoolPictures(school), "pictures/huge.png") == (
        "the picture has 1,000,001 bytes, more than 1,000,000; save it smaller: 1,000 dots across are enough "
        "for a phone"
    )
    assert school / "pictures" / "huge.png" not in picture_files(school)


def test_all_pictures_together_fit_a_phone(school, make_png):
    """One that is shown often counts once; the one that is too much is told."""
    start = make_png()
    for number in range(13):
        data = start + bytes([number]) * (MOST_BYTES - len(start))
        (school / "pictures" / f"{number}.png").write_bytes(data)
    pictures = SchoolPictures(school)
    for number in [*range(12), *range(12)]:
        pictures.read(f"pictures/{number}.png", words="w")
    assert told(pictures, "pictures/12.png") == (
        f"with this one the school's pictures have over {MOST_ALL_BYTES:,} bytes; save some of them smaller, "
        "or leave some out"
    )
    assert pictures.read("pictures/0.png", words="w").kind == "png"


def test_a_kept_copy_is_made_anew_when_the_bytes_of_a_picture_change(school, tmp_path, make_png):
    """Not only its words."""
    write_deck(school, "pictures/tray.png")
    cache = tmp_path / "cache"
    for shade in (1, 1, 2):
        (school / "pictures" / "tray.png").write_bytes(make_png(shade=shade))
        opened, problems = open_book(school, day=DAY, cache=cache)
        assert problems == ()
        assert opened.item("item-0").picture.data == make_png(shade=shade)
        assert open_book(school, day=DAY, cache=cache)[0] == opened
    assert len(list(cache.glob("book-*.json"))) == 2


def test_a_pack_holds_the_pictures(school):
    """And no place of this machine."""
    write_deck(school, "pictures/tray.png")
    compiled = compile_book(school, day=DAY, proved=True)
    pack = pack_of(compiled, school=school, day=DAY)
    item = pack.book.item("item-0")
    assert item.picture == compiled.book.item("item-0").picture
    assert item.place.file == "school/decks/ours.yaml"
