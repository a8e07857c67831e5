"""Conditions and rows as written, to typed values, against the names that the rulebook knows."""

import re
from collections.abc import Mapping
from typing import cast, get_args

from drill.basis.problem import Place, Problem, mend_name
from drill.basis.quantity import HOW_TO_WRITE, quantity_from_text
from drill.load.names import Names
from drill.load.reading import Fields, Node, texts_of
from drill.rulebook.condition import Condition, Range
from drill.rulebook.domain import Domain
from drill.rulebook.parameter import Parameter
from drill.rulebook.table import Row, Standing, ThenFrom

MEMORY = "memory"
COMMON_PRACTICE = "common practice"

# The longest condition of the built-in rules has 6 values.
MOST_PARTS = 100
# And the longest of their rows names 12 facts.
MOST_NAMED = 120
_COMPARED = re.compile(r"(<=|>=|<|>)\s*(.+)")
# A wish is stated as a class or as a diameter, and hair differs by place: rows read what is derived.
READ_INSTEAD = {
    "wish.curl": "wish.curl_class",
}
HEAD_READS = {
    "hair.porosity": "porosity.weakest or porosity.strongest",
    "hair.length": "length.longest or length.shortest",
}
BOOLEANS = {"true": "yes", "True": "yes", "TRUE": "yes", "false": "no", "False": "no", "FALSE": "no"}


def boolean_word(text: str, values: tuple[str, ...]) -> str:
    """Take YAML's booleans for the words of a yes/no field."""
    word = BOOLEANS.get(text, text)
    return word if word in values else text


def read_flag(fields: Fields, key: str) -> bool:
    """Take a yes/no key; left out means no."""
    node, text = fields.take(key), fields.text(key)
    word = boolean_word(text, ("yes", "no"))
    if node is not None and isinstance(node.value, str) and word not in ("yes", "no"):
        fields.fault(node, f"'{key}' cannot be '{text}'", "write yes or no")
    return word == "yes"


def read_condition(node: Node, domain: Domain, problems: list[Problem]) -> Condition | None:
    """Read a value, a list of values, or a range with a unit.

    Args:
        node: As written.
        domain: What the input can be.
        problems: Where faults are gathered.

    Returns:
        The condition, or None where it has a fault.
    """
    values: list[str] = []
    ranges: list[Range] = []
    written = texts_of(node, problems, what=domain.name)
    if len(written) > MOST_PARTS:
        what = f"{domain.name} has {len(written)} values here, more than {MOST_PARTS}"
        problems.append(Problem(written[MOST_PARTS][1].place, what, "write them as a range, or leave it out"))
        return None
    for text, one in written:
        word = boolean_word(text, domain.values)
        cut = None if word in domain.values else _range(text, domain.unit)
        if word in domain.values:
            values.append(word)
        elif cut is not None:
            ranges.append(cut)
        else:
            problems.append(_value_problem(one.place, text, domain))
            return None
    if not written:
        problems.append(Problem(node.place, f"{domain.name} has no value", "name at least one value"))
        return None
    return Condition(tuple(values), tuple(ranges), " or ".join(text for text, _ in written))


def read_row(
    node: Node,
    *,
    find: Names,
    gives: tuple[str, ...],
    per: str,
    sources: Mapping[str, str],
    parameters: Mapping[str, Parameter],
    problems: list[Problem],
) -> Row | None:
    """Read one row.

    Args:
        node: As written.
        find: What the row may read.
        gives: Outcomes of its table.
        per: Whether its table decides for the head or a zone.
        sources: Known sources by key.
        parameters: Known parameters by name.
        problems: Where faults are gathered.

    Returns:
        The row, or None where it has a fault.
    """
    before = len(problems)
    fields = Fields(node, problems, what="a row")
    row_id = fields.text("id", required=True)
    when = {}
    for at, (name, one, place) in enumerate(fields.pairs("when")):
        if at == MOST_NAMED:
            problems.append(Problem(place, f"a row names more than {MOST_NAMED} facts", "leave some out"))
            break
        domain = _input(name, place, find=find, per=per, problems=problems)
        condition = read_condition(one, domain, problems) if domain else None
        if condition is not None:
            when[name] = condition
    then, then_from = _read_then(fields, find=find, gives=gives, per=per, parameters=parameters)
    row = Row(
        id=row_id,
        when=when,
        then=then,
        then_from=then_from,
        also=_read_also(fields, gives),
        because=fields.text("because", required=True),
        source=read_source(fields, sources),
        standing=cast(Standing, fields.text("standing", choices=get_args(Standing)) or "settled"),
        say=fields.text("say"),
        place=node.place,
    )
    fields.done()
    return row if len(problems) == before else None


def read_source(fields: Fields, sources: Mapping[str, str]) -> str:
    """Read a required source: a key of the sources, ``common practice`` or ``memory``.

    Args:
        fields: The mapping that must have a ``source``.
        sources: Known sources by key; empty where any text is a source.

    Returns:
        The source as written.
    """
    text = fields.text("source", required=True)
    known = (COMMON_PRACTICE, MEMORY, *sources)
    node = fields.take("source")
    if node is not None and text and sources and text not in known:
        mend = f"{mend_name(text, known)}; new works go into sources.yaml"
        fields.fault(node, f"the source '{text}' is not among the sources", mend)
    return text


def _read_also(fields: Fields, gives: tuple[str, ...]) -> tuple[str, ...]:
    node, also = fields.take("also"), fields.texts("also")
    if node is None:
        return ()
    if len(also) > MOST_PARTS:
        fields.fault(node, f"'also' has {len(also)} outcomes, more than {MOST_PARTS}", "name each but once")
        return ()
    for value in also:
        if value not in gives:
            fields.fault(node, f"'also' cannot be '{value}'", mend_name(value, gives))
    return also


def _read_then(
    fields: Fields, *, find: Names, gives: tuple[str, ...], per: str, parameters: Mapping[str, Parameter]
) -> tuple[str, ThenFrom]:
    node = fields.take("then", required=True)
    if node is None:
        return "", "value"
    if isinstance(node.value, str):
        word = boolean_word(node.value.strip(), gives)
        if word not in gives:
            fields.fault(node, f"'then' cannot be '{word}'", mend_name(word, gives))
        return word, "value"
    if isinstance(node.value, list):
        fields.fault(node, "'then' is a list, and a row decides one outcome", "write one outcome")
        return "", "value"
    copied = Fields(node, fields.problems, what="'then'")
    name, parameter = copied.text("as"), copied.text("parameter")
    copied.done()
    if parameter:
        problem = _parameter_problem(parameter, node, gives=gives, parameters=parameters)
        fields.problems += [problem] if problem else []
        return parameter, "parameter"
    if name:
        _input(name, node.place, find=find, per=per, problems=fields.problems)
    else:
        fields.fault(node, "'then' is no outcome", "write one outcome, or 'then: {as: an input}'")
    return name, "input"


def _parameter_problem(
    name: str, node: Node, *, gives: tuple[str, ...], parameters: Mapping[str, Parameter]
) -> Problem | None:
    if name not in parameters:
        return Problem(node.place, f"there is no parameter '{name}'", mend_name(name, tuple(parameters)))
    choices = parameters[name].choices
    if choices and set(choices) <= set(gives):
        return None
    what = f"the parameter {name} can be something else than an outcome of this table"
    return Problem(node.place, what, f"name a parameter whose choices are among {', '.join(gives)}")


def _input(name: str, place: Place, *, find: Names, per: str, problems: list[Problem]) -> Domain | None:
    if name in READ_INSTEAD:
        problems.append(Problem(place, f"a table does not read {name}", f"read {READ_INSTEAD[name]}"))
        return None
    domain = find(name)
    if domain is None:
        problems.append(Problem(place, f"there is no input '{name}'", mend_name(name, find.names)))
        return None
    if name in find.lists:
        problems.append(Problem(place, f"{name} is a list, which cannot be read", "read what its rows read"))
        return None
    if per == "head" and domain.per == "zone":
        instead = HEAD_READS.get(name)
        mend = f"read {instead}" if instead else "ask it in a table that is decided per zone"
        problems.append(Problem(place, f"{name} differs from zone to zone, and this table is per head", mend))
        return None
    return domain


def _range(text: str, unit: str) -> Range | None:
    if not unit:
        return None
    if " to " in text:
        low, high = (quantity_from_text(part, unit) for part in text.split(" to ", 1))
        return None if low is None or high is None or low > high else Range(low, high)
    compared = _COMPARED.fullmatch(text)
    if compared is None:
        exact = quantity_from_text(text, unit)
        return None if exact is None else Range(exact, exact)
    sign, number = compared[1], quantity_from_text(compared[2], unit)
    if number is None:
        return None
    if sign[0] == "<":
        return Range(high=number, with_high=sign == "<=")
    return Range(low=number, with_low=sign == ">=")


def _value_problem(place: Place, text: str, domain: Domain) -> Problem:
    what = f"{domain.name} cannot be '{text}'"
    if not domain.unit:
        return Problem(place, what, mend_name(text, domain.values))
    how = f"write {HOW_TO_WRITE[domain.unit]}, or a range such as '>= ...' or '... to ...'"
    return Problem(place, what, f"{how}{''.join(f', or {value}' for value in domain.values)}")
