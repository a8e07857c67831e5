"""The hair of one base, taken as one strand, and how it lies on a tool.

Layered hair has two lengths: the longest strands decide how thick the tool winds, the shortest how often hair
goes round it.
"""

from dataclasses import dataclass

from drill.rulebook.evaluate import Evaluation
from drill.service.coil import (
    croquignole_turns,
    curl_at_ends_mm,
    curl_at_scalp_mm,
    spiral_turns,
)
from drill.service.facts import density_per_mm2, shortest_mm, strand_mm
from drill.service.geometry import layer_thickness_mm, spiral_wound_rim_mm, wound_rim_mm
from drill.service.kit import Tool
from drill.service.layout_rows import SPIRAL_ROW_MM

DEPTH_FACTOR = {"single": 1.0, "one_and_half": 1.5, "double": 2.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Strand:
    """The hair of one base, read once for all the tools that are tried on it.

    Attributes:
        wrap: How it is wound, as a built-in value.
        length_mm: The longest hair.
        shortest_mm: The shortest hair; the same where nobody measured it.
        hair_mm: Diameter of one hair.
        density_per_mm2: Hairs on a square millimetre of scalp.
        packing: Share of a layer that is hair.
        depth_factor: Depth of the base in wound rims.
        deepest_over_rim: Depth of a single base in bare rims, at most.
        pitch_mm: Way along the tool from one turn of a spiral to the next.
    """

    wrap: str
    length_mm: float
    shortest_mm: float
    hair_mm: float
    density_per_mm2: float
    packing: float
    depth_factor: float
    deepest_over_rim: float
    pitch_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Coil:
    """Hair of one length, wound.

    Attributes:
        turns: Turns, not rounded; of a double wrap those on the tool at the scalp.
        ends_mm: Wound diameter at the ends.
        scalp_mm: Wound diameter at the scalp end.
    """

    turns: float
    ends_mm: float
    scalp_mm: float


def strand_of(zone: Evaluation) -> Strand:
    """Read the strand of one zone.

    Args:
        zone: The zone's evaluation.

    Returns:
        The strand.

    Source:
        Parameters ``hair.*``, ``base.*``, ``wrap.spiral_pitch_mm``.
    """
    values, length = zone.rulebook.values, zone.read("hair.length")
    return Strand(
        wrap=zone.rulebook.built_in("wrap", str(zone.read("wrap"))),
        length_mm=float(length),
        shortest_mm=shortest_mm(zone.read("hair.shortest"), length),
        hair_mm=strand_mm(zone.read("hair.strand"), values),
        density_per_mm2=density_per_mm2(zone.read("hair.density"), values),
        packing=float(values["base.packing"]),
        depth_factor=DEPTH_FACTOR[zone.rulebook.built_in("base_size", str(zone.read("base_size")))],
        deepest_over_rim=float(values["base.deepest_over_rim"]),
        pitch_mm=float(values["wrap.spiral_pitch_mm"]),
    )


def wound_rim_of(strand: Strand, tool: Tool) -> float:
    """Find the wound diameter at the rim of a tool, in millimetres; the base is as deep as that.

    Long or thick hair would wind thicker than a base should be deep: it is shared out among more tools.

    Source:
        :func:`drill.service.geometry.wound_rim_mm`, parameter ``base.deepest_over_rim``; of a spiral
        :func:`drill.service.geometry.spiral_wound_rim_mm`.
    """
    if strand.wrap == "spiral":
        return spiral_wound_rim_mm(
            rim_mm=tool.rim_diameter_mm,
            strand_mm=strand.hair_mm,
            density_per_mm2=strand.density_per_mm2,
            packing=strand.packing,
            pitch_mm=strand.pitch_mm,
            row_mm=SPIRAL_ROW_MM,
            depth_factor=strand.depth_factor,
        )
    wound_mm = wound_rim_mm(
        length_mm=strand.length_mm,
        rim_mm=tool.rim_diameter_mm,
        strand_mm=strand.hair_mm,
        density_per_mm2=strand.density_per_mm2,
        packing=strand.packing,
        depth_factor=strand.depth_factor,
    )
    return min(wound_mm, strand.deepest_over_rim * tool.rim_diameter_mm)


def layer_of(strand: Strand, tool: Tool) -> float:
    """Find the thickness of one layer on a tool, in millimetres.

    Source:
        :func:`drill.service.geometry.layer_thickness_mm`; a spiral's one layer fills what its wound rim has
        over the bare one.
    """
    rim_mm = wound_rim_of(strand, tool)
    if strand.wrap == "spiral":
        return (rim_mm - tool.rim_diameter_mm) / 2
    return layer_thickness_mm(
        strand_mm=strand.hair_mm,
        density_per_mm2=strand.density_per_mm2,
        base_depth_mm=rim_mm * strand.depth_factor,
        packing=strand.packing,
    )


def coil_of(strand: Strand, tool: Tool, *, layer_mm: float, length_mm: float) -> Coil:
    """Wind hair of one length.

    Args:
        strand: The strand that it is a part of.
        tool: The tool.
        layer_mm: Thickness of one layer.
        length_mm: Length of this hair, at most that of the strand's longest.

    Returns:
        The coil. A double wrap starts at the middle of the longest hair: what is shorter than that middle
        lies on the tool at the scalp with all of its length.

    Source:
        :mod:`drill.service.coil`; the middle as the place to start is common practice.
    """
    tool_mm = tool.diameter_mm
    ends_mm = curl_at_ends_mm(tool_mm=tool_mm, layer_mm=layer_mm)
    if strand.wrap == "spiral":
        # The middle of the layer is as far round as the hair is long.
        turns = spiral_turns(length_mm=length_mm, tool_mm=ends_mm, pitch_mm=strand.pitch_mm)
        return Coil(turns=turns, ends_mm=ends_mm, scalp_mm=ends_mm)
    if strand.wrap == "double_tool":
        length_mm = min(length_mm, strand.length_mm / 2)
    return Coil(
        turns=croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm),
        ends_mm=ends_mm,
        scalp_mm=curl_at_scalp_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm),
    )


def turns_of(strand: Strand, tool: Tool) -> tuple[float, float]:
    """Count the turns of the longest and of the shortest hair of a strand on a tool.

    Source:
        :func:`coil_of`.
    """
    layer_mm = layer_of(strand, tool)
    longest = coil_of(strand, tool, layer_mm=layer_mm, length_mm=strand.length_mm).turns
    if strand.shortest_mm == strand.length_mm:
        return longest, longest
    return longest, coil_of(strand, tool, layer_mm=layer_mm, length_mm=strand.shortest_mm).turns
