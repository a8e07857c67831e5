"""How much a school may write: more of it than a check can look at is told at its place, and ends soon."""

import json
import os
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from drill.basis.problem import Problem
from drill.load.blame import blame_changes
from drill.load.compile import compile_book
from drill.load.overlay import MOST_CHANGES, read_overlay
from drill.load.reading import MOST_BYTES, MOST_ENTRIES, read_file, read_text
from drill.load.rows import MOST_NAMED, MOST_PARTS
from drill.load.school import MOST_ITEMS, load_local_decks, load_school
from drill.load.school_files import MOST_FAULTS, MOST_FILES, MOST_RULES
from drill.rulebook.boxes import Work
from drill.rulebook.overlay import assemble
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS
from drill.store.pack_check import MOST_ROWS, MOST_VALUES

DAY = date(2026, 11, 25)
SET = {"op": "set", "parameter": "papers.everyday", "value": "double_flat"}
GUARD = {"op": "remove", "table": "verdict", "row": "hydroxide-relaxer"}


def rule(changes: list[dict[str, Any]], name: str = "ours") -> dict[str, Any]:
    """Make a local rule."""
    return {"overlay": name, "because": "We do.", "source": "House rules", "changes": changes}


def step(name: str, **keys: Any) -> dict[str, Any]:
    """Make a change that adds a step, which loosens nothing."""
    row = {"id": name, "when": {"service": "perm"}, "then": "record", "say": f"Note {name}."}
    return {"op": "add", "table": "steps", "row": {**row, "because": "b", "source": "c", **keys}}


def told_of_rule(rulebook: Rulebook, changes: list[dict[str, Any]]) -> list[str]:
    """Read a local rule, and give the lines that are told of it."""
    (node,), problems = read_text(json.dumps(rule(changes)).encode(), shown="it.yaml")
    overlay = read_overlay(node, rulebook, problems, kind="local_rule")
    assert (overlay is None) == bool(problems)
    return [str(one).partition(": ")[2] for one in problems]


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """A school without rules and questions."""
    for name in ("rules", "decks"):
        (tmp_path / name).mkdir()
    (tmp_path / "school.yaml").write_text("name: Lindenhof (invented)\n")
    return tmp_path


def write_rules(school: Path, rules: list[dict[str, Any]]) -> None:
    """Write local rules, one a file."""
    for at, one in enumerate(rules):
        (school / "rules" / f"r{at:03}.yaml").write_text(json.dumps(one))


def told_of_school(school: Path, rulebook: Rulebook) -> list[str]:
    """Read a school, and give the lines that are told of it."""
    _, problems = load_school(school, rulebook)
    return [str(one).removeprefix(f"{school}/") for one in problems]


def test_a_file_has_so_many_bytes(tmp_path):
    """Up to them it is read; a pipe and an endless file are not waited for."""
    path = tmp_path / "a.yaml"
    path.write_bytes(b"a: " + b"b" * (MOST_BYTES - 3))
    assert not read_file(path)[1]
    path.write_bytes(b"a: " + b"b" * (MOST_BYTES - 2))
    assert [one.what for one in read_file(path)[1]] == ["the file is over 600,000 bytes"]
    pipe, endless = tmp_path / "b.yaml", tmp_path / "c.yaml"
    os.mkfifo(pipe)
    endless.symlink_to("/dev/zero")
    told = [str(one) for path in (pipe, endless) for one in read_file(path, shown="it.yaml")[1]]
    assert told == ["it.yaml:1:1: this is no ordinary file; put a file there"] * 2


@pytest.mark.parametrize("text", ["- a\n", "k{at}: a\n", "- [a]\n", "a\n---\n"])
def test_so_many_entries_stand_together(text):
    """In a list, under one name, or as the documents of a file."""
    lines = [text.format(at=at) for at in range(MOST_ENTRIES + 1)]
    assert not read_text("".join(lines[:-1]).removesuffix("---\n").encode(), shown="it.yaml")[1]
    nodes, (problem,) = read_text("".join(lines).removesuffix("---\n").encode(), shown="it.yaml")
    assert nodes == []
    assert (problem.what, problem.mend) == (
        "more than 1,500 entries or keys stand together",
        "split them up into several files",
    )
    assert problem.place.line > MOST_ENTRIES


def test_a_condition_and_a_row_have_so_many_parts(rulebook):
    """Each is told at the first one too many."""
    minutes = [f"{at} min" for at in range(1, MOST_PARTS + 2)]
    assert told_of_rule(rulebook, [step("x", when={"appointment": minutes[:-1]})]) == []
    assert told_of_rule(rulebook, [step("x", when={"appointment": minutes})]) == [
        "appointment has 101 values here, more than 100; write them as a range, or leave it out"
    ]
    named = {f"n{at}": "a" for at in range(MOST_NAMED + 5)}
    told = told_of_rule(rulebook, [step("x", when=named)])
    assert len(told) == MOST_NAMED + 1
    assert told[-1] == "a row names more than 120 facts; leave some out"
    assert told_of_rule(rulebook, [step("x", also=["record"] * (MOST_PARTS + 1))]) == [
        "'also' has 101 outcomes, more than 100; name each but once"
    ]


def test_a_rule_has_so_many_changes(rulebook):
    """The others are not read, whatever they are."""
    assert told_of_rule(rulebook, [SET] * MOST_CHANGES) == []
    assert told_of_rule(rulebook, [SET] * MOST_CHANGES + [{"op": "sett"}] * 2) == [
        "a local rule has 102 changes, more than 100; leave out what changes no answer, and let a row name "
        "more"
    ]


def test_a_table_and_a_vocabulary_grow_so_far(rulebook):
    """As far as a pack takes them, and no further; the one too many is told once."""
    rows = MOST_ROWS - len(rulebook.tables["steps"].rows)
    steps = [step(f"x{at}") for at in range(rows + 2)]
    assert told_of_rule(rulebook, steps[:rows]) == []
    assert told_of_rule(rulebook, steps) == [
        "with this row, steps has more than 100 rows; let one row name what several rows decide alike"
    ]
    values = MOST_VALUES - len(rulebook.domains["scalp"].values)
    widen = [
        {"op": "widen", "vocabulary": "scalp", "value": f"v{at}", "counts_as": "broken"}
        for at in range(values + 2)
    ]
    assert told_of_rule(rulebook, widen[:values]) == []
    assert told_of_rule(rulebook, widen) == [
        "with this value, scalp has more than 60 values; leave out values that no row tells apart"
    ]


def test_a_school_has_so_many_rules(school, rulebook):
    """Told at the first one too many, in one file or in several."""
    rules = [rule([step(f"x{at}")], f"r{at}") for at in range(MOST_RULES + 1)]
    write_rules(school, rules[:-1])
    assert told_of_school(school, rulebook) == []
    (school / "rules" / f"r{MOST_RULES - 1:03}.yaml").unlink()
    (school / "rules" / "z.yaml").write_text("\n---\n".join(json.dumps(one) for one in rules[-2:]))
    assert told_of_school(school, rulebook) == [
        "rules/z.yaml:3:1: a school has 20 local rules at most, and this is one more; let one rule hold the "
        "changes that belong together; leave out rules that have ended"
    ]


def test_the_rules_of_a_school_have_so_many_changes(school, rulebook):
    """All together; a rule that goes beyond is told, and left out."""
    write_rules(school, [rule([SET] * (MOST_CHANGES - 1), "a"), rule([step("x"), step("y")], "b")])
    assert told_of_school(school, rulebook) == [
        "rules/r001.yaml:1:1: the local rules have 101 changes so far, more than 100; leave out rules that "
        "have ended"
    ]


def test_a_folder_has_so_many_files(school, rulebook):
    """The others are not read."""
    for at in range(MOST_FILES + 1):
        (school / "decks" / f"{at:03}.yaml").write_text("topic: a\nitems: []\n" if at < MOST_FILES else "{")
    problems: list[Problem] = []
    topics, _ = load_local_decks(school, rulebook, {}, problems)
    assert topics == {"a": "A"}
    assert [str(one).removeprefix(f"{school}/") for one in problems] == [
        "decks/200.yaml:1:1: the folder 'decks' has 201 files, more than 200; put what belongs together into "
        "one file"
    ]


def test_a_school_has_so_many_questions(school, rulebook):
    """In all its question sets."""
    item = {"kind": "choose", "decision": "base_control", "zone": "any", "stem": "How?"}
    for at in range(2):
        items = [{"id": f"i{at}-{number}", **item} for number in range(MOST_ITEMS // 2 + 1)]
        (school / "decks" / f"{at}.yaml").write_text(json.dumps({"topic": f"t{at}", "items": items}))
    problems: list[Problem] = []
    _, found = load_local_decks(school, rulebook, {}, problems)
    assert [one.what for one in problems] == ["the question sets have more than 1,000 questions"]
    assert problems[0].place.file == str(school / "decks" / "1.yaml")
    assert len(found) == MOST_ITEMS


def test_very_many_faults_end_the_reading(school, rulebook):
    """Nobody mends them all at once, and each costs a look for the nearest name."""
    items = [{"id": f"i{at}", "kind": "chose"} for at in range(MOST_ENTRIES)]
    for at in range(3):
        (school / "decks" / f"{at}.yaml").write_text(json.dumps({"topic": "t", "items": items}))
    problems: list[Problem] = []
    load_local_decks(school, rulebook, {}, problems)
    assert MOST_FAULTS < len(problems) < MOST_FAULTS + 10
    assert {one.place.file for one in problems} == {str(school / "decks" / "0.yaml")}


def _blamed(rulebook: Rulebook, folder: Path, work: Work) -> tuple[Problem, ...]:
    found, problems = load_school(folder, rulebook)
    assert not problems
    changed, _ = assemble(rulebook, found.rules, day=DAY)
    proof = prove(changed, facts=FACTS, idle_is_fault=False)
    return blame_changes(proof.problems, rulebook, found.rules, day=DAY, work=work)


def test_the_change_is_found_by_halves(school, rulebook):
    """Of sixteen, in four proofs; every fault that one change brings is told there."""
    changes = [step(f"x{at}") for at in range(15)]
    write_rules(school, [rule(changes[:9], "a"), rule([changes[9], GUARD, *changes[10:]], "b")])
    one = Work()
    assert not prove(rulebook, facts=FACTS, look_for_idle=False, work=one).problems
    work = Work()
    told = _blamed(rulebook, school, work)
    assert told
    assert all(one.what.startswith("with this change, the limit ") for one in told)
    text = (school / "rules" / "r001.yaml").read_text()
    assert {(Path(one.place.file).name, one.place.column) for one in told} == {
        ("r001.yaml", text.index(json.dumps(GUARD)) + 1)
    }
    spent, proof = Work().left - work.left, Work().left - one.left
    assert 3 * proof < spent < 6 * proof


def test_where_the_work_is_used_up_the_last_change_is_told(school, rulebook):
    """With it, the fault is there for certain."""
    write_rules(school, [rule([GUARD, *(step(f"x{at}") for at in range(7))])])
    told = _blamed(rulebook, school, Work(1_000))
    assert told
    text = (school / "rules" / "r000.yaml").read_text()
    assert {one.place.column for one in told} == {text.rindex('{"op"') + 1}


def test_days_share_their_work(school):
    """Whoever compiles for several days says how much all of them may take."""
    write_rules(school, [rule([step("x")])])
    work = Work()
    assert not compile_book(school, day=DAY, work=work).problems
    first = work.left
    assert not compile_book(school, day=DAY, work=work).problems
    assert 0 < work.left < first < Work().left
    (problem,) = compile_book(school, day=DAY, work=Work(1_000)).problems
    assert problem.what.startswith("with the row x of steps, these rules have more combinations than")
