"""The screens around a sitting as values: today, and done.

Nothing here decides what is right or what comes next; it only says it.
"""

from collections.abc import Iterable, Mapping, Sequence

from drill.app.opening import HEAD_DP
from drill.app.progress import STATES, progress_figure, state_name, state_words, swatch
from drill.app.screen import Legend, Part, Picture, Press, PressRow, Screen, Sign, Words
from drill.app.show_question import caution_words, sentence
from drill.bank.book import Book
from drill.bank.question import Question
from drill.basis.words import say
from drill.memory.choose import Choice, spread_topics
from drill.memory.recall import HoldingState, Memory
from drill.study.open_sitting import OpenSitting
from drill.study.session import FIVE_MINUTES, TWELVE_QUESTIONS
from drill.study.sitting import Goal
from drill.study.standing import exam_day, holding_by_topic

# To read, to answer and to read why: only to say how many questions minutes may hold.
SECONDS_EACH = 40.0


def today_screen(
    book: Book,
    memories: Mapping[str, Memory],
    *,
    day: int,
    coming: Sequence[Choice],
    goal: Goal,
    aside: OpenSitting | None = None,
) -> Screen:
    """Show the head first: what holds, what comes today and why.

    Args:
        book: The book.
        memories: What the student's attempts add up to.
        day: Study day.
        coming: What may be asked today, best first.
        goal: How long the next sitting lasts.
        aside: The sitting put aside earlier today; None where there is none.

    Returns:
        The screen.
    """
    by_topic = holding_by_topic(book, memories, day=day)
    counts = _added(by_topic.values())
    foot: tuple[Press, ...] = ()
    if coming:
        foot = (Press(action="start", text=say("Start"), style="main"),)
    if aside is not None and coming:
        foot = (
            Press(action="start", text=say("Start anew")),
            Press(action="resume", text=say("Go on"), style="main"),
        )
    parts: list[Part] = []
    if aside is not None and coming:
        parts.append(Words(text=_aside_words(aside)))
    parts += _coming_parts(book, coming, goal)
    if coming:
        parts.append(_goal_row(goal))
    parts.append(Words(text=say("Topic by topic"), style="title"))
    parts += [
        Words(label=say(book.topics.get(topic, topic)), text=_topic_words(topic_counts), style="small")
        for topic, topic_counts in by_topic.items()
    ]
    return Screen(
        name="today",
        title=say(book.school.name) if book.school.name else say("Today"),
        aside=(*_exam_parts(book, day), *_head_parts(counts)),
        parts=tuple(parts),
        foot=foot,
    )


def done_screen(
    book: Book,
    memories: Mapping[str, Memory],
    *,
    day: int,
    asked: Mapping[str, tuple[str, ...]],
    questions: Sequence[Question],
    left: int,
) -> Screen:
    """Show what held, what needs work, and which ideas were met.

    Args:
        book: The book.
        memories: What the student's attempts add up to.
        day: Study day.
        asked: The decisions of the sitting, each with the wrong ideas that the answer showed.
        questions: Their questions, in order.
        left: Decisions that could still be asked today.

    Returns:
        The screen.
    """
    counts = _added(holding_by_topic(book, memories, day=day).values())
    right = [one for one in questions if one.skill in memories and memories[one.skill].last_right]
    work = [one for one in questions if one not in right]
    parts = _question_list(say("Held"), right, sign="right")
    parts += _question_list(say("Needs work"), work, sign="other")
    parts += _ideas(book, asked.values())
    parts.append(Words(text=_tomorrow_words(asked=len(asked), left=left), label=say("Tomorrow")))
    return Screen(
        name="done",
        title=say("Today"),
        aside=(Words(text=say("Done for now"), style="verdict"), *_head_parts(counts)),
        parts=tuple(parts),
        foot=(Press(action="home", text=say("Back to the head"), style="main"),),
        caution=caution_words(),
    )


def _month_words() -> tuple[str, ...]:
    return (
        say("January"), say("February"), say("March"), say("April"), say("May"), say("June"), say("July"),
        say("August"), say("September"), say("October"), say("November"), say("December"),
    )  # fmt: skip


def _added(by_topic: Iterable[Mapping[HoldingState, int]]) -> dict[HoldingState, int]:
    counts = list(by_topic)
    return {state: sum(one.get(state, 0) for one in counts) for state in STATES}


def _head_parts(counts: Mapping[HoldingState, int]) -> tuple[Part, ...]:
    rows = tuple((swatch(state), Words(text=state_words(state, counts[state]))) for state in STATES)
    return (Picture(figure=progress_figure(counts), height_dp=HEAD_DP), Legend(rows=rows))


def _aside_words(aside: OpenSitting) -> str:
    count = len(aside.asked)
    if aside.goal.questions is not None:
        return say("A sitting waits: {count} of {all} answered.", count=count, all=aside.goal.questions)
    return say("A sitting waits: {count} answered.", count=count)


def _coming_parts(book: Book, coming: Sequence[Choice], goal: Goal) -> list[Part]:
    title = Words(text=say("What comes today, and why"), style="title")
    if not coming:
        rests = say("Everything has been asked today and rests until tomorrow.")
        return [title, Words(text=rests if book.items else say("There is no question set in this book."))]
    expected = goal.questions or max(1, round((goal.minutes or 0) * 60 / SECONDS_EACH))
    next_ones = spread_topics(coming)[:expected]
    found = [one.reason.kind for one in next_ones]
    lines = (
        (found.count("wrong_last"), say("Did not hold last time")),
        (found.count("fading"), say("Held, and begins to fade")),
        (found.count("new"), say("Not met yet")),
    )
    told = [say("{why}: {count}", count=count, why=why) for count, why in lines if count]
    first = next_ones[0].reason.topic
    return [
        title,
        Words(text="\n".join(told)),
        Words(
            text=say("The first one is from: {topic}.", topic=say(book.topics.get(first, first))),
            style="small",
        ),
    ]


def _goal_row(goal: Goal) -> PressRow:
    texts = (
        ("goal:minutes", FIVE_MINUTES, say("5 minutes")),
        ("goal:questions", TWELVE_QUESTIONS, say("12 questions")),
    )
    return PressRow(
        presses=tuple(
            Press(action=action, text=text, style="choice", is_on=goal == one) for action, one, text in texts
        )
    )


def _topic_words(counts: Mapping[HoldingState, int]) -> str:
    told = [
        say("{count} {state}", count=counts[state], state=state_name(state))
        for state in STATES
        if counts[state]
    ]
    return ", ".join(told)


def _exam_parts(book: Book, day: int) -> tuple[Part, ...]:
    exam = exam_day(book)
    if exam is None or exam < day:
        return ()
    return (Words(text=_exam_words(book, exam=exam, day=day), style="number"),)


def _exam_words(book: Book, *, exam: int, day: int) -> str:
    if exam == day:
        return say("Theory exam today")
    _, month, date = book.school.exam_date.split("-")
    on = say("{day} {month}", day=int(date), month=_month_words()[int(month) - 1])
    if exam == day + 1:
        return say("Theory exam tomorrow, {on}", on=on)
    return say("Theory exam in {days} days, {on}", days=exam - day, on=on)


def _question_list(title: str, questions: Sequence[Question], *, sign: Sign) -> list[Part]:
    if not questions:
        return []
    asks = dict.fromkeys(sentence(question.ask) for question in questions)
    return [Words(text=title, style="title"), *(Words(text=ask, sign=sign) for ask in asks)]


def _ideas(book: Book, shown: Iterable[tuple[str, ...]]) -> list[Part]:
    """Tell the likeliest idea of each answer as an idea, with what mends it."""
    ids = dict.fromkeys(ideas[0] for ideas in shown if ideas and ideas[0] in book.beliefs)
    if not ids:
        return []
    parts: list[Part] = [Words(text=say("Ideas met today"), style="title")]
    for one in ids:
        belief = book.beliefs[one]
        parts.append(Words(text=say(belief.mend), label=say("“{idea}”", idea=say(belief.belief))))
    return parts


def _tomorrow_words(*, asked: int, left: int) -> str:
    if not asked:
        return say("Everything has been asked today. Come back tomorrow: what was asked rests until then.")
    if left:
        return say("Come back tomorrow: what was asked today rests until then.")
    return say("Nothing is left for today. Come back tomorrow.")
