"""Heads on which a given row decides: found in the row's boxes, filled up to a whole head.

Used to find what can be asked of a row, and by whoever wants a head for it.
"""

import random
from collections.abc import Iterator, Mapping
from contextlib import suppress
from itertools import islice

from drill.bank.item import Item
from drill.bank.scenario import draw_head
from drill.rulebook.boxes import Box, TooWideError, meet
from drill.rulebook.condition import Range
from drill.rulebook.domain import Value
from drill.rulebook.space import Space
from drill.rulebook.table import Row, Table
from drill.service.consultation import Consultation
from drill.service.zones import ZONE_NAMES

_PARTS = 6
_FARTHEST = 1.6
# A name that the planner derives, and what is entered to bring its value about.
_ENTERED_AS = {"porosity.weakest": "hair.porosity", "porosity.strongest": "hair.porosity"}
_WEEKS = "history.weeks_since_perm"
_WEEKS_FOR: Mapping[str, Value] = {"none": "never", "part": 16.0, "all": 1.0, "unknown": "unknown"}


def heads_for_row(
    space: Space, table: Table, row: Row, rng: random.Random
) -> Iterator[tuple[Consultation, str | None]]:
    """Draw heads from the boxes in which a row decides.

    Args:
        space: The rulebook's space.
        table: The row's table.
        row: The row.
        rng: A seeded generator.

    Yields:
        Without end, heads with the zone to ask; the row decides most of them, not all: what the planner
        computes from several fields is brought about as well as can be. Nothing where no head reaches it.
    """
    heads = RowHeads(space)
    usual = Item(id=row.id, topic="", kind="choose", stem="")
    while (drawn := heads.draw(table, row, rng, on=usual)) is not None:
        yield drawn


class RowHeads:
    """Draws heads on which given rows decide; the boxes of a row are looked for once.

    Args:
        space: The rulebook's space.
    """

    def __init__(self, space: Space) -> None:
        self._space = space
        self._parts: dict[tuple[str, str], list[Box]] = {}

    def draw(
        self, table: Table, row: Row, rng: random.Random, *, on: Item
    ) -> tuple[Consultation, str | None] | None:
        """Draw one head on which a row most likely decides.

        Args:
            table: The row's table.
            row: The row.
            rng: A seeded generator.
            on: Draws the head on which the row's own conditions are laid, so that it stays near to what the
                item is about; its zones are asked, any where it has none.

        Returns:
            The head with the zone to ask; None where no head reaches the row, or none in those zones.
        """
        space, key = self._space, (table.decision, row.id)
        if key not in self._parts:
            self._parts[key] = list(islice(_parts(space, table, row), _PARTS))
        parts = self._parts[key]
        if table.per == "zone" and on.zones:
            asked = {"zone": space.axes["zone"].of(on.zones)}
            parts = [met for part in parts if (met := meet(part, asked)) is not None]
        if not parts:
            return None
        part = rng.choice(parts)
        zone = _zone(space, part, rng) if table.per == "zone" else None
        drawn = draw_head(on, zone, space.rulebook, rng)
        return _overlaid(drawn, space, part, zone, rng), zone


def _parts(space: Space, table: Table, row: Row) -> Iterator[Box]:
    """Walk through the boxes in which a row decides, as far as the work reaches."""
    before: list[Box] = []
    with suppress(TooWideError):
        for branch in space.branches(table):
            if branch.row is row:
                for part in space.outside(branch.box, before):
                    found = space.find(part)
                    if found is not None:
                        yield found
            before.append(branch.box)


def _zone(space: Space, part: Box, rng: random.Random) -> str:
    return str(_draw(space, "zone", part.get("zone", space.axes["zone"].full), rng))


def _overlaid(
    drawn: Consultation, space: Space, part: Box, zone: str | None, rng: random.Random
) -> Consultation:
    head, zones = dict(drawn.head), {name: dict(values) for name, values in drawn.zones.items()}
    for name, mask in part.items():
        # A drawn head is alike all over, and rows ask for its weakest place.
        if name == "porosity.strongest" and "porosity.weakest" in part:
            continue
        value = _draw(space, name, mask, rng)
        entered = _ENTERED_AS.get(name, name)
        domain = space.rulebook.domains.get(entered)
        if domain is None or not domain.entered:
            continue
        if domain.per == "head":
            head[entered] = value
        else:
            # Porosity and length are a head's more than a zone's; growth and wear are the zone's own.
            everywhere = zone is None or entered in ("hair.porosity", "hair.length")
            for one in ZONE_NAMES if everywhere else (str(zone),):
                zones[one][entered] = value
    if "perm.left" in part:
        left = str(_draw(space, "perm.left", part["perm.left"], rng))
        head[_WEEKS] = _weeks_for(space, part, left, rng)
    return Consultation(head=head, zones=zones, client=drawn.client, kit=drawn.kit)


def _weeks_for(space: Space, part: Box, left: str, rng: random.Random) -> Value:
    """Choose weeks since a perm that leave so much of it, among those that the part allows."""
    wanted = _WEEKS_FOR[left]
    if _WEEKS not in part:
        return wanted
    cells = _cells(space, _WEEKS, part[_WEEKS])
    if wanted in cells:
        return wanted
    spans = [cell for cell in cells if not isinstance(cell, str)]
    return _number_in(rng.choice(spans), rng) if spans else _draw(space, _WEEKS, part[_WEEKS], rng)


def _draw(space: Space, name: str, mask: int, rng: random.Random) -> Value:
    cell = rng.choice(_cells(space, name, mask))
    return cell if isinstance(cell, str) else _number_in(cell, rng)


def _cells(space: Space, name: str, mask: int) -> list[str | Range]:
    return [cell for at, cell in enumerate(space.axes[name].cells) if mask >> at & 1]


def _number_in(cell: Range, rng: random.Random) -> float:
    if cell.low == cell.high:
        return cell.low
    high = cell.high if cell.high < float("inf") else max(cell.low * _FARTHEST, cell.low + 1)
    return round(cell.low + (high - cell.low) * rng.choice((0.25, 0.5, 0.75)), 1)
