"""A plan in words."""

from dataclasses import replace
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.report.page import Page
from drill.report.plan_steps_text import pace_words
from drill.report.plan_text import put_plan
from drill.report.why_text import put_why
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.client_words import vague_words
from drill.service.plan import Plan, plan_service

SOUND = """\
hair: {length: 18 cm, strand: medium, density: average, pattern: straight, porosity: average,
  elasticity: good, ends: even}
history: {known: yes, color: none, lightened: LIGHTENED, relaxer: RELAXER, smoothing: no, metallic_dye: no,
  weeks_since_perm: never, reaction: no}
scalp: SCALP
health: {treatment: none}
wish: {curl: medium, root_volume: moderate, look: waves, wear: back}
"""


def plan(
    rulebook: Rulebook, *, lightened: str = "none", relaxer: str = "none", scalp: str = "healthy"
) -> Plan:
    text = SOUND.replace("LIGHTENED", lightened).replace("RELAXER", relaxer).replace("SCALP", scalp)
    (node,), _ = read_text(text.encode(), shown="test")
    consultation = read_consultation(node, rulebook, [], folder=Path())
    assert consultation is not None
    return plan_service(rulebook, consultation)


def text_of(made: Plan, width: int = 80) -> str:
    page = Page(width=width)
    put_plan(page, made)
    return page.text


TOLD_BY_A_LIST = ("rinse", "blot", "neutralise", "take_down", "after_care")


def _handled(made: Plan) -> list[Row]:
    """What hands do from rinse to door; the last rinse is a step of its own."""
    lists = made.handling.lists if made.handling else {}
    return [row for name in TOLD_BY_A_LIST for row in lists.get(name, ()) if row.then != "work_through"]


@pytest.mark.parametrize("width", [40, 60, 80])
@pytest.mark.parametrize("scalp", ["healthy", "broken", "unknown"])
def test_every_width_keeps_every_word(rulebook: Rulebook, width: int, scalp: str) -> None:
    """Narrow or wide: cautions and first-aid lines in full, and the verdict with its reasons."""
    made = plan(rulebook, scalp=scalp)
    flat = " ".join(text_of(made, width).split())
    for row in (
        *made.verdict_reasons,
        *made.first_aid,
        *made.cautions,
        *made.tests,
        *made.instead,
        *(row for row in made.steps if row.then not in TOLD_BY_A_LIST),
        *_handled(made),
    ):
        assert " ".join((row.say or row.because).split()) in flat
    for one in made.ask_first:
        assert one.ask in flat
    assert max(map(len, text_of(made, width).splitlines())) <= width


def test_first_aid_stands_before_tests_and_steps(rulebook: Rulebook) -> None:
    """Read before the first bottle is opened."""
    text = text_of(plan(rulebook))
    assert text.index("If something goes wrong") < text.index("Tests, in this order") < text.index("Steps")
    assert text.count("STOP.") == 5


def test_a_plan_that_does_not_work_has_no_steps(rulebook: Rulebook) -> None:
    """It says what instead, and shows neither zones nor lotion."""
    text = text_of(plan(rulebook, relaxer="hydroxide"))
    assert "Instead" in text
    assert all(words not in text for words in ("Steps", "Waving lotion", "zone by zone", "STOP."))


def test_what_differs_from_zone_to_zone_is_in_the_table(rulebook: Rulebook) -> None:
    """What is alike everywhere is said once above it."""
    made = plan(rulebook)
    assert "Wrap: croquignole" in text_of(made)
    spiral = replace(
        made,
        zones={
            name: replace(zone, decisions={**zone.decisions, "wrap": "spiral"}) if name == "top" else zone
            for name, zone in made.zones.items()
        },
    )
    lines = text_of(spiral).splitlines()
    assert not any(line.strip().startswith("Wrap:") for line in lines)
    assert any(line.startswith("top") and "spiral" in line for line in lines)
    assert any(line.startswith("nape left") and "croquignole" in line for line in lines)


def test_test_curls_are_told_with_their_places(rulebook: Rulebook) -> None:
    """Where, how many, why, and how among the steps, once."""
    made = plan(rulebook, lightened="highlights")
    text = " ".join(text_of(made).split())
    assert "Test curls: needed" in text
    assert f"{made.test_curls.count} tools: " in text
    assert made.test_curls.steps
    assert all(text.count(" ".join(step.split())) == 1 for step in made.test_curls.steps)


def test_test_curls_of_a_plan_without_steps_are_told_by_themselves(rulebook: Rulebook) -> None:
    """Nothing else would say how they are made."""
    made = plan(rulebook, lightened="highlights", scalp="unknown")
    told = replace(made, test_curls=replace(made.test_curls, steps=("Wind two.", "Judge them.")))
    text = text_of(told)
    assert "1. Wind two." in text
    assert "2. Judge them." in text


def test_why_tells_every_row_once_for_all_zones(rulebook: Rulebook) -> None:
    """The deciding row of every table that was read, and each published source in full."""
    made = plan(rulebook)
    page = Page()
    put_why(page, made, rulebook)
    flat = " ".join(page.text.split())
    rows = {one.row for one in made.trace if one.decision in rulebook.tables and isinstance(one.value, str)}
    assert rows
    for row in rows:
        assert f"[{row}; " in flat
    cited = {row.source for one in made.trace for row in one.rows} & rulebook.sources.keys()
    assert cited
    for key in cited:
        assert " ".join(f"- {key}: {rulebook.sources[key]}".split()) in flat


def with_head(made: Plan, rulebook: Rulebook, **stated: str | float) -> Plan:
    """Plan again with more stated of the head."""
    head = {**made.consultation.head, **{name.replace("__", "."): value for name, value in stated.items()}}
    return plan_service(rulebook, replace(made.consultation, head=head))


@pytest.mark.parametrize(
    ("pace", "words"),
    [
        ("beginner", "at a beginner's pace"),
        ("exam_ready", "at the pace of a student ready for the exam"),
        ("stylist", "at a stylist's pace"),
    ],
)
def test_time_is_told_at_the_pace_asked_for(rulebook: Rulebook, pace: str, words: str) -> None:
    """In all, and phase by phase as the plan has them."""
    made = with_head(plan(rulebook), rulebook, pace=pace)
    text = " ".join(text_of(made).split())
    assert f"Time: about {made.totals.minutes} minutes {words}" in text
    minutes = {one.name: one.minutes for one in made.phases}
    assert f"Winding, about {minutes['winding']} min" in text
    assert f"winding {minutes['winding']}, lotion on {minutes['saturation']}" in text


def test_pace_of_a_local_rule_is_written_as_it_is_named() -> None:
    """A school may have a word of its own."""
    assert pace_words("second_term") == "at the pace: second term"


@pytest.mark.parametrize(
    ("free", "words"), [(400.0, "are left over"), (60.0, "are missing. Book a longer time.")]
)
def test_minutes_are_held_against_the_appointment(rulebook: Rulebook, free: float, words: str) -> None:
    """How many are left, or missing."""
    made = with_head(plan(rulebook), rulebook, appointment=free)
    text = " ".join(text_of(made).split())
    assert f"The chair is free for {free:g} minutes; {abs(free - made.totals.minutes):g} {words}" in text


def test_steps_stand_under_their_phases_with_what_hands_do_there(rulebook: Rulebook) -> None:
    """Winding order, water and pull, where the lotion starts, where and when to look, in that order."""
    made = plan(rulebook)
    text = " ".join(text_of(made).split())
    assert made.handling is not None
    told = (
        "Before, about 35 min",
        "Getting the hair ready",
        "Winding, about",
        "From the crown, in this order: back centre, nape centre,",
        "Water again before every tool.",
        "Even pull, no stretching.",
        "Second stop.",
        "Putting the lotion on, about",
        "Order: nape centre, nape left, nape right, back centre,",
        "While the lotion works, about",
        f"First look after {made.handling.look_out.first_min:g} min",
        "Fourth stop.",
        "Rinse, about",
        "Blot, about",
        "Neutraliser, about",
        "Take-down, about",
        "Fifth stop.",
        "nothing is pulled",
        "Judge, home care, record, about",
    )
    places = [text.index(words) for words in told]
    assert places == sorted(places)


def test_a_decision_that_differs_by_zone_names_the_zones(rulebook: Rulebook) -> None:
    """The most usual first."""
    made = plan(rulebook)
    zones = {
        name: replace(zone, decisions={**zone.decisions, "pull": "gentle"}) if name == "top" else zone
        for name, zone in made.zones.items()
    }
    text = " ".join(text_of(replace(made, zones=zones)).split())
    assert "Hardly any pull: top." in text
    assert text.index("Even pull, no stretching: left side") < text.index("Hardly any pull: top.")


def test_a_set_is_dried_and_has_no_lotion_phase(rulebook: Rulebook) -> None:
    """And a practice wrap is wound and shown; its lists are empty where nothing is done."""
    text = text_of(with_head(plan(rulebook), rulebook, service="wet_set"))
    assert "Drying, about" in text
    assert "Putting the lotion on" not in text
    practice = text_of(with_head(plan(rulebook), rulebook, service="practice_wrap"))
    assert "Winding, about" in practice
    assert "Showing saturation, with water" in practice
    assert "Look first at" not in practice


def test_a_soft_curl_is_softened_before_it_is_wound(rulebook: Rulebook) -> None:
    """Under a phase of its own."""
    made = with_head(plan(rulebook), rulebook, hair__pattern="coily", wish__curl="soft")
    text = text_of(made)
    assert "Softening, about" in text
    assert (
        text.index("Getting the hair ready") < text.index("Softening, about") < text.index("Winding, about")
    )


def test_words_of_a_school_stand_beside_the_list(rulebook: Rulebook) -> None:
    """A step that a local rule changed is never swallowed."""
    made = plan(rulebook)
    steps = tuple(
        replace(row, say="Rinse at our basin.", set_by="our-basin") if row.then == "rinse" else row
        for row in made.steps
    )
    text = " ".join(text_of(replace(made, steps=steps)).split())
    assert "Rinse at our basin." in text
    assert "until no slip and no smell" in text


def test_vague_answers_are_told_with_the_question_that_settles_them(rulebook: Rulebook) -> None:
    """Only for what is asked; what is felt has none."""
    made = with_head(plan(rulebook), rulebook, history__relaxer="unknown", hair__elasticity="unknown")
    fields = [one.field for one in made.ask_first]
    assert {"history.relaxer", "hair.elasticity"} <= set(fields)
    text = " ".join(text_of(made).split())
    assert text.count("Said like this it is no answer yet:") == sum(
        vague_words(one) is not None for one in fields
    )
    assert "One without lye. Then ask:" in text


def test_reasons_are_told_when_asked_for(rulebook: Rulebook) -> None:
    """Of questions, tests and steps."""
    for made in (plan(rulebook), plan(rulebook, scalp="unknown")):
        page = Page()
        put_plan(page, made, why=True)
        flat = " ".join(page.text.split())
        for one in (*made.ask_first, *made.tests, *made.steps):
            assert f"Why: {' '.join(one.because.split())}" in flat
        assert "Why: " not in text_of(made)


def test_answers_that_do_not_fit_are_asked_once_more(rulebook: Rulebook) -> None:
    """Before anything else is asked."""
    made = with_head(plan(rulebook), rulebook, history__relaxer="hydroxide", history__weeks_since_perm=4.0)
    assert made.questions
    text = " ".join(text_of(made).split())
    assert "Answers that do not fit together: ask them once more" in text
    assert all(" ".join(row.say.split()) in text for row in made.questions)
