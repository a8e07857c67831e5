"""Wind one zone on its tool: turns, curl, gap, and how many tools it takes."""

from dataclasses import dataclass

from drill.rulebook.evaluate import Evaluation
from drill.service.coil import finished_curl_mm, wound_diameter_mm
from drill.service.geometry import base_offset_mm
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD
from drill.service.kit import Tool
from drill.service.strand import Strand, coil_of, layer_of, strand_of, wound_rim_of
from drill.service.tool_choice import CHOSEN_BY
from drill.service.zones import tools_in_zone

# What a zone is wound by, beside the tool and the size of the section.
WOUND_BY = (*CHOSEN_BY, "base_control", "layout")


@dataclass(frozen=True, slots=True, kw_only=True)
class Winding:
    """One zone, wound.

    Attributes:
        tool: The main tool.
        count: Tools that the zone takes, each strand of a double wrap counted once.
        turns: Turns of the longest strands; of a double wrap those on the tool at the scalp.
        turns_shortest: Turns of the shortest strands; the same where nobody measured them.
        wound_mm: Diameter of the tool with the hair on.
        ends_mm: Wound diameter at the ends.
        scalp_mm: Wound diameter at the scalp end.
        curl_ends_mm: Finished curl at the ends, on the day.
        curl_scalp_mm: Finished curl at the scalp end, on the day.
        gap_mm: Hair at the scalp that stays uncurled.
    """

    tool: Tool
    count: int
    turns: float
    turns_shortest: float
    wound_mm: float
    ends_mm: float
    scalp_mm: float
    curl_ends_mm: float
    curl_scalp_mm: float
    gap_mm: float


def wind(zone: Evaluation, tool: Tool) -> Winding:
    """Wind a zone on a tool, as its tables say.

    Args:
        zone: The zone's evaluation.
        tool: The tool.

    Returns:
        Turns, diameters, gap and count.

    Source:
        :mod:`drill.service.strand`, :mod:`drill.service.geometry`; the set by the lotion's strength is a
        parameter.
    """
    strand, tool_mm = strand_of(zone), tool.diameter_mm
    layer = layer_of(strand, tool)
    longest = coil_of(strand, tool, layer_mm=layer, length_mm=strand.length_mm)
    shortest = longest
    if strand.shortest_mm != strand.length_mm:
        shortest = coil_of(strand, tool, layer_mm=layer, length_mm=strand.shortest_mm)
    length = strand.length_mm / 2 if strand.wrap == "double_tool" else strand.length_mm
    wound = wound_diameter_mm(length_mm=length, tool_mm=tool_mm, layer_mm=layer)
    if strand.wrap == "spiral":
        wound = tool_mm + 2 * layer
    strength = zone.rulebook.built_in("waving_lotion.strength", str(zone.read("waving_lotion.strength")))
    share = float(zone.rulebook.values[f"set.{strength}"])
    control = zone.rulebook.built_in("base_control", str(zone.read("base_control")))
    return Winding(
        tool=tool,
        count=_count_tools(zone, strand, tool),
        turns=longest.turns,
        turns_shortest=shortest.turns,
        wound_mm=wound,
        ends_mm=longest.ends_mm,
        scalp_mm=longest.scalp_mm,
        curl_ends_mm=finished_curl_mm(wound_mm=longest.ends_mm, set_share=share),
        curl_scalp_mm=finished_curl_mm(wound_mm=longest.scalp_mm, set_share=share),
        gap_mm=base_offset_mm(control, tool_mm=tool_mm),
    )


def _count_tools(zone: Evaluation, strand: Strand, tool: Tool) -> int:
    """Count the tools of one kind that a zone takes; a practice wrap is wound on the smaller head."""
    return tools_in_zone(
        str(zone.zone),
        tool_waist_mm=tool.diameter_mm,
        tool_rim_mm=tool.rim_diameter_mm,
        wound_rim_mm=wound_rim_of(strand, tool),
        depth_factor=strand.depth_factor,
        layout=zone.rulebook.built_in("layout", str(zone.read("layout"))),
        tool_length_mm=tool.length_mm,
        head=PRACTICE_HEAD if zone.read("service") == "practice_wrap" else LIVE_HEAD,
    )
