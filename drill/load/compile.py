"""Everything that is written in YAML, to one checked book."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from drill.bank.book import Book, School
from drill.bank.item import Item
from drill.basis.problem import Problem
from drill.load.blame import blame_changes
from drill.load.blueprint import BLUEPRINT_FILE, load_blueprint
from drill.load.decks import read_deck, refuse_twins
from drill.load.faults import load_faults
from drill.load.overlay import read_overlay
from drill.load.reading import Fields, Node, read_file
from drill.load.rulebook import RULES, load_rulebook
from drill.load.school import (
    SchoolFolder,
    blueprint_problems,
    left_out_problems,
    load_local_decks,
    load_school,
)
from drill.rulebook.boxes import Work
from drill.rulebook.overlay import Overlay, assemble, fits
from drill.rulebook.proof import Proof, prove
from drill.rulebook.rulebook import Rulebook
from drill.service.facts import FACTS
from drill.service.kept_words import lost_words

_PACKAGE = Path(__file__).parent.parent
_BESIDE, _INSIDE = _PACKAGE.parent / "decks", _PACKAGE / "decks"
# A checkout has its decks beside the package, an installed copy inside it.
DECKS = _INSIDE if _INSIDE.is_dir() else _BESIDE


@dataclass(frozen=True, kw_only=True)
class Compiled:
    """A book, and what compiling it found.

    Attributes:
        book: The book; not to be used where there are problems.
        built_in: The rulebook without local rules.
        school: The school's folder; None where there is none.
        problems: Every fault, sorted by place.
        proof: Proof of the rulebook with its local rules; None where faults kept it from being proved.
        retired: Built-in items that are not asked, since a local rule took their row away, or wrote the row
            that a fact names.
        retired_ideas: Wrong ideas about something that a local rule took away.
    """

    book: Book
    built_in: Rulebook
    school: SchoolFolder | None
    problems: tuple[Problem, ...]
    proof: Proof | None
    retired: tuple[Item, ...] = ()
    retired_ideas: tuple[Overlay, ...] = ()


def compile_book(
    school: Path | None = None,
    *,
    day: date,
    rules: Path = RULES,
    decks: Path = DECKS,
    proved: bool = False,
    work: Work | None = None,
) -> Compiled:
    """Compile rulebook, misconceptions, decks and a school's local files.

    Args:
        school: The school's folder; None for none.
        day: The day for which local rules are in force.
        rules: Folder of the built-in rulebook.
        decks: Folder of the built-in decks.
        proved: Whether to leave out the proof of a rulebook without local rules, which is proved before it
            is shipped.
        work: What the proof may take, for whoever compiles for several days; as much as one may take where
            left out.

    Returns:
        The book with every fault found.
    """
    built_in, problems = load_rulebook(rules)
    beliefs = load_misconceptions(rules / "misconceptions", built_in, problems)
    folder, rulebook = None, built_in
    if school is not None:
        folder, faults = load_school(school, built_in)
        problems += faults
        rulebook, faults = assemble(built_in, folder.rules, day=day)
        problems += [*faults, *lost_words(built_in, rulebook)]
    seen, faults = load_faults(built_in, path=rules / "faults.yaml")
    problems += faults
    topics: dict[str, str] = {}
    items: list[Item] = []
    known_faults = {one.id: one for one in seen}
    for path in sorted(decks.glob("*.yaml")):
        for node in _documents(path, problems) if path.name != BLUEPRINT_FILE else ():
            topic, title, found = read_deck(node, built_in, problems, beliefs=beliefs, faults=known_faults)
            topics[topic] = title
            items += found
    blueprint = load_blueprint(decks / BLUEPRINT_FILE, built_in, topics, problems)
    if school is not None:
        local_topics, local_items = load_local_decks(school, rulebook, beliefs, problems, faults=known_faults)
        topics = {**local_topics, **topics}
        items += local_items
    if folder is not None:
        problems += blueprint_problems(folder, topics)
    refuse_twins(items, problems)
    # A local rule may take away the very row that a built-in item asks for, or decide it otherwise.
    retired = tuple(item for item in items if _lost_its_row(item, rulebook))
    items = [item for item in items if item not in retired]
    ideas = sorted(beliefs.values(), key=lambda one: one.id)
    if folder is not None:
        known = [item.id for item in (*items, *retired)] + [one.id for one in ideas]
        problems += left_out_problems(folder, known)
        items = [item for item in items if item.id not in folder.left_out]
        ideas = [one for one in ideas if one.id not in folder.left_out]
    retired_ideas = tuple(one for one in ideas if not fits(rulebook, one))
    proof = None
    if not problems and not (proved and not rulebook.overlays):
        work = work or Work()
        proof = prove(rulebook, facts=FACTS, idle_is_fault=not rulebook.overlays, work=work)
        rules_given = folder.rules if folder else ()
        problems += blame_changes(proof.problems, built_in, rules_given, day=day, work=work)
    book = Book(
        rulebook=rulebook,
        misconceptions=tuple(one for one in ideas if one not in retired_ideas),
        items=tuple(items),
        topics=topics,
        school=folder.school if folder else School(),
        blueprint=blueprint,
        faults=seen,
    )
    return Compiled(
        book=book,
        built_in=built_in,
        school=folder,
        problems=tuple(sorted(set(problems))),
        proof=proof,
        retired=retired,
        retired_ideas=retired_ideas,
    )


def _lost_its_row(item: Item, rulebook: Rulebook) -> bool:
    table = rulebook.tables.get(item.decision)
    if item.row and table is not None and table.row(item.row) is None:
        return True
    # The key of a fact is written, so it may be wrong once a local rule writes the row that it names.
    return any(_is_rewritten(name, rulebook) for name in item.about_rows)


def _is_rewritten(name: str, rulebook: Rulebook) -> bool:
    decision, _, row_id = name.partition("/")
    row = rulebook.tables[decision].row(row_id)
    return row is None or bool(row.set_by)


def load_misconceptions(folder: Path, rulebook: Rulebook, problems: list[Problem]) -> dict[str, Overlay]:
    """Read every misconception of a folder.

    Args:
        folder: Holds YAML files with a list ``misconceptions``.
        rulebook: The built-in rules.
        problems: Where faults are gathered.

    Returns:
        By id.
    """
    found: dict[str, Overlay] = {}
    for path in sorted(folder.glob("*.yaml")):
        for node in _documents(path, problems):
            fields = Fields(node, problems, what="the file")
            for one in fields.items("misconceptions", required=True):
                overlay = read_overlay(one, rulebook, problems, kind="misconception")
                if overlay is None:
                    continue
                if overlay.id in found:
                    what = f"the misconception {overlay.id} stands twice, first at {found[overlay.id].place}"
                    problems.append(Problem(one.place, what, "rename one"))
                found[overlay.id] = overlay
            fields.done()
    return found


def _documents(path: Path, problems: list[Problem], *, shown: Callable[[Path], str] = str) -> list[Node]:
    nodes, faults = read_file(path, shown=shown(path))
    problems += faults
    return nodes
