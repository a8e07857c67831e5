"""What local rules change: the sample of heads, decisions before and after, items, ideas that come true."""

from collections import Counter
from dataclasses import replace
from datetime import date

import pytest

from drill.bank.book import Book
from drill.bank.differences import Planned, example
from drill.bank.impact import HEADS_AN_ITEM, ItemDraws
from drill.bank.item import Item, Wrong
from drill.bank.rule_impact import MOST_EXAMPLES, Impacts
from drill.bank.sample import NUMBERS, sample_heads
from drill.bank.true_ideas import ideas_come_true
from drill.rulebook.condition import Condition
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.table import Row
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.zones import ZONE_NAMES

DAY = date(2026, 11, 25)
TWO_PAPERS = Change(op="set", target="papers.everyday", value="double_flat")


def local(*changes, name="ours", **more):
    """Make a local rule."""
    return Overlay(id=name, kind="local_rule", because="b", source="s", changes=changes, **more)


def row(name, then, when=None, **more):
    """Make a row."""
    conditions = {key: Condition((value,), (), value) for key, value in (when or {}).items()}
    return Row(id=name, when=conditions, then=then, because="We do.", source="s", **more)


@pytest.fixture(scope="module")
def small(book):
    """A book of two items, so that little is drawn."""
    even = Item(
        id="even",
        topic="t",
        kind="find_fault",
        stem="?",
        parts=("papers", "base_size", "parting"),
        zones=("top",),
        vary={"hair.ends": ("even",)},
    )
    layered = replace(
        even, id="layered", kind="choose", decision="papers", parts=(), vary={"hair.ends": ("layered",)}
    )
    return Book(rulebook=book.rulebook, misconceptions=book.misconceptions, items=(even, layered), topics={})


def school_of(small, *rules, **more):
    """Give the book with local rules in force."""
    rulebook = small.rulebook
    for rule in rules:
        rulebook = apply(rulebook, rule)
    return replace(small, rulebook=rulebook, **more)


def test_the_sample_has_every_value_of_every_field(rulebook):
    """Named values all, and numbers of each size; a zone's own on all nine."""
    heads = sample_heads(rulebook)
    for name, domain in rulebook.domains.items():
        if not domain.entered:
            continue
        seen = {value for head in heads for value in (head.of(name), *head.each_zone(name))}
        assert seen >= {*domain.values, *NUMBERS.get(name, ())}, name
    assert heads == sample_heads(rulebook)
    assert len(heads) > 100


def test_most_of_the_sample_is_served(rulebook):
    """A sample of refusals would show no zones."""
    verdicts = Counter(Head(rulebook, head).decide("verdict").value for head in sample_heads(rulebook))
    assert verdicts["go"] > 0.5 * sum(verdicts.values())


def test_differences_are_told_in_words(rulebook):
    """Values, lists by what they lack or have more, and the minutes of a phase."""
    head = next(
        one
        for one in sample_heads(rulebook)
        if Head(rulebook, one).decide("papers", "top").value == "bookend"
        and Head(rulebook, one).decide("verdict").value == "go"
        and one.of("service") == "perm"
    )
    told = replace(rulebook.tables["steps"].row("drape-for-chemicals"), say="A strip first.")
    after = apply(
        rulebook,
        local(
            TWO_PAPERS,
            Change(op="replace", target="steps", row=told),
            Change(op="set", target="processing.neutraliser_minutes", value=8.0),
        ),
    )
    found = {
        (one.decision, one.zone): one for one in Planned(rulebook, head).differences(Planned(after, head))
    }
    assert {key for key in found if key[0] == "papers"} == {("papers", zone) for zone in ZONE_NAMES}
    papers = found["papers", "top"]
    assert (papers.before, papers.after, papers.row) == (
        "One paper, folded round the ends",
        "Two papers, one under and one over",
        "everyday-paper",
    )
    assert papers.because == rulebook.tables["papers"].row("everyday-paper").because
    steps = found["steps", None]
    assert steps.after == "A strip first."
    assert steps.before == rulebook.tables["steps"].row("drape-for-chemicals").say
    minutes = found["minutes.neutraliser", None]
    assert (minutes.before, minutes.after, minutes.row) == ("5 minutes", "8 minutes", "")
    shown = example(after, head, papers)
    assert shown.difference == papers
    assert any("even ends" in line for line in shown.head)


def test_a_verdict_that_turns_leaves_the_zones_aside(rulebook):
    """What only one of the two plans decides is no difference of its own."""
    head = sample_heads(rulebook)[0]
    sound = Consultation(head={**head.head, "scalp": "healthy"}, zones=head.zones)
    no = row("not-on-mondays", "postpone", {"scalp": "healthy"})
    after = apply(rulebook, local(Change(op="add", target="verdict", row=no)))
    found = list(Planned(rulebook, sound).differences(Planned(after, sound)))
    assert next(one for one in found if one.decision == "verdict").after == "Put it off to a later day"
    assert all(one.zone is None for one in found)


def test_a_gap_between_two_rules_is_passed_over(rulebook):
    """The next rule may fill it."""
    head = sample_heads(rulebook)[0]
    gap = apply(rulebook, local(Change(op="remove", target="roll_direction", at="as-it-is-worn")))
    assert Planned(gap, head).told == {}
    assert list(Planned(rulebook, head).differences(Planned(gap, head))) == []


def test_a_rule_is_told_with_its_heads_examples_and_items(small, rulebook):
    """Two flat papers change papers on every served head with even ends, and nothing else."""
    rule = local(TWO_PAPERS, since="2026-01-01")
    (found,) = Impacts(school_of(small, rule), rulebook).of_each([rule], day=DAY)
    expected = sum(
        any(planned.told.get(("papers", zone)) == "bookend" for zone in ZONE_NAMES)
        for planned in (Planned(rulebook, head) for head in sample_heads(rulebook))
    )
    assert (found.changed, found.decisions) == (expected, {"papers": expected})
    assert found.per_hundred == pytest.approx(100 * expected / found.heads)
    assert (found.rule, found.since, found.until, found.source) == ("ours", "2026-01-01", "", "s")
    assert len(found.examples) == MOST_EXAMPLES
    assert len({one.head for one in found.examples}) == MOST_EXAMPLES
    assert [(one.item, one.changed, one.before, one.after) for one in found.items] == [
        ("even", HEADS_AN_ITEM, "bookend", "double_flat")
    ]
    assert (found.ambiguous, found.undecidable) == ((), ())


def test_each_rule_is_held_against_the_ones_before_it(small, rulebook):
    """The second one changes what the first one left."""
    first, second = (
        local(TWO_PAPERS, name="first"),
        local(Change(op="set", target="processing.neutraliser_minutes", value=8.0), name="second"),
    )
    impacts = Impacts(school_of(small, first, second), rulebook)
    found = impacts.of_each([first, second], day=DAY)
    assert [one.rule for one in found] == ["first", "second"]
    assert found[1].decisions.keys() == {"minutes.neutraliser"}
    assert [one.item for one in impacts.of_all([first, second])] == ["even"]


def test_rules_to_come_are_shown_and_past_ones_are_not(small, rulebook):
    """Each as on its first day."""
    past = local(TWO_PAPERS, name="past", until="2026-01-01")
    coming = local(TWO_PAPERS, name="coming", since="2027-01-01")
    lost = local(Change(op="remove", target="papers", at="gone"), name="lost")
    found = Impacts(small, rulebook).of_each([past, coming, lost], day=DAY)
    assert [one.rule for one in found] == ["coming"]
    assert found[0].changed


def test_a_rule_about_rare_heads_is_shown_on_heads_of_its_own(small, rulebook):
    """The sample has none on which two rare facts meet."""
    rare = replace(
        row("rare", "off_base"),
        when={
            "hair.growth": Condition(("whorl",), (), "whorl"),
            "zone": Condition(("right_side",), (), "right_side"),
            "hair.density": Condition(("thin",), (), "thin"),
            "wish.root_volume": Condition(("moderate",), (), "moderate"),
            "hair.ends": Condition(("layered",), (), "layered"),
            "hair.pattern": Condition(("wavy",), (), "wavy"),
        },
    )
    rule = local(
        Change(op="add", target="base_control", at="worn-close", row=rare),
        Change(op="remove", target="base_control", at="nowhere"),
    )
    rule = replace(rule, changes=rule.changes[:1])
    (found,) = Impacts(school_of(small, rule), rulebook).of_each([rule], day=DAY)
    assert found.changed == 0
    assert found.examples
    for one in found.examples:
        assert one.difference.zone == "right_side"
        assert one.difference.row == "rare"


def test_a_rule_that_changes_no_plan_has_no_example(small, rulebook):
    """Such as a word of its own that no row uses yet."""
    rule = local(Change(op="widen", target="papers", value="cushion", counts_as="bookend"))
    (found,) = Impacts(school_of(small, rule), rulebook).of_each([rule], day=DAY)
    assert (found.changed, found.examples, found.items) == (0, (), ())


def test_items_that_a_rule_leaves_doubtful_are_named(small, rulebook):
    """A second right answer, no answer at all, and a written wrong answer that is right now."""
    layered = rulebook.tables["papers"].row("double-for-layered-ends")
    second = replace(layered, also=("bookend",))
    doubled = local(Change(op="replace", target="papers", row=second))
    (found,) = Impacts(school_of(small, doubled), rulebook).of_each([doubled], day=DAY)
    assert (found.ambiguous, found.items) == (("layered",), ())
    gap = local(Change(op="remove", target="papers", at="everyday-paper"))
    (found,) = Impacts(school_of(small, gap), rulebook).of_each([gap], day=DAY)
    assert found.undecidable == ("even",)
    assert found.items[0].after == ""


def idea(*changes, name="idea"):
    """Make a wrong idea."""
    return Overlay(
        id=name,
        kind="misconception",
        because="b",
        source="s",
        belief="b",
        seen="s",
        mend="m",
        changes=changes,
    )


def test_an_idea_that_a_rule_makes_true_is_named_with_its_written_items(small, rulebook):
    """Whoever held that two flat papers are always right is right now."""
    everyday = rulebook.tables["papers"].row("everyday-paper")
    held = replace(everyday, then="double_flat", then_from="value")
    always_two = idea(Change(op="replace", target="papers", row=held), name="always-two")
    fact = Item(
        id="fact",
        topic="t",
        kind="choose",
        stem="?",
        answer="x",
        wrong=(Wrong(text="y", misconception="always-two"),),
    )
    rule = local(TWO_PAPERS)
    book = school_of(small, rule, misconceptions=(*small.misconceptions, always_two), items=(fact,))
    (found,) = Impacts(book, rulebook).of_each([rule], day=DAY)
    assert "always-two" in found.true_ideas
    assert found.ambiguous == ("fact",)


def test_an_idea_comes_true_only_where_it_is_right_on_every_head(rulebook):
    """One that errs on some head, one that never differed, and one that does not fit are none."""
    heads = sample_heads(rulebook)
    after = apply(rulebook, local(TWO_PAPERS))
    everyday = rulebook.tables["papers"].row("everyday-paper")
    two = replace(everyday, then="double_flat", then_from="value")
    layered = replace(rulebook.tables["papers"].row("double-for-layered-ends"), then="bookend")
    ideas = (
        idea(Change(op="replace", target="papers", row=two), name="two"),
        idea(TWO_PAPERS, name="two-by-parameter"),
        idea(
            Change(op="replace", target="papers", row=two),
            Change(op="replace", target="papers", row=layered),
            name="two-and-more",
        ),
        idea(Change(op="replace", target="papers", row=replace(two, then="single_flat")), name="one"),
        idea(Change(op="replace", target="papers", row=everyday), name="as-before"),
        idea(Change(op="remove", target="papers", at="everyday-paper"), name="nothing"),
        idea(Change(op="remove", target="papers", at="no-such-row"), name="gone"),
        idea(Change(op="remove", target="verdict", at="scalp-broken"), name="elsewhere"),
    )
    found = ideas_come_true(ideas, heads, before=rulebook, after=after, changed={"papers"})
    assert found == ("two", "two-by-parameter")


def test_items_resting_on_what_only_a_local_rule_gives_are_not_drawn_without_it(small, rulebook):
    """Their rows and values do not exist before."""
    even = replace(small.items[1], vary={"hair.ends": ("even",)})
    widen = Change(op="widen", target="hair.ends", value="shaved", counts_as="even")
    items = (
        replace(even, id="a", row="no-such-row"),
        replace(even, id="b", vary={"hair.ends": ("shaved",)}),
        replace(even, id="c", decision="", answer="x"),
        replace(even, id="d", decision="no.such", row="r"),
        replace(even, id="e", row="double-for-layered-ends"),
    )
    rule = local(widen, TWO_PAPERS)
    book = school_of(small, rule, items=items)
    assert ItemDraws(book, rulebook).changes(rulebook, book.rulebook, rules=(rule,)) == ()
