"""A school's folder, its questions, and the book that they are compiled to."""

from datetime import date
from pathlib import Path

import pytest

from drill.load import open as opening
from drill.load.compile import compile_book
from drill.load.open import open_book
from drill.load.school import load_local_decks, load_school
from drill.service.kit import Tool

DAY = date(2026, 11, 25)
RULE = """overlay: {name}
because: We do.
source: House rules
{days}changes:
  - {{op: set, parameter: papers.everyday, value: double_flat}}
"""
DECK = """topic: {topic}
items:
  - {{id: {name}, kind: choose, decision: base_control, zone: any, stem: How?}}
"""


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """A school with a rule in force, one of the past, a question set and a kit."""
    folder = tmp_path / "lindenhof"
    for part in ("rules", "decks"):
        (folder / part).mkdir(parents=True)
    (folder / "school.yaml").write_text("name: Lindenhof (invented)\nexam_date: 20270131\npass_mark: 80 %\n")
    (folder / "kit.yaml").write_text("- {diameter: 12 mm, length: 9 cm, shape: straight, count: 60}\n")
    (folder / "rules" / "a.yaml").write_text(RULE.format(name="two-papers", days="from: 2026-01-01\n"))
    (folder / "rules" / "b.yaml").write_text(RULE.format(name="past", days="until: 2026-01-01\n"))
    (folder / "decks" / "house.yaml").write_text(DECK.format(topic="house_rules", name="house-base"))
    return folder


def test_a_school_states_itself(school, rulebook):
    """Name, day and mark, its rules in the order of their files, its kit."""
    found, problems = load_school(school, rulebook)
    assert problems == []
    assert (found.school.name, found.school.exam_date, found.school.pass_mark) == (
        "Lindenhof (invented)",
        "2027-01-31",
        0.8,
    )
    assert [one.id for one in found.rules] == ["two-papers", "past"]
    assert found.kit.name == "Lindenhof (invented)"
    assert found.kit.tools == (
        Tool(diameter_mm=12.0, rim_diameter_mm=12.0, length_mm=90.0, shape="straight", count=60),
    )


@pytest.mark.parametrize(
    ("mark", "share"), [("75 %", 0.75), ("75%", 0.75), ("0.6", 0.6), ("3/4", 0.75), ("1", 1.0)]
)
def test_a_pass_mark_is_a_share(school, rulebook, mark, share):
    """In per cent or not."""
    (school / "school.yaml").write_text(f"name: A\npass_mark: {mark}\n")
    found, problems = load_school(school, rulebook)
    assert (problems, found.school.pass_mark, found.school.exam_date) == ([], share, "")


def test_a_school_without_more_than_a_name_is_one(school, rulebook):
    """Rules, questions and kit are its own affair."""
    for path in (school / "kit.yaml", *(school / "rules").iterdir()):
        path.unlink()
    found, problems = load_school(school, rulebook)
    assert (problems, found.rules, found.kit) == ([], (), None)


def test_two_rules_that_pull_at_one_row_are_told_with_both_places(school, rulebook):
    """The second removes a row that the first has removed."""
    change = "changes:\n  - {op: remove, table: base_control, row: worn-close}\n"
    for name in "cd":
        (school / "rules" / f"{name}.yaml").write_text(f"overlay: {name}\nbecause: b\nsource: c\n{change}")
    _, problems = load_school(school, rulebook)
    assert [str(one).partition(";")[0] for one in problems] == [
        f"{school}/rules/d.yaml:5:5: the row worn-close of base_control is removed here and at "
        f"{school}/rules/c.yaml:5:5 by the local rule c"
    ]


def test_local_questions_are_read_against_the_rules_in_force(school, rulebook):
    """Their sources are any text."""
    problems = []
    topics, items = load_local_decks(school, rulebook, {}, problems)
    assert problems == []
    assert (topics, [one.id for one in items]) == ({"house_rules": "House rules"}, ["house-base"])
    assert len(items[0].zones) == 9


def test_a_book_has_the_rules_of_its_day(school):
    """Before and after, the key differs."""
    now = compile_book(school, day=DAY)
    assert now.problems == ()
    assert now.book.rulebook.overlays == ("two-papers",)
    assert now.book.rulebook.values["papers.everyday"] == "double_flat"
    assert now.built_in.values["papers.everyday"] == "bookend"
    assert now.proof is not None
    before = compile_book(school, day=date(2025, 6, 1))
    assert before.book.rulebook.overlays == ("past",)


def test_a_local_topic_stands_with_the_built_in_ones(school):
    """A built-in title stays."""
    (school / "decks" / "more.yaml").write_text(DECK.format(topic="base_control", name="more-bases"))
    book = compile_book(school, day=DAY, proved=True).book
    assert book.topics["house_rules"] == "House rules"
    assert book.topics["base_control"] == compile_book(day=DAY, proved=True).book.topics["base_control"]
    assert {"more-bases", "house-base"} <= {item.id for item in book.items}


def test_an_id_that_a_built_in_item_has_is_told(school):
    """With the place of the first."""
    taken = compile_book(day=DAY, proved=True).book.items[0]
    (school / "decks" / "twin.yaml").write_text(DECK.format(topic="house_rules", name=taken.id))
    told = [str(one) for one in compile_book(school, day=DAY, proved=True).problems]
    twin = f"{school}/decks/twin.yaml:3:5: the item id {taken.id} stands twice"
    assert f"{twin}, first at {taken.place}; rename one" in told


def test_the_proof_of_built_in_rules_can_be_left_out_not_that_of_local_ones(school):
    """The built-in ones are proved before they are shipped."""
    assert compile_book(day=DAY, proved=True).proof is None
    assert compile_book(day=DAY).proof.problems == ()
    assert compile_book(school, day=DAY, proved=True).proof is not None


def test_a_book_is_compiled_once_and_then_opened(school, tmp_path, monkeypatch):
    """Until a file changes, or the day."""
    cache = tmp_path / "cache"
    first, problems = open_book(school, day=DAY, cache=cache)
    assert problems == ()
    calls = []
    real = opening.compile_book
    monkeypatch.setattr(
        opening, "compile_book", lambda *args, **values: calls.append(1) or real(*args, **values)
    )
    assert open_book(school, day=DAY, cache=cache) == (first, ())
    assert calls == []
    (school / "school.yaml").write_text("name: Another (invented)\n")
    assert open_book(school, day=DAY, cache=cache)[0].school.name == "Another (invented)"
    open_book(school, day=date(2026, 11, 26), cache=cache)
    assert len(calls) == 2
    assert open_book(school, day=DAY)[0].school.name == "Another (invented)"
    assert len(calls) == 3


def test_a_damaged_copy_is_compiled_again(tmp_path):
    """And mended."""
    cache = tmp_path / "cache"
    first, _ = open_book(None, day=DAY, cache=cache)
    (kept,) = cache.iterdir()
    whole = kept.read_text(encoding="utf-8")
    kept.write_text(whole[: len(whole) // 2], encoding="utf-8")
    assert open_book(None, day=DAY, cache=cache) == (first, ())
    assert kept.read_text(encoding="utf-8") == whole


def test_a_book_with_faults_is_not_kept(school, tmp_path):
    """It is told every time."""
    (school / "school.yaml").write_text("nmae: A\n")
    for _ in range(2):
        _, problems = open_book(school, day=DAY, cache=tmp_path / "cache")
        assert [one.place.line for one in problems] == [1, 1]
    assert not (tmp_path / "cache").exists()


def test_a_cache_that_cannot_be_written_or_a_file_that_cannot_be_read_stops_nobody(tmp_path, monkeypatch):
    """It costs the next start some time, nothing else."""
    (tmp_path / "cache").write_text("a file, not a folder")
    book, problems = open_book(None, day=DAY, cache=tmp_path / "cache")
    assert (bool(book.items), problems) == (True, ())

    def unreadable(_paths):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(opening, "digest_of_files", unreadable)
    assert open_book(None, day=DAY, cache=tmp_path / "other") == (book, ())


def write_rule(school: Path, name: str, changes: str, *, days: str = "") -> None:
    """Write a local rule of some changes."""
    text = f"overlay: {name}\nbecause: b\nsource: c\n{days}changes:\n{changes}"
    (school / "rules" / f"{name}.yaml").write_text(text)


def test_a_rule_may_rest_on_one_before_it(school, rulebook):
    """It sets a row before one that the first has added, and gives a value that the first has added."""
    row = "when: {hair.ends: layered}, because: b, source: c"
    write_rule(
        school,
        "d",
        "  - {op: widen, vocabulary: papers, value: cushion, counts_as: bookend, words: A cushion}\n"
        f"  - {{op: add, table: papers, row: {{id: first-added, then: cushion, {row}}}}}\n",
    )
    write_rule(
        school,
        "e",
        "  - {op: add, table: papers, before: first-added, "
        f"row: {{id: second-added, then: cushion, {row}}}}}\n",
    )
    found, problems = load_school(school, rulebook)
    assert problems == []
    assert [one.id for one in found.rules][-2:] == ["d", "e"]
    assert found.rules[-2].changes[0].words == "A cushion"


def test_rules_that_never_hold_together_are_in_no_conflict(school, rulebook):
    """One ends on the day on which the other begins."""
    name = rulebook.tables["layout"].rows[0].id
    removed = f"  - {{op: remove, table: layout, row: {name}}}\n"
    write_rule(school, "d", removed, days="until: 2027-01-01\n")
    write_rule(school, "e", removed, days="from: 2027-01-01\n")
    found, problems = load_school(school, rulebook)
    assert problems == []
    assert [one.id for one in found.rules][-2:] == ["d", "e"]


def test_a_slip_is_told_as_a_slip_beside_a_conflict(school, rulebook):
    """A rule that cannot be read by itself either is no conflict."""
    name = rulebook.tables["layout"].rows[0].id
    write_rule(school, "d", f"  - {{op: remove, table: layout, row: {name}}}\n")
    write_rule(school, "e", f"  - {{op: remove, table: layout, row: {name}-x}}\n")
    _, problems = load_school(school, rulebook)
    assert [str(one).partition(";")[0] for one in problems] == [
        f"{school}/rules/e.yaml:5:5: layout has no row '{name}-x'"
    ]


def test_a_blueprint_gives_each_topic_its_share(school):
    """Of the school's own topics too."""
    text = "name: A\nblueprint: {base_control: 50 %, house_rules: 0.3, papers: 1/5}\n"
    (school / "school.yaml").write_text(text)
    compiled = compile_book(school, day=DAY, proved=True)
    assert compiled.problems == ()
    assert compiled.book.school.blueprint == {"base_control": 0.5, "house_rules": 0.3, "papers": 0.2}


@pytest.mark.parametrize(
    ("blueprint", "told"),
    [
        ("{base_contrl: 100 %}", "2:13: there is no topic 'base_contrl'; did you mean 'base_control'?"),
        (
            "{base_control: 40 %, papers: 40 %}",
            "2:12: the shares of the blueprint make 80 %, not 100 %; "
            "change them until together they make 100 %",
        ),
        (
            "{base_control: most}",
            "2:27: the share of base_control is no share of the exam: 'most'; "
            "write it as 30 % or 0.3; leave a topic out that is not asked",
        ),
        (
            "{base_control: [1]}",
            "2:27: the share of base_control is no share of the exam: ''; "
            "write it as 30 % or 0.3; leave a topic out that is not asked",
        ),
        ("all", "2:12: 'blueprint' is not written as 'name: value'; write 'name: value' pairs"),
    ],
)
def test_a_blueprint_that_does_not_add_up_is_told(school, blueprint, told):
    """Unknown topics, shares that are none, and a sum that is not the whole."""
    (school / "school.yaml").write_text(f"name: A\nblueprint: {blueprint}\n")
    problems = compile_book(school, day=DAY, proved=True).problems
    assert told in [str(one).removeprefix(f"{school}/school.yaml:") for one in problems]


def test_a_wrong_idea_about_a_row_that_is_gone_is_retired(school, book):
    """Nobody is asked after it, and nothing stumbles over it."""
    about = {
        (change.target, change.row.id if change.row else change.at): one.id
        for one in book.misconceptions
        for change in one.changes
        if change.op in ("replace", "remove")
    }
    (table, row), idea = next(iter(about.items()))
    write_rule(school, "d", f"  - {{op: remove, table: {table}, row: {row}}}\n")
    compiled = compile_book(school, day=DAY, proved=True)
    assert idea in [one.id for one in compiled.retired_ideas]
    assert idea not in compiled.book.beliefs


def test_what_a_school_leaves_out_is_not_in_its_book(school, book):
    """Items and wrong ideas by their ids; an id that is neither is told."""
    item, idea = book.items[0].id, book.misconceptions[0].id
    path = school / "school.yaml"
    path.write_text(f"name: A\nleave_out: [{item}, {idea}]\n", encoding="utf-8")
    compiled = compile_book(school, day=DAY, proved=True)
    assert compiled.problems == ()
    assert compiled.book.item(item) is None
    assert idea not in compiled.book.beliefs
    path.write_text(f"name: A\nleave_out: {item}x\n", encoding="utf-8")
    told = [str(one) for one in compile_book(school, day=DAY, proved=True).problems]
    assert told == [
        f"{path}:2:12: there is no item and no wrong idea '{item}x' to leave out; did you mean '{item}'?"
    ]
