"""A school's folder: its name and exam, its local rules, questions and kit."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from pathlib import Path

from drill.bank.book import School
from drill.bank.item import Item
from drill.basis.length import number_from_text
from drill.basis.problem import Place, Problem, mend_name
from drill.load.consultation import read_kit
from drill.load.decks import read_deck
from drill.load.overlay import MOST_CHANGES, period_of, read_overlay
from drill.load.pictures import SchoolPictures
from drill.load.reading import Fields, Node, texts_of
from drill.load.rows import read_flag
from drill.load.school_files import documents_of, rule_nodes, yaml_files
from drill.rulebook.conflict import conflicts
from drill.rulebook.overlay import Overlay, apply, fits
from drill.rulebook.rulebook import Rulebook
from drill.service.faults import Fault
from drill.service.kit import Kit

SCHOOL_FILE, KIT_FILE = "school.yaml", "kit.yaml"
RULES_FOLDER, DECKS_FOLDER = "rules", "decks"
# A check takes some ten milliseconds for each.
MOST_ITEMS = 1_000
# Shares are often thirds, written with two digits.
_ROUNDING = 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class SchoolFolder:
    """What a school's folder holds.

    Attributes:
        school: Its name, exam and pass mark.
        rules: Local rules in the order of their files, in force or not.
        kit: Its kit, None where it has none.
        blueprint_places: Where each share of the mock exam is written, by topic.
        left_out: Built-in items and wrong ideas that the school does not use, each with where that is said.
    """

    school: School
    rules: tuple[Overlay, ...]
    kit: Kit | None
    blueprint_places: Mapping[str, Place] = field(default_factory=dict)
    left_out: Mapping[str, Place] = field(default_factory=dict)


def load_school(folder: Path, rulebook: Rulebook) -> tuple[SchoolFolder, list[Problem]]:
    """Read a school's folder against the built-in rulebook.

    Args:
        folder: Holds ``school.yaml``, and perhaps ``rules/*.yaml``, ``decks/*.yaml``, ``pictures`` and
            ``kit.yaml``.
        rulebook: The built-in rules.

    Returns:
        What it holds, and every fault found.
    """
    problems: list[Problem] = []
    if not folder.is_dir():
        mend = "name the folder that holds school.yaml"
        return _empty(), [Problem(Place(str(folder)), "there is no such school folder", mend)]
    stated = _Stated()
    before, nodes = len(problems), documents_of(folder / SCHOOL_FILE, problems)
    for node in nodes:
        stated = _read_school(node, problems)
    if not nodes and len(problems) == before:
        problems.append(Problem(Place(str(folder / SCHOOL_FILE)), "the file is empty", "add 'name:'"))
    rules = _read_rules(folder / RULES_FOLDER, rulebook, problems)
    kit = None
    if (folder / KIT_FILE).exists():
        for node in documents_of(folder / KIT_FILE, problems):
            kit = read_kit(node, problems, name=stated.school.name or "kit")
    found = SchoolFolder(
        school=stated.school,
        rules=tuple(rules),
        kit=kit,
        blueprint_places=stated.blueprint_places,
        left_out=stated.left_out,
    )
    return found, problems


def load_local_decks(
    folder: Path,
    rulebook: Rulebook,
    beliefs: dict[str, Overlay],
    problems: list[Problem],
    *,
    faults: Mapping[str, Fault] | None = None,
) -> tuple[dict[str, str], list[Item]]:
    """Read a school's own decks, against the rulebook with its local rules in force.

    Args:
        folder: The school's folder.
        rulebook: The rules in force.
        beliefs: Known misconceptions by id.
        problems: Where faults are gathered.
        faults: What is seen after a service, by id.

    Returns:
        Title by topic, and the items.
    """
    topics, items, pictures = {}, [], SchoolPictures(folder)
    for path in yaml_files(folder / DECKS_FOLDER, problems):
        for node in documents_of(path, problems):
            topic, title, found = read_deck(
                node, rulebook, problems, beliefs=beliefs, faults=faults, local=True, pictures=pictures
            )
            topics[topic] = title
            items += found
            if len(items) > MOST_ITEMS:
                what = f"the question sets have more than {MOST_ITEMS:,} questions"
                problems.append(Problem(items[MOST_ITEMS].place, what, "leave out the ones asked least"))
                return topics, items[:MOST_ITEMS]
    return topics, items


def blueprint_problems(folder: SchoolFolder, topics: Collection[str]) -> list[Problem]:
    """Find the topics of a school's blueprint that no deck has.

    Args:
        folder: The school's folder.
        topics: The topics of all decks, the school's own among them.

    Returns:
        One a topic that nothing could be asked of.
    """
    return [
        Problem(place, f"there is no topic '{topic}'", mend_name(topic, tuple(topics)))
        for topic, place in folder.blueprint_places.items()
        if topic not in topics
    ]


def left_out_problems(folder: SchoolFolder, known: Collection[str]) -> list[Problem]:
    """Find what a school leaves out that is not there.

    Args:
        folder: The school's folder.
        known: Ids of items and wrong ideas.

    Returns:
        One an unknown id.
    """
    return [
        Problem(
            place, f"there is no item and no wrong idea '{name}' to leave out", mend_name(name, tuple(known))
        )
        for name, place in folder.left_out.items()
        if name not in known
    ]


def _read_rules(folder: Path, rulebook: Rulebook, problems: list[Problem]) -> list[Overlay]:
    rules: list[Overlay] = []
    for node in rule_nodes(folder, problems):
        overlay = _read_rule(node, rulebook, rules, problems)
        if overlay is None:
            continue
        found = _twins(overlay, rules) or conflicts(overlay, rules)
        changes = sum(len(one.changes) for one in (*rules, overlay))
        if changes > MOST_CHANGES:
            what = f"the local rules have {changes} changes so far, more than {MOST_CHANGES}"
            found.append(Problem(overlay.place, what, "leave out rules that have ended"))
        problems += found
        if not found:
            rules.append(overlay)
    return rules


def _read_rule(
    node: Node, rulebook: Rulebook, rules: Sequence[Overlay], problems: list[Problem]
) -> Overlay | None:
    """Read a rule against the rules before it that hold together with it: it may rest on them."""
    period, ground = period_of(node), rulebook
    beside = [one for one in rules if one.overlaps(period)]
    for one in beside:
        ground = apply(ground, one) if fits(ground, one) else ground
    faults: list[Problem] = []
    overlay = read_overlay(node, ground, faults, kind="local_rule")
    if overlay is None:
        # What an earlier rule took away is no slip of this one: the two are told as a conflict.
        alone = read_overlay(node, rulebook, [], kind="local_rule")
        if alone is not None and conflicts(alone, beside):
            return alone
    problems += faults
    return overlay


def _twins(overlay: Overlay, rules: Sequence[Overlay]) -> list[Problem]:
    what = f"the local rule {overlay.id} stands twice, first at"
    first = [one.place for one in rules if one.id == overlay.id]
    return [Problem(overlay.place, f"{what} {place}", "rename one") for place in first]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stated:
    """What school.yaml states, with the places of names that are looked up later."""

    school: School = field(default_factory=School)
    blueprint_places: Mapping[str, Place] = field(default_factory=dict)
    left_out: Mapping[str, Place] = field(default_factory=dict)


def _read_school(node: Node, problems: list[Problem]) -> _Stated:
    fields = Fields(node, problems, what="the school")
    name, exam, mark = fields.text("name", required=True), fields.text("exam_date"), fields.text("pass_mark")
    exam_node, mark_node = fields.take("exam_date"), fields.take("pass_mark")
    if exam_node is not None:
        exam = _day(exam, exam_node, problems)
    share = _share(mark)
    if mark_node is not None and (share is None or not 0 < share <= 1):
        problems.append(
            Problem(
                mark_node.place, f"'pass_mark' is no share of the marks: '{mark}'", "write it as 75 % or 0.75"
            )
        )
        share = None
    student_mode = read_flag(fields, "student_mode")
    blueprint, places = _read_blueprint(fields)
    out = fields.take("leave_out")
    left_out = texts_of(out, problems, what="'leave_out'") if out is not None else []
    fields.done()
    school = School(
        name=name,
        exam_date=exam,
        pass_mark=float(share) if share is not None else School().pass_mark,
        student_mode=student_mode,
        blueprint=blueprint,
    )
    return _Stated(
        school=school,
        blueprint_places=places,
        left_out={name: one.place for name, one in left_out},
    )


def _read_blueprint(fields: Fields) -> tuple[dict[str, float], dict[str, Place]]:
    """Read what share of a mock exam each topic has; all of them make the whole."""
    before, shares, places = len(fields.problems), dict[str, float](), dict[str, Place]()
    for topic, node, place in fields.pairs("blueprint"):
        written = node.value if isinstance(node.value, str) else ""
        share = _share(written)
        if share is None or not 0 < share <= 1:
            what = f"the share of {topic} is no share of the exam: '{written}'"
            fields.fault(node, what, "write it as 30 % or 0.3; leave a topic out that is not asked")
            continue
        shares[topic], places[topic] = float(share), place
    total, whole = sum(shares.values()), fields.take("blueprint")
    if whole is not None and len(fields.problems) == before and abs(total - 1) > _ROUNDING:
        what = f"the shares of the blueprint make {round(total * 100, 1):g} %, not 100 %"
        fields.fault(whole, what, "change them until together they make 100 %")
    return shares, places


def _share(text: str) -> Fraction | None:
    """Read a share as per cent or as a part of one; None where it is no number."""
    number = number_from_text(text.strip().removesuffix("%")) if text else None
    return number / 100 if number is not None and text.strip().endswith("%") else number


def _day(text: str, node: Node, problems: list[Problem]) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        problems.append(Problem(node.place, f"'exam_date' is not a day: '{text}'", "write it as 2027-01-31"))
        return ""


def _empty() -> SchoolFolder:
    return SchoolFolder(school=School(), rules=(), kit=None)
