"""What a check found, as one page of HTML that needs nothing beside it."""

from collections.abc import Iterable

from drill.bank.differences import Example
from drill.bank.rule_impact import RuleImpact
from drill.basis.words import say
from drill.report.check_text import CheckReport
from drill.report.impact_words import (
    after_words,
    before_words,
    change_words,
    days_words,
    decision_words,
    heads_words,
    item_words,
    warnings,
    where_words,
)
from drill.report.svg import markup_text
from drill.rulebook.rulebook import Rulebook

_STYLE = """
@page { margin: 14mm; }
* { box-sizing: border-box; margin: 0; padding: 0; }
html { background: #f1eeea; color: #1b1b1b; }
body { font: 16px/1.45 Arial, "Liberation Sans", Helvetica, sans-serif; max-width: 60rem; margin: 2rem auto;
  padding: 0 1.2rem; overflow-wrap: anywhere; }
h1 { font-size: 1.7rem; color: #0b4a6f; line-height: 1.2; }
h2 { font-size: 1.25rem; color: #0b4a6f; } h3 { font-size: 1rem; margin-top: 1rem; }
.lead { margin: 0.4rem 0 1.2rem; } .faint { color: #4c4c4c; }
.counts { display: flex; flex-wrap: wrap; gap: 0.6rem; list-style: none; margin-bottom: 1.4rem; }
.counts li { background: #fff; border-left: 0.3rem solid #0b4a6f; padding: 0.5rem 0.9rem; flex: 1 1 8rem; }
.counts strong { display: block; font-size: 1.5rem; }
section { background: #fff; padding: 1.2rem 1.4rem; margin-bottom: 1.2rem; border-top: 0.25rem solid #0b4a6f;
  break-inside: avoid; }
ul.plain { padding-left: 1.2rem; }
.bar { background: #e3ded8; height: 0.9rem; margin: 0.3rem 0 0.5rem; position: relative; }
.bar i { display: block; background: #0b4a6f; height: 100%; }
table { border-collapse: collapse; width: 100%; margin-top: 0.4rem; table-layout: fixed; }
th:nth-child(1) { width: 36%; } th:nth-child(2) { width: 16%; } td:first-child { font-size: 0.9rem; }
th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.6rem; border-bottom: 1px solid #cfc8c0; }
thead th { border-bottom: 2px solid #1b1b1b; font-size: 0.9rem; }
td.before { background: #f6eae6; } td.after { background: #e7f0e6; }
.stop { border: 2px solid #8c1d18; border-left-width: 0.6rem; padding: 0.6rem 0.9rem; margin-top: 0.9rem; }
.stop strong { color: #8c1d18; }
footer { margin: 1.4rem 0; }
@media (max-width: 40rem) { thead { display: none; } td { display: block; } }
@media print { html { background: #fff; } body { margin: 0; max-width: none; } }
"""


def check_page(report: CheckReport) -> str:
    """Write a check as a page.

    Args:
        report: What was found.

    Returns:
        An HTML document with its style inside; it loads nothing and runs nothing.
    """
    title = say("{school}: what the local rules change", school=report.school or say("The built-in rules"))
    body = _faults(report) if report.problems else _sound(report)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{markup_text(title)}</title><style>{_STYLE}</style></head><body><main>"
        f"<h1>{markup_text(title)}</h1>{body}</main>"
        f'<footer class="faint">{markup_text(_deferring())}</footer></body></html>\n'
    )


def _deferring() -> str:
    return say(
        "A plan or an answer is a proposal, never permission. On a client the maker's directions, local "
        "codes and licensed practice decide."
    )


def _faults(report: CheckReport) -> str:
    lead = say("Refused: {count} to mend. Nothing of this folder is used.", count=len(report.problems))
    lines = "".join(f"<li>{markup_text(str(problem))}</li>" for problem in report.problems)
    return f'<div class="stop"><strong>{markup_text(lead)}</strong><ul class="plain">{lines}</ul></div>'


def _sound(report: CheckReport) -> str:
    lead = say("Rules and questions are sound: every limit is kept on every combination of facts.")
    if not report.rules:
        return f'<p class="lead">{markup_text(lead)} {markup_text(say("There are no local rules."))}</p>'
    counts = (
        (len(report.rules), say("local rules")),
        (len(report.items), say("questions with another answer")),
        (len(report.retired), say("questions no longer asked")),
        (len({one for rule in report.rules for one in rule.true_ideas}), say("wrong ideas that came true")),
    )
    told = "".join(f"<li><strong>{count}</strong>{markup_text(words)}</li>" for count, words in counts)
    rules = "".join(_rule(rule, number, report.rulebook) for number, rule in enumerate(report.rules, start=1))
    return f'<p class="lead">{markup_text(lead)}</p><ul class="counts">{told}</ul>{rules}'


def _rule(rule: RuleImpact, number: int, rulebook: Rulebook | None) -> str:
    days = days_words(rule)
    heading = f"{number}. {rule.rule}{f', {days}' if days else ''}"
    parts = [
        f"<h2>{markup_text(heading)}</h2>",
        f'<p>{markup_text(say(rule.because))} <span class="faint">[{markup_text(rule.source)}]</span></p>',
        _listed(change_words(row) for row in rule.rows),
        f"<h3>{markup_text(say('Decisions'))}</h3><p>{markup_text(heads_words(rule))}</p>",
        _bars(rule),
        _examples(rule.examples),
    ]
    if rule.items:
        count = say("Questions whose answer changes: {count}", count=len(rule.items))
        parts.append(f"<h3>{markup_text(count)}</h3>")
        parts.append(_listed(item_words(one, rulebook) for one in rule.items))
    for warning, ids in warnings(rule):
        parts.append(
            f'<div class="stop"><strong>{markup_text(warning)}</strong>: {markup_text(", ".join(ids))}</div>'
        )
    return f"<section>{''.join(parts)}</section>"


def _listed(texts: Iterable[str]) -> str:
    return f'<ul class="plain">{"".join(f"<li>{markup_text(text)}</li>" for text in texts)}</ul>'


def _bars(rule: RuleImpact) -> str:
    return "".join(
        f'<p class="faint">{markup_text(decision_words(name))}: {count}/{rule.heads}</p>'
        f'<div class="bar"><i style="width:{100 * count / rule.heads:.1f}%"></i></div>'
        for name, count in rule.decisions.items()
    )


def _examples(examples: Iterable[Example]) -> str:
    rows = "".join(
        f"<tr><td>{'<br>'.join(map(markup_text, one.head))}</td><td>{markup_text(where_words(one))}</td>"
        f'<td class="before">{markup_text(before_words(one))}</td>'
        f'<td class="after">{markup_text(after_words(one))}</td></tr>'
        for one in examples
    )
    if not rows:
        return ""
    heads = "".join(
        f'<th scope="col">{markup_text(one)}</th>'
        for one in (say("Head"), say("Decision"), say("Before"), say("After"))
    )
    return f"<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
