"""A visit against the fields that a published unit of competency asks a record to hold; see SOURCE.md."""

import csv
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.record import PhaseTime, Result, with_event
from drill.service.visit_contract import visit_to_plain
from drill.service.visit_opening import open_visit
from drill.service.zones import ZONE_NAMES

AT = "2026-03-02T10:00:00+00:00"
ROWS = list(csv.DictReader(Path(__file__).with_name("table.csv").read_text(encoding="utf-8").splitlines()))
HEAD = {
    "service": "perm",
    "hair.strand": "coarse",
    "hair.density": "thick",
    "hair.pattern": "wavy",
    "hair.elasticity": "good",
    "hair.ends": "even",
    "history.known": "no",
    "history.color": "semi",
    "history.weeks_since_color": 9.0,
    "history.lightened": "none",
    "history.relaxer": "none",
    "history.smoothing": "no",
    "history.metallic_dye": "no",
    "history.weeks_since_perm": 60.0,
    "history.reaction": "no",
    "scalp": "healthy",
    "health.treatment": "none",
    "wish.curl": "medium",
    "wish.root_volume": "moderate",
    "wish.look": "waves",
}


@pytest.fixture(scope="module")
def closed(rulebook):
    """A perm done, its record closed."""
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONE_NAMES}
    zones["top"]["hair.growth"] = "forward"
    plan = plan_service(rulebook, Consultation(head=HEAD, zones=zones))
    visit = open_visit(plan, visit_id="20260302-abcde", now=datetime(2026, 3, 2, tzinfo=UTC))
    for event in (
        PhaseTime(at=AT, phase="processing", minutes=9, product="House wave"),
        PhaseTime(at=AT, phase="neutraliser", minutes=5),
        Result(at=AT, outcome="done", curl="as_wished", hair="sound", home_care="Two days without washing"),
    ):
        visit = with_event(visit, event)
    return visit_to_plain(visit)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['list']}-{row['path']}")
def test_each_published_field_is_held_with_its_value(closed, row):
    """Closed or not: what is dropped on closing is none of them."""
    held = closed["record"]
    for key in row["path"].split("."):
        held = held[key]
    assert str(held) == row["value"]


@pytest.mark.parametrize("name", ["analysis", "record"])
def test_there_are_seven_of_each(closed, name):
    """As many in the source as in the record."""
    published = {row["published"] for row in ROWS if row["list"] == name}
    held = closed["record"] if name == "record" else closed["record"]["analysis"]
    assert len(published) == len(held) == 7
