"""The picture of the S: a strand unwound one and a half turns and eased toward the scalp, beside its tool.

Drawn from what was seen, never from how long a lotion has worked.
"""

import math

from drill.basis.words import say
from drill.service.coil import need_positive
from drill.service.shapes import Disc, Figure, Point, Polyline, Shape, Text

CURLS = ("none", "weak", "firm", "gum_like")
# How wide the strand swings, in diameters of the tool; a firm S is as wide as the tool.
_SWING = {"none": 0.06, "weak": 0.45, "firm": 1.0, "gum_like": 0.3}
_WIDTH, _HEIGHT = 5.2, 4.0
_MIDDLE_X, _TOP, _BOTTOM = 1.6, 3.65, 1.05
_TOOL_AT: Point = (4.0, 2.45)
_STEPS = 40
_BAR_Y = 0.75
# Hair like gum is drawn out: thick, then thin.
_THICK, _THIN = 0.22, 0.07


def s_figure(curl: str, *, tool_mm: float) -> Figure:
    """Draw what a strand shows that was unwound while lotion works.

    Args:
        curl: ``none``, ``weak``, ``firm`` or ``gum_like``.
        tool_mm: Diameter of the tool it was wound on.

    Returns:
        The strand with the width of its S measured, and the tool beside it, both to one scale.

    Raises:
        ValueError: If what shows has no such name, or the diameter is not more than 0.

    Source:
        Step ``test-curl``: one and a half turns, a firm S as wide as the tool; common practice.
    """
    if curl not in CURLS:
        raise ValueError(f"what shows must be one of {', '.join(CURLS)}, got {curl}")
    need_positive(tool_mm=tool_mm)
    words = _words(curl)
    half = _SWING[curl] / 2
    shapes = (
        *_strand(curl, tool_mm),
        Disc(_at(_TOOL_AT, tool_mm), 0.5 * tool_mm, "tool"),
        *_bar(_MIDDLE_X, half, tool_mm),
        *_bar(_TOOL_AT[0], 0.5, tool_mm),
        _text((_TOOL_AT[0], 0.3), say("tool"), tool_mm),
        _text((_MIDDLE_X, 0.3), words, tool_mm),
    )
    return Figure(
        _WIDTH * tool_mm,
        _HEIGHT * tool_mm,
        shapes,
        title=words,
        description=say(
            "A strand unwound one and a half turns, beside its tool: {what}.",
            what=_described(curl),
        ),
    )


def _words(curl: str) -> str:
    return {
        "none": say("no S"),
        "weak": say("weak S"),
        "firm": say("firm S"),
        "gum_like": say("stretches like gum"),
    }[curl]


def _described(curl: str) -> str:
    return {
        "none": say("it hangs almost straight"),
        "weak": say("a flat S, narrower than the tool"),
        "firm": say("a full S, as wide as the tool"),
        "gum_like": say("no spring, thick in one place and thin in the next"),
    }[curl]


def _strand(curl: str, tool_mm: float) -> list[Shape]:
    """Draw the strand from the scalp end down: one whole S, or hair that has lost its shape."""
    if curl != "gum_like":
        return [_line([_swung(curl, step / _STEPS) for step in range(_STEPS + 1)], 0.2, tool_mm)]
    pieces: list[Shape] = []
    for start in range(0, _STEPS, 8):
        width = _THICK if start % 16 == 0 else _THIN
        piece = [_swung(curl, step / _STEPS) for step in range(start, start + 9)]
        pieces.append(_line(piece, width, tool_mm))
    return pieces


def _swung(curl: str, part: float) -> Point:
    across = _SWING[curl] / 2 * math.sin(2 * math.pi * part)
    return (_MIDDLE_X + across, _TOP + (_BOTTOM - _TOP) * part)


def _bar(middle: float, half: float, tool_mm: float) -> list[Shape]:
    """Draw a width under what has it, with its two ends."""
    ends = (middle - half, middle + half)
    ticks = [_key([(end, _BAR_Y - 0.1), (end, _BAR_Y + 0.1)], tool_mm) for end in ends]
    return [_key([(end, _BAR_Y) for end in ends], tool_mm), *ticks]


def _key(points: list[Point], tool_mm: float) -> Polyline:
    return Polyline(tuple(_at(point, tool_mm) for point in points), 0.05 * tool_mm, "key")


def _line(points: list[Point], width: float, tool_mm: float) -> Polyline:
    return Polyline(tuple(_at(point, tool_mm) for point in points), width * tool_mm, "strand")


def _text(at: Point, words: str, tool_mm: float) -> Text:
    return Text(_at(at, tool_mm), words, 0.3 * tool_mm, "ink")


def _at(point: Point, tool_mm: float) -> Point:
    return (point[0] * tool_mm, point[1] * tool_mm)
