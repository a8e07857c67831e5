"""``wavedrill new school`` and ``wavedrill schema``."""

import json
from collections.abc import Callable
from pathlib import Path

from click.testing import Result

Run = Callable[..., Result]


def test_a_new_school_passes_check_and_says_what_comes_next(run: Run, tmp_path: Path) -> None:
    """Named after its folder, with the schemas that its first lines name."""
    folder = tmp_path / "harbour-school"
    told = run("new", "school", folder).stdout
    assert "The school 'Harbour school' stands in" in told
    assert f"wavedrill check {folder} --watch" in told
    for name in ("school.yaml", "kit.yaml", "rules/local-rules.yaml", "decks/house-rules.yaml"):
        assert name in told
        first = (folder / name).read_text(encoding="utf-8").partition("\n")[0]
        schema = first.partition("$schema=")[2]
        assert json.loads(((folder / name).parent / schema).read_text(encoding="utf-8"))["title"]
    report = json.loads(run("check", folder, "--json").stdout)
    assert (report["sound"], report["school"], report["local_rules"]) == (True, "Harbour school", [])


def test_a_school_gets_the_name_it_is_given(run: Run, tmp_path: Path) -> None:
    """Quotes in it are kept."""
    run("new", "school", tmp_path / "s", "--name", "Odile's: 'the' school")
    assert json.loads(run("check", tmp_path / "s", "--json").stdout)["school"] == "Odile's: 'the' school"


def test_a_folder_without_a_name_of_its_own_is_our_school(run: Run, tmp_path: Path) -> None:
    """Only marks are left of it."""
    run("new", "school", tmp_path / "--_")
    assert json.loads(run("check", tmp_path / "--_", "--json").stdout)["school"] == "Our school"


def test_a_school_is_never_written_over(run: Run, tmp_path: Path) -> None:
    """The second time nothing changes."""
    run("new", "school", tmp_path / "s")
    (tmp_path / "s" / "school.yaml").write_text("name: Mine\n", encoding="utf-8")
    error = run("new", "school", tmp_path / "s", status=1).stderr
    assert "school.yaml:1:1: the file is there already" in error
    assert (tmp_path / "s" / "school.yaml").read_text(encoding="utf-8") == "name: Mine\n"


def test_schemas_are_written_anew(run: Run, tmp_path: Path) -> None:
    """Each path is told, and those of an earlier version are replaced."""
    (tmp_path / "deck.schema.json").write_text("old", encoding="utf-8")
    told = run("schema", tmp_path).stdout.splitlines()
    assert str(tmp_path / "deck.schema.json") in told
    assert len(told) == len(list(tmp_path.glob("*.schema.json"))) > 8
    assert json.loads((tmp_path / "deck.schema.json").read_text(encoding="utf-8"))["title"] == "deck"


def test_a_place_where_no_schema_can_be_written_is_told(run: Run, tmp_path: Path) -> None:
    """A file stands in the way."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    error = run("schema", tmp_path / "taken" / "deeper", status=1).stderr
    assert "cannot write here: not a directory; check the path and its rights" in error
