"""The built-in rulebook as loaded, and rows as written."""

import math
from pathlib import Path

import pytest

from drill.load.names import names_of
from drill.load.reading import read_text
from drill.load.rows import boolean_word, read_condition, read_row
from drill.load.rulebook import RULES, load_rulebook
from drill.rulebook.condition import Condition, Range
from drill.rulebook.proof import prove
from drill.service.facts import FACTS


def _node(text):
    (node,), problems = read_text(text.encode(), shown="it.yaml")
    assert not problems
    return node


def test_the_built_in_rulebook_is_proved(rulebook):
    """No gap, no idle row, every limit kept on every head."""
    proof = prove(rulebook, facts=FACTS)
    assert (proof.problems, proof.idle_rows) == ((), ())
    assert len(rulebook.limits) > 40


def test_every_row_limit_and_parameter_says_why_and_from_where(rulebook):
    """A known work, common practice, or memory."""
    known = {"common practice", "memory", *rulebook.sources}
    rows = [row for table in rulebook.tables.values() for row in table.rows]
    for one in [*rows, *rulebook.limits, *rulebook.parameters.values()]:
        assert one.because
        assert one.source in known
        assert Path(one.place.file).is_file()


def test_files_are_shown_as_asked():
    """For instance below the folder."""
    loaded, _ = load_rulebook(shown=lambda path: str(path.relative_to(RULES)))
    assert {table.place.file.partition("/")[0] for table in loaded.tables.values()} == {"tables"}


def test_a_fact_needs_its_names(tmp_path):
    """A vocabulary without them is refused before anything is computed."""
    for part in ("parameters", "tables"):
        (tmp_path / part).mkdir()
    (tmp_path / "sources.yaml").write_text("sources: {}\n")
    (tmp_path / "limits.yaml").write_text("limits: []\n")
    (tmp_path / "vocabulary.yaml").write_text("names: []\n")
    told = [str(one) for one in load_rulebook(tmp_path)[1]]
    assert (
        f"{tmp_path}/vocabulary.yaml:1:1: there is no 'wish.curl', which wish.curl_class is computed from; "
        "add it to the names"
    ) in told


@pytest.mark.parametrize(
    ("text", "values", "ranges"),
    [
        ("never", ("never",), ()),
        ("[never, unknown]", ("never", "unknown"), ()),
        ("8 weeks", (), (Range(8, 8),)),
        ("'> 8 weeks'", (), (Range(low=8, with_low=False),)),
        ("'>= 8 weeks'", (), (Range(low=8),)),
        ("'<8 weeks'", (), (Range(high=8, with_high=False),)),
        ("'<= 56 days'", (), (Range(high=8),)),
        ("2 weeks to 8 weeks", (), (Range(2, 8),)),
        (
            "[never, '< 2 weeks', '> 8 weeks']",
            ("never",),
            (Range(high=2, with_high=False), Range(8, math.inf, False)),
        ),
    ],
)
def test_a_condition_is_values_and_ranges(rulebook, text, values, ranges):
    """As written, kept for people."""
    problems = []
    condition = read_condition(_node(text), rulebook.domains["history.weeks_since_perm"], problems)
    assert problems == []
    assert (condition.values, condition.ranges) == (values, ranges)
    assert condition.text.startswith(text.strip("[]'").split(",")[0].strip("'"))


@pytest.mark.parametrize(
    "text", ["8", "'> 8'", "8 weeks to 2 weeks", "soon", "a to b", "'> never'", "[never, 8]"]
)
def test_what_is_no_condition_is_told(rulebook, text):
    """Once, at the value."""
    problems = []
    assert read_condition(_node(text), rulebook.domains["history.weeks_since_perm"], problems) is None
    assert len(problems) == 1


def test_a_name_without_numbers_takes_no_range(rulebook):
    """The values are named instead."""
    problems = []
    assert read_condition(_node("'> 3'"), rulebook.domains["scalp"], problems) is None
    assert problems[0].mend == "use one of: healthy, irritated, broken, unknown"


def test_booleans_are_words_only_where_the_words_are_allowed():
    """`true` is no porosity."""
    assert [boolean_word(one, ("yes", "no")) for one in ("true", "False", "yes", "maybe")] == [
        "yes",
        "no",
        "yes",
        "maybe",
    ]
    assert boolean_word("true", ("porous",)) == "true"


def test_a_row_keeps_all_that_is_written(rulebook):
    """Conditions, outcome, what is acceptable, why, from where, how firm, and its place."""
    text = (
        "id: ours\nwhen: {hair.condition: [weak, fragile], zone: top}\nthen: off_base\nalso: half_off_base\n"
        "because: It pulls.\nsource: House rules\nstanding: school\nsay: Let it lie.\n"
    )
    problems = []
    row = read_row(
        _node(text),
        find=names_of(rulebook),
        gives=rulebook.tables["base_control"].gives,
        per="zone",
        sources={},
        parameters=rulebook.parameters,
        problems=problems,
    )
    assert problems == []
    assert row.when == {
        "hair.condition": Condition(("weak", "fragile"), (), "weak or fragile"),
        "zone": Condition(("top",), (), "top"),
    }
    assert (row.then, row.also, row.standing, row.say) == (
        "off_base",
        ("half_off_base",),
        "school",
        "Let it lie.",
    )


def test_names_are_those_of_vocabulary_decisions_and_facts(rulebook):
    """Lists are known as such."""
    names = names_of(rulebook)
    assert {"scalp", "verdict", "wish.curl_class"} <= {*names.names}
    assert names("verdict").values == rulebook.tables["verdict"].gives
    assert names("nothing") is None
    assert {*names.lists} == {name for name, table in rulebook.tables.items() if table.hit == "collect"}
