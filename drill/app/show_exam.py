"""A mock exam as screens: how it goes, an item against the clock, the marks, and the whys on demand.

Nothing here decides what is right; it only says it.
"""

from drill.app.screen import Answer, Part, Press, Screen, Words
from drill.app.show_question import caution_words, scene, sentence
from drill.bank.book import Book
from drill.basis.words import say
from drill.study.answer import key_label
from drill.study.exam import Exam
from drill.study.marks import Given, Marks, TopicMarks


def exam_entry() -> Press:
    """Give the touch on the first screen that leads to a mock exam."""
    return Press(action="exam", text=say("Mock exam"))


def minutes_words(seconds: float) -> str:
    """Say how much time is left; in whole minutes, so that the clock does not press."""
    if seconds < 60:  # noqa: PLR2004  seconds of a minute
        return say("last minute")
    return say("{minutes} min left", minutes=int(seconds // 60))


def exam_rules_screen(exam: Exam, book: Book) -> Screen:
    """Show how the exam goes, before the clock runs.

    Args:
        exam: The exam, not begun.
        book: The book.

    Returns:
        The screen; without a touch that begins where the book has nothing to ask.
    """
    outline = book.blueprint.outline
    source = book.rulebook.sources.get(outline.source, outline.source)
    parts: list[Part] = [
        Words(text=say("{items} items", items=len(exam.paper)), style="number"),
        Words(
            text=say(
                "{minutes} minutes, {seconds} seconds an item. One of four holds. The whys come at the end.",
                minutes=round(exam.seconds / 60),
                seconds=outline.seconds_an_item,
            )
        ),
        Words(
            text=say(
                "What is handed in is kept at once. What is left open when the time is over brings no mark."
            )
        ),
    ]
    if outline.title:
        told = say("{title} ({source})", title=outline.title, source=source)
        parts.append(Words(text=told, label=say("Where the time comes from"), style="small"))
    weights = (
        say("As {school} states.", school=book.school.name)
        if book.school.blueprint
        else say(book.blueprint.because)
    )
    if weights:
        parts.append(Words(text=weights, label=say("What the topics weigh"), style="small"))
    begin = (Press(action="exam-begin", text=say("Begin"), style="main"),)
    return Screen(
        name="exam-rules",
        title=say("Mock exam"),
        leave=Press(action="exam-leave", text=say("Back"), style="leave"),
        parts=tuple(parts) if exam.paper else (Words(text=say("There is nothing to ask in this book.")),),
        foot=begin if exam.paper else (),
    )


def exam_item_screen(exam: Exam, *, seconds_left: float) -> Screen:
    """Show the present item.

    Args:
        exam: The exam.
        seconds_left: Seconds that are left.

    Returns:
        The screen.

    Raises:
        ValueError: If the exam is over.
    """
    question = exam.question
    if question is None:
        raise ValueError("the exam is over")
    answers = [
        Answer(
            press=Press(
                action=f"exam-option:{option.id}",
                text=option.text,
                style="choice",
                is_on=option.id == exam.chosen,
            )
        )
        for option in question.options
    ]
    hand_in = say("Hand in") if exam.chosen else say("Leave it open")
    return Screen(
        name="exam-item",
        title=say("{number} of {all}", number=len(exam.given) + 1, all=len(exam.paper)),
        leave=Press(action="exam-end", text=say("Finish"), style="leave"),
        right=minutes_words(seconds_left),
        share=min(1.0, 1 - seconds_left / exam.seconds),
        aside=scene(question),
        parts=(Words(text=sentence(question.ask), style="ask"), *answers),
        foot=(Press(action="exam-next", text=hand_in, style="main" if exam.chosen else "plain"),),
        show=(f"exam-option:{exam.chosen}",) if exam.chosen else (),
    )


def exam_marks_screen(exam: Exam, marks: Marks, book: Book) -> Screen:
    """Show the marks in all, by topic, and the wrong ideas met.

    Args:
        exam: The exam, over.
        marks: Its marks.
        book: The book.

    Returns:
        The screen; each item leads to its why.
    """
    parts: list[Part] = [Words(text=say("Topic by topic"), style="title")]
    parts += [
        Words(label=say(book.topics.get(one.topic, one.topic)), text=_topic_words(one), style="small")
        for one in marks.topics
    ]
    parts += _ideas(marks, book)
    parts.append(Words(text=say("The whys"), style="title"))
    for at, one in enumerate(exam.all_given):
        held = say("held") if one.right else say("needs work")
        text = say("{number}. {ask} ({held})", number=at + 1, ask=sentence(one.question.ask), held=held)
        parts.append(Press(action=f"exam-why:{at}", text=text, style="choice"))
    return Screen(
        name="exam-marks",
        title=say("Mock exam"),
        aside=_total(marks),
        parts=tuple(parts),
        foot=(Press(action="exam-leave", text=say("Back to the head"), style="main"),),
        caution=caution_words(),
    )


def exam_why_screen(given: Given, book: Book, *, number: int) -> Screen:
    """Show why an item's key is its key.

    Args:
        given: The item, and what was chosen.
        book: For the words of sources.
        number: Its number in the exam.

    Returns:
        The screen.
    """
    question, chosen = given.question, given.option
    told = question.explanation if chosen is None else chosen.feedback.text
    parts = (
        Words(text=sentence(question.ask), style="ask"),
        Words(
            label=say("You chose"),
            text=say("Left open") if chosen is None else chosen.text,
            sign="right" if given.right else "other",
        ),
        Words(label=key_label(question), text=question.answer.text),
        Words(label=say("Why"), text=told),
        Words(
            label=say("Source"),
            text=say(book.rulebook.sources.get(question.source, question.source)),
            style="small",
        ),
    )
    return Screen(
        name="exam-why",
        title=say("Item {number}", number=number),
        leave=Press(action="exam-marks", text=say("Marks"), style="leave"),
        aside=scene(question),
        parts=parts,
        caution=caution_words(),
    )


def _total(marks: Marks) -> tuple[Part, ...]:
    passes = say("Pass mark {mark} % reached") if marks.passes else say("Pass mark {mark} % not reached")
    total: list[Part] = [
        Words(text=say("{right} of {items}", right=marks.all.right, items=marks.all.items), style="number"),
        Words(text=passes.format(mark=round(100 * marks.pass_mark)), style="verdict"),
        Words(text=_range_words(marks.all)),
    ]
    if marks.left_open:
        total.append(Words(text=say("Left open, without a mark: {count}", count=marks.left_open)))
    return tuple(total)


def _topic_words(marks: TopicMarks) -> str:
    share = say("{right} of {items}", right=marks.right, items=marks.items)
    return say("{share}. {range}", share=share, range=_range_words(marks))


def _range_words(marks: TopicMarks) -> str:
    return say(
        "By these marks from {low} to {high} % of such items would be right.",
        low=round(100 * marks.low),
        high=round(100 * marks.high),
    )


def _ideas(marks: Marks, book: Book) -> list[Part]:
    met = [(book.beliefs[idea], count) for idea, count in marks.ideas.items() if idea in book.beliefs]
    if not met:
        return []
    parts: list[Part] = [Words(text=say("Ideas met"), style="title")]
    for belief, count in met:
        label = say("“{idea}” ({count})", idea=say(belief.belief), count=count)
        parts.append(Words(text=say(belief.mend), label=label))
    return parts
