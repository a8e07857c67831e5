"""An answer put together by several touches: digits one after the other, steps in their order."""

from collections.abc import Collection

MOST_DIGITS = 6
POINT = "."


def put_digit(draft: str, digit: str) -> str:
    """Add a digit to a number.

    Args:
        draft: The number so far.
        digit: A digit or the decimal point.

    Returns:
        The number with it; as it was where it is long enough, or has its point already.
    """
    if len(draft) >= MOST_DIGITS or (digit == POINT and POINT in draft):
        return draft
    return f"0{POINT}" if digit == POINT and not draft else draft + digit


def put_step(draft: str, letter: str) -> str:
    """Put a step at the end, or take it out where it stands already.

    Args:
        draft: The letters so far, in order.
        letter: The step's letter.

    Returns:
        The letters that follow.
    """
    return draft.replace(letter, "") if letter in draft else draft + letter


def is_whole(draft: str, letters: Collection[str]) -> bool:
    """Tell whether every step has its place."""
    return sorted(draft) == sorted(letters)
