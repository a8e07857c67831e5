"""A plan in words."""

from dataclasses import replace
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.report.page import Page
from drill.report.plan_text import put_plan
from drill.report.why_text import put_why
from drill.rulebook.rulebook import Rulebook
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
        *made.steps,
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
    """Where, how many, why and how."""
    made = plan(rulebook, lightened="highlights")
    text = " ".join(text_of(made).split())
    assert "Test curls: needed" in text
    assert f"{made.test_curls.count} tools: " in text
    assert all(" ".join(step.split()) in text for step in made.test_curls.steps)


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
