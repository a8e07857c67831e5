"""What goes on in the bottle and in the hair, as reasons for rules.

These formulas explain why lotions differ, why the first minutes count and why a neutraliser gets its full
time. They never tell how long a lotion stays on a head: from pH 8.0 to 9.8 the share of thiolate rises
fifty-fold, and the bonds opened in ten minutes only from 0.34 to 0.48 (H3). Time is the maker's, and the
curl's.
"""

import math

from drill.service.coil import need_not_negative, need_positive
from drill.service.label import LabelLimit, label_faults, lotion_limits

__all__ = [
    "LabelLimit",
    "acid_from_percent",
    "bonds_closed_share",
    "free_base_share",
    "label_faults",
    "lotion_limits",
    "oxygen_volumes",
    "percent_from_acid",
    "rate_from_half_life",
    "set_from_stiffness",
    "share_left_after",
    "thiolate_share",
]

# Thioglycolic acid's SH group. Encyclopaedias print 9.3, which contradicts the kinetics of waving.
THIOGLYCOLIC_PKA = 10.4
CYSTEAMINE_PKA = 8.21
AMMONIUM_PKA = 9.245
_MOLAR_G = {
    "thioglycolic_acid": 92.11,
    "ammonium_thioglycolate": 109.15,
    "glyceryl_thioglycolate": 166.19,
}
_PEROXIDE_G_PER_MOL = 34.0147
_GAS_L_PER_MOL = 22.414
_LOWEST_PH, _HIGHEST_PH = 0.0, 14.0
# Least squares of (share of cystine) on ln(minutes) over four published points from 3 to 15 minutes.
_CLOSED_AT_1_MIN, _CLOSED_PER_LN_MIN = 0.54685, 0.11246
_FIRST_MIN, _LAST_MIN = 3.0, 15.0


def thiolate_share(*, ph: float, pka: float = THIOGLYCOLIC_PKA) -> float:
    """Find the share of a thiol that is in its active form, the thiolate.

    Args:
        ph: pH of the lotion, 0 to 14.
        pka: pKa of the SH group.

    Returns:
        Share from 0 to 1. It ranks lotions of one kind; it does not tell how fast they work.

    Raises:
        ValueError: If the pH is out of range.

    Source:
        Henderson and Hasselbalch, ``1 / (1 + 10^(pKa - pH))``; pKa 10.4 for thioglycolic acid (Manuszak,
        Borish, Wickett, J. Soc. Cosmet. Chem. 47, 55, 1996), 8.21 for 2-aminoethanethiol (NIST critical
        constants in Harris, Quantitative Chemical Analysis, appendix G).
    """
    if not _LOWEST_PH <= ph <= _HIGHEST_PH:
        raise ValueError(f"ph must be from 0 to 14, got {ph}")
    return 1 / (1 + 10 ** (pka - ph))


def free_base_share(*, ph: float, pka: float = AMMONIUM_PKA) -> float:
    """Find the share of an ammonium salt that is free ammonia: what is smelt.

    Args:
        ph: pH of the lotion, 0 to 14.
        pka: pKa of the ammonium ion.

    Returns:
        Share from 0 to 1. The smell tells the share of ammonia, not the strength of the lotion.

    Raises:
        ValueError: If the pH is out of range.

    Source:
        As :func:`thiolate_share`; pKa 9.245 for ammonium (the same appendix).
    """
    return thiolate_share(ph=ph, pka=pka)


def acid_from_percent(percent: float, *, compound: str) -> float:
    """Convert what a pack states into the percentage that regulators count, that of the acid.

    Args:
        percent: Percentage of the compound by weight, 0 to 100.
        compound: ``thioglycolic_acid``, ``ammonium_thioglycolate`` or ``glyceryl_thioglycolate``.

    Returns:
        Percentage as thioglycolic acid.

    Raises:
        ValueError: If the percentage is out of range or the compound is not known here.

    Source:
        Molar masses 92.11, 109.15 and (from memory) 166.19 g/mol; Regulation (EC) 1223/2009 counts the acid
        (E8).
    """
    _need_percent(percent)
    return percent * _MOLAR_G["thioglycolic_acid"] / _molar(compound)


def percent_from_acid(acid_percent: float, *, compound: str) -> float:
    """Convert a percentage counted as the acid into that of a salt or ester.

    Args:
        acid_percent: Percentage as thioglycolic acid, 0 to 100.
        compound: As for :func:`acid_from_percent`.

    Returns:
        Percentage of the compound by weight.

    Raises:
        ValueError: As for :func:`acid_from_percent`.

    Source:
        As for :func:`acid_from_percent`.
    """
    _need_percent(acid_percent)
    return acid_percent * _molar(compound) / _MOLAR_G["thioglycolic_acid"]


def oxygen_volumes(percent: float) -> float:
    """Find the volumes of oxygen that a peroxide solution gives off.

    Args:
        percent: Grams of hydrogen peroxide in 100 ml, 0 to 100.

    Returns:
        Litres of oxygen gas from one litre; the trade rounds 3, 6 and 12 % to 10, 20 and 40 volumes.

    Raises:
        ValueError: If the percentage is out of range.

    Source:
        Two molecules give one of oxygen: ``(g per litre / 34.0147) / 2 x 22.414`` (E4).
    """
    _need_percent(percent)
    return percent * 10 / _PEROXIDE_G_PER_MOL / 2 * _GAS_L_PER_MOL


def rate_from_half_life(*, half_life_min: float) -> float:
    """Find the rate of a first-order course from its half-life.

    Args:
        half_life_min: Minutes until half is left, more than 0.

    Returns:
        Rate per minute.

    Raises:
        ValueError: If the half-life is not more than 0.

    Source:
        ``ln 2 / half-life``.
    """
    need_positive(half_life_min=half_life_min)
    return math.log(2) / half_life_min


def share_left_after(*, minutes: float, rate_per_min: float) -> float:
    """Find what share of the bonds is still closed in a first-order course.

    Args:
        minutes: Minutes in the solution, 0 or more.
        rate_per_min: Rate per minute, more than 0; of one solution, hair and temperature, never of a head.

    Returns:
        Share from 1 down to 0. Half of all that opens opens in the first half-life: why the first look comes
        early.

    Raises:
        ValueError: If a number is out of range.

    Source:
        ``exp(-k t)``; half-life 123 s in 1 M ammonium thioglycolate at pH 9.4 and 23 C (H1); 0.13 per minute
        for the ammonium and 0.036 for the sodium salt at 0.6 M and pH 8.6 (H2).
    """
    need_not_negative(minutes=minutes)
    need_positive(rate_per_min=rate_per_min)
    return math.exp(-rate_per_min * minutes)


def bonds_closed_share(*, minutes: float) -> float:
    """Find the share of cystine that is back after some minutes of neutraliser.

    Args:
        minutes: Minutes of oxidation, 3 to 15, the range that was measured.

    Returns:
        Share of the untreated hair's cystine. It rises ever more slowly and is not whole at the end: why the
        full time counts and why hair stays weaker.

    Raises:
        ValueError: If the minutes lie outside what was measured.

    Source:
        A line in ln(minutes) through cystine of 10.3, 12.0, 12.3 and 13.2 % at 3, 6, 9 and 15 minutes, of
        15.6 % before (H5).
    """
    if not _FIRST_MIN <= minutes <= _LAST_MIN:
        raise ValueError(f"minutes must be from 3 to 15, the range that was measured, got {minutes}")
    return _CLOSED_AT_1_MIN + _CLOSED_PER_LN_MIN * math.log(minutes)


def set_from_stiffness(*, reduced: float, original: float) -> float:
    """Find the permanent set that a lotion gives from how far it softens the hair.

    Args:
        reduced: Stiffness of the hair in the lotion, as a share or percentage, 0 or more.
        original: Its stiffness before, in the same unit, more than 0 and not less than ``reduced``.

    Returns:
        Set from 0 to 1, the share of the wound curvature that stays.

    Raises:
        ValueError: If a number is out of range.

    Source:
        ``1 - Ere / Ero`` (H6: J. Cosmet. Sci. 66, table II, p. 40, 2015).
    """
    need_not_negative(reduced=reduced)
    need_positive(original=original)
    if reduced > original:
        raise ValueError(f"reduced must not be more than original, got {reduced} and {original}")
    return 1 - reduced / original


def _molar(compound: str) -> float:
    if compound not in _MOLAR_G:
        raise ValueError(f"compound must be one of {', '.join(_MOLAR_G)}, got {compound}")
    return _MOLAR_G[compound]


def _need_percent(percent: float) -> None:
    if not 0 <= percent <= 100:  # noqa: PLR2004  a percentage
        raise ValueError(f"percent must be from 0 to 100, got {percent}")
