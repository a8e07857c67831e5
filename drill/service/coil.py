"""Strands on tools to turns and curls: the arithmetic of a coil.

All lengths are floats in millimetres with ``_mm`` in their names. A coil's diameter ``d`` is that of the
tool's surface; the first layer lies on it, and a layer of thickness ``t`` adds ``2 t``. (Adding up the
circles of the layers' inner faces instead finds some 6 % less hair for the same turns on a small tool.)
"""

import math


def need_positive(**values: float) -> None:
    """Refuse values that are not more than 0.

    Args:
        values: Numbers by the names to show.

    Raises:
        ValueError: If one is not more than 0.

    Source:
        A length, a density or a rate below its range has no meaning.
    """
    for name, value in values.items():
        if not value > 0:
            raise ValueError(f"{name} must be more than 0, got {value}")


def need_not_negative(**values: float) -> None:
    """Refuse values below 0.

    Args:
        values: Numbers by the names to show.

    Raises:
        ValueError: If one is below 0.

    Source:
        As for :func:`need_positive`.
    """
    for name, value in values.items():
        if not value >= 0:
            raise ValueError(f"{name} must be 0 or more, got {value}")


def need_share(name: str, value: float) -> None:
    """Refuse a share that is not above 0 and at most 1.

    Args:
        name: The name to show.
        value: The share.

    Raises:
        ValueError: If it is out of range.

    Source:
        As for :func:`need_positive`.
    """
    if not 0 < value <= 1:
        raise ValueError(f"{name} must be above 0 and at most 1, got {value}")


def wound_diameter_mm(*, length_mm: float, tool_mm: float, layer_mm: float) -> float:
    """Find the diameter of the tool with all of the strand on it.

    Args:
        length_mm: Length of the strand, 0 or more.
        tool_mm: Diameter of the tool.
        layer_mm: Thickness of one layer, 0 or more.

    Returns:
        Outer diameter in millimetres, the tool plus two layers for each turn.

    Raises:
        ValueError: If a length is out of range.

    Source:
        Archimedean spiral by its area: ``L = pi (D^2 - d^2) / (4 t)``, so ``D^2 = d^2 + 4 t L / pi``.
    """
    need_positive(tool_mm=tool_mm)
    need_not_negative(length_mm=length_mm, layer_mm=layer_mm)
    return math.sqrt(tool_mm**2 + 4 * layer_mm * length_mm / math.pi)


def croquignole_turns(*, length_mm: float, tool_mm: float, layer_mm: float) -> float:
    """Count the turns of a strand wound from its ends to the scalp, each turn over the last.

    Args:
        length_mm: Length of the strand, 0 or more.
        tool_mm: Diameter of the tool at its surface.
        layer_mm: Thickness of one layer, 0 or more.

    Returns:
        Turns, not rounded. A layer of 0 gives the length over the tool's circumference.

    Raises:
        ValueError: If a length is out of range.

    Source:
        Archimedean spiral, ``L = pi N (d + N t)`` solved for N.
    """
    # With the root below the line the formula holds at t = 0 too, and loses no digits near it.
    outer_mm = wound_diameter_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    return 2 * length_mm / (math.pi * (tool_mm + outer_mm))


def curl_at_ends_mm(*, tool_mm: float, layer_mm: float) -> float:
    """Find the wound diameter of the hair's ends, the innermost turn.

    Args:
        tool_mm: Diameter of the tool.
        layer_mm: Thickness of one layer, 0 or more.

    Returns:
        Diameter of the middle of the first layer, in millimetres.

    Raises:
        ValueError: If a length is out of range.

    Source:
        The first of N layers, ``d + t``.
    """
    need_positive(tool_mm=tool_mm)
    need_not_negative(layer_mm=layer_mm)
    return tool_mm + layer_mm


def curl_at_scalp_mm(*, length_mm: float, tool_mm: float, layer_mm: float) -> float:
    """Find the wound diameter of the hair at the scalp end, the outermost turn.

    Args:
        length_mm: Length of the strand, 0 or more.
        tool_mm: Diameter of the tool.
        layer_mm: Thickness of one layer, 0 or more.

    Returns:
        Diameter of the middle of the last layer, in millimetres; of a strand shorter than one turn, which
        has only one layer, that of the ends.

    Raises:
        ValueError: If a length is out of range.

    Source:
        The last of N layers, ``d + (2 N - 1) t``.
    """
    turns = max(1.0, croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm))
    return tool_mm + (2 * turns - 1) * layer_mm


def double_tool_turns(
    *, length_mm: float, scalp_tool_mm: float, ends_tool_mm: float, layer_mm: float
) -> tuple[float, float]:
    """Count the turns of a strand that is wound on two tools, half of it on each.

    Args:
        length_mm: Length of the whole strand, 0 or more.
        scalp_tool_mm: Diameter of the tool wound from the middle of the strand to the scalp.
        ends_tool_mm: Diameter of the tool that takes the ends.
        layer_mm: Thickness of one layer, 0 or more.

    Returns:
        Turns on the tool at the scalp, then turns on the tool of the ends; not rounded.

    Raises:
        ValueError: If a length is out of range.

    Source:
        :func:`croquignole_turns` of each half; the middle as the place to start is common practice.
    """
    half_mm = length_mm / 2
    return (
        croquignole_turns(length_mm=half_mm, tool_mm=scalp_tool_mm, layer_mm=layer_mm),
        croquignole_turns(length_mm=half_mm, tool_mm=ends_tool_mm, layer_mm=layer_mm),
    )


def spiral_length_per_turn_mm(*, tool_mm: float, pitch_mm: float) -> float:
    """Find the hair that one turn of a spiral wrap takes.

    Args:
        tool_mm: Diameter of the tool.
        pitch_mm: Way along the tool from one turn to the next, 0 or more.

    Returns:
        Millimetres of hair a turn.

    Raises:
        ValueError: If a length is out of range.

    Source:
        Length of a helix, ``sqrt((pi d)^2 + pitch^2)``.
    """
    need_positive(tool_mm=tool_mm)
    need_not_negative(pitch_mm=pitch_mm)
    return math.hypot(math.pi * tool_mm, pitch_mm)


def spiral_turns(*, length_mm: float, tool_mm: float, pitch_mm: float) -> float:
    """Count the turns of a strand wound side by side along the tool, in one layer.

    Args:
        length_mm: Length of the strand, 0 or more.
        tool_mm: Diameter of the tool.
        pitch_mm: Way along the tool from one turn to the next, 0 or more.

    Returns:
        Turns, not rounded.

    Raises:
        ValueError: If a length is out of range.

    Source:
        Strand over :func:`spiral_length_per_turn_mm`.
    """
    need_not_negative(length_mm=length_mm)
    return length_mm / spiral_length_per_turn_mm(tool_mm=tool_mm, pitch_mm=pitch_mm)


def spiral_tool_length_mm(*, length_mm: float, tool_mm: float, pitch_mm: float) -> float:
    """Find how much of the tool's length a spiral wrap covers.

    Args:
        length_mm: Length of the strand, 0 or more.
        tool_mm: Diameter of the tool.
        pitch_mm: Way along the tool from one turn to the next, 0 or more.

    Returns:
        Millimetres along the tool.

    Raises:
        ValueError: If a length is out of range.

    Source:
        Turns times pitch.
    """
    return pitch_mm * spiral_turns(length_mm=length_mm, tool_mm=tool_mm, pitch_mm=pitch_mm)


def finished_curl_mm(*, wound_mm: float, set_share: float) -> float:
    """Find the curl that is left when the tool is out and the hair has sprung back.

    Args:
        wound_mm: Diameter at which the hair lay on the tool.
        set_share: Share of the wound curvature that stays, above 0, at most 1.

    Returns:
        Diameter of the finished curl in millimetres.

    Raises:
        ValueError: If an argument is out of range.

    Source:
        Set as curvature after over curvature on the tool; published sets run from about 0.55 to 0.95
        (J. Cosmet. Sci. 66, 2015, p. 40, Table II).
    """
    need_positive(wound_mm=wound_mm)
    need_share("set_share", set_share)
    return wound_mm / set_share
