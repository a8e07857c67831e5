"""What of an old perm, colour or straightening is still on the length, and what has grown since."""

import pytest

from drill.service.still_there import still_there


def left(consult, rulebook, **stated):
    return still_there(consult(**stated), rulebook.values)


@pytest.mark.parametrize(
    ("color", "weeks", "there"),
    [
        ("none", 1.0, "none"), ("permanent", 1.0, "all"), ("permanent", 20.0, "part"),
        ("permanent", 71.0, "none"), ("permanent", "unknown", "unknown"), ("semi", 20.0, "part"),
    ],
)  # fmt: skip
def test_colour_goes_with_the_length_it_sits_on(consult, rulebook, color, weeks, there):
    """At 0.367 mm a day (H10) 18 cm have grown after 70 weeks; where no colour is stated none is left."""
    stated = {"history__color": color, "history__weeks_since_color": weeks}
    assert left(consult, rulebook, **stated)["color.left"] == there


@pytest.mark.parametrize(
    ("relaxer", "weeks", "there"),
    [
        ("none", "unknown", "none"), ("none", 20.0, "part"), ("hydroxide", 20.0, "part"),
        ("hydroxide", "unknown", "unknown"), ("unknown", "unknown", "unknown"), ("thio", 80.0, "none"),
    ],
)  # fmt: skip
def test_date_beside_no_relaxer_is_kept_to_be_asked_about(consult, rulebook, relaxer, weeks, there):
    """Hair from that date is still on the head, whatever was said of it."""
    stated = {"history__relaxer": relaxer, "history__weeks_since_relaxer": weeks}
    assert left(consult, rulebook, **stated)["relaxer.left"] == there


def test_new_growth_is_what_grew_since_the_last_opening(consult, rulebook):
    """0.367 mm a day (H10): 26 weeks are 66.8 mm; the later of perm and thio loosening counts."""
    one = left(consult, rulebook, history__weeks_since_perm=26.0)
    assert one["growth.new"] == pytest.approx(26 * 7 * 0.367)
    both = left(
        consult,
        rulebook,
        history__weeks_since_perm=40.0,
        history__relaxer="thio",
        history__weeks_since_relaxer=26.0,
    )
    assert both["growth.new"] == one["growth.new"]


@pytest.mark.parametrize(
    ("stated", "growth"),
    [
        ({}, "none"),
        ({"history__weeks_since_perm": "unknown"}, "unknown"),
        ({"history__weeks_since_perm": 90.0}, "none"),
        ({"history__relaxer": "hydroxide", "history__weeks_since_relaxer": 20.0}, "none"),
        ({"history__relaxer": "thio"}, "unknown"),
    ],
)
def test_new_growth_needs_something_to_tell_it_from(consult, rulebook, stated, growth):
    """Never permed, all cut off, or no date."""
    assert left(consult, rulebook, **stated)["growth.new"] == growth
