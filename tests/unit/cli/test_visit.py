"""``wavedrill visit``: a record from opening to deleting, and what it says to the next plan."""

import json
import stat
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from drill.cli import visit_event
from drill.cli.main import wavedrill
from drill.cli.visit import visit_command

Run = Callable[..., Result]
STOPS = ("consultation", "wrap", "saturation", "test_curl", "before_take_down")
GOOD = (
    "--minutes",
    "8",
    "--longest",
    "12",
    "--wet",
    "right",
    "--dry",
    "right",
    "--hair",
    "sound",
    "--skin",
    "calm",
)
DONE = ("--result", "done", "--curl", "as_wished", "--hair", "sound", "--home-care", "Two days dry")


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """An invented school in student mode, without rules of its own."""
    folder = tmp_path / "school"
    folder.mkdir()
    (folder / "school.yaml").write_text("name: Lindenhof (invented)\nstudent_mode: yes\n")
    return folder


@pytest.fixture
def opened(run: Run, sound_head: Path) -> str:
    """The id of a visit just opened."""
    return run("visit", "open", sound_head).stdout.strip()


def _json(result: Result) -> object:
    return json.loads(result.stdout)


def _days_ago(monkeypatch: pytest.MonkeyPatch, days: int) -> None:
    """Let every command of the record read a clock that stands so many days back."""
    from drill.cli import visit

    for module in (visit, visit_event):
        monkeypatch.setattr(module, "local_now", lambda: datetime.now(UTC) - timedelta(days=days))  # noqa: TID251


def _left_out(path: Path, *lines: str) -> Path:
    text = path.read_text()
    for line in lines:
        assert line in text
        text = text.replace(line, "")
    path.write_text(text)
    return path


def test_a_service_from_opening_to_export(run: Run, opened: str, home: Path, tmp_path: Path) -> None:
    """Opened, signed, timed, closed, shown, listed, written out."""
    assert (home / "visits.sqlite").exists()
    assert "open" in run("visit", "list").stdout
    run("visit", "sign", opened, "consultation", "--initials", "ab")
    run("visit", "time", opened, "processing", "9", "--longest", "12", "--product", "House wave")
    run("visit", "time", "wren", "neutraliser", "5.5")
    run("visit", "note", opened, "Scalp calm,\n hair  soft.")
    run("visit", "close", opened, *DONE)
    text = " ".join(run("visit", "show", "WREN").stdout.split())
    for words in (
        f"Visit {opened}, for Wren",
        "Closed, done.",
        "consultation: AB",
        "lotion: 9 min, maker's longest time 12 min, House wave",
        "neutraliser: 5.5 min",
        "Curl obtained: as wished.",
        "Home care given: Two days dry",
        "Scalp calm, hair soft.",
    ):
        assert words in text
    file = tmp_path / "out.json"
    run("visit", "export", "Wren", "-o", file)
    exported = json.loads(file.read_text())
    assert (exported["format"], exported["visits"][0]["id"]) == ("visits.v1", opened)
    assert exported["visits"][0]["record"]["products"]["used"]["processing"]["minutes"] == 9
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert [one.name for one in tmp_path.iterdir() if one.name.startswith("out")] == ["out.json"]


def test_every_command_writes_json(run: Run, sound_head: Path, tmp_path: Path) -> None:
    """One object, or a list of them, on standard output."""
    visit = _json(run("visit", "open", sound_head, "--json"))
    one = visit["id"]
    assert visit["closed"] == "none"
    assert _json(run("visit", "list", "--json"))[0]["id"] == one
    assert _json(run("visit", "show", one, "--json"))[0]["client"] == "Wren"
    assert _json(run("visit", "steps", one, "--json"))["steps"][0]["open"] is True
    signed = _json(run("visit", "sign", one, "wrap", "--initials", "AB", "--json"))
    assert signed["sign_offs"][0]["initials"] == "AB"
    read = _json(run("visit", "reading", one, *GOOD, "--json"))
    assert (read["revision"]["do"], read["visit"]["readings"][0]["do"]) == ("go_on", "go_on")
    assert _json(run("visit", "time", one, "wrap", "40", "--json"))["times"][0]["minutes"] == 40
    assert _json(run("visit", "note", one, "Calm", "--json"))["notes"][0]["text"] == "Calm"
    assert _json(run("visit", "close", one, *DONE, "--json"))["result"]["outcome"] == "done"
    assert _json(run("visit", "export", "-o", tmp_path / "x", "--json"))["visits"] == 1
    assert _json(run("visit", "export", one, "-o", "-"))["visits"][0]["id"] == one
    assert _json(run("visit", "delete", one, "--yes", "--json")) == {"deleted": [one]}
    assert _json(run("visit", "list", "--json")) == []


def test_a_school_in_student_mode_holds_steps_until_they_are_signed(
    run: Run, sound_head: Path, school: Path
) -> None:
    """In the order of the stops; the rinse is open from the beginning."""
    one = run("visit", "open", sound_head, "--school", school).stdout.strip()
    page = run("visit", "steps", one).stdout
    assert "CLOSED. Gentle clarifying shampoo" in page
    assert "Waits for: consultation." in page
    assert "CLOSED. Rinse on the tools" not in page
    refused = run("visit", "sign", one, "saturation", "--initials", "AB", status=2).stderr
    assert f"sign first: wavedrill visit sign {one} consultation" in " ".join(refused.split())
    for stop in STOPS:
        page = run("visit", "sign", one, stop, "--initials", "AB").stdout
    assert "CLOSED" not in page
    assert page.count("Signed by AB.") == 5
    page = run("visit", "sign", one, "before_take_down", "--initials", "AB", "--take-back").stdout
    assert "CLOSED. Take the tools out" in page
    assert "before take-down" in run("visit", "close", one, *DONE).stderr
    assert "taken back by AB" in run("visit", "show", one).stdout


def test_the_school_of_the_settings_holds_as_well(
    run: Run, sound_head: Path, school: Path, home: Path
) -> None:
    """A student cannot forget to name it; a fault in the settings is told."""
    home.mkdir()
    (home / "settings.yaml").write_text(f"school: {school}\n")
    one = run("visit", "open", sound_head).stdout.strip()
    assert _json(run("visit", "steps", one, "--json"))["student_mode"] is True
    (home / "settings.yaml").write_text("scool: x\n")
    assert "did you mean 'school'?" in run("visit", "open", sound_head, status=1).stderr


def test_a_student_mode_that_is_neither_yes_nor_no_is_told(run: Run, sound_head: Path, school: Path) -> None:
    """With its place; no visit is opened."""
    (school / "school.yaml").write_text("name: Lindenhof (invented)\nstudent_mode: maybe\n")
    told = run("visit", "open", sound_head, "--school", school, status=1).stderr
    assert f"{school / 'school.yaml'}:2:15: " in told
    assert "write yes or no" in told


def test_without_a_school_any_stop_may_be_signed(run: Run, opened: str) -> None:
    """And nothing is closed."""
    page = run("visit", "sign", opened, "test_curl", "--initials", "é").stdout
    assert "Signed by É." in page
    assert "CLOSED" not in page
    assert (
        "not signed"
        in run("visit", "sign", opened, "wrap", "--initials", "A", "--take-back", status=2).stderr
    )


def test_test_curls_that_say_stop_hold_the_service(run: Run, opened: str) -> None:
    """The answer is told with its cautions, the steps behind it are closed, but never the rinse."""
    page = run("visit", "reading", opened, "--hair", "gum_like").stdout
    assert "After the test curls: Stop" in page
    assert "Test curls are no allergy test." in page
    steps = run("visit", "steps", opened).stdout
    assert "STOP. The test curls do not let this head go on as planned." in steps
    assert "Waits for: what the test curls showed." in steps
    assert "CLOSED. Rinse on the tools" not in steps
    run("visit", "reading", opened, *GOOD, "--corrects")
    assert "CLOSED" not in run("visit", "steps", opened).stdout
    shown = " ".join(run("visit", "show", opened).stdout.split())
    assert "time not known; wet unknown, dry unknown, hair gum like, skin unknown: Stop" in shown
    assert "in place of the one before: 8 min; wet right" in shown


def test_a_reading_names_the_next_lotion_or_tool(run: Run, sound_head: Path) -> None:
    """As the table decides."""
    sound_head.write_text(sound_head.read_text().replace("known: yes", "known: no"))
    one = run("visit", "open", sound_head).stdout.strip()
    weak = [word if word != "right" else "weak" for word in GOOD]
    assert "Next lotion to test: one made for resistant hair." in run("visit", "reading", one, *weak).stdout
    tight = [word if word != "right" else "too_tight" for word in GOOD]
    page = run("visit", "reading", one, *tight).stdout
    assert "Next tool to test, top: 12.7 mm." in page
    assert "Strands of the test lie in: nape centre" in page


def test_a_reading_under_other_rules_is_refused(run: Run, opened: str) -> None:
    """It would read another plan."""
    from drill.cli.demo import DEMO_SCHOOL

    refused = run("visit", "reading", opened, *GOOD, "--school", DEMO_SCHOOL, status=2).stderr
    assert "planned under other rules" in refused
    assert _json(run("visit", "show", opened, "--json"))[0]["readings"] == []


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("show", "Wrenn"), "did you mean 'Wren'?"),
        (("show", "Quite another"), "see 'wavedrill visit list'"),
        (("steps", "\x1b[31m"), "there is no visit"),
        (("sign", "ID", "wrp", "--initials", "AB"), "did you mean 'wrap'?"),
        (("sign", "ID", "wrap", "--initials", "A1"), "no initials"),
        (("sign", "ID", "wrap", "--initials", "ABCDE"), "no initials"),
        (("sign", "ID", "wrap"), "--initials"),
        (("reading", "ID", "--wet", "rigt"), "did you mean 'right'?"),
        (("reading", "ID", "--minutes", "nan"), "no number of minutes"),
        (("time", "ID", "proccessing", "9"), "did you mean 'processing'?"),
        (("time", "ID", "wrap", "0"), "no number of minutes"),
        (("time", "ID", "wrap", "601"), "no number of minutes"),
        (("time", "ID", "wrap", "soon"), "no number of minutes"),
        (("note", "ID", " "), "nothing in it"),
        (("note", "ID", "x" * 2001), "over 2000 letters"),
        (("close", "ID", "--result", "don"), "did you mean 'done'?"),
        (("close", "ID", "--result", "done", "--curl", "tigher"), "did you mean 'tighter'?"),
        (("close", "ID", "--result", "done", "--hair", "sond"), "did you mean 'sound'?"),
        (("close", "ID", "--result", "done"), "add --curl, --hair, --home-care"),
        (("close", "ID", "--result", "stopped"), "add --hair"),
        (("close", "ID", "--result", "not_done", "--hair", "dry"), "leave them out"),
        (("delete", "Wren"), "add --yes"),
        (("delete", "Nobody at all", "--yes"), "there is no visit"),
        (("export",), "'-o'"),
    ],
)
def test_wrong_usage_is_told_and_changes_nothing(
    run: Run, opened: str, args: tuple[str, ...], words: str
) -> None:
    """With what would mend it, status 2."""
    before = run("visit", "list", "--json").stdout
    result = run("visit", *(opened if arg == "ID" else arg for arg in args), status=2)
    assert words in " ".join(result.stderr.split())
    assert "\x1b" not in result.stderr
    assert run("visit", "list", "--json").stdout == before


def test_a_closed_visit_takes_corrections_only(run: Run, opened: str) -> None:
    """A result or a time may be noted again; signing and test curls are over."""
    run("visit", "close", opened, *DONE)
    for args in (("sign", opened, "wrap", "--initials", "AB"), ("reading", opened, *GOOD)):
        assert "is closed" in run("visit", *args, status=2).stderr
    run("visit", "time", opened, "wrap", "50")
    run("visit", "close", opened, "--result", "stopped", "--hair", "dry")
    assert "stopped" in run("visit", "show", opened).stdout


def test_lotion_past_the_longest_time_is_noted_as_it_was(run: Run, opened: str) -> None:
    """And told."""
    note = run("visit", "time", opened, "processing", "14", "--longest", "12").stderr
    assert "past the maker's longest time" in note
    assert "past" not in run("visit", "time", opened, "processing", "12", "--longest", "12").stderr


def test_several_visits_of_one_client_are_told_apart(run: Run, sound_head: Path) -> None:
    """The label shows all in order; what is noted goes to the only open one."""
    first = run("visit", "open", sound_head).stdout.strip()
    second = run("visit", "open", sound_head).stdout.strip()
    assert first != second
    refused = run("visit", "note", "Wren", "Calm", status=2).stderr
    assert first in refused
    assert second in refused
    run("visit", "close", first, *DONE)
    run("visit", "note", "wren", "Calm")
    assert [len(one["notes"]) for one in _json(run("visit", "show", "wren", "--json"))] in ([0, 1], [1, 0])
    assert [one["id"] for one in _json(run("visit", "list", "--open", "--json"))] == [second]
    run("visit", "close", second, *DONE)
    assert "there are several" in run("visit", "steps", "wren", status=2).stderr
    run("visit", "delete", "WREN", "--yes")
    assert "No visit is kept here." in run("visit", "list").stderr


def test_closing_takes_health_out_of_the_files(run: Run, sound_head: Path, home: Path) -> None:
    """What was said of treatment is nowhere in the folder afterwards."""
    sound_head.write_text(sound_head.read_text().replace("treatment: none", "treatment: new_medicine"))
    one = run("visit", "open", sound_head).stdout.strip()
    assert "new_medicine" in run("visit", "show", one, "--json").stdout
    run("visit", "close", one, "--result", "not_done")
    shown = run("visit", "show", one, "--json").stdout
    assert "medicine" not in shown
    assert not [file for file in home.iterdir() if b"new_medicine" in file.read_bytes()]


def test_a_declined_service_is_recorded_with_its_reason(run: Run, sound_head: Path) -> None:
    """Without steps or stops."""
    sound_head.write_text(sound_head.read_text().replace("relaxer: none", "relaxer: hydroxide"))
    one = run("visit", "open", sound_head).stdout.strip()
    assert "no working steps: Do not do this service" in run("visit", "steps", one).stdout
    assert "no such stop" in run("visit", "sign", one, "wrap", "--initials", "AB", status=2).stderr
    run("visit", "close", one, "--result", "not_done")
    assert "Do not do this service" in run("visit", "show", one).stdout


def test_a_practice_wrap_is_closed_without_home_care(run: Run, sound_head: Path) -> None:
    """A practice head goes nowhere; a visit without a label is found by its id."""
    sound_head.write_text(sound_head.read_text().replace("client: Wren", "service: practice_wrap"))
    one = run("visit", "open", sound_head).stdout.strip()
    run("visit", "close", one, "--result", "done", "--curl", "as_wished")
    assert f"Visit {one}\n" in run("visit", "show", one).stdout
    assert run("visit", "list").stdout.splitlines()[1].split()[1] == "-"


def test_opening_tells_the_faults_of_the_file(run: Run, tmp_path: Path, sound_head: Path, home: Path) -> None:
    """Nothing is kept then."""
    bad = tmp_path / "bad.yaml"
    bad.write_text("hair.lenght: 20 cm\nwish.curl: medium\n")
    assert f"{bad}:1:1: " in run("visit", "open", bad, status=1).stderr
    assert f"{tmp_path / 'none'}:1:1: " in run("visit", "open", tmp_path / "none", status=1).stderr
    two = f"{sound_head.read_text()}---\n{sound_head.read_text()}"
    assert "one consultation" in run("visit", "open", "-", stdin=two, status=2).stderr
    assert not home.exists()
    assert run("visit", "open", "-", stdin=sound_head.read_text()).stdout.strip()


def test_an_export_that_cannot_be_written_is_told(run: Run, opened: str, tmp_path: Path) -> None:
    """No half of it is left."""
    file = tmp_path / "file"
    file.write_text("")
    assert "cannot write the file" in run("visit", "export", "-o", file / "x.json", status=1).stderr
    assert "cannot write the file" in run("visit", "export", "-o", tmp_path / "no" / "x", status=1).stderr
    assert "there is no visit ''" in run("visit", "export", "", "-o", file, status=2).stderr
    assert file.read_text() == ""


def test_the_next_plan_knows_what_the_record_knows(
    run: Run, sound_head: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is left out is filled in and told, on the page and as JSON; an option leaves it out."""
    with monkeypatch.context() as before:
        _days_ago(before, 100)
        one = run("visit", "open", sound_head).stdout.strip()
        _left_out(sound_head, "known: yes, ", "weeks_since_perm: never, ")
        plain = _json(run("plan", sound_head, "--json"))
        assert "from_record" not in plain  # an open visit says nothing yet
        run("visit", "close", one, *DONE)
    plan = _json(run("plan", sound_head, "--json"))
    assert plan["from_record"]["visits"] == [one]
    assert plan["from_record"]["filled"] == {"history.known": "yes", "history.weeks_since_perm": 14}
    assert plan["consultation"]["history"]["weeks_since_perm"] == 14
    assert any("14 weeks ago" in note for note in plan["notes"])
    page = " ".join(run("plan", sound_head).stdout.split())
    assert "From the record: the client is known here." in page
    assert "Make sure that it is the same person." in page
    bare = _json(run("plan", sound_head, "--json", "--no-records"))
    assert "from_record" not in bare
    assert "known" not in bare["consultation"]["history"]
    again = _json(run("visit", "open", sound_head, "--json"))
    assert again["consultation"]["history"]["weeks_since_perm"] == 14
    assert _json(run("visit", "reading", again["id"], *GOOD, "--json"))["revision"]["do"]


def test_a_contradiction_with_the_record_is_told_and_asked(run: Run, sound_head: Path) -> None:
    """What the consultation states stands until then."""
    run("visit", "close", run("visit", "open", sound_head).stdout.strip(), *DONE)
    plan = _json(run("plan", sound_head, "--json"))
    assert plan["consultation"]["history"]["weeks_since_perm"] == "never"
    assert plan["ask_first"][0]["field"] == "history.weeks_since_perm"
    assert plan["from_record"]["ask"][0]["field"] == "history.weeks_since_perm"
    page = " ".join(run("plan", sound_head).stdout.split())
    assert "The consultation says that there never was a perm; the record has one" in page


def test_a_record_that_cannot_be_read_stops_who_needs_it(run: Run, sound_head: Path, home: Path) -> None:
    """A plan without a label, or without records, goes on; the file is left as it is."""
    home.mkdir()
    (home / "visits.sqlite").write_text("my notes")
    refused = run("plan", sound_head, status=1).stderr
    assert "this file is no record of visits" in refused
    assert "or plan with --no-records" in refused
    run("plan", sound_head, "--no-records")
    assert "no record of visits" in run("visit", "list", status=1).stderr
    assert "no record of visits" in run("visit", "open", sound_head, "--no-records", status=1).stderr
    sound_head.write_text(sound_head.read_text().replace("client: Wren\n", ""))
    run("plan", sound_head)
    assert (home / "visits.sqlite").read_text() == "my notes"
    (home / "visits.sqlite").write_text("")
    assert "No visit is kept here." in run("visit", "list").stderr


def test_a_data_folder_that_cannot_be_made_is_told(run: Run, sound_head: Path, home: Path) -> None:
    """A file stands in its way."""
    home.write_text("")
    assert "cannot make the data folder" in run("visit", "open", sound_head, status=1).stderr


@pytest.mark.parametrize("name", [None, *sorted(visit_command.commands)])
def test_help_says_where_records_stay_and_tells_every_option(name: str | None) -> None:
    """In 80 columns."""
    command = visit_command.commands[name] if name else visit_command
    text = CliRunner().invoke(wavedrill, ["visit", *([name] if name else []), "--help"]).stdout
    assert max(map(len, text.splitlines())) <= 80
    assert command.help
    if name is None:
        assert "stays on this device" in " ".join(text.split())
    for parameter in command.params:
        if isinstance(parameter, click.Option):
            assert parameter.help
            assert parameter.opts[0] in text
        else:
            assert str(parameter.metavar).strip("[]") in text
