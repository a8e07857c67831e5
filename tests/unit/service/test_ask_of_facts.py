"""What is asked where a local rule's verdict reads a computed fact."""

import pytest

from drill.rulebook.condition import Condition
from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES

SOUND = {
    "service": "perm",
    "scalp": "healthy",
    "history.known": "yes",
    "history.color": "none",
    "history.lightened": "none",
    "history.relaxer": "none",
    "history.smoothing": "no",
    "history.metallic_dye": "no",
    "history.reaction": "no",
    "history.weeks_since_perm": "never",
    "health.treatment": "none",
    "hair.elasticity": "good",
    "hair.strand": "medium",
    "hair.density": "average",
    "wish.curl": "medium",
}


@pytest.mark.parametrize(("pattern", "asked"), [("unknown", ["hair.pattern"]), ("curly", [])])
def test_what_a_fact_is_computed_from_is_asked(rulebook: Rulebook, pattern: str, asked: list[str]):
    """Nobody can be asked for the fact itself."""
    row = Row(
        id="ours",
        when={"wish.against_natural": Condition(("unknown",))},
        then="ask_first",
        because="b",
        source="c",
    )
    overlay = Overlay(
        id="ours",
        kind="local_rule",
        because="b",
        source="c",
        changes=(Change(op="add", target="verdict", row=row),),
    )
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONE_NAMES}
    head = Consultation(head={**SOUND, "hair.pattern": pattern}, zones=zones)
    plan = plan_service(apply(rulebook, overlay), head)
    assert (plan.verdict == "ask_first") is bool(asked)
    assert [one.field for one in plan.ask_first] == asked
