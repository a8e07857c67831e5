"""A sitting as text: the head first, then what is asked, what holds and why, and how it ends."""

from collections.abc import Iterable, Mapping, Sequence

from drill.bank.book import Book
from drill.bank.question import Option, Question
from drill.basis.words import say
from drill.memory.attempt import Certainty
from drill.memory.choose import Reason
from drill.memory.recall import HoldingState, Memory
from drill.report.head_text import HEAD_WIDTH, head_lines
from drill.report.page import Page
from drill.report.question_text import put_picture
from drill.service.wording import zone_words
from drill.study.answer import answer_words, key_label
from drill.study.sitting import Sitting
from drill.study.standing import holding_by_topic

CERTAINTIES: tuple[Certainty, ...] = ("low", "middle", "high")
STATES: tuple[HoldingState, ...] = ("holding", "loosening", "not_wound")


def certainty_words(certainty: Certainty) -> str:
    """Say a certainty as what a person would do at the chair."""
    return {
        "low": say("I'd ask first"),
        "middle": say("I'd check"),
        "high": say("I'd do it"),
    }[certainty]


def put_asked(
    page: Page, sitting: Sitting, book: Book, *, chosen: str, with_map: bool = True, plain: bool = False
) -> None:
    """Put a question on a page, and under the answer chosen how sure one may be.

    Args:
        page: Where it goes.
        sitting: With a question.
        book: For the words of topics.
        chosen: The answer as it was given; empty before it.
        with_map: Whether the head is drawn where a zone is asked.
        plain: Whether the drawing keeps to letters that every terminal has.

    Raises:
        ValueError: If the sitting has no question.
    """
    if sitting.question is None:
        raise ValueError(f"no question to show in the phase {sitting.phase}")
    question = sitting.question
    page.line(_head_line(sitting, book), style="strong")
    page.blank()
    drawing = _drawing(question, plain=plain) if with_map else []
    if drawing:
        marked = [say("Marked: {zone}.", zone=zone_words(question.zone))] if question.zone else []
        page.beside(drawing, [*question.facts, *marked], drawing_width=HEAD_WIDTH)
    else:
        for fact in question.facts:
            page.line(fact)
    put_picture(page, question)
    page.blank()
    page.line(_sentence(question.ask), style="strong")
    if question.answer_as in ("option", "place"):
        _put_options(page, question, chosen)
        return
    if question.answer_as == "order":
        _put_pieces(page, question, chosen)
    if chosen:
        words = say("In this order") if question.answer_as == "order" else _given(question, chosen)
        page.line(words, mark="  >  ", style="strong")
        put_certainties(page)


def _given(question: Question, chosen: str) -> str:
    return answer_words(question, question.marked(chosen))


def _drawing(question: Question, *, plain: bool) -> list[str]:
    """Draw the head with the zone that is asked, or with the letters of the places to choose from."""
    if question.answer_as == "place":
        return head_lines(signs={str(option.value): option.id for option in question.options}, plain=plain)
    return head_lines(marked=question.zone, plain=plain) if question.zone else []


def _put_options(page: Page, question: Question, chosen: str) -> None:
    for number, option in enumerate(question.options, start=1):
        if not chosen:
            key = option.id if question.answer_as == "place" else str(number)
            page.line(option.text, mark=f"  {key}  ")
        elif option.id != question.marked(chosen).id:
            # The numbers now stand for how sure, so the other options give theirs up.
            page.line(option.text, mark="     ", style="faint")
        else:
            page.line(option.text, mark="  >  ", style="strong")
            put_certainties(page)


def _put_pieces(page: Page, question: Question, chosen: str) -> None:
    """Put the steps down by their letters; once they are in an order, in that one."""
    letters = str(question.marked(chosen).value) if chosen else ""
    for piece in sorted(question.pieces, key=lambda one: letters.find(one.id)):
        page.line(piece.text, mark=f"  {piece.id}  ", style="strong" if chosen else "")


def put_certainties(page: Page) -> None:
    """Put down the three ways to be sure, each with its key."""
    page.line(say("With this client in the chair:"), indent=5)
    for number, certainty in enumerate(CERTAINTIES, start=1):
        page.line(certainty_words(certainty), mark=f"{number}  ", indent=7)


def put_reveal(page: Page, question: Question, option: Option, book: Book) -> None:
    """Put what holds on a page, and why.

    Args:
        page: Where it goes.
        question: The question that was answered.
        option: What was chosen.
        book: For the words of ideas and sources.
    """
    _put_verdict(page, option)
    page.blank()
    page.line(say("You chose: {text}", text=answer_words(question, option)))
    if question.answer_as == "number":
        page.line(say("Computed here: {text}", text=question.answer.text), style="strong")
    elif not option.correct:
        key = say("{label}: {text}", label=key_label(question), text=question.answer.text)
        page.line(key, style="strong")
    page.blank()
    told = option.feedback
    # The whole is kept short: what its text leaves out is left out here.
    for text in (told.decides, told.seen, told.right_when, told.look):
        if text and text in told.text:
            page.line(text)
    known = [book.beliefs[idea] for idea in option.misconceptions if idea in book.beliefs]
    if known and not option.correct:
        page.blank()
        page.line(say('Behind it may stand the idea: "{idea}"', idea=say(known[0].belief)))
    page.blank()
    source = book.rulebook.sources.get(question.source, question.source)
    page.line(say("Source: {source}", source=source), style="faint")
    page.line(
        say("On a client the maker's directions, local codes and licensed practice decide."), style="faint"
    )


def put_done(
    page: Page,
    questions: Sequence[Question],
    *,
    asked: Mapping[str, tuple[str, ...]],
    memories: Mapping[str, Memory],
    book: Book,
    day: int,
) -> None:
    """Put the end of a sitting on a page: what held, what needs work, which ideas were met.

    Args:
        page: Where it goes.
        questions: Those that were answered, in order.
        asked: The decisions of the sitting, each with the wrong ideas that the answer showed.
        memories: What the student's attempts add up to.
        book: The book.
        day: Study day.
    """
    page.title(say("Done for now"))
    right = [one for one in questions if one.skill in memories and memories[one.skill].last_right]
    _put_questions(page, say("Held: {count} of {all}", count=len(right), all=len(questions)), right)
    work = [one for one in questions if one not in right]
    if work:
        _put_questions(page, say("Needs work"), work)
    _put_ideas(page, asked.values(), book)
    put_standing(page, memories, book=book, day=day)


def put_standing(page: Page, memories: Mapping[str, Memory], *, book: Book, day: int) -> None:
    """Put down, topic by topic, how many decisions are in which state.

    Args:
        page: Where it goes.
        memories: What the student's attempts add up to.
        book: The book.
        day: Study day.
    """
    page.heading(say("The head so far, in decisions"))
    by_topic = holding_by_topic(book, memories, day=day)
    page.table(
        [say("topic"), say("holding"), say("loosening"), say("not wound")],
        [
            [say(book.topics[topic]), *(str(counts[state]) for state in STATES)]
            for topic, counts in by_topic.items()
        ],
    )


def _head_line(sitting: Sitting, book: Book) -> str:
    number = sitting.count + 1
    count = (
        say("{number} of {all}", number=number, all=sitting.goal.questions)
        if sitting.goal.questions is not None
        else str(number)
    )
    topic = sitting.question.topic if sitting.question else ""
    parts = [count, say(book.topics.get(topic, topic))]
    if sitting.reason is not None:
        parts.append(_why_asked(sitting.reason.reason))
    return "   ".join(parts)


def _why_asked(reason: Reason) -> str:
    return {
        "new": say("not met yet"),
        "fading": say("held {days} days ago, begins to fade", days=reason.days_since),
        "wrong_last": say("did not hold {days} days ago", days=reason.days_since),
    }[reason.kind]


def _put_verdict(page: Page, option: Option) -> None:
    if option.correct:
        page.line(say("That holds."), style="good")
    elif option.feedback.opening:
        page.line(option.feedback.opening, style="alarm")
    else:
        page.line(say("Not on this head."), style="strong")


def _put_questions(page: Page, heading: str, questions: Iterable[Question]) -> None:
    page.heading(heading)
    for ask in dict.fromkeys(_sentence(one.ask) for one in questions):
        page.line(ask, mark="- ")


def _put_ideas(page: Page, shown: Iterable[tuple[str, ...]], book: Book) -> None:
    ideas = dict.fromkeys(one[0] for one in shown if one and one[0] in book.beliefs)
    if not ideas:
        return
    page.heading(say("Ideas met today"))
    for idea in ideas:
        belief = book.beliefs[idea]
        page.line(say('"{idea}"', idea=say(belief.belief)), mark="! " if belief.harm else "- ")
        page.line(say(belief.mend), indent=2)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
