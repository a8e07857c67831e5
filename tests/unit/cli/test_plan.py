"""``wavedrill plan``: consultations in, plans and problems out."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drill.cli.demo import DEMO_SCHOOL
from drill.cli.main import wavedrill

Run = Callable[..., Result]
DEMO_CLIENTS = DEMO_SCHOOL / "consultations"
STOPS = ("First stop", "Second stop", "Third stop", "Fourth stop", "Fifth stop")


def test_json_of_one_file_is_one_object(run: Run, sound_head: Path) -> None:
    """A plan that works has nine zones."""
    plan = json.loads(run("plan", sound_head, "--json").stdout)
    assert plan["verdict"] == "go"
    assert len(plan["zones"]) == 9


def test_json_of_several_is_one_object_a_line_in_order(run: Run, sound_head: Path) -> None:
    """A document that has no plan gives its problems in its place, and the status is 1."""
    text = sound_head.read_text()
    stdin = f"{text}---\nhair.length: 3\n---\n{{\n---\n{text.replace('Wren', 'Last')}"
    result = run("plan", "-", "--json", stdin=stdin, status=1)
    first, second, third, last = map(json.loads, result.stdout.splitlines())
    assert (first["client"], last["client"]) == ("Wren", "Last")
    assert "without its unit" in " ".join(second["error"])
    assert "not YAML" in third["error"][0]
    for line in (*second["error"], *third["error"]):
        assert line in result.stderr.splitlines()


def test_one_document_from_standard_input_is_one_line(run: Run, sound_head: Path) -> None:
    """A program that reads lines need not know how many there are."""
    (line,) = run("plan", "-", "--json", stdin=sound_head.read_text()).stdout.splitlines()
    assert json.loads(line)["client"] == "Wren"


def test_problems_of_all_files_are_told_at_once(run: Run, tmp_path: Path) -> None:
    """Each with file, line and column, what is wrong, what mends it, and the nearest name."""
    one, two = tmp_path / "one.yaml", tmp_path / "two.yaml"
    one.write_text("hair.lenght: 20 cm\nwish.curl: medium\n")
    two.write_text("hair.length: 20 cm\nhair.strand: medum\nwish.curl: medium\n")
    result = run("plan", one, two, tmp_path / "three.yaml", status=1)
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert any(line.startswith(f"{one}:1:1: ") and "did you mean 'hair.length'?" in line for line in lines)
    assert any(line.startswith(f"{two}:2:14: ") and "did you mean 'medium'?" in line for line in lines)
    assert any(line.startswith(f"{tmp_path / 'three.yaml'}:1:1: ") for line in lines)


def test_wrong_usage_is_status_2(run: Run) -> None:
    """No file at all, and an option that does not exist."""
    run("plan", status=2)
    run("plan", "-", "--jsn", status=2)


def test_text_says_first_aid_before_any_step(run: Run, sound_head: Path) -> None:
    """Verdict, what to do when it goes wrong, tests, zones, steps with five stops; all in 80 columns."""
    text = run("plan", sound_head).stdout
    order = [
        "Verdict: Go ahead",
        "If something goes wrong",
        "Tests, in this order",
        "The head, zone by zone",
        "In all",
        "Waving lotion",
        "Time: about",
        "Steps",
        *STOPS,
        "Cautions",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)
    assert max(map(len, text.splitlines())) <= 80
    assert "\x1b" not in text


def test_the_demo_clients_get_what_their_files_say(run: Run) -> None:
    """One goes ahead, one is tested first, one is declined with something else to offer."""
    go = run("plan", DEMO_CLIENTS / "healthy.yaml", "--school", DEMO_SCHOOL).stdout
    test = run("plan", DEMO_CLIENTS / "doubtful.yaml", "--school", DEMO_SCHOOL).stdout
    no = run("plan", DEMO_CLIENTS / "declined.yaml", "--school", DEMO_SCHOOL).stdout
    assert "Verdict: Go ahead" in go
    assert "Test curls: needed" in test
    assert "Verdict: Do not do this service" in no
    assert "Instead" in no
    assert "Steps" not in no
    assert "zone by zone" not in no


def test_a_local_rule_changes_the_plan(run: Run, sound_head: Path) -> None:
    """The invented school lays two flat papers where the built-in rules fold one."""
    built_in = json.loads(run("plan", sound_head, "--json").stdout)
    local = json.loads(run("plan", sound_head, "--json", "--school", DEMO_SCHOOL).stdout)
    assert built_in["zones"]["top"]["papers"] == "bookend"
    assert local["zones"]["top"]["papers"] == "double_flat"
    assert local["consultation"]["kit"]["name"] == "Lindenhof kit"


def test_a_kit_is_used_where_the_consultation_names_none(run: Run, sound_head: Path, tmp_path: Path) -> None:
    """Tools come out of the file; what runs short is noted."""
    kit = tmp_path / "drawer.yaml"
    kit.write_text("- {diameter: 11.1 mm, length: 76 mm, shape: concave, count: 12}\n")
    plan = json.loads(run("plan", sound_head, "--json", "--kit", kit).stdout)
    assert plan["totals"]["tools"] == 12
    assert any("kit lacks" in note for note in plan["notes"])
    kit.write_text("- {diameter: 11.1, length: 76 mm, shape: concave, count: 12}\n")
    assert f"{kit}:1:" in run("plan", sound_head, "--kit", kit, status=1).stderr


def test_why_names_rows_and_sources(run: Run, sound_head: Path) -> None:
    """The row behind the verdict is told with its reason, and published works in full."""
    text = run("plan", sound_head, "--why").stdout
    assert "[nothing-speaks-against-it; common practice]" in " ".join(text.split())
    assert "Sources" in text


def test_a_school_with_faults_plans_nothing(run: Run, sound_head: Path, tmp_path: Path) -> None:
    """A missing school folder, and a local rule that would loosen a limit, end it with status 1."""
    assert (
        "there is no such school folder"
        in run("plan", sound_head, "--school", tmp_path / "x", status=1).stderr
    )


def test_hidden_characters_cannot_steer_the_terminal(run: Run, sound_head: Path) -> None:
    """What is written into a label or a key comes out harmless, on both streams."""
    label = '"\\e]0;owned\\a"'
    stdin = sound_head.read_text().replace("Wren", label)
    text = run("plan", "-", stdin=stdin).stdout
    assert "\x1b" not in text
    assert "\x07" not in text
    bad = run("plan", "-", stdin=f"{label}: 1\n", status=1)
    assert "\x1b" not in bad.stderr


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.binary(max_size=120) | st.text(max_size=80).map(lambda text: text.encode("utf-8", "replace")))
@example(data=b"wish.curl: medium\nhair.length: " + b"9" * 5000 + b" cm\n")
@example(data=b"? [a]\n: b\n")
@example(data=b"\x00")
@example(data=b"a: &x 1\nb: *x\n")
@example(data=b"[" * 5000)
def test_any_bytes_end_in_plans_or_problems(data: bytes) -> None:
    """No input is answered with an error of the program's own: status 0 with plans, or 1 with lines."""
    result = CliRunner().invoke(wavedrill, ["plan", "-", "--json"], input=data)
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    assert result.exit_code in (0, 1)
    answers = [json.loads(line) for line in result.stdout.splitlines()]
    assert answers
    assert (result.exit_code == 1) == any("error" in one for one in answers)
    if result.exit_code:
        assert all(line.startswith("<stdin>:") for line in result.stderr.splitlines())


@pytest.mark.parametrize("colour", [True, False])
def test_colour_only_where_a_person_looks(colour: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal gets colour unless NO_COLOR is set (no-color.org)."""
    from drill.cli import telling

    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", "" if colour else "1")
    assert telling.wants_colour() is colour


@pytest.mark.parametrize(
    ("pace", "words"),
    [
        ("stylist", "at a stylist's pace"),
        ("exam-ready", "ready for the exam"),
        ("Exam Ready", "ready for the exam"),
        ("", "at a beginner's pace"),
    ],
)
def test_pace_may_be_asked_for(run: Run, sound_head: Path, pace: str, words: str) -> None:
    """It goes before what the consultation says, and less time is planned for quicker hands."""
    asked = ("--pace", pace) if pace else ()
    assert words in " ".join(run("plan", sound_head, *asked).stdout.split())
    plan = json.loads(run("plan", sound_head, "--json", *asked).stdout)
    slow = json.loads(run("plan", sound_head, "--json").stdout)
    assert (plan["totals"]["minutes"] < slow["totals"]["minutes"]) == bool(pace)


def test_unknown_pace_gets_the_nearest_one(run: Run, sound_head: Path) -> None:
    """With the status of wrong usage."""
    assert "did you mean 'stylist'?" in run("plan", sound_head, "--pace", "stylish", status=2).stderr
