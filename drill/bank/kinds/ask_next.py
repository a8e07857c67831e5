"""Several facts are missing: which one is got first, since its answers decide most."""

from dataclasses import dataclass, replace

from drill.bank.asking import Asking
from drill.bank.beliefs import Beliefs
from drill.bank.draw import FEWEST_WRONG, MOST_DRAWS
from drill.bank.facts import head_facts
from drill.bank.options import option
from drill.bank.question import MOST_WORDS, Feedback, Option, Question
from drill.bank.scenario import draw_head
from drill.bank.touched import row_name
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.rulebook.evaluate import UndecidedError
from drill.rulebook.rulebook import Rulebook
from drill.service.ask_first import ASKED, ASKED_AS, VERDICT, Missing, ask_first
from drill.service.client_words import vague_words
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.wording import value_words

MOST_OPTIONS = 4
# Of two facts that can bring the same verdict, one decides more only where its share of such answers is
# larger by this much: less than that is a matter of taste.
CLEARLY = 0.2
# What is known of these shapes the curl and decides no verdict.
_UNTOLD = (
    "hair.strand",
    "hair.density",
    "hair.pattern",
    "hair.ends",
    "wish.root_volume",
    "wish.wear",
    "wish.look",
)
ASK_FIRST = "ask_first"
# What nobody has felt on the top nobody has felt at all.
_ANYWHERE = "top"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """A head with several facts missing: what is got first, what else, and what of that decides nothing."""

    head: Head
    first: Missing
    others: tuple[str, ...]
    idle: tuple[str, ...]


def make_ask_next(asking: Asking) -> Question | None:
    """Make a question about the fact to get first.

    Args:
        asking: An item that leaves several facts of a head unknown.

    Returns:
        The question; None where no head was found on which one missing fact is clearly ahead and two others
        can stand beside it.
    """
    item, rulebook = asking.item, asking.book.rulebook
    for _ in range(MOST_DRAWS):
        found = _ask(asking.beliefs, draw_head(item, None, rulebook, asking.rng))
        if found is None:
            continue
        facts = (*head_facts(found.head, None, leave_out=_UNTOLD), *_vague(asking, found))
        # What every wrong idea would ask costs most, so it is looked for where the rest is settled.
        if len(" ".join((*facts, say(item.stem))).split()) <= MOST_WORDS:
            return _question(asking, found, facts)
    return None


def missing_facts(rulebook: Rulebook, head: Head) -> tuple[Missing, ...]:
    """Rank what a head's verdict lacks, as a plan does.

    Args:
        rulebook: The rules, or those of someone who holds a wrong idea.
        head: The head.

    Returns:
        The fact that decides most first.

    Source:
        :func:`drill.service.ask_first.ask_first`.
    """
    read = head.evaluation.read
    inputs = {name: read(name) for name, domain in rulebook.domains.items() if domain.per == "head"}
    return ask_first(
        rulebook, inputs | {"answers.fit": "yes"}, facts=head.evaluation.facts, taken=head.evaluation.taken
    )


def _ask(beliefs: Beliefs, consultation: Consultation) -> _Asked | None:
    rulebook = beliefs.book.rulebook
    head = beliefs.head(consultation)
    ranked = missing_facts(rulebook, head)
    if not ranked or any(not _is_ahead(ranked[0], other) for other in ranked[1:]):
        return None
    first = ranked[0]
    unknown = [
        name for name in ASKED if name in rulebook.domains and consultation.of(name, _ANYWHERE) == UNKNOWN
    ]
    others = tuple(sorted(name for name in unknown if name != first.field))
    if first.field not in unknown or len(others) < FEWEST_WRONG:
        return None
    ranking = {one.field for one in ranked}
    idle = tuple(name for name in others if name not in ranking)
    return _Asked(head=head, first=first, others=others, idle=idle)


def _is_ahead(first: Missing, other: Missing) -> bool:
    if first.strictness != other.strictness:
        return first.strictness > other.strictness
    return first.stops / first.answers - other.stops / other.answers >= CLEARLY


def _asked_first_by(beliefs: Beliefs, head: Head) -> dict[str, tuple[str, ...]]:
    """Give what each wrong idea would ask first on a head, by field."""
    found: dict[str, tuple[str, ...]] = {}
    for belief in beliefs.touching(VERDICT):
        try:
            ranked = missing_facts(beliefs.rulebooks[belief], beliefs.head(head.consultation, belief=belief))
        except UndecidedError:
            continue
        if ranked:
            found[ranked[0].field] = (*found.get(ranked[0].field, ()), belief)
    return found


def _question(asking: Asking, asked: _Asked, facts: tuple[str, ...]) -> Question:
    head, names = asked.head, list(asked.others)
    believed = _asked_first_by(asking.beliefs, head)
    asking.rng.shuffle(names)
    # What a wrong idea would ask first goes before what is merely missing.
    names.sort(key=lambda name: name not in believed)
    right = Feedback(
        decides=_decides(head.rulebook, asked.first),
        seen=say(asked.first.because),
        look=say(asking.item.look),
    )
    options = [_wrong(asking, asked, name, believed.get(name, ())) for name in names[: MOST_OPTIONS - 1]]
    key: Value = asked.first.field
    options.append(option(say(ASKED[str(key)]), key, correct=True, ideas=(), feedback=right))
    return asking.question(
        facts=facts,
        ask=say(asking.item.stem),
        consultation=head.consultation,
        options=options,
        explanation=right.text,
        source="common practice",
        rows=_rows_it_can_bring(head, asked.first.field),
    )


def _rows_it_can_bring(head: Head, field: str) -> tuple[str, ...]:
    """Name the rows of the verdict that decide after one of the answers, and turn on that fact."""
    consultation, facts = head.consultation, head.evaluation.facts
    domain, table = head.rulebook.domains[field], head.rulebook.tables[VERDICT]
    read_as = {field, *(name for name, asked in ASKED_AS.items() if asked == field)}
    found: dict[str, None] = {}
    for answer in domain.values:
        if domain.per == "head":
            answered = replace(consultation, head={**consultation.head, field: answer})
        else:
            zones = {zone: {**values, field: answer} for zone, values in consultation.zones.items()}
            answered = replace(consultation, zones=zones)
        row = table.row(Head(head.rulebook, answered, facts=facts).decide(VERDICT).row)
        if answer != UNKNOWN and row is not None and read_as & row.when.keys():
            found[row_name(VERDICT, row.id)] = None
    return tuple(found)


def _decides(rulebook: Rulebook, first: Missing) -> str:
    verdict = rulebook.tables[VERDICT].gives[first.strictness]
    if verdict == ASK_FIRST:
        what = say(ASKED[first.field])
        return say("First {what}: until then nothing is decided.", what=what[:1].lower() + what[1:])
    words, what = value_words(VERDICT, verdict, rulebook=rulebook), say(ASKED[first.field])
    return say(
        "First {what}: what comes out can mean “{verdict}”.",
        what=what[:1].lower() + what[1:],
        verdict=words[:1].lower() + words[1:],
    )


def _wrong(asking: Asking, asked: _Asked, name: str, ideas: tuple[str, ...]) -> Option:
    """Give a fact that decides less; to ask it first hurts nobody, so nothing is stopped."""
    domain = asked.head.rulebook.domains[asked.first.field]
    said = Feedback(
        decides=_decides(asked.head.rulebook, asked.first),
        seen=say(domain.because),
        look=say(asking.item.look),
    )
    return option(say(ASKED[name]), name, correct=False, ideas=ideas, feedback=said)


def _vague(asking: Asking, asked: _Asked) -> tuple[str, ...]:
    """Let the client talk of the key, or of what decides nothing, and settle neither.

    Words about another fact that counts would make that the first one to ask.
    """
    missing = (asked.first.field, *asked.idle)
    told = [vague.says for name in missing if (vague := vague_words(name))]
    if not told:
        return ()
    sentence = asking.rng.choice(say(asking.rng.choice(told)).rstrip(".").split(". "))
    return (say("The client: “{words}.”", words=sentence),)
