"""Why a figure of the winding is what it is: length, tool, layers."""

from fractions import Fraction

from drill.basis.length import Length, length_text
from drill.basis.words import say
from drill.rulebook.trace import Decision
from drill.service.head import COMPUTED_FIGURES, Head
from drill.service.strand import layer_of, strand_of

_TURNS = {
    "croquignole": "{length} of hair goes round a {tool} tool, and every turn adds a layer of {layer}",
    "double_tool": "half of {length} goes round the {tool} tool at the scalp, in layers of {layer}",
    "spiral": "{length} of hair runs along a {tool} tool in one layer of {layer}",
}
_CURL = {
    "curl_ends_mm": "the ends lie first on a {tool} tool in a layer of {layer}; off the tool a curl opens",
    "curl_scalp_mm": "{length} of hair lies on a {tool} tool in layers of {layer}; off the tool a curl opens",
}


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
    return say(
        words,
        length=_mm_words(strand.length_mm),
        tool=_mm_words(tool.diameter_mm),
        layer=_mm_words(round(layer_of(strand, tool), 1)),
    )


def _mm_words(value_mm: float) -> str:
    return length_text(Length(Fraction(str(value_mm))))
