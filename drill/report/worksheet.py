"""Questions on paper: a worksheet with figures, and behind it a sheet with the answers and the whys.

HTML, whole in itself, nothing fetched, no scripts; for A4 and Letter.
"""

import base64
from collections.abc import Mapping, Sequence

from drill.bank.book import Book
from drill.bank.question import Question
from drill.basis.words import say
from drill.report.svg import figure_svg, markup_text
from drill.rulebook.domain import UNKNOWN
from drill.service.head_map import head_map
from drill.service.wording import zone_words
from drill.service.zones import ZONE_NAMES

# A4 is the narrower paper and Letter the lower one; no item is parted by the edge of a page.
_STYLE = """
@page { margin: 12mm 13mm; }
* { box-sizing: border-box; margin: 0; padding: 0; }
html { background: #ffffff; color: #141414; }
body { font-family: Arial, "Liberation Sans", Helvetica, sans-serif; font-size: 10.5pt; line-height: 1.28;
  max-width: 184mm; margin: 0 auto; overflow-wrap: anywhere;
  -webkit-print-color-adjust: exact; print-color-adjust: exact; }
h1 { font-size: 15pt; }
header { border-bottom: 0.6mm solid #0b4a6f; padding-bottom: 2mm; margin-bottom: 3mm; }
.blanks { display: flex; gap: 6mm; margin-top: 5mm; }
.blanks span { flex: 1; border-bottom: 0.2mm solid #141414; color: #3c3c3c; font-size: 0.9em; }
ol, ul { list-style: none; } section.answers { break-before: page; }
li.item { break-inside: avoid; padding: 2.4mm 0 2.8mm; border-bottom: 0.15mm solid #b5b5b5; display: flex;
  gap: 4mm; align-items: flex-start; }
.number { font-weight: bold; min-width: 8mm; } .text { flex: 1; } .ask { font-weight: bold; margin: 1mm 0; }
.fact { color: #262626; font-size: 0.95em; }
.options li { padding-left: 7mm; text-indent: -7mm; margin-top: 0.8mm; }
.box { display: inline-block; width: 3.4mm; height: 3.4mm; border: 0.25mm solid #141414; margin-right: 1.6mm;
  vertical-align: -0.4mm; }
.line { display: inline-block; min-width: 34mm; border-bottom: 0.2mm solid #141414; height: 5mm; }
figure { width: 40mm; text-align: center; font-size: 0.82em; color: #3c3c3c; }
figure svg { width: 40mm; height: 34mm; display: block; }
figure.own { width: auto; text-align: left; margin: 1.4mm 0; }
figure.own img { max-width: 110mm; max-height: 52mm; width: auto; height: auto; display: block;
  border: 0.15mm solid #b5b5b5; }
.why li.item { display: block; padding: 1.6mm 0; } .key { font-weight: bold; }
.source { color: #3c3c3c; font-size: 0.86em; } footer { margin-top: 3mm; font-size: 0.9em; }
@media screen { body { padding: 8mm 0; } }
"""


def worksheet_html(questions: Sequence[Question], book: Book) -> str:
    """Write questions as a worksheet with an answer sheet.

    Args:
        questions: In order.
        book: For the school's name, and the words of topics and sources.

    Returns:
        A whole HTML document; the answers begin on a page of their own.
    """
    title = say("Worksheet: {count} questions", count=len(questions))
    asked = "\n".join(_asked(number, one) for number, one in enumerate(questions, start=1))
    told = "\n".join(
        _told(number, one, book.rulebook.sources) for number, one in enumerate(questions, start=1)
    )
    decide = say("On a client the maker's directions, local codes and licensed practice decide.")
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{markup_text(title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n<main>\n"
        f"{_head(title, book.school.name, blanks=True)}\n<ol>\n{asked}\n</ol>\n"
        f"<footer>{markup_text(decide)}</footer>\n</main>\n"
        f'<section class="answers">\n{_head(say("Answers, and why"), book.school.name, blanks=False)}\n'
        f'<ol class="why">\n{told}\n</ol>\n<footer>{markup_text(decide)}</footer>\n</section>\n'
        "</body>\n</html>\n"
    )


def _head(title: str, school: str, *, blanks: bool) -> str:
    named = f"<p>{markup_text(say(school))}</p>" if school else ""
    lines = "".join(f"<span>{markup_text(word)}</span>" for word in (say("Name"), say("Date"), say("Marks")))
    return (
        f"<header><h1>{markup_text(title)}</h1>{named}"
        + (f'<div class="blanks">{lines}</div>' if blanks else "")
        + "</header>"
    )


def _asked(number: int, question: Question) -> str:
    facts = "".join(f'<p class="fact">{markup_text(fact)}</p>' for fact in question.facts)
    ask = question.ask[:1].upper() + question.ask[1:]
    return (
        f'<li class="item"><span class="number">{number}.</span><div class="text">{facts}{_own(question)}'
        f'<p class="ask">{markup_text(ask)}</p>{_room(question)}</div>{_figure(number, question)}</li>'
    )


def _room(question: Question) -> str:
    """Give the room to answer in: boxes to tick, a line for a number, or lines to put letters on."""
    if question.answer_as == "number":
        unit = "" if question.unit == "ratio" else f" {question.unit}"
        return f'<p><span class="line"></span>{markup_text(unit)}</p>'
    if question.answer_as == "order":
        steps = "".join(f"<li>{markup_text(f'{one.id}. {one.text}')}</li>" for one in question.pieces)
        order = markup_text(say("In order:"))
        return f'<ul class="options">{steps}</ul><p>{order} <span class="line"></span></p>'
    options = "".join(
        f'<li><span class="box"></span>{markup_text(f"{option.id}. {option.text}")}</li>'
        for option in question.options
    )
    return f'<ul class="options">{options}</ul>'


def _figure(number: int, question: Question) -> str:
    """Draw what the question draws, else the zone that it asks, with the way the hair grows."""
    figure, caption = question.figure, ""
    if figure is None and question.zone is not None and question.consultation is not None:
        growth = {zone: str(question.consultation.of("hair.growth", zone)) for zone in ZONE_NAMES}
        grown = {zone: way for zone, way in growth.items() if way not in ("none", UNKNOWN)}
        figure, caption = head_map(highlight=question.zone, directions=grown), zone_words(question.zone)
        if grown:
            caption = say("{caption}. Arrow: the way the hair grows", caption=caption)
    if figure is None:
        return ""
    return (
        f"<figure>{figure_svg(figure, name=f'q{number}')}"
        f"<figcaption>{markup_text(caption[:1].upper() + caption[1:])}</figcaption></figure>"
    )


def _own(question: Question) -> str:
    """Give the school's picture, inside the page; a reader that speaks says its words once."""
    picture = question.picture
    if picture is None:
        return ""
    words = markup_text(picture.words[:1].upper() + picture.words[1:])
    data = base64.b64encode(picture.data).decode("ascii")
    return (
        f'<figure class="own"><img src="data:image/{picture.kind};base64,{data}" alt="{words}"/>'
        f'<figcaption aria-hidden="true">{words}</figcaption></figure>'
    )


def _told(number: int, question: Question, sources: Mapping[str, str]) -> str:
    key = question.answer
    letter = "" if question.answer_as in ("number", "order") else f"{key.id}. "
    near = ""
    if question.answer_as == "number":
        near = say(" ({percent} % either way)", percent=round(100 * question.tolerance))
    source = say("Source: {source}", source=sources.get(question.source, question.source))
    return (
        f'<li class="item"><p class="key">{number}. {markup_text(f"{letter}{key.text}{near}")}</p>'
        f'<p>{markup_text(question.explanation)}</p><p class="source">{markup_text(source)}</p></li>'
    )
