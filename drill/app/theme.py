"""Sizes and colours of the screens; sizes in dp and sp, colours as red, green, blue from 0 to 1.

No colour carries a meaning alone: each comes with words, a drawn sign, or a shape.
"""

import re
from collections.abc import Mapping

Color = tuple[float, float, float]


def color(code: str) -> Color:
    """Read a colour written as six hexadecimal digits."""
    return (int(code[0:2], 16) / 255, int(code[2:4], 16) / 255, int(code[4:6], 16) / 255)


def contrast(one: Color, other: Color) -> float:
    """Compare two colours' luminance.

    Args:
        one: A colour.
        other: Another.

    Returns:
        From 1, alike, to 21, black on white.

    Source:
        WCAG 2.2, contrast ratio and relative luminance.
    """
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(one: Color) -> float:
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4  # noqa: PLR2004  the formula's
        for part in one
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


GROUND = color("F1F4F2")
CARD = color("FFFFFF")
INK = color("15262B")
QUIET_INK = color("4A5B60")
LINE = color("C3CDCB")
MAIN = color("0E4F55")
ON_MAIN = color("FFFFFF")
CHOSEN = color("DCEBE8")
RIGHT = color("1C5F3A")
OTHER = color("7A4A08")
STOP = color("9B1C1C")
CAUTION_GROUND = color("E6ECEA")

# Every pair of a text and the ground that it may stand on.
TEXT_PAIRS: tuple[tuple[Color, Color], ...] = (
    *((ink, ground) for ink in (INK, QUIET_INK, MAIN) for ground in (GROUND, CARD, CHOSEN, CAUTION_GROUND)),
    *((ink, CARD) for ink in (RIGHT, OTHER, STOP)),
    *((ink, GROUND) for ink in (RIGHT, OTHER, STOP)),
    (ON_MAIN, MAIN),
)

# Colours of the figures' roles (drill.service.shapes).
ROLE_COLORS: Mapping[str, Color] = {
    "skin": color("E7C6A8"),
    "scalp": color("F6E7D8"),
    "base": color("E3B98E"),
    "strand": color("6B4028"),
    "tool": color("5F8C98"),
    "gap": color("C4361F"),
    "parting": color("A08465"),
    "chosen": color("F2C04E"),
    "key": color("0E4F55"),
    "plate": color("FFFFFF"),
    "ink": color("15262B"),
    "soft": color("8F7F69"),
}

TARGET_DP = 48.0
GAP_DP = 8.0
EDGE_DP = 16.0
BAR_DP = 52.0
CARD_RADIUS_DP = 10.0
LINE_DP = 1.0
READING_WIDTH_DP = 560.0

# Text sizes in sp by style, and whether they are bold.
TEXT_SIZES: Mapping[str, tuple[float, bool]] = {
    "title": (17, True),
    "ask": (18, True),
    "body": (16, False),
    "fact": (14, False),
    "small": (13, False),
    "label": (13, True),
    "verdict": (22, True),
    "number": (16, True),
    "press": (16, False),
    "main": (17, True),
}

# Roboto has no glyph for these; DejaVu Sans, which Kivy ships too, has.
_LACKING = re.compile("([₀-₉⁰⁴-⁹←-⇿✀-➿■-◿⅓⅔]+)")
_ESCAPES = (("&", "&amp;"), ("[", "&bl;"), ("]", "&br;"))


def marked(text: str) -> str:
    """Write a text so that a label shows it letter by letter, in a font that has each of them.

    Args:
        text: Any text.

    Returns:
        The text in the labels' markup.
    """
    for sign, escape in _ESCAPES:
        text = text.replace(sign, escape)
    return _LACKING.sub(r"[font=DejaVuSans]\1[/font]", text)
