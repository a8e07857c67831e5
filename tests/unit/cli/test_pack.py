"""``wavedrill pack``, and everything that goes by a pack."""

import json
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drill.basis.problem import Problem
from drill.cli import in_force
from drill.cli.main import wavedrill
from drill.memory.attempt import Attempt
from drill.memory.recall import Memory
from drill.store.sqlite_log import open_log
from drill.study.session import Session

Run = Callable[..., Result]
RULE = """\
overlay: six-minutes
kind: local_rule
from: 2020-01-01
because: The board asks for it.
source: State board (invented), outline p. 4
changes:
  - {op: set, parameter: papers.everyday, value: double_flat}
"""


def _make_school(folder: Path) -> Path:
    (folder / "rules").mkdir(parents=True)
    (folder / "school.yaml").write_text("name: Birch Lane (invented)\nstudent_mode: yes\n")
    (folder / "rules" / "six.yaml").write_text(RULE)
    return folder


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """A small school with one rule."""
    return _make_school(tmp_path / "birch")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, dict[str, object]]:
    """Its pack, made once, and what was told of it."""
    folder = tmp_path_factory.mktemp("made")
    school, path = _make_school(folder / "birch"), folder / "birch.pack"
    result = CliRunner().invoke(wavedrill, ["pack", str(school), "-o", str(path), "--json"])
    assert result.exit_code == 0, result.output
    return path.read_bytes(), json.loads(result.stdout)


@pytest.fixture
def packed(made: tuple[bytes, dict[str, object]], tmp_path: Path) -> Path:
    """A copy of it."""
    path = tmp_path / "birch.pack"
    path.write_bytes(made[0])
    return path


def test_pack_says_what_is_in_the_file(run: Run, school: Path, tmp_path: Path) -> None:
    """As text and as JSON; the same folder gives the same file."""
    path, again = tmp_path / "a.pack", tmp_path / "b.pack"
    text = run("pack", school, "-o", path).stdout
    assert text.startswith(f"{path}: Birch Lane (invented)\n")
    assert "Local rules in force: 1. " in text
    told = json.loads(run("pack", school, "-o", again, "--json").stdout)
    assert path.read_bytes() == again.read_bytes()
    assert told["file"] == str(again)
    assert told["school"] == "Birch Lane (invented)"
    assert told["local_rules"] == ["six-minutes"]
    assert told["bytes"] == path.stat().st_size
    assert f"Digest {told['digest']}." in text
    assert told["good_until"] == ""
    assert not list(tmp_path.glob("*.pack.*"))


def test_pack_without_a_school_holds_what_is_built_in(run: Run, tmp_path: Path) -> None:
    """And a name that the app would not look for is told."""
    result = run("pack", "-o", tmp_path / "plain.wave")
    assert "the built-in rules" in result.stdout
    assert "files that end in .pack" in result.stderr


def test_pack_says_when_a_rule_begins_or_ends(run: Run, school: Path, tmp_path: Path) -> None:
    """The pack holds the rules of its day."""
    rules = school / "rules" / "six.yaml"
    rules.write_text(RULE.replace("because:", "until: 2999-01-01\nbecause:", 1))
    assert "begins or ends on 2999-01-01" in run("pack", school, "-o", tmp_path / "a.pack").stderr


def test_pack_writes_over_nothing_but_a_pack(run: Run, school: Path, tmp_path: Path) -> None:
    """Whatever lies there stays; a pack is written anew."""
    notes = tmp_path / "notes.txt"
    notes.write_text("my notes")
    assert "is no pack; name another file" in run("pack", school, "-o", notes, status=1).stderr
    assert notes.read_text() == "my notes"
    assert "cannot write the pack: is a directory" in run("pack", school, "-o", tmp_path, status=1).stderr
    below = notes / "a.pack"
    assert "cannot write the pack: not a directory" in run("pack", school, "-o", below, status=1).stderr
    (tmp_path / "empty.pack").write_text("")
    run("pack", school, "-o", tmp_path / "empty.pack")
    run("pack", school, status=2)


def test_pack_of_a_disk_that_is_full_is_told(
    run: Run, school: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing half written stays."""

    def full(self: Path, *_args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    told = run("pack", school, "-o", tmp_path / "a.pack", status=1).stderr
    assert "cannot write the pack: no space left on device" in told
    assert not list(tmp_path.glob("a.pack*"))


def test_a_school_with_a_fault_is_not_packed(run: Run, school: Path, tmp_path: Path) -> None:
    """Every fault is told with its place."""
    (school / "rules" / "six.yaml").write_text(RULE.replace("papers.everyday", "papers.evryday"))
    told = run("pack", school, "-o", tmp_path / "a.pack", status=1).stderr
    assert "did you mean 'papers.everyday'?" in told
    assert not (tmp_path / "a.pack").exists()


def test_questions_go_by_the_pack(run: Run, packed: Path, made: tuple[bytes, dict[str, object]]) -> None:
    """Key and digest are those of the folder's rules."""
    (question,) = json.loads(run("--pack", packed, "ask", "--seed", 3, "--json").stdout)
    assert question["rulebook"] == made[1]["rulebook"]


def test_a_plan_goes_by_the_pack(
    run: Run, packed: Path, sound_head: Path, made: tuple[bytes, dict[str, object]]
) -> None:
    """Its local rule decides."""
    plan = json.loads(run("--pack", packed, "plan", sound_head, "--json").stdout)
    assert plan["rulebook"] == made[1]["rulebook"]
    assert {zone["papers"] for zone in plan["zones"].values()} == {"double_flat"}


def test_the_tutor_goes_by_the_pack(
    run: Run,
    packed: Path,
    tmp_path: Path,
    made: tuple[bytes, dict[str, object]],
    make_attempt: Callable[..., Attempt],
) -> None:
    """Answers are read under the rules that the class has."""
    with open_log(tmp_path / "ada.log") as log:
        log.append(make_attempt())
    told = json.loads(run("--pack", packed, "tutor", tmp_path / "ada.log", "--json").stdout)
    assert told["rulebook"] == made[1]["rulebook"]


def test_a_visit_goes_by_the_pack(run: Run, packed: Path, sound_head: Path) -> None:
    """Its student mode too: what comes after a stop waits."""
    told = json.loads(run("--pack", packed, "visit", "open", sound_head, "--json").stdout)
    assert told["student_mode"] is True
    assert json.loads(run("visit", "open", sound_head, "--json").stdout)["student_mode"] is False


def test_a_pack_and_a_folder_are_two_schools(run: Run, packed: Path, school: Path) -> None:
    """Nobody could tell which one holds."""
    assert "two schools" in run("--pack", packed, "ask", "--school", school, status=2).stderr
    assert "two schools" in run("--pack", packed, "--school", school, "--terminal", status=2).stderr
    assert "leave --pack out" in run("--pack", packed, "--demo", "--terminal", status=2).stderr
    assert "belongs to the drill" in run("--pack", packed, "check", status=2).stderr


def test_a_file_that_is_no_pack_is_told(run: Run, sound_head: Path) -> None:
    """Named outright, it stops the command."""
    for command in (["ask"], ["plan", str(sound_head)], ["tutor", "--demo"], ["--terminal"]):
        told = run("--pack", sound_head, *command, status=1).stderr
        assert told == f"{sound_head}:1:1: this file is no pack; name a file that 'wavedrill pack' wrote\n"


def test_a_pack_that_is_out_of_date_is_used_and_told(
    run: Run, school: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rules of the day it was made are better than none."""
    path = tmp_path / "old.pack"
    rules = school / "rules" / "six.yaml"
    rules.write_text(RULE.replace("because:", "until: 2999-01-01\nbecause:", 1))
    run("pack", school, "-o", path)
    real = in_force.local_now
    monkeypatch.setattr(in_force, "local_now", lambda: real().replace(year=2999))
    result = run("--pack", path, "ask", "--json")
    assert "changed on 2999-01-01, after old.pack was made: ask for a new pack" in result.stderr


def test_the_drill_goes_by_the_pack_that_lies_in_the_data_folder(run: Run, packed: Path, home: Path) -> None:
    """No option is needed on a phone; a school's folder goes before it."""
    home.mkdir()
    packed.rename(home / "birch.pack")
    sessions = _window()
    assert sessions[0][0].book.school.name == "Birch Lane (invented)"
    assert sessions[0][1] == ()


def _window() -> list[tuple[Session, tuple[Problem, ...]]]:
    seen: list[tuple[Session, tuple[Problem, ...]]] = []

    def window(session: Session, *, told: Iterable[Problem] = ()) -> None:
        seen.append((session, tuple(told)))

    result = CliRunner().invoke(wavedrill, ["--window", "--student", "Ada"], obj=window)
    assert result.exit_code == 0, result.output
    return seen


def test_a_bad_pack_in_the_data_folder_is_told_and_the_built_in_book_remains(run: Run, home: Path) -> None:
    """In the window on a screen, in the terminal on its error stream."""
    home.mkdir()
    (home / "birch.pack").write_text("not a pack")
    ((session, told),) = _window()
    assert session.book.school.name == ""
    assert [one.what for one in told] == ["this file is no pack"]
    result = run("--terminal", "--student", "Ada")
    assert "birch.pack:1:1: this file is no pack" in result.stderr
    assert "The built-in questions are asked until then." in result.stderr
    (home / "second.pack").write_text("")
    assert "several packs lie here: birch.pack, second.pack" in run("--terminal", "--student", "Ada").stderr


def test_old_answers_stay_as_they_were_judged(
    run: Run, packed: Path, school: Path, home: Path, made: tuple[bytes, dict[str, object]]
) -> None:
    """A new pack changes what is asked from now on; nothing that was answered is judged again."""
    args = ["--terminal", "--student", "Ada", "--topic", "papers", "--questions", "3"]
    result = CliRunner().invoke(wavedrill, ["--pack", str(packed), *args], input="1\n3\n\n" * 4 + "q\n")
    assert result.exit_code == 0, result.output
    before = _kept(home)
    assert {one.rulebook for one in before[0]} == {made[1]["rulebook"]}
    (school / "rules" / "six.yaml").write_text(RULE.replace("double_flat", "bookend"))
    newer = _packed_anew(school)
    assert newer["rulebook"] != made[1]["rulebook"]
    result = CliRunner().invoke(wavedrill, ["--pack", str(newer["file"]), *args], input="q\n")
    assert result.exit_code == 0, result.output
    assert _kept(home) == before


def _packed_anew(school: Path) -> dict[str, object]:
    path = school.parent / "newer.pack"
    result = CliRunner().invoke(wavedrill, ["pack", str(school), "-o", str(path), "--json"])
    return json.loads(result.stdout)


def _kept(home: Path) -> tuple[tuple[Attempt, ...], dict[str, Memory]]:
    with open_log(home / "attempts.sqlite") as log:
        log.drop_memories()
        return log.attempts(), log.memories("Ada")


def test_nothing_is_left_in_the_folder_of_the_pack(
    run: Run, packed: Path, tmp_path: Path, home: Path
) -> None:
    """Opening writes in the data folder only."""
    place = tmp_path / "download"
    place.mkdir()
    path = packed.rename(place / "birch.pack")
    run("--pack", path, "ask", "--json")
    assert [*place.iterdir()] == [path]
    assert {one.name.partition("-")[0] for one in (home / "cache").iterdir()} == {"book", "proved"}
