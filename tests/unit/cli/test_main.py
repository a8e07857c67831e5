"""The bare command: which front, which options, which problems."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drill.cli.home import Settings, data_folder, read_settings
from drill.cli.main import wavedrill
from drill.study.session import Session

Run = Callable[..., Result]


@pytest.mark.parametrize(
    ("args", "display", "opened"),
    [
        ([], ":0", True),
        ([], "", False),
        (["--window"], "", True),
        (["--terminal"], ":0", False),
        (["--topic", "papers"], ":0", False),
    ],
)
def test_the_front_is_a_window_where_there_is_a_display(
    args: list[str], display: str, opened: bool, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An option decides; without one the display does."""
    if display:
        monkeypatch.setenv("DISPLAY", display)
    sessions: list[Session] = []
    result = CliRunner().invoke(wavedrill, [*args, "--student", "Ada"], obj=sessions.append, input="q\n")
    assert result.exit_code == 0, result.output
    assert bool(sessions) is opened
    assert (home / "attempts.sqlite").exists()


def test_goal_options_reach_the_session(home: Path) -> None:
    """Minutes and questions may stand together."""
    sessions: list[Session] = []
    args = ["--window", "--minutes", "7", "--questions", "3"]
    assert CliRunner().invoke(wavedrill, args, obj=sessions.append).exit_code == 0
    assert (sessions[0].goal.minutes, sessions[0].goal.questions) == (7, 3)


def test_options_of_the_drill_before_another_command_are_told(run: Run) -> None:
    """They would do nothing there."""
    assert "belongs to the drill" in run("--school", "x", "check", status=2).stderr
    assert "belongs to the drill" in run("--window", "ask", status=2).stderr
    run("--minutes", "0", status=2)
    run("--window", "--topic", "papers", status=2)
    run("pln", status=2)


def test_a_topic_that_does_not_exist_offers_the_nearest(run: Run) -> None:
    """Wrong usage."""
    assert "did you mean 'papers'?" in run("--terminal", "--topic", "paper", status=2).stderr


def test_settings_name_school_and_student(run: Run, home: Path) -> None:
    """A school is found from the data folder; a fault in the file is told with its place."""
    home.mkdir()
    (home / "settings.yaml").write_text("school: ../lindenhof\nstudent: Ada\n")
    assert read_settings(home) == (Settings(school=home / "../lindenhof", student="Ada"), [])
    assert "there is no such school folder" in run("--terminal", status=1).stderr
    (home / "settings.yaml").write_text("scool: x\n")
    result = run("--terminal", status=1)
    assert f"{home / 'settings.yaml'}:1:1: " in result.stderr
    assert "did you mean 'school'?" in result.stderr


def test_a_log_that_is_none_is_told_and_left_alone(run: Run, home: Path) -> None:
    """Whatever lies in its place stays there."""
    home.mkdir()
    (home / "attempts.sqlite").write_text("my notes")
    assert "this file is no attempt log" in run("--terminal", status=1).stderr
    assert (home / "attempts.sqlite").read_text() == "my notes"


def test_a_data_folder_that_cannot_be_made_is_told(run: Run, home: Path) -> None:
    """A file stands in its way."""
    home.write_text("")
    assert "cannot make the data folder" in run("--terminal", status=1).stderr


@pytest.mark.parametrize(
    ("environment", "platform", "expected"),
    [
        ({"WAVEDRILL_HOME": "/x/own"}, "linux", "/x/own"),
        ({}, "linux", "/home/ada/.local/share/wavedrill"),
        ({"XDG_DATA_HOME": "/data"}, "linux", "/data/wavedrill"),
        ({}, "darwin", "/home/ada/Library/Application Support/wavedrill"),
        ({"LOCALAPPDATA": "/l"}, "win32", "/l/wavedrill"),
        ({}, "win32", "/home/ada/AppData/Local/wavedrill"),
    ],
)
def test_each_system_has_its_own_place(environment: dict[str, str], platform: str, expected: str) -> None:
    """Where the XDG base directory specification, Apple's and Microsoft's guides put a program's data."""
    found = data_folder(environment=environment, platform=platform, user=Path("/home/ada"))
    assert found == Path(expected)
