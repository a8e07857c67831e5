"""Quantities with their unit, read from trade text into the unit of a domain."""

from fractions import Fraction

from drill.basis.length import length_from_text, number_from_text

PER_UNIT: dict[str, dict[str, Fraction]] = {
    "weeks": {"weeks": Fraction(1), "week": Fraction(1), "days": Fraction(1, 7), "day": Fraction(1, 7)},
    "months": {"months": Fraction(1), "month": Fraction(1), "years": Fraction(12), "year": Fraction(12)},
    "min": {"min": Fraction(1), "minutes": Fraction(1), "h": Fraction(60), "hours": Fraction(60)},
    "turns": {"turns": Fraction(1), "turn": Fraction(1)},
    "ratio": {"": Fraction(1)},
}
HOW_TO_WRITE = {
    "mm": "a length with its unit, such as 20 cm, 9.5 mm or 3/8 in",
    "weeks": "a number of weeks, such as 6 weeks",
    "months": "a number of months, such as 6 months",
    "min": "minutes, such as 90 min",
    "turns": "a number of turns, such as 2.5 turns",
    "ratio": "a plain number, such as 0.5",
}


def quantity_from_text(text: str, unit: str, *, bare: bool = False) -> float | None:
    """Read a quantity into a unit.

    Args:
        text: A number and its unit.
        unit: The unit wanted: ``mm``, ``weeks``, ``months``, ``min``, ``turns`` or ``ratio``.
        bare: Whether a number alone passes; never for a length.

    Returns:
        The number in that unit, or None where the text is no such quantity.
    """
    if unit == "mm":
        length = length_from_text(text)
        return None if length is None else float(length.mm)
    if unit not in PER_UNIT:
        number = number_from_text(text.strip().removesuffix(unit))
        return None if number is None else float(number)
    stripped = text.strip()
    head = stripped.rstrip("abcdefghijklmnopqrstuvwxyz")
    word = stripped[len(head) :]
    factor = PER_UNIT[unit].get(word, Fraction(1) if bare and not word else None)
    number = number_from_text(head)
    return None if number is None or factor is None else float(number * factor)
