"""A mock exam as text: an item against the clock, the marks at the end, and the whys on demand."""

from typing import Any

from drill.bank.book import Book
from drill.bank.question import Question
from drill.basis.words import say
from drill.report.head_text import HEAD_WIDTH, head_lines
from drill.report.page import Page
from drill.report.question_text import put_picture
from drill.service.wording import zone_words
from drill.study.answer import key_label
from drill.study.exam import Exam
from drill.study.marks import Given, Marks, TopicMarks

FORMAT = "exam.v1"


def time_words(seconds: float) -> str:
    """Say how much time is left."""
    if seconds < 60:  # noqa: PLR2004  seconds of a minute
        return say("{seconds} s left", seconds=int(seconds))
    return say("{minutes} min left", minutes=int(seconds // 60))


def put_rules(page: Page, exam: Exam, book: Book) -> None:
    """Put down, before the first item, how the exam goes.

    Args:
        page: Where it goes.
        exam: The exam.
        book: For the outline that gives the time.
    """
    outline = book.blueprint.outline
    page.title(say("Mock exam: {items} items", items=len(exam.paper)))
    page.line(
        say(
            "{minutes} minutes, {seconds} seconds an item. One of four holds. "
            "What is left open when the time is over brings no mark. The whys come at the end.",
            minutes=round(exam.seconds / 60),
            seconds=outline.seconds_an_item,
        )
    )
    if outline.title:
        source = book.rulebook.sources.get(outline.source, outline.source)
        page.line(say("Time an item as in: {title} ({source})", title=outline.title, source=source))
    if book.school.blueprint:
        page.line(say("Topics weigh as {school} states.", school=book.school.name))
    else:
        page.line(say(book.blueprint.because))


def put_item(
    page: Page, exam: Exam, question: Question, *, seconds_left: float, with_map: bool, plain: bool
) -> None:
    """Put the present item on a page.

    Args:
        page: Where it goes.
        exam: The exam.
        question: The item.
        seconds_left: Seconds that are left.
        with_map: Whether the head is drawn where a zone is asked.
        plain: Whether the drawing keeps to letters that every terminal has.
    """
    place = say("{number} of {all}", number=len(exam.given) + 1, all=len(exam.paper))
    page.line(f"{place}   {time_words(seconds_left)}", style="strong")
    page.blank()
    if question.zone is not None and with_map:
        facts = [*question.facts, say("Marked: {zone}.", zone=zone_words(question.zone))]
        page.beside(head_lines(marked=question.zone, plain=plain), facts, drawing_width=HEAD_WIDTH)
    else:
        for fact in question.facts:
            page.line(fact)
    put_picture(page, question)
    page.blank()
    page.line(question.ask[:1].upper() + question.ask[1:], style="strong")
    for number, option in enumerate(question.options, start=1):
        page.line(option.text, mark=f"  {number}  ")


def put_marks(page: Page, exam: Exam, marks: Marks, book: Book) -> None:
    """Put the marks on a page: in all, by topic, and the wrong ideas met.

    Args:
        page: Where it goes.
        exam: The exam, over.
        marks: Its marks.
        book: For the words of topics and ideas.
    """
    page.title(say("Mock exam: {right} of {items}", right=marks.all.right, items=marks.all.items))
    page.line(
        say(
            "Pass mark {mark}: {verdict}.",
            mark=_percent(marks.pass_mark),
            verdict=say("reached") if marks.passes else say("not reached"),
        ),
        style="good" if marks.passes else "strong",
    )
    page.line(
        say(
            "By these marks, between {low} and {high} of such items would be right (95 times in 100).",
            low=_percent(marks.all.low),
            high=_percent(marks.all.high),
        )
    )
    if marks.left_open:
        page.line(say("Left open, and so without a mark: {count}.", count=marks.left_open))
    page.heading(say("Topic by topic"))
    page.table(
        [say("topic"), say("right"), say("of"), say("between")],
        [
            [
                say(book.topics.get(one.topic, one.topic)),
                str(one.right),
                str(one.items),
                say("{low} and {high}", low=_percent(one.low), high=_percent(one.high)),
            ]
            for one in marks.topics
        ],
    )
    _put_ideas(page, marks, book)
    wrong = [str(at) for at, one in enumerate(exam.all_given, start=1) if not one.right]
    if wrong:
        page.heading(say("Items to look at again"))
        page.line(", ".join(wrong))


def put_why(page: Page, given: Given, book: Book, *, number: int) -> None:
    """Put an item with its why on a page.

    Args:
        page: Where it goes.
        given: The item, and what was chosen.
        book: For the words of sources.
        number: Its number in the exam.
    """
    question = given.question
    page.heading(say("{number}. {ask}", number=number, ask=question.ask))
    for fact in question.facts:
        page.line(fact, indent=3)
    put_picture(page, question, indent=3)
    chosen = say("left open") if given.option is None else given.option.text
    page.line(say("You chose: {text}", text=chosen), indent=3)
    told = say("{label}: {text}", label=key_label(question), text=question.answer.text)
    page.line(told, indent=3, style="strong")
    page.line(question.explanation if given.option is None else given.option.feedback.text, indent=3)
    source = book.rulebook.sources.get(question.source, question.source)
    page.line(say("Source: {source}", source=source), indent=3, style="faint")


def exam_to_plain(exam: Exam, marks: Marks, *, seed: int) -> dict[str, Any]:
    """Write an exam and its marks for other programs.

    Args:
        exam: The exam, over.
        marks: Its marks.
        seed: What the paper was drawn with.

    Returns:
        JSON values.
    """
    return {
        "format": FORMAT,
        "seed": seed,
        "student": exam.student,
        "seconds": exam.seconds,
        "items": [
            {
                "item": one.question.item,
                "skill": one.question.skill,
                "topic": one.question.topic,
                "seed": one.question.seed,
                "stem": one.question.stem,
                "answer": one.question.answer.text,
                "choice": None if one.option is None else one.option.text,
                "correct": one.right,
                "misconceptions": list(one.option.misconceptions) if one.option else [],
                "explanation": one.question.explanation,
                "source": one.question.source,
            }
            for one in exam.all_given
        ],
        "marks": _topic_to_plain(marks.all),
        "topics": {one.topic: _topic_to_plain(one) for one in marks.topics},
        "interval": "Wilson, 95 %",
        "left_open": marks.left_open,
        "misconceptions": dict(marks.ideas),
        "pass_mark": marks.pass_mark,
        "passes": marks.passes,
    }


def _topic_to_plain(marks: TopicMarks) -> dict[str, Any]:
    return {
        "right": marks.right,
        "items": marks.items,
        "share": round(marks.share, 4),
        "low": round(marks.low, 4),
        "high": round(marks.high, 4),
    }


def _put_ideas(page: Page, marks: Marks, book: Book) -> None:
    met = [(book.beliefs[idea], count) for idea, count in marks.ideas.items() if idea in book.beliefs]
    if not met:
        return
    page.heading(say("Ideas met"))
    for belief, count in met:
        page.line(
            say('"{idea}" ({count})', idea=say(belief.belief), count=count),
            mark="! " if belief.harm else "- ",
        )
        page.line(say(belief.mend), indent=2)


def _percent(share: float) -> str:
    return say("{percent} %", percent=round(100 * share))
