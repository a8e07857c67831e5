"""What was decided before is given again, and never where it would be another decision."""

from drill.rulebook.evaluate import Taken, decide


def test_the_same_reading_gives_the_same_decision_without_deciding_anew(row, table):
    """For another zone with that zone's name."""
    taken, knead = Taken(), table("knead", [row("damp", "firm", when={"wet": "damp"}), row("else", "mild")])
    first = taken.decide(knead, {"wet": "damp"}, parameters={}, zone="bowl")
    assert taken.decide(knead, {"wet": "damp"}, parameters={}, zone="bowl") is first
    there = taken.decide(knead, {"wet": "damp"}, parameters={}, zone="board")
    assert there == decide(knead, {"wet": "damp"}, parameters={}, zone="board")
    assert taken.decide(knead, {"wet": "dry"}, parameters={}, zone=None).row == "else"


def test_another_table_with_the_same_name_decides_for_itself(row, table):
    """Somebody else's rules for the same decision."""
    taken = Taken()
    for value in ("firm", "mild", "firm"):
        knead = table("knead", [row("a", value)])
        assert taken.decide(knead, {}, parameters={}, zone=None).value == value


def test_a_copied_parameter_counts_by_its_value(row, table):
    """A table that copies one is asked again where it is another."""
    taken, knead = Taken(), table("knead", [row("a", "knead.usual", then_from="parameter")])
    assert knead.parameters == ("knead.usual",)
    for value in ("firm", "mild", "firm"):
        assert taken.decide(knead, {}, parameters={"knead.usual": value}, zone=None).value == value


def test_it_forgets_when_it_is_full(row, table):
    """So a long run does not fill the memory."""
    taken, knead = Taken(most=2), table("knead", [row("a", "firm", when={"wet": "damp"}), row("b", "mild")])
    first = taken.decide(knead, {"wet": "damp"}, parameters={}, zone=None)
    for wet in ("dry", "soaked"):
        taken.decide(knead, {"wet": wet}, parameters={}, zone=None)
    again = taken.decide(knead, {"wet": "damp"}, parameters={}, zone=None)
    assert again == first
    assert again is not first
