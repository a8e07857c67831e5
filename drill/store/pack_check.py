"""Hold a pack's book against this version's own, since a digest says only that nothing changed on the way.

Names, values and limits must be this version's own; a local rule may have changed rows and parameters and
added values that count as built-in ones. Then the limits are proved on the pack's rules as on a local rule.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import chain
from typing import TypeVar

from drill.bank.blueprint import Blueprint
from drill.bank.book import Book
from drill.basis.plain import to_plain
from drill.basis.problem import Place
from drill.basis.words import say
from drill.rulebook.domain import Domain
from drill.rulebook.overlay import fits
from drill.rulebook.parameter import Parameter
from drill.rulebook.proof import prove
from drill.rulebook.table import Table
from drill.service.facts import FACTS
from drill.service.kept_words import lost_words
from drill.service.kit import SHAPES, Kit
from drill.store.pack_item import is_item_sound
from drill.store.pack_row import is_row_sound

# What is proved takes time by its rows: the longest built-in table has some 50.
MOST_ROWS = 100
MOST_VALUES = 60
_MOST_MM, _MOST_TOOLS, _MOST_ASKED = 1_000.0, 1_000, 1_000
Named = TypeVar("Named")


@dataclass(frozen=True, slots=True)
class Unsound:
    """Why a pack's book is not used.

    Attributes:
        what: What is the matter.
        is_broken: Whether no version could use it; otherwise another version may have made it so.
    """

    what: str
    is_broken: bool = False


def what_is_unsound(
    book: Book, kit: Kit | None, good_until: str, *, built_in: Book, is_proved: bool = False
) -> Unsound | None:
    """Find the first thing for which a pack's book is not used.

    Args:
        book: The pack's book.
        kit: The pack's tools; None where it has none.
        good_until: The pack's last day.
        built_in: This version's own book.
        is_proved: Whether its limits were proved before.

    Returns:
        What is the matter; None where the book can be used.
    """
    found = next(chain(_strange(book, built_in), _broken(book, kit, good_until)), None)
    if found is not None or is_proved:
        return found
    problems = prove(book.rulebook, facts=FACTS, idle_is_fault=False, look_for_idle=False).problems
    if problems:
        what = say("the pack's rules cannot be used: {what}", what=problems[0].what)
        return Unsound(what, is_broken=True)
    return None


def _strange(book: Book, built_in: Book) -> Iterator[Unsound]:
    """Give what a version with other names or limits would have made otherwise."""
    ours, theirs = built_in.rulebook, book.rulebook
    if [_plain(one) for one in theirs.limits] != [_plain(one) for one in ours.limits]:
        yield Unsound(say("its safety limits"))
    if lost_words(ours, theirs, all_rows=True):
        yield Unsound(say("the words of its cautions"))
    if not _are_alike(theirs.domains, ours.domains, _is_domain_ours):
        yield Unsound(say("the facts it knows of a head"))
    if not _are_alike(theirs.tables, ours.tables, _is_table_ours):
        yield Unsound(say("the decisions it takes"))
    if not _are_alike(theirs.parameters, ours.parameters, _is_parameter_ours):
        yield Unsound(say("the numbers it reckons with"))
    ideas = {one.id: _plain(one) for one in built_in.misconceptions}
    if any(_plain(one) != ideas.get(one.id) for one in book.misconceptions):
        yield Unsound(say("the wrong ideas it knows"))
    if [_plain(one) for one in book.faults] != [_plain(one) for one in built_in.faults]:
        yield Unsound(say("what can be seen after a service"))


def _broken(book: Book, kit: Kit | None, good_until: str) -> Iterator[Unsound]:
    """Give what no version wrote."""
    rules, beliefs = book.rulebook, book.beliefs
    for table in rules.tables.values():
        ids = {row.id for row in table.rows}
        if len(ids) < len(table.rows) or not all(is_row_sound(row, table, rules) for row in table.rows):
            yield _inside(table.decision)
    for item in book.items:
        if not is_item_sound(item, book):
            yield _inside(item.id)
    if len({item.id for item in book.items}) < len(book.items) or len(beliefs) < len(book.misconceptions):
        yield _inside("items")
    if not all(fits(rules, one) for one in book.misconceptions):
        yield _inside("misconceptions")
    if not (_is_day(good_until) and _is_school_sound(book)):
        yield _inside("school")
    if not _is_blueprint_sound(book.blueprint):
        yield _inside("blueprint")
    if kit is not None and not _is_kit_sound(kit):
        yield _inside("kit")


def _inside(name: str) -> Unsound:
    return Unsound(
        say("the book inside the pack does not hold together at '{name}'", name=name[:60]), is_broken=True
    )


def _plain(value: object) -> object:
    return to_plain(value, without=Place)


def _are_alike(
    theirs: Mapping[str, Named], ours: Mapping[str, Named], is_ours: Callable[[Named, Named], bool]
) -> bool:
    return list(theirs) == list(ours) and all(is_ours(one, ours[name]) for name, one in theirs.items())


def _is_domain_ours(theirs: Domain, ours: Domain) -> bool:
    if not _is_widened(theirs.values, ours.values, theirs.counts_as, theirs.words):
        return False
    bare = replace(theirs, values=ours.values, counts_as=ours.counts_as, words=ours.words)
    return _plain(bare) == _plain(ours)


def _is_table_ours(theirs: Table, ours: Table) -> bool:
    if not _is_widened(theirs.gives, ours.gives, theirs.counts_as, theirs.words):
        return False
    bare = replace(theirs, gives=ours.gives, counts_as=ours.counts_as, words=ours.words, rows=ours.rows)
    return len(theirs.rows) <= MOST_ROWS and _plain(bare) == _plain(ours)


def _is_widened(
    theirs: tuple[str, ...], ours: tuple[str, ...], counts_as: Mapping[str, str], words: Mapping[str, str]
) -> bool:
    """Tell whether values are ours in our order, and the others each count as one of ours."""
    added = {value for value in theirs if value not in ours}
    return (
        tuple(value for value in theirs if value in ours) == ours
        and len(set(theirs)) == len(theirs) <= MOST_VALUES
        and set(counts_as) == added
        and set(counts_as.values()) <= set(ours)
        and set(words) <= added
    )


def _is_parameter_ours(theirs: Parameter, ours: Parameter) -> bool:
    value = theirs.value
    if ours.choices:
        may = value in ours.choices
    else:
        low, high = (
            (-math.inf if ours.low is None else ours.low),
            (math.inf if ours.high is None else ours.high),
        )
        may = not isinstance(value, str) and (value == ours.value or low <= value <= high)
    return may and _plain(replace(theirs, value=ours.value, set_by=ours.set_by)) == _plain(ours)


def _is_day(text: str) -> bool:
    try:
        return not text or date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _is_school_sound(book: Book) -> bool:
    school = book.school
    shares = school.blueprint
    return (
        _is_day(school.exam_date)
        and 0 < school.pass_mark <= 1
        and set(shares) <= set(book.topics)
        and all(0 <= share <= 1 for share in shares.values())
    )


def _is_blueprint_sound(blueprint: Blueprint) -> bool:
    outline = blueprint.outline
    return (
        0 < outline.items <= _MOST_ASKED
        and 0 < outline.minutes <= _MOST_ASKED
        and all(0 <= weight <= _MOST_ASKED for weight in blueprint.weights.values())
    )


def _is_kit_sound(kit: Kit) -> bool:
    return bool(kit.tools) and all(
        0 < tool.diameter_mm <= tool.rim_diameter_mm <= _MOST_MM
        and 0 < tool.length_mm <= _MOST_MM
        and tool.shape in SHAPES
        and 0 <= tool.count <= _MOST_TOOLS
        for tool in kit.tools
    )
