"""Visible words: filled in once, translated where a catalogue is in force."""

import gettext

import pytest

from drill.basis.words import catalogue, say


class Upper(gettext.NullTranslations):
    """Answers in capitals."""

    def gettext(self, message):
        return message.upper()


class Dashed(gettext.NullTranslations):
    """Answers between dashes."""

    def gettext(self, message):
        return f"-{message}-"


def test_values_are_filled_in_by_name():
    """Every place of a name gets its value."""
    assert say("{n} tools, {n} papers in {zone}", n=3, zone="top") == "3 tools, 3 papers in top"


def test_a_name_without_value_stays_as_it_is():
    """A message from a data file may hold braces of its own."""
    assert say("{zone} and {other}", zone="top") == "top and {other}"
    assert say("{} {0.real} {a b}", a="x") == "{} {0.real} {a b}"


def test_braces_inside_a_value_stay():
    """What a person has typed is never taken for a name."""
    assert say("{client}: {verdict}", client="{verdict}", verdict="go") == "{verdict}: go"


def test_no_message_is_no_text():
    """An empty message is not looked up: a catalogue keeps its own header there."""
    with catalogue(Dashed()):
        assert say("") == ""


def test_a_catalogue_is_in_force_for_its_block():
    """The inner one counts inside; after it the outer one again, then English."""
    outer, inner = Upper(), Dashed()
    with catalogue(outer):
        with catalogue(inner), catalogue(outer):
            assert say("go") == "GO"
        assert say("go") == "GO"
        with catalogue(inner):
            with catalogue(outer):
                pass
            assert say("go") == "-go-"
    assert say("go") == "go"


def test_a_catalogue_goes_when_its_block_fails():
    """A fault inside leaves English behind."""
    with pytest.raises(KeyError), catalogue(Upper()):
        _ = {}["missing"]
    assert say("go") == "go"
