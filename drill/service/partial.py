"""A part of the head: which sections are wound, and how many tools a section at the border takes."""

from drill.service.head import Head
from drill.service.zones import ZONE_NAMES

ROLE = "part.role"
LEFT_OUT = "left_out"
_BORDER = "border"


def role_of(head: Head, zone: str) -> str:
    """Tell what happens to a section.

    Args:
        head: The head.
        zone: Name of the section.

    Returns:
        ``wound``, ``border`` or ``left_out``; a value of a local rule counts as the built-in one it names.

    Source:
        Table ``part.role``.
    """
    return head.rulebook.built_in(ROLE, str(head.decide(ROLE, zone).value))


def wound_zones(head: Head) -> tuple[str, ...]:
    """Name the sections that take tools, in the order of the head.

    Source:
        Table ``part.role``.
    """
    return tuple(zone for zone in ZONE_NAMES if role_of(head, zone) != LEFT_OUT)


def tools_wanted(head: Head, zone: str) -> int:
    """Count the tools that a section takes.

    Args:
        head: The head.
        zone: Name of a section that is wound.

    Returns:
        Tools; of a double wrap two for each strand, at a border no more than a few strands.

    Source:
        :func:`drill.service.winding.count_tools`, parameter ``partial.border_tools``.
    """
    strands = head.winding(zone).count
    if role_of(head, zone) == _BORDER:
        strands = min(strands, int(head.rulebook.values["partial.border_tools"]))
    doubled = head.rulebook.built_in("wrap", str(head.decide("wrap", zone).value)) == "double_tool"
    return 2 * strands if doubled else strands
