"""What the YAML parser stumbles over, said so that a person who writes the file can mend it."""

import yaml

from drill.basis.problem import Place, Problem

# What the parser says, then what we say; the first that fits counts.
_WORDS = (
    (
        "mapping values are not allowed",
        "a ':' stands where no key can stand",
        "check the indent of this line and the ':' above it, and quote text that holds ': '",
    ),
    ("expected ',' or '}'", "a '{{' opened in line {opened} is not closed before this", "close it with '}}'"),
    ("expected ',' or ']'", "a '[' opened in line {opened} is not closed before this", "close it with ']'"),
    (
        "could not find expected ':'",
        "a key has no ':' after it",
        "write 'name: value', with a blank after ':'",
    ),
    (
        "did not find expected '-' indicator",
        "this line does not belong to the list above it",
        "check its indent, and start each entry with '- '",
    ),
    (
        "did not find expected key",
        "this line does not fit the lines above it",
        "check its indent, and close quotes and brackets above it",
    ),
    (
        "expected <document start>",
        "this line does not fit the lines above it",
        "start every field of the file in the same column",
    ),
    ("unknown escape character", "a '\\' in double quotes starts nothing known", "use single quotes"),
    ("undefined alias", "anchors and aliases are not read", "write the value out"),
)


def unreadable_problem(text: str, shown: str) -> Problem | None:
    """Find a character that YAML does not allow, before a parser counts it in bytes.

    Args:
        text: The text.
        shown: The file's name in problems.

    Returns:
        The first one with its place, or None.
    """
    found = yaml.reader.Reader.NON_PRINTABLE.search(text)
    if found is None:
        return None
    before = text[: found.start()]
    place = Place(shown, before.count("\n") + 1, len(before) - before.rfind("\n"))
    return Problem(place, "a character here is not allowed in YAML", "take the character out")


def yaml_problem(error: yaml.MarkedYAMLError, text: str, shown: str) -> Problem:
    """Tell a parser's fault as a problem.

    Args:
        error: What the parser raised.
        text: The text it read.
        shown: The file's name in problems.

    Returns:
        The fault with its place.
    """
    mark = error.problem_mark or error.context_mark
    place = Place(shown, mark.line + 1, mark.column + 1) if mark else Place(shown)
    said = error.problem or error.context or ""
    opened = error.context_mark.line + 1 if error.context_mark else place.line
    if "cannot start any token" in said:
        return _bad_start(place, text)
    if "unexpected end of stream" in said and error.context_mark:
        start = Place(shown, opened, error.context_mark.column + 1)
        return Problem(start, "a quote is opened here and never closed", "close the quote")
    for words, what, mend in _WORDS:
        if words in said:
            return Problem(place, what.format(opened=opened), mend.format())
    return Problem(place, f"this is not YAML: {said}", "check indents, quotes and the ':' after keys")


def _bad_start(place: Place, text: str) -> Problem:
    lines = text.split("\n")
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    character = line[place.column - 1 : place.column]
    if character == "\t":
        return Problem(place, "a tab stands where YAML wants blanks", "indent with blanks")
    return Problem(place, f"a value cannot start with {character!r}", "put the value in quotes")
