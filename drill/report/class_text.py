"""The report of a class in words: no bare percentages, harmful ideas first, and what to teach next."""

from drill.bank.book import Book
from drill.basis.words import say
from drill.memory.belief import Belief
from drill.report.class_report import ClassReport, StudentReport, date_of
from drill.report.page import Page

_MOST_IDEAS = 6
_MOST_TOPICS = 3


def about_in_ten(probability: float) -> str:
    """Say a probability as so many in ten.

    Args:
        probability: From 0 to 1.

    Returns:
        For example ``about 7 in 10``; the ends are never said to be certain.
    """
    tenths = round(probability * 10)
    if tenths <= 0:
        return say("less than 1 in 10")
    if tenths >= 10:  # noqa: PLR2004  all of ten
        return say("more than 9 in 10")
    return say("about {tenths} in 10", tenths=tenths)


def put_class(page: Page, report: ClassReport, book: Book) -> None:
    """Put a report on a page: the class first where there are several students, then each of them.

    Args:
        page: Where it goes.
        report: The report.
        book: For the words of topics and ideas.
    """
    page.title(
        say("{count} students, as of {day}", count=len(report.students), day=_day(report.day))
        if len(report.students) > 1
        else say("As of {day}", day=_day(report.day))
    )
    if len(report.students) > 1:
        _put_next(page, report, book)
    for student in report.students:
        _put_student(page, student, book)
    page.blank()
    page.line(
        say(
            "Read with care: each figure is a guess from the answers beside it. A topic that was little "
            "asked says little; a wrong idea is no verdict on a person."
        ),
        style="faint",
    )


def _put_next(page: Page, report: ClassReport, book: Book) -> None:
    page.heading(say("Teach next"))
    for idea, students in report.shared[:_MOST_IDEAS]:
        known = book.beliefs.get(idea)
        words = say(
            '"{belief}" Held by {students}.',
            belief=say(known.belief) if known else idea,
            students=", ".join(students),
        )
        mark, words = _told(words, harm=bool(known and known.harm))
        page.line(words, mark=mark, style="alarm" if known and known.harm else "")
        if known:
            page.line(say("Say: {mend}", mend=say(known.mend)), indent=2)
    if not report.shared:
        page.line(say("No wrong idea is likely held by anyone today."), mark="- ")
    weakest = [
        f"{say(book.topics[topic])} ({about_in_ten(value)})" for topic, value in report.topics[:_MOST_TOPICS]
    ]
    page.blank()
    page.line(say("Weakest topics, with answers expected right today: {topics}.", topics=", ".join(weakest)))


def _put_student(page: Page, report: StudentReport, book: Book) -> None:
    page.heading(
        say(
            "{student}: {answers} answers, the last on {day}",
            student=report.student,
            answers=report.answers,
            day=_day(report.last_day),
        )
    )
    if report.clock_ahead:
        page.line(
            say(
                "{count} answers come from a clock that ran ahead: set that device's clock.",
                count=report.clock_ahead,
            ),
            mark="! ",
        )
    page.table(
        [
            say("topic"),
            say("right today"),
            say("holding"),
            say("loosening"),
            say("not wound"),
            say("answers"),
        ],
        [
            [
                say(book.topics[one.topic]),
                about_in_ten(one.p_right),
                *(str(report.holding[one.topic][state]) for state in ("holding", "loosening", "not_wound")),
                str(one.answers),
            ]
            for one in report.topics
        ],
    )
    page.blank()
    likely = [one for one in report.ideas if one.show]
    page.line(
        say("Wrong ideas that are likely held, and harmful ones that showed of late:")
        if likely
        else say("No wrong idea is likely held today.")
    )
    for one in likely[:_MOST_IDEAS]:
        _put_idea(page, one, book)
    if len(likely) > _MOST_IDEAS:
        page.line(say("and {count} more", count=len(likely) - _MOST_IDEAS), indent=2)


def _put_idea(page: Page, belief: Belief, book: Book) -> None:
    known = book.beliefs.get(belief.misconception)
    harm = bool(known and known.harm)
    words = say(
        '"{belief}" Held: {chance}; chosen {chosen} of {offered} times, {sure} of them sure.',
        belief=say(known.belief) if known else belief.misconception,
        chance=about_in_ten(belief.probability),
        chosen=belief.chosen,
        offered=belief.offered,
        sure=belief.sure,
    )
    mark, words = _told(words, harm=harm)
    page.line(words, mark=mark, style="alarm" if harm else "")


def _told(words: str, *, harm: bool) -> tuple[str, str]:
    """Give the mark of an idea and its words, with the warning in them."""
    return ("! ", say("Can harm: {idea}", idea=words)) if harm else ("- ", words)


def _day(day: int) -> str:
    return date_of(day).isoformat()
