"""The S as it is seen: as wide as the tool when it is firm, and never more."""

import pytest

from drill.service.figure_s import CURLS, s_figure
from drill.service.shapes import ROLES, Disc, Polyline, Text

SIZES = (6.4, 12.7, 25.4)


def strands(figure):
    return [shape for shape in figure.shapes if isinstance(shape, Polyline) and shape.role == "strand"]


def swing_mm(figure):
    across = [x for strand in strands(figure) for x, _ in strand.points]
    return max(across) - min(across)


def tool_mm(figure):
    (tool,) = [shape for shape in figure.shapes if isinstance(shape, Disc)]
    assert tool.role == "tool"
    return 2 * tool.radius_mm


@pytest.mark.parametrize("size", SIZES)
def test_firm_s_is_as_wide_as_the_tool(size):
    """Common practice; the weak one is clearly narrower, and without an S the strand hangs."""
    figures = {curl: s_figure(curl, tool_mm=size) for curl in CURLS}
    assert {round(tool_mm(figure), 6) for figure in figures.values()} == {size}
    assert swing_mm(figures["firm"]) == pytest.approx(size)
    assert 0.3 * size < swing_mm(figures["weak"]) < 0.6 * size
    assert swing_mm(figures["none"]) < 0.1 * size


def test_widths_are_measured_under_strand_and_tool():
    """Two bars, one as wide as the S, the other as the tool."""
    figure = s_figure("weak", tool_mm=10.0)
    bars = [shape for shape in figure.shapes if isinstance(shape, Polyline) and shape.role == "key"]
    wide = sorted(abs(bar.points[0][0] - bar.points[1][0]) for bar in bars)
    assert wide == pytest.approx([0, 0, 0, 0, swing_mm(figure), 10.0], abs=1e-6)


def test_gum_is_thick_and_thin_by_turns_and_any_other_hair_is_even():
    """Hair that is drawn out like gum has no one thickness."""
    gum = [strand.width_mm for strand in strands(s_figure("gum_like", tool_mm=10.0))]
    assert gum == pytest.approx([2.2, 0.7, 2.2, 0.7, 2.2])
    for curl in ("none", "weak", "firm"):
        assert len(strands(s_figure(curl, tool_mm=10.0))) == 1


@pytest.mark.parametrize("curl", CURLS)
def test_everything_lies_inside_the_frame_and_has_a_known_role(curl):
    """Letters taken as 0.55 of their size wide."""
    figure = s_figure(curl, tool_mm=12.7)
    for shape in figure.shapes:
        assert shape.role in ROLES
        if isinstance(shape, Text):
            half = 0.275 * shape.size_mm * len(shape.text)
            places = [(shape.at[0] - half, shape.at[1]), (shape.at[0] + half, shape.at[1])]
        elif isinstance(shape, Disc):
            (x, y), r = shape.center, shape.radius_mm
            places = [(x - r, y - r), (x + r, y + r)]
        else:
            places = shape.points
        assert all(0 <= x <= figure.width_mm and 0 <= y <= figure.height_mm for x, y in places), shape


def test_words_say_what_is_drawn():
    """For whoever can't see it."""
    assert s_figure("firm", tool_mm=9.5).title == "firm S"
    assert s_figure("firm", tool_mm=9.5).description == (
        "A strand unwound one and a half turns, beside its tool: a full S, as wide as the tool."
    )
    assert len({s_figure(curl, tool_mm=9.5).description for curl in CURLS}) == len(CURLS)


@pytest.mark.parametrize(
    ("curl", "size", "told"), [("curly", 9.5, "one of none, weak, firm, gum_like"), ("firm", 0.0, "tool_mm")]
)
def test_what_cannot_be_drawn_is_refused(curl, size, told):
    """By name."""
    with pytest.raises(ValueError, match=told):
        s_figure(curl, tool_mm=size)
