"""A question and its reveal as values: the head first, then what is asked, what holds, and why.

Nothing here decides what is right; it only says it.
"""

from dataclasses import replace

from drill.app.screen import Part, Picture, Press, SchoolPicture, Screen, Words
from drill.app.show_answer import CERTAINTIES, answer_action, answer_parts, outlined, places_picture
from drill.bank.book import Book
from drill.bank.question import Feedback, Option, Question
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN
from drill.service.figures import base_control_figure
from drill.service.head import Head
from drill.service.head_map import head_map
from drill.service.wording import value_words, zone_words
from drill.service.zones import ZONE_NAMES
from drill.study.answer import answer_words, key_label
from drill.study.sitting import Answered, Sitting

MAP_DP = 176.0
SIDE_VIEW_DP = 200.0
# A school's picture alone, and below a head or another figure.
OWN_ALONE_DP, OWN_BELOW_DP = 190.0, 130.0
# More lines than these stand below the figure, or the question would slip out of sight.
_MOST_BESIDE = 4
# A figure this much wider than high leaves no room beside it.
_WIDE = 1.2


def caution_words() -> str:
    """Say who decides about chemicals on a real head."""
    return say("On a client the maker's directions, local codes and licensed practice decide.")


def sentence(text: str) -> str:
    """Begin a text with a capital letter."""
    return text[:1].upper() + text[1:]


def question_screen(sitting: Sitting, book: Book, *, minutes_used: float, draft: str = "") -> Screen:
    """Show the head, the question and what is touched to answer; inside the answer given, how sure.

    Args:
        sitting: In the phase ``question`` or ``certainty``.
        book: The book.
        minutes_used: Minutes of the sitting so far.
        draft: What was touched of a number or an order so far.

    Returns:
        The screen.

    Raises:
        ValueError: If the sitting has no question.
    """
    if sitting.question is None:
        raise ValueError(f"no question to show in the phase {sitting.phase}")
    question = sitting.question
    answers = answer_parts(sitting, question, draft=draft)
    given, of_place = answer_action(sitting, question), question.answer_as == "place"
    return Screen(
        name=sitting.phase,
        title=say(book.topics.get(question.topic, question.topic)),
        leave=Press(action="leave", text=say("Pause"), style="leave"),
        right=_count_words(sitting, minutes_used),
        share=_share(sitting, minutes_used),
        aside=(places_picture(sitting, question), *_own(question, OWN_BELOW_DP))
        if of_place
        else scene(question),
        parts=(
            Words(text=sentence(question.ask), style="ask"),
            *answers,
            *(_facts(question) if of_place else ()),
        ),
        caution=caution_words(),
        show=_in_view(given, draft),
    )


def reveal_screen(sitting: Sitting, book: Book, *, minutes_used: float, source_open: bool) -> Screen:
    """Show whether the choice holds on this head, and why.

    Args:
        sitting: In the phase ``reveal``.
        book: The book.
        minutes_used: Minutes of the sitting so far.
        source_open: Whether the source is unfolded.

    Returns:
        The screen.

    Raises:
        ValueError: If nothing was answered.
    """
    if sitting.last is None:
        raise ValueError(f"no answer to show in the phase {sitting.phase}")
    answered = sitting.last
    question, option = answered.question, answered.option
    parts: list[Part] = [
        _verdict(question, option),
        Words(text=answer_words(question, option), label=say("You chose")),
    ]
    if question.answer_as == "number":
        parts.append(Words(text=question.answer.text, label=say("Computed here"), style="number"))
    elif not option.correct:
        parts.append(Words(text=question.answer.text, label=key_label(question), style="number"))
    parts += _feedback_parts(option)
    parts += _side_views(answered, book)
    parts.append(Press(action="source", text=say("Where this stands"), style="fold", is_on=source_open))
    if source_open:
        parts.append(Words(text=_source_words(book, question.source), style="small"))
    parts.append(Words(text=sentence(question.ask), label=say("The question was"), style="small"))
    parts += scene(_with_key(question))
    return Screen(
        name="reveal",
        title=say(book.topics.get(question.topic, question.topic)),
        leave=Press(action="leave", text=say("Pause"), style="leave"),
        right=_count_words(sitting, minutes_used),
        share=_share(sitting, minutes_used),
        parts=tuple(parts),
        foot=(Press(action="next", text=say("Go on"), style="main"),),
        caution=caution_words(),
        show=("source",) if source_open else (),
    )


def _count_words(sitting: Sitting, minutes_used: float) -> str:
    number = sitting.count + (sitting.phase != "reveal")
    if sitting.goal.questions is not None:
        return say("{number} of {all}", number=number, all=sitting.goal.questions)
    if sitting.goal.minutes is None:
        return str(number)
    left = sitting.goal.minutes - minutes_used
    if left < 1:
        return say("last one")
    return say("{minutes} min left", minutes=round(left))


def _share(sitting: Sitting, minutes_used: float) -> float | None:
    goal = sitting.goal
    if goal.questions:
        return min(1.0, sitting.count / goal.questions)
    return min(1.0, max(0.0, minutes_used / goal.minutes)) if goal.minutes else None


def _in_view(given: str, draft: str) -> tuple[str, ...]:
    if given:
        return (given, f"sure:{CERTAINTIES[-1]}")
    return ("digit:1", "given") if draft and draft[0].isdigit() else ()


def scene(question: Question) -> tuple[Part, ...]:
    """Show what a question is about: its figure, or the head with the zone asked, the facts, its own picture.

    Args:
        question: The question.

    Returns:
        The parts; none where there is neither a figure nor a head nor a picture.
    """
    facts, picture = _facts(question), _picture(question)
    if picture is None:
        return (*facts, *_own(question, OWN_ALONE_DP))
    own = _own(question, OWN_BELOW_DP)
    if picture.figure.width_mm > picture.figure.height_mm * _WIDE:
        return (picture, *facts, *own)
    return (replace(picture, beside=facts[:_MOST_BESIDE]), *facts[_MOST_BESIDE:], *own)


def _own(question: Question, height_dp: float) -> tuple[SchoolPicture, ...]:
    """Show the school's picture next to the question, which speaks of it."""
    picture = question.picture
    if picture is None:
        return ()
    shown = SchoolPicture(
        data=picture.data,
        kind=picture.kind,
        width_dots=picture.width_dots,
        height_dots=picture.height_dots,
        words=sentence(picture.words),
        height_dp=height_dp,
    )
    return (shown,)


def _facts(question: Question) -> tuple[Words, ...]:
    return tuple(
        Words(label=title if rest else "", text=sentence(rest.strip() or title), style="fact")
        for title, _, rest in (fact.partition(":") for fact in question.facts)
    )


def _with_key(question: Question) -> Question:
    """Draw a line round the right place, where a place was asked for."""
    if question.answer_as != "place" or question.figure is None:
        return question
    return replace(question, figure=outlined(question.figure, str(question.answer.value)))


def _picture(question: Question) -> Picture | None:
    if question.figure is not None:
        return Picture(figure=question.figure, height_dp=MAP_DP)
    if question.consultation is None:
        return None
    growth = {zone: str(question.consultation.of("hair.growth", zone)) for zone in ZONE_NAMES}
    grown = {zone: way for zone, way in growth.items() if way not in ("none", UNKNOWN)}
    caption = say("Asked: {zone}", zone=zone_words(question.zone)) if question.zone else say("The whole head")
    if grown:
        caption = say("{caption}. Arrow: the way the hair grows", caption=caption)
    figure = head_map(highlight=question.zone, directions=grown)
    return Picture(figure=figure, height_dp=MAP_DP, caption=caption)


def _verdict(question: Question, option: Option) -> Words:
    if option.correct:
        return Words(text=say("That holds"), style="verdict", sign="right")
    if option.feedback.opening:
        return Words(text=option.feedback.opening, style="verdict", sign="stop")
    words = say("Not on this head") if question.consultation else say("That does not hold")
    return Words(text=words, style="verdict", sign="other")


def _feedback_parts(option: Option) -> list[Part]:
    told: Feedback = option.feedback
    seen = say("What the client would see") if option.misconceptions else say("Why")
    labelled = (
        (say("What decides"), told.decides),
        (seen, told.seen),
        (say("When your choice is right"), told.right_when),
        (say("Next time"), told.look),
    )
    # The whole is kept short: what its text leaves out is left out here.
    return [Words(text=text, label=label) for label, text in labelled if text and text in told.text]


def _side_views(answered: Answered, book: Book) -> list[Part]:
    question = answered.question
    if question.decision != "base_control" or question.consultation is None or question.zone is None:
        return []
    wound_mm = Head(book.rulebook, question.consultation).winding(question.zone).wound_mm
    views = [(say("Here"), str(question.answer.value))]
    if not answered.option.correct:
        views.append((say("Your choice"), str(answered.option.value)))
    parts: list[Part] = []
    for words, value in views:
        figure = base_control_figure(value, wound_mm=wound_mm, strand_label=say("strand"))
        name = value_words("base_control", value).partition(":")[0]
        caption = say("{which}: {name}", which=words, name=name)
        parts.append(Picture(figure=figure, height_dp=SIDE_VIEW_DP, caption=caption))
    return parts


def _source_words(book: Book, source: str) -> str:
    return say(book.rulebook.sources.get(source, source[:1].upper() + source[1:]))
