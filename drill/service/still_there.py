"""What of earlier services is still on the length: weeks clear nothing, it goes as hair grows and is cut."""

from collections.abc import Mapping

from drill.rulebook.domain import UNKNOWN, Value
from drill.service.consultation import Consultation
from drill.service.geometry import grown_mm, share_left

_ALL_BUT_NOTHING = 0.95
_THERE = ("part", "all")


def still_there(consultation: Consultation, parameters: Mapping[str, Value]) -> dict[str, Value]:
    """Tell what of an old perm, colour and straightening is still there, and how much has grown since.

    Args:
        consultation: The consultation.
        parameters: Values by name.

    Returns:
        ``perm.left``, ``color.left``, ``relaxer.left`` and ``growth.new``, as the tables read them.

    Source:
        :func:`drill.service.geometry.share_left`, growth H10.
    """
    longest_mm = max(float(value) for value in consultation.each_zone("hair.length"))
    relaxer, perm = consultation.of("history.relaxer"), consultation.of("history.weeks_since_perm")
    relaxed = consultation.of("history.weeks_since_relaxer")
    color = left_on_length(consultation.of("history.weeks_since_color"), longest_mm, parameters)
    straight = left_on_length(relaxed, longest_mm, parameters)
    left: dict[str, Value] = {
        "perm.left": left_on_length(perm, longest_mm, parameters),
        "color.left": "none" if consultation.of("history.color") == "none" else color,
        # A date beside "none" is kept: the two are held against each other.
        "relaxer.left": "none" if relaxer == "none" and straight == UNKNOWN else straight,
    }
    # Hair loosened with thio is told apart from new growth as permed hair is.
    opened = {"perm.left": perm} | ({"relaxer.left": relaxed} if relaxer == "thio" else {})
    return left | {"growth.new": _new_growth(left, opened, parameters)}


def left_on_length(weeks: Value, longest_mm: float, parameters: Mapping[str, Value]) -> str:
    """Tell what of an earlier service is still on the length.

    Args:
        weeks: Weeks since it, ``never`` or ``unknown``.
        longest_mm: The longest hair; the last trace of the service sits there.
        parameters: Values by name.

    Returns:
        ``none``, ``part``, ``all`` or ``unknown``.

    Source:
        :func:`drill.service.geometry.share_left`, growth H10.
    """
    if isinstance(weeks, str):
        return "none" if weeks == "never" else UNKNOWN
    growth = float(parameters["hair.growth_um_per_day"])
    share = share_left(length_mm=longest_mm, growth_um_per_day=growth, weeks=weeks)
    if share == 0:
        return "none"
    return "all" if share > _ALL_BUT_NOTHING else "part"


def _new_growth(
    left: Mapping[str, Value], opened: Mapping[str, Value], parameters: Mapping[str, Value]
) -> Value:
    """Give what has grown since the last of the services that are still there, in millimetres."""
    if any(left[name] == UNKNOWN for name in opened):
        return UNKNOWN
    weeks = [float(opened[name]) for name in opened if left[name] in _THERE]
    if not weeks:
        return "none"
    return grown_mm(growth_um_per_day=float(parameters["hair.growth_um_per_day"]), weeks=min(weeks))
