"""What a tutor reads: for each student how the topics hold and which wrong ideas showed, then the class."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from drill.bank.book import Book
from drill.basis.plain import to_plain
from drill.memory.attempt import EPOCH, Attempt
from drill.memory.belief import Belief, misconception_report
from drill.memory.diagnosis import TopicStanding, topic_report
from drill.memory.recall import HoldingState, fold_class
from drill.study.standing import holding_by_topic, skills_by_topic

FORMAT = "tutor.v1"


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentReport:
    """One student.

    Attributes:
        student: The name in the log.
        answers: How many there are.
        last_day: Study day of the last one.
        clock_ahead: How many came from a clock that ran ahead.
        topics: The weakest first.
        holding: For each topic, how many decisions are in which state.
        ideas: Wrong ideas that were chosen or are likely held: those that can harm first, then the likeliest.
    """

    student: str
    answers: int
    last_day: int
    clock_ahead: int
    topics: tuple[TopicStanding, ...]
    holding: Mapping[str, Mapping[HoldingState, int]]
    ideas: tuple[Belief, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassReport:
    """A class, or one student.

    Attributes:
        day: Study day that it is for.
        students: In order of their names.
        topics: Mean chance of a right answer in each topic over the class, the weakest first.
        shared: For each wrong idea that is likely held, by whom: those that can harm first, then by how many.
    """

    day: int
    students: tuple[StudentReport, ...]
    topics: tuple[tuple[str, float], ...]
    shared: tuple[tuple[str, tuple[str, ...]], ...]


def report_class(
    attempts: Sequence[Attempt],
    *,
    book: Book,
    day: int,
    offered: Callable[[Attempt], frozenset[str]],
    clock_ahead: Mapping[str, int],
) -> ClassReport:
    """Make the report of a class.

    Args:
        attempts: Of all students, times brought back where a clock ran ahead.
        book: What was asked.
        day: Study day to report for; later answers are left out.
        offered: Gives the wrong ideas that the options of an attempt's question would reveal.
        clock_ahead: By student, how many answers came from a clock that ran ahead.

    Returns:
        The report.
    """
    attempts = [one for one in attempts if one.day <= day]
    memories = fold_class(attempts)
    topics = topic_report(memories, skills_by_topic=skills_by_topic(book), day=day)
    harmful = frozenset(one.id for one in book.misconceptions if one.harm)
    beliefs = misconception_report(attempts, offered=offered, harmful=harmful)
    students = tuple(
        StudentReport(
            student=student,
            answers=len(own),
            last_day=max(one.day for one in own),
            clock_ahead=clock_ahead.get(student, 0),
            topics=topics[student],
            holding=holding_by_topic(book, memories[student], day=day),
            ideas=_ideas(beliefs[student], harmful),
        )
        for student in memories
        if (own := [one for one in attempts if one.student == student])
    )
    return ClassReport(
        day=day, students=students, topics=_class_topics(students), shared=_shared(students, harmful)
    )


def class_to_plain(report: ClassReport, book: Book) -> dict[str, Any]:
    """Write a report for other programs.

    Args:
        report: The report.
        book: For the words of topics and ideas.

    Returns:
        JSON values; probabilities from 0 to 1, days as ISO dates.
    """
    return {
        "format": FORMAT,
        "day": date_of(report.day).isoformat(),
        "rulebook": book.rulebook.digest,
        "students": [_student_to_plain(one, book) for one in report.students],
        "class": {
            "topics": [
                {"topic": topic, "title": book.topics[topic], "p_right": round(p_right, 3)}
                for topic, p_right in report.topics
            ],
            "ideas": [
                {**_idea_words(idea, book), "students": list(students)} for idea, students in report.shared
            ],
        },
    }


def date_of(day: int) -> date:
    """Give the date of a study day."""
    return EPOCH.date() + timedelta(days=day)


def _ideas(beliefs: Sequence[Belief], harmful: frozenset[str]) -> tuple[Belief, ...]:
    told = [one for one in beliefs if one.show or one.chosen]
    return tuple(sorted(told, key=lambda one: (one.misconception not in harmful, -one.probability)))


def _class_topics(students: Sequence[StudentReport]) -> tuple[tuple[str, float], ...]:
    found: dict[str, list[float]] = {}
    for student in students:
        for one in student.topics:
            found.setdefault(one.topic, []).append(one.p_right)
    means = {topic: sum(values) / len(values) for topic, values in found.items()}
    return tuple(sorted(means.items(), key=lambda pair: (pair[1], pair[0])))


def _shared(
    students: Sequence[StudentReport], harmful: frozenset[str]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    found: dict[str, tuple[str, ...]] = {}
    for student in students:
        for one in student.ideas:
            if one.show:
                found[one.misconception] = (*found.get(one.misconception, ()), student.student)
    return tuple(sorted(found.items(), key=lambda pair: (pair[0] not in harmful, -len(pair[1]), pair[0])))


def _student_to_plain(report: StudentReport, book: Book) -> dict[str, Any]:
    return {
        "student": report.student,
        "answers": report.answers,
        "last_day": date_of(report.last_day).isoformat(),
        "clock_ahead": report.clock_ahead,
        "topics": [
            {
                **to_plain(one),
                "title": book.topics[one.topic],
                "p_right": round(one.p_right, 3),
                "recall": round(one.recall, 3),
                **report.holding[one.topic],
            }
            for one in report.topics
        ],
        "ideas": [
            {
                **_idea_words(one.misconception, book),
                "probability": round(one.probability, 3),
                "offered": one.offered,
                "chosen": one.chosen,
                "sure": one.sure,
                "passed_over": one.passed_over,
                "likely": one.show,
                "act": one.report,
            }
            for one in report.ideas
        ],
    }


def _idea_words(idea: str, book: Book) -> dict[str, Any]:
    known = book.beliefs.get(idea)
    return {
        "misconception": idea,
        "belief": known.belief if known else idea,
        "harm": known.harm if known else False,
        "mend": known.mend if known else "",
    }
