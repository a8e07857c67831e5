"""Colours that can be read, and letters that the font has."""

import pytest

from drill.app import theme
from drill.service.shapes import ROLES


def test_contrast_of_black_and_white_is_21_and_of_a_colour_with_itself_1():
    """WCAG 2.2, contrast ratio: from 1 to 21."""
    black, white = theme.color("000000"), theme.color("FFFFFF")
    assert theme.contrast(black, white) == pytest.approx(21)
    assert theme.contrast(white, black) == pytest.approx(21)
    assert theme.contrast(white, white) == 1


def test_contrast_follows_the_definition_of_relative_luminance():
    """WCAG 2.2: L = 0.2126 R + 0.7152 G + 0.0722 B for the pure colours, (L1 + 0.05) / (L2 + 0.05)."""
    black = theme.color("000000")
    for code, luminance in (("FF0000", 0.2126), ("00FF00", 0.7152), ("0000FF", 0.0722)):
        assert theme.contrast(theme.color(code), black) == pytest.approx((luminance + 0.05) / 0.05)


@pytest.mark.parametrize(("ink", "ground"), theme.TEXT_PAIRS)
def test_every_text_can_be_read_on_every_ground_it_may_stand_on(ink, ground):
    """WCAG 2.2, success criterion 1.4.3, level AA: at least 4.5 to 1."""
    assert theme.contrast(ink, ground) >= 4.5


@pytest.mark.parametrize("role", ["scalp", "chosen", "base", "plate"])
def test_texts_inside_figures_can_be_read(role):
    """Ink on each ground that a figure puts under it."""
    assert theme.contrast(theme.ROLE_COLORS["ink"], theme.ROLE_COLORS[role]) >= 4.5


@pytest.mark.parametrize("role", ["strand", "tool", "key", "gap", "soft"])
def test_what_carries_meaning_in_a_figure_stands_out_from_the_scalp(role):
    """WCAG 2.2, success criterion 1.4.11: at least 3 to 1."""
    assert theme.contrast(theme.ROLE_COLORS[role], theme.ROLE_COLORS["scalp"]) >= 3


def test_every_role_of_a_figure_has_a_colour():
    """No more and no fewer."""
    assert set(theme.ROLE_COLORS) == set(ROLES)


def test_touch_targets_are_at_least_48_dp():
    """The size asked for touches on a phone."""
    assert theme.TARGET_DP >= 48


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("45° past", "45° past"),
        ("[b]bold[/b] & more", "&bl;b&br;bold&bl;/b&br; &amp; more"),
        ("1/3 is ⅓", "1/3 is [font=DejaVuSans]⅓[/font]"),
        ("up ↑↓ down", "up [font=DejaVuSans]↑↓[/font] down"),
    ],
)
def test_a_text_is_shown_letter_by_letter(text, shown):
    """Markup of a text is no markup of the screen, and what the font lacks comes from the other one."""
    assert theme.marked(text) == shown
