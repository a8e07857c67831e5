"""From what is seen afterwards to its causes, on a page."""

from collections.abc import Mapping, Sequence

from drill.basis.words import say
from drill.report.page import Page
from drill.service.faults import Cause, Fault
from drill.service.wording import name_words

_MOST_IDEAS = 2


def put_faults(page: Page, faults: Sequence[Fault]) -> None:
    """Put on a page what can be seen, each with its name.

    Args:
        page: Where it goes.
        faults: In order.
    """
    page.title(say("What do you see?"))
    page.table([say("name"), say("what is seen")], [[one.id, say(one.seen)] for one in faults])
    page.line(say("Then: wavedrill seen NAME --consultation FILE"), style="faint")


def put_causes(
    page: Page, fault: Fault, causes: Sequence[Cause], *, beliefs: Mapping[str, str], knows_head: bool
) -> None:
    """Put the causes of what was seen on a page.

    Args:
        page: Where they go.
        fault: What was seen.
        causes: The best fit first.
        beliefs: Wrong ideas in words by id.
        knows_head: Whether they were looked for on a certain head.
    """
    page.title(say("Seen: {seen}", seen=say(fault.seen)))
    page.line(say("Each is a possibility to check, none a verdict on a person."))
    decided = [one for one in causes if one.kind == "decision"]
    if decided:
        page.heading(say("Decided otherwise than the plan; the best fit first"))
        for number, one in enumerate(decided, start=1):
            mark = f"{number}. "
            page.line(one.words, mark=mark)
            page.line(say("What to do: {mend}", mend=one.mend), indent=len(mark))
            ideas = [beliefs[name] for name in one.beliefs if name in beliefs][:_MOST_IDEAS]
            for idea in ideas:
                page.line(
                    say("An idea that leads there: {idea}", idea=say(idea)), indent=len(mark), style="faint"
                )
    by_hand = [one for one in causes if one.kind != "decision"]
    if by_hand:
        page.heading(say("Hands and clock; the most usual first"))
        for number, one in enumerate(by_hand, start=1):
            mark = f"{number}. "
            page.line(one.words, mark=mark)
            page.line(say("What to do: {mend}", mend=one.mend), indent=len(mark))
    if fault.carried_by and not decided:
        _put_carried(page, fault, knows_head=knows_head)
    page.heading(say("First"))
    for text in _first():
        page.line(text, mark="! ")


def _put_carried(page: Page, fault: Fault, *, knows_head: bool) -> None:
    names = ", ".join(name_words(one) for one in fault.carried_by)
    if knows_head:
        page.line(
            say("On this head no other decision would show as this did; looked at: {names}.", names=names)
        )
    else:
        page.heading(say("The plan"))
        page.line(
            say(
                "These decisions can bring it about as well: {names}. With --consultation FILE they are "
                "looked at on that head.",
                names=names,
            )
        )


def _first() -> tuple[str, ...]:
    return (
        say(
            "Sore, red or blistered skin, itching or swelling comes first: a physician, with the product's "
            "name."
        ),
        say(
            "Nothing is processed again before the licensed practitioner, in a school the instructor, has "
            "seen the hair and a test was made. Over-processed hair is never done again."
        ),
    )
