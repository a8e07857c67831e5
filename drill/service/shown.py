"""What shows on one zone of a finished head, from its hair and from how it was wound.

Each function reads the hair from the zone under the rules in force, and takes what was done as arguments.
"""

from drill.rulebook.domain import UNKNOWN
from drill.rulebook.evaluate import Evaluation

MOST_STRESS = 3
_WEAKNESS = {"sound": 0, "unknown": 1, "weak": 1, "fragile": 2}
_OPEN = ("porous", "overporous", UNKNOWN)
_HIDING = ("bricklay", "weave")


def breakage(zone: Evaluation, *, on_base: bool, against: bool) -> int:
    """Rank the strain on the hair at the scalp.

    Args:
        zone: The zone's hair.
        on_base: Whether it is over-directed onto its base.
        against: Whether it is rolled against its growth.

    Returns:
        0 where nothing pulls; else one for each pull (on base, against the growth, on base at a whorl or at
        the nape) and what the hair's weakness adds, 3 at most.

    Source:
        common practice.
    """
    tender = zone.read("hair.growth") == "whorl" or str(zone.read("zone")).startswith("nape")
    pulls = on_base + against + (on_base and tender)
    weak = _WEAKNESS[zone.rulebook.built_in("hair.condition", str(zone.read("hair.condition")))]
    return min(MOST_STRESS, pulls + weak) if pulls else 0


def part_lines(zone: Evaluation, *, layout: str, size: str) -> int:
    """Rank how far the partings between tools show.

    Args:
        zone: The zone's hair.
        layout: The layout, as a built-in value.
        size: The base size, as a built-in value.

    Returns:
        0 none, 1 faint, 2 plain.

    Source:
        common practice: thin and fine hair shows them, staggered or woven partings hide them.
    """
    shows = (zone.read("hair.density") == "thin") + (zone.read("hair.strand") == "fine")
    if layout in _HIDING:
        shows = 0
    elif layout != "straight_set":
        shows = max(0, shows - 1)
    return min(2, shows + (size == "double"))


def even_lotion(zone: Evaluation, *, wrap: str, size: str, turns: float) -> str:
    """Tell whether lotion reaches the whole strand.

    Args:
        zone: The zone's hair.
        wrap: The wrap, as a built-in value.
        size: The base size, as a built-in value.
        turns: Turns on a tool.

    Returns:
        ``inner_layers_dry``, ``overloaded`` or ``even``.

    Source:
        Parameter ``outcome.most_layers``; common practice.
    """
    if wrap != "spiral" and turns > float(zone.rulebook.values["outcome.most_layers"]):
        return "inner_layers_dry"
    thick, thin = (zone.read("hair.density") == one for one in ("thick", "thin"))
    if (size == "double" and not thin) or (size == "one_and_half" and thick):
        return "overloaded"
    return "even"


def bears(zone: Evaluation) -> tuple[int, int]:
    """Rank the lotion that a zone's hair needs at least, and the most that it bears.

    Args:
        zone: The zone's hair.

    Returns:
        Two ranks: 0 for treated hair's strength, 1 normal, 2 resistant.

    Source:
        common practice: the weakest place decides the lotion, the most resistant one needs it.
    """
    porosity = zone.read("hair.porosity")
    treated = zone.read("history.color") == "permanent" or zone.read("perm.left") in ("part", "all")
    if treated or porosity in _OPEN or zone.read("hair.condition") != "sound":
        return 0, 0
    never = zone.read("history.color") == "none" and zone.read("perm.left") == "none"
    closed = porosity == "resistant"
    return int(closed and never), 2 if never and (closed or zone.read("hair.strand") == "coarse") else 1


def shown_ends(zone: Evaluation, *, papers: str) -> str:
    """Tell how the ends come out.

    Args:
        zone: The zone's hair.
        papers: The papers, as a built-in value.

    Returns:
        ``smooth``, ``slipping`` out of the paper, or ``bent``.

    Source:
        common practice; a wet set does without papers.
    """
    if papers == "none" and zone.read("service") != "wet_set":
        return "bent"
    slips = papers in ("bookend", "single_flat") and zone.read("hair.ends") == "layered"
    return "slipping" if slips else "smooth"
