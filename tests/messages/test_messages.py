"""Every broken file beside this one gets exactly the lines that stand in the text file of its name.

A case is a file or a folder, `NAME.yaml` or `NAME/`, with its lines in `NAME.txt`. A folder of `rulebook`
holds the files that differ from `rulebook/sound`.
"""

import re
import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from drill.bank.book import Book
from drill.basis.problem import ProblemsError
from drill.load.compile import compile_book, load_misconceptions
from drill.load.consultation import read_consultation
from drill.load.decks import read_deck, refuse_twins
from drill.load.faults import load_faults
from drill.load.pictures import SchoolPictures
from drill.load.reading import MOST_BYTES, read_file
from drill.load.rulebook import load_rulebook
from drill.load.school import load_school
from drill.rulebook.proof import prove
from drill.store.pack import read_pack
from drill.store.version import program_version

HERE = Path(__file__).parent
KINDS = (
    "consultation",
    "yaml",
    "local_rule",
    "misconception",
    "deck",
    "picture",
    "school",
    "rulebook",
    "pack",
)
CASES = [
    path.relative_to(HERE).with_suffix("") for kind in KINDS for path in sorted((HERE / kind).glob("*.txt"))
]
DAY = date(2026, 11, 25)
LINE = re.compile(r"[^:]+:[1-9]\d*:[1-9]\d*: \S.*; \S.*")
# Which head of the built-in rules is shown may change with any of them; the small ones of `rulebook` show it.
EXAMPLE = re.compile(r"(for example for |what to do with ).+?;")
# What a line never says: blame, the program's own words, and what another program prints.
NEVER = re.compile(
    r"[Ii]nvalid|[Ii]llegal|[Pp]lease|[Ee]rror|[Nn]ull|None|Traceback|expected|mapping|scalar|token"
)


def _told(case, rulebook, folder):
    kind, path = case.parts[0], Path(case.with_suffix(".yaml").name)
    problems = []
    if kind == "school":
        _, problems = load_school(Path(case.name), rulebook)
    elif kind == "rulebook":
        problems = _rulebook_problems(case.name, folder)
    elif kind == "local_rule":
        problems = _local_rule_problems(path, folder)
    elif kind == "pack":
        problems = _pack_problems(path.with_suffix(".pack"), rulebook)
    elif kind == "misconception":
        shutil.copy(path, folder)
        load_misconceptions(folder, rulebook, problems)
    else:
        nodes, problems = read_file(path)
        for node in nodes:
            _read(kind, node, rulebook, problems)
    lines = [str(one).replace(f"{folder}/", "") for one in sorted(set(problems))]
    return [EXAMPLE.sub(r"\1HEAD;", line) for line in lines] if kind == "local_rule" else lines


def _pack_problems(path, rulebook):
    own = Book(rulebook=rulebook, misconceptions=(), items=(), topics={})
    with pytest.raises(ProblemsError) as caught:
        read_pack(path, built_in=own)
    version = f"this version, {program_version()},"
    return [
        replace(one, what=one.what.replace(version, "this version, OURS,")) for one in caught.value.problems
    ]


def _read(kind, node, rulebook, problems):
    if kind in ("consultation", "yaml"):
        read_consultation(node, rulebook, problems, folder=Path())
    else:
        beliefs = {"lift-is-free": None}
        seen = {one.id: one for one in load_faults(rulebook)[0]}
        of_school = {"local": True, "pictures": SchoolPictures(Path())} if kind == "picture" else {}
        _, _, items = read_deck(node, rulebook, problems, beliefs=beliefs, faults=seen, **of_school)
        refuse_twins(items, problems)


def _local_rule_problems(path, folder):
    (folder / "decks").mkdir()
    (folder / "rules").mkdir()
    (folder / "school.yaml").write_text("name: Lindenhof School of Hair (invented)\n", encoding="utf-8")
    shutil.copy(path, folder / "rules")
    return list(compile_book(folder, day=DAY, decks=folder / "decks").problems)


def _rulebook_problems(name, folder):
    shutil.copytree("sound", folder, dirs_exist_ok=True)
    shutil.copytree(name, folder, dirs_exist_ok=True)
    if name == "file-missing":
        (folder / "limits.yaml").unlink()
        (folder / "vocabulary.yaml").unlink()
    loaded, problems = load_rulebook(folder, facts={})
    return problems or list(prove(loaded, facts={}).problems)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_broken_file_is_told_in_these_words(case, rulebook, tmp_path, monkeypatch):
    """The same lines, in the same order."""
    monkeypatch.chdir(HERE / case.parent)
    expected = Path(f"{case.name}.txt").read_text(encoding="utf-8").splitlines()
    assert _told(case, rulebook, tmp_path) == expected


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_line_says_where_what_and_how_to_mend_it(case):
    """And blames nobody."""
    lines = (HERE / f"{case}.txt").read_text(encoding="utf-8").splitlines()
    assert lines or case.name == "sound"
    for line in lines:
        assert LINE.fullmatch(line), line
        assert not NEVER.search(line), line


def test_every_broken_file_has_its_lines():
    """Nothing lies here unread."""
    files = [path for kind in KINDS for path in (HERE / kind).iterdir() if path.suffix != ".txt"]
    unread = {path.relative_to(HERE).with_suffix("") for path in files} - {*CASES}
    assert unread == {Path("consultation/tools"), Path("picture/pictures")}
    assert len(CASES) >= 70


def test_a_huge_file_is_not_read(tmp_path):
    """Its size alone is enough."""
    path = tmp_path / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    nodes, problems = read_file(path, shown="huge.yaml")
    assert nodes == []
    assert [str(one) for one in problems] == ["huge.yaml:1:1: the file is over 600,000 bytes; split it up"]


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("gone.yaml", "cannot read the file: no such file or directory; check the path and its rights"),
        ("folder.yaml", "cannot read the file: is a directory; check the path and its rights"),
        ("a\0b.yaml", "cannot read the file: it cannot be read; check the path and its rights"),
        ("x" * 300, "cannot read the file: file name too long; check the path and its rights"),
    ],
)
def test_a_file_that_cannot_be_read_says_why(tmp_path, name, line):
    """In the system's words."""
    (tmp_path / "folder.yaml").mkdir()
    nodes, problems = read_file(tmp_path / name, shown="it.yaml")
    assert (nodes, [str(one) for one in problems]) == ([], [f"it.yaml:1:1: {line}"])


def test_a_school_that_is_no_folder_is_told(rulebook):
    """With what to name instead."""
    _, problems = load_school(Path("nowhere"), rulebook)
    assert [str(one) for one in problems] == [
        "nowhere:1:1: there is no such school folder; name the folder that holds school.yaml"
    ]
