"""A school's own picture on the phone: drawn to fit, with its words; the words alone where it cannot be."""

from dataclasses import replace

import pytest
from small_book import BOOK, ITEMS, new_session

from drill.app.screen import SchoolPicture
from drill.bank.picture import picture_from_bytes
from drill.cli.demo import DEMO_SCHOOL

WORDS = "Five compartments of tools, from thin to thick."
SIZES = [(360, 640), (800, 360)]


@pytest.fixture
def tray():
    return (DEMO_SCHOOL / "pictures" / "tool-tray.png").read_bytes()


@pytest.fixture
def show(switch_on, log):
    """Start a phone whose every question shows a picture, and open the first one."""

    def start(data, *, item=ITEMS[3], words=WORDS, **more):
        picture = picture_from_bytes(data, words=words)
        book = replace(BOOK, items=(replace(item, picture=picture),))
        phone = switch_on(new_session(log, book=book), **more)
        phone.tap("start")
        return phone

    return start


def drawn(phone):
    from drill.app.widgets import DotsView

    return phone.all(DotsView)


@pytest.mark.parametrize("size_dp", SIZES)
def test_a_picture_is_on_the_glass_in_its_shape_with_its_words(show, tray, size_dp):
    """As wide as its column allows and not beyond the edge; above the question, and again at the why."""
    phone = show(tray, size_dp=size_dp)
    (view,) = drawn(phone)
    assert view.dots.size == (720, 300)
    width, height = view._drawn.size
    assert width / height == pytest.approx(2.4)
    assert view.height == pytest.approx(height)
    left = view.to_window(*view._drawn.pos)[0]
    assert left >= 0
    assert left + width <= phone.Window.width
    assert height >= 0.2 * phone.Window.height
    assert WORDS in phone.texts
    assert phone.texts.count(WORDS) == 1
    option = phone.app.view.screen.presses[1].action
    phone.tap(option)
    phone.tap("sure:middle")
    assert len(drawn(phone)) == 1
    assert WORDS in phone.texts


def test_dots_are_those_of_the_file(show, make_png, tmp_path):
    """What is shown at its middle has the shade that it was written in."""
    from kivy.core.image import Image

    phone = show(make_png(40, 20, shade=77))
    (view,) = drawn(phone)
    shot = Image.load(str(phone.shot(tmp_path / "shot.png")), keep_data=True)
    x, y = view.to_window(*view.center)
    # A picture's rows count from above.
    red, green, blue = (
        round(255 * part) for part in shot.read_pixel(round(x), round(phone.Window.height - y))[:3]
    )
    assert [red, green, blue] == pytest.approx([77] * 3, abs=2)


def test_a_jpeg_is_drawn_too(show, jpeg):
    """Of the same column's width."""
    (view,) = drawn(show(jpeg))
    assert view.dots.size == (24, 10)


@pytest.mark.parametrize("kind", ["png", "jpeg"])
def test_what_the_decoder_refuses_is_told_in_words(show, make_png, jpeg, kind):
    """Its header is sound, and what follows is not; the question is asked all the same."""
    broken = make_png(stated=(900, 900))[:40] if kind == "png" else jpeg[: jpeg.index(b"\xff\xda")]
    phone = show(broken + b"\0" * 20)
    assert drawn(phone) == []
    assert f"Picture: {WORDS}" in phone.texts
    assert "option:a" in phone.touches


def test_a_scenario_and_a_place_show_it_beside_the_head(show, tray):
    """The figure of the head stays."""
    from drill.app.widgets import FigureView

    phone = show(tray, item=ITEMS[0])
    assert len(drawn(phone)) == 1
    assert phone.all(FigureView)


def test_the_value_of_a_screen_tells_the_words_once(show, tray):
    """So that whoever reads a screen's texts has them."""
    phone = show(tray)
    parts = [one for one in phone.app.view.screen.aside if isinstance(one, SchoolPicture)]
    assert [one.words for one in parts] == [WORDS]
    assert phone.app.view.screen.texts.count(WORDS) == 1
