"""``wavedrill ask``: questions with their key, for who teaches or writes them."""

import json
import random
from collections.abc import Iterator, Sequence
from itertools import chain, cycle, zip_longest
from pathlib import Path

import click

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.item import Item
from drill.bank.make import QuestionMaker
from drill.bank.question import Question, question_to_plain
from drill.basis.problem import Place, Problem
from drill.basis.words import say
from drill.cli.in_force import book_in_force
from drill.cli.telling import FOUND_PROBLEMS, name_or_usage, note, refuse, terminal_page
from drill.memory.attempt import LARGEST_SEED
from drill.report.question_text import put_question
from drill.report.worksheet import worksheet_html
from drill.store.whole import write_whole

_MOST = 10_000
# An item that has no question for so many seeds in a row has none.
_TRIES = 25


@click.command("ask", short_help="Make questions with their key.")
@click.option("--topic", metavar="TOPIC", help="Only questions of this topic.")
@click.option("--item", "item_id", metavar="ID", help="Only questions of this item.")
@click.option(
    "--seed",
    metavar="N",
    type=click.IntRange(0, LARGEST_SEED - 2 * _MOST),
    default=1,
    show_default=True,
    help="Draws the heads; the same item, seed and rules give the same question.",
)
@click.option(
    "-n",
    "count",
    metavar="K",
    type=click.IntRange(1, _MOST),
    default=1,
    show_default=True,
    help="How many questions.",
)
@click.option("--json", "as_json", is_flag=True, help="Write a list of objects.")
@click.option(
    "--html",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Write a worksheet to print, with the answers and whys on a sheet of their own.",
)
@click.option(
    "--school",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Under a school's rules, with its questions.",
)
def ask_command(
    *,
    topic: str | None,
    item_id: str | None,
    seed: int,
    count: int,
    as_json: bool,
    html: Path | None,
    school: Path | None,
) -> None:
    """Make questions with key, options and explanations.

    For who teaches: the key is shown. The key of a scenario is typed nowhere; it is what the planner decides
    for that head, and a wrong option is what a wrong idea would decide.
    """
    book = book_in_force(school)
    items = _items(book, topic=topic, item_id=item_id)
    questions = tuple(_questions(book, items, seed=seed, count=count))
    if html is not None and questions:
        _write_worksheet(html, worksheet_html(questions, book))
    if as_json:
        click.echo(json.dumps([question_to_plain(one) for one in questions], indent=2))
    elif html is None:
        page = terminal_page()
        for number, one in enumerate(questions, start=1):
            put_question(page, one, topic=say(book.topics[one.topic]), beliefs=book.beliefs, number=number)
        click.echo(page.text, nl=False)
    if len(questions) < count:
        note(say("{made} of {count} questions could be made.", made=len(questions), count=count))
    if not questions:
        raise click.exceptions.Exit(FOUND_PROBLEMS)


def _write_worksheet(path: Path, text: str) -> None:
    try:
        write_whole(path, text.encode())
    except OSError as error:
        what = say("cannot write the file: {reason}", reason=(error.strerror or "").lower())
        refuse([Problem(Place(str(path)), what, say("check the folder and its rights"))])
    note(say("Written: {path}", path=path))


def _items(book: Book, *, topic: str | None, item_id: str | None) -> tuple[Item, ...]:
    items = book.items
    if topic is not None:
        name_or_usage(topic, book.topics, option="--topic")
        items = tuple(item for item in items if item.topic == topic)
    if item_id is not None:
        name_or_usage(item_id, (item.id for item in items), option="--item")
        items = tuple(item for item in items if item.id == item_id)
    return items


def _questions(book: Book, items: Sequence[Item], *, seed: int, count: int) -> Iterator[Question]:
    """Make question after question, each with the next seed, until there are enough."""
    maker = QuestionMaker(Beliefs(book))
    made = missed = 0
    for item in cycle(_round_the_topics(items, seed)) if items else ():
        question = maker.make(item, seed + made + (missed if len(items) == 1 else 0))
        if question is None:
            missed += 1
            if missed >= _TRIES * len(items):
                return
            continue
        made += 1
        yield question
        if made == count:
            return


def _round_the_topics(items: Sequence[Item], seed: int) -> list[Item]:
    """Deal the items out, one of each topic in turn, so that a short run sees many topics."""
    by_topic: dict[str, list[Item]] = {}
    for item in items:
        by_topic.setdefault(item.topic, []).append(item)
    rng = random.Random(f"round {seed}")  # noqa: S311  a shuffle needs no secret
    for one in by_topic.values():
        rng.shuffle(one)
    return [item for item in chain(*zip_longest(*by_topic.values())) if item is not None]
