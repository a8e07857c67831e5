"""Lotion is on the hair: wait, look, rinse, or rinse and call, as the table of that moment decides."""

import math
import random
from collections.abc import Mapping
from dataclasses import replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, MOST_DRAWS, Draw, draw_on
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.item import Item
from drill.bank.kinds.after_test import DECISIONS, make_after_test
from drill.bank.options import option, single
from drill.bank.question import Option, Question
from drill.bank.scenario import draw_head
from drill.bank.touched import limits_of, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.figure_s import CURLS, s_figure
from drill.service.head import Head
from drill.service.processing import DECISION
from drill.service.wording import value_words

# What is met most while lotion works, and the longest times on packs: made up for practice, no statistics.
_USUAL: Mapping[str, tuple[Value, ...]] = {
    "processing.time": ("working", "working", "last_minutes"),
    "processing.curl": ("none", "weak", "weak", "firm"),
    "processing.place": ("first_tools", "weakest", "most_resistant", "elsewhere"),
    "processing.says": ("nothing",),
    "processing.looked_first": ("yes",),
    "processing.looked_weakest": ("yes",),
}
_LONGEST_MIN = (10, 12, 15, 18, 20)
_FIRST_LOOK_MIN, _OVER_MIN = 2, 3
# Nobody is wrong who calls the instructor beside a rinse that is due.
_MORE_CARE: Mapping[Value, tuple[Value, ...]] = {"rinse": ("rinse_and_call",)}
_SAYS: Mapping[Value, tuple[str, ...]] = {
    "nothing": ("It feels cool, that is all.", "I hardly feel it.", "All fine up there."),
    "tingles": ("It tingles a bit at the nape.", "It prickles above my ear, not badly."),
    "burns": ("It burns at the nape.", "It burns a little, I can bear it.", "My scalp is burning."),
}
_PLACES: Mapping[Value, str] = {
    "first_tools": "the tools that got lotion first",
    "weakest": "the weakest place",
    "most_resistant": "the most resistant place",
    "elsewhere": "a tool at the side",
}
_SEEN: Mapping[Value, str] = {
    "none": "no S",
    "weak": "a weak S",
    "firm": "a firm S",
    "gum_like": "hair that stretches like gum",
}


def make_stop_or_go(asking: Asking) -> Question | None:
    """Make a question about one moment while lotion works.

    Args:
        asking: An item with values of such a moment, or of the one after the test curls.

    Returns:
        The question; None where no moment was found in which the item's row decides and two wrong ideas
        decide otherwise.
    """
    item, rng = asking.item, asking.rng
    if item.decision in DECISIONS:
        return make_after_test(asking)
    for _ in range(MOST_DRAWS):
        moment = _draw_moment(item.vary, rng)
        if moment is None:
            continue
        head = draw_head(_bare(asking), None, asking.book.rulebook, rng)
        at_work = Consultation(head={**head.head, **moment}, zones=head.zones, kit=head.kit)
        drawn = draw_on(asking.beliefs, item, at_work, None)
        if drawn is not None and len(_safe_to_offer(drawn)) >= FEWEST_WRONG:
            return _question(asking, drawn, moment)
    return None


def _bare(asking: Asking) -> Item:
    """Give the item without its moment, which is no part of a consultation."""
    return replace(asking.item, vary={})


def _draw_moment(vary: Mapping[str, tuple[Value, ...]], rng: random.Random) -> dict[str, Value] | None:
    """Draw a moment; None where its parts do not fit each other."""
    drawn = {name: rng.choice(vary.get(name, usual)) for name, usual in _USUAL.items()}
    seen, place = drawn["processing.curl"], drawn["processing.place"]
    if seen == UNKNOWN:
        drawn["processing.place"] = UNKNOWN
        return drawn
    if place == UNKNOWN:
        return None
    # Who has just looked at a place has looked at it.
    for name, one in (("processing.looked_first", "first_tools"), ("processing.looked_weakest", "weakest")):
        if place == one and drawn[name] != "yes":
            return None
    return drawn


def _safe_to_offer(drawn: Draw) -> list[Value]:
    """Give the wrong answers that wrong ideas reach, those aside that only take more care."""
    return [value for value in drawn.wrong if value not in _MORE_CARE.get(single(drawn.decided), ())]


def _question(asking: Asking, drawn: Draw, moment: Mapping[str, Value]) -> Question:
    decided, rng = drawn.decided, asking.rng
    wrong = sorted(_safe_to_offer(drawn), key=str)
    rng.shuffle(wrong)
    right = feedback_on_key(drawn.head, decided, look=asking.item.look)
    key = single(decided)
    options = [_wrong(asking, drawn, value) for value in wrong[:FEWEST_WRONG]]
    options.append(option(_words(drawn.head, key), key, correct=True, ideas=(), feedback=right))
    curl = str(moment["processing.curl"])
    tool_mm = drawn.head.choice("top").tool.diameter_mm
    return asking.question(
        facts=_told(moment, asking.book.rulebook, rng),
        ask=say(asking.item.stem),
        options=options,
        explanation=right.text,
        source=decided.source,
        figure=s_figure(curl, tool_mm=tool_mm) if curl in CURLS else None,
        rows=rows_behind(drawn.head, decided),
        limits=limits_of(drawn.head, ((DECISION, None, one.value) for one in options)),
    )


def _wrong(asking: Asking, drawn: Draw, value: Value) -> Option:
    ideas = drawn.wrong[value]
    beliefs = tuple(asking.book.beliefs[one] for one in ideas)
    said = feedback_on_wrong(drawn.head, drawn.decided, value, beliefs, look=asking.item.look)
    return option(_words(drawn.head, value), value, correct=False, ideas=ideas, feedback=said)


def _words(head: Head, value: Value) -> str:
    return value_words(DECISION, value, rulebook=head.rulebook)


def _told(moment: Mapping[str, Value], rulebook: Rulebook, rng: random.Random) -> tuple[str, ...]:
    """Tell a moment: the clock, what was looked at, what shows, what the client says."""
    lines = [_clock(moment["processing.time"], float(rulebook.values["lookout.last_minutes"]), rng)]
    looked = [
        say(_PLACES[place])
        for name, place in (
            ("processing.looked_weakest", "weakest"),
            ("processing.looked_first", "first_tools"),
        )
        if moment[name] == "yes" and place != moment["processing.place"]
    ]
    has_looked = moment["processing.curl"] in _SEEN
    if looked:
        lines.append(say("Looked at before, no firm S there: {places}.", places=say(" and ").join(looked)))
    elif has_looked:
        lines.append(say("No other place has been looked at."))
    else:
        lines.append(say("No place has been looked at."))
    if has_looked:
        place, seen = say(_PLACES[moment["processing.place"]]), say(_SEEN[moment["processing.curl"]])
        lines.append(say("Just now, {place}: {seen}.", place=place, seen=seen))
    says = _SAYS.get(moment["processing.says"])
    if says:
        lines.append(say("The client: “{words}”", words=say(rng.choice(says))))
    else:
        lines.append(say("Nobody has asked what the scalp feels."))
    return tuple(lines)


def _clock(time: Value, last_min: float, rng: random.Random) -> str:
    """Tell how long lotion has been on, in whole minutes that fit the time as it is named."""
    longest = rng.choice([one for one in _LONGEST_MIN if one - last_min > _FIRST_LOOK_MIN])
    close = math.ceil(longest - last_min)
    minute = {
        "working": rng.randint(_FIRST_LOOK_MIN, close - 1),
        "last_minutes": rng.randint(close, longest - 1),
        "over": rng.randint(longest, longest + _OVER_MIN),
        UNKNOWN: rng.randint(_FIRST_LOOK_MIN, longest),
    }[str(time)]
    if time == UNKNOWN:
        return say("Lotion on for {minute} min; nobody knows the maker's longest time.", minute=minute)
    return say(
        "Lotion on for {minute} min; the maker's longest time is {longest} min.",
        minute=minute,
        longest=longest,
    )
