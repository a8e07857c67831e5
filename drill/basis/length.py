"""Exact lengths in millimetres, read from and written as trade text.

One inch is 25.4 mm by definition (International Yard and Pound Agreement, 1959), so every conversion is
exact. A bare number is never a length: the reader says so.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

MM_PER_UNIT = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}
_NUMBER = re.compile(r"(?:(\d{1,6})\s+)?(\d{1,6})/(\d{1,4})|(\d{1,6}(?:\.\d{1,6})?)")


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length, held exactly.

    Attributes:
        mm: Millimetres, 0 or more.
    """

    mm: Fraction

    @property
    def inches(self) -> Fraction:
        """The same length in inches, exact."""
        return self.mm / MM_PER_UNIT["in"]


def number_from_text(text: str) -> Fraction | None:
    """Read a plain or mixed number such as ``12``, ``9.5``, ``3/8`` or ``1 1/2``.

    Args:
        text: The number without a unit; blanks around it are ignored.

    Returns:
        The exact number, or None where the text is no such number.
    """
    found = _NUMBER.fullmatch(text.strip())
    if not found:
        return None
    whole, upper, lower, plain = found.groups()
    if plain is not None:
        return Fraction(plain)
    return Fraction(int(whole or 0)) + Fraction(int(upper), int(lower)) if int(lower) else None


def length_from_text(text: str) -> Length | None:
    """Read a length with its unit, such as ``20 cm``, ``9.5 mm`` or ``3/8 in``.

    Args:
        text: A number followed by ``mm``, ``cm`` or ``in``.

    Returns:
        The length, or None where the number or the unit is missing.
    """
    stripped = text.strip()
    for unit, mm in MM_PER_UNIT.items():
        if stripped.endswith(unit):
            number = number_from_text(stripped.removesuffix(unit))
            return None if number is None else Length(number * mm)
    return None


def number_text(number: Fraction | float, *, digits: int = 1) -> str:
    """Write a number the short way: no trailing zeros.

    Args:
        number: Any number.
        digits: Decimals at most.

    Returns:
        For example ``12``, ``9.5`` or ``0.37``.
    """
    text = f"{float(number):.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def length_text(length: Length) -> str:
    """Write a length in millimetres below 10 cm, in centimetres above.

    Args:
        length: The length to write.

    Returns:
        For example ``9.5 mm`` or ``21 cm``; rounded to a tenth of the unit.
    """
    if length.mm < 100:  # noqa: PLR2004  the bound is the docstring's 10 cm
        return f"{number_text(length.mm)} mm"
    return f"{number_text(length.mm / 10)} cm"
