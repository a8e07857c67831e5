"""What a book asks and what not: found by asking it."""

from dataclasses import replace

import pytest

from drill.bank.asked import Share, items_of_school, what_is_asked
from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.coverage import RowReach
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker

FACT = Item(
    id="fact",
    topic="t",
    kind="choose",
    stem="Which?",
    answer="this",
    wrong=(Wrong(text="that", misconception="cut-always-comes-first"), Wrong(text="neither")),
    because="So it is.",
    source="common practice",
    about=("cut/shape-after-layers", "limits/perm-carries-first-aid"),
)


@pytest.fixture(scope="module")
def small(book):
    """Ask a book of a few items."""

    def ask(*items: Item, **options):
        small_book = Book(
            rulebook=book.rulebook, misconceptions=book.misconceptions, items=items, topics={"t": "T"}
        )
        return what_is_asked(QuestionMaker(Beliefs(small_book)), **options)

    return ask


def _left(asked, what):
    return {gap.name for gap in asked.gaps if gap.what == what}


def test_fact_asks_what_it_names(small):
    """Its rows, its limits and its wrong ideas; all else is a gap with its place."""
    asked = small(FACT)
    assert "cut/shape-after-layers" not in _left(asked, "row")
    assert "cut/cut-then-measure" in _left(asked, "row")
    assert "perm-carries-first-aid" not in _left(asked, "limit")
    assert "cut-always-comes-first" not in _left(asked, "misconception")
    assert _left(asked, "zone") == {
        "top", "left_side", "right_side", "back_left", "back_center", "back_right", "nape_left",
        "nape_center", "nape_right",
    }  # fmt: skip
    assert all(gap.place.line for gap in asked.gaps if gap.what != "zone")
    assert {share.what: share.asked for share in asked.shares} == {
        "row": 1,
        "misconception": 1,
        "zone": 0,
        "limit": 1,
    }


def test_rows_of_lists_are_never_a_key(small, rulebook):
    """Cautions, steps and their like are left out of the count."""
    asked = small(FACT)
    count = next(share.count for share in asked.shares if share.what == "row")
    assert count == sum(len(one.rows) for one in rulebook.tables.values() if one.hit != "collect")


def test_scenarios_ask_their_row_their_zone_and_limits(small, make_item):
    """A place is a zone too; seeds go on as long as an item may ask what is left."""
    base = make_item(
        "base_control",
        row="everyday-half-off",
        zones=("top",),
        vary={"wish.root_volume": ("moderate",), "hair.growth": ("whorl", "none")},
    )
    where = make_item(
        "roll_direction",
        kind="locate",
        id="where",
        zones=("top", "left_side", "right_side", "nape_left"),
        wanted=("forward",),
        vary={"wish.wear": ("forward", "back", "down")},
    )
    counts = []
    asked = small(base, where, progress=counts.append)
    assert "base_control/everyday-half-off" not in _left(asked, "row")
    assert not {"top"} & _left(asked, "zone")
    assert len(_left(asked, "zone")) <= 7
    assert counts == sorted(counts)
    assert len(asked.questions) == counts[-1] > 4
    assert asked == small(base, where)


def test_item_of_which_no_question_can_be_made_is_named(small, make_item):
    """A row that never decides on the heads of its item."""
    never = make_item(
        "wrap", row="ringlets-need-one-diameter", zones=("top",), vary={"wish.look": ("waves",)}
    )
    asked = small(FACT, never)
    assert [item.id for item in asked.silent] == [never.id]


def test_missing_fact_asks_the_rows_that_its_answers_bring(small, make_item):
    """Of the verdict, those that turn on that fact."""
    item = make_item(
        "",
        id="next",
        kind="ask_next",
        vary={"scalp": ("unknown",), "history.known": ("unknown",), "health.treatment": ("unknown",)},
    )
    asked = small(item)
    named = {row for question in asked.questions for row in question.rows}
    assert {"verdict/scalp-broken", "verdict/scalp-irritated"} & named
    assert all(row.startswith("verdict/") for row in named)


def test_gap_tells_whether_a_scenario_could_ask_it(small):
    """By what wrong ideas reach; a row that nothing is known of is one for a fact."""
    reach = (RowReach(decision="cut", row="cut-then-measure", reached={"a": ("x",), "b": ("y",)}),)
    gaps = {gap.name: gap.scenario for gap in small(FACT, reach=reach).gaps}
    assert gaps["cut/cut-then-measure"] is True
    assert gaps["cut/weak-ends-off-first"] is False


def test_share_of_nothing_is_whole():
    """A school without limits has asked all of them."""
    assert Share(what="limit", asked=0, count=0).percent == 100
    assert Share(what="row", asked=1, count=4).percent == 25


@pytest.mark.long
def test_the_built_in_book_asks_all_of_its_rules(maker):
    """Every row of a decision, every wrong idea, zone and limit, and no item is silent."""
    asked = what_is_asked(maker)
    assert asked.gaps == ()
    assert asked.silent == ()
    assert all(share.percent == 100 for share in asked.shares)


def test_an_ordinary_part_of_the_built_in_book_asks_its_own_rows(maker, book):
    """Two of the items of each kind, with one seed: each names rows or says what it is about."""
    seen = {}
    for item in book.items:
        if seen.setdefault(item.kind, 0) < 2 and not item.is_fact:
            seen[item.kind] += 1
            question = maker.make(item, 1)
            assert question is not None, item.id
            known = {f"{one.decision}/{row.id}" for one in book.rulebook.tables.values() for row in one.rows}
            assert {*question.rows} <= known
            assert {*question.limits} <= {limit.id for limit in book.rulebook.limits}
            if item.row:
                assert question.rows
    assert len(seen) == 9


def test_counts_hold_the_bank_to_its_size(book):
    """Decisions to hold, items, facts among them, and topics."""
    facts = sum(item.is_fact for item in book.items)
    assert len(book.skills) >= 220
    assert len(book.items) >= 320
    assert facts <= len(book.items) / 3
    assert len(book.topics) == 13


def test_item_names_rows_and_limits_apart():
    """``limits/`` stands before the id of a limit."""
    assert FACT.about_rows == ("cut/shape-after-layers",)
    assert FACT.about_limits == ("perm-carries-first-aid",)
    assert replace(FACT, about=()).about_rows == ()


def test_school_is_asked_about_its_own(book, make_item):
    """Its items, and the built-in ones about a decision that its rules write; rows of its rules alone."""
    table = book.rulebook.tables["papers"]
    row = table.row("double-for-layered-ends")
    rows = tuple(replace(one, set_by="ours") if one is row else one for one in table.rows)
    rulebook = book.rulebook.with_table(replace(table, rows=rows))
    built_in = make_item("papers", id="layers", row=row.id, zones=("top",), vary={"hair.ends": ("layered",)})
    other = make_item("wrap", id="other", zones=("top",))
    school = Book(
        rulebook=rulebook,
        misconceptions=book.misconceptions,
        items=(built_in, other, FACT),
        topics={"t": "T"},
    )
    items = items_of_school(school, {"layers", "other"})
    assert [item.id for item in items] == ["layers", "fact"]
    maker = QuestionMaker(Beliefs(school))
    asked = what_is_asked(maker, items=items)
    assert [(share.what, share.asked, share.count) for share in asked.shares] == [("row", 1, 1)]
    assert [gap.name for gap in what_is_asked(maker, items=(FACT,)).gaps] == [f"papers/{row.id}"]


def test_missing_place_asks_the_rows_of_its_extremes(maker, make_item):
    """Porosity is felt in places, and the verdict reads the weakest and the strongest of them."""
    item = make_item(
        "",
        id="feel",
        kind="ask_next",
        vary={
            "hair.porosity": ("unknown",),
            "wish.look": ("unknown",),
            "hair.strand": ("unknown",),
            "hair.elasticity": ("reduced",),
        },
    )
    question = maker.make(item, 1)
    assert question.answer.value == "hair.porosity"
    assert question.rows == ("verdict/open-and-slow-to-spring",)
