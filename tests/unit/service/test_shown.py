"""What shows on one zone, by its hair and by what was done."""

from dataclasses import dataclass

import pytest

from drill.service.shown import breakage, even_lotion, part_lines, shown_ends


@dataclass
class Hair:
    """A zone's hair as the functions read it."""

    rulebook: object
    values: dict

    def read(self, name):
        """Give a value."""
        return self.values[name]


@pytest.fixture
def hair(rulebook):
    """Make hair out of what is stated."""

    def make(**stated):
        usual = {"hair.growth": "none", "zone": "top", "hair.condition": "sound", "service": "perm"}
        return Hair(rulebook, {**usual, **{name.replace("__", "."): one for name, one in stated.items()}})

    return make


@pytest.mark.parametrize(
    ("stated", "done", "rank"),
    [
        ({"hair__condition": "fragile"}, {}, 0),
        ({}, {"on_base": True}, 1),
        ({}, {"against": True}, 1),
        ({"zone": "nape_left"}, {"on_base": True}, 2),
        ({"hair__growth": "whorl"}, {"on_base": True}, 2),
        ({"hair__growth": "whorl"}, {"against": True}, 1),
        ({"hair__condition": "weak"}, {"against": True}, 2),
        ({"hair__condition": "unknown"}, {"on_base": True}, 2),
        ({"hair__condition": "fragile", "zone": "nape_left"}, {"on_base": True, "against": True}, 3),
    ],
)
def test_strain_adds_up_to_three(hair, stated, done, rank):
    """Nothing pulls, nothing strains, however weak the hair; common practice."""
    assert breakage(hair(**stated), **{"on_base": False, "against": False, **done}) == rank


@pytest.mark.parametrize(
    ("density", "strand", "layout", "size", "rank"),
    [
        ("thick", "coarse", "straight_set", "single", 0),
        ("thin", "medium", "straight_set", "single", 1),
        ("thin", "fine", "straight_set", "single", 2),
        ("thin", "fine", "straight_set", "double", 2),
        ("thin", "fine", "bricklay", "single", 0),
        ("thin", "fine", "weave", "double", 1),
        ("thin", "fine", "curvature", "single", 1),
        ("thick", "coarse", "curvature", "single", 0),
    ],
)
def test_partings_show_on_thin_and_fine_hair(hair, density, strand, *, layout, size, rank):
    """Staggered and woven partings hide them; common practice."""
    assert part_lines(hair(hair__density=density, hair__strand=strand), layout=layout, size=size) == rank


@pytest.mark.parametrize(
    ("density", "wrap", "size", "turns", "state"),
    [
        ("average", "croquignole", "single", 10.0, "even"),
        ("average", "croquignole", "single", 10.1, "inner_layers_dry"),
        ("average", "double_tool", "single", 10.1, "inner_layers_dry"),
        ("average", "spiral", "single", 30.0, "even"),
        ("average", "croquignole", "double", 5.0, "overloaded"),
        ("thin", "croquignole", "double", 5.0, "even"),
        ("thick", "croquignole", "one_and_half", 5.0, "overloaded"),
        ("average", "croquignole", "one_and_half", 5.0, "even"),
    ],
)
def test_lotion_reaches_ten_layers_and_no_overloaded_tool(hair, density, *, wrap, size, turns, state):
    """Nine or ten turns are the limit; common practice."""
    assert even_lotion(hair(hair__density=density), wrap=wrap, size=size, turns=turns) == state


@pytest.mark.parametrize(
    ("service", "ends", "papers", "state"),
    [
        ("perm", "even", "none", "bent"),
        ("practice_wrap", "even", "none", "bent"),
        ("wet_set", "even", "none", "smooth"),
        ("perm", "layered", "bookend", "slipping"),
        ("perm", "layered", "single_flat", "slipping"),
        ("perm", "layered", "double_flat", "smooth"),
        ("perm", "even", "bookend", "smooth"),
    ],
)
def test_ends_come_out_as_the_papers_hold_them(hair, service, ends, papers, state):
    """A fold loses the short ends of layered hair; common practice."""
    assert shown_ends(hair(service=service, hair__ends=ends), papers=papers) == state
