"""Share the kit's tools among the zones: sizes that run out are mixed with the next one.

The zones wound first take first, so what is short is short where least is seen.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from drill.service.kit import Kit, Tool

# Crown down the centre back, back sides, sides, top: the order of winding (common practice, school).
WINDING_ORDER = (
    "back_center",
    "nape_center",
    "back_left",
    "back_right",
    "nape_left",
    "nape_right",
    "left_side",
    "right_side",
    "top",
)


@dataclass(frozen=True, slots=True)
class Share:
    """Tools of one size for one zone.

    Attributes:
        diameter_mm: Diameter at the waist.
        count: How many.
    """

    diameter_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class Need:
    """What a zone takes.

    Attributes:
        tool: The tool chosen.
        count: How many.
    """

    tool: Tool
    count: int


def share_out(
    kit: Kit, needs: Mapping[str, Need], *, fill_ins: Callable[[str], tuple[Tool, ...]]
) -> tuple[dict[str, tuple[Share, ...]], int]:
    """Give each zone its tools out of one kit.

    Args:
        kit: The kit.
        needs: What each zone takes.
        fill_ins: Names the tools that may be mixed in where a zone's own run out, the best first.

    Returns:
        For each zone its shares, the main size first, and how many tools the kit lacks in all.

    Source:
        common practice: sizes that run out are mixed in alternation.
    """
    stock = {tool: tool.count for tool in kit.tools}
    shares: dict[str, tuple[Share, ...]] = {}
    lacking = 0
    for zone in sorted(needs, key=WINDING_ORDER.index):
        need = needs[zone]
        left = need.count
        taken: dict[float, int] = {}
        # What may be mixed in is worked out only for a zone that needs it.
        others = () if left <= stock[need.tool] else fill_ins(zone)
        for tool in (need.tool, *others):
            count = min(left, stock[tool])
            if count:
                stock[tool] -= count
                taken[tool.diameter_mm] = taken.get(tool.diameter_mm, 0) + count
                left -= count
        lacking += left
        shares[zone] = tuple(Share(diameter, count) for diameter, count in taken.items())
    return shares, lacking
