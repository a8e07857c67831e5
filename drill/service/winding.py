"""Wind one zone: choose the tool out of the kit, and compute turns, curl and gap.

The tables say what is wanted (the wished size, one smaller, ..); here it meets the kit and the geometry.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Evaluation
from drill.service.coil import (
    croquignole_turns,
    curl_at_ends_mm,
    curl_at_scalp_mm,
    double_tool_turns,
    finished_curl_mm,
    spiral_turns,
    wound_diameter_mm,
)
from drill.service.facts import (
    density_per_mm2,
    shortest_mm,
    strand_mm,
    waist_range_mm,
    wished_waist_mm,
)
from drill.service.geometry import base_offset_mm, layer_thickness_mm, wound_rim_mm
from drill.service.head_model import LIVE_HEAD, PRACTICE_HEAD
from drill.service.kit import SHAPES, Kit, Tool, tools_of_shape
from drill.service.zones import tools_in_zone

DEPTH_FACTOR = {"single": 1.0, "one_and_half": 1.5, "double": 2.0}
# What a tool is chosen by and differs from zone to zone; sections alike in these take one tool.
CHOSEN_BY = ("tool.shape", "tool.size", "wrap", "base_size", "hair.length", "hair.shortest")
# And what they are wound by, beside the tool and the size of the section.
WOUND_BY = (*CHOSEN_BY, "base_control", "layout")
# Where a kit lacks a shape, the one that winds most like it takes its place.
NEXT_SHAPES = {
    "concave": ("straight", "flexible", "long"),
    "straight": ("concave", "flexible", "long"),
    "flexible": ("long", "straight", "concave"),
    "long": ("flexible", "straight", "concave"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A tool chosen out of a kit.

    Attributes:
        tool: The tool.
        because: What led to it, in words.
        also: Other diameters that give the wished class of curl, where the wish alone decides.
    """

    tool: Tool
    because: str
    also: tuple[float, ...] = ()


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Base:
    """One zone's hair on its base, read once for all the tools that are tried on it."""

    wrap: str
    length_mm: float
    shortest_mm: float
    strand_mm: float
    density_per_mm2: float
    packing: float
    depth_factor: float
    pitch_mm: float


def choose_tool(zone: Evaluation, kit: Kit) -> Choice:
    """Choose a zone's tool out of a kit.

    Args:
        zone: The zone's evaluation.
        kit: Holds at least one tool.

    Returns:
        The tool nearest to the size that the tables want, thinner where the hair is too short for the turns
        that the wished curl needs.

    Source:
        Tables ``tool.shape`` and ``tool.size``, parameters ``turns.curl`` and ``turns.wave``.
    """
    parameters = zone.rulebook.values
    shape = _shape_at_hand(str(zone.read("tool.shape")), kit)
    tools = tools_of_shape(kit, shape)
    wished = wished_waist_mm(zone.read("wish.curl"), parameters)
    at = min(range(len(tools)), key=lambda one: abs(tools[one].diameter_mm - wished))
    size = zone.decide("tool.size")
    over = _first_over_natural(tools, zone) if size.value == "twice_natural" else 0
    # Softened hair on a tool thinner than twice its own curl is not loosened, however few the turns.
    soft_curl = zone.rulebook.built_in("soft_curl", str(zone.read("soft_curl")))
    least = over if soft_curl == "softening_first" else 0
    at = max(at, over)
    at += {"one_smaller": -1, "one_larger": 1}.get(str(size.value), 0)
    at = min(max(at, 0), len(tools) - 1)
    because = [size.because]
    needed = turns_needed(zone.read("wish.curl_class"), parameters)
    base = _base_of(zone)
    while at > least and _turns(base, tools[at]) < needed:
        at -= 1
        if len(because) == 1:
            because.append(f"Fewer than {needed:g} turns would not hold this curl, so the tool is thinner.")
    also = _in_class(zone, base, tools, needed=needed) if size.value == "as_wished" else ()
    return Choice(
        tool=tools[at],
        because=" ".join(because),
        also=tuple(one for one in also if one != tools[at].diameter_mm),
    )


def _first_over_natural(tools: tuple[Tool, ...], zone: Evaluation) -> int:
    """Find the first tool at least twice as thick as the client's own curl, the thickest where none is."""
    parameters = zone.rulebook.values
    # Straight hair has no curl of its own to double: the wished size stays.
    natural = float(parameters.get(f"natural.{zone.read('hair.pattern')}_mm", 0))
    over = natural * float(parameters["natural.tool_over_curl"])
    return next((at for at, tool in enumerate(tools) if tool.diameter_mm >= over), len(tools) - 1)


def _in_class(zone: Evaluation, base: _Base, tools: tuple[Tool, ...], *, needed: float) -> tuple[float, ...]:
    """Give the diameters within the wished class of curl that the hair goes round often enough."""
    low, high = waist_range_mm(zone.read("wish.curl_class"), zone.rulebook.values)
    return tuple(
        tool.diameter_mm for tool in tools if low <= tool.diameter_mm <= high and _turns(base, tool) >= needed
    )


def turns_needed(curl: Value, parameters: Mapping[str, Value]) -> float:
    """Give the turns that a wished curl needs: a curl's, or for ``body`` those of a wave.

    Source:
        Parameters ``turns.curl`` and ``turns.wave``; common practice.
    """
    return float(parameters["turns.wave" if curl == "body" else "turns.curl"])


def wind(zone: Evaluation, tool: Tool) -> Winding:
    """Wind a zone on a tool, as its tables say.

    Args:
        zone: The zone's evaluation.
        tool: The tool.

    Returns:
        Turns, diameters, gap and count.

    Source:
        :mod:`drill.service.coil`, :mod:`drill.service.geometry`; the set by the lotion's strength is a
        parameter.
    """
    base, tool_mm = _base_of(zone), tool.diameter_mm
    layer = _layer_mm(base, tool)
    turns, ends, scalp = _coil(base, tool_mm, layer, base.length_mm)
    length = base.length_mm / 2 if base.wrap == "double_tool" else base.length_mm
    wound = wound_diameter_mm(length_mm=length, tool_mm=tool_mm, layer_mm=layer)
    if base.wrap == "spiral":
        wound = tool_mm + 2 * layer
    strength = zone.rulebook.built_in("waving_lotion.strength", str(zone.read("waving_lotion.strength")))
    share = float(zone.rulebook.values[f"set.{strength}"])
    control = zone.rulebook.built_in("base_control", str(zone.read("base_control")))
    return Winding(
        tool=tool,
        count=_count_tools(zone, base, tool),
        turns=turns,
        turns_shortest=turns
        if base.shortest_mm == base.length_mm
        else _coil(base, tool_mm, layer, base.shortest_mm)[0],
        wound_mm=wound,
        ends_mm=ends,
        scalp_mm=scalp,
        curl_ends_mm=finished_curl_mm(wound_mm=ends, set_share=share),
        curl_scalp_mm=finished_curl_mm(wound_mm=scalp, set_share=share),
        gap_mm=base_offset_mm(control, tool_mm=tool_mm),
    )


def _base_of(zone: Evaluation) -> _Base:
    values, length = zone.rulebook.values, zone.read("hair.length")
    return _Base(
        wrap=zone.rulebook.built_in("wrap", str(zone.read("wrap"))),
        length_mm=float(length),
        shortest_mm=shortest_mm(zone.read("hair.shortest"), length),
        strand_mm=strand_mm(zone.read("hair.strand"), values),
        density_per_mm2=density_per_mm2(zone.read("hair.density"), values),
        packing=float(values["base.packing"]),
        depth_factor=DEPTH_FACTOR[zone.rulebook.built_in("base_size", str(zone.read("base_size")))],
        pitch_mm=float(values["wrap.spiral_pitch_mm"]),
    )


def _count_tools(zone: Evaluation, base: _Base, tool: Tool) -> int:
    """Count the tools of one kind that a zone takes; a practice wrap is wound on the smaller head."""
    return tools_in_zone(
        str(zone.zone),
        tool_waist_mm=tool.diameter_mm,
        tool_rim_mm=tool.rim_diameter_mm,
        wound_rim_mm=_wound_rim_mm(base, tool),
        depth_factor=base.depth_factor,
        layout=zone.rulebook.built_in("layout", str(zone.read("layout"))),
        tool_length_mm=tool.length_mm,
        head=PRACTICE_HEAD if zone.read("service") == "practice_wrap" else LIVE_HEAD,
    )


def _coil(base: _Base, tool_mm: float, layer_mm: float, length_mm: float) -> tuple[float, float, float]:
    """Give turns and the wound diameters at ends and scalp end."""
    ends = curl_at_ends_mm(tool_mm=tool_mm, layer_mm=layer_mm)
    if base.wrap == "spiral":
        return spiral_turns(length_mm=length_mm, tool_mm=tool_mm, pitch_mm=base.pitch_mm), ends, ends
    if base.wrap == "double_tool":
        turns, _ = double_tool_turns(
            length_mm=length_mm, scalp_tool_mm=tool_mm, ends_tool_mm=tool_mm, layer_mm=layer_mm
        )
        scalp = curl_at_scalp_mm(length_mm=length_mm / 2, tool_mm=tool_mm, layer_mm=layer_mm)
        return turns, ends, scalp
    turns = croquignole_turns(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)
    return turns, ends, curl_at_scalp_mm(length_mm=length_mm, tool_mm=tool_mm, layer_mm=layer_mm)


def _turns(base: _Base, tool: Tool) -> float:
    """Give the turns of the shortest strands: they decide whether the curl holds."""
    return _coil(base, tool.diameter_mm, _layer_mm(base, tool), base.shortest_mm)[0]


def _layer_mm(base: _Base, tool: Tool) -> float:
    return layer_thickness_mm(
        strand_mm=base.strand_mm,
        density_per_mm2=base.density_per_mm2,
        base_depth_mm=_wound_rim_mm(base, tool) * base.depth_factor,
        packing=base.packing,
    )


def _wound_rim_mm(base: _Base, tool: Tool) -> float:
    return wound_rim_mm(
        length_mm=base.length_mm,
        rim_mm=tool.rim_diameter_mm,
        strand_mm=base.strand_mm,
        density_per_mm2=base.density_per_mm2,
        packing=base.packing,
        depth_factor=base.depth_factor,
    )


def _shape_at_hand(shape: str, kit: Kit) -> str:
    held = {tool.shape for tool in kit.tools if tool.count > 0}
    return next(one for one in (shape, *NEXT_SHAPES[shape], *SHAPES) if one in held)
