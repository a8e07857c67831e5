"""``wavedrill check``: the proof of rules, questions and a school's folder."""

import json
import re
import shutil
from collections.abc import Callable
from html import escape
from pathlib import Path

import pytest
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


def school_with(folder: Path, *, changes: str, until: str = "") -> Path:
    """Write a school of one local rule."""
    (folder / "rules").mkdir(parents=True)
    (folder / "school.yaml").write_text("name: Lindenhof (invented)\n")
    rule = f"overlay: ours\nbecause: We do.\nsource: Workroom rules\n{until}changes:\n{changes}"
    (folder / "rules" / "ours.yaml").write_text(rule)
    return folder


@pytest.mark.long
def test_the_built_in_rules_are_sound(run: Run, book: Book) -> None:
    """Counts are those of the book, and rows without a published source are told."""
    report = json.loads(run("check", "--json").stdout)
    assert report["sound"] is True
    assert report["counts"]["rows"] == count(book).rows
    assert report["counts"]["items"] == len(book.items)
    assert len(report["rows_without_published_source"]) == count(book).unpublished_rows


@pytest.mark.long
def test_a_school_sees_which_answers_its_rules_change(run: Run, tmp_path: Path) -> None:
    """The six rules of the invented state, each with its heads, examples and items."""
    page = tmp_path / "page.html"
    report = json.loads(run("check", DEMO_SCHOOL, "--json", "--html", page).stdout)
    rules = {one["rule"]: one for one in report["local_rules"]}
    assert len(rules) == 6
    assert {one["decision"] for one in rules["two-papers-first"]["items"]} == {"papers"}
    assert rules["eight-minutes-of-neutraliser"]["decisions"].keys() == {"minutes.neutraliser"}
    assert rules["drape-with-a-strip"]["rows"][0]["said_after"].startswith("Glasses")
    piggyback = rules["piggyback-by-name"]
    assert piggyback["rows"][0]["counts_as"] == "double_tool"
    assert {one["difference"]["decision"] for one in piggyback["examples"]} == {"wrap"}
    for one in rules.values():
        assert 0 < one["heads_changed_of_100"] <= 100
        assert 1 <= len(one["examples"]) <= 3
        assert one["examples"][0]["head"]
        assert not one.get("true_ideas")
    assert {one["decision"] for one in report["items_changed"]} == {"papers", "wrap"}
    html = page.read_text(encoding="utf-8")
    assert html.count("<section>") == 6
    for name, one in rules.items():
        assert name in html
        for example in one["examples"]:
            assert escape(example["difference"]["after"], quote=True) in html
    assert not re.search(r"(src|href)=|<script|url\(", html)


def test_a_rule_to_come_is_proved_today(run: Run, tmp_path: Path) -> None:
    """What is refused on its first day is refused now, and the day is named."""
    school = school_with(
        tmp_path,
        until="from: 2099-01-01\n",
        changes="  - op: replace\n    table: verdict\n    row: {id: scalp-broken, when: {scalp: broken}, "
        "then: go, because: x, source: y}\n",
    )
    page = tmp_path / "page.html"
    told = run("check", school, "--html", page, status=1).stderr
    assert "from 2099-01-01 on, the limit " in told
    assert "by the row " in told
    (tmp_path / "file").write_text("")
    told = run("check", school, "--html", tmp_path / "file" / "page.html", status=1).stderr
    assert "page.html: not a directory" in told
    assert "from 2099-01-01 on, the limit " in told
    html = page.read_text(encoding="utf-8")
    assert "Refused: " in html
    assert "from 2099-01-01 on, the limit " in html


def test_rules_begin_and_end_on_so_many_days(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each day to come is checked like today, so there are not hundreds of them."""
    monkeypatch.setattr("drill.cli.check.MOST_DAYS", 1)
    school = school_with(
        tmp_path,
        until="from: 2099-01-01\nuntil: 2099-02-01\n",
        changes="  - {op: set, parameter: papers.everyday, value: double_flat}\n",
    )
    assert run("check", school, status=1).stderr == (
        f"{school}/rules/ours.yaml:1:1: the local rules begin or end on 2 days to come, more than 1; let "
        "them begin and end on the same days\n"
    )


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


def test_rows_are_listed_on_request(run: Run, tmp_path: Path) -> None:
    """Without it they are only counted."""
    (tmp_path / "school.yaml").write_text("name: Ours\n", encoding="utf-8")
    assert "verdict/" not in run("check", tmp_path).stdout
    assert "verdict/" in run("check", tmp_path, "--rows").stdout
