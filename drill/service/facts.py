"""Computed facts that the tables read, and the parameters they stand on.

A fact over named values only is tabulated by the proof, so a limit on it holds for every head.
"""

from collections.abc import Mapping, Sequence

from drill.rulebook.domain import UNKNOWN, Domain, Value
from drill.rulebook.fact import Fact
from drill.service.coil import croquignole_turns
from drill.service.direction import DIRECTIONS, opposes
from drill.service.geometry import layer_thickness_mm
from drill.service.zones import zone_named

# A head counts these on the tool that it chooses out of its kit: :class:`drill.service.head.Head`.
ON_ONE_TOOL = "turns_on_one_tool"
CURLS = ("tight", "medium", "soft", "body")
_YES_NO = ("yes", "no")


def wished_waist_mm(curl: Value, parameters: Mapping[str, Value]) -> float:
    """Translate a wished curl into the waist of the tool that gives it.

    Args:
        curl: A curl class, or the diameter of the finished curl in millimetres.
        parameters: Values by name; ``curl.CLASS_from``, ``curl.CLASS_to`` bound the finished curl of a class
            and ``tool.CLASS_from``, ``tool.CLASS_to`` the waist of its tools, in millimetres.

    Returns:
        Millimetres: the middle of the class, or the point of a stated diameter between the bounds.

    Source:
        common practice; the bounds are parameters with their own source.
    """
    name = curl_class(curl, parameters)
    low, high = waist_range_mm(name, parameters)
    if isinstance(curl, str):
        return (low + high) / 2
    first, last = _number(parameters, f"curl.{name}_from"), _number(parameters, f"curl.{name}_to")
    part = min(max((curl - first) / (last - first), 0.0), 1.0)
    return low + part * (high - low)


def waist_range_mm(curl: Value, parameters: Mapping[str, Value]) -> tuple[float, float]:
    """Give the thinnest and the thickest waist for a class of curl, in millimetres.

    Source:
        Parameters ``tool.CLASS_from`` and ``tool.CLASS_to``; common practice.
    """
    return _number(parameters, f"tool.{curl}_from"), _number(parameters, f"tool.{curl}_to")


def curl_class(curl: Value, parameters: Mapping[str, Value]) -> str:
    """Name the class of a wished curl.

    Args:
        curl: A curl class, or a finished diameter in millimetres.
        parameters: Values by name, see :func:`wished_waist_mm`.

    Returns:
        ``tight``, ``medium``, ``soft`` or ``body``; a diameter on a bound belongs to the tighter class.

    Source:
        common practice.
    """
    if isinstance(curl, str):
        return curl
    return next((name for name in CURLS if curl <= _number(parameters, f"curl.{name}_to")), CURLS[-1])


def layer_for(
    *, strand: Value, density: Value, base_depth_mm: float, parameters: Mapping[str, Value]
) -> float:
    """Give the thickness of one layer of hair on a tool.

    Args:
        strand: ``fine``, ``medium``, ``coarse``; unknown counts as medium.
        density: ``thin``, ``average``, ``thick``; unknown counts as average.
        base_depth_mm: Depth of the base.
        parameters: Values by name.

    Returns:
        Millimetres.

    Source:
        :func:`drill.service.geometry.layer_thickness_mm`.
    """
    return layer_thickness_mm(
        strand_mm=strand_mm(strand, parameters),
        density_per_mm2=density_per_mm2(density, parameters),
        base_depth_mm=base_depth_mm,
        packing=_number(parameters, "base.packing"),
    )


def strand_mm(strand: Value, parameters: Mapping[str, Value]) -> float:
    """Give a strand's diameter in millimetres; an unknown one counts as medium.

    Source:
        Parameters ``hair.fine_mm``, ``hair.medium_mm``, ``hair.coarse_mm``.
    """
    return _number(parameters, f"hair.{'medium' if strand == UNKNOWN else strand}_mm")


def density_per_mm2(density: Value, parameters: Mapping[str, Value]) -> float:
    """Give hairs per square millimetre; an unknown density counts as average.

    Source:
        Parameters ``hair.thin_per_cm2``, ``hair.average_per_cm2``, ``hair.thick_per_cm2``.
    """
    return _number(parameters, f"hair.{'average' if density == UNKNOWN else density}_per_cm2") / 100


def shortest_mm(shortest: Value, length: Value) -> float:
    """Give the length of the shortest strands of a zone.

    Args:
        shortest: Millimetres, or ``unknown`` where nobody measured it.
        length: Length of the longest strands in millimetres.

    Returns:
        Millimetres; never more than the longest.

    Source:
        common practice: on layered hair the shortest strands decide the turns.
    """
    return float(length) if isinstance(shortest, str) else min(float(shortest), float(length))


def _wear(values: Sequence[Value], _parameters: Mapping[str, Value]) -> Value:
    wish, zone = values
    return zone_named(str(zone)).wear if wish == UNKNOWN else wish


def _against(values: Sequence[Value], _parameters: Mapping[str, Value]) -> Value:
    direction, growth = map(str, values)
    return "yes" if growth in DIRECTIONS and direction in DIRECTIONS and opposes(direction, growth) else "no"


def _turns_of_shortest(values: Sequence[Value], parameters: Mapping[str, Value]) -> Value:
    shortest, length, curl, strand, density = values
    tool_mm = wished_waist_mm(curl, parameters)
    layer = layer_for(
        strand=strand,
        density=density,
        base_depth_mm=tool_mm + _number(parameters, "base.rim_over_waist_mm"),
        parameters=parameters,
    )
    return croquignole_turns(length_mm=shortest_mm(shortest, length), tool_mm=tool_mm, layer_mm=layer)


def _turns_on_one_tool(values: Sequence[Value], parameters: Mapping[str, Value]) -> Value:
    """Count on the wished tool, where there is no kit to choose from; a head counts on the one it chooses."""
    length, curl, strand, density = values[:4]
    return _turns_of_shortest((length, length, curl, strand, density), parameters)


def _against_natural(values: Sequence[Value], parameters: Mapping[str, Value]) -> Value:
    curl, pattern = values
    if pattern == "straight":
        return "tighter"
    # Nobody has measured the curl of hair that is unknown, or of a pattern that a local rule added.
    if f"natural.{pattern}_mm" not in parameters:
        return UNKNOWN
    if isinstance(curl, str):
        curl = (_number(parameters, f"curl.{curl}_from") + _number(parameters, f"curl.{curl}_to")) / 2
    natural, ratio = _number(parameters, f"natural.{pattern}_mm"), _number(parameters, "natural.looser_ratio")
    if curl >= natural * ratio:
        return "looser"
    return "tighter" if curl <= natural / ratio else "as_own"


def _curl_class(values: Sequence[Value], parameters: Mapping[str, Value]) -> Value:
    return curl_class(values[0], parameters)


def _number(parameters: Mapping[str, Value], name: str) -> float:
    return float(parameters[name])


_FACTS = (
    Fact(
        domain=Domain(
            name="wish.curl_class", values=CURLS, because="A wished diameter belongs to a class of curl."
        ),
        needs=("wish.curl",),
        compute=_curl_class,
    ),
    Fact(
        domain=Domain(
            name="zone.wear",
            values=("forward", "back", "up", "down", "left", "right"),
            per="zone",
            because="Where nobody says how it is worn, hair falls as that part of the head lets it fall.",
        ),
        needs=("wish.wear", "zone"),
        compute=_wear,
    ),
    Fact(
        domain=Domain(
            name="wear_against_growth",
            values=_YES_NO,
            per="zone",
            because="More than 90 degrees from the growth is against it.",
        ),
        needs=("zone.wear", "hair.growth"),
        compute=_against,
    ),
    Fact(
        domain=Domain(
            name="roll_against_growth",
            values=_YES_NO,
            per="zone",
            because="More than 90 degrees from the growth is against it.",
        ),
        needs=("roll_direction", "hair.growth"),
        compute=_against,
    ),
    Fact(
        domain=Domain(
            name="turns_of_shortest",
            unit="turns",
            per="zone",
            because="Turns of the shortest strands on the tool that gives the wished curl.",
        ),
        needs=("hair.shortest", "hair.length", "wish.curl", "hair.strand", "hair.density"),
        compute=_turns_of_shortest,
    ),
    Fact(
        domain=Domain(
            name=ON_ONE_TOOL,
            unit="turns",
            per="zone",
            because="Turns of the longest strands, were they wound over one another on one tool.",
        ),
        needs=(
            *("hair.length", "wish.curl", "hair.strand", "hair.density"),
            # What the tool is chosen by besides.
            *("hair.shortest", "hair.pattern", "tool.size", "base_size"),
        ),
        compute=_turns_on_one_tool,
    ),
    Fact(
        domain=Domain(
            name="wish.against_natural",
            values=("looser", "as_own", "tighter", UNKNOWN),
            because="A curl wider than the client's own asks for another service than one that is tighter.",
        ),
        needs=("wish.curl", "hair.pattern"),
        compute=_against_natural,
    ),
)
FACTS: Mapping[str, Fact] = {fact.domain.name: fact for fact in _FACTS}
