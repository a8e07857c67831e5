"""Find the words of the reader's language."""

import gettext
from pathlib import Path

DOMAIN = "wavedrill"
_PACKAGE = Path(__file__).parent.parent
_INSIDE, _BESIDE = _PACKAGE / "words", _PACKAGE.parent / "assets" / "words"
# A checkout has its words among the assets, an installed copy inside the package.
WORDS = _INSIDE if _INSIDE.is_dir() else _BESIDE


def open_translations(folder: Path = WORDS) -> gettext.NullTranslations:
    """Open the catalogue of the reader's language.

    Args:
        folder: Holds ``LANGUAGE/LC_MESSAGES/wavedrill.mo``.

    Returns:
        The catalogue that the environment asks for (``LANGUAGE``, ``LC_ALL``, ``LANG``); the English message
        ids themselves where there is none.
    """
    try:
        return gettext.translation(DOMAIN, folder)
    except (OSError, UnicodeDecodeError):  # none there, or not a catalogue: English is always there
        return gettext.NullTranslations()
