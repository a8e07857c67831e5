"""Visible words: English text is the message id, a catalogue may translate it.

Every text that a person reads on a screen or a page passes through :func:`say`. Extraction finds the ids by
that name (``pybabel extract -k say``); data files (rows, items, misconceptions) pass their texts through it
where they are shown.
"""

import gettext
import re
from collections.abc import Iterator
from contextlib import contextmanager

_VALUE = re.compile(r"\{(\w+)\}")
_catalogues: list[gettext.NullTranslations] = [gettext.NullTranslations()]


@contextmanager
def catalogue(translations: gettext.NullTranslations) -> Iterator[None]:
    """Put a catalogue in force for the length of a ``with`` block.

    Args:
        translations: As ``gettext.translation`` gives it.

    Yields:
        Nothing.
    """
    _catalogues.append(translations)
    try:
        yield
    finally:
        _catalogues.pop()


def say(message: str, /, **values: object) -> str:
    """Translate a message and fill in its values.

    Args:
        message: English text, the message id; ``{name}`` marks a value.
        values: What stands for the names; only plain names are filled in.

    Returns:
        The text to show.
    """
    text = _catalogues[-1].gettext(message) if message else ""
    # In one pass, so that braces inside a value stay as they are.
    return _VALUE.sub(lambda found: str(values.get(found[1], found[0])), text)
