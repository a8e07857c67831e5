"""Values in few words."""

from dataclasses import replace

from drill.bank.short import short_words


def test_what_explains_a_value_is_left_out(rulebook):
    """After a colon or a comma."""
    assert short_words("base_control", "on_base", rulebook) == "on base"
    assert short_words("verdict", "ask_first", rulebook) == "ask first"
    assert short_words("tool.diameter_mm", 9.5, rulebook) == "9.5 mm tool"


def test_values_that_begin_alike_keep_all_their_words(rulebook):
    """Else two options would look the same."""
    table = rulebook.tables["base_control"]
    words = {"on_base": "Held up, on its base", "off_base": "Held up, off its base"}
    alike = replace(rulebook, tables={**rulebook.tables, "base_control": replace(table, words=words)})
    assert short_words("base_control", "on_base", alike) == "held up, on its base"
    assert short_words("base_control", "half_off_base", alike) == "half off base"
