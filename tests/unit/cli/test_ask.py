"""``wavedrill ask``: questions with their key."""

import json
from collections.abc import Callable
from pathlib import Path

from click.testing import Result

from drill.bank.book import Book
from drill.cli.demo import DEMO_SCHOOL

Run = Callable[..., Result]


def test_json_is_a_list_of_questions_with_one_key_each(run: Run) -> None:
    """Seeds run on from the one given; every wrong option has an explanation."""
    questions = json.loads(run("ask", "--json", "-n", 8, "--seed", 40).stdout)
    assert [one["seed"] for one in questions] == list(range(40, 48))
    for one in questions:
        right = [option["id"] for option in one["options"] if option["correct"]]
        assert right == [one["answer"]]
        assert all(option["explanation"] for option in one["options"])


def test_the_same_seed_gives_the_same_questions(run: Run) -> None:
    """Twice the same command, twice the same text; another seed, another text."""
    first, again, other = (run("ask", "-n", 5, "--seed", seed).stdout for seed in (3, 3, 4))
    assert first == again
    assert first != other


def test_a_run_goes_round_the_topics(run: Run, book: Book) -> None:
    """As many questions as topics see every topic once, in deck order."""
    topics = list(book.topics)
    questions = json.loads(run("ask", "--json", "-n", len(topics)).stdout)
    assert [one["topic"] for one in questions] == topics


def test_one_item_with_rising_seeds(run: Run, book: Book) -> None:
    """All questions are of that item."""
    item = next(one for one in book.items if one.decision)
    questions = json.loads(run("ask", "--json", "--item", item.id, "-n", 3).stdout)
    assert {one["item"] for one in questions} == {item.id}
    assert len({one["seed"] for one in questions}) == 3


def test_a_question_can_be_planned_again(run: Run) -> None:
    """The head of a question is complete enough for plan, which decides the same as the key."""
    questions = [one for one in json.loads(run("ask", "--json", "-n", 12).stdout) if one["decision"]]
    assert questions
    stdin = "\n".join(f"---\n{json.dumps(one['consultation'])}" for one in questions)
    plans = [json.loads(line) for line in run("plan", "-", "--json", stdin=stdin).stdout.splitlines()]
    for question, plan in zip(questions, plans, strict=True):
        key = next(option["value"] for option in question["options"] if option["correct"])
        traced = {(one["decision"], one["zone"]): one["value"] for one in plan["trace"]}
        assert traced[question["decision"], question["zone"] or "none"] == key


def test_unknown_names_offer_the_nearest(run: Run, book: Book) -> None:
    """A misspelt topic or item is wrong usage."""
    topic, item = next(iter(book.topics)), book.items[0].id
    assert f"did you mean '{topic}'?" in run("ask", "--topic", f"{topic}s", status=2).stderr
    assert f"did you mean '{item}'?" in run("ask", "--item", f"{item}s", status=2).stderr


def test_a_school_adds_its_questions_and_turns_keys(run: Run) -> None:
    """The house rule is asked, and its text marks the key."""
    result = run("ask", "--topic", "house_rules", "--school", DEMO_SCHOOL)
    assert "lindenhof-unsigned-stop" in result.stdout
    (marked,) = (line for line in result.stdout.splitlines() if line.startswith(" * "))
    assert "Wait at the stop" in marked


def test_numbers_out_of_range_are_wrong_usage(run: Run) -> None:
    """No question at all, and a seed below nothing."""
    run("ask", "-n", 0, status=2)
    run("ask", "--seed", -1, status=2)


def test_an_item_without_a_head_is_said(run: Run, tmp_path: Path) -> None:
    """No head asks for little lift and has its row on lift decide: status 1, and how many were made."""
    (tmp_path / "decks").mkdir()
    (tmp_path / "school.yaml").write_text("name: Somewhere (invented)\n")
    (tmp_path / "decks" / "own.yaml").write_text(
        "topic: own\nitems:\n  - {id: never-asked, kind: choose, decision: base_control, zone: top,\n"
        "     row: lift-on-sound-hair, vary: {wish.root_volume: low}, stem: Which base?}\n"
    )
    result = run("ask", "--item", "never-asked", "-n", 2, "--json", "--school", tmp_path, status=1)
    assert result.stdout.strip() == "[]"
    assert "0 of 2 questions could be made" in result.stderr


def test_a_school_with_faults_asks_nothing(run: Run, tmp_path: Path) -> None:
    """The fault is told instead."""
    (tmp_path / "school.yaml").write_text("nme: Somewhere\n")
    result = run("ask", "--school", tmp_path, status=1)
    assert result.stdout == ""
    assert "school.yaml:1:1: " in result.stderr


def test_a_worksheet_is_written_in_place_of_the_questions(run, tmp_path):
    """With its answers; the same seed prints the same sheet."""
    target = tmp_path / "sheet.html"
    result = run("ask", "-n", 4, "--seed", 5, "--html", target)
    assert result.stdout == ""
    assert f"Written: {target}" in result.stderr
    text = target.read_text()
    assert "Worksheet: 4 questions" in text
    assert "Answers, and why" in text
    run("ask", "-n", 4, "--seed", 5, "--html", target)
    assert target.read_text() == text


def test_a_worksheet_can_be_written_beside_the_json(run, tmp_path):
    """Both of the same questions."""
    target = tmp_path / "sheet.html"
    asked = json.loads(run("ask", "-n", 2, "--seed", 5, "--json", "--html", target).stdout)
    assert len(asked) == 2
    assert "Worksheet: 2 questions" in target.read_text()


def test_a_worksheet_that_cannot_be_written_is_told(run, tmp_path):
    """With the place."""
    told = run("ask", "--html", tmp_path, status=1).stderr
    assert "cannot write the file" in told
    assert str(tmp_path) in told
