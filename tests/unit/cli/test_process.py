"""The program as a process of its own, as a person and a shell meet it."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest


def wavedrill(
    *args: object, home: Path, stdin: bytes = b"", **environment: str
) -> subprocess.CompletedProcess[bytes]:
    kept = {name: value for name, value in os.environ.items() if not name.endswith("DISPLAY")}
    return subprocess.run(
        [sys.executable, "-m", "drill", *map(str, args)],
        input=stdin,
        env=kept | {"WAVEDRILL_HOME": str(home)} | environment,
        capture_output=True,
        timeout=120,
        check=False,
    )


def test_it_calls_itself_by_its_name(tmp_path: Path) -> None:
    """Also when started as a module."""
    done = wavedrill("--help", home=tmp_path)
    assert done.returncode == 0
    assert done.stdout.startswith(b"Usage: wavedrill ")


def test_a_plan_through_a_pipe(tmp_path: Path, sound_head: Path) -> None:
    """Standard output holds the plan and nothing else, and the data folder is not touched."""
    home = tmp_path / "own"
    done = wavedrill("plan", "-", "--json", home=home, stdin=sound_head.read_bytes())
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout)["verdict"] == "go"
    assert not home.exists()


@pytest.mark.parametrize("stdin", [b"\xff\xfe\x00", b"", b"hair: [", bytes(range(255, 0, -1))])
def test_bad_input_is_told_in_lines(tmp_path: Path, stdin: bytes) -> None:
    """Status 1, a place on every line, and never the program's own inside."""
    done = wavedrill("plan", "-", home=tmp_path, stdin=stdin)
    assert (done.returncode, done.stdout) == (1, b"")
    assert all(line.startswith(b"<stdin>:") for line in done.stderr.splitlines())
    assert b"Traceback" not in done.stderr


def test_a_terminal_without_our_letters_still_gets_them_all(tmp_path: Path) -> None:
    """In plain ASCII the drill goes on, the head drawn with plain signs."""
    done = wavedrill(
        "--terminal",
        "--topic",
        "directions",
        "--student",
        "Ada",
        home=tmp_path,
        stdin=b"1\n1\n\n" * 4 + b"q\n",
        PYTHONIOENCODING="ascii",
    )
    assert done.returncode == 0, done.stderr
    assert b"+-----+" in done.stdout
    assert b"Answers kept: 4" in done.stderr


def test_a_reader_that_goes_away_is_no_error_to_tell(tmp_path: Path, sound_head: Path) -> None:
    """As with `| head -1`."""
    command = f"{sys.executable} -m drill plan {sound_head} --why | head -1"
    done = subprocess.run(["sh", "-c", command], capture_output=True, timeout=120, check=False)
    assert done.stdout.startswith(b"Plan: perm, for Wren")
    assert b"Traceback" not in done.stderr
