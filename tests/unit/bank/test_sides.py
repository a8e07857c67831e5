"""The other sides of a row: the same question beside heads on which the answer is another."""

from collections import Counter
from dataclasses import replace

from drill.bank.beliefs import Beliefs
from drill.bank.make import QuestionMaker
from drill.bank.sides import answers_beside
from drill.basis.problem import Place
from drill.service.head import Head

SEEDS = range(60)


def maker_of(book, *items):
    return QuestionMaker(Beliefs(replace(book, items=items)))


def rows_met(maker, item, *, seeds=SEEDS):
    met = Counter()
    for seed in seeds:
        question = maker.make(item, seed)
        head = Head(maker.book.rulebook, question.consultation)
        met[head.decide(question.decision, question.zone).row] += 1
    return met


def test_an_item_asks_its_row_and_others_that_answer_otherwise(book, make_item):
    """Two answers that can be asked are met about equally often; the skill stays the item's."""
    close = make_item(
        "base_control", id="close", row="worn-close", zones=("top",), vary={"wish.root_volume": ("low",)}
    )
    lift = replace(close, id="lift", row="everyday-half-off", vary={"wish.root_volume": ("moderate",)})
    maker = maker_of(book, close, lift)
    met = rows_met(maker, close)
    assert met.keys() == {"worn-close", "everyday-half-off"}
    assert 18 <= met["worn-close"] <= 42
    assert {maker.make(close, seed).skill for seed in SEEDS} == {"base_control/worn-close"}


def test_what_to_look_at_is_that_of_the_item_whose_head_it_is(book, make_item):
    """A hint at what is not on this head would mislead."""
    close = make_item(
        "base_control",
        id="close",
        row="worn-close",
        zones=("top",),
        vary={"wish.root_volume": ("low",)},
        look="At the close one.",
    )
    lift = replace(
        close,
        id="lift",
        row="everyday-half-off",
        vary={"wish.root_volume": ("moderate",)},
        look="At the lift.",
    )
    maker = maker_of(book, close, lift)
    looks = {
        (question.answer.value, question.answer.feedback.look)
        for seed in SEEDS
        if (question := maker.make(close, seed))
    }
    assert looks == {("off_base", "At the close one."), ("half_off_base", "At the lift.")}


def test_a_third_of_safety_heads_are_clear(book, make_item):
    """Where the strictest row wins, the other side is the head that nothing speaks against."""
    red = make_item("verdict", id="red", row="scalp-irritated", vary={"scalp": ("irritated",)})
    clear = book.item("a-clear-head")
    maker = maker_of(book, replace(red, place=clear.place), clear)
    keys = Counter(maker.make(maker.book.items[0], seed).answer.value for seed in range(150))
    assert keys.keys() == {"postpone", "go"}
    assert 0.2 < keys["go"] / 150 < 0.45


def test_without_an_item_beside_it_heads_come_from_the_boxes_of_rows(book, make_item):
    """So a single item does not give its answer away either."""
    only = make_item(
        "base_direction",
        id="only",
        row="level-everyday",
        zones=("top", "back_center"),
        vary={"wish.wear": ("back", "down"), "hair.growth": ("none",)},
    )
    met = rows_met(maker_of(book, only), only)
    assert met["level-everyday"] >= 15
    assert len(met) > 1
    assert sum(met.values()) == len(SEEDS)


def test_a_strictest_row_alone_is_asked_alone(book, make_item):
    """Its other side needs an item that draws clear heads."""
    red = make_item("verdict", id="red", row="scalp-irritated", vary={"scalp": ("irritated",)})
    assert rows_met(maker_of(book, red), red, seeds=range(12)) == {"scalp-irritated": 12}


def test_an_item_whose_own_row_cannot_be_asked_asks_nothing(book, make_item):
    """Other sides do not make up for it."""
    never = make_item(
        "base_control", row="worn-close", zones=("top",), vary={"wish.root_volume": ("moderate",)}
    )
    assert maker_of(book, never).make(never, 1) is None


def test_a_schools_own_items_change_no_built_in_question(book, make_item):
    """Another folder's items stand beside one another only."""
    built_in = Place("decks/base.yaml", 3, 5)
    close = make_item(
        "base_control",
        id="close",
        row="worn-close",
        zones=("top",),
        vary={"wish.root_volume": ("low",)},
        place=built_in,
    )
    lift = replace(close, id="lift", row="everyday-half-off", vary={"wish.root_volume": ("moderate",)})
    ours = replace(
        lift,
        id="ours",
        place=Place("school\\decks\\ours.yaml", 3, 5),
        vary={"wish.root_volume": ("moderate",)},
    )
    alone, with_ours = maker_of(book, close, lift), maker_of(book, ours, close, lift)
    for seed in range(12):
        assert alone.make(close, seed) == with_ours.make(close, seed)


def test_answers_beside_are_counted_by_what_items_answer(book, make_item):
    """Rows that copy another decision tell no value, figures have none, and of the strictest one counts."""
    beliefs = Beliefs(book)
    assert answers_beside(beliefs, book.item("base-for-some-lift"))["off_base"] >= 1
    assert answers_beside(beliefs, book.item("a-red-scalp")) == {"go": 1}
    assert answers_beside(beliefs, make_item("tool.diameter_mm", zones=("top",))) == {}


def test_an_item_beside_it_that_finds_no_head_gives_way_to_the_next(book, make_item):
    """Its row is there, and what it varies never brings that row about."""
    near = {"zones": ("top",), "place": Place("decks/base.yaml", 3, 5)}
    close = make_item(
        "base_control", id="close", row="worn-close", vary={"wish.root_volume": ("low",)}, **near
    )
    lift = make_item(
        "base_control", id="lift", row="everyday-half-off", vary={"wish.root_volume": ("moderate",)}, **near
    )
    never = replace(lift, id="never", vary={"wish.root_volume": ("low",)})
    met = rows_met(maker_of(book, close, never, lift), close)
    assert met.keys() == {"worn-close", "everyday-half-off"}
