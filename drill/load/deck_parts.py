"""What items of every kind are written with: a decision, zones, values to draw."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from drill.bank.item import LIMITS, Wrong
from drill.basis.problem import Problem, mend_name
from drill.basis.quantity import HOW_TO_WRITE, quantity_from_text
from drill.load.pictures import SchoolPictures
from drill.load.reading import Fields, texts_of
from drill.load.rows import boolean_word
from drill.rulebook.domain import Domain, Value
from drill.rulebook.rulebook import Rulebook
from drill.service.faults import Fault
from drill.service.head import COMPUTED_FIGURES, TOOL_DIAMETER
from drill.service.zones import ZONE_NAMES

ANY_ZONE = "any"
FEWEST_WRONG, MOST_WRONG = 2, 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What an item may name.

    Attributes:
        rulebook: Knows decisions, rows and names.
        beliefs: Known misconceptions by id.
        sources: Known sources; empty where any text is one.
        faults: What is seen after a service, by id.
        pictures: The school's pictures; None for what is built in.
    """

    rulebook: Rulebook
    beliefs: Mapping[str, object]
    sources: Mapping[str, str]
    faults: Mapping[str, Fault] = field(default_factory=dict)
    pictures: SchoolPictures | None = None


def read_decision(fields: Fields, rulebook: Rulebook) -> str:
    """Take ``decision``; a fault where it is none that can be asked.

    Returns:
        Its dotted path, empty where it cannot be asked.
    """
    decision = fields.text("decision", required=True)
    node = fields.take("decision")
    figures = (TOOL_DIAMETER, *COMPUTED_FIGURES)
    askable = (*(name for name, table in rulebook.tables.items() if table.hit != "collect"), *figures)
    if node is not None and decision and decision not in askable:
        what = f"there is no decision '{decision}' to ask"
        if decision in rulebook.tables:
            what = f"{decision} is a list, which is never asked"
        fields.fault(node, what, mend_name(decision, askable))
        return ""
    return decision


def read_zones(fields: Fields) -> tuple[str, ...]:
    """Take ``zone``: one, several, or all of them for ``any``; empty where it is not there."""
    node = fields.take("zone")
    if node is None:
        return ()
    zones: list[str] = []
    for text, one in texts_of(node, fields.problems, what="'zone'"):
        if text == ANY_ZONE:
            zones += ZONE_NAMES
        elif text in ZONE_NAMES:
            zones.append(text)
        else:
            fields.fault(one, f"there is no zone '{text}'", mend_name(text, (ANY_ZONE, *ZONE_NAMES)))
    return tuple(zones)


def read_vary(
    fields: Fields, rulebook: Rulebook, *, key: str = "vary", names: tuple[str, ...] = ()
) -> dict[str, tuple[Value, ...]]:
    """Take names with the values that are drawn of them.

    Args:
        fields: The item.
        rulebook: Knows names and values.
        key: The item's key that holds them.
        names: The names allowed; the fields of a consultation where left out.

    Returns:
        Values by name; what has a fault is left out.
    """
    found = {}
    what = "a moment" if names else "a consultation"
    entered = names or tuple(name for name, one in rulebook.domains.items() if one.entered)
    for name, node, place in fields.pairs(key):
        if name not in entered:
            fields.problems.append(Problem(place, f"{what} has no field '{name}'", mend_name(name, entered)))
            continue
        domain, values = rulebook.domains[name], list[Value]()
        for text, one in texts_of(node, fields.problems, what=name):
            word = boolean_word(text, domain.values)
            number = quantity_from_text(text, domain.unit, bare=domain.unit != "mm") if domain.unit else None
            if word in domain.values:
                values.append(word)
            elif number is not None:
                values.append(number)
            else:
                fields.fault(one, f"{name} cannot be '{text}'", _how(text, domain))
        if values:
            found[name] = tuple(values)
    return found


def read_about(fields: Fields, rulebook: Rulebook) -> tuple[str, ...]:
    """Take ``about``: the rows and limits that something written asks, where no rule decides its key."""
    node = fields.take("about")
    if node is None:
        return ()
    about = []
    for text, one in texts_of(node, fields.problems, what="'about'"):
        decision, _, name = text.partition("/")
        table = rulebook.tables.get(decision)
        limits = tuple(limit.id for limit in rulebook.limits)
        known = limits if f"{decision}/" == LIMITS else tuple(row.id for row in table.rows) if table else ()
        if not known:
            mend = mend_name(decision, (*rulebook.tables, LIMITS.rstrip("/")))
            fields.fault(one, f"'{text}' names no row of a decision and no limit", mend)
        elif name not in known:
            fields.fault(one, f"{decision} has no '{name}'", mend_name(name, known))
        elif text in about:
            fields.fault(one, f"{text} stands twice", "take one out")
        about.append(text)
    return tuple(about)


def read_wrong(
    fields: Fields, known: Known, *, required: bool = False, slips: Mapping[str, str] | None = None
) -> list[Wrong]:
    """Take ``wrong``: options as written, each with the wrong idea that it shows.

    Args:
        fields: The item.
        known: What it may name.
        required: Whether they must be there.
        slips: Texts that an option may name by ``cause`` in place of writing one, by id.

    Returns:
        The options.
    """
    wrong = []
    for one in fields.items("wrong", required=required):
        entry = Fields(one, fields.problems, what="a wrong option")
        text, belief = _read_text(entry, slips or {}), read_belief(entry, known)
        entry.done()
        wrong.append(Wrong(text=text, misconception=belief))
    node = fields.take("wrong")
    if node is not None and not FEWEST_WRONG <= len(wrong) <= MOST_WRONG:
        what = f"'wrong' has {len(wrong)} option{'' if len(wrong) == 1 else 's'}"
        fields.fault(node, what, f"write {FEWEST_WRONG} to {MOST_WRONG} wrong options")
    return wrong


def _read_text(entry: Fields, slips: Mapping[str, str]) -> str:
    named, node = (entry.text("cause"), entry.take("cause")) if slips else ("", None)
    if node is None:
        return entry.text("text", required=True)
    if named not in slips:
        entry.fault(node, f"'{named}' cannot be blamed here", mend_name(named, tuple(slips)))
    return slips.get(named, "")


def read_belief(entry: Fields, known: Known) -> str:
    """Take ``misconception``: the wrong idea that an option shows; empty where none is named."""
    belief, node = entry.text("misconception"), entry.take("misconception")
    if node is not None and belief not in known.beliefs:
        mend = mend_name(belief, tuple(known.beliefs))
        entry.fault(node, f"there is no misconception '{belief}'", mend)
    return belief


def _how(text: str, domain: Domain) -> str:
    if not domain.unit:
        return mend_name(text, domain.values)
    return f"write {HOW_TO_WRITE[domain.unit]}{''.join(f', or {value}' for value in domain.values)}"
