"""Figures painted as SVG."""

import xml.etree.ElementTree as ET

import pytest

from drill.report.svg import COLOURS, figure_svg, markup_text
from drill.service.figures import base_control_figure
from drill.service.head_map import head_map
from drill.service.shapes import ROLES, Arrow, Disc, Figure, Polygon, Polyline, Text

NS = "{http://www.w3.org/2000/svg}"
HOSTILE = "<script>alert('x')</script> & \"quoted\" \x00\x1b[31m \ud800 \uffff ]]> é"


def painted(*shapes, title="a title", description="What it shows."):
    figure = Figure(40, 20, shapes, title=title, description=description)
    return ET.fromstring(figure_svg(figure))


def luminance(colour):
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_every_role_has_a_colour():
    """And there are no others."""
    assert set(COLOURS) == set(ROLES)


def test_signs_and_texts_stand_out_from_their_grounds():
    """Texts 4.5 to 1, graphics 3 to 1 (WCAG 2.2, success criteria 1.4.3 and 1.4.11)."""
    for ground in ("plate", "scalp", "skin", "base"):
        assert contrast(COLOURS["ink"], COLOURS[ground]) >= 4.5
        assert contrast(COLOURS["key"], COLOURS[ground]) >= 3
        assert contrast(COLOURS["tool"], COLOURS[ground]) >= 3
        assert contrast(COLOURS["parting"], COLOURS[ground]) >= 3
    assert contrast(COLOURS["tool"], COLOURS["strand"]) >= 3


def test_figure_stands_on_its_own_with_title_and_description():
    """Millimetres of the figure, a role, and names for those who can't see it."""
    root = painted()
    assert (root.tag, root.get("width"), root.get("viewBox")) == (f"{NS}svg", "40mm", "0 0 40 20")
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "figure-title figure-about"
    assert root.find(f"{NS}title").text == "a title"
    assert root.find(f"{NS}title").get("id") == "figure-title"
    assert root.find(f"{NS}desc").text == "What it shows."


def test_y_points_up_in_the_figure_and_down_on_the_page():
    """Each kind of shape."""
    root = painted(
        Polyline(((0, 0), (10, 5)), 2, "soft"),
        Polygon(((0, 20), (4, 20), (4, 15)), "skin"),
        Disc((8, 15), 3, "tool"),
        Disc((8, 15), 3, "key", filled=False, width_mm=0.5),
        Arrow((0, 10), (10, 10), 1, "key"),
        Text((20, 10), "words", 4, "ink", "end"),
    )
    line, area, disc, ring, shaft, head, text = list(root)[2:]
    assert (line.get("points"), line.get("stroke"), line.get("fill")) == (
        "0,20 10,15",
        COLOURS["soft"],
        "none",
    )
    assert line.get("stroke-width") == "2"
    assert (area.get("points"), area.get("fill")) == ("0,0 4,0 4,5", COLOURS["skin"])
    assert (disc.get("cx"), disc.get("cy"), disc.get("r"), disc.get("fill")) == (
        "8",
        "5",
        "3",
        COLOURS["tool"],
    )
    assert (ring.get("fill"), ring.get("stroke"), ring.get("stroke-width")) == ("none", COLOURS["key"], "0.5")
    assert shaft.get("points") == "0,10 7,10"
    assert head.get("points") == "10,10 6,8 6,12"
    assert (text.get("x"), text.get("y"), text.get("text-anchor"), text.text) == (
        "20",
        "11.4",
        "end",
        "words",
    )


def test_patterns_are_there_where_they_are_used_and_have_names_of_their_own():
    """Two figures on a page do not share them."""
    assert "<defs>" not in figure_svg(head_map())
    svg = figure_svg(head_map(highlight="top"), name="map-2")
    root = ET.fromstring(svg)
    assert [one.get("id") for one in root.iter(f"{NS}pattern")] == ["map-2-chosen"]
    assert 'fill="url(#map-2-chosen)"' in svg
    gap = figure_svg(base_control_figure("off_base", wound_mm=12, strand_label="strand"))
    assert 'stroke="url(#figure-gap)"' in gap


def test_nothing_is_fetched_and_nothing_runs():
    """No link, no script, no image."""
    svg = figure_svg(head_map(highlight="top", labels={"top": HOSTILE}))
    assert not {one.tag.removeprefix(NS) for one in ET.fromstring(svg).iter()} & {
        "script",
        "image",
        "a",
        "use",
    }
    assert "href" not in svg


def test_hostile_texts_are_texts():
    """Marks are escaped; characters that XML can't hold are blanks."""
    root = painted(Text((1, 1), HOSTILE, 2, "ink"), title=HOSTILE, description=HOSTILE)
    assert root.find(f"{NS}title").text.startswith("<script>alert('x')</script> & \"quoted\"")
    assert root.find(f"{NS}text").text.endswith("]]> é")
    assert "\x00" not in markup_text(HOSTILE)
    assert "<" not in markup_text(HOSTILE)


@pytest.mark.parametrize("name", ["", "a b", 'a"b', "é", "a#"])
def test_a_name_that_is_no_start_of_an_id_is_refused(name):
    """It goes into the markup as it is."""
    with pytest.raises(ValueError, match="name must be letters, digits and hyphens"):
        figure_svg(head_map(), name=name)
