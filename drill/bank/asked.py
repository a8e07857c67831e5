"""What a book asks: the rows, wrong ideas, places and limits that a sample of its questions turns on.

Nothing here is listed by hand. Questions are made of every item, and what they rest on is gathered; what is
left is a gap, which is told with its place.
"""

from collections.abc import Callable, Iterable, Sequence, Set
from dataclasses import dataclass
from typing import Literal

from drill.bank.book import Book
from drill.bank.coverage import RowReach
from drill.bank.item import Item
from drill.bank.looked import SEEDS
from drill.bank.make import QuestionMaker
from drill.bank.question import Question
from drill.bank.touched import row_name
from drill.basis.problem import NOWHERE, Place
from drill.service.ask_first import VERDICT
from drill.service.zones import ZONE_NAMES

# Two questions of each item are looked at as they read; further ones are made only of items that could still
# ask what nobody has asked.
FIRST_SEEDS = SEEDS
MORE_SEEDS = tuple(range(3, 15))

What = Literal["row", "misconception", "zone", "limit"]
Progress = Callable[[int], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Something that no question asks.

    Attributes:
        what: What it is.
        name: ``decision/row``, or the name of the wrong idea, the zone or the limit.
        place: Where it is written; nowhere for a zone.
        scenario: Of a row whether wrong ideas reach two other values on one head, so that a scenario can
            ask it; else a fact has to name it.
    """

    what: What
    name: str
    place: Place = NOWHERE
    scenario: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """How much of something is asked.

    Attributes:
        what: What it is.
        asked: How many are asked.
        count: How many there are.
    """

    what: What
    asked: int
    count: int

    @property
    def percent(self) -> float:
        """The share that is asked, 0 to 100; 100 where there is nothing to ask."""
        return 100 * self.asked / self.count if self.count else 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a sample of a book's questions asks.

    Attributes:
        questions: The questions, in the order made.
        silent: Items of which no question could be made.
        shares: How much is asked of rows, wrong ideas, zones and limits.
        gaps: What is not asked, in the order in which it is written.
    """

    questions: tuple[Question, ...] = ()
    silent: tuple[Item, ...] = ()
    shares: tuple[Share, ...] = ()
    gaps: tuple[Gap, ...] = ()


def what_is_asked(
    maker: QuestionMaker,
    *,
    items: Sequence[Item] | None = None,
    reach: Sequence[RowReach] = (),
    progress: Progress | None = None,
) -> Asked:
    """Sample the questions of a book until all is asked, or enough have been made.

    Args:
        maker: Makes the book's questions.
        items: The items of a school, and those about what its rules change: then only rows of its rules are
            looked for, since all else was asked before. All items of the book where left out.
        reach: What wrong ideas reach, a row each; a row left out counts as one for a fact.
        progress: Called with the number of questions made so far, after each round.

    Returns:
        The same for the same book: what is asked, and what is not.
    """
    book, made, spoke = maker.book, list[Question](), set[str]()
    sampled, left = book.items if items is None else items, _all_of(book)
    if items is not None:
        left = {key: place for key, place in left.items() if _is_of_a_local_rule(book, *key)}
    everything = dict(left)
    for seed in (*FIRST_SEEDS, *MORE_SEEDS):
        for item in sampled if seed in FIRST_SEEDS else _worth_asking(book, sampled, left):
            question = maker.make(item, seed)
            if question is not None:
                made.append(question)
                spoke.add(item.id)
                for touched in _touched(question):
                    left.pop(touched, None)
        if progress is not None:
            progress(len(made))
    scenario = {row_name(one.decision, one.row) for one in reach if one.askable}
    return Asked(
        questions=tuple(made),
        silent=tuple(item for item in sampled if item.id not in spoke),
        shares=_shares(everything, left),
        gaps=tuple(
            Gap(what=what, name=name, place=place, scenario=what == "row" and name in scenario)
            for (what, name), place in left.items()
        ),
    )


def _all_of(book: Book) -> dict[tuple[What, str], Place]:
    """Name all that is to be asked, with its place; lists are no question's key and are left out."""
    rows: dict[tuple[What, str], Place] = {
        ("row", row_name(table.decision, row.id)): row.place
        for table in book.rulebook.tables.values()
        if table.hit != "collect"
        for row in table.rows
    }
    ideas: dict[tuple[What, str], Place] = {
        ("misconception", one.id): one.place for one in book.misconceptions
    }
    zones: dict[tuple[What, str], Place] = {("zone", zone): NOWHERE for zone in ZONE_NAMES}
    limits: dict[tuple[What, str], Place] = {
        ("limit", limit.id): limit.place for limit in book.rulebook.limits
    }
    return {**rows, **ideas, **zones, **limits}


def items_of_school(book: Book, built_in: Set[str]) -> tuple[Item, ...]:
    """Choose what is asked anew under a school's rules.

    Args:
        book: The school's book.
        built_in: The ids of the built-in items.

    Returns:
        The school's own items, and the built-in ones about a decision whose rows its rules have written.
    """
    written = {
        table.decision for table in book.rulebook.tables.values() if any(row.set_by for row in table.rows)
    }
    return tuple(item for item in book.items if item.id not in built_in or written & _decisions(item))


def _touched(question: Question) -> Iterable[tuple[What, str]]:
    for row in question.rows:
        yield "row", row
    for limit in question.limits:
        yield "limit", limit
    for option in question.options:
        for idea in option.misconceptions:
            yield "misconception", idea
    if question.zone is not None:
        yield "zone", question.zone
    if question.answer_as == "place":
        for option in question.options:
            yield "zone", str(option.value)


def _is_of_a_local_rule(book: Book, what: What, name: str) -> bool:
    decision, _, row_id = name.partition("/")
    row = book.rulebook.tables[decision].row(row_id) if what == "row" else None
    return row is not None and bool(row.set_by)


def _worth_asking(book: Book, items: Sequence[Item], left: Iterable[tuple[What, str]]) -> list[Item]:
    """Keep the items that may still ask what is left: those about a decision that it is about."""
    limits = {limit.id: limit for limit in book.rulebook.limits}
    about: set[str] = set()
    at_stake: set[str] = set()
    for what, name in left:
        if what == "row":
            about.add(name.partition("/")[0])
        elif what == "limit":
            at_stake |= limits[name].never.keys()
        elif what == "misconception":
            about |= {change.target for change in book.beliefs[name].changes}
    zones = {name for what, name in left if what == "zone"}
    return [
        item
        for item in items
        if not item.is_fact
        and (
            about & _decisions(item)
            # To ask for one fact before another breaks no limit.
            or (at_stake & _decisions(item) and item.kind != "ask_next")
            or zones & {*item.zones}
        )
    ]


def _decisions(item: Item) -> set[str]:
    """Name the decisions that an item's questions may turn on."""
    return {item.decision, *item.parts, *([VERDICT] if item.kind == "ask_next" else [])}


def _shares(everything: Iterable[tuple[What, str]], left: Iterable[tuple[What, str]]) -> tuple[Share, ...]:
    whole, rest = [what for what, _ in everything], [what for what, _ in left]
    return tuple(
        Share(what=what, asked=whole.count(what) - rest.count(what), count=whole.count(what))
        for what in dict.fromkeys(whole)
    )
