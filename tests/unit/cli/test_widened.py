"""A word that a local rule adds flows through plan, questions, answers and screens."""

import json
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from click.testing import Result

from drill.app.show_question import question_screen
from drill.bank.beliefs import Beliefs
from drill.bank.facts import head_facts
from drill.bank.item import Item
from drill.bank.make import QuestionMaker
from drill.bank.sample import sample_heads
from drill.cli.demo import DEMO_SCHOOL
from drill.load.compile import Compiled, compile_book
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.proof import prove
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.head import Head
from drill.study.sitting import Goal, Sitting

Run = Callable[..., Result]
WORDS = "Piggyback: half the strand on each of two tools"
LONG = """\
hair: {length: 60 cm, strand: medium, density: average, pattern: straight, porosity: average,
  elasticity: good, ends: even}
history: {known: yes, color: none, lightened: none, relaxer: none, smoothing: no, metallic_dye: no,
  weeks_since_perm: never, reaction: no}
scalp: healthy
health: {treatment: none}
wish: {curl: medium, root_volume: moderate, look: waves, wear: back}
"""


@pytest.fixture(scope="module")
def school() -> Compiled:
    """The invented school, whose state has a name of its own for a wrap."""
    compiled = compile_book(DEMO_SCHOOL, day=date(2026, 11, 25), proved=True)
    assert compiled.problems == ()
    return compiled


def test_a_plan_uses_the_word_and_winds_what_it_counts_as(run: Run, tmp_path: Path) -> None:
    """Two tools a base, with the local word in JSON, text and reasons, and the built-in figures."""
    head = tmp_path / "long.yaml"
    head.write_text(LONG)
    plans = [
        json.loads(run("plan", head, "--kit", DEMO_SCHOOL / "kit.yaml", "--json", *more).stdout)
        for more in ((), ("--school", DEMO_SCHOOL))
    ]
    built_in, local = (plan["zones"]["top"] for plan in plans)
    assert (built_in["wrap"], local["wrap"]) == ("double_tool", "piggyback")
    for figure in ("turns", "curl_ends_mm", "curl_scalp_mm", "tools", "base_direction", "layout"):
        assert built_in[figure] == local[figure], figure
    told = " ".join(run("plan", head, "--school", DEMO_SCHOOL, "--why").stdout.split())
    assert "piggyback" in told
    assert f"{WORDS} (the whole head)" in told or WORDS in told


def test_a_question_has_the_word_as_its_key_and_nothing_that_is_the_same(school: Compiled) -> None:
    """The built-in name for the same wrap is no wrong answer beside it."""
    item = school.book.item("wrap-past-ten-turns")
    assert item is not None
    maker = QuestionMaker(Beliefs(school.book))
    keys = set()
    for seed in range(12):
        question = maker.make(item, seed)
        assert question is not None
        values = {option.value for option in question.options}
        keys.add(question.answer.value)
        assert not {"piggyback", "double_tool"} <= values
        if question.answer.value == "piggyback":
            assert question.answer.text == WORDS
            assert any("piggyback" in option.feedback.text.casefold() for option in question.options)
    assert "piggyback" in keys


def test_a_screen_shows_the_word(school: Compiled) -> None:
    """As one of the answers to touch."""
    item = school.book.item("wrap-past-ten-turns")
    assert item is not None
    maker = QuestionMaker(Beliefs(school.book))
    made = (maker.make(item, seed) for seed in range(12))
    question = next(one for one in made if one is not None and one.answer.value == "piggyback")
    now = datetime(2026, 11, 25, 9, tzinfo=UTC)
    sitting = Sitting(
        student="A",
        device="d",
        day=1,
        goal=Goal(),
        started=now,
        phase="question",
        waiting=(),
        question=question,
    )
    screen = question_screen(sitting, school.book, minutes_used=0.0)
    assert WORDS in repr(screen)


def test_a_fact_of_a_head_can_be_widened_and_is_told_in_its_words(school: Compiled) -> None:
    """It is decided like what it counts as, proved, and shown; without words it is written as it is named."""
    built_in = school.built_in
    changes = (
        Change(
            op="widen", target="history.relaxer", value="kit", counts_as="hydroxide", words="a kit from home"
        ),
        Change(op="widen", target="hair.ends", value="razored", counts_as="layered"),
    )
    rule = Overlay(id="ours", kind="local_rule", because="b", source="s", changes=changes)
    rulebook = apply(built_in, rule)
    assert prove(rulebook, facts=FACTS, idle_is_fault=False).problems == ()
    usual = next(one for one in sample_heads(built_in) if one.of("scalp") == "healthy")
    told, plain = (
        Head(rulebook, Consultation(head={**usual.head, "service": "perm", **more}, zones=usual.zones))
        for more in (
            {"history.relaxer": "kit", "hair.ends": "razored"},
            {"history.relaxer": "hydroxide", "hair.ends": "layered"},
        )
    )
    for decision in ("verdict", "hair.condition", "waving_lotion.strength"):
        assert told.decide(decision).value == plain.decide(decision).value
    assert told.decide("papers", "top").value == plain.decide("papers", "top").value
    lines = " ".join(head_facts(told, "top"))
    assert "relaxer: a kit from home" in lines
    assert "razored" in lines
    assert rulebook.local_words("history.relaxer", "kit") == "a kit from home"
    assert rulebook.local_words("history.relaxer", "thio") == ""
    assert rulebook.local_words("no.such.name", "thio") == ""


def test_an_item_may_draw_the_word(school: Compiled) -> None:
    """And says why, in the rule's own words."""
    rule = Overlay(
        id="ours",
        kind="local_rule",
        because="b",
        source="s",
        changes=(
            Change(op="widen", target="hair.ends", value="razored", counts_as="layered", words="razored"),
        ),
    )
    book = school.book
    widened = type(book)(
        rulebook=apply(book.rulebook, rule), misconceptions=book.misconceptions, items=(), topics={}
    )
    item = Item(
        id="razored",
        topic="t",
        kind="choose",
        stem="?",
        decision="papers",
        row="double-for-layered-ends",
        zones=("top",),
        vary={"hair.ends": ("razored",)},
    )
    question = QuestionMaker(Beliefs(widened)).make(item, 1)
    assert question is not None
    assert question.answer.value == "double_flat"
    assert any("razored" in line for line in question.facts)
    assert "is razored" in question.explanation
