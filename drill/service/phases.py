"""How long a service takes: its phases one after the other, at the pace of whoever does it."""

from dataclasses import dataclass

from drill.service.head import Head

WINDING = "winding"
_TEST_CURLS = "test_curls"
_SOFTENING = "softening"
# The phases of each service in order, each with the parameter that says how long it takes.
_PHASES = {
    "perm": (
        ("before", "timing.before_minutes"),
        (_TEST_CURLS, "timing.test_curls_minutes"),
        (_SOFTENING, "timing.softening_minutes"),
        (WINDING, ""),
        ("saturation", "timing.saturation_minutes"),
        ("processing", "timing.processing_minutes"),
        ("rinse", "processing.rinse_minutes"),
        ("blot", "processing.blot_minutes"),
        ("neutraliser", "processing.neutraliser_minutes"),
        ("take_down", "timing.take_down_minutes"),
        ("finish", "timing.finish_minutes"),
    ),
    "wet_set": (
        ("before", "timing.before_minutes"),
        (WINDING, ""),
        ("dry", "timing.dry_minutes"),
        ("take_down", "timing.take_down_minutes"),
        ("finish", "timing.finish_minutes"),
    ),
    "practice_wrap": ((WINDING, ""),),
}
_SECONDS_A_MINUTE = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """One phase of a service.

    Attributes:
        name: ``before``, ``test_curls``, ``softening``, ``winding``, ``saturation``, ``processing``,
            ``rinse``, ``blot``, ``neutraliser``, ``dry``, ``take_down`` or ``finish``.
        minutes: Whole minutes to plan for it; the maker's directions decide while lotion is on the hair.
    """

    name: str
    minutes: int


def plan_phases(head: Head, *, tools: int) -> tuple[Phase, ...]:
    """Plan the phases of a service that works.

    Args:
        head: The head.
        tools: Tools to wind in all.

    Returns:
        The phases in order; test curls and softening only where they are part of the service.

    Source:
        Parameters ``timing.*`` and ``processing.*``; the winding by ``timing.PACE_seconds`` a tool.
    """
    values = head.rulebook.values
    counts_as = {
        name: head.rulebook.built_in(name, str(head.evaluation.read(name)))
        for name in ("service", "pace", "verdict", "soft_curl")
    }
    left_out = set()
    if counts_as["verdict"] != "test_first":
        left_out.add(_TEST_CURLS)
    if counts_as["soft_curl"] != "softening_first":
        left_out.add(_SOFTENING)
    winding = tools * float(values[f"timing.{counts_as['pace']}_seconds"]) / _SECONDS_A_MINUTE
    return tuple(
        Phase(name=name, minutes=round(float(values[parameter]) if parameter else winding))
        for name, parameter in _PHASES[counts_as["service"]]
        if name not in left_out
    )
