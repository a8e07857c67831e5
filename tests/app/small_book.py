"""A small book for tests: the built-in rules, a few wrong ideas, a handful of items, an invented school."""

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

from drill.bank.book import Book, School
from drill.bank.item import Item, Wrong
from drill.load.rulebook import load_rulebook
from drill.rulebook.condition import Condition
from drill.rulebook.overlay import Change, Overlay
from drill.rulebook.table import Row
from drill.study.session import TWELVE_QUESTIONS, Session

COMMON = "common practice"
HERE = timezone(timedelta(hours=-6))
EVENING = datetime(2026, 3, 2, 19, 0, tzinfo=HERE)


def _idea(name, table, then, *, seen, mend, belief, harm=False, when=None):
    conditions = {key: Condition(values=tuple(values)) for key, values in (when or {}).items()}
    row = Row(id=f"believed-{name}", when=conditions, then=then, because=belief, source=COMMON)
    return Overlay(
        id=name,
        kind="misconception",
        because="It sounds right.",
        source=COMMON,
        belief=belief,
        seen=seen,
        mend=mend,
        harm=harm,
        changes=(Change(op="add", target=table, row=row, at=BEFORE[table]),),
    )


def _first_rows(rulebook):
    return {name: table.rows[0].id for name, table in rulebook.tables.items()}


RULEBOOK = load_rulebook()[0]
BEFORE = _first_rows(RULEBOOK)
IDEAS = (
    _idea(
        "lift-is-always-on-base",
        "base_control",
        "on_base",
        belief="Any lift means on base, wherever it is.",
        seen="Hair bends hard at the scalp where it was pulled up.",
        mend="On base is for sound hair at the top and crown.",
        harm=True,
    ),
    _idea(
        "a-gap-does-no-harm",
        "base_control",
        "off_base",
        belief="A gap at the scalp does not show.",
        seen="The curl begins a finger's breadth from the scalp, as if it had grown out for weeks.",
        mend="Off base is for hair that is to lie close.",
    ),
    _idea(
        "off-base-is-a-fault",
        "base_control",
        "half_off_base",
        when={"wish.root_volume": ["low"]},
        belief="Off base is a fault, whatever the wish.",
        seen="Hair that should lie close stands off the head.",
        mend="Off base is the choice where the hair is to lie close.",
    ),
    _idea(
        "one-paper-for-all",
        "papers",
        "single_flat",
        belief="One flat paper does for every strand.",
        seen="Short ends slip out and stand off like hooks.",
        mend="Look at the ends first: layered ends take two papers.",
    ),
    _idea(
        "paper-is-for-long-hair",
        "papers",
        "none",
        belief="Only long hair needs a paper.",
        seen="The ends are bent like fish hooks.",
        mend="Every strand of a perm has its paper past the ends.",
    ),
    Overlay(
        id="stretch-for-curl",
        kind="misconception",
        because="Tight and tight are the same word.",
        source=COMMON,
        belief="Stretching makes the curl tighter.",
        seen="Hair breaks near the scalp.",
        mend="The tool sets the size; wind with an even pull.",
        harm=True,
    ),
)
ITEMS = (
    Item(
        id="base-anywhere",
        topic="base_control",
        kind="choose",
        decision="base_control",
        row="everyday-half-off",
        zones=("top", "left_side", "right_side", "back_center"),
        vary={"wish.root_volume": ("moderate",), "hair.growth": ("forward", "left", "none")},
        stem="{zone}: how does the tool sit on its base?",
        look="Ask how much lift is wished before the first parting.",
    ),
    Item(
        id="base-worn-close",
        topic="base_control",
        kind="choose",
        decision="base_control",
        row="worn-close",
        zones=("top", "back_center"),
        vary={"wish.root_volume": ("low",)},
        stem="{zone}: how does the tool sit on its base?",
    ),
    Item(
        id="papers-for-layers",
        topic="papers",
        kind="choose",
        decision="papers",
        row="double-for-layered-ends",
        zones=("top", "nape_center", "left_side"),
        vary={"hair.ends": ("layered",)},
        stem="{zone}: how do the end papers lie?",
    ),
    Item(
        id="who-sets-the-size",
        topic="winding",
        kind="choose",
        stem="What sets the size of the finished curl?",
        answer="The diameter of the tool",
        wrong=(
            Wrong(text="How tightly the hair is stretched", misconception="stretch-for-curl"),
            Wrong(text="How wet the hair is"),
        ),
        because="The strand keeps the bend that it was wound to; pulling only strains it.",
        source=COMMON,
        look="Feel for an even pull from end to end.",
    ),
    Item(
        id="band-on-the-tool",
        topic="winding",
        kind="choose",
        stem="Where does the band of a tool lie?",
        answer="Straight across the top of the tool, clear of the scalp",
        wrong=(Wrong(text="Close to the scalp"), Wrong(text="Twisted, so that it holds better")),
        because="A band that presses at the scalp leaves a dent, and hair breaks there.",
        source=COMMON,
    ),
)
TOPICS = {"base_control": "Base control", "papers": "End papers", "winding": "Winding"}
BOOK = Book(
    rulebook=RULEBOOK,
    misconceptions=IDEAS,
    items=ITEMS,
    topics=TOPICS,
    school=School(name="Larkfield School of Hair", exam_date="2026-04-12"),
)


def large_book(count):
    """The same with so many items, facts most of them."""
    more = tuple(
        replace(ITEMS[3 + n % 2], id=f"fact-{n}", stem=f"{ITEMS[3 + n % 2].stem} ({n})")
        for n in range(count - len(ITEMS))
    )
    return replace(BOOK, items=(*ITEMS, *more))


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self, at=EVENING):
        self.at = at

    def __call__(self):
        return self.at

    def pass_s(self, seconds):
        self.at += timedelta(seconds=seconds)


def new_session(log, *, clock=None, book=BOOK, goal=TWELVE_QUESTIONS, student="Wren"):
    return Session(
        book,
        log=log,
        student=student,
        device="tablet-1",
        clock=clock or Clock(),
        rng=random.Random(7),
        goal=goal,
    )


UTC_EVENING = EVENING.astimezone(UTC)
