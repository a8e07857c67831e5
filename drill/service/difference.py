"""Outcomes, and what differs between two of them in the client's words.

Two outcomes side by side explain a choice: what differs between them is what a wrong choice costs.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from drill.basis.length import number_text
from drill.basis.words import say

_LIFT_WORDS = ("lies close to the head", "lifts a little at the scalp", "stands up at the scalp")
_FORM_WORDS = {"none": "no wave", "wave": "a wave and no curl", "curl": "a curl"}
_AS_IT_WAS = "It stays as it is."
_AS_IT_WAS_WORDS = {
    "straight": "It stays straight, as it is.",
    "wavy": "It keeps its own wave.",
    "curly": "It keeps its own curl.",
    "coily": "It keeps its own coil.",
}
_LINES_WORDS = ("no parting lines", "faint parting lines", "plain parting lines")
# Two curls closer than a tenth, and two gaps closer than 2 mm, look alike.
NOTICED_RATIO = 1.1
NOTICED_GAP_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Curl:
    """Diameter of the finished curl along a strand.

    Attributes:
        ends_mm: At the ends.
        middle_mm: In the middle of the strand.
        scalp_mm: At the scalp end.
    """

    ends_mm: float
    middle_mm: float
    scalp_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneOutcome:
    """What is seen in one zone.

    Attributes:
        zone: The zone.
        today: The curl on the day.
        later: The curl after two weeks; None where water set it, for the next wash undoes that.
        turns: Turns of the longest strands on the tool; of a double wrap those on the tool at the scalp.
        turns_shortest: Turns of the shortest strands; the same where nobody measured them.
        form: ``curl``, ``wave`` or ``none``, by the turns of the shortest strands.
        form_longest: The same by the turns of the longest strands.
        hangs: ``coils`` of one size, or ``waves`` that open toward the scalp.
        falls: The direction in which it was rolled.
        gap_mm: Hair at the scalp that stays uncurled.
        gap_weeks: Weeks of growth that the gap looks like.
        lift: 0 close, 1 a little, 2 standing up.
        stress: Strain on the hair at the scalp, 0 none to 3 breakage to be feared.
        part_lines: 0 none, 1 faint, 2 plain.
        evenness: ``even``, ``inner_layers_dry`` or ``overloaded``.
        lotion: What the lotion does to this hair: ``none``, ``weak``, ``right``, ``too_much``.
        ends: ``smooth``, ``slipping`` or ``bent``.
        papers: ``pass`` where lotion goes through to the ends under paper, ``none`` where there is no paper.
    """

    zone: str
    today: Curl
    later: Curl | None = None
    turns: float
    turns_shortest: float
    form: str
    form_longest: str
    hangs: str
    falls: str
    gap_mm: float
    gap_weeks: float
    lift: int
    stress: int
    part_lines: int
    evenness: str
    lotion: str
    ends: str
    papers: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What is seen of a head.

    Attributes:
        done: Whether the service is done at all.
        porosity_even: ``yes``, ``no`` or ``unknown``; where it differs one lotion works at two speeds.
        zones: By zone that is wound; empty where the service is not done.
        as_it_was: The natural pattern of each zone that is left out and stays as it is.
    """

    done: bool
    porosity_even: str
    zones: Mapping[str, ZoneOutcome] = field(default_factory=dict)
    as_it_was: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One thing that the client would see differently.

    Attributes:
        zone: The zone; ``head`` for the whole of it.
        what: ``service``, ``part``, ``curl``, ``form``, ``hangs``, ``falls``, ``gap``, ``lift``, ``stress``,
            ``part_lines``, ``evenness``, ``lotion`` or ``ends``.
        words: One sentence.
    """

    zone: str
    what: str
    words: str


def differences(one: Outcome, other: Outcome) -> tuple[Difference, ...]:
    """Say what the client would see in another outcome and not in the first.

    Args:
        one: The outcome to compare with, such as that of the right decision.
        other: The outcome that is described.

    Returns:
        One a thing and zone, in the order of the zones; none where both look alike.

    Source:
        What is noticed at all, a tenth of a curl or 2 mm at the scalp, is the tool's own measure.
    """
    if one.done != other.done:
        words = (
            say("The service is done, although this hair or skin should not have it.")
            if other.done
            else say("The client goes home without the service.")
        )
        return (Difference(zone="head", what="service", words=words),)
    return tuple(
        found for zone in (*one.zones, *one.as_it_was) for found in _differences_in(zone, one, other)
    )


def _differences_in(zone: str, one: Outcome, other: Outcome) -> Iterator[Difference]:
    if zone in one.zones and zone in other.zones:
        for what, compare in _COMPARISONS.items():
            for words in compare(one.zones[zone], other.zones[zone]):
                yield Difference(zone=zone, what=what, words=words)
    elif zone in other.as_it_was and zone in one.zones:
        words = say(_AS_IT_WAS_WORDS.get(other.as_it_was[zone], _AS_IT_WAS))
        yield Difference(zone=zone, what="part", words=words)
    elif zone in other.zones:
        yield Difference(zone=zone, what="part", words=say("It is waved, although it was to stay as it is."))


def _compare_curl(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    # Over-processed hair has no size worth comparing: its tool sets that all the same.
    if other.lotion == "too_much" != one.lotion:
        return
    ratio = other.today.middle_mm / one.today.middle_mm
    sizes = {"other": number_text(other.today.middle_mm), "one": number_text(one.today.middle_mm)}
    if ratio >= NOTICED_RATIO:
        yield say("The curl is larger: {other} mm across, not {one} mm.", **sizes)
    elif ratio <= 1 / NOTICED_RATIO:
        yield say("The curl is smaller: {other} mm across, not {one} mm.", **sizes)


def _compare_form(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if (one.form, one.form_longest) == (other.form, other.form_longest):
        return
    if other.form == other.form_longest:
        yield say("It comes out as {form}.", form=say(_FORM_WORDS[other.form]))
    else:
        yield say(
            "The longest strands come out as {longest}, the shortest as {shortest}.",
            longest=say(_FORM_WORDS[other.form_longest]),
            shortest=say(_FORM_WORDS[other.form]),
        )


def _compare_hangs(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if one.hangs != other.hangs and other.hangs == "coils":
        yield say("It hangs in coils of one size, not in waves.")
    elif one.hangs != other.hangs:
        yield say("It lies in waves that open toward the scalp, not in coils of one size.")


def _compare_falls(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if one.falls != other.falls:
        yield say("It falls {other}, not {one}.", other=say(other.falls), one=say(one.falls))


def _compare_gap(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if abs(other.gap_mm - one.gap_mm) < NOTICED_GAP_MM:
        return
    if other.gap_mm > one.gap_mm:
        yield say(
            "{gap} mm at the scalp stay straight; it looks like {weeks} weeks of growth on the first day.",
            gap=number_text(other.gap_mm),
            weeks=round(other.gap_weeks),
        )
    elif other.gap_mm:
        yield say("The curl begins closer to the scalp, {gap} mm from it.", gap=number_text(other.gap_mm))
    else:
        yield say("The curl begins right at the scalp.")


def _compare_lift(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if one.lift != other.lift:
        yield say("The hair {lift}.", lift=say(_LIFT_WORDS[other.lift]))


def _compare_stress(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if other.stress > one.stress:
        yield (
            say("The hair is pulled at the scalp and can break off there.")
            if other.stress > 1
            else say("The hair is pulled at the scalp.")
        )
    elif other.stress < one.stress:
        yield say("The hair is pulled less at the scalp.")


def _compare_part_lines(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
    if one.part_lines != other.part_lines:
        yield say("It shows {lines}.", lines=say(_LINES_WORDS[other.part_lines]))


def _compare_state(
    what: str, words: Mapping[str, str]
) -> Callable[[ZoneOutcome, ZoneOutcome], Iterator[str]]:
    def compare(one: ZoneOutcome, other: ZoneOutcome) -> Iterator[str]:
        state = getattr(other, what)
        if getattr(one, what) != state:
            yield say(words[state])

    return compare


_COMPARISONS: Mapping[str, Callable[[ZoneOutcome, ZoneOutcome], Iterator[str]]] = {
    "curl": _compare_curl,
    "form": _compare_form,
    "hangs": _compare_hangs,
    "falls": _compare_falls,
    "gap": _compare_gap,
    "lift": _compare_lift,
    "stress": _compare_stress,
    "part_lines": _compare_part_lines,
    "evenness": _compare_state(
        "evenness",
        {
            "even": "The curl is even from strand to strand.",
            "inner_layers_dry": "Lotion does not reach the inner turns; the ends stay weak or straight.",
            "overloaded": "There is too much hair on each tool, so weak places lie among firm ones.",
        },
    ),
    "lotion": _compare_state(
        "lotion",
        {
            "none": "Only water sets it; the next wash takes it out.",
            "weak": "The curl is weak, for the lotion hardly gets into this hair.",
            "right": "The lotion is one that this hair takes and bears.",
            "too_much": "The hair is stringy wet and frizzy dry, for the lotion takes more than it can give.",
        },
    ),
    "ends": _compare_state(
        "ends",
        {
            "smooth": "The ends are smooth.",
            "slipping": "Some ends slip out of the paper and stand off.",
            "bent": "The ends are bent like hooks and frizz.",
        },
    ),
}
