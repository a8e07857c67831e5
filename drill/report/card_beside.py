"""What stands beside the table on a service card: totals, lotion, limit, test curls, where to begin."""

from drill.basis.length import number_text
from drill.basis.words import say
from drill.report.svg import markup_text
from drill.service.plan import Plan
from drill.service.wording import stated_words
from drill.service.zones import zone_label

_LOTION = {"alkaline": "alkaline", "acid_balanced": "acid-balanced"}


def beside_html(plan: Plan) -> str:
    """Put the short lines of a plan that works one under the other.

    Args:
        plan: A plan with zones.

    Returns:
        Markup: short sections.
    """
    return "".join((_totals(plan), _lotion(plan), _limit(plan), _test_curls(plan), _handling(plan)))


def has_lotion(plan: Plan) -> bool:
    """Tell whether a plan uses waving lotion.

    Args:
        plan: The plan.

    Returns:
        False for a set and a practice wrap.
    """
    return plan.lotion["class"] != "none"


def _lotion(plan: Plan) -> str:
    kind = plan.lotion["class"]
    heading = markup_text(say("Waving lotion"))
    if kind == "none":
        none = markup_text(say("None: this service is done without waving lotion."))
        return f"<section><h2>{heading}</h2><p>{none}</p></section>"
    told = [
        say(
            "{kind}, made for {strength} hair.",
            kind=say(_LOTION.get(kind, kind.replace("_", " "))).capitalize(),
            strength=stated_words(plan.lotion["strength"]),
        ),
        say(
            "Ester: {ester}. Heat: {heat}.",
            ester=stated_words(plan.lotion["ester"]),
            heat=stated_words(plan.lotion["heat"]),
        ),
        say("The maker's directions come before this card."),
    ]
    return f"<section><h2>{heading}</h2><p>{markup_text(' '.join(told))}</p></section>"


def _test_curls(plan: Plan) -> str:
    curls = plan.test_curls
    if not curls.needed:
        return f"<section><h2>{markup_text(say('Test curls: not needed'))}</h2></section>"
    where = ", ".join(map(zone_label, curls.zones))
    told = say("{count} tools first: {where}. The rest stays dry.", count=curls.count, where=where)
    heading = markup_text(say("Test curls: before anything else"))
    return f"<section><h2>{heading}</h2><p><strong>{markup_text(told)}</strong></p></section>"


def _totals(plan: Plan) -> str:
    totals = plan.totals
    words = say(
        "{tools} tools, {papers} end papers with spare ones, about {minutes} minutes in the chair.",
        tools=totals.tools,
        papers=totals.papers,
        minutes=totals.minutes,
    )
    heading = markup_text(say("In all"))
    return f"<section><h2>{heading}</h2><p><strong>{markup_text(words)}</strong></p></section>"


def _handling(plan: Plan) -> str:
    """Tell where to begin, and where and when to look while lotion is on."""
    handling = plan.handling
    if handling is None:
        return ""
    told = [say("Wind in this order: {zones}.", zones=", ".join(map(zone_label, handling.winding_order)))]
    look = handling.look_out
    if look.zones:
        told.append(
            say(
                "Look after {first} min, then every {again} min, first at: {zones}.",
                first=number_text(look.first_min),
                again=number_text(look.again_min),
                zones=", ".join(map(zone_label, look.zones)),
            )
        )
    return f"<section>{''.join(f'<p>{markup_text(text)}</p>' for text in told)}</section>"


def _limit(plan: Plan) -> str:
    """Give room for the maker's longest time, which ends the processing whatever the curl."""
    if not has_lotion(plan):
        return ""
    blanks = (
        say("Lotion, as the label says"),
        say("Longest time, min"),
        say("Last tool wet"),
        say("Rinse by"),
        say("Neutraliser, min"),
    )
    lines = "".join(f"<p>{markup_text(words)}</p>" for words in blanks)
    heading = markup_text(
        say("The maker's longest time is the limit, S or no S: then rinse, neutralise, judge")
    )
    return f'<section class="limit"><h2>{heading}</h2><div>{lines}</div></section>'
