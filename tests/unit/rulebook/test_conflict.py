"""Local rules that pull at the same thing."""

import pytest

from drill.basis.problem import Place
from drill.rulebook.conflict import conflicts
from drill.rulebook.overlay import Change, Overlay
from drill.rulebook.table import Row


def change(op, target, *, row="", at="", value="", line=1):
    """Make one change."""
    new = Row(id=row, when={}, then="x", because="b", source="s") if row else None
    return Change(op=op, target=target, row=new, at=at, value=value, place=Place(f"{line}.yaml", line))


def rule(name, one, *, since="", until=""):
    """Make a local rule of one change."""
    return Overlay(
        id=name, kind="local_rule", because="b", source="s", since=since, until=until, changes=(one,)
    )


MEND = "keep one of the two, or let one end ('until') before the other begins ('from')"


@pytest.mark.parametrize(
    ("earlier", "later", "told"),
    [
        (
            change("set", "p.q", value="a"),
            change("set", "p.q", value="b", line=2),
            "the parameter p.q is set here and at 1.yaml:1:1 by the local rule old",
        ),
        (
            change("replace", "t", row="r"),
            change("remove", "t", at="r", line=2),
            "the row r of t is removed here and replaced at 1.yaml:1:1 by the local rule old",
        ),
        (
            change("add", "t", row="r"),
            change("add", "t", row="r", line=2),
            "the row r of t is added here and at 1.yaml:1:1 by the local rule old",
        ),
        (
            change("widen", "t", value="v"),
            change("widen", "t", value="v", line=2),
            "the value v of t is added here and at 1.yaml:1:1 by the local rule old",
        ),
        (
            change("remove", "t", at="r"),
            change("add", "t", row="new", at="r", line=2),
            "a row is added before the row r of t, which is removed at 1.yaml:1:1 by the local rule old",
        ),
        (
            change("add", "t", row="new", at="r"),
            change("remove", "t", at="r", line=2),
            "the row r of t is removed here, and at 1.yaml:1:1 the local rule old adds a row before it",
        ),
    ],
)
def test_a_conflict_is_told_at_the_later_rule_with_the_place_of_the_earlier(earlier, later, told):
    """Both places stand in it."""
    assert [str(one) for one in conflicts(rule("new", later), [rule("old", earlier)])] == [
        f"2.yaml:2:1: {told}; {MEND}"
    ]


@pytest.mark.parametrize(
    ("earlier", "later"),
    [
        (change("add", "t", row="r"), change("replace", "t", row="r")),
        (change("add", "t", row="r", at="x"), change("add", "t", row="s", at="x")),
        (change("remove", "t", at="r"), change("add", "u", row="s", at="r")),
        (change("remove", "t", at="r"), change("remove", "t", at="s")),
        (change("set", "p.q"), change("set", "p.r")),
        (change("widen", "t", value="v"), change("widen", "t", value="w")),
    ],
)
def test_what_does_not_pull_at_the_same_is_no_conflict(earlier, later):
    """A later rule may rest on an earlier one."""
    assert conflicts(rule("new", later), [rule("old", earlier)]) == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ({"until": "2027-01-01"}, {"since": "2027-01-01"}, 0),
        ({"since": "2027-01-01"}, {"until": "2027-01-01"}, 0),
        ({"until": "2027-01-02"}, {"since": "2027-01-01"}, 1),
        ({"since": "2027-01-01"}, {"until": "2027-01-02"}, 1),
        ({"until": "2027-01-02"}, {}, 1),
        ({}, {"since": "2027-01-02"}, 1),
    ],
)
def test_rules_are_in_conflict_only_where_a_day_has_both(old, new, told):
    """A rule ends on the day named by 'until', which is the first without it."""
    one = change("set", "p.q", value="a")
    assert len(conflicts(rule("new", one, **new), [rule("old", one, **old)])) == told
