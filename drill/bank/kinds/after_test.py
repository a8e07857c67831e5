"""The test curls are judged: go on, change something, wait or stop, as the tables of that moment decide."""

import random
from collections.abc import Mapping
from dataclasses import replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, MOST_DRAWS, Draw, draw_on
from drill.bank.facts import head_facts
from drill.bank.feedback import feedback_on_key, feedback_on_wrong
from drill.bank.options import option, single
from drill.bank.question import Option, Question
from drill.bank.scenario import draw_head
from drill.bank.touched import limits_of, rows_behind
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.revise import DECISION, WAY
from drill.service.wording import value_words

MOST_OPTIONS = 4
# A test that went well: what an item leaves out of the readings.
_USUAL: Mapping[str, Value] = {
    "revise.wet": "right",
    "revise.dry": "right",
    "revise.hair": "sound",
    "revise.skin": "calm",
    "revise.time": "within",
}
_CURL: Mapping[Value, str] = {
    "none": "no curl",
    "weak": "a weak curl",
    "right": "the wished curl",
    "too_tight": "too tight a curl",
    "frizzy": "frizz",
    UNKNOWN: "not judged",
}
_HAIR: Mapping[Value, str] = {
    "sound": "feels sound",
    "harsh": "feels harsh",
    "gum_like": "stretches like gum",
    "shedding": "comes off in the hand",
    UNKNOWN: "not felt",
}
_SKIN: Mapping[Value, str] = {"calm": "calm", "sore": "sore", UNKNOWN: "not looked at"}
_TIME: Mapping[Value, str] = {
    "within": "within the maker's time",
    "over": "past the maker's time",
    UNKNOWN: "nobody looked at the clock",
}
# What has no say in how test curls are read.
_UNSAID = ("hair.length", "hair.density", "hair.pattern", "hair.ends")
_UNSAID_WISH = ("wish.part", "wish.curl", "wish.root_volume", "wish.look", "wish.wear", "wish.blend")
DECISIONS = (DECISION, WAY)


def make_after_test(asking: Asking) -> Question | None:
    """Make a question about what follows from test curls.

    Args:
        asking: An item with readings of test curls.

    Returns:
        The question; None where no head was found on which the item's row decides and two wrong ideas decide
        otherwise.
    """
    item, rng = asking.item, asking.rng
    of_head = {name: values for name, values in item.vary.items() if name not in _USUAL}
    for _ in range(MOST_DRAWS):
        readings = {name: rng.choice(item.vary.get(name, (usual,))) for name, usual in _USUAL.items()}
        head = draw_head(replace(item, vary=of_head), None, asking.book.rulebook, rng)
        seen = Consultation(head={**head.head, **readings}, zones=head.zones, kit=head.kit)
        drawn = draw_on(asking.beliefs, item, seen, None)
        wrong = {} if drawn is None else _misread(asking, drawn)
        if drawn is not None and len(wrong) >= FEWEST_WRONG:
            return _question(asking, replace(drawn, wrong=wrong), readings)
    return None


def _misread(asking: Asking, drawn: Draw) -> dict[Value, tuple[str, ...]]:
    """Keep the wrong ideas about test curls: others are about a head that is not told here in full."""
    beliefs = asking.book.beliefs
    about = {
        value: tuple(idea for idea in ideas if any(one.target in DECISIONS for one in beliefs[idea].changes))
        for value, ideas in drawn.wrong.items()
    }
    return {value: ideas for value, ideas in about.items() if ideas}


def _question(asking: Asking, drawn: Draw, readings: Mapping[str, Value]) -> Question:
    item, decided = asking.item, drawn.decided
    right = feedback_on_key(drawn.head, decided, look=item.look)
    options = [_wrong(asking, drawn, value) for value in _chosen(drawn, asking.rng)]
    key = single(decided)
    words = value_words(item.decision, key, rulebook=drawn.head.rulebook)
    options.append(option(words, key, correct=True, ideas=(), feedback=right))
    return asking.question(
        facts=(
            *head_facts(drawn.head, None, leave_out=(*_UNSAID, *_UNSAID_WISH)),
            *_told(drawn.head, readings),
        ),
        ask=say(item.stem),
        options=options,
        explanation=right.text,
        source=decided.source,
        rows=rows_behind(drawn.head, decided),
        limits=limits_of(drawn.head, ((item.decision, None, one.value) for one in options)),
    )


def _chosen(drawn: Draw, rng: random.Random) -> list[Value]:
    values = sorted(drawn.wrong, key=str)
    rng.shuffle(values)
    return values[: MOST_OPTIONS - 1]


def _wrong(asking: Asking, drawn: Draw, value: Value) -> Option:
    ideas = drawn.wrong[value]
    beliefs = tuple(asking.book.beliefs[one] for one in ideas)
    said = feedback_on_wrong(drawn.head, drawn.decided, value, beliefs, look=asking.item.look)
    words = value_words(asking.item.decision, value, rulebook=drawn.head.rulebook)
    return option(words, value, correct=False, ideas=ideas, feedback=said)


def _told(head: Head, readings: Mapping[str, Value]) -> tuple[str, ...]:
    """Tell the test: the planned lotion, the curl wet and dry, the strand, the skin, the time."""
    strength = head.decide("waving_lotion.strength").value
    lotion = value_words("waving_lotion.strength", str(strength), rulebook=head.rulebook)
    return (
        say("Planned lotion: {lotion}.", lotion=lotion[:1].lower() + lotion[1:]),
        say(
            "Test curls: wet, {wet}; dry, {dry}.",
            wet=say(_CURL[readings["revise.wet"]]),
            dry=say(_CURL[readings["revise.dry"]]),
        ),
        say(
            "Strand: {hair}. Skin: {skin}. Time: {time}.",
            hair=say(_HAIR[readings["revise.hair"]]),
            skin=say(_SKIN[readings["revise.skin"]]),
            time=say(_TIME[readings["revise.time"]]),
        ),
    )
