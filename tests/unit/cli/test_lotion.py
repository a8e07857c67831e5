"""Lotion is on the hair: once, and minute by minute."""

import io
import json
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drill.cli import lotion
from drill.cli.lines import TypedLines
from drill.cli.lotion import watch_lotion
from drill.cli.main import wavedrill
from drill.rulebook.rulebook import Rulebook

Run = Callable[..., Result]
START = datetime(2026, 1, 5, 10, 0, tzinfo=UTC)


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("args", "do", "row"),
    [
        ("--minute 0 --longest 12", "look_there_next", "client-not-asked"),
        ("--minute 6", "rinse_and_call", "no-longest-time-known"),
        ("--minute 12 --longest 12 --curl none --says nothing", "rinse", "longest-time-is-over"),
        (
            "--minute 4 --longest 12 --place weakest --curl none --says nothing --looked first_tools",
            "wait",
            "no-s-yet",
        ),
        ("--minute 4 --longest 12 --says burns", "rinse_and_call", "burning-is-rinsed"),
        (
            "--minute 4 --longest 12 --place weakest --curl firm --says nothing",
            "rinse",
            "weakest-place-is-ready",
        ),
    ],
)
def test_one_minute_is_answered(run: Run, args: str, do: str, row: str) -> None:
    """Wait, look, rinse, or rinse and call; with the row, and with what always holds."""
    plain = json.loads(run("lotion", *args.split(), "--json").stdout)
    assert (plain["format"], plain["do"], plain["row"]) == ("lotion.v1", do, row)
    assert len(plain["cautions"]) == 3
    if "--longest" in args:
        assert (plain["lookouts"][-1]["minute"], plain["lookouts"][-1]["places"]) == (12, [])
        assert all(one["places"] for one in plain["lookouts"][:-1])
    else:
        assert plain["lookouts"] == []
    text = flat(run("lotion", *args.split()).stdout)
    assert plain["words"] in text
    assert "The maker's directions and longest time come before anything shown here." in text


def test_a_wait_says_how_long_and_when_to_look(run: Run) -> None:
    """Never past the longest time; and no times to look once it is over."""
    args = [
        "--longest",
        "12",
        "--place",
        "weakest",
        "--curl",
        "none",
        "--says",
        "nothing",
        "--looked",
        "first_tools",
    ]
    text = flat(run("lotion", "--minute", "4", *args).stdout)
    assert "Look again in 2 min." in text
    assert "8 min are left" in text
    assert "Times to look, none to wait for" in text
    assert "Times to look" not in run("lotion", "--minute", "12", *args).stdout
    look = run("lotion", "--minute", "4", "--longest", "12", "--says", "nothing").stdout
    assert "Where: weakest place." in look


@pytest.mark.parametrize(
    ("args", "words"),
    [
        ("--minute 4 --curl firmm", "did you mean 'firm'?"),
        ("--minute 4 --place weak", "did you mean 'weakest'?"),
        ("--minute 4 --says burn", "did you mean 'burns'?"),
        ("--minute 4 --looked nape", "first_tools"),
        ("--minute -1", "from 0 to 600"),
        ("--minute nan", "from 0 to 600"),
        ("--minute 4 --longest 0", "over 0, up to 600"),
        ("", "--minute N"),
        ("--json", "--minute N"),
    ],
)
def test_wrong_usage_is_told_with_its_mend(run: Run, args: str, words: str) -> None:
    """Status 2, and the nearest name."""
    assert words in run("lotion", *args.split(), status=2).stderr


def test_broken_settings_do_not_hold_lotion_up(run: Run, home: Path, tmp_path: Path) -> None:
    """They are told, and the built-in rules go on; a school that is named and broken is refused."""
    home.mkdir()
    (home / "settings.yaml").write_text("school: [")
    result = run("lotion", "--minute", "13", "--longest", "12", "--json")
    assert json.loads(result.stdout)["do"] == "rinse"
    assert "Going on with the built-in rules." in result.stderr
    assert str(tmp_path) in run("lotion", "--minute", "1", "--school", tmp_path, status=1).stderr


class Chair:
    """Typed lines and a clock: each line comes so many minutes after the one before; None is silence."""

    def __init__(self, *steps: tuple[float, str | None]) -> None:
        self.steps, self.now, self.waited = list(steps), START, list[float]()

    def clock(self) -> datetime:
        return self.now

    def next(self, timeout_s: float) -> str | None:
        self.waited.append(timeout_s)
        if not self.steps:
            raise EOFError
        minutes, line = self.steps.pop(0)
        self.now += timedelta(minutes=minutes)
        return line


def watched(
    rulebook: Rulebook, chair: Chair, capsys: pytest.CaptureFixture[str], longest: float | None = 12
) -> str:
    watch_lotion(rulebook, lines=chair, clock=chair.clock, longest_min=longest)
    captured = capsys.readouterr()
    return flat(captured.out + captured.err)


def test_watched_to_the_firm_s(rulebook: Rulebook, capsys: pytest.CaptureFixture[str]) -> None:
    """First tools, weakest place, a beginning S, a firm one: rinse."""
    chair = Chair((2, None), (0.2, "111"), (0.2, " 2 2 1 "), (1, None), (0, "231"))
    text = watched(rulebook, chair, capsys)
    assert "2 min. LOOK NOW" in text
    assert "2.2 min: Look or ask before going on" in text
    assert "2.4 min: Wait, and stay with the client" in text
    assert "Next look at 3.4 min" in text
    assert "3.4 min: Rinse now" in text
    assert "Never leave the client." in text
    assert chair.waited[0] == 120


def test_silence_ends_at_the_longest_time(rulebook: Rulebook, capsys: pytest.CaptureFixture[str]) -> None:
    """Nobody types; the look is called for once, and the limit comes whatever the curl."""
    chair = Chair((2, None), (5, None), (5, None))
    text = watched(rulebook, chair, capsys)
    assert text.count("LOOK NOW") == 1
    assert "12 min: Rinse now" in text
    assert "S or no S" in text
    assert chair.waited == [120, 600, 300]


def test_burning_is_one_letter(rulebook: Rulebook, capsys: pytest.CaptureFixture[str]) -> None:
    """At any moment; lines that say nothing change nothing."""
    text = watched(rulebook, Chair((0.5, "help"), (0, "9"), (0, "511"), (0, "1²1"), (0.5, "B")), capsys)
    assert text.count("Three numbers, such as 221") == 4
    assert "1 min: Rinse now, and call the instructor" in text


@pytest.mark.parametrize("steps", [[(1, "q")], []])
def test_who_leaves_is_told_that_lotion_stays(
    rulebook: Rulebook, capsys: pytest.CaptureFixture[str], steps: list[tuple[float, str | None]]
) -> None:
    """By a letter or by the end of the input."""
    assert "Lotion is still on the hair." in watched(rulebook, Chair(*steps), capsys)


def test_a_look_on_the_last_moment_is_still_the_last(
    rulebook: Rulebook, capsys: pytest.CaptureFixture[str]
) -> None:
    """Zero for not looked and not asked; the limit is passed while somebody types."""
    text = watched(rulebook, Chair((12.5, "000")), capsys)
    assert "12.5 min: Rinse now" in text


def test_unknown_longest_time_rinses_at_once(rulebook: Rulebook, capsys: pytest.CaptureFixture[str]) -> None:
    """There is nothing to watch."""
    text = watched(rulebook, Chair(), capsys, longest=None)
    assert "0 min: Rinse now, and call the instructor" in text
    assert "Times to look" not in text


def test_on_a_terminal_it_goes_along(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the real lines and the real clock."""
    monkeypatch.setattr(lotion, "_is_live", lambda: True)
    result = CliRunner().invoke(wavedrill, ["lotion", "--longest", "12"], input="b\n")
    assert result.exit_code == 0
    assert "Rinse now, and call the instructor" in result.output


def test_typed_lines_are_waited_for_no_longer_than_asked() -> None:
    """Lines in order, then the end, again and again; a silent stream gives nothing in time."""
    lines = TypedLines(io.StringIO("one\n two \n"))
    assert [lines.next(5), lines.next(5)] == ["one", "two"]
    with pytest.raises(EOFError):
        lines.next(5)

    class Silent(io.StringIO):
        def __next__(self) -> str:
            time.sleep(0.5)
            raise StopIteration

    assert TypedLines(Silent()).next(0) is None
