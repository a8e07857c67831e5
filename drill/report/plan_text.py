"""A plan as a teacher would say it: whether, what could go wrong, what to ask, what to test, then how."""

from collections.abc import Iterable

from drill.basis.words import say
from drill.report.page import Page
from drill.report.plan_steps_text import put_steps, put_time
from drill.report.zone_table import put_zones
from drill.service.client_words import vague_words
from drill.service.plan import WORKING, Plan
from drill.service.wording import stated_words, value_words, zone_words

_SERVICES = {"perm": "perm", "wet_set": "wet set, no chemicals", "practice_wrap": "practice wrap with water"}
_LOTION = {"alkaline": "alkaline", "acid_balanced": "acid-balanced"}


def put_plan(page: Page, plan: Plan, *, why: bool = False) -> None:
    """Put a plan on a page.

    Args:
        page: Where it goes.
        plan: The plan.
        why: Whether questions, tests and steps tell their reasons.
    """
    service = str(plan.consultation.of("service"))
    words = say(_SERVICES.get(service, service.replace("_", " ")))
    client = plan.consultation.client
    page.title(
        say("Plan: {service}, for {client}", service=words, client=client)
        if client
        else say("Plan: {service}", service=words)
    )
    _put_verdict(page, plan)
    _put_numbered(
        page,
        say("Answers that do not fit together: ask them once more"),
        [(say(row.say), say(row.because)) for row in plan.questions],
        why=why,
    )
    _put_asked(page, plan, why=why)
    if plan.first_aid:
        page.heading(say("If something goes wrong: know this before the first step"), style="alarm")
        for row in plan.first_aid:
            page.line(say(row.say), mark="! ")
    _put_numbered(
        page,
        say("Tests, in this order; each waits until the one before it is clear"),
        [(say(row.say), say(row.because)) for row in plan.tests],
        why=why,
    )
    _put_listed(page, say("Instead"), [say(row.say) for row in plan.instead])
    if plan.zones:
        put_zones(page, plan)
    _put_totals(page, plan)
    _put_lotion(page, plan)
    _put_test_curls(page, plan)
    put_time(page, plan)
    put_steps(page, plan, why=why)
    _put_listed(page, say("Cautions"), [say(row.say) for row in plan.cautions])
    _put_listed(page, say("Notes"), plan.notes)


def _put_verdict(page: Page, plan: Plan) -> None:
    page.heading(
        say("Verdict: {verdict}", verdict=value_words("verdict", plan.verdict)),
        style="good" if plan.verdict == "go" else "alarm",
    )
    for row in plan.verdict_reasons:
        page.line(say(row.because), mark="- ")
    page.line(
        say(
            "A plan is a proposal, never permission. The licensed practitioner, the maker's directions "
            "and local codes decide."
        )
    )


def _put_asked(page: Page, plan: Plan, *, why: bool) -> None:
    if not plan.ask_first:
        return
    page.heading(say("Ask first, in this order"))
    for number, one in enumerate(plan.ask_first, start=1):
        mark = f"{number}. "
        page.line(say(one.ask), mark=mark)
        vague = vague_words(one.field)
        if vague is not None:
            page.line(
                say(
                    "Said like this it is no answer yet: {says} Then ask: {back}",
                    says=say(vague.says),
                    back=say(vague.ask_back),
                ),
                indent=len(mark),
                style="faint",
            )
        if why:
            page.line(say("Why: {because}", because=say(one.because)), indent=len(mark), style="faint")


def _put_numbered(page: Page, heading: str, pairs: list[tuple[str, str]], *, why: bool) -> None:
    if not pairs:
        return
    page.heading(heading)
    for number, (text, because) in enumerate(pairs, start=1):
        mark = f"{number}. "
        page.line(text, mark=mark)
        if why:
            page.line(say("Why: {because}", because=because), indent=len(mark), style="faint")


def _put_listed(page: Page, heading: str, texts: Iterable[str]) -> None:
    texts = list(texts)
    if not texts:
        return
    page.heading(heading)
    for text in texts:
        page.line(text, mark="- ")


def _put_lotion(page: Page, plan: Plan) -> None:
    lotion = plan.lotion
    if plan.verdict not in WORKING:
        return
    page.heading(say("Waving lotion"))
    if lotion["class"] == "none":
        page.line(say("None: this service is done without waving lotion."))
        return
    kind = say(_LOTION.get(lotion["class"], lotion["class"].replace("_", " ")))
    strength = stated_words(lotion["strength"])
    page.line(say("{kind}, made for {strength} hair.", kind=kind.capitalize(), strength=strength))
    ester = (
        say("with a thioglycolic ester: gloves that resist it") if lotion["ester"] == "yes" else say("none")
    )
    page.line(say("Ester: {ester}. Heat: {heat}.", ester=ester, heat=stated_words(lotion["heat"])))
    page.line(say("The maker's directions come before this page, above all its longest time."))


def _put_test_curls(page: Page, plan: Plan) -> None:
    if plan.verdict not in (*WORKING, "ask_first"):
        return  # a service that is not done has no test curls to make
    curls = plan.test_curls
    page.heading(say("Test curls: needed") if curls.needed else say("Test curls: not needed"))
    for why in curls.why:
        page.line(say(why), mark="- ")
    if curls.zones:
        where = ", ".join(zone_words(zone) for zone in curls.zones)
        page.line(say("{count} tools: {where}.", count=curls.count, where=where))
    # A plan with steps tells them there, in their place.
    for number, step in enumerate(() if plan.steps else curls.steps, start=1):
        page.line(say(step), mark=f"{number}. ")


def _put_totals(page: Page, plan: Plan) -> None:
    totals = plan.totals
    if not totals.tools:
        return
    page.heading(say("In all"))
    page.line(
        say("{tools} tools, {papers} end papers with spare ones.", tools=totals.tools, papers=totals.papers)
    )
