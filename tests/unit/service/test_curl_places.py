"""How many test curls, where a local rule leaves one section to be wound."""

from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.zones import ZONE_NAMES


def test_one_section_alone_takes_both_test_curls(rulebook: Rulebook):
    """A doubt is tried on two tools at least, wherever they have to go (common practice)."""
    overlay = Overlay(
        id="ours",
        kind="local_rule",
        because="b",
        source="c",
        changes=(Change(op="remove", target="part.role", at="edge-of-a-top-perm"),),
    )
    head = {
        "service": "perm",
        "scalp": "healthy",
        "history.known": "no",
        "history.color": "none",
        "history.lightened": "none",
        "history.relaxer": "none",
        "history.smoothing": "no",
        "history.metallic_dye": "no",
        "history.reaction": "no",
        "history.weeks_since_perm": "never",
        "health.treatment": "none",
        "hair.elasticity": "good",
        "wish.curl": "medium",
        "wish.part": "top",
    }
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONE_NAMES}
    plan = plan_service(apply(rulebook, overlay), Consultation(head=head, zones=zones))
    assert plan.verdict == "test_first"
    assert (plan.test_curls.zones, plan.test_curls.count) == (("top",), 2)
