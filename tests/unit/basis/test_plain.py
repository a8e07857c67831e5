"""Typed values to JSON values and back."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.basis.plain import from_plain, to_plain


@dataclass(frozen=True)
class Small:
    """Something inside."""

    name: str
    share: Fraction = Fraction(0)


@dataclass(frozen=True)
class Large:
    """Every shape that the module names."""

    number: float
    count: int
    flag: bool
    value: str | float
    kind: Literal["head", "zone"]
    digest: bytes
    names: tuple[str, ...]
    pair: tuple[str, float]
    chosen: frozenset[str]
    by_name: Mapping[str, tuple[Small, ...]]
    free: Any
    inner: Small | None = None
    more: Mapping[str, str] = field(default_factory=dict)


numbers = st.floats(allow_nan=False, allow_infinity=False)
small = st.builds(Small, name=st.text(), share=st.fractions())
large = st.builds(
    Large,
    number=numbers,
    count=st.integers(),
    flag=st.booleans(),
    value=st.text() | numbers,
    kind=st.sampled_from(["head", "zone"]),
    digest=st.binary(),
    names=st.lists(st.text()).map(tuple),
    pair=st.tuples(st.text(), numbers),
    chosen=st.frozensets(st.text()),
    by_name=st.dictionaries(st.text(), st.lists(small, max_size=2).map(tuple), max_size=3),
    free=st.none() | st.booleans() | st.text(),
    inner=st.none() | small,
    more=st.dictionaries(st.text(), st.text(), max_size=2),
)


@given(large)
def test_what_is_written_as_json_comes_back_equal(value):
    """Through JSON text and back, every shape."""
    assert from_plain(Large, json.loads(json.dumps(to_plain(value)))) == value


def test_a_default_is_left_out():
    """A file holds what differs."""
    assert to_plain(Small("a")) == {"name": "a"}
    assert to_plain(Small("a", Fraction(3, 8))) == {"name": "a", "share": {"fraction": "3/8"}}


def test_values_of_one_type_can_be_left_out_of_dataclasses():
    """By type, so that a key of the same name stays."""
    value = {"inner": Large(1.0, 1, True, "x", "head", b"", (), ("", 0.0), frozenset(), {}, 1, Small("s"))}
    assert "inner" not in to_plain(value, without=Small)["inner"]
    assert to_plain(value)["inner"]["inner"] == {"name": "s"}


@pytest.mark.parametrize("value", [object(), {1, 2}, Small, 1j])
def test_a_value_without_plain_form_is_refused(value):
    """Nothing is written that could not be read."""
    with pytest.raises(TypeError, match="no plain form for"):
        to_plain(value)


@pytest.mark.parametrize(
    ("kind", "plain"),
    [
        (Small, "a"),
        (Small, {}),
        (Small, {"name": "a", "nmae": "b"}),
        (Small, {"name": 1}),
        (Fraction, {"fraction": "1/0"}),
        (Fraction, {"fraction": "x"}),
        (Fraction, {"share": "1/2"}),
        (Fraction, 5),
        (Fraction, None),
        (bytes, "zz"),
        (bytes, 7),
        (float, "1"),
        (float, True),
        (float, 10**400),
        (int, True),
        (int, 1.5),
        (str, None),
        (str | float, None),
        (str | None, 3),
        (Literal["head", "zone"], "back"),
        (tuple[str, ...], "abc"),
        (tuple[str, float], ["a"]),
        (tuple[str, float], ["a", 1.0, 2.0]),
        (frozenset[str], "abc"),
        (frozenset[str], [["a"]]),
        (Mapping[str, str], ["a"]),
        (Mapping[str, str], {"a": 1}),
    ],
)
def test_a_wrong_shape_is_refused_as_such(kind, plain):
    """Whatever stands in the file, the fault is a TypeError."""
    with pytest.raises(TypeError):
        from_plain(kind, plain)


def test_whole_numbers_pass_for_numbers():
    """JSON writes 5.0 as 5 in some hands."""
    read = from_plain(float, 5)
    assert (read, type(read)) == (5.0, float)


def test_a_union_takes_the_first_kind_that_fits():
    """Text stays text, a number becomes a number, nothing stays nothing."""
    assert from_plain(str | float, "5") == "5"
    assert from_plain(str | float, 5) == 5.0
    assert from_plain(Small | None, None) is None
    assert from_plain(Small | None, {"name": "a"}) == Small("a")


def test_text_of_another_kind_is_a_key_only_where_it_is_text():
    """Unknown fields are named."""
    with pytest.raises(TypeError, match="Small has no nmae"):
        from_plain(Small, {"nmae": "b"})
