"""Visits, their steps and the answer to test curls, in words."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.report.page import Page
from drill.report.visit_text import put_open_steps, put_revision, put_visit, put_visits, stop_words
from drill.rulebook.rulebook import Rulebook
from drill.service.plan import Plan, plan_service
from drill.service.record import STOPS, Note, PhaseTime, Reading, Result, SignOff, Visit, with_event
from drill.service.revise import TestCurlsSeen, revise
from drill.service.visit_contract import steps_of
from drill.service.visit_opening import open_visit

AT = "2026-03-02T10:05:00+00:00"
HEAD = """\
client: Wren
service: SERVICE
hair: {length: 18 cm, strand: medium, density: average, pattern: straight, porosity: average,
  elasticity: good, ends: even}
history: {known: no, color: none, lightened: none, relaxer: none, smoothing: no, metallic_dye: no,
  weeks_since_perm: never, reaction: no}
scalp: healthy
health: {treatment: none}
wish: {curl: medium, root_volume: moderate, look: waves, wear: back}
"""


def planned(rulebook: Rulebook, service: str = "perm") -> Plan:
    (node,), _ = read_text(HEAD.replace("SERVICE", service).encode(), shown="test")
    consultation = read_consultation(node, rulebook, [], folder=Path())
    assert consultation is not None
    return plan_service(rulebook, consultation)


def opened(rulebook: Rulebook, service: str = "perm", *, student_mode: bool = False) -> Visit:
    now = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
    plan = planned(rulebook, service)
    return open_visit(plan, visit_id="20260302-abcde", now=now, student_mode=student_mode)


def flat(page: Page) -> str:
    return " ".join(page.text.split())


@pytest.mark.parametrize("width", [40, 80])
def test_a_visit_tells_everything_that_was_noted(rulebook: Rulebook, width: int) -> None:
    """At any width, each visit under its own title."""
    visit = opened(rulebook)
    for event in (
        SignOff(at=AT, stop="before_take_down", initials="AB"),
        SignOff(at=AT, stop="wrap", initials="CD", taken_back=True),
        Reading(at=AT, minutes=None, longest_min=12.0, do="other_tool", way="smaller", dry="too_tight"),
        Reading(at=AT, minutes=7.5, longest_min=12.0, do="go_on", way="none", corrects=True),
        PhaseTime(at=AT, phase="processing", minutes=7.5, longest_min=12.0, product="House wave"),
        PhaseTime(at=AT, phase="rinse", minutes=5.0),
        Note(at=AT, text="Left side parts itself."),
        Result(at=AT, outcome="done", curl="as_wished", hair="dry", home_care="Two days dry."),
    ):
        visit = with_event(visit, event)
    page = Page(width=width)
    put_visit(page, visit)
    for words in (
        "Visit 20260302-abcde, for Wren",
        "Opened 2026-03-02 09:00 UTC. Closed, done.",
        "Perm. Make test curls first.",
        "Lotion: alkaline, made for normal hair.",
        "before take-down: AB, 2026-03-02 10:05 UTC",
        "wrap: taken back by CD",
        "time not known; wet unknown, dry too tight,",
        "in place of the one before: 7.5 min;",
        "lotion: 7.5 min, maker's longest time 12 min, House wave",
        "rinse: 5 min",
        "Left side parts itself.",
        "Service: done.",
        "Curl obtained: as wished.",
        "Hair afterwards: dry.",
        "Home care given: Two days dry.",
    ):
        assert words in flat(page)
    height = page.height
    put_visit(page, replace(visit, label="", results=(Result(at=AT, outcome="not_done"),)))
    rest = "".join(page.text.splitlines(keepends=True)[height:])
    assert "Visit 20260302-abcde\n" in rest
    assert "Service: not done." in rest
    assert "Curl obtained" not in rest
    assert max(map(len, page.text.splitlines())) <= width


def test_a_fresh_visit_shows_its_plan_only(rulebook: Rulebook) -> None:
    """No empty headings; a set has no lotion."""
    page = Page()
    put_visit(page, opened(rulebook, "wet_set"))
    assert "Open." in page.text
    for heading in ("Signed", "Test curls", "Times", "Result", "Notes", "Lotion"):
        assert f"\n{heading}" not in page.text


def test_a_list_has_one_line_a_visit(rulebook: Rulebook) -> None:
    """Id, label, day, service, and whether it is open."""
    page = Page()
    one = opened(rulebook, "practice_wrap")
    put_visits(page, [one, replace(one, label="", results=(Result(at=AT, outcome="stopped"),))])
    _, first, second = page.text.splitlines()
    assert first.split() == ["20260302-abcde", "Wren", "2026-03-02", "practice", "wrap", "open"]
    assert second.split() == ["20260302-abcde", "-", "2026-03-02", "practice", "wrap", "closed,", "stopped"]


def test_steps_say_what_they_wait_for(rulebook: Rulebook) -> None:
    """As many closed ones on the page as the rule has closed; who signed stands below a stop."""
    visit = with_event(
        opened(rulebook, student_mode=True), SignOff(at=AT, stop="consultation", initials="AB")
    )
    page = Page()
    put_open_steps(page, visit)
    closed = sum(not one.is_open for one in steps_of(visit))
    assert flat(page).count("CLOSED.") == flat(page).count("Waits for: wrap.") == closed > 0
    assert flat(page).count("Signed by AB.") == 1
    assert "Nothing holds up a rinse" in flat(page)
    assert "STOP." not in page.text


@pytest.mark.parametrize("stop", [*STOPS, "test_curls"])
def test_every_stop_has_words(stop: str) -> None:
    """Without the marks of a program's name."""
    assert "_" not in stop_words(stop)


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        (
            TestCurlsSeen(minutes=8, longest_min=12, wet="right", dry="right", hair="sound", skin="calm"),
            "After the test curls: Go on",
        ),
        (
            TestCurlsSeen(minutes=8, longest_min=12, wet="weak", dry="weak", hair="sound", skin="calm"),
            "Next lotion to test: one made for resistant hair.",
        ),
        (
            TestCurlsSeen(minutes=8, longest_min=12, wet="right", dry="too_tight", hair="sound", skin="calm"),
            "Next tool to test, top:",
        ),
        (TestCurlsSeen(minutes=8, longest_min=12, skin="sore"), "After the test curls: Stop"),
        (TestCurlsSeen(minutes=8, longest_min=12, hair="harsh"), "After the test curls:"),
    ],
)
def test_an_answer_comes_with_reasons_and_cautions(
    rulebook: Rulebook, seen: TestCurlsSeen, words: str
) -> None:
    """Every word of it."""
    answer = revise(rulebook, planned(rulebook), seen)
    page = Page()
    put_revision(page, answer)
    assert words in flat(page)
    for text in (*answer.words, *answer.because, *answer.notes, *answer.cautions):
        assert " ".join(text.split()) in flat(page)


def test_an_answer_for_a_plan_without_test_curls_names_no_places(rulebook: Rulebook) -> None:
    """There are no strands to keep out; what the kit lacks is told."""
    answer = revise(rulebook, planned(rulebook, "wet_set"), TestCurlsSeen(minutes=None, longest_min=None))
    page = Page()
    put_revision(page, replace(answer, notes=("The kit has no next size.",)))
    assert "Strands of the test" not in page.text
    assert "The kit has no next size." in page.text
