"""A pack: what goes in comes out, and what is none is told; nothing else is written, run or filled."""

import hashlib
import json
import os
import tracemalloc
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from drill.bank.blueprint import Blueprint, Outline
from drill.bank.book import Book, School
from drill.bank.item import Item, Wrong
from drill.basis.plain import from_plain
from drill.basis.problem import Place, ProblemsError
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.table import Row
from drill.service.kit import Kit, Tool
from drill.store import pack_check, version
from drill.store.pack import Pack, pack_from_bytes, pack_to_bytes, read_pack
from drill.store.pack_text import MOST_BYTES, MOST_OBJECTS, text_to_bytes
from drill.store.version import is_newer, program_version

KIT = Kit("drawer", (Tool(9.5, 12.0, 76.0, "concave", 60),))
NEW_ONE = "ask who made it for a new one"
MIB = 1024 * 1024


@pytest.fixture(scope="module")
def local(book: Book) -> Book:
    """The built-in book with a local rule and a local word in it."""
    row = Row(
        id="ours",
        when={},
        then="double_flat",
        because="The board wants it.",
        source="State board",
        set_by="ours",
    )
    changes = (
        Change(op="widen", target="papers", value="end_paper_tube", counts_as="bookend", words="paper tube"),
        Change(op="add", target="papers", row=replace(row, then="double_flat")),
        Change(op="set", target="processing.neutraliser_minutes", value=6.0),
    )
    rule = Overlay(id="ours", kind="local_rule", because="b", source="c", changes=changes)
    school = School(
        name="Schule für Haar (invented)", exam_date="2027-01-31", pass_mark=0.8, student_mode=True
    )
    return replace(book, rulebook=apply(book.rulebook, rule), school=school)


def _bytes(plain: dict) -> bytes:
    """Write a pack of these values with a digest that is right."""
    return text_to_bytes(plain)


def _plain(book: Book, **more) -> dict:
    return json.loads(pack_to_bytes(Pack(book=book, **more)).partition(b"\n")[2])


def _told(data: bytes, book: Book, *, is_proved: bool = True) -> str:
    with pytest.raises(ProblemsError) as caught:
        pack_from_bytes(data, shown="it.pack", built_in=book, is_proved=is_proved)
    (problem,) = caught.value.problems
    assert problem.place == Place("it.pack")
    return f"{problem.what}; {problem.mend}"


def test_a_pack_comes_back_equal(book: Book, local: Book):
    """The book with its local rules, the kit, and the day it is good until; the digest is of the rest."""
    data = pack_to_bytes(Pack(book=local, kit=KIT, good_until="2027-07-01"))
    pack = pack_from_bytes(data, shown="it", built_in=book)
    assert (pack.book, pack.kit, pack.good_until) == (local, KIT, "2027-07-01")
    assert pack.digest == hashlib.sha256(data.partition(b"\n")[2]).hexdigest()
    assert pack.made_by == program_version()
    assert pack.book.rulebook.digest == local.rulebook.digest != book.rulebook.digest


def test_the_same_book_gives_the_same_bytes(book: Book):
    """No time, no machine, no order of a set in it; plain letters and nothing packed tight."""
    first = pack_to_bytes(Pack(book=book))
    assert first == pack_to_bytes(Pack(book=book))
    assert first.isascii()
    header = json.loads(first.partition(b"\n")[0])
    assert list(header) == ["format", "version", "made_by", "bytes", "digest"]


@pytest.mark.parametrize(
    ("at", "value", "where"),
    [
        (("rulebook", "limits"), [], "its safety limits"),
        (("rulebook", "limits", 0, "never"), {}, "its safety limits"),
        (("rulebook", "tables", "cautions", "rows", 0, "say"), "None needed.", "the words of its cautions"),
        (("rulebook", "domains", "scalp", "values"), ["healthy", "broken"], "the facts it knows of a head"),
        (("rulebook", "domains", "scalp", "safety"), False, "the facts it knows of a head"),
        (("rulebook", "domains", "scalp", "values"), ["x"] * 5000, "the facts it knows of a head"),
        (("rulebook", "tables", "verdict", "hit"), "first", "the decisions it takes"),
        (("rulebook", "tables", "verdict", "unknowns"), {"scalp": "healthy"}, "the decisions it takes"),
        (("rulebook", "parameters", "base.packing", "value"), 40.0, "the numbers it reckons with"),
        (("rulebook", "parameters", "papers.everyday", "value"), "none", "the numbers it reckons with"),
        (("rulebook", "parameters", "base.packing", "unit"), "mm", "the numbers it reckons with"),
        (("faults",), [], "what can be seen after a service"),
        (("misconceptions", 0, "belief"), "Something else.", "the wrong ideas it knows"),
        (("rulebook", "tables"), {}, "the decisions it takes"),
        (("rulebook", "colour"), "red", "what its book is made of"),
        (("items",), 5, "what its book is made of"),
    ],
)
def test_a_pack_made_otherwise_is_told_to_be_of_another_version(book: Book, at, value, where):
    """What only another version would write, or a hand that makes the rules softer."""
    plain = _plain(book)
    _put(plain["book"], at, value)
    own = program_version()
    told = _told(_bytes(plain), book)
    assert told.startswith(
        f"version {own} made this pack, and it differs from this version, {own}, in {where}; have"
    )


def _put(plain, at, value):
    for key in at[:-1]:
        plain = plain[key]
    plain[at[-1]] = value


def _widened(book: Book, counts_as: str | None) -> dict:
    plain = _plain(book)
    table = plain["book"]["rulebook"]["tables"]["base_control"]
    table["gives"].append("tipped_on_base")
    if counts_as is not None:
        table["counts_as"] = {"tipped_on_base": counts_as}
    return plain


def test_an_added_value_counts_as_a_built_in_one_or_is_refused(book: Book):
    """Otherwise it would slip past every limit."""
    assert pack_from_bytes(_bytes(_widened(book, "on_base")), shown="it", built_in=book, is_proved=True)
    for counts_as in (None, "tipped_on_base", "nothing"):
        assert "the decisions it takes" in _told(_bytes(_widened(book, counts_as)), book)


def test_a_pack_that_breaks_a_limit_is_refused_with_the_limit(book: Book):
    """However right its digest: a row of the verdict was taken out."""
    rules = apply(
        book.rulebook,
        Overlay(
            id="ours",
            kind="local_rule",
            because="b",
            source="c",
            changes=(Change(op="remove", target="verdict", at="hydroxide-relaxer"),),
        ),
    )
    told = _told(
        pack_to_bytes(Pack(book=replace(book, rulebook=rules, items=(), misconceptions=()))),
        book,
        is_proved=False,
    )
    assert told.startswith("the pack's rules cannot be used: the limit ")
    assert told.endswith(f"; {NEW_ONE}")


ITEM = Item(id="ours", topic="papers", kind="choose", stem="Which?", decision="papers", zones=("top",))


@pytest.mark.parametrize(
    "change",
    [
        {"topic": "no_topic"},
        {"id": ""},
        {"stem": ""},
        {"decision": "no_decision"},
        {"decision": "cautions"},
        {"decision": "verdict"},
        {"decision": "turns", "row": "x"},
        {"decision": "", "row": "x"},
        {"row": "no-such-row"},
        {"zones": ("crown",)},
        {"zones": ()},
        {"vary": {"no.name": ("x",)}},
        {"vary": {"scalp": ("shiny",)}},
        {"vary": {"scalp": (5.0,)}},
        {"vary": {"scalp": ()}},
        {"contrast": {"scalp": ("shiny",)}},
        {"wrong": (Wrong(text="x", misconception="no-such-idea"),)},
        {"kind": "find_fault", "parts": ()},
        {"kind": "find_fault", "parts": ("no_decision",)},
        {"kind": "contrast"},
        {"kind": "contrast", "contrast": {"scalp": ("healthy",), "service": ("perm",)}},
        {"kind": "locate"},
        {"kind": "estimate"},
        {"kind": "order"},
        {"kind": "order", "decision": "steps", "zones": (), "steps": ("no_step",)},
        {"kind": "order", "steps": ("a", "b"), "decision": "", "wrong": (Wrong(text="x", order=(0, 7)),)},
        {"kind": "cause", "fault": "nothing-of-the-kind"},
        {"kind": "cause", "fault": "FIRST", "parts": ("no-cause",)},
        {"tolerance": 2.0},
    ],
)
def test_an_item_that_could_not_be_asked_is_refused(book: Book, change):
    """A name that nobody knows is found now, not before a student."""
    if change.get("fault") == "FIRST":
        change = {**change, "fault": book.faults[0].id}
    data = pack_to_bytes(Pack(book=replace(book, items=(*book.items, replace(ITEM, **change)))))
    name = "" if change.get("id") == "" else "ours"
    assert _told(data, book) == f"the book inside the pack does not hold together at '{name}'; {NEW_ONE}"


def test_an_item_of_a_pack_is_taken(book: Book):
    """A decision, and a figure; twice the same id is not."""
    figure = replace(
        ITEM, id="figure", decision="turns", vary={"hair.length": (200.0,), "scalp": ("healthy",)}
    )
    cause = replace(
        ITEM,
        id="cause",
        kind="cause",
        fault=book.faults[0].id,
        parts=(book.faults[0].causes[0].id,),
        decision="",
    )
    items = (*book.items, ITEM, figure, cause)
    data = pack_to_bytes(Pack(book=replace(book, items=items)))
    assert pack_from_bytes(data, shown="it", built_in=book, is_proved=True).book.items == items
    twice = pack_to_bytes(Pack(book=replace(book, items=(*items, ITEM))))
    assert "at 'items'" in _told(twice, book)


ROW = {"id": "ours", "when": {}, "then": "bookend", "because": "b", "source": "c"}


@pytest.mark.parametrize(
    "change",
    [
        {"then": "glue"},
        {"also": ["glue"]},
        {"then_from": "input", "then": "no.name"},
        {"then_from": "input", "then": "cautions"},
        {"then_from": "parameter", "then": "no.name"},
        {"then_from": "parameter", "then": "base.packing"},
        {"when": {"no.name": {"values": ["x"]}}},
        {"when": {"scalp": {}}},
        {"when": {"scalp": {"values": ["shiny"]}}},
        {"when": {"scalp": {"ranges": [{"low": 1.0, "high": 2.0}]}}},
        {"when": {"hair.length": {"ranges": [{"low": 2.0, "high": 1.0}]}}},
        {"when": {"cautions": {"values": ["x"]}}},
        {"id": "SAME"},
    ],
)
def test_a_row_that_could_not_be_decided_by_is_refused(book: Book, change):
    """Each name, value and outcome is known to the pack's own rulebook, and no id stands twice."""
    plain = _plain(book)
    rows = plain["book"]["rulebook"]["tables"]["papers"]["rows"]
    rows.append({**ROW, **change} if change != {"id": "SAME"} else rows[0])
    assert (
        _told(_bytes(plain), book)
        == f"the book inside the pack does not hold together at 'papers'; {NEW_ONE}"
    )


def test_a_table_on_the_head_cannot_read_a_zone(book: Book):
    """It would not know of which."""
    plain = _plain(book)
    row = {**ROW, "then": "go", "when": {"hair.porosity": {"values": ["porous"]}}}
    plain["book"]["rulebook"]["tables"]["verdict"]["rows"].append(row)
    assert "at 'verdict'" in _told(_bytes(plain), book)


def test_a_table_of_more_rows_than_can_be_proved_is_refused(book: Book):
    """A proof takes time by the rows."""
    plain = _plain(book)
    rows = [{**ROW, "id": f"r{n}"} for n in range(101)]
    plain["book"]["rulebook"]["tables"]["papers"]["rows"] = rows
    assert "the decisions it takes" in _told(_bytes(plain), book)


@pytest.mark.parametrize(
    ("more", "name"),
    [
        ({"kit": Kit("k", ())}, "kit"),
        ({"kit": Kit("k", (replace(KIT.tools[0], diameter_mm=-1.0),))}, "kit"),
        ({"kit": Kit("k", (replace(KIT.tools[0], diameter_mm=50.0),))}, "kit"),
        ({"kit": Kit("k", (replace(KIT.tools[0], length_mm=1e9),))}, "kit"),
        ({"kit": Kit("k", (replace(KIT.tools[0], shape="banana"),))}, "kit"),
        ({"kit": Kit("k", (replace(KIT.tools[0], count=10**9),))}, "kit"),
        ({"good_until": "soon"}, "school"),
        ({"good_until": "20270101"}, "school"),
        ({"school": School(exam_date="31 January")}, "school"),
        ({"school": School(pass_mark=0.0)}, "school"),
        ({"school": School(pass_mark=75.0)}, "school"),
        ({"school": School(blueprint={"no_topic": 1.0})}, "school"),
        ({"school": School(blueprint={"papers": -1.0})}, "school"),
    ],
)
def test_a_kit_or_a_school_that_cannot_be_is_refused(book: Book, more, name):
    """Sizes, counts, days and shares within reason."""
    school = more.pop("school", None)
    its = replace(book, school=school) if school else book
    data = pack_to_bytes(Pack(book=its, **more))
    assert _told(data, book) == f"the book inside the pack does not hold together at '{name}'; {NEW_ONE}"


@pytest.mark.parametrize(
    "blueprint",
    [
        Blueprint(outline=Outline(items=0)),
        Blueprint(outline=Outline(minutes=0.0)),
        Blueprint(weights={"papers": -1.0}),
    ],
)
def test_an_exam_that_cannot_be_dealt_is_refused(book: Book, blueprint):
    """No items, no time, or less than nothing of a topic."""
    data = pack_to_bytes(Pack(book=replace(book, blueprint=blueprint)))
    assert "at 'blueprint'" in _told(data, book)


def test_a_wrong_idea_about_a_row_that_is_gone_is_refused(book: Book):
    """The maker of packs retires it; what does not fit is not asked about."""
    idea = next(one for one in book.misconceptions for change in one.changes if change.op == "replace")
    change = next(one for one in idea.changes if one.op == "replace")
    table = book.rulebook.tables[change.target]
    rows = tuple(row for row in table.rows if row.id != change.row.id)
    its = replace(book, rulebook=book.rulebook.with_table(replace(table, rows=rows)), items=())
    assert "at 'misconceptions'" in _told(pack_to_bytes(Pack(book=its)), book)
    twice = replace(book, misconceptions=(book.misconceptions[0],) * 2, items=())
    assert "at 'items'" in _told(pack_to_bytes(Pack(book=twice)), book)


def test_a_digest_inside_what_the_digest_is_of_is_refused(book: Book):
    """Only the first line says it."""
    for name in ("digest", "made_by"):
        assert "what its book is made of" in _told(_bytes({**_plain(book), name: "x"}), book)


def test_a_fraction_that_would_fill_the_memory_is_none():
    """Nor one that divides by nothing."""
    for text in ("1e999999999", "1/0", "9" * 500, "0x5", " 1"):
        with pytest.raises(TypeError):
            from_plain(Fraction, {"fraction": text})


BOMBS = {
    "many objects": b"[" + b",".join([b"{}"] * (MOST_OBJECTS + 1)) + b"]",
    "objects in objects": b'{"a":' * (MOST_OBJECTS - 1) + b"0" + b"}" * (MOST_OBJECTS - 1),
    "lists in lists": b"[" * 149_000 + b"]" * 149_000,
    "lists side by side": b"[" + b"[]," * 74_000 + b"[]]",
    "as many objects as may be": b"[" + b",".join([b'{"a":0}'] * MOST_OBJECTS) + b"]",
    "one long text": b'["' + b"\\u00fc" * 400_000 + b'"]',
    "one long number": b"[" + b"9" * (MOST_BYTES - 2) + b"]",
    "a quote that never ends": b'["' + b"\\\\" * 1_400_000,
    "quotes": b'"' * (MOST_BYTES - 1),
    "blanks": b" " * MOST_BYTES,
    "commas": b"," * MOST_BYTES,
}


@pytest.mark.parametrize("name", sorted(BOMBS))
def test_no_pack_takes_more_than_fifty_megabytes(book: Book, tmp_path: Path, name):
    """Its digest is right, so all of it is looked at; what is small on disk stays small."""
    body = BOMBS[name]
    header = {"format": "wavedrill.pack", "version": 1, "made_by": "0.1.0", "bytes": len(body)}
    header["digest"] = hashlib.sha256(body).hexdigest()
    path = tmp_path / "bomb.pack"
    path.write_bytes(json.dumps(header).encode() + b"\n" + body)
    tracemalloc.start()
    try:
        with pytest.raises(ProblemsError):
            read_pack(path, built_in=book)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 50 * MIB
    assert [one.name for one in tmp_path.iterdir()] == ["bomb.pack"]


def test_a_whole_pack_takes_less_than_fifty_megabytes_and_writes_nothing(
    book: Book, local: Book, tmp_path: Path
):
    """With its proof."""
    path = tmp_path / "school.pack"
    path.write_bytes(pack_to_bytes(Pack(book=local, kit=KIT)))
    tracemalloc.start()
    try:
        read_pack(path, built_in=book)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 50 * MIB
    assert [one.name for one in tmp_path.iterdir()] == ["school.pack"]


def test_a_huge_file_is_not_read(book: Book, tmp_path: Path):
    """A hole of a gigabyte on the disk."""
    path = tmp_path / "huge.pack"
    with path.open("wb") as file:
        file.truncate(1024 * MIB)
    with pytest.raises(ProblemsError, match="the pack holds more than any school's book"):
        read_pack(path, built_in=book)


@pytest.mark.parametrize("name", ["missing.pack", ".", "a\0b.pack", "x" * 300, "pipe.pack"])
def test_what_is_no_file_is_told_and_never_waited_for(book: Book, tmp_path: Path, name):
    """A pipe that nobody writes into would hold the window up for good."""
    os.mkfifo(tmp_path / "pipe.pack")
    with pytest.raises(ProblemsError, match=r"cannot read the pack: .+|this file is no pack"):
        read_pack(tmp_path / name, built_in=book)


def test_what_was_proved_is_not_proved_again(book: Book, local: Book, tmp_path: Path, monkeypatch):
    """The same bytes under the same rules and version; another byte is proved anew."""
    path, kept = tmp_path / "school.pack", tmp_path / "cache"
    path.write_bytes(pack_to_bytes(Pack(book=local)))
    calls = []
    real = pack_check.prove
    monkeypatch.setattr(pack_check, "prove", lambda *args, **more: calls.append(1) or real(*args, **more))
    for _ in range(2):
        assert read_pack(path, built_in=book, proved=kept).book == local
    assert len(calls) == 1
    path.write_bytes(pack_to_bytes(Pack(book=local, good_until="2027-01-01")))
    read_pack(path, built_in=book, proved=kept)
    assert len(calls) == 2
    # Where nothing can be kept it is proved each time.
    (tmp_path / "file").write_text("")
    read_pack(path, built_in=book, proved=tmp_path / "file")
    assert len(calls) == 3


def test_versions_are_told_apart(monkeypatch):
    """Number by number; where the program is not installed it has none."""
    assert is_newer("0.2.0", "0.1.9")
    assert is_newer("0.10", "0.9.5")
    assert not is_newer("1.0", "1")
    assert not is_newer("x.y", "0.1")

    def missing(name):
        raise version.PackageNotFoundError(name)

    monkeypatch.setattr(version, "version", missing)
    assert program_version() == "0"
