"""What a plan must never do, over thousands of random heads.

The invariants are written here once more in plain Python, from the words of the trade alone: nothing in this
file reads the limits or the tables, so a fault in those cannot excuse itself. Who may be served at all is the
matter of the second opinion beside it.
"""

import json
import random
from dataclasses import replace
from pathlib import Path

import pytest
from second_opinion import second_opinion

from drill.load.consultation import read_consultation
from drill.load.reading import read_text
from drill.service.consultation import Consultation, consultation_to_plain
from drill.service.kit import BUILT_IN_KIT, Kit, Tool
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain

HEADS = 5_000
MANY_HEADS = 100_000
ZONES = (
    "top", "left_side", "right_side", "back_left", "back_center", "back_right",
    "nape_left", "nape_center", "nape_right",
)  # fmt: skip
NAPE = ZONES[6:]
STRICTNESS = ("go", "test_first", "ask_first", "postpone", "refer", "decline")
WORKING = STRICTNESS[:2]
TEST_ORDER = ("scalp_look", "porosity", "elasticity", "metal_strand", "skin_test", "test_curls")
OPPOSITE = {
    "forward": "back",
    "back": "forward",
    "left": "right",
    "right": "left",
    "up": "down",
    "down": "up",
}
# The zones that take tools where only a part of the head is done.
WOUND = {
    "top": ("top", "left_side", "right_side", "back_center"),
    "crown": ("back_center", "top", "back_left", "back_right"),
    "nape": (*NAPE, "back_left", "back_center", "back_right"),
    "fringe": ("top", "left_side", "right_side"),
}
# Where nobody says how a zone is worn it falls down, the top back.
FALLS = dict.fromkeys(ZONES, "down") | {"top": "back"}

# Every value of every field, harmless ones first; None stands for a field left out.
HEAD = {
    "service": ("perm", "wet_set", "practice_wrap"),
    "hair.strand": ("medium", "fine", "coarse", "unknown", None),
    "hair.density": ("average", "thin", "thick", "unknown", None),
    "hair.pattern": ("straight", "wavy", "curly", "coily", "unknown", None),
    "hair.elasticity": ("good", "reduced", "none", "unknown", None),
    "hair.ends": ("even", "layered", "unknown", None),
    "history.known": ("yes", "no", "unknown", None),
    "history.color": ("none", "semi", "permanent", "unknown", None),
    "history.weeks_since_color": (30.0, 0.0, 0.9999, 1.0, 1.5, 1.9999, 2.0, 2.0001, 6.0, "unknown", None),
    "history.lightened": ("none", "highlights", "all_over", "twice", "unknown", None),
    "history.relaxer": ("none", "thio", "hydroxide", "unsure", "unknown", None),
    "history.weeks_since_relaxer": ("unknown", 0.0, 8.0, 30.0, 200.0, None),
    "history.smoothing": ("no", "yes", "unknown", None),
    "history.metallic_dye": ("no", "suspected", "yes", "unknown", None),
    "history.weeks_since_perm": ("never", 0.0, 4.0, 7.9999, 8.0, 11.9999, 12.0, 40.0, 200.0, "unknown", None),
    "history.reaction": ("no", "yes", "unknown", None),
    "scalp": ("healthy", "irritated", "broken", "unknown", None),
    "health.treatment": ("none", "new_medicine", "chemotherapy", "unknown", None),
    "health.months_since": (24.0, 0.0, 5.9999, 6.0, 6.0001, 7.0, "unknown", None),
    "wish.curl": ("medium", "body", "soft", "tight", 2.0, 8.0, 11.0, 13.0, 16.0, 24.0, 39.9, 100.0),
    "wish.root_volume": ("moderate", "low", "high", "unknown", None),
    "wish.look": ("waves", "ringlets", "unknown", None),
    "wish.part": ("whole", "top", "crown", "nape", "fringe", "regrowth", None),
    "pace": ("beginner", "exam_ready", "stylist", None),
    "appointment": (300.0, 0.0, 59.9999, 60.0, 60.0001, 180.0, "unknown", None),
}
LENGTHS_MM = (
    180.0, 10.0, 40.0, 80.0, 120.0, 149.9999, 150.0, 199.9999, 200.0, 250.0, 299.9999, 300.0, 457.1999, 457.2,
    700.0, 1500.0,
)  # fmt: skip
ZONE = {
    "hair.shortest": ("unknown", 10.0, 60.0, 150.0, None),
    "hair.porosity": ("average", "resistant", "porous", "overporous", "unknown", None),
    "hair.growth": ("none", "forward", "back", "up", "down", "left", "right", "whorl", None),
    "wish.wear": ("down", "forward", "back", "left", "right", "unknown", None),
    "wish.blend": ("no", "yes", None),
}
KITS = (
    BUILT_IN_KIT,
    BUILT_IN_KIT,
    Kit("few", (Tool(9.525, 11.1125, 76.2, "concave", 3), Tool(12.7, 15.7, 76.0, "concave", 2))),
    Kit("long", (Tool(12.7, 12.7, 200.0, "long", 40), Tool(25.4, 25.4, 300.0, "flexible", 9))),
)
# From harmless to worse; a verdict never loosens on the way.
WORSE = (
    ("scalp", ("healthy", "irritated", "broken")),
    ("scalp", ("healthy", "unknown")),
    ("history.reaction", ("no", "yes")),
    ("history.reaction", ("no", "unknown")),
    ("history.relaxer", ("none", "thio", "hydroxide")),
    ("history.relaxer", ("none", "unsure")),
    ("history.relaxer", ("none", "unknown")),
    ("history.metallic_dye", ("no", "suspected", "yes")),
    ("history.metallic_dye", ("no", "unknown")),
    ("history.smoothing", ("no", "yes")),
    ("history.lightened", ("none", "highlights", "all_over")),
    ("history.lightened", ("none", "twice")),
    ("history.lightened", ("none", "unknown")),
    ("history.color", ("none", "semi", "permanent")),
    ("history.weeks_since_color", (30.0, 2.0, 1.0, 0.0)),
    ("history.weeks_since_perm", ("never", 200.0, 40.0, 12.0, 11.9999, 0.0)),
    ("history.known", ("yes", "no")),
    ("history.known", ("yes", "unknown")),
    ("hair.elasticity", ("good", "reduced", "none")),
    ("hair.elasticity", ("good", "unknown")),
    ("hair.porosity", ("average", "porous", "overporous")),
    ("hair.porosity", ("resistant", "overporous")),
    ("hair.porosity", ("average", "unknown")),
    ("health.treatment", ("none", "new_medicine")),
    ("health.treatment", ("none", "chemotherapy")),
    ("health.treatment", ("none", "unknown")),
    ("health.months_since", (24.0, 6.0, 5.9999, 0.0)),
    ("health.months_since", (24.0, "unknown")),
    ("appointment", (300.0, 60.0, 59.9999, 0.0)),
)


def draw(rng: random.Random) -> Consultation:
    """Draw a head: a few worries upon a harmless one, or everything by chance."""
    wild = rng.random() < 0.4
    share = 1.0 if wild else rng.choice((0.0, 0.05, 0.15))

    def one(values):
        return rng.choice(values) if rng.random() < share else values[0]

    head = {"service": rng.choice(HEAD["service"][:1] * 4 + HEAD["service"][1:])}
    head |= {name: one(values) for name, values in HEAD.items() if name != "service"}
    if not wild:  # what shapes a wrap is drawn freely, so that many plans work
        for name in ("hair.strand", "hair.density", "hair.pattern", "hair.ends", "wish.curl", "wish.look"):
            head[name] = rng.choice(HEAD[name])
        head["wish.root_volume"] = rng.choice(HEAD["wish.root_volume"])
    by_zone = rng.random() < 0.5
    length, porosity = rng.choice(LENGTHS_MM), one(ZONE["hair.porosity"])
    zones = {}
    for zone in ZONES:
        values = {
            "hair.length": rng.choice(LENGTHS_MM) if by_zone else length,
            "hair.shortest": one(ZONE["hair.shortest"]),
            "hair.porosity": one(ZONE["hair.porosity"]) if by_zone else porosity,
            "hair.growth": rng.choice(ZONE["hair.growth"]),
            "wish.wear": rng.choice(ZONE["wish.wear"]),
            "wish.blend": rng.choice(ZONE["wish.blend"]),
        }
        if isinstance(values["hair.shortest"], float):
            values["hair.shortest"] = min(values["hair.shortest"], values["hair.length"])
        zones[zone] = {name: value for name, value in values.items() if value is not None}
    head = {name: value for name, value in head.items() if value is not None}
    return Consultation(head=head, zones=zones, kit=rng.choice(KITS))


def faults(consultation: Consultation, plan: dict) -> list[str]:
    """List every invariant that a plan breaks, in words."""
    return [
        *_verdict_faults(consultation, plan),
        *_zone_faults(consultation, plan),
        *_test_curl_faults(consultation, plan),
        *_saying_faults(consultation, plan),
    ]


def _porosities(consultation: Consultation) -> set:
    return {consultation.of("hair.porosity", zone) for zone in ZONES}


# Growth of 367 micrometres a day (H10); natural curls are from memory.
GROWTH_MM_A_WEEK = 0.367 * 7
NATURAL_MM = {"wavy": 30.0, "curly": 14.0, "coily": 6.0}
WISHED_MM = {"tight": 8.5, "medium": 13.5, "soft": 20.0, "body": 32.0}


def told(consultation: Consultation) -> dict:
    """Tell the second opinion of a head, with what follows from lengths, dates and places worked out anew."""
    of = consultation.of
    head = {name: of(name) for name in HEAD}
    longest_mm = max(consultation.of("hair.length", zone) for zone in ZONES)
    order = ("resistant", "average", "porous", "overporous")
    felt = sorted((one for one in _porosities(consultation) if one != "unknown"), key=order.index)
    all_felt = "unknown" not in _porosities(consultation)
    head["porosity.weakest"] = felt[-1] if all_felt or "overporous" in felt else "unknown"
    head["porosity.strongest"] = felt[0] if all_felt else "unknown"

    def left(weeks):
        if isinstance(weeks, str):
            return {"never": "none"}.get(weeks, "unknown")
        treated_mm = longest_mm - weeks * GROWTH_MM_A_WEEK
        if treated_mm <= 0:
            return "none"
        return "all" if treated_mm > 0.95 * longest_mm else "part"

    perm, relaxed = of("history.weeks_since_perm"), of("history.weeks_since_relaxer")
    head["perm.left"] = left(perm)
    head["color.left"] = "none" if of("history.color") == "none" else left(of("history.weeks_since_color"))
    head["relaxer.left"] = left(relaxed)
    if of("history.relaxer") == "none" and relaxed == "unknown":
        head["relaxer.left"] = "none"
    opened = [(head["perm.left"], perm)]
    if of("history.relaxer") == "thio":
        opened.append((head["relaxer.left"], relaxed))
    weeks = [since for state, since in opened if state in ("part", "all")]
    head["growth.new"] = min(weeks) * GROWTH_MM_A_WEEK if weeks else "none"
    if any(state == "unknown" for state, _ in opened):
        head["growth.new"] = "unknown"
    head["wish.against_natural"] = _against_natural(of("wish.curl"), of("hair.pattern"))
    return head


def _against_natural(curl, pattern: str) -> str:
    if pattern == "straight":
        return "tighter"
    if pattern == "unknown":
        return "unknown"
    ratio = WISHED_MM.get(curl, curl) / NATURAL_MM[pattern]
    if ratio >= 1.25:
        return "looser"
    return "tighter" if ratio <= 1 / 1.25 else "as_own"


def _verdict_faults(consultation: Consultation, plan: dict) -> list[str]:
    """Hold the verdict against the second opinion; a service that is not done has nothing to work with."""
    of, verdict = consultation.of, plan["verdict"]
    second = second_opinion(told(consultation))
    found = [] if verdict == second else [f"the second opinion says {second}, the plan {verdict}"]
    if of("service") == "perm" and verdict == "ask_first":
        names = ("scalp", "history.reaction", "history.relaxer", "history.metallic_dye", "health.treatment")
        missing = [name for name in (*names, "hair.elasticity") if of(name) == "unknown"]
        missing += ["hair.porosity"] if "unknown" in _porosities(consultation) else []
        if of("history.lightened") == "unknown" and of("history.color") not in ("none", "semi"):
            missing.append("history.lightened")
        asked = {one["field"] for one in plan["ask_first"]}
        found += [f"{name} is not asked" for name in missing if name not in asked]
    if verdict not in WORKING:
        nothing = {"class": "none", "strength": "none", "ester": "no", "heat": "none"}
        found += ["zones without a service"] if plan["zones"] else []
        found += ["steps without a service"] if plan["steps"] else []
        found += ["lotion without a service"] if plan["waving_lotion"] != nothing else []
        found += ["totals without a service"] if any(plan["totals"].values()) else []
    elif set(plan["zones"]) != set(ZONES) or not plan["steps"]:
        found.append("a working plan without its nine zones or its steps")
    if of("service") != "perm" and plan["waving_lotion"]["class"] != "none":
        found.append("lotion in a service with water")
    return found


def _is_weak(consultation: Consultation) -> bool:
    of = consultation.of
    return (
        of("hair.elasticity") in ("reduced", "none")
        or of("history.lightened") in ("highlights", "all_over", "twice")
        or of("history.relaxer") == "thio"
        or "overporous" in _porosities(consultation)
    )


def _zone_faults(consultation: Consultation, plan: dict) -> list[str]:
    """Restate invariants 3, 4 and 6, and that no more than nine or ten turns lie over one another."""
    found = []
    notes = " ".join(plan["notes"])
    for name, zone in plan["zones"].items():
        left_out = name not in WOUND.get(consultation.of("wish.part"), ZONES)
        if left_out != (zone["part"]["role"] == "left_out"):
            found.append(f"{name} is left out by mistake, or wound by mistake")
        if left_out:
            found += [f"{name} is left out and has tools"] if zone["tools"] or zone["papers_count"] else []
            continue
        growth, wear = consultation.of("hair.growth", name), consultation.of("wish.wear", name)
        wish = FALLS[name] if wear == "unknown" else wear
        if zone["roll_direction"] == OPPOSITE.get(growth):
            found.append(f"{name} is rolled against its growth")
        if wish == OPPOSITE.get(growth):
            words = name.replace("_", " ").replace("center", "centre")
            found += [] if zone["roll_direction"] == growth else [f"growth does not win in {name}"]
            found += [] if words in notes else [f"no note that growth wins in {name}"]
        elif growth != "whorl" and zone["roll_direction"] != wish:
            found.append(f"{name} is not rolled as it is worn")
        if zone["base_control"] == "on_base":
            found += [f"{name} is on base"] if name in NAPE else []
            found += [f"{name} is on base at a whorl"] if growth == "whorl" else []
            found += [f"{name} is on base on weak hair"] if _is_weak(consultation) else []
        found += _wrap_faults(name, zone, papers=consultation.of("service") == "perm")
    return found


def _wrap_faults(name: str, zone: dict, *, papers: bool) -> list[str]:
    found = []
    if papers and zone["papers"] not in ("bookend", "double_flat", "single_flat"):
        found.append(f"{name} has no papers")
    if zone["wrap"] == "croquignole" and zone["turns"] > 9:
        found.append(f"{name} has more turns than lotion reaches through")
    if zone["papers"] != "none" and sum(one["count"] for one in zone["tools"]) > zone["papers_count"]:
        found.append(f"{name} has fewer papers than tools")
    return found


def _test_curl_faults(consultation: Consultation, plan: dict) -> list[str]:
    """Restate invariant 5: what leaves a doubt, where the tools go, and what comes before them."""
    of, curls = consultation.of, plan["test_curls"]
    kinds = [one["kind"] for one in plan["tests"]]
    found = []
    doubts = (
        of("history.known") != "yes",
        of("health.treatment") == "new_medicine",
        of("history.metallic_dye") == "suspected",
        of("history.lightened") == "highlights",
        of("history.relaxer") == "thio",
    )
    if of("service") == "perm" and any(doubts):
        found += [] if curls["needed"] else ["doubt without test curls"]
        found += ["doubt and still go"] if plan["verdict"] == "go" else []
    if curls["needed"]:
        found += _place_faults(consultation, curls["zones"])
        if not 2 <= curls["count"] <= 3 or curls["count"] != len(set(curls["zones"])):
            found.append("not two or three test curls in places of their own")
        if plan["verdict"] in WORKING:
            found += [] if kinds[-1] == "test_curls" else ["test curls are not the last test"]
            found += [] if curls["steps"] else ["test curls without steps"]
    elif curls["zones"] or curls["count"]:
        found.append("places for test curls that nobody needs")
    if sorted(kinds, key=TEST_ORDER.index) != kinds or len(set(kinds)) != len(kinds):
        found.append("tests out of order")
    if of("service") == "perm":
        first = ["scalp_look", "porosity", "elasticity"]
        found += [] if kinds[:3] == first else ["hair and scalp are not felt first"]
        if of("history.metallic_dye") == "suspected" and "test_curls" in kinds:
            found += [] if "metal_strand" in kinds else ["test curls before the strand in the dish"]
    return found


def _place_faults(consultation: Consultation, places: list[str]) -> list[str]:
    order = ("resistant", "average", "porous", "overporous")
    wound = WOUND.get(consultation.of("wish.part"), ZONES)
    if not set(places) <= set(wound):
        return ["test curls on hair that is left out"]
    known = [one for one in (consultation.of("hair.porosity", zone) for zone in wound) if one != "unknown"]
    chosen = {consultation.of("hair.porosity", zone) for zone in places}
    if not known:
        return []
    ends = {min(known, key=order.index), max(known, key=order.index)}
    return [] if ends <= chosen else ["test curls miss the most resistant or the weakest place"]


def _saying_faults(consultation: Consultation, plan: dict) -> list[str]:
    """Restate invariant 7: what is said wherever lotion may be used."""
    found = []
    if plan["waving_lotion"]["class"] != "none":
        said = " ".join(plan["cautions"]).lower()
        words = (
            "glove",
            "eye",
            "fresh air",
            "maker's directions",
            "longest time",
            "burn",
            "rinse",
            "local codes",
        )
        found += [f"no caution of {word}" for word in (*words, "licensed practice") if word not in said]
        stops = [step["sign_off"] for step in plan["steps"] if step["sign_off"] != "none"]
        if stops != ["consultation", "wrap", "saturation", "test_curl", "before_take_down"]:
            found.append("not the five stops")
        found += [] if "five stops" in said else ["no caution of the five stops"]
    if consultation.of("service") == "perm":
        aid = " ".join(one["text"] for one in plan["first_aid"]).lower()
        found += [f"no first aid for {word}" for word in ("burn", "eye", "swallow") if word not in aid]
        keys = list(plan)
        found += [] if keys.index("first_aid") < keys.index("steps") else ["steps stand before first aid"]
    return found


def _check(rulebook, numbers) -> dict[str, int]:
    seen = dict.fromkeys(STRICTNESS, 0)
    for number in numbers:
        consultation = draw(random.Random(number))
        plan = plan_to_plain(plan_service(rulebook, consultation))
        broken = faults(consultation, plan)
        assert not broken, f"head {number}: {broken}\n{json.dumps(consultation_to_plain(consultation))}"
        seen[plan["verdict"]] += 1
    return seen


def test_values_drawn_are_all_that_a_consultation_can_state(rulebook):
    """A value that the vocabulary gains must be drawn here too."""
    entered = {name: domain for name, domain in rulebook.domains.items() if domain.entered}
    drawn = HEAD | ZONE | {"hair.length": LENGTHS_MM}
    assert set(drawn) == set(entered)
    for name, domain in entered.items():
        named = {value for value in drawn[name] if isinstance(value, str)}
        assert named == set(domain.values), name
        assert bool(domain.unit) == any(isinstance(value, float) for value in drawn[name]), name


def test_no_plan_of_five_thousand_heads_breaks_an_invariant(rulebook):
    """Every invariant on every head; the draw meets every verdict often enough to mean something."""
    seen = _check(rulebook, range(HEADS))
    assert min(seen.values()) > HEADS / 200, seen


@pytest.mark.long
@pytest.mark.timeout(1800)
def test_no_plan_of_a_hundred_thousand_heads_breaks_an_invariant(rulebook):
    """The same, for a night."""
    _check(rulebook, range(HEADS, HEADS + MANY_HEADS))


def test_invariants_catch_a_plan_that_breaks_them(rulebook):
    """A check that cannot fail checks nothing: each kind of fault is put in and found."""
    harmless = Consultation(
        head={name: values[0] for name, values in HEAD.items()},
        zones={zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONES},
    )
    plan = plan_to_plain(plan_service(rulebook, harmless))
    assert faults(harmless, plan) == []
    broken = Consultation(
        head={
            **harmless.head,
            "scalp": "broken",
            "history.known": "no",
            "history.metallic_dye": "suspected",
            "history.relaxer": "thio",
            "hair.elasticity": "unknown",
        },
        zones={
            zone: {"hair.length": 180.0, "hair.porosity": "average", "hair.growth": "up"} for zone in ZONES
        },
    )
    spoiled = json.loads(json.dumps(plan))
    for zone in spoiled["zones"].values():
        zone |= {"base_control": "on_base", "papers": "none", "turns": 9.5}
    spoiled |= {"cautions": [], "first_aid": [], "tests": spoiled["tests"][::-1]}
    said = "\n".join(faults(broken, spoiled))
    for word in (
        "the second opinion says postpone, the plan go",
        "against its growth",
        "growth does not win",
        "on base on weak hair",
        "nape_left is on base",
        "has no papers",
        "more turns than lotion reaches",
        "doubt without test curls",
        "tests out of order",
        "no caution of glove",
        "no first aid for eye",
    ):
        assert word in said, word
    stopped = plan | {"verdict": "decline"}
    assert {"zones without a service", "lotion without a service"} <= set(faults(harmless, stopped))


@pytest.mark.parametrize(
    ("name", "chain"), WORSE, ids=lambda one: one if isinstance(one, str) else "-".join(map(str, one))
)
def test_verdict_only_tightens_when_a_fact_becomes_unknown_or_worse(rulebook, name, chain):
    """From harmless to worse, on sixty heads, the strictness never falls.

    Answers that contradict one another are asked about, whichever of them is the more harmless.
    """
    for number in range(60):
        drawn = draw(random.Random(f"{name} {number}"))
        plans = [plan_service(rulebook, _with(drawn, name, value)) for value in chain]
        ranks = [STRICTNESS.index(plan.verdict) for plan in plans if not plan.questions]
        assert ranks == sorted(ranks), (number, ranks, consultation_to_plain(drawn))


def _with(consultation: Consultation, name: str, value) -> Consultation:
    if name in ZONE:  # at one place, as it is found there
        zones = {**consultation.zones, "nape_left": {**consultation.zones["nape_left"], name: value}}
        return replace(consultation, zones=zones)
    return replace(consultation, head={**consultation.head, name: value})


def test_fields_left_out_that_do_not_ask_leave_a_clear_head_at_go(rulebook):
    """Only the facts named as safety ask by being left out; of the rest none does by itself."""
    clear = Consultation(
        head={name: values[0] for name, values in HEAD.items()},
        zones={zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONES},
    )
    asks = {
        "scalp", "history.reaction", "history.relaxer", "history.metallic_dye", "health.treatment",
        "hair.elasticity",
    }  # fmt: skip
    for name in set(HEAD) - {"service", "wish.curl"}:
        head = {other: value for other, value in clear.head.items() if other != name}
        verdict = plan_service(rulebook, replace(clear, head=head)).verdict
        expected = "ask_first" if name in asks else "test_first" if name == "history.known" else "go"
        assert verdict == expected, name


@pytest.mark.parametrize(
    ("color", "verdict"), [("none", "go"), ("semi", "go"), ("permanent", "ask_first"), (None, "ask_first")]
)
def test_lightening_left_out_counts_as_none_only_where_no_lasting_colour_was_used(rulebook, color, verdict):
    """Permanent colour often comes with lightener; no colour and one that washes out do not."""
    head = {name: values[0] for name, values in HEAD.items() if name != "history.lightened"}
    head["history.color"] = color or "unknown"
    zones = {zone: {"hair.length": 180.0, "hair.porosity": "average"} for zone in ZONES}
    assert plan_service(rulebook, Consultation(head=head, zones=zones)).verdict == verdict


def test_mirrored_head_gets_the_mirrored_plan(rulebook):
    """Left and right are alike in everything but the order in which a kit that runs short is shared out."""
    for number in range(400):
        drawn = draw(random.Random(f"mirror {number}"))
        plan = plan_to_plain(plan_service(rulebook, drawn))
        other = plan_to_plain(plan_service(rulebook, _mirrored(drawn)))
        for name in ("verdict", "verdict_reasons", "waving_lotion", "steps", "cautions", "tests", "instead"):
            assert other[name] == plan[name], (number, name)
        assert other["test_curls"]["count"] == plan["test_curls"]["count"]
        if not any(_runs_short(one) for one in (plan, other)):
            assert other["totals"]["tools"] == plan["totals"]["tools"]
        for zone, values in plan["zones"].items():
            mirrored = other["zones"][_swap(zone)]
            assert mirrored["roll_direction"] == _swap(values["roll_direction"]), (number, zone)
            for name in set(values) - {"roll_direction", "tools", "papers_count"}:
                assert mirrored[name] == values[name], (number, zone, name)


def _runs_short(plan) -> bool:
    return any("runs out" in note or "lacks" in note for note in plan["notes"])


def _swap(word: str) -> str:
    return word.replace("left", "RIGHT").replace("right", "left").replace("RIGHT", "right")


def _mirrored(consultation: Consultation) -> Consultation:
    zones = {
        _swap(zone): {
            name: _swap(value) if isinstance(value, str) else value for name, value in values.items()
        }
        for zone, values in consultation.zones.items()
    }
    return replace(consultation, zones={zone: zones[zone] for zone in ZONES})


def test_consultation_written_as_json_is_read_back_to_the_same_plan(rulebook):
    """Whoever stores a plan's consultation, lengths and kit included, gets the plan again."""
    for number in range(600):
        drawn = draw(random.Random(f"again {number}"))
        plan = plan_to_plain(plan_service(rulebook, drawn))
        text = json.dumps(plan["consultation"])
        nodes, problems = read_text(text.encode(), shown="again.json")
        again = read_consultation(nodes[0], rulebook, problems, folder=Path())
        assert not problems, (number, [str(one) for one in problems])
        assert plan_to_plain(plan_service(rulebook, again)) == plan, (number, text)


def test_every_trace_entry_names_a_row_that_exists_and_a_value_of_its_table(rulebook):
    """A reason that cannot be looked up is none."""
    for number in range(400):
        drawn = draw(random.Random(f"trace {number}"))
        plan = plan_service(rulebook, drawn)
        for one in plan.trace:
            if one.row == "computed":
                assert isinstance(one.value, float)
                continue
            table = rulebook.tables[one.decision]
            values = one.value if isinstance(one.value, tuple) else (one.value,)
            assert set(values) <= set(table.gives), one.decision
            assert set(one.also) <= set(table.gives) - set(values), one.decision
            for row in filter(None, one.row.split(", ")):
                assert table.row(row), f"{one.decision} has no row {row}"
            for rejected in one.rejected:
                assert table.row(rejected.row)
                assert rejected.input in table.inputs
        decided = {(one.decision, one.zone) for one in plan.trace}
        assert len(decided) == len(plan.trace), "a decision stands twice in the trace"
        assert ("verdict", None) in decided
        for zone in plan.zones:
            assert ("part.role", zone) in decided
            if plan.zones[zone].role == "left_out":
                continue
            for name in ("layout", "roll_direction", "base_control", "papers", "tool.diameter_mm", "turns"):
                assert (name, zone) in decided
