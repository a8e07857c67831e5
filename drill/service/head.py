"""One head under one rulebook: every decision on it, taken when it is asked for."""

from collections.abc import Mapping
from dataclasses import replace

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Evaluation, Taken
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import COMPUTED, Decision
from drill.service.consultation import Consultation, head_inputs, zone_inputs
from drill.service.facts import FACTS, ON_ONE_TOOL
from drill.service.kit import Kit, Tool, tools_of_shape
from drill.service.still_there import still_there
from drill.service.strand import strand_of, turns_of
from drill.service.tool_choice import CHOSEN_BY, Choice, choose_tool, fill_ins
from drill.service.winding import WOUND_BY, Winding, wind
from drill.service.zones import mirror

TOOL_DIAMETER = "tool.diameter_mm"
# Figures of the winding, and the decimals that a plan shows of them.
COMPUTED_FIGURES = {"turns": 2, "curl_ends_mm": 1, "curl_scalp_mm": 1}
# The unit of every decision on a zone that is a number.
COMPUTED_UNITS = {"turns": "turns", "curl_ends_mm": "mm", "curl_scalp_mm": "mm", TOOL_DIAMETER: "mm"}


class _Drawer:
    """The kit of one head, and what was chosen out of it; sections alike take one tool."""

    def __init__(self, kit: Kit) -> None:
        self.kit = kit
        self._chosen: dict[object, Choice] = {}

    def choose(self, section: Evaluation) -> Choice:
        key = (section.decide("tool.size").row, *map(section.read, CHOSEN_BY))
        if key not in self._chosen:
            self._chosen[key] = choose_tool(section, self.kit)
        return self._chosen[key]


class _Section(Evaluation):
    """The evaluation of one zone, with the kit at hand."""

    def __init__(self, head: Evaluation, drawer: _Drawer, *, zone: str, inputs: Mapping[str, Value]) -> None:
        super().__init__(head.rulebook, facts=head.facts, inputs=inputs, zone=zone, head=head)
        self._above, self._drawer = head, drawer

    def _find(self, name: str) -> Value:
        return self._turns_on_one_tool() if name == ON_ONE_TOOL else super()._find(name)

    def _turns_on_one_tool(self) -> float:
        """Choose the tool as if the everyday wrap were decided, and count.

        Supposing the wrap is what keeps it from being asked for while it is decided.
        """
        supposed = {**self._values, "wrap": "croquignole", ON_ONE_TOOL: 0.0}
        section = _Section(self._above, self._drawer, zone=str(self.zone), inputs=supposed)
        section.decisions = dict(self.decisions)
        return self._drawer.choose(section).turns


class Head:
    """The decisions on one head.

    Args:
        rulebook: The rules in force.
        consultation: What is known of the head.
        facts: Computed facts by name.
        taken: What was decided on other heads; a plan looks at one alone.
    """

    def __init__(
        self,
        rulebook: Rulebook,
        consultation: Consultation,
        *,
        facts: Mapping[str, Fact] = FACTS,
        taken: Taken | None = None,
    ) -> None:
        self.rulebook, self.consultation, self._facts = rulebook, consultation, facts
        left = still_there(consultation, rulebook.values)
        self.evaluation = Evaluation(
            rulebook, facts=facts, inputs=head_inputs(consultation, still_there=left), taken=taken
        )
        self._zones: dict[str, Evaluation] = {}
        self._drawer = _Drawer(consultation.kit)
        self._choices: dict[str, Choice] = {}
        self._windings: dict[str, Winding] = {}
        self._wound: dict[object, Winding] = {}

    def zone(self, name: str) -> Evaluation:
        """Give the evaluation of one zone."""
        if name not in self._zones:
            inputs = zone_inputs(self.consultation, name)
            self._zones[name] = _Section(self.evaluation, self._drawer, zone=name, inputs=inputs)
        return self._zones[name]

    def choice(self, zone: str) -> Choice:
        """Choose a zone's tool out of the kit."""
        if zone not in self._choices:
            self._choices[zone] = self._drawer.choose(self.zone(zone))
        return self._choices[zone]

    def fill_ins(self, zone: str) -> tuple[Tool, ...]:
        """Name the tools that may be mixed in where a zone's size runs out, the best first."""
        return fill_ins(self.zone(zone), self.consultation.kit, self.choice(zone).tool)

    def winding(self, zone: str) -> Winding:
        """Wind a zone on its tool."""
        if zone not in self._windings:
            section, tool = self.zone(zone), self.choice(zone).tool
            # Left and right are of one size.
            key = (min(zone, mirror(zone)), tool, *map(section.read, WOUND_BY))
            if key not in self._wound:
                self._wound[key] = wind(section, tool)
            self._windings[zone] = self._wound[key]
        return self._windings[zone]

    def supposing(self, decision: Decision, value: Value) -> "Head":
        """Give the same head as somebody winds it who decides otherwise in one place.

        Args:
            decision: A decision on one zone of this head.
            value: What is decided instead.

        Returns:
            A head on which everything that rests on the decision follows it.

        Raises:
            ValueError: If it is no decision on a zone, or the kit has no such tool.

        Source:
            The planner itself.
        """
        zone = decision.zone
        if zone is None:
            raise ValueError(f"{decision.decision} is no decision on a zone")
        head = Head(self.rulebook, self.consultation, facts=self._facts, taken=self.evaluation.taken)
        if decision.decision != TOOL_DIAMETER:
            head.zone(zone).suppose(replace(decision, value=value))
            return head
        shape = self.choice(zone).tool.shape
        tools = [one for one in tools_of_shape(self.consultation.kit, shape) if one.diameter_mm == value]
        if not tools:
            raise ValueError(f"the kit has no {shape} tool of {value} mm")
        turns, _ = turns_of(strand_of(head.zone(zone)), tools[0])
        head._choices[zone] = Choice(tool=tools[0], because="", turns=turns)
        return head

    def place(self, decision: str, zone: str | None) -> str | None:
        """Give the zone for which a decision is taken; None where it is one for the whole head."""
        table = self.rulebook.tables.get(decision)
        return zone if table is None or table.per == "zone" else None

    def decide(self, decision: str, zone: str | None = None) -> Decision:
        """Take any decision that a plan holds.

        Args:
            decision: Dotted path in the plan, below the zone where one is given.
            zone: The zone, for a decision that differs from zone to zone.

        Returns:
            The decision with its trace; a figure that a formula gave has the row ``computed``.

        Raises:
            UndecidedError: If no row of its table holds.
            KeyError: If a plan holds no such decision.
        """
        if decision in self.rulebook.tables:
            return (self.zone(zone) if zone else self.evaluation).decide(decision)
        if zone is None:
            raise KeyError(decision)
        if decision == TOOL_DIAMETER:
            choice = self.choice(zone)
            size = _computed(decision, zone, choice.tool.diameter_mm, choice.because, "common practice")
            return replace(size, also=choice.also)
        digits = COMPUTED_FIGURES[decision]
        value = round(getattr(self.winding(zone), decision), digits)
        return _computed(
            decision, zone, value, "The winding formula gives it for this length and tool.", "M1"
        )


def _computed(decision: str, zone: str, value: Value, because: str, source: str) -> Decision:
    return Decision(
        decision=decision, zone=zone, value=value, row=COMPUTED, because=because, source=source, read={}
    )
