"""Making a question: what is asked, what is not, and what stands among the options."""

import random
from dataclasses import replace

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.draw import is_decisive
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker
from drill.bank.options import single
from drill.bank.scenario import draw_head
from drill.rulebook.domain import UNKNOWN
from drill.service.head import Head
from drill.service.zones import ZONE_NAMES

FACT = Item(
    id="fact",
    topic="t",
    kind="choose",
    stem="Which?",
    answer="this",
    wrong=(Wrong(text="that", misconception="time-sets-the-curl-size"), Wrong(text="neither")),
    because="So it is.",
    source="common practice",
    look="Look at it.",
)


def test_scenario_tells_head_question_and_row(maker, make_item):
    """The stem is filled with the zone, the source is the row's, the skill is decision and row."""
    item = make_item(
        "base_control",
        row="worn-close",
        zones=("top",),
        stem="The {zone}. Where?",
        vary={"wish.root_volume": ("low",)},
    )
    # On some seeds another row decides, so that the question does not give its answer away.
    asked = [maker.make(item, seed) for seed in range(12)]
    question = next(one for one in asked if one.answer.value == "off_base")
    assert question.ask == "The top. Where?"
    assert question.skill == "base_control/worn-close"
    assert question.source == maker.book.rulebook.tables["base_control"].row("worn-close").source
    assert question.stem.startswith("Hair: ")
    assert question.rulebook == maker.book.rulebook.digest


def test_acceptable_value_is_no_wrong_option(maker, make_item):
    """On sound hair half off base is acceptable too, so one wrong value is left, and that is no choice."""
    lift = {"wish.root_volume": ("high",)}
    item = make_item("base_control", row="lift-on-sound-hair", zones=("top",), vary=lift)
    assert maker.draw(item, random.Random(5)) is None


def test_a_question_too_long_for_a_phone_is_not_asked(maker, make_item):
    """Whatever head is drawn, its own words are too many."""
    item = make_item("base_control", zones=("top",), vary={"wish.root_volume": ("low",)})
    assert maker.make(item, 1) is not None
    assert maker.make(replace(item, stem="word " * 55), 1) is None


def test_fact_keeps_its_key_and_names_the_idea_behind_an_option(maker):
    """A fact has no head; an option without an idea still says why."""
    question = maker.make(FACT, 1)
    assert question.facts == ()
    assert (question.consultation, question.decision, question.zone) == (None, None, None)
    assert question.answer.text == "this"
    assert question.explanation == "So it is. Look at it."
    by_text = {option.text: option for option in question.options}
    assert by_text["that"].misconceptions == ("time-sets-the-curl-size",)
    assert by_text["neither"].misconceptions == ()
    assert by_text["neither"].feedback.text == "So it is. Look at it."
    assert not by_text["that"].feedback.opening


def test_fact_with_an_idea_that_can_harm_says_stop(maker, book):
    """Harm is stopped in a fact as it is on a head."""
    harmful = next(one for one in book.misconceptions if one.harm)
    item = Item(**{**_fields(FACT), "wrong": (Wrong(text="a", misconception=harmful.id), Wrong(text="b"))})
    option = next(one for one in maker.make(item, 1).options if one.text == "a")
    assert option.feedback.text.startswith("Stop. So it is.")


def _fields(item: Item) -> dict:
    return {name: getattr(item, name) for name in item.__dataclass_fields__}


def test_head_that_is_not_served_is_not_asked_about_its_wrap(maker, make_item):
    """Where a perm is declined nobody asks for papers; the verdict is asked."""
    vary = {"history.relaxer": ("hydroxide",)}
    assert maker.make(make_item("papers", zones=("top",), vary=vary), 1) is None
    assert maker.make(make_item("verdict", vary=vary), 1).answer.value == "decline"


def test_item_whose_row_never_decides_cannot_be_asked(maker, make_item):
    """The draws end, and None says so."""
    item = make_item("verdict", row="scalp-broken", vary={"scalp": ("healthy",)})
    assert maker.make(item, 1) is None


def test_decision_with_two_outcomes_makes_no_scenario(maker, make_item):
    """One wrong value is no choice; such a row is asked as a fact."""
    assert maker.make(make_item("test_curls.needed", vary={"history.known": ("no",)}), 1) is None


def test_list_is_no_key(maker, make_item):
    """A list has no single right value."""
    consultation = draw_head(make_item("tests"), None, maker.book.rulebook, random.Random(1))
    decided = Head(maker.book.rulebook, consultation).decide("tests")
    with pytest.raises(TypeError, match="tests is a list and has no single key"):
        single(decided)


def test_numbers_stand_in_rising_order_with_letters_in_order(maker, make_item):
    """Sizes are easier to compare in order; the sizes next to the key are never fillers."""
    item = make_item(
        "tool.diameter_mm", zones=("top",), vary={"wish.curl": ("body",), "hair.length": (250.0,)}
    )
    question = maker.make(item, 2)
    values = [option.value for option in question.options]
    assert values == sorted(values)
    assert all(isinstance(value, float) for value in values)
    assert question.answer.text.endswith("mm tool")
    kit = question.consultation.kit
    shape = Head(maker.book.rulebook, question.consultation).choice("top").tool.shape
    sizes = sorted({tool.diameter_mm for tool in kit.tools if tool.shape == shape})
    near = {size for size in sizes if abs(sizes.index(size) - sizes.index(question.answer.value)) <= 1}
    fillers = {one.value for one in question.options if not one.misconceptions and not one.correct}
    assert not fillers & near


def test_figure_without_two_wrong_ideas_is_filled_up_with_nothing(maker, make_item):
    """Turns come from a formula; only wrong ideas give other turns."""
    question = maker.make(make_item("turns", zones=("top",), vary={"wish.curl": ("soft",)}), 1)
    if question is not None:
        assert all(option.misconceptions for option in question.options if not option.correct)


def test_fillers_of_a_table_are_other_outcomes_and_never_unknown(maker, make_item, rulebook):
    """Further outcomes stand in where ideas run out; of a strictest table only those of less care."""
    roll = make_item("roll_direction", zones=("top", "back_left"))
    verdict = make_item("verdict", row="scalp-broken", vary={"scalp": ("broken",)})
    strict = rulebook.tables["verdict"]
    for seed in range(8):
        question = maker.make(roll, seed)
        assert {option.value for option in question.options} <= {*rulebook.domains["hair.growth"].values}
        assert UNKNOWN not in {option.value for option in question.options}
        question = maker.make(verdict, seed)
        fillers = [one.value for one in question.options if not one.misconceptions and not one.correct]
        assert all(strict.strictness(one) < strict.strictness(question.answer.value) for one in fillers)


def test_likeliest_idea_is_one_about_the_facts_that_decide(maker, make_item, book):
    """An idea that turns on the deciding fact stands before those that would decide so anyway."""
    item = make_item("verdict", row="scalp-broken", vary={"scalp": ("broken",)})
    for seed in range(6):
        for option in maker.make(item, seed).options:
            about = [
                any(change.row and "scalp" in change.row.when for change in book.beliefs[idea].changes)
                for idea in option.misconceptions
            ]
            assert about == sorted(about, reverse=True)


def test_decisive_means_that_the_answer_would_be_another_without_the_row(maker, rulebook, make_head):
    """A row whose neighbours say the same is not what the question is about."""
    low_nape = make_head({"wish.root_volume": "low"}).decide("base_control", "nape_left")
    assert low_nape.row == "worn-close"
    assert is_decisive(maker.beliefs, rulebook.tables["base_control"], low_nape)
    two_stops = make_head({"scalp": "broken", "history.weeks_since_perm": 2.0}).decide("verdict")
    assert two_stops.value == "postpone"
    assert not is_decisive(maker.beliefs, rulebook.tables["verdict"], two_stops)
    one_stop = make_head({"scalp": "broken"}).decide("verdict")
    assert is_decisive(maker.beliefs, rulebook.tables["verdict"], one_stop)
    twice = make_head({"service": "practice_wrap", "hair.density": "thick"}).decide("base_size", "top")
    assert not is_decisive(maker.beliefs, rulebook.tables["base_size"], twice)


def test_row_without_which_nothing_decides_is_decisive(rulebook, make_head):
    """The last row of a first table catches what is left; taken out, nothing holds."""
    maker = QuestionMaker(Beliefs(Book(rulebook=rulebook, misconceptions=(), items=(), topics={})))
    everyday = make_head().decide("wrap", "top")
    assert everyday.row == "everyday-wrap"
    assert is_decisive(maker.beliefs, rulebook.tables["wrap"], everyday)


def test_zone_item_asks_only_its_zones(maker, make_item):
    """Every seed lands in the zones that the item names, and all of them come up."""
    item = make_item(
        "base_control", zones=("nape_left", "top"), vary={"wish.root_volume": ("high", "moderate", "low")}
    )
    zones = {question.zone for seed in range(30) if (question := maker.make(item, seed))}
    assert zones == {"nape_left", "top"}
    assert set(ZONE_NAMES) > zones
