"""A local rule keeps the words of cautions, first aid and stops, whatever it puts beside them."""

from dataclasses import replace

import pytest

from drill.rulebook.overlay import Change, Overlay, apply
from drill.rulebook.rulebook import Rulebook
from drill.rulebook.table import Row
from drill.service.kept_words import lost_words


def _with(rulebook: Rulebook, *changes: Change) -> Rulebook:
    overlay = Overlay(id="ours", kind="local_rule", because="b", source="c", changes=changes)
    return apply(rulebook, overlay)


def _row(rulebook: Rulebook, table: str, row: str) -> Row:
    found = rulebook.tables[table].row(row)
    assert found is not None
    return found


def test_the_built_in_rules_have_their_own_words(rulebook: Rulebook):
    """Rows that say they are built in, too."""
    assert lost_words(rulebook, rulebook) == []
    assert lost_words(rulebook, rulebook, all_rows=True) == []


@pytest.mark.parametrize(
    ("table", "row"), [("cautions", "gloves"), ("first_aid", "burning"), ("steps", "sign-off-wrap")]
)
def test_other_words_under_the_same_name_are_told(rulebook: Rulebook, table: str, row: str):
    """Replaced, or added beside the row that goes; the words are quoted to be kept."""
    if rulebook.tables[table].row(row) is None:
        row = next(one.id for one in rulebook.tables[table].rows if one.then in ("burning", "sign_wrap"))
    old = _row(rulebook, table, row)
    for new in (replace(old, say="None are needed."), replace(old, say="")):
        for op in (
            (Change(op="replace", target=table, row=new),),
            (
                Change(op="add", target=table, row=replace(new, id="ours")),
                Change(op="remove", target=table, at=row),
            ),
        ):
            (told,) = lost_words(rulebook, _with(rulebook, *op))
            assert f"takes away the words of '{old.then}'" in told.what
            assert told.mend.startswith("keep them under 'say:' and write your own after them: ")
            assert told.mend[-20:] in [one.say[-20:] for one in rulebook.tables[table].rows]


def test_words_of_one_s_own_may_stand_after_them(rulebook: Rulebook):
    """And a list that was widened may say what it likes under a new name."""
    old = _row(rulebook, "cautions", "gloves")
    kept = replace(old, say=f"{old.say} In this school they are blue.")
    assert lost_words(rulebook, _with(rulebook, Change(op="replace", target="cautions", row=kept))) == []
    new = replace(old, id="ours", then="blue_gloves", say="Ours are blue.")
    wider = (
        Change(op="widen", target="cautions", value="blue_gloves", counts_as="gloves"),
        Change(op="add", target="cautions", row=new),
    )
    assert lost_words(rulebook, _with(rulebook, *wider)) == []


def test_a_step_that_is_no_stop_may_be_said_otherwise(rulebook: Rulebook):
    """Boards drape in their own ways; that it is a step is held up by the limits."""
    old = next(row for row in rulebook.tables["steps"].rows if row.then == "drape")
    new = replace(old, say="Towel, cape, towel.")
    assert lost_words(rulebook, _with(rulebook, Change(op="replace", target="steps", row=new))) == []


def test_a_caution_names_its_outcome(rulebook: Rulebook):
    """What copies an input could come to any of them."""
    new = replace(_row(rulebook, "cautions", "gloves"), then="service", then_from="input")
    (told,) = lost_words(rulebook, _with(rulebook, Change(op="replace", target="cautions", row=new)))
    assert told.mend == "name one outcome under 'then:'"


def test_rows_that_claim_to_be_built_in_are_looked_at_where_asked(rulebook: Rulebook):
    """In a file from elsewhere anybody may write that."""
    table = rulebook.tables["cautions"]
    rows = tuple(replace(row, say="No.") if row.id == "gloves" else row for row in table.rows)
    changed = rulebook.with_table(replace(table, rows=rows))
    assert lost_words(rulebook, changed) == []
    assert [one.what for one in lost_words(rulebook, changed, all_rows=True)] == [
        "the row gloves of cautions takes away the words of 'gloves', which a limit demands"
    ]


def test_rules_without_those_lists_lose_nothing(rulebook: Rulebook):
    """A small rulebook has none."""
    assert lost_words(rulebook, replace(rulebook, tables={})) == []
