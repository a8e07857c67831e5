"""Sharing one kit among nine zones."""

from drill.service.kit import Kit, Tool
from drill.service.stock import WINDING_ORDER, Need, Share, share_out
from drill.service.zones import ZONE_NAMES

MEDIUM = Tool(11.1, 13.8, 76.0, "concave", 6)
LARGE = Tool(12.7, 15.7, 76.0, "concave", 4)
SMALL = Tool(7.9, 10.3, 76.0, "concave", 3)
OTHER = Tool(11.1, 11.1, 76.0, "straight", 50)
KIT = Kit("k", (SMALL, MEDIUM, LARGE, OTHER))


def nearest(_zone):
    """The larger one fills in first."""
    return (LARGE, SMALL)


def never(zone):
    """Nobody asks what fills in where nothing runs out."""
    raise AssertionError(zone)


def test_order_of_winding_holds_every_zone_once():
    """Crown down the centre back first, top last."""
    assert sorted(WINDING_ORDER) == sorted(ZONE_NAMES)
    assert (WINDING_ORDER[0], WINDING_ORDER[-1]) == ("back_center", "top")


def test_zone_wound_first_takes_first_and_the_next_is_filled_up_with_the_nearest_size():
    """Six of one size for nine: the next size fills in, the thinner one after it."""
    shares, lacking = share_out(
        KIT, {"top": Need(MEDIUM, 7), "back_center": Need(MEDIUM, 4)}, fill_ins=nearest
    )
    assert shares["back_center"] == (Share(11.1, 4),)
    assert shares["top"] == (Share(11.1, 2), Share(12.7, 4), Share(7.9, 1))
    assert lacking == 0


def test_what_the_kit_lacks_is_counted_and_another_shape_never_fills_in():
    """Thirteen concave tools for twenty leave seven lacking; the straight ones stay in the drawer."""
    shares, lacking = share_out(KIT, {"top": Need(MEDIUM, 20)}, fill_ins=nearest)
    assert sum(share.count for share in shares["top"]) == 13
    assert lacking == 7


def test_zone_that_gets_nothing_has_no_share():
    """An empty drawer gives nothing, and says how much it lacks."""
    shares, lacking = share_out(
        KIT, {"back_center": Need(MEDIUM, 13), "top": Need(MEDIUM, 2)}, fill_ins=nearest
    )
    assert shares["top"] == ()
    assert lacking == 2


def test_one_size_of_two_lengths_is_one_share():
    """A student counts tools by their diameter."""
    short = Tool(11.1, 13.8, 60.0, "concave", 2)
    shares, _ = share_out(Kit("k", (MEDIUM, short)), {"top": Need(MEDIUM, 8)}, fill_ins=lambda _: (short,))
    assert shares["top"] == (Share(11.1, 8),)


def test_what_fills_in_is_worked_out_only_where_a_size_runs_out():
    """Six of six: nobody asks."""
    shares, lacking = share_out(KIT, {"top": Need(MEDIUM, 6)}, fill_ins=never)
    assert (shares["top"], lacking) == ((Share(11.1, 6),), 0)
