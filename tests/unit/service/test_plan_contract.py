"""The plan's public contract, to the letter: names, types and words that other programs read."""

import json

import pytest

from drill.service.consultation import Consultation
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES

CLEAR = {
    "service": "perm", "wish.curl": "medium", "scalp": "healthy", "history.reaction": "no",
    "history.relaxer": "none", "history.metallic_dye": "no", "health.treatment": "none",
    "hair.elasticity": "good", "history.known": "yes", "history.color": "none", "hair.ends": "even",
    "history.weeks_since_perm": "never",
}  # fmt: skip
TOP = {
    "format": str, "client": str, "service": str, "rulebook": str, "verdict": str, "verdict_reasons": list,
    "hair": dict, "first_aid": list, "questions": list, "ask_first": list, "tests": list, "instead": list,
    "zones": dict, "waving_lotion": dict, "test_curls": dict, "steps": list, "cautions": list, "notes": list,
    "totals": dict, "phases": list, "consultation": dict, "trace": list,
    "soft_curl": str, "border": dict, "cut": str, "equaliser": str, "winding": dict, "wet_with": str,
    "spray": str, "saturation": dict, "look_out": dict,
    "rinse": list, "blot": list, "neutralise": list, "take_down": list, "after_care": list,
}  # fmt: skip
ZONE_WORDS = {
    "layout": ("straight_set", "bricklay", "weave", "curvature", "spiral_rows"),
    "base_direction": ("horizontal", "vertical", "diagonal"),
    "roll_direction": ("forward", "back", "up", "down", "left", "right"),
    "base_control": ("on_base", "half_off_base", "off_base"),
    "base_size": ("single", "one_and_half", "double"),
    "wrap": ("croquignole", "spiral", "double_tool"),
    "papers": ("bookend", "double_flat", "single_flat", "none"),
    "parting": ("straight", "woven"),
    "spiral_start": ("ends", "scalp", "none"),
    "cushion_paper": ("no", "yes"),
    "pull": ("even", "gentle"),
    "band": ("straight_across", "on_sticks", "own_fastening", "pins"),
}
SHAPES = ("concave", "straight", "flexible", "long")
LOTION_WORDS = {
    "class": ("alkaline", "acid_balanced", "none"),
    "strength": ("resistant", "normal", "treated", "none"),
    "ester": ("yes", "no"),
    "heat": ("none", "self_heating", "dryer"),
}
TEST_KINDS = ("scalp_look", "porosity", "elasticity", "metal_strand", "skin_test", "test_curls")
TRACE_NAMES = {
    "decision", "zone", "value", "also", "standing", "row", "because", "source", "rejected", "read",
}  # fmt: skip


def head(changes=(), zone_changes=(), **other):
    """Give a head fit for a perm with a few changes."""
    zones = {
        zone: {"hair.length": 180.0, "hair.porosity": "average", **dict(zone_changes)} for zone in ZONE_NAMES
    }
    return Consultation(head={**CLEAR, **dict(changes)}, zones=zones, **other)


HEADS = {
    "go": head(client="Ada Reyes"),
    "test_first": head({"history.metallic_dye": "suspected", "history.known": "no"}),
    "ask_first": head({"scalp": "unknown", "history.relaxer": "unknown"}),
    "postpone": head({"scalp": "broken"}),
    "refer": head({"history.reaction": "yes"}),
    "decline": head({"history.relaxer": "hydroxide"}),
}


@pytest.fixture(params=sorted(HEADS))
def named_plan(request, rulebook):
    """A plan of each verdict, as it comes out of its JSON text."""
    plan = plan_to_plain(plan_service(rulebook, HEADS[request.param]))
    return request.param, json.loads(json.dumps(plan))


def _nothing_is_null(value):
    if isinstance(value, dict):
        return all(map(_nothing_is_null, value.values()))
    if isinstance(value, list):
        return all(map(_nothing_is_null, value))
    return value is not None


def test_plan_has_every_name_of_the_contract_with_its_type(named_plan):
    """No name missing, none too many, and the word is none, never null."""
    verdict, plan = named_plan
    assert {name: type(value) for name, value in plan.items()} == TOP
    assert plan["verdict"] == verdict
    assert plan["format"] == "plan.v1"
    assert _nothing_is_null(plan)


def test_zones_hold_the_contract_only_where_the_service_is_done(named_plan):
    """All nine zones of a plan that works, none of any other."""
    verdict, plan = named_plan
    assert list(plan["zones"]) == (list(ZONE_NAMES) if verdict in ("go", "test_first") else [])
    for zone in plan["zones"].values():
        for name, words in ZONE_WORDS.items():
            assert zone[name] in words, name
        assert set(zone["tool"]) == {"shape", "size", "diameter_mm"}
        assert zone["tool"]["size"] in ("as_wished", "one_smaller", "one_larger", "twice_natural")
        assert zone["tool"]["shape"] in SHAPES
        assert isinstance(zone["tool"]["diameter_mm"], float)
        assert zone["tools"]
        for tools in zone["tools"]:
            assert set(tools) == {"diameter_mm", "count"}
            assert isinstance(tools["diameter_mm"], float)
            assert isinstance(tools["count"], int)
        assert zone["part"] == {"role": "wound"}
        for name in ("turns", "turns_shortest", "curl_ends_mm", "curl_scalp_mm", "gap_mm"):
            assert isinstance(zone[name], float), name
        assert isinstance(zone["papers_count"], int)
        assert set(zone) == {
            *ZONE_WORDS, "part", "tool", "tools", "turns", "turns_shortest", "curl_ends_mm", "curl_scalp_mm",
            "gap_mm", "papers_count",
        }  # fmt: skip


def test_head_wide_parts_hold_the_contract(named_plan):
    """Lotion, test curls, steps, totals and lists of reasons."""
    verdict, plan = named_plan
    works = verdict in ("go", "test_first")
    assert set(plan["waving_lotion"]) == set(LOTION_WORDS)
    for name, words in LOTION_WORDS.items():
        assert plan["waving_lotion"][name] in words, name
    assert (plan["waving_lotion"]["class"] != "none") == works
    assert set(plan["test_curls"]) == {"needed", "zones", "count", "why", "steps"}
    assert isinstance(plan["test_curls"]["needed"], bool)
    assert isinstance(plan["test_curls"]["count"], int)
    assert set(plan["test_curls"]["zones"]) <= set(ZONE_NAMES)
    assert {name: type(value) for name, value in plan["totals"].items()} == dict.fromkeys(
        ("tools", "papers", "minutes"), int
    )
    assert all(plan["totals"].values()) == works
    assert bool(plan["steps"]) == works
    for step in plan["steps"]:
        assert set(step) == {"id", "text", "because", "sign_off"}
    stops = [step["sign_off"] for step in plan["steps"] if step["sign_off"] != "none"]
    assert stops == (["consultation", "wrap", "saturation", "test_curl", "before_take_down"] if works else [])
    assert all(isinstance(text, str) and text for text in (*plan["cautions"], *plan["instead"]))
    assert bool(plan["instead"]) == (not works)
    for reason in plan["verdict_reasons"]:
        assert set(reason) == {"row", "value", "because", "source"}
    assert plan["verdict_reasons"][0]["value"] == verdict


def test_what_comes_first_holds_the_contract(named_plan):
    """Facts to ask and tests, each with its reason; nobody is asked when the verdict stands anyway."""
    verdict, plan = named_plan
    for one in plan["ask_first"]:
        assert set(one) == {"field", "ask", "because"}
        assert all(isinstance(text, str) and text for text in one.values())
    assert [one["field"] for one in plan["ask_first"]] == (
        ["history.relaxer", "scalp"] if verdict == "ask_first" else []
    )
    for one in plan["tests"]:
        assert set(one) == {"kind", "where", "because"}
        assert one["kind"] in TEST_KINDS
        assert one["where"]
    for one in plan["first_aid"]:
        assert set(one) == {"id", "text"}


def test_trace_is_data_with_every_name(named_plan):
    """Decisions on the head have the zone none; every entry has a standing, a reason and a source."""
    _, plan = named_plan
    for one in plan["trace"]:
        assert set(one) == TRACE_NAMES
        assert one["zone"] == "none" or one["zone"] in plan["zones"]
        assert one["standing"] in ("settled", "school", "contested")
        assert one["row"]
        assert one["because"]
        assert one["source"]
        assert isinstance(one["value"], str | float | list)
        for rejected in one["rejected"]:
            assert set(rejected) == {"row", "value", "input", "was"}
    assert any(one["decision"] == "verdict" and one["zone"] == "none" for one in plan["trace"])


def test_plan_keeps_label_service_and_digest(rulebook):
    """Who reads a plan later can tell whose it is and by which rules it was made."""
    plan = plan_to_plain(plan_service(rulebook, HEADS["go"]))
    assert (plan["client"], plan["service"], plan["rulebook"]) == ("Ada Reyes", "perm", rulebook.digest)


def test_service_with_water_needs_no_lotion_and_still_has_its_zones(rulebook):
    """A wet set and a practice wrap are planned like a perm, without lotion."""
    for service in ("wet_set", "practice_wrap"):
        plan = plan_to_plain(plan_service(rulebook, head({"service": service})))
        assert plan["verdict"] == "go"
        assert plan["waving_lotion"]["class"] == "none"
        assert len(plan["zones"]) == 9
        assert plan["steps"]
