"""The head on a service card: four views with the tools in place, and the sections in a table."""

from collections.abc import Callable
from dataclasses import dataclass

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.svg import figure_svg, markup_text
from drill.rulebook.rulebook import Rulebook
from drill.service.head_map import head_map
from drill.service.head_views import VIEWS, head_view
from drill.service.laid_plan import head_of, lay_out_plan
from drill.service.plan import Plan, ZonePlan
from drill.service.zones import zone_label

_SHORT = {
    "on_base": "on",
    "half_off_base": "half off",
    "off_base": "off",
    "single": "1 deep",
    "one_and_half": "1 1/2 deep",
    "double": "2 deep",
    "bookend": "one, folded",
    "double_flat": "two, flat",
    "single_flat": "one, flat",
}


@dataclass(frozen=True, slots=True)
class _Column:
    """A column: its head, what it says of a section, and whether it stays when all sections are alike."""

    head: str
    tell: Callable[[ZonePlan], str]
    stays: bool = False


def views_html(plan: Plan, *, rulebook: Rulebook | None = None) -> str:
    """Draw the head of a plan from four sides.

    Args:
        plan: A plan with zones.
        rulebook: The rules that it was planned under.

    Returns:
        Markup: four figures side by side.
    """
    laid, head = lay_out_plan(plan, rulebook=rulebook), head_of(plan)
    whorl = _has_whorl(plan)
    parts = []
    for view in VIEWS:
        figure = head_view(view, laid=laid, head=head, whorl=whorl)
        caption = markup_text(figure.title)
        svg = figure_svg(figure, name=f"view-{view}")
        parts.append(f"<figure>{svg}<figcaption>{caption}</figcaption></figure>")
    told = [
        say("Numbers: tools in a section. Arrows: the way they are rolled."),
        say("A tool across a parting is counted once."),
    ]
    if whorl:
        told.append(say("The swirl: a whorl as most heads have it; look at this one."))
    return f'<section><div class="views">{"".join(parts)}</div><p class="why">{_joined(told)}</p></section>'


def head_map_svg(plan: Plan, *, rulebook: Rulebook | None = None) -> str:
    """Draw the head of a plan, opened flat, with every tool in its place, as a file of its own.

    Args:
        plan: The plan; one that does not work gives the bare head.
        rulebook: The rules that it was planned under.

    Returns:
        An SVG document.
    """
    laid = lay_out_plan(plan, rulebook=rulebook)
    figure = head_map(
        laid=laid,
        directions={name: zone.roll_direction for name, zone in laid.items()},
        labels={name: _label(plan.zones[name]) for name in laid},
        whorl=_has_whorl(plan),
    )
    return figure_svg(figure, name="head-map")


def _has_whorl(plan: Plan) -> bool:
    """Tell whether hair grows on the head; implanted hair of a practice head has no whorl."""
    return plan.consultation.of("service") != "practice_wrap"


def zones_html(plan: Plan) -> str:
    """Put the sections of a plan in a table; what all have in common is said once, above it.

    Args:
        plan: A plan with zones.

    Returns:
        Markup: a heading, a line and the table.
    """
    zones = tuple(zone for zone in plan.zones.values() if zone.tools)
    columns = _columns()
    alike = [one for one in columns if not one.stays and len({one.tell(zone) for zone in zones}) <= 1]
    shown = [one for one in columns if one not in alike]
    common = "; ".join(f"{one.head}: {one.tell(zone)}" for one in alike for zone in zones[:1])
    heads = "".join(f'<th scope="col">{markup_text(head)}</th>' for head in (say("section"), *_heads(shown)))
    rows = "".join(_row(zone_label(name), zone, shown) for name, zone in plan.zones.items())
    told = markup_text(say("Everywhere: {what}.", what=common)) if common else ""
    note = say("mm; curl from ends to scalp end on the day, it loosens most in the first two weeks")
    return (
        f"<section><h2>{markup_text(say('Section by section'))}</h2><p>{told}</p><table>"
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
        f'<p class="why">{markup_text(note)}</p></section>'
    )


def _joined(told: list[str]) -> str:
    return markup_text(" ".join(told))


def _heads(columns: list[_Column]) -> list[str]:
    return [one.head for one in columns]


def _row(name: str, zone: ZonePlan, columns: list[_Column]) -> str:
    if not zone.tools:
        words = markup_text(say("left out"))
        return f'<tr><th scope="row">{markup_text(name)}</th><td colspan="{len(columns)}">{words}</td></tr>'
    cells = "".join(f'<td class="number">{markup_text(one.tell(zone))}</td>' for one in columns)
    return f'<tr><th scope="row">{markup_text(name)}</th>{cells}</tr>'


def _columns() -> list[_Column]:
    return [
        _Column(say("tools"), _tools, stays=True),
        _Column(say("layout"), lambda zone: _short(zone.decisions["layout"])),
        _Column(say("line"), lambda zone: _short(zone.decisions["parting"])),
        _Column(say("partings"), lambda zone: _short(zone.decisions["base_direction"])),
        _Column(say("base"), _base),
        _Column(say("roll"), lambda zone: _short(zone.decisions["roll_direction"]), stays=True),
        _Column(say("wrap"), lambda zone: _short(zone.decisions["wrap"])),
        _Column(say("papers"), lambda zone: _short(zone.decisions["papers"])),
        _Column(say("shape"), lambda zone: _short(zone.shape)),
        _Column(say("turns"), lambda zone: number_text(zone.turns), stays=True),
        _Column(say("curl"), _curl, stays=True),
    ]


def _short(value: str) -> str:
    return say(_SHORT.get(value, value.replace("_", " ")))


def _tools(zone: ZonePlan) -> str:
    return " + ".join(f"{share.count} of {number_text(share.diameter_mm)}" for share in zone.tools)


def _label(zone: ZonePlan) -> str:
    """Say a section's tools in a few letters: of mixed sizes the counts, as the table has the sizes."""
    counts = [str(share.count) for share in zone.tools]
    return " + ".join(counts) if len(counts) > 1 else _tools(zone)


def _base(zone: ZonePlan) -> str:
    return f"{_short(zone.decisions['base_control'])}, {_short(zone.decisions['base_size'])}"


def _curl(zone: ZonePlan) -> str:
    ends, scalp = number_text(zone.curl_ends_mm, digits=0), number_text(zone.curl_scalp_mm, digits=0)
    return ends if ends == scalp else f"{ends} - {scalp}"
