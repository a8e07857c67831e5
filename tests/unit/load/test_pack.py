"""A school's folder to a pack."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from drill.bank.book import Book
from drill.basis.problem import ProblemsError
from drill.load import open as opening
from drill.load.compile import compile_book
from drill.load.open import KEPT_COPIES, open_book, open_pack
from drill.load.pack import next_change, pack_of
from drill.rulebook.overlay import Overlay
from drill.store.pack import pack_to_bytes

DAY = date(2026, 11, 25)
RULE = """\
overlay: six-minutes
kind: local_rule
from: 2026-01-01
until: 2027-07-01
because: The board asks for it.
source: State board (invented), outline p. 4
changes:
  - {op: set, parameter: processing.neutraliser_minutes, value: 6 min}
"""
DECK = """\
topic: papers
items:
  - id: what-the-board-wants
    kind: choose
    stem: How long does the neutraliser stay on at our practical?
    answer: Six minutes.
    wrong: [{text: One minute.}, {text: An hour.}]
    because: The board asks for it.
    source: State board (invented), outline p. 4
"""
KIT = "- {diameter: 9.5 mm, length: 76 mm, shape: straight, count: 60}\n"


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """A small school."""
    folder = tmp_path / "birch"
    (folder / "rules").mkdir(parents=True)
    (folder / "decks").mkdir()
    (folder / "school.yaml").write_text("name: Birch Lane (invented)\nstudent_mode: yes\n")
    (folder / "kit.yaml").write_text(KIT)
    (folder / "rules" / "six.yaml").write_text(RULE)
    (folder / "decks" / "ours.yaml").write_text(DECK)
    return folder


def _pack(folder: Path) -> bytes:
    compiled = compile_book(folder, day=DAY)
    assert not compiled.problems, compiled.problems
    return pack_to_bytes(pack_of(compiled, school=folder, day=DAY))


def test_a_school_s_pack_has_its_rules_questions_and_kit(school: Path, tmp_path: Path, book: Book):
    """Opened, it is the book that was compiled, but for where it was written."""
    path = tmp_path / "birch.pack"
    path.write_bytes(_pack(school))
    pack = open_pack(path, day=DAY, cache=tmp_path / "cache")
    assert pack.book.rulebook.overlays == ("six-minutes",)
    assert pack.book.rulebook.values["processing.neutraliser_minutes"] == 6
    item = pack.book.item("what-the-board-wants")
    assert item is not None
    assert str(item.place).startswith("school/decks/ours.yaml:3:")
    assert pack.book.school.student_mode
    assert pack.kit is not None
    assert pack.kit.tools[0].count == 60
    assert pack.good_until == "2027-07-01"
    compiled = compile_book(school, day=DAY).book
    assert pack.book.rulebook.digest == compiled.rulebook.digest != book.rulebook.digest
    assert len(pack.book.items) == len(compiled.items)


def test_the_same_school_elsewhere_gives_the_same_bytes(school: Path, tmp_path: Path):
    """Nothing of the machine, the folder or the hour is in it."""
    other = tmp_path / "deep" / "copy"
    shutil.copytree(school, other)
    first = _pack(school)
    assert _pack(other) == first
    assert str(tmp_path).encode() not in first
    (other / "rules" / "six.yaml").write_text(RULE.replace("6 min", "7 min"))
    assert _pack(other) != first


def test_a_pack_of_what_is_built_in_has_no_school(tmp_path: Path, book: Book):
    """It opens under any version's own rules."""
    data = pack_to_bytes(pack_of(compile_book(day=DAY, proved=True), school=None, day=DAY))
    path = tmp_path / "built-in.pack"
    path.write_bytes(data)
    pack = open_pack(path, day=DAY)
    assert pack.book.rulebook.digest == book.rulebook.digest
    assert (pack.kit, pack.good_until) == (None, "")


def test_the_next_change_is_the_first_day_after_today(school: Path):
    """A rule that begins later counts, one that began does not."""

    def rule(since: str = "", until: str = "") -> Overlay:
        return Overlay(id="x", kind="local_rule", because="b", source="c", since=since, until=until)

    assert next_change((), day=DAY) == ""
    assert next_change((rule("2026-01-01"), rule(until="2026-11-25")), day=DAY) == ""
    assert next_change((rule("2027-02-01"), rule("2020-01-01", "2027-01-01")), day=DAY) == "2027-01-01"


def test_a_pack_is_not_opened_over_a_broken_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """What is built in has to hold first."""
    (tmp_path / "x.pack").write_text("")
    fault = compile_book(tmp_path / "nowhere", day=DAY).problems
    monkeypatch.setattr(opening, "open_book", lambda *_args, **_more: (None, fault))
    with pytest.raises(ProblemsError, match="there is no such school folder"):
        open_pack(tmp_path / "x.pack", day=DAY)


def test_old_copies_of_a_compiled_book_go(school: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """A school's copy is good for its day; the newest stay, and what a kill left goes with the old."""
    cache = tmp_path / "cache"
    cache.mkdir()
    (cache / "book-old.json.123").write_text("half")
    (cache / "proved-x").write_text("")
    compiled = compile_book(school, day=DAY)
    monkeypatch.setattr(opening, "compile_book", lambda *_args, **_more: compiled)
    for number in range(1, KEPT_COPIES + 3):
        assert open_book(school, day=date(2026, 10, number), cache=cache)[1] == ()
    kept = sorted(path.name for path in cache.glob("book-*"))
    assert len(kept) == KEPT_COPIES
    assert all("2026-10-0" in name for name in kept)
    assert not any(name.endswith(("2026-10-01.json", "2026-10-02.json")) for name in kept)
    assert (cache / "proved-x").exists()


def test_a_copy_of_another_version_is_not_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Its digest names the version of the program."""
    from drill.store import book as store

    open_book(None, day=DAY, cache=tmp_path)
    monkeypatch.setattr(store, "program_version", lambda: "99.0")
    open_book(None, day=DAY, cache=tmp_path)
    assert len(list(tmp_path.glob("book-*"))) == 2
