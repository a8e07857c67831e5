"""A consultation and a kit as written, to checked values."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from drill.basis.length import length_from_text, number_from_text
from drill.basis.problem import Place, Problem, mend_name
from drill.basis.quantity import HOW_TO_WRITE, quantity_from_text
from drill.load.reading import Fields, Node, read_file, texts_of
from drill.load.rows import boolean_word
from drill.rulebook.domain import Domain, Value
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.kit import BUILT_IN_KIT, SHAPES, Kit, Tool
from drill.service.zones import ZONE_NAMES

LENGTH, SHORTEST, CURL, BLEND = "hair.length", "hair.shortest", "wish.curl", "wish.blend"
REQUIRED = (LENGTH, CURL)
# Longer than any hair that is wound, and thicker than any tool: a slip of the unit.
BOUNDS_MM: Mapping[str, tuple[float, float]] = {
    LENGTH: (10, 1500),
    SHORTEST: (10, 1500),
    CURL: (2, 100),
}
TOOL_BOUNDS_MM = {"diameter": (2.0, 80.0), "rim_diameter": (2.0, 100.0), "length": (20.0, 500.0)}
MOST_TOOLS = 1000


def read_consultation(
    node: Node, rulebook: Rulebook, problems: list[Problem], *, folder: Path, kit: Kit = BUILT_IN_KIT
) -> Consultation | None:
    """Read one consultation.

    Args:
        node: As written; dotted keys (``hair.length: 20 cm``) and nested ones mean the same.
        rulebook: Knows the names and their values.
        problems: Where faults are gathered.
        folder: Where a kit's file name starts from.
        kit: The kit where the consultation names none.

    Returns:
        The consultation, or None where it has a fault.
    """
    before = len(problems)
    draft = _Draft(rulebook, problems, folder=folder, kit=kit)
    Fields(node, problems, what="the consultation")
    for name, one, place in _flattened(node, draft.entered):
        draft.take(name, one, place)
    if isinstance(node.value, dict):
        problems += [_missing(node, draft.entered[name]) for name in REQUIRED if name not in draft.found]
        problems += _longer_than_longest(draft)
    return draft.consultation() if len(problems) == before else None


def read_kit(node: Node, problems: list[Problem], *, name: str = "kit") -> Kit | None:
    """Read a kit: a list of tools, or ``name`` and ``tools``.

    Args:
        node: As written.
        problems: Where faults are gathered.
        name: What it is called where it does not say.

    Returns:
        The kit, or None where it has a fault.
    """
    before = len(problems)
    nodes = node.value if isinstance(node.value, list) else []
    if not isinstance(node.value, list):
        fields = Fields(node, problems, what="the kit")
        name = fields.text("name") or name
        nodes = fields.items("tools", required=True)
        fields.done()
    tools = [tool for one in nodes if (tool := _read_tool(one, problems))]
    if not any(tool.count for tool in tools) and len(problems) == before:
        problems.append(Problem(node.place, "the kit is empty", "list at least one tool with its count"))
    return Kit(name, tuple(tools)) if len(problems) == before else None


class _Draft:
    """A consultation while its fields are taken one by one."""

    def __init__(self, rulebook: Rulebook, problems: list[Problem], *, folder: Path, kit: Kit) -> None:
        self.entered = {name: one for name, one in rulebook.domains.items() if one.entered}
        self.problems, self.folder, self.kit = problems, folder, kit
        self.head: dict[str, Value] = {"service": "perm"}
        self.zones: dict[str, dict[str, Value]] = {zone: {} for zone in ZONE_NAMES}
        self.client = ""
        self.found: dict[str, Place] = {}

    def take(self, name: str, node: Node, place: Place) -> None:
        if name in self.found:
            what = f"'{name}' stands twice, first in line {self.found[name].line}"
            self.problems.append(Problem(place, what, "keep one of the two"))
        self.found.setdefault(name, place)
        if name == "client":
            self.client = " ".join(text for text, _ in texts_of(node, self.problems, what="'client'"))
        elif name == "kit":
            self.kit = _kit_of(node, self.problems, folder=self.folder) or self.kit
        elif name not in self.entered:
            self.problems.append(_unknown_name(name, place, self.entered))
        elif name == BLEND:
            _read_blend(node, self.zones, self.problems)
        elif self.entered[name].per == "zone":
            _read_by_zone(node, self.entered[name], self.zones, self.problems)
        else:
            value = _read_value(node, self.entered[name], self.problems)
            if value is not None:
                self.head[name] = value

    def consultation(self) -> Consultation:
        return Consultation(head=self.head, zones=self.zones, client=self.client, kit=self.kit)


def _flattened(node: Node, entered: Mapping[str, Domain]) -> Iterator[tuple[str, Node, Place]]:
    """Give every field by its dotted name, whichever way it is written."""
    if not isinstance(node.value, dict):
        return
    groups = {name.partition(".")[0] for name in entered if "." in name}
    for key, one in node.value.items():
        if key in groups and isinstance(one.value, dict):
            for inner, deeper in one.value.items():
                yield f"{key}.{inner}", deeper, one.keys[inner]
        else:
            yield key, one, node.keys[key]


def _read_by_zone(
    node: Node, domain: Domain, zones: dict[str, dict[str, Value]], problems: list[Problem]
) -> None:
    if not isinstance(node.value, dict):
        value = _read_value(node, domain, problems)
        for zone in ZONE_NAMES if value is not None else ():
            zones[zone][domain.name] = value  # type: ignore[assignment]
        return
    for zone, one in node.value.items():
        if zone not in ZONE_NAMES:
            problems.append(
                Problem(node.keys[zone], f"there is no zone '{zone}'", mend_name(zone, ZONE_NAMES))
            )
            continue
        value = _read_value(one, domain, problems)
        if value is not None:
            zones[zone][domain.name] = value
    missing = [zone for zone in ZONE_NAMES if zone not in node.value]
    if domain.name in REQUIRED and missing:
        problems.append(
            Problem(
                node.place, f"{domain.name} is not stated for {', '.join(missing)}", "state it for all nine"
            )
        )


def _read_blend(node: Node, zones: dict[str, dict[str, Value]], problems: list[Problem]) -> None:
    if node.value in ("", "none", "no"):
        return
    for text, one in texts_of(node, problems, what=BLEND):
        if text in ZONE_NAMES:
            zones[text][BLEND] = "yes"
        else:
            problems.append(Problem(one.place, f"there is no zone '{text}'", mend_name(text, ZONE_NAMES)))


def _read_value(node: Node, domain: Domain, problems: list[Problem]) -> Value | None:
    if not isinstance(node.value, str):
        problems.append(Problem(node.place, f"{domain.name} is not one value", "write one value"))
        return None
    text = boolean_word(node.value.strip(), domain.values)
    if text in domain.values:
        return text
    number = quantity_from_text(text, domain.unit, bare=domain.unit != "mm") if domain.unit else None
    if number is None:
        problems.append(_value_problem(node, text, domain))
        return None
    low, high = BOUNDS_MM.get(domain.name, (0, float("inf")))
    if not low <= number <= high:
        problems.append(
            Problem(
                node.place,
                f"{domain.name} is {text}, outside {low / 10:g} cm to {high / 10:g} cm",
                "check the number and its unit",
            )
        )
        return None
    return number


def _value_problem(node: Node, text: str, domain: Domain) -> Problem:
    if not domain.unit:
        return Problem(node.place, f"{domain.name} cannot be '{text}'", mend_name(text, domain.values))
    what = f"{domain.name} cannot be '{text}'"
    if domain.unit == "mm" and number_from_text(text) is not None:
        what = f"{domain.name} is a bare number, {text}, without its unit"
    others = "".join(f", or {value}" for value in domain.values)
    return Problem(node.place, what, f"write {HOW_TO_WRITE[domain.unit]}{others}")


def _unknown_name(name: str, place: Place, entered: Mapping[str, Domain]) -> Problem:
    names = ("client", "kit", *entered)
    inside = [one.removeprefix(f"{name}.") for one in entered if one.startswith(f"{name}.")]
    if inside:
        mend = f"write its fields below it: {', '.join(inside)}"
        return Problem(place, f"'{name}' stands for a group of fields, not for one", mend)
    short = {one.rpartition(".")[2]: one for one in entered}
    mend = f"did you mean '{short[name]}'?" if name in short else mend_name(name, names)
    return Problem(place, f"the consultation has no field '{name}'", mend)


def _longer_than_longest(draft: _Draft) -> Iterator[Problem]:
    """Refuse shortest strands that are longer than the longest ones, once for all zones in which they are."""
    zones = [
        zone
        for zone, values in draft.zones.items()
        if isinstance(values.get(SHORTEST), float)
        and isinstance(values.get(LENGTH), float)
        and values[SHORTEST] > values[LENGTH]  # type: ignore[operator]
    ]
    if zones:
        yield Problem(
            draft.found[SHORTEST],
            f"{SHORTEST} is longer than {LENGTH} in {', '.join(zones)}",
            f"give the longest strands as '{LENGTH}', the shortest as '{SHORTEST}'",
        )


def _missing(node: Node, domain: Domain) -> Problem:
    how = HOW_TO_WRITE[domain.unit] if domain.unit else ""
    values = ", ".join(domain.values)
    mend = f"add '{domain.name}': " + " or ".join(part for part in (values, how) if part)
    return Problem(node.place, f"the consultation has no '{domain.name}'", mend)


def _kit_of(node: Node, problems: list[Problem], *, folder: Path) -> Kit | None:
    if not isinstance(node.value, str):
        return read_kit(node, problems)
    path = folder / node.value
    try:
        is_file = path.is_file()
    except (OSError, ValueError):  # a name too long, or one that holds a NUL
        is_file = False
    if not is_file:
        problems.append(
            Problem(
                node.place, f"there is no kit file '{node.value}'", "name a file, or write the tools here"
            )
        )
        return None
    nodes, faults = read_file(path)
    problems += faults
    if not nodes and not faults:
        problems.append(
            Problem(Place(str(path)), "the kit is empty", "list at least one tool with its count")
        )
    if not nodes:
        return None
    return read_kit(nodes[0], problems, name=path.stem)


def _read_tool(node: Node, problems: list[Problem]) -> Tool | None:
    before = len(problems)
    fields = Fields(node, problems, what="a tool")
    diameter = _tool_length(fields, "diameter", required=True)
    rim = _tool_length(fields, "rim_diameter") or diameter
    length = _tool_length(fields, "length", required=True)
    shape = fields.text("shape", required=True, choices=SHAPES)
    count_text = fields.text("count", required=True)
    count_node = fields.take("count")
    fields.done()
    count = int(count_text) if count_text.isascii() and count_text.isdigit() and len(count_text) < 5 else -1  # noqa: PLR2004
    if count_node is not None and count_text and not 0 <= count <= MOST_TOOLS:
        fields.fault(
            count_node, f"'count' is no number from 0 to {MOST_TOOLS}: '{count_text}'", "count the tools"
        )
    if rim < diameter:
        fields.fault(
            node,
            "the rim is thinner than the waist",
            "give the waist as 'diameter', the end as 'rim_diameter'",
        )
    if len(problems) > before:
        return None
    return Tool(diameter_mm=diameter, rim_diameter_mm=rim, length_mm=length, shape=shape, count=count)


def _tool_length(fields: Fields, key: str, *, required: bool = False) -> float:
    text = fields.text(key, required=required)
    node = fields.take(key)
    if node is None or not text:
        return 0.0
    length = length_from_text(text)
    if length is None:
        fields.fault(node, f"'{key}' cannot be '{text}'", f"write {HOW_TO_WRITE['mm']}")
        return 0.0
    low, high = TOOL_BOUNDS_MM[key]
    if not low <= length.mm <= high:
        fields.fault(
            node, f"'{key}' is {text}, outside {low:g} mm to {high:g} mm", "check the number and its unit"
        )
    return float(length.mm)
