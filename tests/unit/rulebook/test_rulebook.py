"""The rulebook as a value."""

from dataclasses import replace

from drill.basis.problem import Place
from drill.rulebook.boxes import Axis, outside
from drill.rulebook.condition import Range
from drill.rulebook.domain import Domain


def test_the_digest_ignores_where_things_stand(small):
    """The same rules in another file, or one line down, are the same rules."""
    elsewhere = Place("other.yaml", 99, 9)
    domains = {name: replace(one, place=elsewhere) for name, one in small.domains.items()}
    tables = {
        name: replace(one, place=elsewhere, rows=tuple(replace(row, place=elsewhere) for row in one.rows))
        for name, one in small.tables.items()
    }
    parameters = {name: replace(one, place=elsewhere) for name, one in small.parameters.items()}
    moved = replace(small, domains=domains, tables=tables, parameters=parameters)
    assert moved.digest == small.digest
    assert len(small.digest) == 16


def test_the_digest_ignores_nothing_else(small, row):
    """Not a reason, not an order, not an input that happens to be called `place`."""
    knead = small.tables["knead"]
    changed = [
        replace(small, sources={"B1": "A baker's book, 2nd edition"}),
        replace(small, overlays=("mine",)),
        small.with_table(replace(knead, rows=knead.rows[::-1])),
        small.with_table(replace(knead, rows=(replace(knead.rows[0], because="other"), knead.rows[1]))),
        small.with_table(
            replace(knead, rows=(row("damp-is-firm", "firm", when={"place": "bowl"}), knead.rows[1]))
        ),
        small.with_table(
            replace(knead, rows=(row("damp-is-firm", "firm", when={"place": "board"}), knead.rows[1]))
        ),
    ]
    digests = {small.digest, *(one.digest for one in changed)}
    assert len(digests) == len(changed) + 1


def test_a_domain_is_found_for_entered_names_and_decisions(small):
    """A computed fact belongs to the engine."""
    assert small.domain("wet") is small.domains["wet"]
    decided = small.domain("knead")
    assert (decided.values, decided.per, decided.entered) == (("mild", "firm"), "head", False)
    assert small.domain("damp_twice") is None


def test_a_table_knows_its_inputs_rows_and_order(small, row, table):
    """Named or copied, in the order met."""
    one = table(
        "dust",
        [
            row("a", "mild", when={"wet": "damp"}),
            row("b", "wish", then_from="input", when={"rest": "never"}),
            row("c", "wet", then_from="input"),
        ],
        hit="strictest",
    )
    assert one.inputs == ("wet", "rest", "wish")
    assert (one.row("b").then, one.row("z")) == ("wish", None)
    assert [one.strictness(value) for value in one.gives] == [0, 1]
    assert small.with_table(one).tables["dust"] is one
    assert "dust" not in small.tables


def test_taking_a_box_away_leaves_the_parts_where_it_differs():
    """A name in which both agree gives no part."""
    axes = {name: Axis(Domain(name=name), ("a", "b")) for name in ("one", "two", "three")}
    box, other = {"one": 0b01}, {"two": 0b01, "three": 0b10, "one": 0b11}
    assert list(outside(box, [other], axes)) == [
        {"one": 0b01, "two": 0b10},
        {"one": 0b01, "two": 0b01, "three": 0b01},
    ]


def test_an_example_of_a_cell_is_written_as_a_person_would():
    """A named value, a bound, a point between, a point beyond."""
    weeks = Domain(name="n", values=("never",), unit="weeks")
    open_ended = Range(5, float("inf"), with_low=False, with_high=False)
    axis = Axis(weeks, ("never", Range(0, 5, with_high=False), Range(5, 5), open_ended))
    assert [axis.example(mask) for mask in (0b0001, 0b0010, 0b0100, 0b1000, 0b1100)] == [
        "never",
        "2.5 weeks",
        "5 weeks",
        "6 weeks",
        "5 weeks",
    ]
    assert (axis.full, axis.known) == (0b1111, 0b1111)
