"""A sample of a book's questions, held against the guidelines of item writing, and how they read."""

from collections.abc import Sequence
from dataclasses import dataclass

from drill.bank.lint import lint_items, lint_questions
from drill.bank.make import QuestionMaker
from drill.bank.question import Question
from drill.bank.readable import median_grade
from drill.basis.problem import Problem

SEEDS = (1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a look at all items and some of their questions found.

    Attributes:
        problems: What is wrong with the items as written.
        questions: Questions looked at.
        stem_grade: School grade that reads the stem in the middle, head and question together.
        explanation_grade: The same of what is said of an option.
    """

    problems: tuple[Problem, ...] = ()
    questions: int = 0
    stem_grade: float = 0.0
    explanation_grade: float = 0.0


def look_at_items(maker: QuestionMaker, *, made: Sequence[Question] | None = None) -> Looked:
    """Hold the items of a book, and questions made of each, against the guidelines.

    Args:
        maker: Makes the book's questions.
        made: Questions of all items with :data:`SEEDS`, where they are made already.

    Returns:
        What was found.
    """
    items = maker.book.items
    if made is None:
        asked = (maker.make(item, seed) for item in items for seed in SEEDS)
        made = [question for question in asked if question is not None]
    return Looked(
        problems=tuple(sorted({*lint_items(items), *lint_questions(made, items)})),
        questions=len(made),
        stem_grade=round(median_grade(one.stem for one in made), 1),
        explanation_grade=round(
            median_grade(option.feedback.text for one in made for option in one.options), 1
        ),
    )
