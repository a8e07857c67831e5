"""A model head: tape measures to the sizes of its nine sections.

It is a model for counting and drawing, not a measure of a person; its surface is in
:mod:`drill.service.head_surface`.
"""

from dataclasses import dataclass
from typing import NamedTuple

# Published arcs are means of people; what is left out of them as hairless is from memory, in round figures.
_PANELS_ROUND = 5  # two sides and three panels of the back
# The midline in 160 parts, and how much of the middle's length and width the outer panels have: chosen so
# that the counts of a full head agree with common practice.
_TOP_PART, _BACK_PART, _NAPE_PART = 69 / 160, 61 / 160, 30 / 160
_BACK_SIDE, _NAPE_SIDE, _NAPE_WIDTH = 106 / 122, 46 / 60, 70 / 72


class Size(NamedTuple):
    """Size of a section.

    Attributes:
        length_mm: Way along which its row of tools runs.
        width_mm: Way across it, in the direction of a tool's length.
    """

    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadModel:
    """A head by its tape measures, and what of them bears no hair.

    Attributes:
        name: What it is called.
        nasion_inion_mm: Arc from nasion over the vertex to the inion.
        ear_to_ear_mm: Arc from the front of one ear over the vertex to that of the other.
        circumference_mm: Round the head.
        forehead_mm: From nasion to the front hairline.
        below_inion_mm: Hair below the inion, to the nape's hairline.
        ear_strip_mm: From the front of an ear up to the lowest base above it.
        face_mm: From temple to temple round the face, along the circumference.
        whorl: Way in which hair turns outward from the crown, seen from outside: ``clockwise`` or
            ``counterclockwise``.
    """

    name: str
    nasion_inion_mm: float
    ear_to_ear_mm: float
    circumference_mm: float
    forehead_mm: float
    below_inion_mm: float
    ear_strip_mm: float
    face_mm: float
    whorl: str = "clockwise"

    @property
    def midline_mm(self) -> float:
        """Hair along the midline, from the front hairline to the nape's."""
        return self.nasion_inion_mm - self.forehead_mm + self.below_inion_mm

    @property
    def panel_mm(self) -> float:
        """Width of one panel."""
        return (self.circumference_mm - self.face_mm) / _PANELS_ROUND

    @property
    def side_mm(self) -> float:
        """From the edge of the top down to the lowest base above the ear."""
        return (self.ear_to_ear_mm - self.panel_mm) / 2 - self.ear_strip_mm


# Arcs: means of 59 women in the public data set BioMetrics/data/HandLab_TMSHeads.csv. The
# rest: from memory, trimmed by tenths so that sections come out in whole millimetres.
LIVE_HEAD = HeadModel(
    name="live",
    nasion_inion_mm=361.9,
    ear_to_ear_mm=362.4,
    circumference_mm=559.7,
    forehead_mm=61.9,
    below_inion_mm=20,
    ear_strip_mm=50.2,
    face_mm=199.7,
)


def scaled_head(head: HeadModel, *, name: str, scale: float) -> HeadModel:
    """Make a head of the same form in another size.

    Args:
        head: The head to start from.
        name: What the new one is called.
        scale: Its size over that of the first, more than 0.

    Returns:
        The head with every measure times the scale, and the same whorl.

    Raises:
        ValueError: If the scale is not more than 0.

    Source:
        Similar bodies.
    """
    if not scale > 0:
        raise ValueError(f"scale must be more than 0, got {scale}")
    return HeadModel(
        name=name,
        nasion_inion_mm=head.nasion_inion_mm * scale,
        ear_to_ear_mm=head.ear_to_ear_mm * scale,
        circumference_mm=head.circumference_mm * scale,
        forehead_mm=head.forehead_mm * scale,
        below_inion_mm=head.below_inion_mm * scale,
        ear_strip_mm=head.ear_strip_mm * scale,
        face_mm=head.face_mm * scale,
        whorl=head.whorl,
    )


# Practice heads take 5 to 15 tools in a hundred fewer (common practice); this one is 50 cm round.
PRACTICE_HEAD = scaled_head(LIVE_HEAD, name="practice", scale=0.9)


def zone_size(zone: str, *, head: HeadModel = LIVE_HEAD) -> Size:
    """Measure a section of a head.

    Args:
        zone: Name of one of the nine zones.
        head: The head.

    Returns:
        Its length and width; left and right are alike.

    Raises:
        ValueError: If no zone has that name.

    Source:
        Published arcs less what bears no hair, see :class:`HeadModel`; shares of the sections: common
        practice's counts.
    """
    panel, back, nape = head.panel_mm, head.midline_mm * _BACK_PART, head.midline_mm * _NAPE_PART
    side, nape_width = Size(head.side_mm, panel), panel * _NAPE_WIDTH
    back_side, nape_side = Size(back * _BACK_SIDE, panel), Size(nape * _NAPE_SIDE, nape_width)
    sizes = {
        "top": Size(head.midline_mm * _TOP_PART, panel),
        "left_side": side,
        "right_side": side,
        "back_left": back_side,
        "back_center": Size(back, panel),
        "back_right": back_side,
        "nape_left": nape_side,
        "nape_center": Size(nape, nape_width),
        "nape_right": nape_side,
    }
    if zone not in sizes:
        raise ValueError(f"no zone is named {zone}")
    return sizes[zone]
