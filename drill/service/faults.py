"""From what is seen afterwards back to its causes.

Two kinds: a decision other than the planned one (found by running plan and outcome with each wrong idea and
matching what would be seen), and a slip of the hands or the clock, which is data.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from drill.basis.problem import NOWHERE, Place
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.fact import Fact
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.difference import NOTICED_GAP_MM, NOTICED_RATIO, Outcome, ZoneOutcome
from drill.service.facts import FACTS
from drill.service.head import TOOL_DIAMETER, Head
from drill.service.outcome import predict
from drill.service.wording import value_words, zone_words
from drill.service.zones import ZONE_NAMES

VERDICT = "verdict"
_WHOLE = ("head",)
# Faults that an outcome can show; the others come from the hands, the clock or the skin alone.
SHOWN = (
    "fish_hooks",
    "no_curl_at_ends",
    "breakage_at_scalp",
    "breakage_along_lengths",
    "parting_lines",
    "gap_at_scalp",
    "too_tight",
    "too_loose",
    "frizzy_dry_curly_at_scalp",
    "weak_all_over",
    "uneven",
    "falls_the_wrong_way",
    "redness_at_hairline",
    "itching_after_a_day",
)
_FORMS = ("none", "wave", "curl")
# A decision that gives way to another is read where the other is seen: the size of a tool in millimetres.
READ_AS = {"tool.size": TOOL_DIAMETER}


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownCause:
    """A cause that no decision carries.

    Attributes:
        id: Kebab-case id.
        cause: What happened, in a sentence.
        mend: What to do next time, and now where somebody is hurt.
        source: A key of the sources, ``common practice`` or ``memory``.
        place: Where it is written.
    """

    id: str
    cause: str
    mend: str
    source: str
    place: Place = NOWHERE

    @property
    def as_option(self) -> str:
        """What happened, as one of several answers: without its full stop."""
        return self.cause.removesuffix(".")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Something seen afterwards.

    Attributes:
        id: Its name.
        seen: It in words.
        carried_by: Decisions that can bring it about, the likeliest first.
        causes: Causes of the hands and the clock, the most usual first.
        place: Where it is written.
    """

    id: str
    seen: str
    carried_by: tuple[str, ...] = ()
    causes: tuple[KnownCause, ...] = ()
    place: Place = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A cause that fits what was seen.

    Attributes:
        kind: ``decision`` or ``hands``.
        words: What happened, in a sentence.
        mend: What to do.
        source: Where it stands.
        decision: The decision that went another way; empty for the hands.
        planned: What the plan says.
        done: What would show as it was seen.
        zones: Where it would show; empty for the hands.
        beliefs: Wrong ideas that lead there, in the order given.
        other_faults: How many other faults it would show at the same time; the fewer, the better it fits.
    """

    kind: str
    words: str
    mend: str
    source: str
    decision: str = ""
    planned: Value = ""
    done: Value = ""
    zones: tuple[str, ...] = ()
    beliefs: tuple[str, ...] = ()
    other_faults: int = 0


def find_causes(
    fault: Fault,
    consultation: Consultation,
    rulebook: Rulebook,
    *,
    beliefs: Mapping[str, Rulebook],
    zone: str | None = None,
    facts: Mapping[str, Fact] = FACTS,
) -> tuple[Cause, ...]:
    """Rank the causes of what was seen on a head.

    Args:
        fault: What was seen.
        consultation: The head, as it was before the service.
        rulebook: The rules in force.
        beliefs: For each wrong idea the rulebook of someone who holds it.
        zone: Where it was seen; None for anywhere.
        facts: Computed facts by name.

    Returns:
        Decisions other than planned first, those that would show least besides before others; then the
        slips of the hands in the order of the fault's own list. Every one is a possibility to check, none is
        a verdict on a person.

    Source:
        Both outcomes by :func:`drill.service.outcome.predict`; the slips carry their own sources.
    """
    right = Head(rulebook, consultation, facts=facts)
    zones = ZONE_NAMES if zone is None else (zone,)
    expected = predict(right, zones=zones)
    found: dict[tuple[str, Value, Value, tuple[str, ...]], Cause] = {}
    for belief, believed in beliefs.items():
        head = Head(believed, consultation, facts=facts)
        try:
            # Most ideas change none of the decisions in question; those are not wound at all.
            if not any(_changed(name, zones, right, head) for name in fault.carried_by):
                continue
            shown = faults_between(right, expected, predict(head, hair=right, zones=zones))
            causes = tuple(_causes(fault, shown, right, head))
        except UndecidedError:  # an idea that leaves a decision open explains nothing
            continue
        for cause in causes:
            key = (cause.decision, cause.planned, cause.done, cause.zones)
            found[key] = _joined(found.get(key), cause, belief)
    ranked = sorted(found.values(), key=lambda one: (one.other_faults, -len(one.zones), -len(one.beliefs)))
    return (*ranked, *usual_causes(fault))


def usual_causes(fault: Fault) -> tuple[Cause, ...]:
    """List the slips of the hands and the clock that show so, whatever the head.

    Args:
        fault: What was seen.

    Returns:
        The most usual first.

    Source:
        Each carries its own.
    """
    return tuple(
        Cause(kind="hands", words=say(one.cause), mend=say(one.mend), source=one.source)
        for one in fault.causes
    )


def faults_between(right: Head, expected: Outcome, done: Outcome) -> dict[str, tuple[str, ...]]:
    """Name the faults that one outcome shows against the right one.

    Args:
        right: The head under the rules in force.
        expected: Its outcome.
        done: The outcome to look at.

    Returns:
        For each fault the zones that show it; ``head`` where the service should not have been done.

    Source:
        common practice.
    """
    if done.done and not expected.done:
        return dict.fromkeys(_harms(right), _WHOLE)
    found: dict[str, tuple[str, ...]] = {}
    # A section that was to be left out and is wound all the same has nothing to be held against.
    for zone in filter(expected.zones.__contains__, done.zones):
        for name in _shown(expected.zones[zone], done.zones[zone]):
            found[name] = (*found.get(name, ()), zone)
    return found


def _harms(right: Head) -> Iterator[str]:
    """Name what a service shows that was done although the plan stops it: skin, or hair."""
    read = right.evaluation.read
    sore, allergic = read("scalp") != "healthy", read("history.reaction") != "no"
    if sore:
        yield "redness_at_hairline"
    if allergic:
        yield "itching_after_a_day"
    if not sore and not allergic:
        yield from ("breakage_along_lengths", "breakage_at_scalp", "frizzy_dry_curly_at_scalp")


def _shown(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    ratio = other.today.middle_mm / one.today.middle_mm
    weaker = _FORMS.index(other.form) < _FORMS.index(one.form)
    lotion = other.lotion if other.lotion != one.lotion else ""
    uneven = other.evenness if other.evenness != one.evenness else "even"
    signs = {
        "fish_hooks": other.ends != one.ends and other.ends == "bent",
        "no_curl_at_ends": uneven == "inner_layers_dry",
        "breakage_at_scalp": other.stress > one.stress,
        "breakage_along_lengths": lotion == "too_much",
        "parting_lines": other.part_lines > one.part_lines,
        "gap_at_scalp": other.gap_mm - one.gap_mm >= NOTICED_GAP_MM or other.lift < one.lift,
        "too_tight": ratio <= 1 / NOTICED_RATIO,
        "too_loose": ratio >= NOTICED_RATIO or weaker,
        "frizzy_dry_curly_at_scalp": lotion == "too_much",
        "weak_all_over": lotion in ("weak", "none"),
        "uneven": uneven != "even" or (other.ends != one.ends and other.ends == "slipping"),
        "falls_the_wrong_way": other.falls != one.falls,
    }
    yield from (name for name, holds in signs.items() if holds)


def _causes(fault: Fault, shown: Mapping[str, tuple[str, ...]], right: Head, head: Head) -> Iterator[Cause]:
    """Give one cause for each way in which the first decision that can carry the fault was changed."""
    zones = shown.get(fault.id, ())
    for decision in fault.carried_by:
        if (decision == VERDICT) != (zones == _WHOLE):
            continue
        changed = _changed(decision, zones, right, head)
        for (planned, done), where in changed.items():
            reason = right.decide(decision, _place(right, decision, where[0]))
            yield Cause(
                kind="decision",
                words=say(
                    "{zones}: {done}, where the plan says: {planned}.",
                    zones=_where_words(where),
                    done=value_words(READ_AS.get(decision, decision), done),
                    planned=value_words(READ_AS.get(decision, decision), planned),
                ),
                mend=say(reason.because),
                source=reason.source,
                decision=decision,
                planned=planned,
                done=done,
                zones=where,
                other_faults=len(shown) - 1,
            )
        if changed:
            return


def _changed(
    decision: str, zones: tuple[str, ...], right: Head, head: Head
) -> dict[tuple[Value, Value], tuple[str, ...]]:
    """Give what a decision was and what it became, with the zones in which it did."""
    name, found = READ_AS.get(decision, decision), dict[tuple[Value, Value], tuple[str, ...]]()
    for zone in zones:
        place = _place(right, decision, zone)
        planned, done = right.decide(name, place).value, head.decide(name, place).value
        if planned != done and not isinstance(planned, tuple) and not isinstance(done, tuple):
            found[planned, done] = (*found.get((planned, done), ()), zone)
    return found


def _place(right: Head, decision: str, zone: str) -> str | None:
    return zone if right.rulebook.tables[decision].per == "zone" else None


def _joined(before: Cause | None, cause: Cause, belief: str) -> Cause:
    """Put one more wrong idea beside those that lead to the same; the best fit of them counts."""
    best = cause if before is None or cause.other_faults < before.other_faults else before
    return replace(best, beliefs=(*(before.beliefs if before else ()), belief))


def _where_words(zones: tuple[str, ...]) -> str:
    if len(zones) == len(ZONE_NAMES):
        return say("the whole head")
    return ", ".join(map(zone_words, zones))
