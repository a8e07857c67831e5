"""Questions with their key, for a teacher to read: never for the student who is asked."""

from collections.abc import Mapping

from drill.bank.question import Option, Question
from drill.basis.words import say
from drill.report.page import Page
from drill.rulebook.overlay import Overlay


def put_question(
    page: Page, question: Question, *, topic: str, beliefs: Mapping[str, Overlay], number: int
) -> None:
    """Put a question with key and explanations on a page.

    Args:
        page: Where it goes.
        question: The question.
        topic: Title of its topic.
        beliefs: Wrong ideas by id.
        number: Its number on the page.
    """
    page.heading(say("{number}. {topic}", number=number, topic=topic))
    page.line(
        say("item {item}, seed {seed}", item=question.item, seed=question.seed), indent=3, style="faint"
    )
    for fact in question.facts:
        page.line(fact, indent=3)
    put_picture(page, question, indent=3)
    page.line(question.ask, indent=3, style="strong")
    for option in question.options:
        _put_option(page, option, beliefs)
    page.line(say("Source: {source}", source=question.source), indent=3, style="faint")


def put_picture(page: Page, question: Question, *, indent: int = 0) -> None:
    """Put down in words what a question's own picture shows; nothing where it has none.

    Args:
        page: Where it goes.
        question: The question.
        indent: Blanks before it.
    """
    if question.picture is not None:
        page.line(say("Picture: {words}", words=question.picture.words), indent=indent)


def _put_option(page: Page, option: Option, beliefs: Mapping[str, Overlay]) -> None:
    mark = "*" if option.correct else " "
    page.line(option.text, mark=f" {mark} {option.id}. ", style="good" if option.correct else "")
    page.line(option.feedback.text, indent=6)
    for idea in option.misconceptions:
        words = say(beliefs[idea].belief) if idea in beliefs else idea
        page.line(say("Shows the idea: {idea}", idea=words), indent=6, style="faint")
