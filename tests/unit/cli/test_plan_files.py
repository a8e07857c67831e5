"""The card and the head map that ``plan`` writes."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from drill.cli.demo import DEMO_SCHOOL

HEALTHY = DEMO_SCHOOL / "consultations" / "healthy.yaml"
DECLINED = DEMO_SCHOOL / "consultations" / "declined.yaml"


def test_the_card_and_the_map_of_one_plan_are_written(run, tmp_path: Path):
    """The card is a page that names the client; the map is a drawing of its own."""
    card, drawing = tmp_path / "card.html", tmp_path / "map.svg"
    run("plan", HEALTHY, "--html", card, "--svg", drawing)
    assert card.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert ElementTree.fromstring(drawing.read_text(encoding="utf-8")).tag.endswith("svg")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["card.html", "map.svg"]


def test_a_service_that_is_not_done_has_a_card_and_no_map(run, tmp_path: Path):
    """The card says why and what instead; a map is refused and nothing is left half written."""
    run("plan", DECLINED, "--html", tmp_path / "card.html")
    assert (tmp_path / "card.html").exists()
    refused = run("plan", DECLINED, "--svg", tmp_path / "map.svg", status=1)
    assert "no head map of a service that is not done" in refused.stderr
    assert not (tmp_path / "map.svg").exists()


def test_several_plans_do_not_fit_one_file(run, tmp_path: Path):
    """That is wrong usage, and nothing is written."""
    result = run("plan", HEALTHY, DECLINED, "--html", tmp_path / "card.html", status=2)
    assert "one plan" in result.stderr
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("option", ["--html", "--svg"])
def test_a_file_that_cannot_be_written_is_told(run, tmp_path: Path, option: str):
    """With its name and what to look at."""
    result = run("plan", HEALTHY, option, tmp_path / "nowhere" / "file", status=1)
    assert "cannot write the file" in result.stderr
