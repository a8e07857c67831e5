"""Hair, tools and scalp to layers, gaps and growth: the geometry of a wrap.

All lengths are floats in millimetres with ``_mm`` in their names; what a strand measures, how dense hair
stands and how fast it grows are arguments. The coils themselves are in :mod:`drill.service.coil`; this
module is the door to them as well.
"""

import math

from drill.service.coil import (
    croquignole_turns,
    curl_at_ends_mm,
    curl_at_scalp_mm,
    double_tool_turns,
    finished_curl_mm,
    need_not_negative,
    need_positive,
    need_share,
    spiral_length_per_turn_mm,
    spiral_tool_length_mm,
    spiral_turns,
    wound_diameter_mm,
)

__all__ = [
    "base_offset_mm",
    "croquignole_turns",
    "curl_at_ends_mm",
    "curl_at_scalp_mm",
    "double_tool_turns",
    "finished_curl_mm",
    "grown_mm",
    "layer_thickness_mm",
    "share_left",
    "spiral_length_per_turn_mm",
    "spiral_tool_length_mm",
    "spiral_turns",
    "spiral_wound_rim_mm",
    "strand_diameter_mm_from_area",
    "weeks_of_growth",
    "wound_diameter_mm",
    "wound_rim_mm",
]

_UM_PER_MM = 1000
_DAYS_PER_WEEK = 7

# The two sides of a spiral's one layer, as a share of the wound rim: a lock thicker than that is parted.
_MOST_SPIRAL_SHARE = 0.5

# Half a tool, or a whole tool, of hair stays straight between the scalp and the first bend.
_TOOLS_OFF_BASE = {"on_base": 0.0, "half_off_base": 0.5, "off_base": 1.0}


def strand_diameter_mm_from_area(area_um2: float) -> float:
    """Find the diameter of the round hair that has the cross-section measured.

    Args:
        area_um2: Area of the cross-section in square micrometres, more than 0.

    Returns:
        Diameter in millimetres of a circle of that area.

    Raises:
        ValueError: If the area is not more than 0.

    Source:
        Area of a circle, solved for its diameter.
    """
    need_positive(area_um2=area_um2)
    return 2 * math.sqrt(area_um2 / math.pi) / _UM_PER_MM


def layer_thickness_mm(
    *, strand_mm: float, density_per_mm2: float, base_depth_mm: float, packing: float
) -> float:
    """Find how much one turn adds to the coil on each side.

    The hairs of one base, each with its cross-section, lie side by side across the tool, and the tool is as
    long as the base is wide; so the width cancels out.

    Args:
        strand_mm: Diameter of one hair.
        density_per_mm2: Hairs on a square millimetre of scalp.
        base_depth_mm: Depth of the base, from parting to parting.
        packing: Share of the layer that is hair and not air or paper, above 0, at most 1.

    Returns:
        Thickness of one layer in millimetres.

    Raises:
        ValueError: If a length, the density or the packing is out of range.

    Source:
        Conservation of cross-section, ``t = density x depth x (pi strand^2 / 4) / packing``.
    """
    need_positive(strand_mm=strand_mm, density_per_mm2=density_per_mm2, base_depth_mm=base_depth_mm)
    need_share("packing", packing)
    return density_per_mm2 * base_depth_mm * (math.pi * strand_mm**2 / 4) / packing


def wound_rim_mm(
    *,
    length_mm: float,
    rim_mm: float,
    strand_mm: float,
    density_per_mm2: float,
    packing: float,
    depth_factor: float = 1.0,
) -> float:
    """Find the wound diameter at the rim of a tool whose base is as deep as itself, wound.

    A deeper base makes thicker layers, and thicker layers ask for a deeper base: both are settled at once.

    Args:
        length_mm: Length of the strand.
        rim_mm: Diameter of the bare tool at its rim.
        strand_mm: Diameter of one hair.
        density_per_mm2: Hairs on a square millimetre of scalp.
        packing: Share of the layer that is hair, above 0, at most 1.
        depth_factor: Depth of the base in wound rims: 1, 1.5 or 2.

    Returns:
        Wound diameter at the rim in millimetres; times ``depth_factor`` it is the depth of the base.

    Raises:
        ValueError: If an argument is out of range.

    Source:
        :func:`wound_diameter_mm` with a layer in proportion to the depth: ``D^2 = d^2 + c D``.
    """
    need_positive(length_mm=length_mm, rim_mm=rim_mm)
    layer_on_unit_rim_mm = layer_thickness_mm(
        strand_mm=strand_mm, density_per_mm2=density_per_mm2, base_depth_mm=depth_factor, packing=packing
    )
    grown_mm = 4 * layer_on_unit_rim_mm * length_mm / math.pi
    return (grown_mm + math.hypot(grown_mm, 2 * rim_mm)) / 2


def spiral_wound_rim_mm(
    *,
    rim_mm: float,
    strand_mm: float,
    density_per_mm2: float,
    packing: float,
    pitch_mm: float,
    row_mm: float,
    depth_factor: float = 1.0,
) -> float:
    """Find the wound diameter at the rim of a spiral, whose hair lies on the tool in one layer.

    The hair of a base as high as its row is laid out as wide as one turn; how long it is does not matter.

    Args:
        rim_mm: Diameter of the bare tool at its rim.
        strand_mm: Diameter of one hair.
        density_per_mm2: Hairs on a square millimetre of scalp.
        packing: Share of the layer that is hair, above 0, at most 1.
        pitch_mm: Way along the tool from one turn to the next.
        row_mm: Height of a row of upright bases.
        depth_factor: Depth of the base in wound rims: 1, 1.5 or 2.

    Returns:
        Wound diameter at the rim in millimetres, at most twice the bare rim: more hair than that is not taken
        as one strand.

    Raises:
        ValueError: If an argument is out of range.

    Source:
        Conservation of cross-section, ``t pitch = c D row``, with a base in proportion to the wound rim:
        ``D = d + 2 t``.
    """
    need_positive(rim_mm=rim_mm, pitch_mm=pitch_mm, row_mm=row_mm)
    layer_on_unit_rim_mm = layer_thickness_mm(
        strand_mm=strand_mm, density_per_mm2=density_per_mm2, base_depth_mm=depth_factor, packing=packing
    )
    share = min(2 * layer_on_unit_rim_mm * row_mm / pitch_mm, _MOST_SPIRAL_SHARE)
    return rim_mm / (1 - share)


def base_offset_mm(base_control: str, *, tool_mm: float) -> float:
    """Find the hair at the scalp that stays uncurled.

    Args:
        base_control: ``on_base``, ``half_off_base`` or ``off_base``.
        tool_mm: Diameter of the tool at the waist; the trade counts the gap in bare tools.

    Returns:
        Millimetres from the scalp to where the tool comes to rest: no tool, half a tool or a whole one.

    Raises:
        ValueError: If the base control has no such name, or the diameter is not more than 0.

    Source:
        common practice.
    """
    need_positive(tool_mm=tool_mm)
    if base_control not in _TOOLS_OFF_BASE:
        raise ValueError(f"base_control must be one of {', '.join(_TOOLS_OFF_BASE)}, got {base_control}")
    return _TOOLS_OFF_BASE[base_control] * tool_mm


def weeks_of_growth(*, gap_mm: float, growth_um_per_day: float) -> float:
    """Say how many weeks of growth a gap at the scalp looks like.

    Args:
        gap_mm: Uncurled hair at the scalp, 0 or more.
        growth_um_per_day: Growth of the hair in micrometres a day.

    Returns:
        Weeks, not rounded.

    Raises:
        ValueError: If the gap or the growth is out of range.

    Source:
        Length over rate; rates as published, 280, 367 and 411 micrometres a day (Loussouarn et al. 2005).
    """
    need_not_negative(gap_mm=gap_mm)
    need_positive(growth_um_per_day=growth_um_per_day)
    return gap_mm * _UM_PER_MM / growth_um_per_day / _DAYS_PER_WEEK


def share_left(*, length_mm: float, growth_um_per_day: float, weeks: float) -> float:
    """Find how much of the length still carries an old perm, colour or relaxer.

    Args:
        length_mm: Length of the hair today.
        growth_um_per_day: Growth of the hair in micrometres a day.
        weeks: Weeks since the service, 0 or more.

    Returns:
        Share of the length, from 0 (all of it has grown since) to 1.

    Raises:
        ValueError: If an argument is out of range.

    Source:
        ``1 - growth x time / length``: hair grows at the scalp, what is treated moves out and stays.
    """
    need_positive(length_mm=length_mm)
    return max(0.0, 1 - grown_mm(growth_um_per_day=growth_um_per_day, weeks=weeks) / length_mm)


def grown_mm(*, growth_um_per_day: float, weeks: float) -> float:
    """Find how much hair grows in some weeks.

    Args:
        growth_um_per_day: Growth of the hair in micrometres a day.
        weeks: Weeks, 0 or more.

    Returns:
        Millimetres.

    Raises:
        ValueError: If an argument is out of range.

    Source:
        Speed times time.
    """
    need_positive(growth_um_per_day=growth_um_per_day)
    need_not_negative(weeks=weeks)
    return growth_um_per_day * _DAYS_PER_WEEK * weeks / _UM_PER_MM
