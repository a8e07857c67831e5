"""Figures on the glass: each role has its colour where the figure says so."""

import pytest
from phone import DENSITY

from drill.app.theme import ROLE_COLORS
from drill.service.head_map import head_map
from drill.service.shapes import ROLES, Arrow, Disc, Figure, Polygon, Polyline, Text
from drill.service.zones import zone_named

SIDE = 200


@pytest.fixture
def painted(tmp_path):
    """Paint shapes on a square of 100 mm, and read the colour at a point in millimetres."""
    from kivy.core.image import Image
    from kivy.core.window import Window

    from drill.app.widgets import FigureView

    def paint(*shapes):
        figure = Figure(100, 100, shapes, title="", description="")
        view = FigureView(figure, size_hint=(None, None), size=(SIDE, SIDE), pos=(0, 0))
        Window.add_widget(view)
        path = tmp_path / "figure.png"
        view.export_to_png(str(path))
        Window.remove_widget(view)
        image = Image(str(path), keep_data=True, nocache=True)

        def at(x_mm, y_mm):
            step = SIDE / 100
            return tuple(image.read_pixel(int(x_mm * step), int((100 - y_mm) * step)))

        return at

    return paint


def is_role(pixel, role):
    return all(abs(a - b) < 0.02 for a, b in zip(pixel[:3], ROLE_COLORS[role], strict=True))


def is_empty(pixel):
    return pixel[3] == 0


SQUARE = ((10, 10), (90, 10), (90, 90), (10, 90))


@pytest.mark.parametrize("role", ROLES)
def test_an_area_has_the_colour_of_its_role(painted, role):
    """Inside, and not outside."""
    at = painted(Polygon(SQUARE, role))
    assert is_role(at(50, 50), role)
    assert is_role(at(12, 12), role)
    assert is_empty(at(5, 50))


def test_an_area_with_a_notch_stays_open_there(painted):
    """An outline that turns inward."""
    at = painted(Polygon(((10, 10), (90, 10), (90, 90), (50, 30), (10, 90)), "strand"))
    assert is_role(at(15, 60), "strand")
    assert is_role(at(85, 60), "strand")
    assert is_empty(at(50, 70))


def test_an_area_without_an_inside_does_not_stop_the_painting(painted):
    """Points in one place."""
    at = painted(Polygon(((50, 50), (50, 50), (50, 50)), "key"), Polygon(SQUARE, "base"))
    assert is_role(at(20, 20), "base")


def test_a_disc_is_filled_and_a_ring_is_not(painted):
    """Both of radius 30 mm."""
    filled = painted(Disc((50, 50), 30, "tool"))
    ring = painted(Disc((50, 50), 30, "tool", filled=False, width_mm=6))
    assert is_role(filled(50, 50), "tool")
    assert is_role(filled(72, 50), "tool")
    assert is_empty(filled(85, 50))
    assert is_empty(ring(50, 50))
    assert is_role(ring(80, 50), "tool")


def test_a_line_is_as_thick_as_it_says_with_round_ends(painted):
    """20 mm thick, from 30 to 70."""
    at = painted(Polyline(((30, 50), (70, 50)), 20, "strand"))
    assert is_role(at(50, 58), "strand")
    assert is_empty(at(50, 62))
    assert is_role(at(23, 50), "strand")
    assert is_empty(at(22, 58))


def test_an_arrow_is_broad_at_its_head(painted):
    """The tip at the end, the head four times as wide as the shaft."""
    at = painted(Arrow((10, 50), (90, 50), 5, "key"))
    assert is_role(at(30, 50), "key")
    assert is_empty(at(30, 57))
    assert is_role(at(74, 56), "key")
    assert is_empty(at(95, 50))


@pytest.mark.parametrize(("anchor", "inked"), [("start", (52, 75)), ("middle", (40, 60)), ("end", (25, 48))])
def test_a_text_stands_at_its_anchor(painted, anchor, inked):
    """Ink between these two places, and none on the other side."""
    at = painted(Text((50, 50), "mmm", 12, "ink", anchor))
    low, high = inked

    def has_ink(start, end):
        return any(at(x, y)[3] > 0.5 for x in range(start, end) for y in range(45, 56))

    assert has_ink(low, high)
    if anchor != "middle":
        assert not has_ink(*((25, 48) if anchor == "start" else (53, 75)))


def test_later_shapes_lie_on_earlier_ones(painted):
    """The order of the figure is the order on the glass."""
    at = painted(
        Polygon(SQUARE, "scalp"), Disc((50, 50), 10, "chosen"), Polygon(((45, 45), (55, 45), (50, 55)), "key")
    )
    assert is_role(at(50, 48), "key")
    assert is_role(at(50, 58), "chosen")
    assert is_role(at(30, 30), "scalp")


def test_the_asked_zone_is_marked_on_the_screen(phone, session, tmp_path):
    """Read from a picture of the whole screen: the zone asked has another colour than its neighbours."""
    from kivy.core.image import Image

    from drill.app.paint import place_figure
    from drill.app.widgets import FigureView

    phone.tap("start")
    zone = session.sitting.question.zone
    view = next(one for one in phone.all(FigureView) if one.figure.title == head_map().title)
    place = place_figure(view.figure, pos=view.to_window(*view.pos), size=view.size)
    image = Image(str(phone.shot(tmp_path / "screen.png")), keep_data=True, nocache=True)
    for name in ("top", "left_side", "back_center", "nape_right"):
        # A corner of the zone, away from the arrow in its middle.
        points = zone_named(name).polygon
        middle = [sum(point[axis] for point in points) / len(points) for axis in (0, 1)]
        spot = tuple(middle[axis] + 0.6 * (points[0][axis] - middle[axis]) for axis in (0, 1))
        x, y = place.at(spot)
        pixel = image.read_pixel(int(x), int(phone.Window.height - y))
        assert is_role(pixel, "chosen" if name == zone else "scalp"), name
    assert place.scale * view.figure.width_mm >= 120 * DENSITY
