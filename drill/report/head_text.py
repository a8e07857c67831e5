"""The nine-section head as a drawing in letters: seen from above, face at the upper edge."""

from collections.abc import Mapping

from drill.basis.words import say
from drill.service.zones import ZONE_NAMES

_ROWS = (
    ("left_side", "top", "right_side"),
    ("back_left", "back_center", "back_right"),
    ("nape_left", "nape_center", "nape_right"),
)
_CELL = 5
HEAD_WIDTH = 3 * (_CELL + 1) + 3
# Edges with box letters, and with the plain ones that every terminal has.
_BOX = ("╭", "┬", "╮", "├", "┼", "┤", "╰", "┴", "╯", "─", "│", "▒")
_PLAIN = ("+", "+", "+", "+", "+", "+", "+", "+", "+", "-", "|", "#")


def head_lines(
    *, marked: str | None = None, signs: Mapping[str, str] | None = None, plain: bool = False
) -> list[str]:
    """Draw the head.

    Args:
        marked: Zone that is filled in; None for none.
        signs: Up to three letters by zone, written in it.
        plain: Whether to keep to letters that every terminal has.

    Returns:
        Nine lines, each :data:`HEAD_WIDTH` wide or less; the client's left is on the left.

    Raises:
        ValueError: If a zone has no such name.
    """
    signs = signs or {}
    unknown = {*signs, *([marked] if marked else [])} - set(ZONE_NAMES)
    if unknown:
        raise ValueError(f"no zone is named {', '.join(sorted(unknown))}")
    edge = _PLAIN if plain else _BOX
    across, down, fill = edge[9], edge[10], edge[11]

    def rule(left: str, middle: str, right: str) -> str:
        return " " + left + middle.join([across * _CELL] * 3) + right

    lines = [say("face").center(HEAD_WIDTH).rstrip(), rule(*edge[0:3])]
    for number, zones in enumerate(_ROWS):
        cells = [(fill if zone == marked else " ") * _CELL for zone in zones]
        cells = [_signed(cell, signs.get(zone, "")) for cell, zone in zip(cells, zones, strict=True)]
        left, right = (say("L"), say("R")) if number == 1 else (" ", "")
        lines.append(left + down + down.join(cells) + down + right)
        lines.append(rule(*(edge[3:6] if number < len(_ROWS) - 1 else edge[6:9])))
    return [*lines, say("nape").center(HEAD_WIDTH).rstrip()]


def _signed(cell: str, sign: str) -> str:
    if not sign:
        return cell
    text = f" {sign[:3]} ".center(_CELL)
    return text if cell.isspace() else text.replace(" ", cell[0])
