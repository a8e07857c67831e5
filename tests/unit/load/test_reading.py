"""YAML text to nodes."""

from pathlib import Path

import pytest

from drill.basis.problem import Place, Problem
from drill.load.reading import MOST_DEPTH, Fields, Node, read_file, read_text


def _fields(text: str) -> tuple[Fields, list[Problem]]:
    (node,), problems = read_text(text.encode(), shown="it.yaml")
    return Fields(node, problems, what="a row"), problems


def _plain(node: Node):
    if isinstance(node.value, list):
        return [_plain(one) for one in node.value]
    if isinstance(node.value, dict):
        return {key: _plain(one) for key, one in node.value.items()}
    return node.value


def test_everything_is_text_until_someone_says_otherwise():
    """No boolean, no octal, no time of day, no null."""
    (node,), _ = read_text(b"a: no\nb: 012\nc: 1:30\nd: ~\ne:\nf: 2026-01-01\n", shown="it.yaml")
    assert _plain(node) == {"a": "no", "b": "012", "c": "1:30", "d": "~", "e": "", "f": "2026-01-01"}


def test_every_document_is_a_node_with_places():
    """Lines and columns count from 1, through every document."""
    nodes, problems = read_text("# é\na: {b: [c, 'd']}\n---\n- e\n".encode(), shown="it.yaml")
    assert problems == []
    assert [_plain(node) for node in nodes] == [{"a": {"b": ["c", "d"]}}, ["e"]]
    inner = nodes[0].value["a"].value["b"]
    assert (nodes[0].keys["a"], inner.place, inner.value[1].place) == (
        Place("it.yaml", 2, 1),
        Place("it.yaml", 2, 8),
        Place("it.yaml", 2, 12),
    )
    assert nodes[1].value[0].place == Place("it.yaml", 4, 3)


def test_a_mark_at_the_start_is_no_fault():
    """Some editors write one."""
    (node,), problems = read_text(b"\xef\xbb\xbfa: b\n", shown="it.yaml")
    assert (_plain(node), node.place, problems) == ({"a": "b"}, Place("it.yaml", 1, 1), [])


def test_an_empty_text_has_no_nodes():
    """Nor any fault: whoever wants a node says so."""
    assert read_text(b"", shown="it.yaml") == ([], [])
    assert read_text(b"# nothing\n", shown="it.yaml") == ([], [])


def test_nesting_has_a_limit():
    """Up to it, it is read."""
    text = "[" * MOST_DEPTH + "]" * MOST_DEPTH
    assert read_text(text.encode(), shown="it.yaml")[1] == []
    deeper = read_text(f"[{text}]".encode(), shown="it.yaml")
    assert deeper[0] == []
    assert [one.what for one in deeper[1]] == [f"nested deeper than {MOST_DEPTH} levels"]


def test_a_place_behind_letters_of_two_bytes_counts_letters():
    """In the text and where it is no UTF-8."""
    assert read_text("é: [&a b, *a]".encode(), shown="it.yaml")[1][0].place == Place("it.yaml", 1, 11)
    assert read_text("éé".encode() + b"\xff", shown="it.yaml")[1][0].place == Place("it.yaml", 1, 3)
    assert read_text("a\né\0".encode(), shown="it.yaml")[1][0].place == Place("it.yaml", 2, 2)


def test_a_file_is_shown_by_the_name_given(tmp_path: Path):
    """Or by its path."""
    path = tmp_path / "a.yaml"
    path.write_bytes(b"a: *b\n")
    assert read_file(path)[1][0].place.file == str(path)
    assert read_file(path, shown="a.yaml")[1][0].place.file == "a.yaml"


def test_a_fault_of_the_parser_that_we_have_no_words_for_keeps_its_own():
    """With the usual mend."""
    _, problems = read_text(b"%FOO\n%YAML 9.9\n---\na", shown="it.yaml")
    assert len(problems) == 1
    assert problems[0].what.startswith("this is not YAML: ")


def test_what_is_not_taken_is_unknown():
    """At the key's own place."""
    fields, problems = _fields("id: a\nwhne: {}\n")
    assert (fields.text("id"), fields.take("when")) == ("a", None)
    fields.done()
    assert [str(one) for one in problems] == ["it.yaml:2:1: a row has no key 'whne'; did you mean 'when'?"]


def test_a_value_of_another_shape_is_told():
    """Text, list and pairs each."""
    fields, problems = _fields("id: [a]\nrows: b\nwhen: c\nalso: [{d: e}, f]\nempty: ''\n")
    assert (fields.text("id"), fields.items("rows"), [*fields.pairs("when")]) == ("", [], [])
    assert fields.texts("also") == ("f",)
    assert (fields.text("empty"), fields.texts("none"), fields.items("none"), [*fields.pairs("none")]) == (
        "",
        (),
        [],
        [],
    )
    assert [one.what for one in problems] == [
        "'id' is not text",
        "'rows' is not a list",
        "'when' is not written as 'name: value'",
        "'also' holds something that is not text",
    ]


def test_what_is_no_mapping_has_no_keys():
    """It is told once, and nothing is missed in it."""
    fields, problems = _fields("- a\n")
    assert fields.text("id", required=True) == ""
    fields.done()
    assert len(problems) == 1


@pytest.mark.parametrize("data", [b"a: b\n c: d", b"a: [b\nc: d", b'"a'])
def test_a_faulty_text_gives_no_nodes(data):
    """Half a file is no file."""
    nodes, problems = read_text(data, shown="it.yaml")
    assert nodes == []
    assert len(problems) == 1
