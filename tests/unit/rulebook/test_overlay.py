"""Changes to a rulebook, and what is said where one does not fit."""

from dataclasses import replace
from datetime import date

import pytest

from drill.basis.plain import to_plain
from drill.basis.problem import Place
from drill.rulebook.overlay import Change, ChangeError, Overlay, apply, assemble

AT = Place("rules/mine.yaml", 6, 5)


def _overlay(*changes, **values):
    fields = {"id": "mine", "kind": "local_rule", "because": "we do", "source": "house", "changes": changes}
    return Overlay(**fields | values)


def _change(op, target, **values):
    return Change(op=op, target=target, place=AT, **values)


def _ids(rulebook, table="knead"):
    return [row.id for row in rulebook.tables[table].rows]


def test_rows_are_added_replaced_and_removed(small, row):
    """Where they stand, signed by the overlay; the rulebook given stays as it was."""
    before = to_plain(small)
    added = _change("add", "knead", row=row("first", "firm"), at="else")
    last = _change("add", "knead", row=row("last", "firm"))
    swapped = _change("replace", "knead", row=row("else", "firm"))
    removed = _change("remove", "knead", at="damp-is-firm")
    changed = apply(small, _overlay(added, last, swapped, removed))
    assert _ids(changed) == ["first", "else", "last"]
    assert [(one.then, one.set_by) for one in changed.tables["knead"].rows] == [("firm", "mine")] * 3
    assert (changed.overlays, small.overlays) == (("mine",), ())
    assert to_plain(small) == before


def test_a_parameter_is_set_and_remembers_who_set_it(small):
    """A number within its bounds, or one of its choices."""
    changed = apply(
        small, _overlay(_change("set", "time.knead", value=12.0), _change("set", "style", value="firm"))
    )
    assert changed.values == {"time.knead": 12.0, "style": "firm"}
    assert changed.parameters["style"].set_by == "mine"


def test_a_vocabulary_gains_a_value_that_counts_as_another(small):
    """Of a table, next to the one it counts as; of an entered name, at the end; through several steps."""
    changed = apply(
        small,
        _overlay(
            _change("widen", "knead", value="medium", counts_as="mild"),
            _change("widen", "knead", value="gentle", counts_as="medium"),
            _change("widen", "wet", value="soaked", counts_as="damp"),
            _change("widen", "wet", value="drenched", counts_as="soaked"),
        ),
    )
    assert changed.tables["knead"].gives == ("mild", "medium", "gentle", "firm")
    assert changed.domains["wet"].values == ("dry", "damp", "unknown", "soaked", "drenched")
    assert (changed.built_in("knead", "gentle"), changed.built_in("wet", "drenched")) == ("mild", "damp")
    assert changed.built_in("nothing", "gentle") == "gentle"


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (_change("remove", "kned", at="else"), "the rulebook has no table 'kned'; did you mean 'knead'?"),
        (_change("remove", "knead", at="els"), "knead has no row 'els'; did you mean 'else'?"),
        (
            _change("set", "time.kned", value=1.0),
            "the rulebook has no parameter 'time.kned'; did you mean 'time.knead'?",
        ),
        (_change("set", "time.knead", value=13.0), "time.knead is 13 min; set it from 5 to 12 min"),
        (_change("set", "time.knead", value=4.0), "time.knead is 4 min; set it from 5 to 12 min"),
        (_change("set", "style", value="frim"), "style cannot be 'frim'; did you mean 'firm'?"),
        (
            _change("widen", "wett", value="x", counts_as="dry"),
            "the rulebook has no vocabulary 'wett'; did you mean 'wet'?",
        ),
        (
            _change("widen", "wet", value="dry", counts_as="damp"),
            "wet has 'dry' already; leave the change out",
        ),
        (
            _change("widen", "wet", value="soaked", counts_as="dmap"),
            "'soaked' counts as 'dmap', which wet does not have; did you mean 'damp'?",
        ),
        (_change("add", "knead"), "'add' has no row; write the row under 'row:'"),
    ],
)
def test_a_change_that_does_not_fit_says_why(small, change, told):
    """At its place, with the name that was meant."""
    with pytest.raises(ChangeError) as caught:
        apply(small, _overlay(change))
    assert str(caught.value) == str(caught.value.problem) == f"rules/mine.yaml:6:5: {told}"


def test_rows_must_fit_too(small, row):
    """A new id, a row to replace, a row to stand before."""
    for change, told in [
        (_change("add", "knead", row=row("else", "mild")), "knead has a row else already"),
        (_change("add", "knead", row=row("new", "mild"), at="ele"), "knead has no row 'ele'"),
        (_change("replace", "knead", row=row("new", "mild")), "knead has no row 'new'"),
    ]:
        with pytest.raises(ChangeError, match=told):
            apply(small, _overlay(change))


@pytest.mark.parametrize(
    ("bounds", "value", "told"),
    [
        ({"low": None, "high": 12.0}, 13.0, "set it to 12 min or less"),
        ({"low": 5.0, "high": None}, 4.0, "set it to 5 min or more"),
    ],
)
def test_a_parameter_may_have_one_bound(small, bounds, value, told):
    """The other side is free."""
    parameter = replace(small.parameters["time.knead"], **bounds)
    open_sided = replace(small, parameters={"time.knead": parameter})
    with pytest.raises(ChangeError, match=told):
        apply(open_sided, _overlay(_change("set", "time.knead", value=value)))
    assert apply(open_sided, _overlay(_change("set", "time.knead", value=6.0))).values["time.knead"] == 6.0


def test_a_parameter_without_bounds_is_free(small):
    """Its number, and its text where it has no choices."""
    free = replace(small.parameters["time.knead"], low=None, high=None)
    rulebook = replace(small, parameters={"time.knead": free})
    assert apply(rulebook, _overlay(_change("set", "time.knead", value=99.0))).values["time.knead"] == 99.0
    assert (
        apply(rulebook, _overlay(_change("set", "time.knead", value="long"))).values["time.knead"] == "long"
    )


def test_a_rule_is_in_force_from_its_first_day_to_before_its_last(small):
    """Days as written, the end not counted."""
    rule = _overlay(since="2026-01-01", until="2026-07-01")
    days = [date(2025, 12, 31), date(2026, 1, 1), date(2026, 6, 30), date(2026, 7, 1)]
    assert [rule.in_force(day) for day in days] == [False, True, True, False]
    assert _overlay().in_force(days[0])
    assert not _overlay(until="2025-12-31").in_force(days[0])


def test_the_rules_of_a_day_are_put_in_force_in_their_order(small):
    """One that does not fit is left out whole; the others stand."""
    first = _overlay(_change("remove", "knead", at="damp-is-firm"), id="first")
    broken = _overlay(
        _change("set", "style", value="firm"), _change("remove", "knead", at="gone"), id="broken"
    )
    later = _overlay(_change("set", "style", value="firm"), id="later", since="2027-01-01")
    changed, problems = assemble(small, [first, broken, later], day=date(2026, 6, 1))
    assert (changed.overlays, changed.values["style"], _ids(changed)) == (("first",), "mild", ["else"])
    assert [str(one) for one in problems] == [
        "rules/mine.yaml:6:5: knead has no row 'gone'; use one of: else"
    ]
