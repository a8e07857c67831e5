"""What is seen afterwards, and which mistake shows so: the outcomes of mistakes on this head are compared."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace

from drill.bank.asking import Asking
from drill.bank.draw import FEWEST_WRONG, wrong_values
from drill.bank.facts import head_facts
from drill.bank.feedback import feedback_on_wrong
from drill.bank.item import Wrong
from drill.bank.options import option, single
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.scenario import draw_head, draw_zone
from drill.bank.short import short_words
from drill.bank.touched import rows_behind
from drill.basis.words import say
from drill.rulebook.domain import Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.trace import Decision
from drill.service.difference import Outcome, differences
from drill.service.faults import READ_AS, VERDICT, Fault, KnownCause, faults_between
from drill.service.head import Head
from drill.service.outcome import predict
from drill.service.plan import WORKING
from drill.service.wording import name_words, zone_words

# How often a slip of the hands is the cause where a decision could be it as well.
BY_HAND = 0.4
_DRAWS = 40
_WRONG = 3
_MOST_SEEN = 2


@dataclass(frozen=True, slots=True)
class _Mistake:
    """A decision other than planned, who would take it, and what it shows on the head."""

    decided: Decision
    done: Value
    ideas: tuple[str, ...]
    shows: frozenset[str]
    seen: str


@dataclass(frozen=True, slots=True)
class _Seen:
    """A head on which a fault is seen."""

    fault: Fault
    head: Head
    zone: str
    expected: Outcome


@dataclass(frozen=True, slots=True)
class _Key:
    """The cause, with what is said of it."""

    text: str
    value: str
    feedback: Feedback
    source: str
    by_hand: bool = False
    rows: tuple[str, ...] = ()


def make_cause(asking: Asking) -> Question | None:
    """Make a question about what is seen afterwards.

    Args:
        asking: An item that names what is seen.

    Returns:
        The question: of its options only the key shows so on the head drawn, which is computed for every
        decision. None where the book knows nothing of what is seen, or no head was found on which two
        mistakes that show otherwise come from wrong ideas.
    """
    fault = asking.book.fault(asking.item.fault)
    if fault is None:
        return None
    by_hand = asking.rng.random() < BY_HAND
    for _ in range(_DRAWS):
        seen = _draw(asking, fault)
        key = _key(asking, seen, by_hand=by_hand) if seen is not None else None
        if seen is None or key is None:
            continue
        question = _question(asking, seen, key, _wrong(asking, seen, key))
        named = sum(bool(one.misconceptions) for one in question.options)
        if named >= FEWEST_WRONG and len(question.stem.split()) <= MOST_WORDS:
            return question
    return None


def _draw(asking: Asking, fault: Fault) -> _Seen | None:
    zone = draw_zone(asking.item, asking.rng)
    consultation = draw_head(asking.item, zone, asking.book.rulebook, asking.rng)
    head = asking.beliefs.head(consultation)
    if zone is None or head.decide(VERDICT).value not in WORKING:
        return None
    return _Seen(fault, head, zone, predict(head, zones=(zone,)))


def _decisions(faults: Iterable[Fault]) -> list[str]:
    """Name the decisions that can bring about what is seen, but whether the service is done at all."""
    names = (name for fault in faults for name in fault.carried_by if name != VERDICT)
    return list(dict.fromkeys(READ_AS.get(name, name) for name in names))


def _mistakes(asking: Asking, seen: _Seen, decision: str) -> Iterator[_Mistake]:
    """Give what wrong ideas would do in place of one decision, and what that would show."""
    decided, zones = seen.head.decide(decision, seen.head.place(decision, seen.zone)), (seen.zone,)
    item, consultation = replace(asking.item, decision=decision), seen.head.consultation
    wrong = wrong_values(asking.beliefs, item, consultation, decided.zone, decided)
    for value, ideas in wrong.items():
        # Nobody winds on a tool that the kit does not hold, or where an idea leaves the rest open.
        with suppress(UndecidedError, ValueError):
            done = _supposing(seen.head, decided, value)
            outcome = predict(done, hair=seen.head, zones=zones)
            shows = frozenset(faults_between(seen.head, seen.expected, outcome))
            words = [one.words for one in differences(seen.expected, outcome)]
            yield _Mistake(decided, value, ideas, shows, " ".join(words[:_MOST_SEEN]))


def _supposing(head: Head, decided: Decision, value: Value) -> Head:
    """Give the head as it is wound with one other decision."""
    if decided.zone is None:
        other = Head(
            head.rulebook, head.consultation, facts=head.evaluation.facts, taken=head.evaluation.taken
        )
        other.evaluation.suppose(replace(decided, value=value))
        return other
    return head.supposing(decided, value)


def _key(asking: Asking, seen: _Seen, *, by_hand: bool) -> _Key | None:
    """Choose the cause: a decision that shows so on this head, or a slip of the hands or the clock."""
    item, asked = asking.item, asking.item.parts
    slips = [one for one in seen.fault.causes if not asked or one.id in asked]
    decisions = [one for one in _decisions((seen.fault,)) if not asked or one in asked]
    if slips and (by_hand or not decisions):
        return _slip_key(asking.rng.choice(slips), item.look)
    mistakes = [one for decision in decisions for one in _mistakes(asking, seen, decision)]
    shown = [one for one in mistakes if seen.fault.id in one.shows]
    return _mistake_key(seen, asking.rng.choice(shown), item.look) if shown else None


def _slip_key(slip: KnownCause, look: str) -> _Key:
    said = Feedback(decides=say("{cause} {mend}", cause=say(slip.cause), mend=say(slip.mend)), look=say(look))
    return _Key(say(slip.as_option), slip.id, said, slip.source, by_hand=True)


def _mistake_key(seen: _Seen, mistake: _Mistake, look: str) -> _Key:
    right = feedback_on_wrong(seen.head, mistake.decided, mistake.done, (), look=look)
    said = Feedback(decides=right.decides, seen=mistake.seen, look=right.look)
    rows = rows_behind(seen.head, mistake.decided)
    return _Key(_words(seen, mistake), _value(mistake), said, mistake.decided.source, rows=rows)


def _wrong(asking: Asking, seen: _Seen, key: _Key) -> list[Option]:
    """Choose mistakes that show otherwise: computed ones, and slips that are blamed without reason."""
    written = asking.rng.sample(asking.item.wrong, len(asking.item.wrong))
    slips = [_written_option(asking, key, one) for one in written]
    # One sort of option is never alone beside the other, or it would stand out.
    slips = slips[: _WRONG - 1 if key.by_hand else 1]
    decisions = _decisions(asking.book.faults)
    asking.rng.shuffle(decisions)
    others = [one for decision in decisions if (one := _other(asking, seen, decision)) is not None]
    # What would be seen in another way goes before what would hardly be seen: it is the cause elsewhere.
    others.sort(key=lambda one: not one.shows)
    computed = others[: _WRONG - len(slips)]
    return [*slips, *(_mistake_option(asking, seen, key, one) for one in computed)]


def _other(asking: Asking, seen: _Seen, decision: str) -> _Mistake | None:
    """Give a mistake in one decision that shows otherwise."""
    # A decision that can bring it about on another head is no wrong answer that a class would take.
    if decision in _decisions((seen.fault,)):
        return None
    others = [one for one in _mistakes(asking, seen, decision) if seen.fault.id not in one.shows]
    telling = [one for one in others if one.shows]
    return asking.rng.choice(telling or others) if others else None


def _mistake_option(asking: Asking, seen: _Seen, key: _Key, mistake: _Mistake) -> Option:
    beliefs = tuple(asking.book.beliefs[idea] for idea in mistake.ideas)
    said = feedback_on_wrong(seen.head, mistake.decided, mistake.done, beliefs, look=asking.item.look)
    shows = (
        say("Yours would show otherwise: {seen}", seen=mistake.seen)
        if mistake.seen
        else say("Yours would hardly be seen here.")
    )
    told = Feedback(opening=said.opening, decides=_what_shows(key), seen=shows, look=said.look)
    return option(_words(seen, mistake), _value(mistake), correct=False, ideas=mistake.ideas, feedback=told)


def _written_option(asking: Asking, key: _Key, wrong: Wrong) -> Option:
    belief = asking.book.beliefs.get(wrong.misconception)
    told = Feedback(
        opening=say("Stop.") if belief and belief.harm else "",
        decides=_what_shows(key),
        seen=say(belief.seen) if belief else "",
        look=say(belief.mend) if belief else say(asking.item.look),
    )
    ideas = (wrong.misconception,) if belief else ()
    # A slip that is a cause of something else has the value that it has there.
    slips = {slip.as_option: slip.id for fault in asking.book.faults for slip in fault.causes}
    return option(
        say(wrong.text), slips.get(wrong.text, wrong.text), correct=False, ideas=ideas, feedback=told
    )


def _what_shows(key: _Key) -> str:
    return say("What shows so here: {cause}", cause=f"{key.text}.")


def _words(seen: _Seen, mistake: _Mistake) -> str:
    decision, rulebook = mistake.decided.decision, seen.head.rulebook
    part = name_words(decision)
    return say(
        "{part}: {done}; planned: {planned}",
        part=part[:1].upper() + part[1:],
        done=short_words(decision, mistake.done, rulebook),
        planned=short_words(decision, single(mistake.decided), rulebook),
    )


def _value(mistake: _Mistake) -> str:
    return f"{mistake.decided.decision}={mistake.done}"


def _question(asking: Asking, seen: _Seen, key: _Key, wrong: list[Option]) -> Question:
    options = [*wrong, option(key.text, key.value, correct=True, ideas=(), feedback=key.feedback)]
    told = say("Seen after one mistake: {seen}", seen=say(seen.fault.seen))
    return asking.question(
        facts=(*head_facts(seen.head, seen.zone), told),
        ask=say(asking.item.stem, zone=zone_words(seen.zone)),
        consultation=seen.head.consultation,
        zone=seen.zone,
        options=options,
        explanation=key.feedback.text,
        source=key.source,
        rows=key.rows,
    )
