"""A head wound by somebody who decides otherwise in one place."""

import pytest

from drill.service.consultation import Consultation
from drill.service.head import TOOL_DIAMETER, Head
from drill.service.zones import ZONE_NAMES


@pytest.fixture
def head(rulebook):
    known = {"service": "perm", "wish.curl": "medium", "wish.root_volume": "moderate"}
    zones = {name: {"hair.length": 180.0, "hair.porosity": "average"} for name in ZONE_NAMES}
    return Head(rulebook, Consultation(head=known, zones=zones))


def test_what_rests_on_a_decision_follows_what_is_supposed(head):
    """A tool off its base leaves a gap; the head itself stays as it was."""
    decided = head.decide("base_control", "top")
    other = head.supposing(decided, "off_base")
    assert other.winding("top").gap_mm > head.winding("top").gap_mm
    assert head.decide("base_control", "top").value == decided.value


def test_a_decision_on_the_whole_head_is_not_supposed_on_a_zone(head):
    """The verdict has no zone."""
    with pytest.raises(ValueError, match="no decision on a zone"):
        head.supposing(head.decide("verdict"), "go")


def test_a_tool_that_the_kit_does_not_hold_is_not_supposed(head):
    """Nobody winds on it."""
    with pytest.raises(ValueError, match="the kit has no"):
        head.supposing(head.decide(TOOL_DIAMETER, "top"), 999.0)


def test_a_supposed_tool_is_wound_in_its_zone_and_nowhere_else(head):
    """A thicker tool takes fewer turns; the section beside it keeps its own."""
    decided = head.decide(TOOL_DIAMETER, "top")
    other = head.supposing(decided, 14.3)
    assert other.decide(TOOL_DIAMETER, "top").value == 14.3
    assert other.winding("top").turns < head.winding("top").turns
    assert other.choice("top").turns == other.winding("top").turns
    assert other.winding("left_side") == head.winding("left_side")
