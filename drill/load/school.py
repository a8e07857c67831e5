"""A school's folder: its name and exam, its local rules, questions and kit."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from drill.bank.book import School
from drill.bank.item import Item
from drill.basis.length import number_from_text
from drill.basis.problem import Place, Problem
from drill.load.consultation import read_kit
from drill.load.decks import read_deck
from drill.load.overlay import read_overlay
from drill.load.reading import Fields, Node, read_file
from drill.load.rows import read_flag
from drill.rulebook.overlay import Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.service.kit import Kit

SCHOOL_FILE, KIT_FILE = "school.yaml", "kit.yaml"


@dataclass(frozen=True, slots=True, kw_only=True)
class SchoolFolder:
    """What a school's folder holds.

    Attributes:
        school: Its name, exam and pass mark.
        rules: Local rules in the order of their files, in force or not.
        kit: Its kit, None where it has none.
    """

    school: School
    rules: tuple[Overlay, ...]
    kit: Kit | None


def load_school(folder: Path, rulebook: Rulebook) -> tuple[SchoolFolder, list[Problem]]:
    """Read a school's folder against the built-in rulebook.

    Args:
        folder: Holds ``school.yaml``, and perhaps ``rules/*.yaml``, ``decks/*.yaml`` and ``kit.yaml``.
        rulebook: The built-in rules.

    Returns:
        What it holds, and every fault found.
    """
    problems: list[Problem] = []
    if not folder.is_dir():
        mend = "name the folder that holds school.yaml"
        return _empty(), [Problem(Place(str(folder)), "there is no such school folder", mend)]
    school = School()
    before, nodes = len(problems), _documents(folder / SCHOOL_FILE, problems)
    for node in nodes:
        school = _read_school(node, problems)
    if not nodes and len(problems) == before:
        problems.append(Problem(Place(str(folder / SCHOOL_FILE)), "the file is empty", "add 'name:'"))
    rules: list[Overlay] = []
    for path in sorted((folder / "rules").glob("*.yaml")):
        for node in _documents(path, problems):
            overlay = read_overlay(node, rulebook, problems, kind="local_rule")
            if overlay is None:
                continue
            _refuse_twin(overlay, rules, problems)
            rulebook = apply(rulebook, overlay)  # read against it, so it fits
            rules.append(overlay)
    kit = None
    if (folder / KIT_FILE).exists():
        for node in _documents(folder / KIT_FILE, problems):
            kit = read_kit(node, problems, name=school.name or "kit")
    return SchoolFolder(school=school, rules=tuple(rules), kit=kit), problems


def load_local_decks(
    folder: Path, rulebook: Rulebook, beliefs: dict[str, Overlay], problems: list[Problem]
) -> tuple[dict[str, str], list[Item]]:
    """Read a school's own decks, against the rulebook with its local rules in force.

    Args:
        folder: The school's folder.
        rulebook: The rules in force.
        beliefs: Known misconceptions by id.
        problems: Where faults are gathered.

    Returns:
        Title by topic, and the items.
    """
    topics, items = {}, []
    for path in sorted((folder / "decks").glob("*.yaml")):
        for node in _documents(path, problems):
            topic, title, found = read_deck(node, rulebook, problems, beliefs=beliefs, local=True)
            topics[topic] = title
            items += found
    return topics, items


def _documents(path: Path, problems: list[Problem]) -> list[Node]:
    nodes, faults = read_file(path)
    problems += faults
    return nodes


def _refuse_twin(overlay: Overlay, rules: list[Overlay], problems: list[Problem]) -> None:
    first = next((one for one in rules if one.id == overlay.id), None)
    if first is not None:
        what = f"the local rule {overlay.id} stands twice, first at {first.place}"
        problems.append(Problem(overlay.place, what, "rename one"))


def _read_school(node: Node, problems: list[Problem]) -> School:
    fields = Fields(node, problems, what="the school")
    name, exam, mark = fields.text("name", required=True), fields.text("exam_date"), fields.text("pass_mark")
    exam_node, mark_node = fields.take("exam_date"), fields.take("pass_mark")
    if exam_node is not None:
        exam = _day(exam, exam_node, problems)
    share = number_from_text(mark.removesuffix("%")) if mark else None
    if share is not None and mark.endswith("%"):
        share /= 100
    if mark_node is not None and (share is None or not 0 < share <= 1):
        problems.append(
            Problem(
                mark_node.place, f"'pass_mark' is no share of the marks: '{mark}'", "write it as 75 % or 0.75"
            )
        )
        share = None
    student_mode = read_flag(fields, "student_mode")
    fields.take("blueprint")
    fields.done()
    return School(
        name=name,
        exam_date=exam,
        pass_mark=float(share) if share is not None else School().pass_mark,
        student_mode=student_mode,
    )


def _day(text: str, node: Node, problems: list[Problem]) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        problems.append(Problem(node.place, f"'exam_date' is not a day: '{text}'", "write it as 2027-01-31"))
        return ""


def _empty() -> SchoolFolder:
    return SchoolFolder(school=School(), rules=(), kit=None)
