"""Choose a zone's tool out of the kit, and what may stand in for it where its size runs out.

The tables say what is wanted (the wished size, one smaller, ..); here it meets the kit and the geometry.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drill.rulebook.domain import Value
from drill.rulebook.evaluate import Evaluation
from drill.service.facts import waist_range_mm, wished_waist_mm
from drill.service.kit import SHAPES, Kit, Tool, sizes, tools_of_shape
from drill.service.strand import Strand, strand_of, turns_of

# What a tool is chosen by and differs from zone to zone; sections alike in these take one tool.
CHOSEN_BY = ("tool.shape", "tool.size", "wrap", "base_size", "hair.length", "hair.shortest")
# Where a kit lacks a shape, the one that winds most like it takes its place.
NEXT_SHAPES = {
    "concave": ("straight", "flexible", "long"),
    "straight": ("concave", "flexible", "long"),
    "flexible": ("long", "straight", "concave"),
    "long": ("flexible", "straight", "concave"),
}

# Sizes away from the one for the wish.
_STEPS = {"as_wished": 0, "one_smaller": -1, "one_larger": 1}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A tool chosen out of a kit.

    Attributes:
        tool: The tool.
        because: What led to it, in words.
        turns: Turns of the longest strands on it.
        also: Other diameters that give the wished class of curl, where the wish alone decides.
    """

    tool: Tool
    because: str
    turns: float
    also: tuple[float, ...] = ()


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
    tools = tools_of_shape(kit, _shape_at_hand(str(zone.read("tool.shape")), kit))
    at = _wished(zone, tools)
    size = zone.decide("tool.size")
    counts_as = zone.rulebook.built_in("tool.size", str(size.value))
    over = _first_over_natural(tools, zone) if counts_as == "twice_natural" else 0
    least = _least(zone, over)
    at = max(at, over)
    at += _STEPS.get(counts_as, 0)
    at = min(max(at, 0), len(tools) - 1)
    because = [size.because]
    needed = turns_needed(zone.read("wish.curl_class"), parameters)
    strand = strand_of(zone)
    turns, shortest = turns_of(strand, tools[at])
    while at > least and shortest < needed:
        at -= 1
        turns, shortest = turns_of(strand, tools[at])
        if len(because) == 1:
            because.append(f"Fewer than {needed:g} turns would not hold this curl, so the tool is thinner.")
    also = _in_class(zone, strand, tools, needed=needed) if counts_as == "as_wished" else ()
    also += _other_sizes(zone, strand, tools, size.also, needed=needed)
    return Choice(
        tool=tools[at],
        because=" ".join(because),
        turns=turns,
        also=tuple(dict.fromkeys(one for one in also if one != tools[at].diameter_mm)),
    )


def tools_by_the_wish(zone: Evaluation, kit: Kit) -> tuple[Tool, ...]:
    """Give the tool that gives the wished curl, before anything else about the hair is asked.

    Args:
        zone: The zone's evaluation.
        kit: Holds at least one tool.

    Returns:
        That tool, then those of the same shape next to it in size, the thinner one first.
    """
    tools = tools_of_shape(kit, _shape_at_hand(str(zone.read("tool.shape")), kit))
    at = _wished(zone, tools)
    return (tools[at], *tools[max(at - 1, 0) : at], *tools[at + 1 : at + 2])


def _wished(zone: Evaluation, tools: Sequence[Tool]) -> int:
    wished = wished_waist_mm(zone.read("wish.curl"), zone.rulebook.values)
    return min(range(len(tools)), key=lambda one: abs(tools[one].diameter_mm - wished))


def fill_ins(zone: Evaluation, kit: Kit, tool: Tool) -> tuple[Tool, ...]:
    """Name the tools that may be mixed in where a size runs out.

    Args:
        zone: The zone's evaluation.
        kit: The kit.
        tool: The tool chosen.

    Returns:
        Tools of the same shape and size, then of the size next to it on either side, the nearer one first.
        None that would leave too few turns for the curl, or pile up more than lotion reaches, where the
        chosen one does not; none thinner than softened curl allows.

    Source:
        common practice: sizes that run out are mixed in alternation; parameters ``turns.*``,
        ``outcome.most_layers``.
    """
    tools = tools_of_shape(kit, tool.shape)
    held = sizes(kit, tool.shape)
    at = held.index(tool.diameter_mm)
    near = held[max(at - 1, 0) : at + 2]
    over = _first_over_natural(tools, zone) if _size_of(zone) == "twice_natural" else 0
    thinnest_mm = min(tools[_least(zone, over)].diameter_mm, tool.diameter_mm)
    strand = strand_of(zone)
    longest, shortest = turns_of(strand, tool)
    needed = min(turns_needed(zone.read("wish.curl_class"), zone.rulebook.values), shortest)
    most = max(float(zone.rulebook.values["outcome.most_layers"]), longest)

    def holds(other: Tool) -> bool:
        if other.diameter_mm not in near or other.diameter_mm < thinnest_mm:
            return False
        turns, turns_shortest = turns_of(strand, other)
        return turns_shortest >= needed and (strand.wrap == "spiral" or turns <= most)

    found = [other for other in tools if other != tool and holds(other)]
    return tuple(sorted(found, key=lambda other: abs(other.diameter_mm - tool.diameter_mm)))


def turns_needed(curl: Value, parameters: Mapping[str, Value]) -> float:
    """Give the turns that a wished curl needs: a curl's, or for ``body`` those of a wave.

    Source:
        Parameters ``turns.curl`` and ``turns.wave``; common practice.
    """
    return float(parameters["turns.wave" if curl == "body" else "turns.curl"])


def _other_sizes(
    zone: Evaluation, strand: Strand, tools: Sequence[Tool], sizes_too: Sequence[Value], *, needed: float
) -> tuple[float, ...]:
    """Give the diameters of the sizes that are acceptable too, where they have turns enough for the curl."""
    steps = (_STEPS.get(zone.rulebook.built_in("tool.size", str(one))) for one in sizes_too)
    at = _wished(zone, tools)
    others = (tools[min(max(at + step, 0), len(tools) - 1)] for step in steps if step is not None)
    return tuple(other.diameter_mm for other in others if turns_of(strand, other)[1] >= needed)


def _size_of(zone: Evaluation) -> str:
    return zone.rulebook.built_in("tool.size", str(zone.decide("tool.size").value))


def _least(zone: Evaluation, over: int) -> int:
    """Softened hair on a tool thinner than twice its own curl is not loosened, however few the turns."""
    soft_curl = zone.rulebook.built_in("soft_curl", str(zone.read("soft_curl")))
    return over if soft_curl == "softening_first" else 0


def _first_over_natural(tools: tuple[Tool, ...], zone: Evaluation) -> int:
    """Find the first tool at least twice as thick as the client's own curl, the thickest where none is."""
    parameters = zone.rulebook.values
    # Straight hair has no curl of its own to double: the wished size stays.
    natural = float(parameters.get(f"natural.{zone.read('hair.pattern')}_mm", 0))
    over = natural * float(parameters["natural.tool_over_curl"])
    return next((at for at, tool in enumerate(tools) if tool.diameter_mm >= over), len(tools) - 1)


def _in_class(
    zone: Evaluation, strand: Strand, tools: tuple[Tool, ...], *, needed: float
) -> tuple[float, ...]:
    """Give the diameters within the wished class of curl that the hair goes round often enough."""
    low, high = waist_range_mm(zone.read("wish.curl_class"), zone.rulebook.values)
    return tuple(
        tool.diameter_mm
        for tool in tools
        if low <= tool.diameter_mm <= high and turns_of(strand, tool)[1] >= needed
    )


def _shape_at_hand(shape: str, kit: Kit) -> str:
    held = {tool.shape for tool in kit.tools if tool.count > 0}
    return next(one for one in (shape, *NEXT_SHAPES[shape], *SHAPES) if one in held)
