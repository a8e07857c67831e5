"""What a figure of the winding is reckoned from, and why it is what it is: length, tool, layers."""

from fractions import Fraction

from drill.basis.length import Length, length_text
from drill.basis.words import say
from drill.rulebook.trace import Decision
from drill.service.head import COMPUTED_FIGURES, Head
from drill.service.strand import layer_of, strand_of
from drill.service.tool_choice import tools_by_the_wish

_TURNS = {
    "croquignole": "{length} of hair goes round a {tool} tool, and every turn adds a layer of {layer}",
    "double_tool": "half of {length} goes round the {tool} tool at the scalp, in layers of {layer}",
    "spiral": "{length} of hair runs along a {tool} tool in one layer of {layer}",
}
_CURL = {
    "curl_ends_mm": "the ends lie on a {tool} tool in a layer of {layer}; {kept} in 100 of the bend stays",
    "curl_scalp_mm": (
        "{length} of hair lies on a {tool} tool in layers of {layer}; {kept} in 100 of the bend stays"
    ),
}
_CURL_OF_TWO = (
    "half of {length} lies on the {tool} tool at the scalp, in layers of {layer}; {kept} in 100 stays"
)


def figure_reason(head: Head, decided: Decision) -> str:
    """Say what a figure of the winding rests on.

    Args:
        head: The head.
        decided: The decision.

    Returns:
        A clause; empty where the decision is no such figure.

    Source:
        :mod:`drill.service.strand`, :mod:`drill.service.coil`.
    """
    if decided.decision not in COMPUTED_FIGURES or decided.zone is None:
        return ""
    strand, tool = strand_of(head.zone(decided.zone)), head.winding(decided.zone).tool
    words = _CURL.get(decided.decision) or _TURNS[strand.wrap]
    if decided.decision == "curl_scalp_mm" and strand.wrap == "double_tool":
        words = _CURL_OF_TWO
    return say(
        words,
        length=_mm_words(strand.length_mm),
        tool=_mm_words(tool.diameter_mm),
        layer=_layer_words(head, decided.zone),
        kept=_kept_words(head, decided.zone),
    )


def figure_givens(head: Head, decision: str, zone: str) -> tuple[str, ...]:
    """Say what somebody measures or reads off before such a figure can be reckoned.

    Args:
        head: The head.
        decision: A figure of the winding.
        zone: The zone.

    Returns:
        A line about tools, one about layers, of a curl with what stays of it. Which tool the hair needs is
        not said, only which gives the wished curl.
    """
    by_wish, *beside = tools_by_the_wish(head.zone(zone), head.consultation.kit)
    choice = head.choice(zone)
    # Where the size for the wish would do as well, nobody can know which one is reckoned with.
    if choice.tool != by_wish and by_wish.diameter_mm in choice.also:
        by_wish, beside = choice.tool, []
    tools = (
        say("Tool: {tool}.", tool=_mm_words(by_wish.diameter_mm))
        if not beside
        else say(
            "Tools: {tool} by the wish; {beside} mm beside it.",
            tool=_mm_words(by_wish.diameter_mm),
            beside=say(" and ").join(f"{tool.diameter_mm:g}" for tool in beside),
        )
    )
    layer = say("A layer of hair: {layer}.", layer=_layer_words(head, zone))
    if decision not in _CURL:
        return (tools, layer)
    kept = say("{kept} in 100 of the bend stays.", kept=_kept_words(head, zone))
    return (tools, f"{layer} {kept}")


def _layer_words(head: Head, zone: str) -> str:
    return _mm_words(round(layer_of(strand_of(head.zone(zone)), head.winding(zone).tool), 2))


def _kept_words(head: Head, zone: str) -> str:
    winding = head.winding(zone)
    return f"{100 * winding.ends_mm / winding.curl_ends_mm:.0f}"


def _mm_words(value_mm: float) -> str:
    return length_text(Length(Fraction(str(value_mm))))
