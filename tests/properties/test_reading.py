"""Whatever stands in a file: faults with places, never an exception, and never a wait."""

import random
import shutil
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drill.basis.problem import Problem
from drill.load.compile import DECKS, compile_book, load_misconceptions
from drill.load.consultation import read_consultation, read_kit
from drill.load.decks import read_deck
from drill.load.overlay import read_overlay
from drill.load.reading import Node, read_text
from drill.load.rulebook import RULES, load_rulebook
from drill.load.school import load_school
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS

DAY = date(2026, 11, 25)
FUZZ = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
SCHOOL = Path(__file__).parent.parent.parent / "assets" / "demo"

CONSULTATION = b"""
client: Ada
service: perm
scalp: healthy
hair: {length: {top: 20 cm, left_side: 8 in}, porosity: average, growth: {top: whorl}}
history: {known: yes, weeks_since_perm: never, relaxer: none}
wish: {curl: 14 mm, root_volume: high, blend: [top]}
appointment: 90 min
kit: [{diameter: 12 mm, length: 9 cm, shape: straight, count: 60}]
"""
RULE = b"""
overlay: ours
kind: local_rule
from: 2026-01-01
because: We do.
source: House rules
changes:
  - op: add
    table: base_control
    before: worn-close
    row: {id: ours, when: {hair.length: ">= 30 cm", zone: [top]}, then: half_off_base, because: b, source: c}
  - op: replace
    table: papers
    row: {id: optional-in-a-set, when: {}, then: {parameter: papers.everyday}, because: b, source: c}
  - {op: remove, table: layout, row: rows-for-a-spiral}
  - {op: set, parameter: processing.neutraliser_minutes, value: 6 min}
  - {op: widen, vocabulary: scalp, value: sunburnt, counts_as: irritated}
"""
DECK = b"""
topic: base_control
title: Bases
items:
  - {id: a, kind: choose, decision: base_control, zone: any, vary: {hair.length: [20 cm]}, stem: How?}
  - id: b
    kind: choose
    stem: Why?
    answer: Lift.
    wrong: [{text: Habit.}, {text: Speed., misconception: lift-is-free}]
    because: It pulls.
    source: common practice
"""
# Values, numbers with and without units, and the letters that YAML reads as something.
TOKENS = [
    *(
        "20 cm",
        "20",
        "-1 mm",
        "1/0 in",
        "never",
        "unknown",
        "yes",
        "no",
        "true",
        "null",
        "~",
        "",
        "nan",
        "1e9",
    ),
    *(
        "[]",
        "{}",
        "[a, b]",
        "{a: b}",
        "{a: {b: {c: d}}}",
        "- x",
        "&a x",
        "*a",
        "!!str x",
        "|",
        ">",
        "%",
        "@",
        "`",
    ),
    *(
        "'",
        '"',
        ": ",
        "#",
        "\t",
        "---",
        "...",
        "? x",
        "\u00a0",
        "\u2028",
        "\ufeff",
        "x" * 500,
        "9" * 400,
        "<= 3 weeks",
    ),
]
yaml_like = st.lists(st.sampled_from([*TOKENS, "\n", "\n  ", "hair:", "rows:", ",", " "]), max_size=30).map(
    "".join
)


def _well_told(problems: list[Problem]) -> None:
    for problem in problems:
        assert problem.place.line >= 1, problem
        assert problem.place.column >= 1, problem
        assert problem.what.strip(), problem
        assert problem.mend.strip(), problem


def _nodes(data: bytes) -> list[Node]:
    nodes, problems = read_text(data, shown="it.yaml")
    assert not (nodes and problems)
    lines = len(data.splitlines()) + data.count(b"\r") + data.count(b"\xc2\x85") + data.count(b"\xe2\x80") + 1
    assert all(problem.place.line <= lines for problem in problems)
    _well_told(problems)
    return nodes


def _mutated(data: bytes, rng: random.Random) -> bytes:
    """Change a few places: cut, double, swap lines, put a token in a value's or a byte's place."""
    for _ in range(rng.randint(1, 3)):
        lines = data.split(b"\n")
        at = rng.randrange(len(lines))
        how = rng.randrange(7)
        if how == 0:
            del lines[at]
        elif how == 1:
            lines.insert(at, rng.choice(lines))
        elif how == 2:
            other = rng.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
        elif how == 3:
            key, colon, _ = lines[at].partition(b": ")
            lines[at] = key + colon + rng.choice(TOKENS).encode()
        elif how == 4:
            lines[at] = b" " * rng.randrange(6) + lines[at].strip()
        elif how == 5:
            words = lines[at].split(b" ")
            words[rng.randrange(len(words))] = rng.choice(TOKENS).encode()
            lines[at] = b" ".join(words)
        data = b"\n".join(lines)
        if how == 6 and data:
            place = rng.randrange(len(data))
            data = data[:place] + bytes([rng.randrange(256)]) + data[place + 1 :]
    return data


def _read_all(data: bytes, rulebook: Rulebook, folder: Path) -> None:
    for node in _nodes(data):
        problems: list[Problem] = []
        consultation = read_consultation(node, rulebook, problems, folder=folder)
        assert (consultation is None) == bool(problems)
        _well_told(problems)
        for kind in ("local_rule", "misconception"):
            problems = []
            overlay = read_overlay(node, rulebook, problems, kind=kind)
            assert (overlay is None) == bool(problems)
            _well_told(problems)
        problems = []
        read_deck(node, rulebook, problems, beliefs={})
        _well_told(problems)
        problems = []
        assert (read_kit(node, problems) is None) == bool(problems)
        _well_told(problems)


@FUZZ
@given(st.binary(max_size=200))
@example(b"\xff\xfe")
@example(b"\xef\xbb\xbfhair: 1")
@example(b"a: \xed\xa0\x80")
@example(b'a: "\\ud800"')
@example(b"?" * 199)
@example(b"[" * 10_000)
@example(b"{" * 10_000)
@example(b"- " * 10_000)
@example(b"a: &a [*a]")
@example(b"%YAML 9.9\n---\n")
@example(b"<<: {a: b}")
def test_any_bytes_are_read_or_told(data):
    """Nodes or faults, not both."""
    _nodes(data)


@FUZZ
@given(st.text(max_size=200) | yaml_like)
def test_any_text_is_read_or_told_as_whatever_it_is_taken_for(rulebook, tmp_path, text):
    """As a consultation, a rule, a wrong idea, a question set, a kit."""
    _read_all(text.encode("utf-8", "replace"), rulebook, tmp_path)


@FUZZ
@given(st.sampled_from([CONSULTATION, RULE, DECK]), st.randoms(use_true_random=False))
def test_a_damaged_file_is_read_or_told(rulebook, tmp_path, whole, rng):
    """As what it was, and as what it was not."""
    _read_all(_mutated(whole, rng), rulebook, tmp_path)


def test_the_whole_files_are_read(rulebook, tmp_path):
    """Otherwise the damaged ones would say little."""
    problems: list[Problem] = []
    (deck,) = _nodes(DECK)
    assert len(read_deck(deck, rulebook, problems, beliefs={"lift-is-free": None})[2]) == 2
    (rule,) = _nodes(RULE)
    overlay = read_overlay(rule, rulebook, problems, kind="local_rule")
    # The zones that the consultation leaves out are its one fault.
    (consultation,) = _nodes(CONSULTATION)
    read_consultation(consultation, rulebook, problems, folder=tmp_path)
    assert ["hair.length is not stated for" in one.what for one in problems] == [True]
    assert overlay is not None


@pytest.mark.parametrize("seed", range(60))
def test_a_rulebook_with_one_damaged_file_is_read_or_told(seed, tmp_path):
    """Every file of the built-in one in turn, its wrong ideas too."""
    rng = random.Random(seed)
    folder = tmp_path / "rules"
    shutil.copytree(RULES, folder)
    path = rng.choice(sorted(folder.rglob("*.yaml")))
    path.write_bytes(_mutated(path.read_bytes(), rng))
    loaded, problems = load_rulebook(folder)
    _well_told(problems)
    if not problems:
        load_misconceptions(folder / "misconceptions", loaded, problems)
        _well_told([*problems, *prove(loaded, facts=FACTS).problems])


@pytest.mark.parametrize("seed", range(40))
def test_a_school_with_one_damaged_file_is_read_or_told(seed, tmp_path, rulebook):
    """Every file of the invented one in turn, as far as the compiled book."""
    rng = random.Random(seed)
    folder = tmp_path / "school"
    shutil.copytree(SCHOOL, folder)
    path = rng.choice(sorted(one for one in folder.rglob("*.yaml") if "consultations" not in one.parts))
    path.write_bytes(_mutated(path.read_bytes(), rng))
    _, problems = load_school(folder, rulebook)
    _well_told(problems)
    compiled = compile_book(folder, day=DAY, proved=True)
    _well_told(list(compiled.problems))
    assert {one.place.file for one in problems} <= {one.place.file for one in compiled.problems}


@pytest.mark.parametrize("path", sorted(DECKS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_damaged_built_in_question_set_is_read_or_told(path, rulebook):
    """Twenty times over."""
    rng = random.Random(path.stem)
    for _ in range(20):
        for node in _nodes(_mutated(path.read_bytes(), rng)):
            problems: list[Problem] = []
            read_deck(node, rulebook, problems, beliefs={})
            _well_told(problems)
