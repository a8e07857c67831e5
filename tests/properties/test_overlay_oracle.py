"""Random local rules of all five kinds, judged by somebody who reads no limit and no table.

What is let through may break none of the trade's invariants on any head tried. The judge below is written
from the words of the trade alone, over plans made under the changed rules; what the rules themselves say of
limits is not asked. A rule is written as YAML, and goes the way of an instructor's own.
"""

import json
import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest

from drill.load.names import names_of
from drill.load.overlay import COMPUTED_WITH, read_overlay
from drill.load.reading import read_text
from drill.rulebook.domain import UNKNOWN, Domain, Value
from drill.rulebook.overlay import apply
from drill.rulebook.proof import prove
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.facts import FACTS
from drill.service.kept_words import lost_words
from drill.service.kit import BUILT_IN_KIT
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.service.zones import ZONE_NAMES

OPS = ("add", "replace", "remove", "set", "widen")
# Heads tried under a rule that is let through, and under one that is refused: would it have hurt?
HEADS, HEADS_REFUSED = 40, 12
FEW, FEW_PARTS = 7, 15
PART, PARTS = 50, 44
NAPE = ("nape_left", "nape_center", "nape_right")
OPPOSITE = {
    "forward": "back",
    "back": "forward",
    "left": "right",
    "right": "left",
    "up": "down",
    "down": "up",
}
WORKING = ("go", "test_first")
# Where a slip hurts somebody: these are changed more often than the others.
GRAVE = (
    "verdict", "base_control", "roll_direction", "papers", "cautions", "first_aid", "steps", "tests",
    "test_curls.needed", "waving_lotion.class", "waving_lotion.strength", "hair.condition",
)  # fmt: skip
SURE = {
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
    "hair.strand": "medium",
    "hair.density": "average",
    "hair.pattern": "straight",
    "hair.elasticity": "good",
    "wish.curl": "medium",
    "wish.root_volume": "moderate",
    "wish.look": "waves",
}
WORRIES: tuple[dict[str, Value], ...] = (
    {"scalp": "broken"},
    {"scalp": "irritated"},
    {"scalp": UNKNOWN},
    {"history.relaxer": "hydroxide"},
    {"history.relaxer": "unsure"},
    {"history.relaxer": "thio"},
    {"history.relaxer": UNKNOWN},
    {"history.smoothing": "yes"},
    {"history.metallic_dye": "yes"},
    {"history.metallic_dye": "suspected"},
    {"history.metallic_dye": UNKNOWN},
    {"history.reaction": "yes"},
    {"history.reaction": UNKNOWN},
    {"history.known": "no"},
    {"history.known": UNKNOWN},
    {"history.color": "permanent", "history.lightened": "highlights", "history.weeks_since_color": 20.0},
    {"history.color": "permanent", "history.lightened": "all_over", "history.weeks_since_color": 20.0},
    {"history.color": "permanent", "history.lightened": "twice", "history.weeks_since_color": 20.0},
    {"health.treatment": "chemotherapy", "health.months_since": 3.0},
    {"health.treatment": "new_medicine"},
    {"health.treatment": UNKNOWN},
    {"hair.elasticity": "none"},
    {"hair.elasticity": "reduced"},
    {"hair.elasticity": UNKNOWN},
    {"hair.porosity": "overporous"},
    {"hair.porosity": UNKNOWN},
    {"wish.root_volume": "high"},
    {"wish.look": "ringlets"},
    {"wish.curl": "tight"},
    {"wish.curl": "body"},
    {"service": "wet_set"},
    {"service": "practice_wrap"},
)
UNITS = {"mm": "mm", "weeks": "weeks", "months": "months", "min": "min"}


@dataclass(frozen=True)
class Head:
    """A consultation, and what the judge takes its values for."""

    stated: dict[str, Value]
    zones: dict[str, dict[str, Value]]
    counts_as: dict[tuple[str, str], str] = field(default_factory=dict)

    def of(self, name: str, zone: str = "") -> Value:
        value = (self.zones[zone] if zone else self.stated).get(name, UNKNOWN)
        return self.counts_as.get((name, str(value)), value)


# The judge.


def faults(head: Head, plan: dict[str, Any]) -> Iterator[str]:
    """Name every invariant that a plan breaks."""
    works = plan["verdict"] in WORKING
    if works:
        yield from _served_in_harm(head)
        yield from _zone_faults(head, plan)
    if head.of("service") == "perm":
        yield from _untold(plan, works=works)
        if works:
            yield from _untested(head, plan)
    if not works and (plan["zones"] or plan["steps"]):
        yield "a service that is not done has steps"
    if not works and plan["waving_lotion"]["class"] != "none":
        yield "lotion where nothing is done"


HARMFUL: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("history.relaxer", ("hydroxide", "unsure"), "a perm on relaxed hair"),
    ("history.smoothing", ("yes",), "a perm on smoothed hair"),
    ("history.metallic_dye", ("yes",), "a perm on metal"),
    ("hair.elasticity", ("none",), "a perm on hair that does not stretch"),
    ("history.lightened", ("all_over", "twice"), "a perm on hair lightened all over"),
    ("history.reaction", ("yes",), "a perm after a reaction"),
)
ASKED = (
    "scalp",
    "history.reaction",
    "history.relaxer",
    "history.metallic_dye",
    "health.treatment",
    "hair.elasticity",
)


def _served_in_harm(head: Head) -> Iterator[str]:
    """Invariants 1 and 2: who is not served, and who is asked first."""
    of = head.of
    if of("service") != "practice_wrap" and of("scalp") in ("broken", "irritated"):
        yield "served on a scalp that is not whole"
    if of("service") != "perm":
        return
    for name, values, fault in HARMFUL:
        if of(name) in values:
            yield fault
    months = of("health.months_since")
    if of("health.treatment") == "chemotherapy" and not (isinstance(months, float) and months >= 6):
        yield "a perm soon after chemotherapy"
    yield from (f"a perm with {name} unknown" for name in ASKED if of(name) == UNKNOWN)
    if any(of("hair.porosity", zone) == UNKNOWN for zone in ZONE_NAMES):
        yield "a perm with hair.porosity unknown"


def _zone_faults(head: Head, plan: dict[str, Any]) -> Iterator[str]:
    """Invariants 3, 4 and 6: directions, bases and papers."""
    of, is_perm = head.of, head.of("service") == "perm"
    is_weak = (
        of("hair.elasticity") in ("reduced", "none")
        or of("history.lightened") in ("highlights", "all_over", "twice")
        or of("history.relaxer") == "thio"
    )
    for zone, values in plan["zones"].items():
        if not values["tools"]:
            continue
        growth = of("hair.growth", zone)
        if OPPOSITE.get(str(growth)) == _taken(head, "roll_direction", values):
            yield f"{zone} is rolled against its growth"
        if _taken(head, "base_control", values) == "on_base":
            if zone in NAPE:
                yield f"{zone} is rolled on base"
            if growth == "whorl":
                yield f"a whorl at {zone} is rolled on base"
            if is_weak or of("hair.porosity", zone) == "overporous":
                yield f"weak hair at {zone} is rolled on base"
        if is_perm and _taken(head, "papers", values) not in ("bookend", "double_flat", "single_flat"):
            yield f"{zone} has no papers"


def _taken(head: Head, name: str, values: dict[str, Any]) -> str:
    return head.counts_as.get((name, values[name]), values[name])


def _untested(head: Head, plan: dict[str, Any]) -> Iterator[str]:
    """Invariant 5: a doubt is tried on two or three tools, and metal in a dish before that."""
    of = head.of
    doubt = (
        of("history.known") != "yes"
        or of("health.treatment") == "new_medicine"
        or of("history.metallic_dye") == "suspected"
        or of("history.lightened") == "highlights"
        or of("history.relaxer") == "thio"
    )
    if not doubt:
        return
    curls, kinds = plan["test_curls"], [one["kind"] for one in plan["tests"]]
    if plan["verdict"] != "test_first" or curls["needed"] is not True or "test_curls" not in kinds:
        yield "a doubt without test curls"
    elif not (curls["count"] in (2, 3) and curls["zones"] and curls["steps"]):
        yield "test curls that are none"
    elif (
        of("history.metallic_dye") == "suspected" and "metal_strand" not in kinds[: kinds.index("test_curls")]
    ):
        yield "test curls before the strand in the dish"


CAUTIONS = (
    "gloves from the first drop",
    "out of the eyes",
    "fresh air",
    "read the maker's directions",
    "longest time is the limit",
    "burning means rinse now",
    "local codes",
    "licensed practice",
    "five stops",
)
STOPS = ("sign_consultation", "sign_wrap", "sign_saturation", "sign_test_curl", "sign_take_down")


def _untold(plan: dict[str, Any], *, works: bool) -> Iterator[str]:
    """Invariant 7: what everybody is told before any lotion."""
    said = " ".join(plan["cautions"]).lower()
    for words in CAUTIONS:
        if words not in said:
            yield f"the cautions do not say '{words}'"
    if not plan["first_aid"]:
        yield "no first aid"
    steps = [one["id"] for one in plan["steps"]]
    if works and not {*STOPS} <= {*steps}:
        yield "a stop is missing"


# The rules that are written, and the heads they are tried on.


class Writer:
    """Writes local rules by chance.

    Args:
        rulebook: The built-in rules.
        rng: Draws them.
    """

    def __init__(self, rulebook: Rulebook, rng: random.Random) -> None:
        self.rulebook, self.rng, self.names = rulebook, rng, names_of(rulebook)
        self.conditions: list[dict[str, Any]] = []

    def rule(self, op: str) -> dict[str, Any]:
        """Write one rule around a change of one kind, sometimes with a second change of any kind."""
        self.conditions = []
        changes = self._widening() if op == "widen" else [self._change(op)]
        if self.rng.random() < 0.3:
            changes.append(self._change(self.rng.choice(OPS[:4])))
        said = {"overlay": "ours", "kind": "local_rule", "because": "We do.", "source": "House rules"}
        return {**said, "changes": changes}

    def _change(self, op: str) -> dict[str, Any]:
        rng = self.rng
        if op == "set":
            return self._setting()
        table = self.rulebook.tables[self._table()]
        row = rng.choice(table.rows)
        if op == "remove":
            self.conditions.append({name: self._written_of(row, name) for name in row.when})
            return {"op": op, "table": table.decision, "row": row.id}
        new = self._row(table.decision, row.id if op == "replace" else "ours")
        change = {"op": op, "table": table.decision, "row": new}
        if op == "add" and rng.random() < 0.85:
            change["before"] = table.rows[0].id if rng.random() < 0.4 else row.id
        return change

    def _written_of(self, row: Any, name: str) -> Any:
        values = list(row.when[name].values)
        return values or self._condition(self.names(name))

    def _table(self) -> str:
        return self.rng.choice(GRAVE if self.rng.random() < 0.7 else list(self.rulebook.tables))

    def _row(self, name: str, row_id: str) -> dict[str, Any]:
        rng, table = self.rng, self.rulebook.tables[name]
        like = table.row(row_id) or rng.choice(table.rows)
        when: dict[str, Any] = {}
        for one in like.when:
            if rng.random() < 0.5:
                when[one] = self._written_of(like, one)
        readable = [one for one in self._readable(table.per) if one != name]
        for one in rng.sample(readable, rng.choice((0, 0, 1, 2))):
            domain = self.names(one)
            condition = self._condition(domain) if domain else None
            if condition is not None:
                when[one] = condition
        self.conditions.append(when)
        then = rng.choice(table.gives) if rng.random() < 0.7 else table.gives[0]
        row = {"id": row_id, "when": when, "then": then, "because": "We do.", "source": "House rules"}
        if rng.random() < 0.15:
            row["also"] = [rng.choice(table.gives)]
        if like.say or rng.random() < 0.1:
            row["say"] = rng.choice((like.say, like.say, f"{like.say} So we say.", "Never mind."))
        return row

    def _readable(self, per: str) -> list[str]:
        found = []
        for name in self.names.names:
            domain = self.names(name)
            if (
                domain is not None
                and name not in self.names.lists
                and (per == "zone" or domain.per == "head")
            ):
                found.append(name)
        return found

    def _condition(self, domain: Domain | None) -> Any:
        rng = self.rng
        if domain is None:
            return None
        if domain.unit and (not domain.values or rng.random() < 0.7):
            if domain.unit not in UNITS:
                return None
            low, high = sorted(rng.sample((0, 2, 4, 6, 8, 12, 20, 40, 100, 300), 2))
            unit = UNITS[domain.unit]
            return rng.choice((f"< {high} {unit}", f">= {low} {unit}", f"{low} {unit} to {high} {unit}"))
        if not domain.values:
            return None
        return rng.sample(list(domain.values), rng.randint(1, min(3, len(domain.values))))

    def _setting(self) -> dict[str, Any]:
        parameter = self.rng.choice(list(self.rulebook.parameters.values()))
        if parameter.choices:
            return {"op": "set", "parameter": parameter.name, "value": self.rng.choice(parameter.choices)}
        low = parameter.low if parameter.low is not None else 0.0
        high = parameter.high if parameter.high is not None else max(float(parameter.value), 1.0) * 3
        value = self.rng.choice((low, high, (low + high) / 2, high * 2, float(parameter.value)))
        unit = "" if parameter.unit == "ratio" else f" {parameter.unit}"
        return {"op": "set", "parameter": parameter.name, "value": f"{value:.4f}{unit}"}

    def _widening(self) -> list[dict[str, Any]]:
        """A new value that counts as some built-in one, and a row that gives or reads it."""
        rng = self.rng
        entered = [
            name
            for name, one in self.rulebook.domains.items()
            if one.entered and len(one.values) > 1 and name not in COMPUTED_WITH
        ]
        if rng.random() < 0.5:
            name = rng.choice(entered)
            known = [value for value in self.rulebook.domains[name].values if value != UNKNOWN]
            reads = [one.decision for one in self.rulebook.tables.values() if name in one.inputs] or [
                "verdict"
            ]
            row = self._row(rng.choice(reads), "ours")
            row["when"] = {name: "of_our_own"}
            table = rng.choice(reads)
            row["then"] = rng.choice(self.rulebook.tables[table].gives)
            row.pop("also", None)
        else:
            name = table = self._table()
            known = list(self.rulebook.tables[name].gives)
            row = {**self._row(name, "ours"), "then": "of_our_own"}
            row.pop("also", None)
        counts_as = rng.choice(known)
        widen = {"op": "widen", "vocabulary": name, "value": "of_our_own", "counts_as": counts_as}
        add = {"op": "add", "table": table, "row": row}
        if rng.random() < 0.8:
            add["before"] = self.rulebook.tables[table].rows[0].id
        return [widen, add] if rng.random() < 0.85 else [widen]


def heads(
    rulebook: Rulebook, rng: random.Random, conditions: list[dict[str, Any]], count: int
) -> Iterator[Head]:
    """Draw heads that a rule is about: harmless ones with a worry or two, and what its rows name."""
    counts_as = {
        (name, new): old for name, one in rulebook.domains.items() for new, old in one.counts_as.items()
    } | {(name, new): old for name, one in rulebook.tables.items() for new, old in one.counts_as.items()}
    for _ in range(count):
        stated: dict[str, Value] = dict(SURE)
        for worry in rng.sample(WORRIES, rng.choice((0, 1, 1, 2))):
            stated |= worry
        for when in rng.sample(conditions, min(len(conditions), rng.choice((0, 1, 2)))):
            stated |= dict(_values(rulebook, when, rng))
        for name, domain in rulebook.domains.items():
            if domain.entered and domain.counts_as and rng.random() < 0.5:
                stated[name] = rng.choice(list(domain.counts_as))
        everywhere = {name: stated.pop(name) for name in list(stated) if rulebook.domains[name].per == "zone"}
        length = rng.choice((60.0, 120.0, 180.0, 250.0, 350.0, 600.0))
        zones: dict[str, dict[str, Value]] = {}
        for zone in ZONE_NAMES:
            zones[zone] = {
                "hair.length": length,
                "hair.porosity": "average",
                "hair.growth": rng.choice(("none", "none", *OPPOSITE, "whorl")),
                "wish.wear": rng.choice((*OPPOSITE.keys() - {"up"}, UNKNOWN))
                if rng.random() < 0.7
                else "down",
            } | everywhere
        yield Head(stated=stated, zones=zones, counts_as=counts_as)


def _values(rulebook: Rulebook, when: dict[str, Any], rng: random.Random) -> Iterator[tuple[str, Value]]:
    for name, condition in when.items():
        domain = rulebook.domains.get(name)
        if domain is None or not domain.entered or not condition:
            continue
        if isinstance(condition, str) and condition not in domain.values:
            yield (
                name,
                float(rng.choice((30, 60, 200, 400) if domain.unit == "mm" else (0, 1, 5, 7, 30, 200))),
            )
        else:
            yield name, rng.choice([condition] if isinstance(condition, str) else condition)


def _plan(rulebook: Rulebook, head: Head) -> dict[str, Any]:
    consultation = Consultation(head=head.stated, zones=head.zones, kit=BUILT_IN_KIT)
    return plan_to_plain(plan_service(rulebook, consultation))


def _try(rulebook: Rulebook, number: int) -> str:
    """Write a rule, put it in force where it is let through, and judge; give what came of it."""
    rng = random.Random(f"overlay {number}")
    writer = Writer(rulebook, rng)
    rule = writer.rule(OPS[number % len(OPS)])
    (node,), problems = read_text(json.dumps(rule).encode(), shown="rule.yaml")
    overlay = read_overlay(node, rulebook, problems, kind="local_rule")
    if overlay is None:
        return "not read"
    changed = apply(rulebook, overlay)
    refused = lost_words(rulebook, changed)
    refused += (
        () if refused else prove(changed, facts=FACTS, idle_is_fault=False, look_for_idle=False).problems
    )
    found: set[str] = set()
    for head in heads(changed, rng, writer.conditions, HEADS_REFUSED if refused else HEADS):
        try:
            found |= {*faults(head, _plan(changed, head))}
        except Exception as error:
            if refused:
                return "refused, and would have left a head undecided"
            raise AssertionError(f"{rule} left {head} undecided: {error!r}") from error
    assert refused or not found, (rule, found)
    if refused:
        return "refused, and would have hurt" if found else "refused, and hurt nobody who was tried"
    return "let through"


def _try_all(rulebook: Rulebook, numbers: range) -> Counter[str]:
    return Counter(_try(rulebook, number) for number in numbers)


def test_the_judge_finds_no_fault_in_the_built_in_rules(rulebook: Rulebook):
    """It would otherwise be of no use."""
    rng = random.Random("judge")
    works = 0
    for head in heads(rulebook, rng, [], 300):
        plan = _plan(rulebook, head)
        assert [*faults(head, plan)] == [], head
        works += plan["verdict"] in WORKING
    assert works > 60


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"op": "remove", "table": "verdict", "row": "hydroxide-relaxer"}, "a perm on relaxed hair"),
        (
            {"op": "remove", "table": "cautions", "row": "gloves"},
            "the cautions do not say 'gloves from the first drop'",
        ),
    ],
)
def test_the_judge_sees_what_loosens(rulebook: Rulebook, change: dict[str, Any], fault: str):
    """And so do the limits: both refuse it, each by itself."""
    rule = {"overlay": "ours", "because": "b", "source": "c", "changes": [change]}
    (node,), problems = read_text(json.dumps(rule).encode(), shown="rule.yaml")
    overlay = read_overlay(node, rulebook, problems, kind="local_rule")
    assert overlay is not None
    changed = apply(rulebook, overlay)
    assert prove(changed, facts=FACTS, idle_is_fault=False).problems
    found: set[str] = set()
    for head in heads(changed, random.Random("sees"), [{"history.relaxer": "hydroxide"}], 60):
        try:
            found |= {*faults(head, _plan(changed, head))}
        except Exception:
            continue
    assert fault in found


@pytest.mark.parametrize("part", range(FEW_PARTS))
def test_no_local_rule_that_loosens_gets_through(rulebook: Rulebook, part: int):
    """A hundred in all, as many of each kind."""
    counts = _try_all(rulebook, range(part * FEW, (part + 1) * FEW))
    assert counts["let through"], counts
    assert len(counts) > 1, counts


@pytest.mark.long
@pytest.mark.parametrize("part", range(PARTS))
def test_none_of_thousands_of_local_rules_that_loosens_gets_through(rulebook: Rulebook, part: int):
    """Some 2,200 in all, over 2,000 of which can be read; what came of them is printed (`-s`)."""
    counts = _try_all(rulebook, range(1000 + part * PART, 1000 + (part + 1) * PART))
    print(sorted(counts.items()))
    assert counts["let through"] >= PART // 10, counts
    assert counts["refused, and would have hurt"], counts
