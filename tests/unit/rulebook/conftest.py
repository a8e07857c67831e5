"""A rulebook of two tables that has nothing to do with hair."""

from collections.abc import Callable
from typing import Any

import pytest

from drill.basis.problem import Place
from drill.rulebook.condition import Condition
from drill.rulebook.domain import Domain
from drill.rulebook.fact import Fact
from drill.rulebook.parameter import Parameter
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row, Table


def make_row(row_id: str, then: str, **values: Any) -> Row:
    when = {
        name: Condition((one,) if isinstance(one, str) else one)
        for name, one in values.pop("when", {}).items()
    }
    fields: dict[str, Any] = {
        "because": f"{row_id} because",
        "source": "memory",
        "place": Place("t.yaml", 3, 5),
    }
    return Row(id=row_id, when=when, then=then, **fields | values)


def make_table(decision: str, rows: list[Row], **values: Any) -> Table:
    fields: dict[str, Any] = {
        "question": "?",
        "per": "head",
        "gives": ("mild", "firm"),
        "hit": "first",
        "place": Place("t.yaml", 1, 1),
    }
    return Table(decision=decision, rows=tuple(rows), **fields | values)


@pytest.fixture
def row() -> Callable[..., Row]:
    """Make rows: id, outcome, and conditions as text or tuples under `when`."""
    return make_row


@pytest.fixture
def table() -> Callable[..., Table]:
    """Make tables: decision and rows; `first`, per head, mild or firm, unless stated."""
    return make_table


@pytest.fixture
def small(row: Callable[..., Row], table: Callable[..., Table]) -> Rulebook:
    """Dough: how wet it is decides how it is kneaded, and that decides what is said."""
    domains = [
        Domain(name="wet", values=("dry", "damp", "unknown"), entered=True, safety=True),
        Domain(name="rest", values=("never",), unit="min", entered=True),
        Domain(name="place", values=("bowl", "board"), per="zone", entered=True),
    ]
    knead = table(
        "knead",
        [row("damp-is-firm", "firm", when={"wet": "damp"}), row("else", "mild")],
        unknowns={"wet": "any"},
    )
    said = table(
        "said",
        [
            row("say-slow", "slow", when={"knead": "mild"}, say="Go slow."),
            row("say-flour", "flour", when={"knead": "firm"}),
        ],
        gives=("slow", "flour"),
        hit="collect",
    )
    parameter = Parameter(
        name="time.knead", value=8.0, unit="min", low=5.0, high=12.0, because="it binds", source="memory"
    )
    style = Parameter(name="style", value="mild", choices=("mild", "firm"), because="taste", source="memory")
    return Rulebook(
        domains={one.name: one for one in domains},
        tables={"knead": knead, "said": said},
        parameters={"time.knead": parameter, "style": style},
        sources={"B1": "A baker's book"},
    )


@pytest.fixture
def twice() -> Fact:
    """A fact over named values: whether the dough is rested."""
    return Fact(
        domain=Domain(name="damp_twice", values=("yes", "no")),
        needs=("wet",),
        compute=lambda values, _parameters: "yes" if values == ["damp"] else "no",
    )
