"""What is touched to answer, as values: options, a pad of digits, steps one after the other, a place."""

from dataclasses import replace

from drill.app.screen import Answer, Part, Picture, Press, PressRow, Words
from drill.bank.question import Question
from drill.basis.words import say
from drill.memory.attempt import Certainty
from drill.service.shapes import Figure, Polygon, Polyline
from drill.study.answer import answer_words
from drill.study.sitting import Sitting

CERTAINTIES: tuple[Certainty, ...] = ("low", "middle", "high")
# As large as it may be: what is touched on it is a part of it.
PLACES_DP = 300.0
_ROWS = ("123", "456", "789")
_OUTLINE_MM = 3.0


def certainty_words(certainty: Certainty) -> str:
    """Say a certainty as what a person would do at the chair."""
    return {
        "low": say("I'd ask first"),
        "middle": say("I'd check"),
        "high": say("I'd do it"),
    }[certainty]


def answer_parts(sitting: Sitting, question: Question, *, draft: str) -> tuple[Part, ...]:
    """Show what is touched to answer; inside the answer, once it is given, how sure.

    Args:
        sitting: In the phase ``question`` or ``certainty``.
        question: Its question.
        draft: What was touched of a number or an order so far.

    Returns:
        The parts, below the question itself.
    """
    match question.answer_as:
        case "number":
            return _number(sitting, question, draft)
        case "order":
            return _order(sitting, question, draft)
        case "place":
            return _place(sitting, question)
        case "option":
            return tuple(
                _answer(f"option:{one.id}", one.text)
                if one.id == sitting.chosen
                else Answer(press=Press(action=f"option:{one.id}", text=one.text, style="choice"))
                for one in question.options
            )


def places_picture(sitting: Sitting, question: Question) -> Picture:
    """Show the figure whose parts are touched to answer, a firm line round the one chosen.

    Args:
        sitting: In the phase ``question`` or ``certainty``.
        question: Its question, which asks for a place.

    Returns:
        The figure, as large as it may be.

    Raises:
        ValueError: If the question has no figure.
    """
    if question.figure is None:
        raise ValueError(f"{question.item} asks for a place and has no figure")
    chosen = str(question.marked(sitting.chosen).value) if sitting.chosen else ""
    return Picture(figure=outlined(question.figure, chosen), height_dp=PLACES_DP, touch="place")


def answer_action(sitting: Sitting, question: Question) -> str:
    """Name the touch in which the certainties stand, once an answer is given; empty before."""
    if not sitting.chosen:
        return ""
    given = {"option": f"option:{sitting.chosen}", "place": f"place:{sitting.chosen}"}
    return given.get(question.answer_as, "change")


def outlined(figure: Figure, key: str) -> Figure:
    """Draw a firm line round one part of a figure.

    Args:
        figure: The figure.
        key: The part's key.

    Returns:
        The figure with it; as it was where it has no such part.
    """
    lines = tuple(
        Polyline((*shape.points, shape.points[0]), _OUTLINE_MM, "ink")
        for shape in figure.shapes
        if isinstance(shape, Polygon) and key and shape.key == key
    )
    return replace(figure, shapes=(*figure.shapes, *lines))


def _answer(action: str, text: str) -> Answer:
    return Answer(
        press=Press(action=action, text=text, style="inside", is_on=True),
        ask=say("With this client in the chair:"),
        certainties=tuple(
            Press(action=f"sure:{certainty}", text=certainty_words(certainty), style="certainty")
            for certainty in CERTAINTIES
        ),
    )


def _number(sitting: Sitting, question: Question, draft: str) -> tuple[Part, ...]:
    if sitting.chosen:
        return (_answer("change", answer_words(question, question.marked(sitting.chosen))),)
    unit = "" if question.unit == "ratio" else say(question.unit)
    shown = say("{number} {unit}", number=draft or "…", unit=unit).strip()
    rows = [PressRow(presses=tuple(_digit(digit) for digit in row)) for row in _ROWS]
    erase = Press(action="erase", text=say("Erase"))
    rows.append(PressRow(presses=(_digit("."), _digit("0"), erase)))
    take = (Press(action="given", text=say("That is my answer"), style="main"),) if draft else ()
    return (Words(text=shown, label=say("Your answer"), style="verdict"), *rows, *take)


def _digit(digit: str) -> Press:
    return Press(action=f"digit:{digit}", text=digit)


def _order(sitting: Sitting, question: Question, draft: str) -> tuple[Part, ...]:
    steps = tuple(
        Press(
            action=f"step:{piece.id}",
            text=say("{number}. {step}", number=draft.index(piece.id) + 1, step=piece.text)
            if piece.id in draft
            else piece.text,
            style="choice",
            is_on=piece.id in draft,
        )
        for piece in question.pieces
    )
    told = Words(text=say("Touch the steps in their order; touch one again to take it back."), style="small")
    given = (_answer("change", say("In this order")),) if sitting.chosen else ()
    return (told, *steps, *given)


def _place(sitting: Sitting, question: Question) -> tuple[Part, ...]:
    if not sitting.chosen:
        return (Words(text=say("Touch the place on the head."), style="small"),)
    return (_answer(f"place:{sitting.chosen}", question.marked(sitting.chosen).text),)
