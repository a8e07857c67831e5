"""``wavedrill check --watch``: again at each change, until Ctrl-C."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest
from click.testing import Result

from drill.cli.check_watch import watch_folder

Run = Callable[..., Result]


def steps(*changes: Callable[[], object]) -> Callable[[], None]:
    """Make a wait that does one change each time, and then presses Ctrl-C."""
    left: Iterator[Callable[[], object]] = iter(changes)

    def wait() -> None:
        change = next(left, None)
        if change is None:
            raise KeyboardInterrupt
        change()

    return wait


def test_each_change_is_checked_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A new file, another text, a file gone; and nothing where nothing changes."""
    file = tmp_path / "rules" / "a.yaml"
    file.parent.mkdir()
    checks: list[int] = []
    wait = steps(
        lambda: None,
        lambda: file.write_text("a: 1\n"),
        lambda: None,
        lambda: file.write_text("a: 22\n"),
        file.unlink,
    )
    watch_folder(tmp_path, lambda: checks.append(1), wait=wait)
    assert len(checks) == 4
    assert capsys.readouterr().err.count("Waiting for a change; Ctrl-C ends it.") == 4


def test_what_the_check_itself_writes_is_no_change(tmp_path: Path) -> None:
    """Else it would never rest."""
    page = tmp_path / "page.html"
    checks: list[int] = []

    def check() -> None:
        checks.append(1)
        page.write_text("x" * len(checks))

    watch_folder(tmp_path, check, passed_over=page, wait=steps(lambda: page.write_text("other")))
    assert len(checks) == 1


def test_a_change_during_the_check_is_seen(tmp_path: Path) -> None:
    """The look is taken before it."""
    checks: list[int] = []

    def check() -> None:
        checks.append(1)
        if len(checks) == 1:
            (tmp_path / "late.yaml").write_text("a")

    watch_folder(tmp_path, check, wait=steps())
    assert len(checks) == 2


def test_a_folder_that_is_not_there_is_waited_for(tmp_path: Path) -> None:
    """And a link that leads nowhere stops nobody."""
    checks: list[int] = []
    folder = tmp_path / "later"

    def make() -> None:
        folder.mkdir()
        (folder / "nowhere").symlink_to(tmp_path / "gone")
        (folder / "a.yaml").write_text("a")

    watch_folder(folder, lambda: checks.append(1), wait=steps(make))
    assert len(checks) == 2


def test_watch_needs_a_school(run: Run) -> None:
    """The built-in rules do not change."""
    assert "--watch needs the SCHOOL folder" in run("check", "--watch", status=2).stderr


def test_ctrl_c_ends_a_watch_in_peace(tmp_path: Path) -> None:
    """A broken school is told, the watch goes on, and Ctrl-C is no fault."""
    (tmp_path / "school.yaml").write_text("nme: x\n")
    process = subprocess.Popen(
        [sys.executable, "-m", "drill", "check", str(tmp_path), "--watch"],
        stderr=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        # A shell that started the tests in the background has told them not to listen.
        preexec_fn=partial(signal.signal, signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509  no thread here
    )
    assert process.stderr is not None
    told = ""
    while "Waiting for a change" not in told:
        line = process.stderr.readline()
        assert line, told
        told += line
    process.send_signal(signal.SIGINT)
    _, rest = process.communicate(timeout=60)
    assert process.returncode == 0
    assert "did you mean 'name'?" in told
    assert "Traceback" not in told + rest
