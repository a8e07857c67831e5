"""The record of a service: what was planned, who looked at which stop, what was used, and what came of it.

A visit is opened with its plan, gathers events, and is closed with a result. Events are only ever added: who
corrects one adds another. On closing, what concerns the client's health beyond the hair is dropped.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from drill.rulebook.domain import UNKNOWN
from drill.service.plan import SIGN_OFFS

STOPS = tuple(SIGN_OFFS.values())
LOTION = "processing"
PHASES = (
    "test_curls",
    "wrap",
    "saturation",
    LOTION,
    "rinse",
    "blot",
    "neutraliser",
    "drying",
    "finish",
)
DONE, STOPPED, NOT_DONE = "done", "stopped", "not_done"
OUTCOMES = (DONE, STOPPED, NOT_DONE)
CURLS_OBTAINED = ("as_wished", "weaker", "tighter", "uneven", "none")
HAIR_AFTER = ("sound", "dry", "harsh", "broken")

# Treatment and medicine decide one plan, on one day, and are asked anew at the next visit. A record of hair
# that outlives the visit has no need of them, so they leave it when it is closed, with every line of the plan
# that would give them away. A reaction to a product stays: it decides every plan to come.
HEALTH = "health"


@dataclass(frozen=True, slots=True, kw_only=True)
class SignOff:
    """The instructor has looked at a stop.

    Attributes:
        at: When, ISO time in UTC.
        stop: One of :data:`STOPS`.
        initials: Whose; a note of who looked, no proof.
        taken_back: Whether it takes an earlier sign-off back.
    """

    at: str
    stop: str
    initials: str
    taken_back: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What test curls have shown, and what was answered.

    Attributes:
        at: When, ISO time in UTC.
        minutes: Minutes that lotion lay on them; None where nobody looked at a clock.
        longest_min: The maker's longest time; None where it is not known.
        wet: The curl wet, as :class:`drill.service.revise.TestCurlsSeen` has it.
        dry: The curl dry.
        hair: The strand afterwards.
        skin: The scalp under them.
        do: What followed: ``go_on``, ``other_tool``, ``other_lotion``, ``condition_and_wait`` or ``stop``.
        way: ``stronger``, ``milder``, ``smaller``, ``larger`` or ``none``.
        corrects: Whether it stands in place of the reading before it.
    """

    at: str
    minutes: float | None
    longest_min: float | None
    wet: str = UNKNOWN
    dry: str = UNKNOWN
    hair: str = UNKNOWN
    skin: str = UNKNOWN
    do: str
    way: str
    corrects: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PhaseTime:
    """How long a phase took.

    Attributes:
        at: When it was noted, ISO time in UTC.
        phase: One of :data:`PHASES`.
        minutes: Minutes, more than 0.
        longest_min: The maker's longest time for it; None where it was not noted.
        product: What was used, as its label calls it; empty where it was not noted.
    """

    at: str
    phase: str
    minutes: float
    longest_min: float | None = None
    product: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What came of it; the first one closes the visit, a later one corrects it.

    Attributes:
        at: When, ISO time in UTC.
        outcome: ``done``; ``stopped``, lotion was on hair and the service ended early; ``not_done``.
        curl: Curl obtained, one of :data:`CURLS_OBTAINED`; empty where there is none to judge.
        hair: The hair afterwards, one of :data:`HAIR_AFTER`; empty where nothing was done to it.
        home_care: What the client was told for home.
    """

    at: str
    outcome: str
    curl: str = ""
    hair: str = ""
    home_care: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """Free words.

    Attributes:
        at: When, ISO time in UTC.
        text: The words.
    """

    at: str
    text: str


Event = SignOff | Reading | PhaseTime | Result | Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One visit of one client.

    Attributes:
        id: Its id, day of opening first.
        label: The client's label, as in the consultation; may be empty.
        opened: When, ISO time in UTC.
        student_mode: Whether it was opened in a school's student mode.
        consultation: As planned, in the form that ``plan`` reads.
        plan: The plan in the contract's form, without trace and consultation.
        health_lines: By list of the plan, places of the entries that would give health away.
        sign_offs: In the order made.
        readings: In the order made.
        times: In the order made.
        results: In the order made.
        notes: In the order made.
    """

    id: str
    label: str
    opened: str
    student_mode: bool = False
    consultation: Mapping[str, Any]
    plan: Mapping[str, Any]
    health_lines: Mapping[str, tuple[int, ...]]
    sign_offs: tuple[SignOff, ...] = ()
    readings: tuple[Reading, ...] = ()
    times: tuple[PhaseTime, ...] = ()
    results: tuple[Result, ...] = ()
    notes: tuple[Note, ...] = ()

    @property
    def closed(self) -> str:
        """When it was closed, ISO time in UTC; empty while it is open."""
        return self.results[0].at if self.results else ""

    @property
    def result(self) -> Result | None:
        """What came of it, as last corrected; None while it is open."""
        return self.results[-1] if self.results else None

    @property
    def service(self) -> str:
        """Which service it was planned for."""
        return str(self.plan["service"])

    @property
    def signed(self) -> Mapping[str, SignOff]:
        """The stops that are signed, each with its last sign-off."""
        last = {one.stop: one for one in self.sign_offs}
        return {stop: last[stop] for stop in STOPS if stop in last and not last[stop].taken_back}

    @property
    def standing_readings(self) -> tuple[Reading, ...]:
        """The readings that no later one corrects."""
        found: list[Reading] = []
        for one in self.readings:
            if one.corrects and found:
                found.pop()
            found.append(one)
        return tuple(found)

    @property
    def minutes(self) -> Mapping[str, PhaseTime]:
        """The time of each phase, as last noted, in the order of the service."""
        last = {one.phase: one for one in self.times}
        return {phase: last[phase] for phase in PHASES if phase in last}


def moment_text(at: datetime) -> str:
    """Write a time as a record keeps it.

    Args:
        at: An aware time.

    Returns:
        ISO time in UTC, to the second.

    Raises:
        ValueError: If the time does not know its zone.
    """
    if at.tzinfo is None:
        raise ValueError(f"the time {at} does not know its zone")
    return at.astimezone(UTC).isoformat(timespec="seconds")


def with_event(visit: Visit, event: Event) -> Visit:
    """Add an event.

    Args:
        visit: The visit.
        event: What happened.

    Returns:
        The visit with it; the first result closes it and drops what is kept no longer than that.
    """
    match event:
        case SignOff():
            return replace(visit, sign_offs=(*visit.sign_offs, event))
        case Reading():
            return replace(visit, readings=(*visit.readings, event))
        case PhaseTime():
            return replace(visit, times=(*visit.times, event))
        case Result():
            return without_health(replace(visit, results=(*visit.results, event)))
    return replace(visit, notes=(*visit.notes, event))


def without_health(visit: Visit) -> Visit:
    """Drop what is kept no longer than a visit is open.

    Args:
        visit: The visit.

    Returns:
        The visit without ``health.*`` in its consultation, and without every reason, question, test, caution
        and advice of its plan whose row reads ``health.*``. The verdict itself stays.
    """
    plan = dict(visit.plan)
    for path, places in visit.health_lines.items():
        outer, _, inner = path.partition(".")
        held = plan[outer][inner] if inner else plan[outer]
        left = [one for at, one in enumerate(held) if at not in places]
        plan[outer] = {**plan[outer], inner: left} if inner else left
    return replace(
        visit,
        consultation={name: one for name, one in visit.consultation.items() if name != HEALTH},
        plan=plan,
        health_lines={},
    )
