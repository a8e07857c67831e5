"""What a region's rules say of a lotion or neutraliser, to hold a label against.

Published limits as data, each with its source. A label within them is not thereby safe, and a limit that is
not held here may exist: the maker's directions and the local code decide.
"""

from dataclasses import dataclass

from drill.basis.length import number_text
from drill.basis.words import say
from drill.service.coil import need_not_negative

REGIONS = ("EU", "CIR", "Canada")
KINDS = ("thioglycolate", "thioglycolate_ester", "peroxide", "bromate", "ammonia")
USES = ("general", "professional")
_DIGITS = 4

_FOLLOW = "Follow the instructions."
_CHILDREN = "Keep away from children."
_PROFESSIONAL = "For professional use only."
_THIOGLYCOLATE = "Contains thioglycolate."
_SENSITISES = "May cause sensitisation by skin contact."
_PEROXIDE = "Contains hydrogen peroxide."
_EYES = "Avoid contact with the eyes."
_RINSE_EYES = "Rinse at once if it gets into the eyes."
_GLOVES = "Wear suitable gloves."


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelLimit:
    """One limit.

    Attributes:
        region: One of :data:`REGIONS`; ``CIR`` is a panel's advice in the United States, no law.
        kind: One of :data:`KINDS`.
        uses: For whom it holds, of :data:`USES`.
        prohibited: Whether it must not be there at all.
        most_percent: Highest percentage ready for use; 0 where it is prohibited.
        counted_as: What the percentage counts.
        lowest_ph: Lowest pH ready for use; None where none is held here.
        highest_ph: Highest pH ready for use; None where none is held here.
        statements: What the label has to say.
        conditions: What use is bound to.
        source: Where it stands.
    """

    region: str
    kind: str
    uses: tuple[str, ...] = USES
    prohibited: bool = False
    most_percent: float = 0.0
    counted_as: str
    lowest_ph: float | None = None
    highest_ph: float | None = None
    statements: tuple[str, ...] = ()
    conditions: tuple[str, ...] = ()
    source: str


def _eu_thiol(kind: str, use: str, most_percent: float, lowest_ph: float, source: str) -> LabelLimit:
    last = _CHILDREN if use == "general" else _PROFESSIONAL
    sensitises = (_SENSITISES,) if kind == "thioglycolate_ester" else ()
    return LabelLimit(
        region="EU",
        kind=kind,
        uses=(use,),
        most_percent=most_percent,
        counted_as="thioglycolic acid",
        lowest_ph=lowest_ph,
        highest_ph=9.5,
        statements=(*sensitises, _THIOGLYCOLATE, _FOLLOW, last),
        conditions=(_EYES, _RINSE_EYES, _GLOVES),
        source=source,
    )


_ACID_SOURCE = "Regulation (EC) 1223/2009, Annex III entry 2a"
_ESTER_SOURCE = "Regulation (EC) 1223/2009, Annex III entry 2b (pH and wording second-hand)"
_HOTLIST = "Health Canada, Cosmetic Ingredient Hotlist (second-hand)"
_LIMITS = (
    _eu_thiol("thioglycolate", "general", 8, 7, _ACID_SOURCE),
    _eu_thiol("thioglycolate", "professional", 11, 7, _ACID_SOURCE),
    _eu_thiol("thioglycolate_ester", "general", 8, 6, _ESTER_SOURCE),
    _eu_thiol("thioglycolate_ester", "professional", 11, 6, _ESTER_SOURCE),
    LabelLimit(
        region="EU",
        kind="peroxide",
        most_percent=12,
        counted_as="hydrogen peroxide",
        statements=(_GLOVES, _PEROXIDE, _EYES, _RINSE_EYES),
        conditions=(_GLOVES,),
        source="Regulation (EC) 1223/2009, Annex III entry 12a",
    ),
    LabelLimit(
        region="EU",
        kind="ammonia",
        most_percent=6,
        counted_as="NH3",
        source="Regulation (EC) 1223/2009, Annex III entry 4",
    ),
    LabelLimit(
        region="CIR",
        kind="thioglycolate",
        most_percent=15.4,
        counted_as="thioglycolic acid",
        conditions=("Hairdressers avoid skin contact; the client's skin meets as little as possible.",),
        source="Burnett et al., Int. J. Toxicol. 28 (4 Suppl), 68-133, 2009 (figure second-hand)",
    ),
    LabelLimit(
        region="CIR",
        kind="bromate",
        most_percent=10.17,
        counted_as="sodium bromate",
        source="Final report on the safety assessment of sodium bromate and potassium bromate",
    ),
    LabelLimit(
        region="Canada",
        kind="thioglycolate_ester",
        prohibited=True,
        counted_as="thioglycolic acid",
        source=_HOTLIST,
    ),
    LabelLimit(
        region="Canada", kind="peroxide", most_percent=10, counted_as="hydrogen peroxide", source=_HOTLIST
    ),
    LabelLimit(
        region="Canada", kind="bromate", prohibited=True, counted_as="sodium bromate", source=_HOTLIST
    ),
)


def lotion_limits(region: str, kind: str) -> tuple[LabelLimit, ...]:
    """Give the limits of a region for one kind of substance.

    Args:
        region: One of :data:`REGIONS`.
        kind: One of :data:`KINDS`.

    Returns:
        The limits held here, general use first; none where none is held, which does not mean none exists.

    Raises:
        ValueError: If there is no such region or kind.

    Source:
        Each limit's own; E1 to E5, E9, C1, C2.
    """
    _need_known("region", region, REGIONS)
    _need_known("kind", kind, KINDS)
    return tuple(one for one in _LIMITS if (one.region, one.kind) == (region, kind))


def label_faults(
    region: str, kind: str, *, use: str, percent: float, ph: float | None = None
) -> tuple[str, ...]:
    """Hold a label against a region's limits.

    Args:
        region: One of :data:`REGIONS`.
        kind: One of :data:`KINDS`.
        use: One of :data:`USES`.
        percent: Percentage ready for use, counted as the limit counts it.
        ph: pH ready for use; None where the label does not state it.

    Returns:
        What does not fit, each a sentence; none where the label keeps within what is held here.

    Raises:
        ValueError: If there is no such region, kind or use, or the percentage is below 0.

    Source:
        :func:`lotion_limits`.
    """
    need_not_negative(percent=percent)
    _need_known("use", use, USES)
    limits = [one for one in lotion_limits(region, kind) if use in one.uses]
    if not limits:
        return (say("No limit of this region is held here; read the local code."),)
    return tuple(fault for one in limits for fault in _faults(one, percent, ph))


def _faults(limit: LabelLimit, percent: float, ph: float | None) -> list[str]:
    if limit.prohibited:
        return [say("This substance is prohibited here.")]
    found = []
    if percent > limit.most_percent:
        found.append(
            say(
                "{percent} % is more than the {most} % allowed, counted as {what}.",
                percent=number_text(percent, digits=_DIGITS),
                most=number_text(limit.most_percent, digits=_DIGITS),
                what=limit.counted_as,
            )
        )
    if limit.lowest_ph is None or limit.highest_ph is None:
        return found
    if ph is None:
        found.append(say("The pH is not stated, and here it is limited."))
    elif not limit.lowest_ph <= ph <= limit.highest_ph:
        found.append(
            say(
                "pH {ph} lies outside {low} to {high}.",
                ph=number_text(ph, digits=_DIGITS),
                low=number_text(limit.lowest_ph),
                high=number_text(limit.highest_ph),
            )
        )
    return found


def _need_known(name: str, value: str, known: tuple[str, ...]) -> None:
    if value not in known:
        raise ValueError(f"{name} must be one of {', '.join(known)}, got {value}")
