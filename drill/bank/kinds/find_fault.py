"""A plan as somebody has written it: one line may come from a wrong idea, or none; which one is at fault?"""

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, is_asked_on, is_clear_cut, wrong_values
from drill.bank.facts import fitted_facts
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.item import Item
from drill.bank.options import option, single
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.scenario import draw_head, draw_zone
from drill.bank.short import short_words
from drill.bank.touched import limits_broken, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.trace import Decision
from drill.service.head import Head
from drill.service.wording import name_words, zone_words

# How many of the plans have no fault: who finds one in each learns to find what is not there.
FAULTLESS = 0.28
NOTHING = "none"
_DRAWS = 60
_WAITING = 12
# So long a head is looked for on which somebody could get a given line wrong.
_FOR_ONE_LINE = 6

Doubts = Mapping[str, Mapping[Value, tuple[str, ...]]]


@dataclass(frozen=True, slots=True)
class _Shown:
    """A plan as it is shown: right but for one decision, or for none."""

    head: Head
    zone: str | None
    decided: Mapping[str, Decision]
    doubts: Doubts
    fault: str = NOTHING
    value: Value = ""

    @property
    def ideas(self) -> tuple[str, ...]:
        """The wrong ideas behind the fault, the likeliest first."""
        return self.doubts[self.fault][self.value]

    def ideas_against(self, part: str) -> tuple[str, ...]:
        """The wrong ideas under which a decision is called wrong although it is right."""
        return tuple(dict.fromkeys(idea for ideas in self.doubts[part].values() for idea in ideas))


def make_find_fault(asking: Asking) -> Question | None:
    """Make a question about a plan with one fault or with none.

    Args:
        asking: An item with the decisions that are shown.

    Returns:
        The question; None where no head was found whose plan a wrong idea would change.
    """
    # Every line is at fault as often as another, where the heads allow it.
    wanted = NOTHING if asking.rng.random() < FAULTLESS else asking.rng.choice(asking.item.parts)
    found = None
    for tried in range(_DRAWS):
        shown = _draw(asking, wanted, strictly=tried < _FOR_ONE_LINE)
        question = _question(asking, shown) if shown is not None else None
        if question is None or len(question.stem.split()) > MOST_WORDS:
            continue
        named = sum(bool(one.misconceptions) for one in question.options)
        if named >= FEWEST_WRONG:
            return question
        # Where nobody doubts more than one of these lines on any head, one idea has to do.
        found = found or (question if named else None)
        if found is not None and tried >= _WAITING:
            break
    return found


def _draw(asking: Asking, wanted: str, *, strictly: bool) -> _Shown | None:
    item, rng = asking.item, asking.rng
    zone = draw_zone(item, rng)
    consultation = draw_head(item, zone, asking.book.rulebook, rng)
    head = asking.beliefs.head(consultation)
    if not all(is_asked_on(head, part) for part in item.parts):
        return None
    decided = {part: head.decide(part, head.place(part, zone)) for part in item.parts}
    if not all(is_clear_cut(asking.beliefs, one) for one in decided.values()):
        return None
    doubts = {
        part: wrong_values(asking.beliefs, replace(item, decision=part), head.consultation, one.zone, one)
        for part, one in decided.items()
    }
    shown = _Shown(head, zone, decided, doubts)
    return shown if wanted == NOTHING else _with_fault(shown, wanted if strictly else "", rng)


def _with_fault(shown: _Shown, wanted: str, rng: random.Random) -> _Shown | None:
    """Let a wrong idea change a line: the one wanted, or any."""
    doubted = [part for part, values in shown.doubts.items() if values and wanted in ("", part)]
    if not doubted:
        return None
    part = rng.choice(doubted)
    return replace(shown, fault=part, value=rng.choice(sorted(shown.doubts[part], key=str)))


def _question(asking: Asking, shown: _Shown) -> Question:
    item = asking.item
    options = [_part_option(asking, shown, part) for part in item.parts]
    options.append(_nothing_option(asking, shown))
    key = next(one for one in options if one.correct)
    about = shown.decided[item.parts[0] if shown.fault == NOTHING else shown.fault]
    return asking.question(
        facts=_told(asking, shown),
        ask=_asked(item, shown),
        consultation=shown.head.consultation,
        zone=shown.zone,
        options=options,
        explanation=key.feedback.text,
        source=about.source,
        rows=rows_behind(shown.head, *shown.decided.values()),
        limits=limits_broken(shown.head, about.decision, about.zone, shown.value),
    )


def _told(asking: Asking, shown: _Shown) -> tuple[str, ...]:
    """Tell the head; where it takes too many words, without facts that no line rests on."""
    parts = asking.item.parts
    return fitted_facts(
        shown.head,
        shown.zone,
        [_line(shown, part) for part in parts],
        bearing={name for part in parts for name in asking.beliefs.rests_on(part)},
        room=MOST_WORDS - len(_asked(asking.item, shown).split()),
    )


def _asked(item: Item, shown: _Shown) -> str:
    return say(item.stem, zone=zone_words(shown.zone))


def _line(shown: _Shown, part: str) -> str:
    value = shown.value if part == shown.fault else single(shown.decided[part])
    words = short_words(part, value, shown.head.rulebook)
    return say("Planned, {part}: {value}.", part=name_words(part), value=words)


def _part_option(asking: Asking, shown: _Shown, part: str) -> Option:
    words = _upper(name_words(part))
    if part == shown.fault:
        # The item's own line stands first; what to look at for another is not its business.
        look = say(asking.item.look) if part == asking.item.parts[0] else ""
        told = replace(_on_fault(asking, shown), opening="", look=look)
        return option(words, part, correct=True, ideas=(), feedback=told)
    ideas = shown.ideas_against(part)
    stands = feedback_on_key(shown.head, shown.decided[part], look=asking.item.look)
    belief = asking.book.beliefs[ideas[0]] if ideas else None
    look = say(belief.mend) if belief else stands.look
    if shown.fault == NOTHING:
        told = replace(stands, seen=say("Nothing in this plan is at fault."), look=look)
    else:
        missed = _on_fault(asking, shown)
        told = Feedback(
            opening=missed.opening,
            decides=say("That line stands. Another is at fault: {fault}.", fault=name_words(shown.fault)),
            seen=missed.decides,
            look=look,
        )
    return option(words, part, correct=False, ideas=ideas, feedback=told)


def _nothing_option(asking: Asking, shown: _Shown) -> Option:
    words = say("Nothing: it stands as planned")
    if shown.fault != NOTHING:
        return option(words, NOTHING, correct=False, ideas=shown.ideas, feedback=_on_fault(asking, shown))
    first = feedback_on_key(shown.head, shown.decided[asking.item.parts[0]], look=asking.item.look)
    told = replace(first, decides=say("Every line is what the head asks for."), seen=first.decides)
    return option(words, NOTHING, correct=True, ideas=(), feedback=told)


def _on_fault(asking: Asking, shown: _Shown) -> Feedback:
    """Say what is wrong with the line that a wrong idea has changed."""
    beliefs = tuple(asking.book.beliefs[idea] for idea in shown.ideas)
    decided = shown.decided[shown.fault]
    return feedback_on_wrong(shown.head, decided, shown.value, beliefs, look=asking.item.look)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
