"""Files and standard input are cut into documents."""

import io
from pathlib import Path

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drill.cli.documents import Document, read_documents


def documents(data: bytes) -> list[Document]:
    return list(read_documents(Path("-"), stdin=io.BytesIO(data)))


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("a: 1", 1),
        ("a: 1\n---\nb: 2\n", 2),
        ("---\na: 1\n---\nb: 2\n---\n", 2),
        ("# first\n---\na: 1\n", 1),
        ("%YAML 1.2\n---\na: 1\n---\nb: 1", 2),
        ("a: |\n  --- not a marker\n---\nb: 1", 2),
        ("--- {a: 1}\n--- {b: 1}\n", 2),
        ("a: 1\n---\n---\nb: 2\n", 3),
        ("\ufeffa: 1\r\n---\r\nb: 2\r\n", 2),
    ],
)
def test_documents_are_counted_as_yaml_counts_them(text: str, count: int) -> None:
    """A marker at the start of a line begins a document; one at the very end begins none."""
    found = documents(text.encode())
    assert len(found) == count


@given(
    parts=st.lists(
        st.sampled_from(["a: 1\n", "- x\n", "'---'\n", "|\n  text\n", "{}\n", "# only\n"]), max_size=5
    )
)
def test_cutting_agrees_with_the_parser(parts: list[str]) -> None:
    """Where the whole text parses, the pieces are the documents of the whole, but for an empty last one."""
    text = "---\n".join(parts)
    expected = list(yaml.compose_all(text, Loader=yaml.SafeLoader))
    while expected and expected[-1].value == "":
        expected.pop()
    found = [one for one in documents(text.encode()) if one.node is not None]
    while found and found[-1].node is not None and found[-1].node.value == "":
        found.pop()
    assert len(found) == len(expected)


def test_a_broken_document_leaves_its_neighbours_whole() -> None:
    """The fault of the second of three documents is told with its line in the file."""
    first, second, third = documents(b"a: 1\n---\nb: {\n---\nc: 3\n")
    assert first.node is not None
    assert third.node is not None
    assert second.node is None
    assert second.problems[0].place.line in (3, 4)
    assert second.problems[0].place.file == "<stdin>"


def test_nothing_at_all_is_told() -> None:
    """An empty input is one document with one problem."""
    (only,) = documents(b"\n# nothing\n")
    assert only.node is None
    assert "there is nothing here" in only.problems[0].what


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    """A missing file and a folder are problems, not errors."""
    for path in (tmp_path / "none.yaml", tmp_path):
        (only,) = read_documents(path, stdin=io.BytesIO())
        assert only.node is None
        assert only.problems[0].place.file == str(path)


@settings(deadline=None)
@given(data=st.binary(max_size=200))
@example(data=b"\xff\n---\na: 1")
@example(data=b'"\\ud800": x')
def test_any_bytes_give_documents(data: bytes) -> None:
    """Whatever the bytes, each document has a node or says why not."""
    found = documents(data)
    assert found
    assert all((one.node is None) == bool(one.problems) for one in found)


def test_a_file_without_end_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """So much is read and no more, whatever size the system states."""
    monkeypatch.setattr("drill.cli.documents.MOST_BYTES", 10)
    path = tmp_path / "long.yaml"
    path.write_text("a: 1\n" * 10)
    (only,) = read_documents(path, stdin=io.BytesIO())
    assert "over 10 bytes" in only.problems[0].what
