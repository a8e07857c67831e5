"""What to ask first: the missing facts, in the order of how much their answers decide.

Each missing fact that the verdict reads is given every answer it can have, with the other missing ones at
their most hopeful; the more of its answers stop the service, and the harder they stop it, the sooner it is
asked.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from drill.rulebook.condition import Condition
from drill.rulebook.domain import UNKNOWN, Domain, Value
from drill.rulebook.evaluate import Evaluation, Taken
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook

VERDICT = "verdict"
# Porosity is felt in several places; the consultation states it, the tables read its extremes.
ASKED_AS = {"porosity.weakest": "hair.porosity", "porosity.strongest": "hair.porosity"}
# How each missing fact is got, in a few words.
ASKED: Mapping[str, str] = {
    "scalp": "Look at the scalp, part by part",
    "history.known": "Look for a record of earlier visits",
    "history.reaction": "Ask how the skin took earlier products",
    "history.color": "Ask which colours are on the lengths",
    "history.lightened": "Ask whether any hair was made lighter",
    "history.relaxer": "Ask whether it was straightened with a cream",
    "history.smoothing": "Ask about smoothing done with heat",
    "history.metallic_dye": "Ask for the pack of every home dye",
    "history.weeks_since_perm": "Ask when the last perm was done",
    "health.treatment": "Ask whether a treatment or medicine has changed",
    "hair.porosity": "Feel the porosity in three places",
    "hair.elasticity": "Stretch a few wet hairs",
    "hair.ends": "Comb out a base and look at the ends",
    "hair.strand": "Lay one hair between finger and thumb",
    "hair.density": "Part the crown and see how much scalp shows",
    "wish.look": "Ask whether waves or coils are wished",
    "wish.root_volume": "Ask how much lift is wished at the scalp",
}
_SAME_ANSWER = {"hair.porosity": ("porosity.weakest", "porosity.strongest")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A fact to get before deciding.

    Attributes:
        field: Its name in the consultation.
        ask: How to get it.
        because: Why it matters.
        stops: How many of its answers stop the service.
        answers: How many answers it has.
        strictness: Of the strictest verdict that an answer brings.
    """

    field: str
    ask: str
    because: str
    stops: int
    answers: int
    strictness: int


def ask_first(
    rulebook: Rulebook,
    inputs: Mapping[str, Value],
    *,
    facts: Mapping[str, Fact],
    taken: Taken | None = None,
) -> tuple[Missing, ...]:
    """Rank the missing facts that keep a verdict open.

    Args:
        rulebook: The rules in force.
        inputs: What the head's tables read.
        facts: Computed facts by name.
        taken: What was decided on other heads.

    Returns:
        The facts to get, the one that decides most first; a fact that leaves the verdict as it is, unknown
        or answered, is not among them.

    Source:
        common practice: what can stop the service is asked before what can only shape it.
    """
    opened = _open_fields(rulebook, inputs, facts)
    verdict = _Verdict(rulebook, facts, taken or Taken())
    hopeful = {field: _most_hopeful(verdict, inputs, field) for field in opened}
    found = []
    for field in opened:
        domain = rulebook.domains[field]
        others = _with_all(inputs, {name: value for name, value in hopeful.items() if name != field})
        ranks = [verdict.strictness(_with(others, field, answer)) for answer in _answers(domain)]
        # Where every answer leads to one verdict, being unknown may still hold that verdict back.
        if {verdict.strictness(others)} == set(ranks):
            continue
        bar = rulebook.tables[VERDICT].strictness("test_first")
        found.append(
            Missing(
                field=field,
                ask=domain.ask,
                because=domain.because,
                stops=sum(rank > bar for rank in ranks),
                answers=len(ranks),
                strictness=max(ranks),
            )
        )
    return tuple(sorted(found, key=lambda one: (-one.strictness, -one.stops / one.answers, one.field)))


def _open_fields(rulebook: Rulebook, inputs: Mapping[str, Value], facts: Mapping[str, Fact]) -> list[str]:
    """Name the unknown facts that rows of the verdict, and of what it reads, ask for by that name."""
    held = _named_unknown(rulebook, VERDICT, inputs, facts)
    return [name for name in rulebook.domains if name in held]


def _named_unknown(
    rulebook: Rulebook, decision: str, inputs: Mapping[str, Value], facts: Mapping[str, Fact]
) -> set[str]:
    found = set()
    for row in rulebook.tables[decision].rows:
        for name, condition in row.when.items():
            if name in rulebook.tables:
                found |= _named_unknown(rulebook, name, inputs, facts)
            elif (
                UNKNOWN in condition.values
                and inputs.get(name, UNKNOWN) == UNKNOWN
                and _others_hold(row.when, name, inputs)
            ):
                found |= _asked_as(rulebook, name, inputs, facts)
    return found


def _asked_as(
    rulebook: Rulebook, name: str, inputs: Mapping[str, Value], facts: Mapping[str, Fact]
) -> set[str]:
    """Name what is asked where a name is unknown: of a computed fact, what it is computed from."""
    names = facts[name].needs if name in facts else (ASKED_AS.get(name, name),)
    return {
        one
        for one in names
        if one in rulebook.domains and rulebook.domains[one].ask and inputs.get(one, UNKNOWN) == UNKNOWN
    }


def _others_hold(when: Mapping[str, Condition], name: str, inputs: Mapping[str, Value]) -> bool:
    """Tell whether the known inputs beside an unknown one let its row hold."""
    return all(
        other == name or other not in inputs or condition.holds(inputs[other])
        for other, condition in when.items()
    )


def _answers(domain: Domain) -> list[Value]:
    named: list[Value] = [value for value in domain.values if value != UNKNOWN]
    return named + ([1.0, 100.0] if domain.unit else [])


def _with(inputs: Mapping[str, Value], field: str, answer: Value) -> dict[str, Value]:
    return {**inputs, **dict.fromkeys(_SAME_ANSWER.get(field, (field,)), answer)}


def _with_all(inputs: Mapping[str, Value], answers: Mapping[str, Value]) -> dict[str, Value]:
    filled = dict(inputs)
    for field, answer in answers.items():
        filled = _with(filled, field, answer)
    return filled


def _most_hopeful(verdict: "_Verdict", inputs: Mapping[str, Value], field: str) -> Value:
    answers = _answers(verdict.rulebook.domains[field])
    return min(answers, key=lambda answer: verdict.strictness(_with(inputs, field, answer)))


@dataclass(frozen=True, slots=True)
class _Verdict:
    """The verdict under a rulebook, asked again and again with other answers."""

    rulebook: Rulebook
    facts: Mapping[str, Fact]
    taken: Taken

    def strictness(self, inputs: Mapping[str, Value]) -> int:
        evaluation = Evaluation(self.rulebook, facts=self.facts, inputs=inputs, taken=self.taken)
        return self.rulebook.tables[VERDICT].strictness(str(evaluation.read(VERDICT)))
