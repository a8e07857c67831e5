"""Words of another language are found by the reader's environment."""

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo

from drill.basis.words import catalogue, say
from drill.store.translations import DOMAIN, open_translations


def _write(folder, language, **words):
    messages = Catalog(locale=language)
    for message, text in words.items():
        messages.add(message, text)
    path = folder / language / "LC_MESSAGES" / f"{DOMAIN}.mo"
    path.parent.mkdir(parents=True)
    with path.open("wb") as file:
        write_mo(file, messages)
    return path


def test_translations_when_the_language_is_there_then_its_words_are_said(tmp_path, monkeypatch):
    """What a German environment asks for is said in German."""
    _write(tmp_path, "de", Start="Beginnen")
    monkeypatch.setenv("LANGUAGE", "de")
    with catalogue(open_translations(tmp_path)):
        assert say("Start") == "Beginnen"
    assert say("Start") == "Start"


def test_translations_when_there_is_none_then_english_is_said(tmp_path, monkeypatch):
    """A language without a catalogue falls back to the message ids."""
    monkeypatch.setenv("LANGUAGE", "fr")
    assert open_translations(tmp_path).gettext("Start") == "Start"


def test_translations_when_the_file_is_no_catalogue_then_english_is_said(tmp_path, monkeypatch):
    """A damaged catalogue keeps nobody from starting."""
    _write(tmp_path, "de", Start="Beginnen").write_bytes(b"not a catalogue")
    monkeypatch.setenv("LANGUAGE", "de")
    assert open_translations(tmp_path).gettext("Start") == "Start"
