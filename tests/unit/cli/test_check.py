"""``wavedrill check``: the proof of rules, questions and a school's folder."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

from click.testing import Result

from drill.bank.book import Book
from drill.bank.coverage import count
from drill.cli.demo import DEMO_SCHOOL

Run = Callable[..., Result]
LOOSENING = """\
overlay: loosening
kind: local_rule
because: It went well so far.
source: invented
changes:
  - op: replace
    table: verdict
    row: {id: %s, when: {scalp: broken}, then: go, because: x, source: invented}
"""


def test_the_built_in_rules_are_sound(run: Run, book: Book) -> None:
    """Counts are those of the book, and rows without a published source are told."""
    report = json.loads(run("check", "--json").stdout)
    assert report["sound"] is True
    assert report["counts"]["rows"] == count(book).rows
    assert report["counts"]["items"] == len(book.items)
    assert len(report["rows_without_published_source"]) == count(book).unpublished_rows


def test_a_school_sees_which_answers_its_rule_changes(run: Run) -> None:
    """The invented school's rule on papers turns questions on papers, and nothing else."""
    report = json.loads(run("check", DEMO_SCHOOL, "--json").stdout)
    assert [one["target"] for one in report["local_changes"]] == ["papers.everyday"]
    assert report["items_changed"]
    assert {one["decision"] for one in report["items_changed"]} == {"papers"}
    text = run("check", DEMO_SCHOOL).stdout
    assert "What the local rules change" in text
    assert report["items_changed"][0]["item"] in text


def test_a_rule_that_loosens_a_limit_is_refused(run: Run, tmp_path: Path, book: Book) -> None:
    """The rule, the limit and an example head are named, and the status is 1."""
    rows = book.rulebook.tables["verdict"].rows
    row = next(row.id for row in rows if "scalp" in row.when and "broken" in row.when["scalp"].values)
    school = tmp_path / "school"
    shutil.copytree(DEMO_SCHOOL, school)
    rule = school / "rules" / "loosening.yaml"
    rule.write_text(LOOSENING % row)
    result = run("check", school, status=1)
    assert result.stdout == ""
    assert f"{rule}:8:10: the limit " in result.stderr
    assert "for example for" in result.stderr
    assert json.loads(run("check", school, "--json", status=1).stdout)["sound"] is False


def test_every_fault_of_a_folder_is_told_at_once(run: Run, tmp_path: Path) -> None:
    """School file, deck and kit each have one."""
    (tmp_path / "decks").mkdir()
    (tmp_path / "school.yaml").write_text("nme: Somewhere\n")
    (tmp_path / "kit.yaml").write_text("[]\n")
    (tmp_path / "decks" / "own.yaml").write_text("topic: own\nitems: nothing\n")
    errors = run("check", tmp_path, status=1).stderr
    for name in ("school.yaml:1:1", "kit.yaml:1:1", "own.yaml:2:8"):
        assert name in errors
    assert "did you mean 'name'?" in errors


def test_rows_are_listed_on_request(run: Run) -> None:
    """Without it they are only counted."""
    assert "verdict/" not in run("check").stdout
    assert "verdict/" in run("check", "--rows").stdout
