"""From what is seen back to its causes."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]


def flat(text: str) -> str:
    return " ".join(text.split())


def test_without_a_name_everything_that_can_be_seen_is_listed(run: Run) -> None:
    """Each with its name, as text and as JSON."""
    listed = json.loads(run("seen", "--json").stdout)
    text = run("seen").stdout
    assert len(listed) > 10
    for one in listed:
        assert any(line.startswith(one["id"]) for line in text.splitlines())


def test_on_a_known_head_decisions_are_ranked_before_the_hands(run: Run, sound_head: Path) -> None:
    """Off base is found behind a gap at the scalp; the table's own reason says what to do."""
    plain = json.loads(
        run("seen", "gap_at_scalp", "--consultation", sound_head, "--zone", "top", "--json").stdout
    )
    kinds = [one["kind"] for one in plain["causes"]]
    assert kinds == sorted(kinds)
    off = next(one for one in plain["causes"] if one["done"] == "off_base")
    assert (off["decision"], off["planned"], off["zones"]) == ("base_control", "half_off_base", ["top"])
    assert off["beliefs"]
    assert plain["zone"] == "top"
    text = flat(run("seen", "gap_at_scalp", "--consultation", sound_head).stdout)
    assert "the best fit first" in text
    assert "the whole head: Off base" in text
    assert "An idea that leads there:" in text
    assert text.index("Decided otherwise") < text.index("Hands and clock")


def test_without_a_head_the_usual_slips_and_what_the_plan_could_have_to_do_with_it(run: Run) -> None:
    """Nothing is run, and the names of the decisions are told."""
    result = run("seen", "gap_at_scalp")
    assert "With --consultation FILE" in flat(result.stdout)
    assert "base control" in result.stdout
    plain = json.loads(run("seen", "gap_at_scalp", "--json").stdout)
    assert {(one["kind"], one["decision"]) for one in plain["causes"]} == {("hands", "none")}
    assert plain["zone"] == "none"


def test_where_no_decision_would_show_it_that_is_said(run: Run, sound_head: Path) -> None:
    """A head that the plan lets go on: the skin was reddened by the hands."""
    text = flat(run("seen", "redness_at_hairline", "--consultation", sound_head).stdout)
    assert "On this head no other decision would show as this did" in text
    assert "a physician" in text


def test_what_the_hands_alone_do_names_no_decision(run: Run) -> None:
    """A dent comes of band or tool."""
    assert "The plan" not in run("seen", "dent_at_scalp").stdout


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("gap",), "did you mean 'gap_at_scalp'?"),
        (("gap_at_scalp", "--zone", "nape"), "nape_"),
    ],
)
def test_unknown_names_get_the_nearest_one(run: Run, args: tuple[str, ...], words: str) -> None:
    """With the status of wrong usage."""
    assert words in run("seen", *args, status=2).stderr


def test_broken_consultation_is_told_with_its_place(run: Run, tmp_path: Path) -> None:
    """Every fault; and two heads are one too many."""
    bad = tmp_path / "bad.yaml"
    bad.write_text("hair: {length: 18, strand: thin}\n")
    told = run("seen", "too_loose", "--consultation", bad, status=1).stderr.splitlines()
    assert len(told) >= 2
    assert all(line.startswith(f"{bad}:") for line in told)
    bad.write_text("hair: [")
    assert run("seen", "too_loose", "--consultation", bad, status=1).stderr.startswith(f"{bad}:")
    two = "hair.length: 18 cm\nwish.curl: soft\n---\nhair.length: 18 cm\nwish.curl: soft\n"
    assert "one consultation" in run("seen", "too_loose", "--consultation", "-", stdin=two, status=2).stderr


def test_broken_school_is_told(run: Run, tmp_path: Path) -> None:
    """As everywhere."""
    assert str(tmp_path) in run("seen", "--school", tmp_path, status=1).stderr
