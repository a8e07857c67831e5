"""Items held against the guidelines of item writing, as far as a program can tell.

What is found is a fault of the item as written, with its place; what only shows over many of them is told at
the first one.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import sqrt

from drill.bank.item import Item
from drill.bank.question import Question
from drill.basis.problem import NOWHERE, Problem

MOST_STEM_WORDS = 60
# Longest against shortest option; a few letters are no hint.
MOST_RATIO, FREE_LETTERS = 1.5, 10
# How many standard errors a share may be off before it is called a pattern.
_FAR = 3.0
_COMMON = 0.04
_SHORTEST_RARE_WORD = 5
_WORDS = re.compile(r"[a-z]+")
_NEGATIVE = re.compile(r"\b(?:not|except|least likely)\b|n['\u2019]t\b", re.IGNORECASE)
_ABOVE = re.compile(r"\b(?:all|none|both|neither) of (?:the above|these|them)\b", re.IGNORECASE)
_ABSOLUTE = re.compile(r"\b(?:always|never|completely|absolutely|every time|under no)\b", re.IGNORECASE)
_RANGE = re.compile(r"(\d+(?:\.\d+)?)\s*(?:to|-|\u2013)\s*(\d+(?:\.\d+)?)")
_FEWEST_RANGES = 2

Check = Callable[[Item], Iterator[tuple[str, str]]]


def lint_items(items: Sequence[Item]) -> tuple[Problem, ...]:
    """Hold items against the guidelines.

    Args:
        items: Items of any decks.

    Returns:
        What is wrong with them, each at its item.

    Source:
        Haladyna, Downing, Rodriguez, Applied Measurement in Education 15, 309-334, 2002.
    """
    found = [
        Problem(item.place, f"{item.id}: {what}", mend)
        for item in items
        for check in _CHECKS
        for what, mend in check(item)
    ]
    found += _twins(items)
    found += _clangs(items)
    found += _longest_too_often(items)
    return tuple(sorted(set(found)))


def lint_questions(questions: Sequence[Question], items: Sequence[Item]) -> tuple[Problem, ...]:
    """Hold made questions against the guidelines that only show there.

    Args:
        questions: Many questions of the items.
        items: The items.

    Returns:
        Stems too long for a phone, at their item; places of the key that are met too often, at no place.
    """
    places = {item.id: item.place for item in items}
    found = {
        Problem(
            places.get(one.item, NOWHERE),
            f"{one.item}: with the head it has {words} words",
            f"keep the question short; {MOST_STEM_WORDS} words is the most",
        )
        for one in questions
        if (words := len(one.stem.split())) > MOST_STEM_WORDS
    }
    for count in sorted({len(one.options) for one in questions}):
        # Numbers stand in rising order, wherever the key is.
        shuffled = [one for one in questions if len(one.options) == count and one.answer_as == "option"]
        shuffled = [one for one in shuffled if not isinstance(one.answer.value, float)]
        met = Counter(one.answer.id for one in shuffled)
        for letter, times in sorted(met.items()):
            if _is_far(times, len(shuffled), 1 / count):
                what = f"of {len(shuffled)} questions with {count} options {times} have the key at {letter}"
                found.add(Problem(NOWHERE, what, "the order of the options is to be drawn evenly"))
    return tuple(sorted(found))


def _options(item: Item) -> tuple[str, ...]:
    return (item.answer, *(one.text for one in item.wrong)) if item.answer else ()


def _check_stem(item: Item) -> Iterator[tuple[str, str]]:
    marks = item.stem.count("?")
    if marks > 1:
        yield "the stem asks more than one question", "ask one"
    if not item.stem.rstrip().endswith("?") and not item.steps:
        yield "the stem does not end as a question", "write it as a whole question with its question mark"
    if found := _NEGATIVE.search(item.stem):
        yield f"the stem asks with '{found[0]}'", "ask for what is right, not for what is not"


def _check_help(item: Item) -> Iterator[tuple[str, str]]:
    if not item.look:
        yield "'look' is missing", "say what to look at next time"


def _check_options(item: Item) -> Iterator[tuple[str, str]]:
    for text in _options(item):
        if found := _ABOVE.search(text):
            yield f"'{text}' stands for other options ('{found[0]}')", "write out what it means"
        if found := _ABSOLUTE.search(text):
            yield (
                f"'{text}' is too sure of itself ('{found[0]}')",
                "take that word out; it marks a wrong option",
            )
        if found := _NEGATIVE.search(text):
            yield f"'{text}' says what is not ('{found[0]}')", "say what is"


def _check_lengths(item: Item) -> Iterator[tuple[str, str]]:
    lengths = [len(text) for text in _options(item)]
    if lengths and max(lengths) > max(MOST_RATIO * min(lengths), min(lengths) + FREE_LETTERS):
        what = f"the options have from {min(lengths)} to {max(lengths)} letters"
        yield what, f"bring them closer, the longest at most {MOST_RATIO:g} times the shortest"


def _check_ranges(item: Item) -> Iterator[tuple[str, str]]:
    spans = [(float(found[1]), float(found[2])) for text in _options(item) if (found := _RANGE.search(text))]
    spans.sort()
    if len(spans) >= _FEWEST_RANGES and any(low < high for (_, high), (low, _) in pairwise(spans)):
        yield "the numbers of two options overlap", "let each range begin where another ends"


def _check_grammar(item: Item) -> Iterator[tuple[str, str]]:
    """Tell where some options are whole sentences or begin small and the others are not."""
    texts = _options(item)
    for traits, what in (
        ([text.endswith(".") for text in texts], "end with a full stop"),
        ([text[:1].islower() for text in texts], "begin with a small letter"),
    ):
        count = sum(traits)
        if 0 < count < len(texts):
            yield f"some options {what} and others do not", "write all of them in one form"


_CHECKS: tuple[Check, ...] = (
    _check_stem,
    _check_help,
    _check_options,
    _check_lengths,
    _check_ranges,
    _check_grammar,
)


def _twins(items: Sequence[Item]) -> Iterator[Problem]:
    first: dict[str, Item] = {}
    for item in items:
        if not item.is_fact:
            continue
        stem = " ".join(_WORDS.findall(item.stem.lower()))
        if stem in first:
            what = f"{item.id}: {first[stem].id} asks the same, at {first[stem].place}"
            yield Problem(item.place, what, "ask something else, or take one out")
        first.setdefault(stem, item)


def _clangs(items: Sequence[Item]) -> Iterator[Problem]:
    """Find keys that share a rare word with their stem when no wrong option does."""
    facts = [item for item in items if item.answer]
    met = Counter(word for item in facts for word in _long_words(item.stem))
    for item in facts:
        shared = _long_words(item.stem) & _long_words(item.answer)
        shared -= {word for one in item.wrong for word in _long_words(one.text)}
        rare = sorted(word for word in shared if met[word] <= max(1, _COMMON * len(facts)))
        if rare:
            what = f"{item.id}: '{rare[0]}' stands in the stem and in the key only"
            yield Problem(
                item.place, what, "say it otherwise in one of them, or use it in a wrong option too"
            )


def _long_words(text: str) -> set[str]:
    """Give the words of a text that say something, without their endings."""
    words = (word for word in _WORDS.findall(text.lower()) if len(word) >= _SHORTEST_RARE_WORD)
    return {re.sub(r"(?:ing|ed|es|s)$", "", word) for word in words}


def _longest_too_often(items: Sequence[Item]) -> Iterator[Problem]:
    facts = [item for item in items if item.answer]
    longest = [item for item in facts if all(len(one.text) < len(item.answer) for one in item.wrong)]
    chance = sum(1 / (1 + len(item.wrong)) for item in facts) / len(facts) if facts else 0.0
    if _is_far(len(longest), len(facts), chance) and len(longest) > chance * len(facts):
        what = f"of {len(facts)} facts {len(longest)} have their key as the longest option"
        yield Problem(longest[0].place, what, "shorten keys, or write wrong options as fully")


def _is_far(times: int, count: int, chance: float) -> bool:
    """Tell whether a share is farther from chance than chance itself explains."""
    return count > 0 and abs(times / count - chance) > _FAR * sqrt(chance * (1 - chance) / count)
