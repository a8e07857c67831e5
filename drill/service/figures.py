"""The trade's pictures as data: base control from the side, and the nine-section head opened flat.

Nothing is painted here; :mod:`drill.service.shapes` says what a figure is made of.
"""

import math

from drill.basis.length import number_text
from drill.basis.words import say
from drill.service.geometry import base_offset_mm
from drill.service.head_map import head_map, zone_at
from drill.service.shapes import Arrow, Disc, Figure, Point, Polygon, Polyline, Shape, Text

__all__ = ["Arrow", "Disc", "Figure", "Point", "Polygon", "Polyline", "Shape", "Text"]
__all__ += ["base_control_figure", "head_map", "zone_at"]

# Degrees from straight out, positive toward where the tool will lie (common practice).
_HELD_DEG = {"on_base": -45, "half_off_base": 0, "off_base": 45}

# The side view is drawn in wound diameters; how far the scalp bends in it is drawn, not measured.
_SCALP_BEND = 7.0
_SCALP_REACH = 2.15
_HELD_AT: Point = (2.75, 2.05)
_REST_AT: Point = (7.75, 2.05)
_STRAND_REACH = 2.9


def base_control_figure(base_control: str, *, wound_mm: float, strand_label: str) -> Figure:
    """Draw how a strand is held for a base control, and where the tool comes to rest.

    Args:
        base_control: ``on_base``, ``half_off_base`` or ``off_base``.
        wound_mm: Wound diameter of the tool, the depth of its base.
        strand_label: What to call the strand, a few letters.

    Returns:
        Two views from the side: the strand held, the tool at rest with the hair that stays uncurled.

    Raises:
        ValueError: If the base control has no such name, or the diameter is not more than 0.

    Source:
        common practice.
    """
    gap_mm = base_offset_mm(base_control, tool_mm=wound_mm)
    side = _SideView(wound_mm)
    held, rest = _held_words(base_control), _rest_words(base_control)
    gap = say("gap {gap} mm", gap=number_text(gap_mm)) if gap_mm else say("no gap")
    shapes = (
        *side.scalp(_HELD_AT),
        *side.held_strand(_HELD_DEG[base_control], label=strand_label),
        *side.scalp(_REST_AT),
        *side.tool_at_rest(gap_mm / wound_mm),
        *side.measure(_HELD_AT, -0.5, 0.5, words=say("base")),
        *side.measure(_REST_AT, 0, gap_mm / wound_mm, words=gap),
        side.text((_HELD_AT[0], 0.42), held),
        side.text((_REST_AT[0], 0.42), rest),
        side.text((5.25, 5.65), say("rolled this way")),
        Arrow(side.at((4.5, 5.25)), side.at((6.0, 5.25)), 0.06 * wound_mm, "key"),
    )
    return Figure(
        10.3 * wound_mm,
        6 * wound_mm,
        shapes,
        title=f"{held}: {rest}",
        description=say(
            "Seen from the side: the strand is {held}; wound down, the tool is {rest}. At the scalp: {gap}.",
            held=held,
            rest=rest,
            gap=gap,
        ),
    )


def _held_words(base_control: str) -> str:
    return {
        "on_base": say("held 45° past straight out"),
        "half_off_base": say("held straight out"),
        "off_base": say("held 45° short of straight out"),
    }[base_control]


def _rest_words(base_control: str) -> str:
    return {
        "on_base": say("on its base"),
        "half_off_base": say("half off its base"),
        "off_base": say("off its base"),
    }[base_control]


class _SideView:
    """Shapes of the side view, given in wound diameters and made in millimetres."""

    def __init__(self, wound_mm: float) -> None:
        self._wound_mm = wound_mm

    def at(self, point: Point) -> Point:
        return (point[0] * self._wound_mm, point[1] * self._wound_mm)

    def text(self, at: Point, words: str, *, anchor: str = "middle") -> Text:
        return Text(self.at(at), words, 0.33 * self._wound_mm, "ink", anchor)

    def line(self, points: list[Point], width: float, role: str) -> Polyline:
        return Polyline(tuple(map(self.at, points)), width * self._wound_mm, role)

    def on_scalp(self, origin: Point, along: float, above: float = 0.0) -> Point:
        turn = along / _SCALP_BEND
        radius = _SCALP_BEND + above
        return (origin[0] + radius * math.sin(turn), origin[1] - _SCALP_BEND + radius * math.cos(turn))

    def over(self, origin: Point, start: float, end: float, above: float) -> list[Point]:
        return [self.on_scalp(origin, start + (end - start) * step / 16, above) for step in range(17)]

    def scalp(self, origin: Point) -> list[Shape]:
        partings = [
            self.line([self.on_scalp(origin, edge, -0.34), self.on_scalp(origin, edge)], 0.07, "parting")
            for edge in (-0.5, 0.5)
        ]
        return [
            self.line(self.over(origin, -_SCALP_REACH, _SCALP_REACH, -0.17), 0.34, "scalp"),
            Polygon(
                tuple(
                    map(
                        self.at,
                        self.over(origin, -0.5, 0.5, 0) + self.over(origin, 0.5, -0.5, -0.34),
                    )
                ),
                "base",
            ),
            *partings,
        ]

    def measure(self, origin: Point, start: float, end: float, *, words: str) -> list[Shape]:
        below = self.on_scalp(origin, (start + end) / 2, -1.0)
        text = self.text(below, words)
        if start == end:
            return [text]
        line = self.over(origin, start, end, -0.58)
        ends = (self.on_scalp(origin, edge, above) for edge in (start, end) for above in (-0.5, -0.66))
        a, b, c, d = ends
        return [
            self.line(line, 0.05, "key"),
            self.line([a, b], 0.05, "key"),
            self.line([c, d], 0.05, "key"),
            text,
        ]

    def held_strand(self, lean_deg: int, *, label: str) -> list[Shape]:
        x, y = _HELD_AT
        lean = math.radians(lean_deg)
        tip = (x + _STRAND_REACH * math.sin(lean), y + _STRAND_REACH * math.cos(lean))
        half = (0.12 * math.cos(lean), -0.12 * math.sin(lean))
        fan = [
            self.on_scalp(_HELD_AT, -0.5),
            (tip[0] - half[0], tip[1] - half[1]),
            (tip[0] + half[0], tip[1] + half[1]),
            self.on_scalp(_HELD_AT, 0.5),
        ]
        outer = -1 if lean_deg < 0 else 1
        beside = (x + 1.7 * math.sin(lean) + outer * 0.4, y + 1.7 * math.cos(lean) - 0.25)
        return [
            Polygon(tuple(map(self.at, fan)), "strand"),
            *self._angle(lean_deg),
            self.text(beside, label, anchor="end" if lean_deg < 0 else "start"),
        ]

    def _angle(self, lean_deg: int) -> list[Shape]:
        """Draw straight out, dashed, and how far the strand leans from it."""
        x, y = _HELD_AT
        dashes: list[Shape] = [
            self.line([(x, y + 0.5 * step), (x, y + 0.5 * step + 0.25)], 0.05, "soft") for step in range(6)
        ]
        if not lean_deg:
            return dashes
        sweep = [math.radians(lean_deg * step / 12) for step in range(13)]
        bend = self.line(
            [(x + 2.1 * math.sin(turn), y + 2.1 * math.cos(turn)) for turn in sweep], 0.06, "key"
        )
        half = math.radians(lean_deg / 2)
        words = self.text(
            (x + 2.5 * math.sin(half), y + 2.5 * math.cos(half)), say("{angle}°", angle=abs(lean_deg))
        )
        return [*dashes, bend, words]

    def tool_at_rest(self, offset: float) -> list[Shape]:
        middle = self.on_scalp(_REST_AT, offset, 0.5)
        center = self.at(middle)
        sheet = [self.on_scalp(_REST_AT, -0.5), middle, self.on_scalp(_REST_AT, 0.5)]
        layers: list[Shape] = [
            Disc(center, ratio * self._wound_mm, "soft", filled=False, width_mm=0.03 * self._wound_mm)
            for ratio in (0.36, 0.43)
        ]
        gap = [self.line(self.over(_REST_AT, 0, offset, 0.07), 0.14, "gap")] if offset else []
        return [
            Polygon(tuple(map(self.at, sheet)), "strand"),
            Disc(center, 0.5 * self._wound_mm, "strand"),
            *layers,
            Disc(center, 0.29 * self._wound_mm, "tool"),
            *gap,
        ]
