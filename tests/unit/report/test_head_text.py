"""The head in letters."""

import pytest

from drill.report.head_text import HEAD_WIDTH, head_lines
from drill.service.zones import ZONE_NAMES


@pytest.mark.parametrize("zone", ZONE_NAMES)
def test_exactly_one_section_is_filled(zone: str) -> None:
    """On the client's left it stands on the left, at the nape below."""
    lines = head_lines(marked=zone, plain=True)
    (row,) = (number for number, line in enumerate(lines) if "#" in line)
    assert row == {"t": 2, "l": 2, "r": 2, "b": 4, "n": 6}[zone[0]]
    assert lines[row].count("#####") == 1
    middle = lines[row].index("#") + 2
    side = -1 if "left" in zone else 1 if "right" in zone else 0
    center = lines[1].index("+") + (len(lines[1].strip()) - 1) // 2
    assert (middle > center) - (middle < center) == side
    assert max(map(len, lines)) <= HEAD_WIDTH


def test_plain_signs_are_ascii() -> None:
    """The other drawing has the same shape."""
    plain, boxes = head_lines(marked="top", plain=True), head_lines(marked="top")
    assert all(line.isascii() for line in plain)
    assert [len(line) for line in plain] == [len(line) for line in boxes]


def test_signs_stand_in_their_sections() -> None:
    """Up to three letters, in a filled section too."""
    lines = head_lines(marked="top", signs={"top": "9", "nape_left": "12"}, plain=True)
    assert "# 9 #" in lines[2].replace("##", "# ") or "#9#" in lines[2].replace(" ", "#")
    assert " 12 " in lines[6]


def test_a_zone_that_does_not_exist_is_refused() -> None:
    """The programmer's fault."""
    with pytest.raises(ValueError, match="crown"):
        head_lines(marked="crown")
