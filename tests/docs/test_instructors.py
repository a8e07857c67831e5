"""The instructor's page is followed word by word: files are written, commands run, outputs compared."""

import os
import re
import shlex
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from drill.load.compile import compile_book
from drill.load.new_school import school_files, write_files
from drill.load.reading import Node, read_text
from drill.load.schema import schemas

PAGE = Path(__file__).parent.parent.parent / "docs" / "instructors.md"
TEXT = PAGE.read_text(encoding="utf-8")
MOST_COMMANDS = 10
WRITTEN = re.compile(r"[Ww]rite\s+this\s+into\s+`([^`]+)`:\n\n```yaml\n(.*?)```", re.DOTALL)
SHOWN = re.compile(r"```\n\$ (.*?)\n(.*?)```", re.DOTALL)
BY_FOLDER = {"rules": "local_rule", "decks": "deck"}
DAY = date(2026, 11, 25)


def steps() -> list[tuple[str, str, str]]:
    """Give what a reader does, in order: ``write`` a file, or ``run`` a command."""
    found = [(one.start(), ("write", one[1], one[2])) for one in WRITTEN.finditer(TEXT)]
    found += [(one.start(), ("run", one[1], one[2])) for one in SHOWN.finditer(TEXT)]
    return [step for _, step in sorted(found)]


def plain(node: Node) -> object:
    """Read a document as the program does."""
    if isinstance(node.value, dict):
        return {key: plain(one) for key, one in node.value.items()}
    return [plain(one) for one in node.value] if isinstance(node.value, list) else node.value


def holds(shown: str, told: str) -> bool:
    """Tell whether an output is the one shown; a line of three dots stands for any lines."""
    parts = [re.escape(part) for part in re.split(r"(?m)^\.\.\.\n", shown)]
    return re.fullmatch(r"(?:.*\n)*?".join(parts), told) is not None


def test_three_dots_stand_for_any_lines_and_for_nothing_else() -> None:
    """The comparison itself can fail."""
    assert holds("a\n...\nd\n", "a\nb\nc\nd\n")
    assert holds("a\n...\n", "a\n")
    assert not holds("a\n...\nd\n", "a\nb\nc\n")
    assert not holds("a\nb\n", "a\nb\nc\n")


def test_the_page_has_ten_commands_or_fewer_and_three_files() -> None:
    """From nothing to a pack that is opened."""
    commands = [what for kind, what, _ in steps() if kind == "run"]
    assert len(commands) == TEXT.count("\n$ ") <= MOST_COMMANDS
    assert commands[0].startswith("python3 -m venv")
    assert " pack my-school -o " in commands[-2]
    assert "--pack my-school.pack" in commands[-1]
    assert len(WRITTEN.findall(TEXT)) == 3


def test_every_file_of_the_page_is_sound_but_the_one_that_is_refused(tmp_path: Path) -> None:
    """The refusal is told in the very words of the page; all three hold to their schemas."""
    known = schemas()
    assert write_files(tmp_path / "my-school", school_files("Harbour")) == []
    refused = ""
    for name, text in WRITTEN.findall(TEXT):
        (node,), faults = read_text(text.encode(), shown=name)
        assert faults == []
        kind = BY_FOLDER[Path(name).parent.name]
        assert not list(Draft202012Validator(known[kind]).iter_errors(plain(node)))
        (tmp_path / name).write_text(text, encoding="utf-8")
        compiled = compile_book(tmp_path / "my-school", day=DAY, proved=True)
        if compiled.problems:
            refused += "".join(f"{one}\n".replace(f"{tmp_path}/", "") for one in compiled.problems)
    assert refused
    assert refused in TEXT


@pytest.mark.long
def test_the_page_is_followed_word_by_word(tmp_path: Path) -> None:
    """Every command ends as shown, in a folder that was empty; only the installation is here already."""
    environment = {**os.environ, "WAVEDRILL_HOME": str(tmp_path / "home"), "COLUMNS": "80"}
    for kind, what, shown in steps():
        if kind == "write":
            (tmp_path / what).write_text(shown, encoding="utf-8")
            continue
        if what.startswith("python3 -m venv"):
            continue
        command = shlex.split(what)
        if command[0] == ".venv/bin/wavedrill":
            command = [sys.executable, "-m", "drill", *command[1:]]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
        )
        assert "Traceback" not in done.stderr
        assert holds(shown, done.stdout or done.stderr), (what, done.stdout, done.stderr)
        assert (done.returncode != 0) == ("is broken" in shown)
    assert "<table>" in (tmp_path / "changes.html").read_text(encoding="utf-8")
