"""What lies in the drawer: tools by shape and size, and how many of each.

Sizes are diameters. Makers' colours are never used: they differ from maker to maker.
"""

from dataclasses import dataclass

SHAPES = ("concave", "straight", "flexible", "long")


@dataclass(frozen=True, slots=True)
class Tool:
    """One kind of tool in a kit.

    Attributes:
        diameter_mm: Diameter at the waist, the thinnest place; it names the tool.
        rim_diameter_mm: Diameter at the ends; as the waist for a tool of one size throughout.
        length_mm: Length of the tool, between its rims.
        shape: ``concave``, ``straight``, ``flexible`` or ``long``.
        count: How many the kit holds.
    """

    diameter_mm: float
    rim_diameter_mm: float
    length_mm: float
    shape: str
    count: int


@dataclass(frozen=True, slots=True)
class Kit:
    """The tools at hand.

    Attributes:
        name: What it is called.
        tools: Its tools, in any order.
    """

    name: str
    tools: tuple[Tool, ...]


def _even(shape: str, length_mm: float, *sizes: tuple[float, int]) -> tuple[Tool, ...]:
    return tuple(Tool(diameter_mm, diameter_mm, length_mm, shape, count) for diameter_mm, count in sizes)


# Sizes and lengths as kits commonly hold them (common practice); counts do for a full head of thin, fine,
# short hair, which takes the most tools. A double wrap takes twice as many; there the next size is mixed in.
BUILT_IN_KIT = Kit(
    name="built-in",
    tools=(
        Tool(4.8, 6.8, 76, "concave", 136),
        Tool(6.4, 8.8, 76, "concave", 100),
        Tool(7.9, 10.3, 76, "concave", 86),
        Tool(9.5, 12.0, 76, "concave", 76),
        Tool(11.1, 13.8, 76, "concave", 64),
        Tool(12.7, 15.7, 76, "concave", 56),
        Tool(14.3, 17.5, 76, "concave", 52),
        Tool(15.9, 19.3, 76, "concave", 46),
        Tool(17.5, 21.1, 76, "concave", 42),
        Tool(19.0, 22.8, 76, "concave", 40),
        Tool(22.0, 26.3, 76, "concave", 34),
        Tool(25.4, 30.0, 76, "concave", 30),
        *_even("straight", 76, (6.4, 140), (7.9, 114), (9.5, 92), (11.1, 78), (12.7, 70), (14.3, 62)),
        *_even("straight", 76, (15.9, 58), (17.5, 50), (19.0, 46), (22.0, 40), (25.4, 34), (32.0, 28)),
        *_even("flexible", 200, (9.5, 96), (12.7, 80), (15.9, 64), (19.0, 54), (25.4, 40), (32.0, 32)),
        *_even("long", 200, (6.4, 154), (7.9, 120), (9.5, 96)),
        *_even("long", 250, (11.1, 86), (12.7, 80), (15.9, 64)),
        *_even("long", 300, (19.0, 54), (22.0, 48), (25.4, 40)),
    ),
)


def tools_of_shape(kit: Kit, shape: str) -> tuple[Tool, ...]:
    """Pick the tools of one shape out of a kit.

    Args:
        kit: The kit.
        shape: One of :data:`SHAPES`.

    Returns:
        The tools that the kit has at least one of, thinnest first; none where it has none of that shape.

    Raises:
        ValueError: If there is no such shape.

    Source:
        The kit itself.
    """
    if shape not in SHAPES:
        raise ValueError(f"shape must be one of {', '.join(SHAPES)}, got {shape}")
    held = [tool for tool in kit.tools if tool.shape == shape and tool.count > 0]
    return tuple(sorted(held, key=lambda tool: (tool.diameter_mm, tool.rim_diameter_mm, tool.length_mm)))


def sizes(kit: Kit, shape: str) -> tuple[float, ...]:
    """List the diameters that a kit holds of one shape.

    Args:
        kit: The kit.
        shape: One of :data:`SHAPES`.

    Returns:
        Diameters at the waist in millimetres, each once, thinnest first.

    Raises:
        ValueError: If there is no such shape.

    Source:
        The kit itself.
    """
    return tuple(dict.fromkeys(tool.diameter_mm for tool in tools_of_shape(kit, shape)))


def nearest_tool(kit: Kit, shape: str, diameter_mm: float) -> Tool | None:
    """Find the tool of one shape whose diameter is closest to the one wished for.

    Args:
        kit: The kit.
        shape: One of :data:`SHAPES`.
        diameter_mm: Diameter wished for at the waist.

    Returns:
        The tool; of two equally close the thinner, for curl loosens most in the first two weeks; None where
        the kit holds none of that shape.

    Raises:
        ValueError: If there is no such shape.

    Source:
        common practice.
    """
    return min(tools_of_shape(kit, shape), key=lambda tool: abs(tool.diameter_mm - diameter_mm), default=None)
