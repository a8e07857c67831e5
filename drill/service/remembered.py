"""What earlier visits say to the next plan: what a consultation leaves out, and where it contradicts them.

What the consultation states wins; a contradiction is told and asked, for either may be the wrong one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.ask_first import Missing
from drill.service.consultation import Consultation
from drill.service.plan import Plan
from drill.service.record import DONE, NOT_DONE, Visit

KNOWN, WEEKS, REACTION = "history.known", "history.weeks_since_perm", "history.reaction"
# People count weeks back from memory; so much more than the record says is still no contradiction.
_SLACK_WEEKS = 1
_DAYS_A_WEEK = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Remembered:
    """A consultation with what the record adds.

    Attributes:
        consultation: With what it left out filled in.
        visits: Ids of the closed visits, in order.
        filled: Value by field filled in.
        notes: What was taken from the record, and what contradicts it.
        asks: What to ask where the two contradict each other.
    """

    consultation: Consultation
    visits: tuple[str, ...]
    filled: dict[str, Value]
    notes: tuple[str, ...]
    asks: tuple[Missing, ...]


def remember(consultation: Consultation, visits: Sequence[Visit], *, now: datetime) -> Remembered | None:
    """Lay the record of a client under a consultation.

    Args:
        consultation: As stated.
        visits: The client's visits, oldest first.
        now: When it is planned, aware.

    Returns:
        The consultation with what the record knows, or None where no visit of the client was closed. A wrap
        on a practice head is no record of a client.

    Source:
        common practice: a client with a record here is known, and permed hair stays permed until it is cut.
    """
    closed = [one for one in visits if one.closed and one.service != "practice_wrap"]
    if not closed:
        return None
    filled: dict[str, Value] = {}
    if consultation.of(KNOWN) == UNKNOWN:
        filled[KNOWN] = "yes"
    weeks = _weeks_since_perm(closed, now)
    if weeks is not None and consultation.of(WEEKS) == UNKNOWN:
        filled[WEEKS] = float(weeks)
    asks = tuple(_contradictions(consultation, closed, weeks))
    return Remembered(
        consultation=replace(consultation, head={**consultation.head, **filled}),
        visits=tuple(one.id for one in closed),
        filled=filled,
        notes=(*_notes(consultation, closed, filled), *(one.because for one in asks)),
        asks=asks,
    )


def with_record(plan: Plan, remembered: Remembered) -> Plan:
    """Add to a plan what the record says.

    Args:
        plan: Made for the consultation with what the record adds.
        remembered: What the record says.

    Returns:
        The plan with its notes, and with what to ask first, ahead of all other questions.
    """
    return replace(
        plan, notes=(*plan.notes, *remembered.notes), ask_first=(*remembered.asks, *plan.ask_first)
    )


def remembered_to_plain(remembered: Remembered) -> dict[str, Any]:
    """Write what the record says, for other programs."""
    return {
        "visits": list(remembered.visits),
        "filled": dict(remembered.filled),
        "notes": list(remembered.notes),
        "ask": [{"field": one.field, "ask": one.ask, "because": one.because} for one in remembered.asks],
    }


def _weeks_since_perm(closed: Sequence[Visit], now: datetime) -> int | None:
    """Count whole weeks, too few rather than too many, since lotion was last on the hair."""
    permed = [one.opened for one in closed if one.service == "perm" and _was_begun(one)]
    if not permed:
        return None
    # A clock that was set back must not make the perm one of the days to come.
    return max(0, (now - datetime.fromisoformat(max(permed))).days) // _DAYS_A_WEEK


def _was_begun(visit: Visit) -> bool:
    return visit.result is not None and visit.result.outcome != NOT_DONE


def _contradictions(
    consultation: Consultation, closed: Sequence[Visit], weeks: int | None
) -> Iterator[Missing]:
    if consultation.of(KNOWN) == "no":
        yield _ask(
            KNOWN,
            say("Ask whether this is the client of the record, or another with the same label."),
            say(
                "The consultation says that there is no record of this client here; under this label there "
                "is one, last of {day}.",
                day=_day(closed[-1]),
            ),
        )
    stated = consultation.of(WEEKS)
    never = stated == "never"
    if weeks is not None and (never or (isinstance(stated, float) and stated > weeks + _SLACK_WEEKS)):
        yield _ask(
            WEEKS,
            say("Ask about the perm on the record, and look for the line between old curl and new growth."),
            say(
                "The consultation says that there never was a perm; the record has one, {weeks} weeks ago.",
                weeks=weeks,
            )
            if never
            else say(
                "The consultation says that the last perm was {stated} weeks ago; the record has one "
                "{weeks} weeks ago.",
                stated=f"{stated:g}",
                weeks=weeks,
            ),
        )
    reacted = [one for one in closed if one.consultation.get("history", {}).get("reaction") == "yes"]
    if reacted and consultation.of(REACTION) == "no":
        yield _ask(
            REACTION,
            say("Ask what the reaction on the record was, and to which product."),
            say(
                "The consultation says that there never was a reaction; the record of {day} has one.",
                day=_day(reacted[-1]),
            ),
        )


def _ask(field: str, ask: str, because: str) -> Missing:
    return Missing(field=field, ask=ask, because=because, stops=0, answers=0, strictness=0)


def _notes(consultation: Consultation, closed: Sequence[Visit], filled: dict[str, Value]) -> Iterator[str]:
    if filled:
        yield say(
            "On record here for {label}: closed visits {count}, the last of {day}. Make sure that it is the "
            "same person.",
            label=consultation.client,
            count=len(closed),
            day=_day(closed[-1]),
        )
    if KNOWN in filled:
        yield say("From the record: the client is known here.")
    if WEEKS in filled:
        yield say(
            "From the record: the last perm here was {weeks} weeks ago. Ask whether there was another since.",
            weeks=f"{filled[WEEKS]:g}",
        )
    last = closed[-1].result
    if last is not None and (
        last.outcome != DONE or last.hair not in ("", "sound") or last.curl not in ("", "as_wished")
    ):
        yield say(
            "The last visit did not end as wished: {outcome}. Read the record before this one begins.",
            outcome=", ".join(
                say(one.replace("_", " ")) for one in (last.outcome, last.curl, last.hair) if one
            ),
        )


def _day(visit: Visit) -> str:
    return visit.opened[:10]
