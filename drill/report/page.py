"""A page of text so many columns wide: headings, wrapped lines, marks and tables, plain or in colour.

Colour never says anything that the words do not say. What comes from people's files is cleaned first, so
that no hidden character of theirs can steer a terminal.
"""

import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from typing import Literal

Style = Literal["", "strong", "alarm", "good", "faint"]

_CODES: dict[Style, str] = {"strong": "1", "alarm": "1;31", "good": "1;32", "faint": "2"}
_GAP = "  "
NARROWEST, WIDEST = 40, 100


def clean_text(text: str) -> str:
    """Take out of a text what a terminal would obey or choke on.

    Args:
        text: Any text, such as a client's label out of a file.

    Returns:
        The text in one line; control and format characters and lone halves of characters are blanks.
    """
    return "".join(" " if unicodedata.category(one) in ("Cc", "Cf", "Cs") else one for one in text)


def paint(text: str, style: Style) -> str:
    """Wrap a text in the codes of a style.

    Args:
        text: The text.
        style: Empty for none.

    Returns:
        The text with terminal codes around it.
    """
    return f"\x1b[{_CODES[style]}m{text}\x1b[0m" if style and text else text


class Page:
    """Lines that fit a width, put down one after the other.

    Args:
        width: Columns; brought between 40 and 100.
        colour: Whether styles are shown.
    """

    def __init__(self, *, width: int = 80, colour: bool = False) -> None:
        self.width = min(max(width, NARROWEST), WIDEST)
        self.colour = colour
        self._lines: list[str] = []

    @property
    def text(self) -> str:
        """All of it, each line with its end."""
        return "".join(f"{line}\n" for line in self._lines)

    @property
    def height(self) -> int:
        """Lines so far."""
        return len(self._lines)

    def title(self, text: str) -> None:
        """Put down the page's first line."""
        self._put([clean_text(text)], "strong")
        self._put(["=" * min(self.width, len(clean_text(text)))], "strong")

    def heading(self, text: str, *, style: Style = "strong") -> None:
        """Put down a heading, a blank line before it."""
        if self._lines:
            self.blank()
        self.line(text, style=style)

    def line(self, text: str, *, mark: str = "", indent: int = 0, style: Style = "") -> None:
        """Put down a text, wrapped.

        Args:
            text: The text.
            mark: What stands before its first line; the others hang under its end.
            indent: Blanks before the mark.
            style: Of every line.
        """
        lead = " " * indent + mark
        self._put(
            textwrap.wrap(
                clean_text(text),
                self.width,
                initial_indent=lead,
                subsequent_indent=" " * len(lead),
                break_on_hyphens=False,
            )
            or [lead.rstrip()],
            style,
        )

    def rows(self, texts: Iterable[str], *, style: Style = "") -> None:
        """Put down lines as they are, such as a drawing."""
        self._put(list(texts), style)

    def beside(self, drawing: Sequence[str], texts: Iterable[str], *, drawing_width: int) -> None:
        """Put down a drawing with texts to its right, each starting a line of its own.

        Args:
            drawing: Lines as they are.
            texts: Wrapped into what is left of the width.
            drawing_width: Columns of the drawing.
        """
        left = drawing_width + len(_GAP)
        told = [line for text in texts for line in textwrap.wrap(clean_text(text), self.width - left)]
        for number in range(max(len(drawing), len(told))):
            line = drawing[number] if number < len(drawing) else ""
            text = told[number] if number < len(told) else ""
            self._put([f"{line:<{left}}{text}".rstrip()])

    def blank(self) -> None:
        """Put down an empty line, unless the last one is empty."""
        if self._lines and self._lines[-1]:
            self._lines.append("")

    def table(self, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """Put down a table; columns that do not fit follow below, each time with the first column again.

        Args:
            heads: One a column.
            rows: One text a column each.
        """
        cells = [[clean_text(text) for text in row] for row in (heads, *rows)]
        widths = [max(len(row[at]) for row in cells) for at in range(len(heads))]
        for number, columns in enumerate(self._columns_that_fit(widths)):
            if number:
                self.blank()
            for row in cells:
                line = _GAP.join(row[at].ljust(widths[at]) for at in columns)
                self._put([line.rstrip()[: self.width]], "faint" if row is cells[0] else "")

    def _columns_that_fit(self, widths: Sequence[int]) -> list[list[int]]:
        parts, used = [[0]], widths[0]
        for at in range(1, len(widths)):
            if used + len(_GAP) + widths[at] > self.width and len(parts[-1]) > 1:
                parts.append([0])
                used = widths[0]
            parts[-1].append(at)
            used += len(_GAP) + widths[at]
        return parts

    def _put(self, lines: list[str], style: Style = "") -> None:
        self._lines += [paint(line, style) if self.colour else line for line in lines]
