"""Values and names in the words of the trade."""

import pytest

from drill.service.facts import FACTS
from drill.service.wording import clause_words, fact_words, name_words, stated_words, value_words, zone_words
from drill.service.words_of_facts import FACTS as CLAUSES
from drill.service.words_of_facts import NAMES
from drill.service.words_of_values import VALUES


@pytest.mark.parametrize(
    ("decision", "value", "words"),
    [
        ("verdict", "test_first", "Make test curls first"),
        ("papers", "none", "No paper"),
        ("layout", "cushioned_rows", "Cushioned rows"),
        ("hair.condition", "sound", "Sound"),
        ("tool.diameter_mm", 9.5, "9.5 mm tool"),
        ("turns", 4.714, "4.7 turns"),
        ("curl_ends_mm", 12.3, "12.3 mm"),
        ("ratio", 0.126, "0.13"),
    ],
)
def test_outcome_is_written_as_a_person_says_it(decision, value, words):
    """A value that a local rule added is written as it is named."""
    assert value_words(decision, value) == words


def test_every_outcome_of_every_table_has_words_of_its_own(rulebook):
    """Two outcomes of one decision never read alike, nor as the program writes them."""
    for table in rulebook.tables.values():
        words = [value_words(table.decision, value) for value in table.gives]
        assert len(set(words)) == len(words), table.decision
        assert not any("_" in one for one in words), table.decision


def test_every_outcome_has_words_that_somebody_wrote(rulebook):
    """None is read off its name; what a list holds has its words in its own rows."""
    for table in rulebook.tables.values():
        if table.hit == "collect" and table.decision not in VALUES:
            assert all(row.say for row in table.rows), table.decision
        else:
            assert set(VALUES[table.decision]) >= set(table.gives), table.decision


def test_every_name_and_value_of_the_vocabulary_reads_as_a_clause(rulebook):
    """No underline, no bare unknown, no name cut down to its last part; two values never read alike."""
    facts = {name: fact.domain for name, fact in FACTS.items()}
    known = {name: domain.values for name, domain in {**rulebook.domains, **facts}.items()}
    read = {name for table in rulebook.tables.values() for name in table.inputs}
    known |= {name: rulebook.tables[name].gives for name in read & rulebook.tables.keys()}
    for name, values in known.items():
        assert name in NAMES or all((name, value) in CLAUSES for value in values), name
        words = [fact_words(name, value) for value in values]
        assert len(set(words)) == len(words), name
        assert not any("_" in one or one.endswith("unknown") for one in words), words


def test_words_are_kept_for_nothing_that_is_gone(rulebook):
    """A word left behind by a table would never be read."""
    known = {name: domain.values for name, domain in rulebook.domains.items()}
    known |= {name: fact.domain.values for name, fact in FACTS.items()}
    known |= {name: table.gives for name, table in rulebook.tables.items()}
    for decision, words in VALUES.items():
        assert set(words) <= set(rulebook.tables[decision].gives), decision
    for name, value in CLAUSES:
        assert value in known[name], name


def test_name_is_written_as_a_person_says_it():
    """One without words of its own is read from its last part."""
    assert name_words("history.weeks_since_perm") == "weeks since the last perm"
    assert name_words("wish.some_thing") == "some thing"


@pytest.mark.parametrize(
    ("name", "value", "unit", "words"),
    [
        ("hair.growth", "whorl", "", "there is a whorl"),
        ("hair.elasticity", "none", "", "wet hair does not spring back"),
        ("history.relaxer", "unknown", "", "nobody has asked about relaxers"),
        ("hair.density", "thick", "", "density is thick"),
        ("hair.length", 320.0, "mm", "the length is 32 cm"),
        ("zone", "nape_center", "", "the zone is nape centre"),
        ("history.weeks_since_color", 0.6, "weeks", "it was coloured 4 days ago"),
        ("history.weeks_since_perm", "never", "weeks", "it was never permed"),
        ("health.months_since", 8.0, "months", "the treatment ended 8 months ago"),
    ],
)
def test_fact_is_written_as_a_clause(name, value, unit, words):
    """It stands after 'since' and 'if'."""
    assert fact_words(name, value, unit) == words


def test_clause_of_a_span_says_when():
    """A range in words is a span too; a word without a number is none."""
    assert (
        clause_words("health.months_since", "at least 6 months")
        == "the treatment ended at least 6 months ago"
    )
    assert clause_words("health.months_since", "unknown") == "months since the treatment is unknown"


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        ("over_porous", "", "over porous"),
        (95.0, "mm", "95 mm"),
        (210.0, "mm", "21 cm"),
        (6.0, "weeks", "6 weeks"),
        (1.0, "weeks", "1 week"),
        (0.5, "weeks", "4 days"),
        (0.01, "weeks", "1 day"),
        (0.0, "weeks", "0 weeks"),
        (1.0, "months", "1 month"),
        (1.0, "min", "1 min"),
        (2.5, "", "2.5"),
    ],
)
def test_value_is_written_with_its_unit(value, unit, words):
    """One of a unit has its own word, and less than a week is told in days."""
    assert stated_words(value, unit) == words


def test_place_is_a_zone_or_the_head():
    """None stands for the whole head."""
    assert zone_words("back_center") == "back centre"
    assert zone_words(None) == "head"
