"""The place on the head is the answer: one of the marked sections has what is asked for, the others not."""

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, MOST_DRAWS, same_by_another_name
from drill.bank.facts import fitted_facts, place_facts
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.item import Item
from drill.bank.options import option
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.scenario import draw_head
from drill.bank.touched import limits_of, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.trace import Decision
from drill.service.consultation import Consultation
from drill.service.direction import DIRECTIONS
from drill.service.head import Head
from drill.service.head_map import WHORL, head_map
from drill.service.plan import WORKING
from drill.service.shapes import Figure
from drill.service.wording import zone_words
from drill.service.zones import ZONE_NAMES

MOST_OPTIONS = 4
_TOLD = "top"
# Nape hair is shorter; that is told where it matters.
_LENGTH, _BY_LENGTH = "hair.length", ("tool.size", "wrap")
# What may differ from place to place, in the order in which it is told.
_BY_PLACE = ("hair.porosity", "hair.growth", "wish.wear", "wish.blend")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Places:
    """A head with one place that is right among those to be marked.

    Attributes:
        head: The head.
        decided: What is decided in each zone.
        key: The right place.
        wrong: Wrong places with the ideas that put it there.
        others: Places where nobody puts it.
    """

    head: Head
    decided: Mapping[str, Decision]
    key: str
    wrong: Mapping[str, tuple[str, ...]]
    others: tuple[str, ...]


def make_locate(asking: Asking) -> Question | None:
    """Make a question whose answer is a place on the head.

    Args:
        asking: An item with a decision per zone and the values whose place is asked.

    Returns:
        The question; None where no head was found that has such a place, and two others where wrong ideas
        put it.
    """
    item, rng = asking.item, asking.rng
    for _ in range(MOST_DRAWS):
        places = _places(asking, _draw_head(item, asking.book.rulebook, rng))
        if places is not None:
            return _question(asking, places)
    return None


def _draw_head(item: Item, rulebook: Rulebook, rng: random.Random) -> Consultation:
    """Draw a head whose zones differ in what the item varies of them."""
    of_zone = {name: values for name, values in item.vary.items() if rulebook.domains[name].per == "zone"}
    of_head = {name: values for name, values in item.vary.items() if name not in of_zone}
    drawn = draw_head(replace(item, vary=of_head), None, rulebook, rng)
    zones = {
        zone: {**values, **{name: rng.choice(of_zone[name]) for name in sorted(of_zone)}}
        for zone, values in drawn.zones.items()
    }
    return Consultation(head=drawn.head, zones=zones, kit=drawn.kit)


def _places(asking: Asking, consultation: Consultation) -> _Places | None:
    item, beliefs = asking.item, asking.beliefs
    head = beliefs.head(consultation)
    if head.decide("verdict").value not in WORKING:
        return None
    decided = {zone: head.decide(item.decision, zone) for zone in item.zones}
    right = [zone for zone, one in decided.items() if one.value in item.wanted]
    never = [zone for zone, one in decided.items() if not _may_be(asking.book.rulebook, one, item.wanted)]
    if not right:
        return None
    key = asking.rng.choice(right)
    wrong = {zone: ideas for zone in never if (ideas := _put_there_by(asking, consultation, zone))}
    if len(wrong) < FEWEST_WRONG:
        return None
    others = tuple(zone for zone in never if zone not in wrong)
    return _Places(head=head, decided=decided, key=key, wrong=wrong, others=others)


def _may_be(rulebook: Rulebook, decided: Decision, wanted: tuple[Value, ...]) -> bool:
    alike = same_by_another_name(rulebook, decided)
    return any(value in wanted for value in (decided.value, *decided.also, *alike))


def _put_there_by(asking: Asking, consultation: Consultation, zone: str) -> tuple[str, ...]:
    reached = asking.beliefs.reached(consultation, asking.item.decision, zone)
    ideas = (reached.get(value, ()) for value in asking.item.wanted)
    return tuple(dict.fromkeys(idea for some in ideas for idea in some))


def _question(asking: Asking, places: _Places) -> Question:
    item, rng, head = asking.item, asking.rng, places.head
    marked = rng.sample(sorted(places.wrong), min(len(places.wrong), MOST_OPTIONS - 1))
    marked += rng.sample(places.others, min(len(places.others), MOST_OPTIONS - 1 - len(marked)))
    right = _right(places, look=item.look)
    options = [_wrong(asking, places, zone) for zone in marked]
    options.append(option(_first_big(places.key), places.key, correct=True, ideas=(), feedback=right))
    question = asking.question(
        facts=_facts(asking, head, [*marked, places.key]),
        ask=say(item.stem),
        consultation=head.consultation,
        options=options,
        explanation=right.text,
        source=places.decided[places.key].source,
        answer_as="place",
        otherwise=right,
        rows=rows_behind(head, *(places.decided[zone] for zone in (places.key, *marked))),
        limits=limits_of(head, ((item.decision, zone, item.wanted[0]) for zone in marked)),
    )
    return replace(question, figure=_figure(question, head.consultation))


def _right(places: _Places, *, look: str) -> Feedback:
    return _at(places.key, feedback_on_key(places.head, places.decided[places.key], look=look))


def _wrong(asking: Asking, places: _Places, zone: str) -> Option:
    ideas = places.wrong.get(zone, ())
    beliefs = tuple(asking.book.beliefs[one] for one in ideas)
    decided, value = places.decided[zone], asking.item.wanted[0]
    said = feedback_on_wrong(places.head, decided, value, beliefs, look=asking.item.look)
    return option(_first_big(zone), zone, correct=False, ideas=ideas, feedback=_at(zone, said))


def _at(zone: str, said: Feedback) -> Feedback:
    """Name the place that is spoken of."""
    return replace(said, decides=f"{_first_big(zone)}. {said.decides}")


def _facts(asking: Asking, head: Head, marked: list[str]) -> tuple[str, ...]:
    """Tell the head, and of every marked place what differs from place to place."""
    item = asking.item
    names = (_LENGTH, *_BY_PLACE) if item.decision in _BY_LENGTH else _BY_PLACE
    of = head.consultation.of
    # The head is told as its top is, so what is otherwise there is told place by place.
    differing = tuple(name for name in names if len({of(name, zone) for zone in (*marked, _TOLD)}) > 1)
    lines = [
        say("{zone}: {facts}.", zone=_first_big(zone), facts=told)
        for zone in ZONE_NAMES
        if zone in marked and (told := place_facts(head, zone, names=differing))
    ]
    return fitted_facts(
        head,
        _TOLD,
        lines,
        bearing=asking.beliefs.rests_on(item.decision),
        room=MOST_WORDS - len(say(item.stem).split()),
        leave_out=differing,
    )


def _figure(question: Question, consultation: Consultation) -> Figure:
    """Mark the places by the letters of their options, with the way the hair grows there."""
    letters = {str(one.value): one.id for one in question.options}
    growth = {zone: str(consultation.of("hair.growth", zone)) for zone in letters}
    directions = {zone: one for zone, one in growth.items() if one in (*DIRECTIONS, WHORL)}
    return head_map(labels=letters, directions=directions)


def _first_big(zone: str) -> str:
    words = zone_words(zone)
    return words[:1].upper() + words[1:]
