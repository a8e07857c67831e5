"""A compiled book on disk."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from drill.bank.book import Book, School
from drill.basis.problem import ProblemsError
from drill.store.book import (
    FORMAT,
    MOST_BYTES,
    book_from_text,
    book_to_text,
    digest_of_files,
    read_book,
    write_book,
)


def _told(path: Path) -> list[str]:
    with pytest.raises(ProblemsError) as caught:
        read_book(path)
    return [str(one) for one in caught.value.problems]


def test_a_book_is_kept_and_opened_equal(book: Book, tmp_path):
    """In a folder that is made for it, with no half file left."""
    path = tmp_path / "new" / "deep" / "book.json"
    school = School(name="Schule für Haar (invented)", exam_date="2027-01-31", pass_mark=0.8)
    write_book(path, replace(book, school=school))
    assert read_book(path) == replace(book, school=school)
    assert [one.name for one in path.parent.iterdir()] == ["book.json"]
    assert "Schule für Haar" in path.read_text(encoding="utf-8")


def test_a_book_takes_the_place_of_the_one_before(book: Book, tmp_path):
    """A reader meets the old one or the new one."""
    path = tmp_path / "book.json"
    write_book(path, book)
    write_book(path, replace(book, items=()))
    assert read_book(path).items == ()


def test_a_book_that_cannot_be_written_leaves_the_old_one(book: Book, tmp_path, monkeypatch):
    """The disk is full halfway."""
    path = tmp_path / "book.json"
    write_book(path, replace(book, items=()))

    def full(self, *_args, **_values):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(OSError, match="No space left"):
        write_book(path, book)
    monkeypatch.undo()
    assert read_book(path).items == ()
    assert [one.name for one in tmp_path.iterdir()] == ["book.json"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        "null",
        "7",
        '"book"',
        "{}",
        '{"format": "book.v1"}',
        '{"format": "book.v1", "book": null}',
        '{"format": "book.v1", "book": {}}',
        '{"format": "book.v0", "book": {}}',
        '{"format": "book.v1", "book": {"rulebook": 5}}',
        "[" * 100_000,
        "1" * 10_000,
    ],
)
def test_what_is_no_book_says_so(tmp_path, text):
    """One line, whatever is wrong inside."""
    path = tmp_path / "book.json"
    path.write_text(text, encoding="utf-8")
    assert _told(path) == [f"{path}:1:1: this is no compiled book; compile it again from its school folder"]


@pytest.mark.parametrize(
    ("at", "value"),
    [
        (("rulebook", "tables"), []),
        (("rulebook", "domains", "scalp", "values"), "healthy"),
        (("rulebook", "tables", "verdict", "hit"), "last"),
        (("rulebook", "parameters", "papers.spare_share", "low"), "x"),
        (("rulebook", "parameters", "papers.spare_share", "low"), 10**400),
        (("items",), {"a": 1}),
        (("school",), {"name": "x", "colour": "y"}),
        (("topics",), None),
    ],
)
def test_a_damaged_book_is_no_book(book: Book, at, value):
    """One value of another shape is enough."""
    plain = json.loads(book_to_text(book))
    inner = plain["book"]
    for key in at[:-1]:
        inner = inner[key]
    inner[at[-1]] = value
    with pytest.raises(ProblemsError, match=r"^it:1:1: this is no compiled book"):
        book_from_text(json.dumps(plain), shown="it")


def test_a_file_that_cannot_be_read_is_no_book(tmp_path):
    """Missing, a folder, not text, or too large to be one."""
    (tmp_path / "binary").write_bytes(b"\xff\xfe\x00")
    with (tmp_path / "large").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    for name in ("missing", ".", "binary", "large"):
        assert len(_told(tmp_path / name)) == 1


def test_files_have_a_digest_of_name_order_and_content(tmp_path):
    """Bytes cannot move from one file to the next unseen."""
    one, two = tmp_path / "one", tmp_path / "two"
    one.write_bytes(b"ab")
    two.write_bytes(b"c")
    first = digest_of_files([one, two])
    assert len(first) == 24
    assert first == digest_of_files([one, two])
    assert first != digest_of_files([two, one])
    one.write_bytes(b"a")
    two.write_bytes(b"bc")
    assert first != digest_of_files([one, two])
    assert digest_of_files([]) != first
    assert FORMAT == "book.v1"
