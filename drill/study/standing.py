"""Where a student stands: the decisions of a book by topic, which of them hold, and the days to the exam."""

from collections.abc import Mapping
from datetime import date

from drill.bank.book import Book
from drill.memory.attempt import EPOCH
from drill.memory.recall import HoldingState, Memory, holding_state


def skills_by_topic(book: Book, *, topic: str | None = None) -> dict[str, list[str]]:
    """Sort the decisions to hold by topic, in deck order."""
    found: dict[str, list[str]] = {}
    for skill, one in book.topic_of.items():
        if topic in (None, one):
            found.setdefault(one, []).append(skill)
    return found


def exam_day(book: Book) -> int | None:
    """Give the study day of the school's exam, None where none is set."""
    stated = book.school.exam_date
    return (date.fromisoformat(stated) - EPOCH.date()).days if stated else None


def holding_by_topic(
    book: Book, memories: Mapping[str, Memory], *, day: int
) -> dict[str, dict[HoldingState, int]]:
    """Count, for each topic, how many decisions are in which state.

    Args:
        book: The book.
        memories: By decision to hold.
        day: Study day.

    Returns:
        Counts by state, by topic in deck order.
    """
    found: dict[str, dict[HoldingState, int]] = {}
    for topic, skills in skills_by_topic(book).items():
        counts: dict[HoldingState, int] = {"not_wound": 0, "loosening": 0, "holding": 0}
        for skill in skills:
            counts[holding_state(memories.get(skill), day=day)] += 1
        found[topic] = counts
    return found
