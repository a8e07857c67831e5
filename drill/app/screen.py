"""What a screen is made of, as values: the widgets draw exactly this and decide nothing."""

from dataclasses import dataclass, field
from typing import Literal

from drill.basis.words import say
from drill.service.shapes import Figure

AID = "aid"

WordsStyle = Literal["title", "ask", "body", "fact", "small", "verdict", "number"]
PressStyle = Literal["main", "plain", "leave", "choice", "inside", "certainty", "fold", "aid"]
Sign = Literal["", "right", "other", "stop"]
# As the bank names them, which the first screen does without.
PictureKind = Literal["png", "jpeg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A text of its own.

    Attributes:
        text: As shown.
        style: How it is set.
        sign: A drawn sign before it.
        label: A few words above it that say what it is; may be empty.
    """

    text: str
    style: WordsStyle = "body"
    sign: Sign = ""
    label: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """Something to touch.

    Attributes:
        action: What a touch on it asks for.
        text: Its words.
        style: How it looks.
        is_on: Whether it is chosen, or unfolded.
    """

    action: str
    text: str
    style: PressStyle = "plain"
    is_on: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An option; once it is chosen, the certainties stand inside it, one under the other.

    Attributes:
        press: Chooses it.
        certainties: What to do at the chair, from the least sure to the surest; empty until chosen.
        ask: The words above the certainties.
    """

    press: Press
    certainties: tuple[Press, ...] = ()
    ask: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A figure, as large as its place lets it be.

    Attributes:
        figure: The figure.
        height_dp: The most that it takes in height.
        beside: Texts at its side.
        caption: A line beneath it; may be empty.
        touch: What a touch on a part of it asks for: ``place`` with the part's key behind a colon; empty
            where nothing on it can be touched.
    """

    figure: Figure
    height_dp: float
    beside: tuple[Words, ...] = ()
    caption: str = ""
    touch: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SchoolPicture:
    """A picture out of a school's own file, with its words beneath; the words alone where it cannot be drawn.

    Attributes:
        data: The file.
        kind: How it is written.
        width_dots: Dots in a row.
        height_dots: Rows.
        words: What it shows.
        height_dp: The most that it takes in height.
    """

    data: bytes = field(repr=False)
    kind: PictureKind
    width_dots: int
    height_dots: int
    words: str
    height_dp: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Legend:
    """Small figures, each with its words.

    Attributes:
        rows: A figure and what it stands for, in order.
    """

    rows: tuple[tuple[Figure, Words], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PressRow:
    """Things to touch, side by side; one of them is chosen.

    Attributes:
        presses: Left to right.
    """

    presses: tuple[Press, ...]


Part = Words | Press | Answer | Picture | SchoolPicture | Legend | PressRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """One screen.

    Attributes:
        name: Which one it is.
        title: In the bar above.
        leave: Touch in the bar that leaves the screen; None where there is nowhere to go.
        right: Words at the right end of the bar.
        share: How far the sitting is, 0 to 1; None where there is no sitting.
        aside: Parts that come first; beside the others where the screen is wider than high.
        parts: The others, top to bottom.
        foot: Touches that stay in view below.
        caution: Line that stays in view below; empty where no chemical is spoken of.
        show: Actions of the touches that must be in view, the last above all; empty for none.
        has_aid: Whether first aid is one touch away; on every screen but its own.
    """

    name: str
    title: str
    leave: Press | None = None
    right: str = ""
    share: float | None = None
    aside: tuple[Part, ...] = ()
    parts: tuple[Part, ...]
    foot: tuple[Press, ...] = ()
    caution: str = ""
    show: tuple[str, ...] = ()
    has_aid: bool = True

    @property
    def aid(self) -> Press | None:
        """The touch that leads to first aid; None on the screen that is first aid."""
        return Press(action=AID, text=say("First aid"), style="aid") if self.has_aid else None

    @property
    def presses(self) -> tuple[Press, ...]:
        """Everything that can be touched, in order, but first aid, which no screen lacks."""
        found = [self.leave] if self.leave else []
        for part in (*self.aside, *self.parts, *self.foot):
            if isinstance(part, Press):
                found.append(part)
            elif isinstance(part, PressRow):
                found += part.presses
            elif isinstance(part, Answer):
                found += [part.press, *part.certainties]
        return tuple(found)

    @property
    def texts(self) -> tuple[str, ...]:
        """Every text, in order, but those inside figures."""
        found = [self.leave.text] if self.leave else []
        found += [self.title, self.right, self.aid.text if self.aid else ""]
        for part in (*self.aside, *self.parts, *self.foot):
            found += _texts(part)
        return tuple(text for text in (*found, self.caution) if text)


def _texts(part: Part) -> list[str]:
    match part:
        case Words():
            return [part.label, part.text]
        case Press():
            return [part.text]
        case PressRow():
            return [press.text for press in part.presses]
        case Answer():
            return [part.press.text, part.ask, *(press.text for press in part.certainties)]
        case Picture():
            beside = [text for words in part.beside for text in _texts(words)]
            return [*beside, part.caption]
        case SchoolPicture():
            return [part.words]
        case Legend():
            return [text for _, words in part.rows for text in _texts(words)]
