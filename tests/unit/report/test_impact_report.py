"""What local rules change, as text, as a page and for other programs."""

import re
from dataclasses import replace

import pytest

from drill.bank.differences import Difference, Example
from drill.bank.impact import ItemChange, RowChange
from drill.bank.rule_impact import RuleImpact
from drill.basis.problem import Place, Problem
from drill.report.check_text import CheckReport, check_to_plain, put_check
from drill.report.impact_page import check_page
from drill.report.impact_text import put_impacts
from drill.report.impact_words import after_words, before_words, days_words, heads_words, item_words
from drill.report.page import Page
from drill.rulebook.overlay import Change, Overlay, apply

PAPERS = Difference(
    decision="papers",
    zone="nape_left",
    before="One paper",
    after="Two papers",
    row="everyday-paper",
    because="We do.",
)
MINUTES = Difference(decision="minutes.take_down", zone=None, before="5 minutes", after="8 minutes")
STEPS = Difference(decision="steps", zone=None, before="", after="A strip first.")
HEAD = ("Hair: 20 cm.", "Wish: soft curl <b>.")
ITEM = ItemChange(
    item="even-ends", decision="papers", heads=12, changed=7, before="bookend", after="double_flat"
)
RULE = RuleImpact(
    rule="two-papers",
    because="We teach it.",
    source="Workroom rules, p. 3",
    since="",
    until="",
    rows=(
        RowChange(rule="two-papers", op="set", target="p.q", before="bookend", after="double_flat"),
        RowChange(
            rule="two-papers",
            op="widen",
            target="wrap",
            before="",
            after="piggyback",
            counts_as="double_tool",
        ),
        RowChange(rule="two-papers", op="remove", target="papers/gone", before="none", after=""),
        RowChange(
            rule="two-papers",
            op="replace",
            target="steps/drape",
            before="drape",
            after="drape",
            said_before="Towel.",
            said_after="Strip.",
        ),
    ),
    heads=135,
    changed=76,
    decisions={"papers": 76, "minutes.take_down": 3},
    examples=tuple(Example(head=HEAD, difference=one) for one in (PAPERS, MINUTES, STEPS)),
    items=(ITEM, replace(ITEM, item="gap", after="")),
    ambiguous=("two-right",),
    undecidable=("no-answer",),
    true_ideas=("always-two",),
)
QUIET = replace(
    RULE,
    rule="quiet",
    changed=0,
    decisions={},
    examples=(),
    items=(),
    ambiguous=(),
    undecidable=(),
    true_ideas=(),
)
SOUND = CheckReport(
    school="Lindenhof & Co.",
    rules=(RULE, QUIET),
    items=(ITEM,),
    retired=("old-item",),
    retired_ideas=("old-idea",),
)


def text_of(put, *args) -> str:
    """Put something on a page and give it in one line."""
    page = Page(width=100)
    put(page, *args)
    return " ".join(page.text.split())


def test_the_text_says_rows_heads_examples_items_and_doubts():
    """All that an instructor must see, in this order."""
    told = text_of(put_impacts, (RULE,))
    parts = (
        "What the local rules change, in the order of their files",
        "1. two-papers",
        "We teach it. [Workroom rules, p. 3]",
        "- set p.q, bookend -> double_flat",
        "- widen wrap, nothing -> piggyback, which counts as double_tool",
        "- remove papers/gone, none -> nothing",
        "- replace steps/drape, drape -> drape, with the words: Strip.",
        "On 56 of 100 heads a decision changes (76 of 135 compared): papers 76, minutes for take down 3.",
        "- Hair: 20 cm. Wish: soft curl <b>. Papers, nape left: One paper -> Two papers",
        "Minutes for take down: 5 minutes -> 8 minutes",
        "Steps: nothing -> A strip first.",
        "Questions whose answer changes: 2",
        "- even-ends: on 7 of 12 heads, such as One paper, folded round the ends -> Two papers",
        "- gap: on 7 of 12 heads, such as One paper, folded round the ends -> no answer",
        "Questions that have a second right answer now: two-right",
        "Questions that a head leaves without an answer: no-answer",
        "Wrong ideas that are true now; retire them under 'leave_out' in school.yaml: always-two",
    )
    at = [told.index(part) for part in parts]
    assert at == sorted(at)


def test_a_rule_that_changes_no_plan_says_so():
    """And nothing at all is put down where there are no rules."""
    assert "No decision on any of 135 heads compared changes." in text_of(put_impacts, (QUIET,))
    assert text_of(put_impacts, ()) == ""


def test_a_rule_that_changes_next_to_nothing_is_not_rounded_away():
    """One head of many is still one of a hundred."""
    assert heads_words(replace(RULE, changed=1, heads=400)).startswith("On 1 of 100 heads")


@pytest.mark.parametrize(
    ("since", "until", "words"),
    [
        ("", "", ""),
        ("2026-09-01", "", "from 2026-09-01"),
        ("", "2027-01-01", "until 2027-01-01"),
        ("2026-09-01", "2027-01-01", "from 2026-09-01 until 2027-01-01"),
    ],
)
def test_the_days_of_a_rule_stand_in_its_heading(since, until, words):
    """Where it has any."""
    rule = replace(RULE, since=since, until=until)
    assert days_words(rule) == words
    heading = f"1. two-papers, {words}" if words else "1. two-papers"
    assert f"{heading} We teach it." in text_of(put_impacts, (rule,))
    assert f"<h2>{heading}</h2>" in check_page(replace(SOUND, rules=(rule,)))


def test_words_of_a_local_rule_are_used_for_its_values(rulebook):
    """An item's key may be a value that it added."""
    widen = Change(op="widen", target="papers", value="cushion", counts_as="bookend", words="A cushion")
    local = apply(rulebook, Overlay(id="o", kind="local_rule", because="b", source="s", changes=(widen,)))
    one = replace(ITEM, after="cushion")
    assert item_words(one, local).endswith("-> A cushion")
    assert item_words(one).endswith("-> Cushion")


def test_the_whole_check_tells_what_is_retired():
    """And how many answers all rules together change."""
    told = text_of(put_check, SOUND)
    assert "Lindenhof & Co.: rules and questions are sound" in told
    assert "All local rules together change the answer of 1 items" in told
    assert "No longer asked, since the row is gone: old-item" in told
    assert "Wrong ideas retired, since what they are about is gone: old-idea" in told
    alone = text_of(put_check, replace(SOUND, rules=(RULE,), retired=(), retired_ideas=()))
    assert "All local rules together" not in alone
    assert "retired, since" not in alone


def test_other_programs_get_all_of_it():
    """Under names that stay."""
    plain = check_to_plain(SOUND)
    assert plain["sound"] is True
    assert [one["target"] for one in plain["local_changes"]][:2] == ["p.q", "wrap"]
    first, second = plain["local_rules"]
    assert (first["rule"], first["heads"], first["changed"], first["heads_changed_of_100"]) == (
        "two-papers",
        135,
        76,
        56.3,
    )
    assert first["examples"][0]["difference"]["before"] == "One paper"
    assert (first["ambiguous"], first["undecidable"], first["true_ideas"]) == (
        ["two-right"],
        ["no-answer"],
        ["always-two"],
    )
    assert second["heads_changed_of_100"] == 0
    assert (plain["items_retired"], plain["ideas_retired"]) == (["old-item"], ["old-idea"])


def test_the_page_stands_on_its_own_and_escapes_what_it_is_given():
    """It loads nothing, runs nothing, and defers to those who decide."""
    html = check_page(SOUND)
    assert html.startswith("<!DOCTYPE html>")
    assert "<b>" not in html
    assert "soft curl &lt;b&gt;." in html
    assert "Lindenhof &amp; Co." in html
    assert not re.search(r"(src|href)=|<script|url\(|@import", html)
    assert html.count("<section>") == 2
    assert html.count("<table>") == 1
    assert "<td>papers, nape left</td>" in html
    assert '<td class="before">One paper</td><td class="after">Two papers</td>' in html
    assert f'<i style="width:{100 * 76 / 135:.1f}%">' in html
    assert html.count('<div class="stop">') == 3
    assert "always-two" in html
    assert "never permission" in html
    for name in ("section", "table", "thead", "tbody", "tr", "td", "th", "ul", "li", "p", "div", "h2", "h3"):
        assert len(re.findall(rf"<{name}[ >]", html)) == html.count(f"</{name}>"), name


def test_the_page_of_a_refused_folder_lists_what_to_mend():
    """And says that none of it is used."""
    problem = Problem(Place("rules/a.yaml", 3, 1), "the limit x is broken: <a>", "keep the limit")
    html = check_page(CheckReport(school="L", problems=(problem,)))
    assert "Refused: 1 to mend. Nothing of this folder is used." in html
    assert "rules/a.yaml:3:1: the limit x is broken: &lt;a&gt;; keep the limit" in html


def test_the_page_of_the_built_in_rules_says_that_there_are_no_local_ones():
    """With the built-in rules for a name."""
    html = check_page(CheckReport())
    assert "The built-in rules: what the local rules change" in html
    assert "There are no local rules." in html


def test_nothing_before_or_after_is_told_as_nothing():
    """A list that gained a line has lost none."""
    one = Example(head=(), difference=replace(STEPS, after=""))
    assert (before_words(one), after_words(one)) == ("nothing", "nothing")
