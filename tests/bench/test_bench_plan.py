"""Times of planning a full head; no time is asserted, the results are."""

import json
from pathlib import Path

import pytest

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES

# Lengths, growth and porosity differ from zone to zone, so that nothing is decided once for all.
HEAD = b"""
service: perm
scalp: healthy
hair:
  length: {top: 14 cm, left_side: 12 cm, right_side: 12 cm, back_left: 18 cm, back_center: 20 cm,
    back_right: 18 cm, nape_left: 9 cm, nape_center: 8 cm, nape_right: 9 cm}
  strand: medium
  density: average
  pattern: wavy
  porosity: {top: porous, left_side: average, right_side: average, back_left: average, back_center: average,
    back_right: average, nape_left: resistant, nape_center: resistant, nape_right: resistant}
  elasticity: good
  ends: layered
  growth: {top: whorl, nape_left: left, nape_right: right}
history: {known: yes, color: semi, lightened: none, relaxer: none, smoothing: no, reaction: no}
history.metallic_dye: no
history.weeks_since_perm: 40
health.treatment: none
wish: {curl: medium, root_volume: high, look: waves, blend: [left_side, back_left]}
"""


@pytest.fixture(scope="module")
def consultation(rulebook):
    (node,), problems = read_text(HEAD, shown="head.yaml")
    found = read_consultation(node, rulebook, problems, folder=Path())
    assert problems == []
    return found


def test_plan_a_full_head_with_its_trace(benchmark, rulebook, consultation):
    """Every decision in nine zones, with what was rejected on the way."""
    plan = benchmark(plan_service, rulebook, consultation)
    assert set(plan.zones) == {*ZONE_NAMES}
    assert {one.zone for one in plan.trace} == {None, *ZONE_NAMES}


def test_write_a_plan_as_json(benchmark, rulebook, consultation):
    """What `plan --json` prints."""
    plan = plan_service(rulebook, consultation)
    text = benchmark(lambda: json.dumps(plan_to_plain(plan)))
    assert json.loads(text)["verdict"] == plan.verdict
