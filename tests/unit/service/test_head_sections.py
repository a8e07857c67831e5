"""Sections alike are decided and wound once, which must never show."""

import random
from dataclasses import replace

from drill.service.head import Head
from drill.service.tool_choice import choose_tool
from drill.service.winding import wind
from drill.service.zone_plan import ZONE_DECISIONS
from drill.service.zones import ZONE_NAMES


def _mixed(consultation, rng):
    """Lay different hair on some of the sections."""
    zones = {
        name: {
            **values,
            "hair.length": rng.choice((60.0, 180.0, 320.0, 500.0)),
            "hair.growth": rng.choice(("none", "none", "up", "left", "whorl")),
            "hair.shortest": rng.choice(("unknown", "unknown", 40.0)),
            "wish.wear": rng.choice(("unknown", "forward", "left")),
        }
        for name, values in consultation.zones.items()
    }
    return replace(consultation, zones=zones)


def test_section_is_decided_and_wound_as_if_it_stood_alone(consult, rulebook):
    """Every decision with its trace, the tool and the winding, on forty mixed heads."""
    rng = random.Random(8)
    for _ in range(40):
        part, volume = rng.choice(("whole", "top", "nape")), rng.choice(("low", "high"))
        head = Head(rulebook, _mixed(consult(wish__part=part, wish__root_volume=volume), rng))
        for zone in ZONE_NAMES:
            alone = Head(rulebook, head.consultation).zone(zone)  # no other section was looked at before
            for decision in ZONE_DECISIONS:
                assert head.decide(decision, zone) == alone.decide(decision), (zone, decision)
            choice = choose_tool(alone, head.consultation.kit)
            assert head.choice(zone) == choice
            assert head.winding(zone) == wind(alone, choice.tool)
