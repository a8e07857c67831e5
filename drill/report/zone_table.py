"""The nine zones of a plan as a table; what is the same on the whole head is said once, above it."""

from dataclasses import dataclass

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.page import Page
from drill.service.plan import Plan, ZonePlan
from drill.service.wording import zone_words

_SHORT = {
    "on_base": "on",
    "half_off_base": "half off",
    "off_base": "off",
    "single": "1",
    "one_and_half": "1 1/2",
    "double": "2",
    "bookend": "1, folded",
    "double_flat": "2, flat",
    "single_flat": "1, flat",
}


@dataclass(frozen=True, slots=True)
class _Column:
    """A column: its head, its cells, and whether it is told in the table even if all cells are alike."""

    head: str
    cells: tuple[str, ...]
    always: bool = False


def put_zones(page: Page, plan: Plan) -> None:
    """Put the zones of a working plan on a page.

    Args:
        page: Where they go.
        plan: A plan with zones.
    """
    page.heading(say("The head, zone by zone"))
    zones = tuple(plan.zones.values())
    columns = _columns(zones)
    alike = [one for one in columns if not one.always and len(set(one.cells)) == 1]
    for one in alike:
        page.line(say("{what}: {value}", what=one.head.capitalize(), value=one.cells[0]), indent=2)
    shown = [one for one in columns if one not in alike]
    names = [zone_words(zone) for zone in plan.zones]
    page.table(
        [say("zone"), *(one.head for one in shown)],
        [[name, *(one.cells[at] for one in shown)] for at, name in enumerate(names)],
    )
    page.line(
        say(
            "Tool and curl in mm; the curl from ends to scalp on the day, it loosens most in the first two "
            "weeks. Base: where the tool sits, and how many wound tools deep the base is."
        ),
        style="faint",
    )


def _columns(zones: tuple[ZonePlan, ...]) -> list[_Column]:
    def named(decision: str) -> tuple[str, ...]:
        return tuple(_short(zone.decisions[decision]) for zone in zones)

    return [
        _Column(say("layout"), named("layout")),
        _Column(say("tool shape"), tuple(_short(zone.shape) for zone in zones)),
        _Column(say("tool"), tuple(_sizes(zone) for zone in zones), always=True),
        _Column(say("count"), tuple(_counts(zone) for zone in zones), always=True),
        _Column(say("base"), tuple(map(_base, zones)), always=True),
        _Column(say("partings"), named("base_direction"), always=True),
        _Column(say("roll"), named("roll_direction"), always=True),
        _Column(say("wrap"), named("wrap")),
        _Column(say("papers"), named("papers")),
        _Column(say("turns"), tuple(number_text(zone.turns) for zone in zones), always=True),
        _Column(say("curl"), tuple(map(_curl, zones)), always=True),
    ]


def _short(value: str) -> str:
    return say(_SHORT.get(value, value.replace("_", " ")))


def _sizes(zone: ZonePlan) -> str:
    return " + ".join(number_text(share.diameter_mm) for share in zone.tools) or number_text(zone.diameter_mm)


def _counts(zone: ZonePlan) -> str:
    return " + ".join(str(share.count) for share in zone.tools) or "0"


def _base(zone: ZonePlan) -> str:
    return f"{_short(zone.decisions['base_control'])}, {_short(zone.decisions['base_size'])}"


def _curl(zone: ZonePlan) -> str:
    ends, scalp = number_text(zone.curl_ends_mm, digits=0), number_text(zone.curl_scalp_mm, digits=0)
    return ends if ends == scalp else f"{ends} - {scalp}"
