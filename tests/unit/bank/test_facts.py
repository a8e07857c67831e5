"""The lines that tell a head: a fixed order, plain words, nothing said that goes without saying."""

import pytest

from drill.bank.facts import fitted_facts, head_facts


def test_lines_of_a_clear_head_stand_in_a_fixed_order(make_head):
    """Hair, state, history, wish; the service only where it is no perm."""
    lines = head_facts(make_head(), "top")
    assert [line.partition(":")[0] for line in lines] == [
        "Hair",
        "State",
        "Scalp, history and health",
        "Wish",
    ]
    assert lines[0] == "Hair: 18 cm, medium strands, average density, straight, even ends."
    assert lines[2] == "Scalp, history and health: clear."


def test_service_with_water_is_said_first(make_head):
    """It changes what the question is about."""
    assert head_facts(make_head({"service": "wet_set"}), "top")[0] == "Service: wet set."


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("scalp", "broken", "scalp broken"),
        ("scalp", "unknown", "scalp not looked at yet"),
        ("history.known", "no", "no record here"),
        ("history.reaction", "unknown", "earlier reactions not asked"),
        ("history.relaxer", "unsure", "a relaxer that nobody can name"),
        ("history.metallic_dye", "suspected", "a gradual or plant dye of unknown make"),
        ("history.lightened", "highlights", "highlights"),
        ("history.smoothing", "yes", "smoothing service on the lengths"),
        ("history.weeks_since_perm", 26.0, "last perm 26 weeks ago"),
        ("history.weeks_since_perm", 1.0, "last perm 1 week ago"),
        ("history.weeks_since_color", 0.5, "no colour on the hair, coloured 4 days ago"),
        ("health.treatment", "new_medicine", "new medicine"),
        ("health.months_since", 8.0, "no treatment, it ended 8 months ago"),
    ],
)
def test_what_stands_out_in_a_history_is_said_and_the_rest_is_clear(make_head, name, value, said):
    """Only what is odd is told; the rest in one word."""
    line = next(line for line in head_facts(make_head({name: value}), "top") if line.startswith("History"))
    assert line == f"History: {said}; the rest is clear."


@pytest.mark.parametrize(
    ("changes", "zone", "said"),
    [
        ({}, {"hair.growth": "whorl"}, "a whorl here"),
        ({}, {"hair.growth": "up"}, "grows up"),
        ({}, {"hair.porosity": "unknown"}, "porosity not felt yet"),
        ({}, {"hair.porosity": "porous"}, "porous surface"),
        ({}, {"wish.blend": "yes"}, "two directions to blend here"),
        ({}, {"wish.wear": "back"}, "worn back"),
        ({"hair.elasticity": "unknown"}, {}, "elasticity not tested yet"),
        ({"hair.elasticity": "none"}, {}, "no elasticity"),
        ({"hair.elasticity": "reduced"}, {}, "reduced elasticity"),
        ({"wish.curl": "body"}, {}, "body and no curl"),
        ({"wish.curl": 13.0}, {}, "13 mm curl"),
    ],
)
def test_hair_and_wish_are_said_as_a_person_says_them(make_head, changes, zone, said):
    """A value reads well with the word of its field."""
    assert said in " ".join(head_facts(make_head(changes, zone=zone), "top"))


def test_what_is_left_out_or_goes_without_saying_is_not_said(make_head):
    """No growth to mind, no blend, an unknown density."""
    text = " ".join(head_facts(make_head({"hair.density": "unknown"}, zone={"hair.growth": "none"}), "top"))
    for word in ("grow", "blend", "density", "unknown", "none"):
        assert word not in text


def test_head_question_tells_the_top(make_head):
    """Without a zone the values of the top stand for the head."""
    head = make_head()
    assert head_facts(head, None) == head_facts(head, "top")
    head.consultation.zones["top"]["hair.growth"] = "whorl"
    assert "a whorl here" not in " ".join(head_facts(head, "nape_left"))


def test_line_without_anything_to_say_is_left_out(make_head):
    """A wish of which nothing is known has no line."""
    head = make_head({"wish.curl": "unknown", "wish.look": "unknown", "wish.root_volume": "unknown"})
    assert not any(line.startswith("Wish") for line in head_facts(head, "top"))


def test_what_is_said_of_a_date_that_fits_nothing(make_head):
    """A colour's date beside no colour: both are told, or nobody could see that they do not fit."""
    head = make_head({"history.weeks_since_color": 2.0})
    assert "History: no colour on the hair, coloured 2 weeks ago; the rest is clear." in head_facts(
        head, None
    )
    head = make_head({"history.weeks_since_relaxer": 10.0})
    assert any("never straightened, straightened 10 weeks ago" in line for line in head_facts(head, None))
    head = make_head({"health.months_since": 2.0})
    assert any("no treatment, it ended 2 months ago" in line for line in head_facts(head, None))
    head = make_head({"history.metallic_dye": "yes"})
    assert any("no colour on the hair, metallic dye" in line for line in head_facts(head, None))


def test_where_there_is_no_room_idle_facts_are_left_out(make_head):
    """What decides is told whatever the room; the rest gives way one by one."""
    head, lines = make_head(), ("Planned, papers: no paper.",)
    whole = fitted_facts(head, "top", lines, bearing=set(), room=60)
    assert whole == (*head_facts(head, "top"), *lines)
    tight = fitted_facts(head, "top", lines, bearing={"hair.strand"}, room=20)
    assert "Hair: 18 cm, medium strands." in tight
    assert len(" ".join(tight).split()) < len(" ".join(whole).split())
    assert tight[-1] == lines[0]
