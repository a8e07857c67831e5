"""YAML text to nodes with places; the only module that speaks YAML.

A value is text until a schema says otherwise: no ``no`` turns into a boolean, no ``012`` into ten. Anchors
are refused, since a short file of them can stand for a gigabyte.
"""

import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml

from drill.basis.problem import Place, Problem, mend_name
from drill.load.yaml_faults import unreadable_problem, yaml_problem

# Of the built-in files the largest has 55,000 bytes, the longest list 122 entries.
MOST_BYTES, MOST_ENTRIES = 600_000, 1_500
MOST_DEPTH = 40
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Node:
    """A piece of a file.

    Attributes:
        place: Where it starts.
        value: Text, a list of nodes, or keys with their nodes.
        keys: Of a mapping, where each key stands.
    """

    place: Place
    value: "str | list[Node] | dict[str, Node]"
    keys: dict[str, Place]


def read_file(path: Path, *, shown: str | None = None) -> tuple[list[Node], list[Problem]]:
    """Read every document of a YAML file.

    Args:
        path: The file.
        shown: The name to show in problems; the path itself where left out.

    Returns:
        One node a document, and the faults found; with a fault no nodes.
    """
    name = shown or str(path)
    try:
        mode = path.stat().st_mode
        if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):  # such as a pipe, which may never end
            return [], [Problem(Place(name), "this is no ordinary file", "put a file there")]
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:  # a name that holds a NUL is a ValueError
        reason = (getattr(error, "strerror", None) or "it cannot be read").lower()
        return [], [Problem(Place(name), f"cannot read the file: {reason}", "check the path and its rights")]
    if len(data) > MOST_BYTES:
        return [], [Problem(Place(name), f"the file is over {MOST_BYTES:,} bytes", "split it up")]
    return read_text(data, shown=name)


def read_text(data: bytes, *, shown: str) -> tuple[list[Node], list[Problem]]:
    """Read every document of some YAML text.

    Args:
        data: The text in UTF-8.
        shown: The file's name in problems.

    Returns:
        One node a document, and the faults found; with a fault no nodes.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig")
        place = Place(shown, before.count("\n") + 1, len(before) - before.rfind("\n"))
        return [], [Problem(place, "this is not UTF-8 text", "save the file as UTF-8")]
    unreadable = unreadable_problem(text, shown)
    if unreadable is not None:
        return [], [unreadable]
    try:
        nodes, problems = _build(text, shown)
    except yaml.MarkedYAMLError as error:
        return [], [yaml_problem(error, text, shown)]
    return ([], problems) if problems else (nodes, [])


def _build(text: str, shown: str) -> tuple[list[Node], list[Problem]]:
    """Build nodes from parse events with a stack of our own, so that depth costs no recursion."""
    builder = _Builder()
    for event in yaml.parse(text, Loader=_LOADER):
        place = _place(event, shown)
        if isinstance(event, yaml.AliasEvent):
            return [], [Problem(place, "anchors and aliases are not read", "write the value out")]
        if isinstance(event, yaml.ScalarEvent):
            builder.put(Node(place, event.value, {}))
        elif isinstance(event, yaml.SequenceStartEvent | yaml.MappingStartEvent):
            if len(builder.open) >= MOST_DEPTH:
                return [], [Problem(place, f"nested deeper than {MOST_DEPTH} levels", "write it flatter")]
            builder.start(Node(place, [] if isinstance(event, yaml.SequenceStartEvent) else {}, {}))
        elif isinstance(event, yaml.SequenceEndEvent | yaml.MappingEndEvent):
            builder.open.pop()
        if builder.is_full:
            what = f"more than {MOST_ENTRIES:,} entries or keys stand together"
            return [], [Problem(place, what, "split them up into several files")]
    return builder.documents, builder.problems


class _Builder:
    """Puts nodes where they belong.

    Attributes:
        documents: Finished documents.
        problems: Faults of keys.
        open: Lists and mappings not yet ended, each with the key that waits for its value.
    """

    def __init__(self) -> None:
        self.documents: list[Node] = []
        self.problems: list[Problem] = []
        self.open: list[tuple[Node, Node | None]] = []

    @property
    def is_full(self) -> bool:
        """Whether what is open, or the file itself, holds too much."""
        return len(self.open[-1][0].value if self.open else self.documents) > MOST_ENTRIES

    def start(self, node: Node) -> None:
        self.put(node)
        self.open.append((node, None))

    def put(self, node: Node) -> None:
        if not self.open:
            self.documents.append(node)
            return
        parent, key = self.open[-1]
        if isinstance(parent.value, list):
            parent.value.append(node)
        elif key is None:
            self.open[-1] = (parent, node)
        else:
            _put_pair(parent, key, node, self.problems)
            self.open[-1] = (parent, None)


def _place(event: yaml.Event, shown: str) -> Place:
    mark = event.start_mark
    return Place(shown, mark.line + 1, mark.column + 1) if mark else Place(shown)


def _put_pair(parent: Node, key: Node, node: Node, problems: list[Problem]) -> None:
    fields = parent.value
    if not isinstance(key.value, str) or not isinstance(fields, dict):
        problems.append(Problem(key.place, "a key must be plain text", "write 'name: value'"))
    elif key.value in fields:
        first = parent.keys[key.value]
        problems.append(
            Problem(
                key.place,
                f"the key '{key.value}' stands twice, first in line {first.line}",
                "keep one of the two",
            )
        )
    else:
        fields[key.value] = node
        parent.keys[key.value] = key.place


class Fields:
    """The keys of one mapping, taken one by one; what is never taken is an unknown key.

    Args:
        node: The mapping.
        problems: Where faults are gathered.
        what: What the mapping is, for messages: ``a row``, ``the consultation``.
    """

    def __init__(self, node: Node, problems: list[Problem], *, what: str) -> None:
        self.node, self.problems, self.what = node, problems, what
        self._asked: dict[str, bool] = {}
        self._fields: dict[str, Node] = node.value if isinstance(node.value, dict) else {}
        if not isinstance(node.value, dict):
            self.fault(node, f"{what} is not written as 'name: value' lines", "write its keys one a line")

    @property
    def asked(self) -> dict[str, bool]:
        """The keys taken so far, in order, each with whether it must be there."""
        return dict(self._asked)

    def fault(self, node: Node, what: str, mend: str) -> None:
        """Gather a fault at a node."""
        self.problems.append(Problem(node.place, what, mend))

    def take(self, key: str, *, required: bool = False) -> Node | None:
        """Take one key.

        Args:
            key: Its name.
            required: Whether it must be there.

        Returns:
            Its node, or None where it is not there.
        """
        self._asked[key] = required or self._asked.get(key, False)
        found = self._fields.get(key)
        if found is None and required and isinstance(self.node.value, dict):
            self.fault(self.node, f"{self.what} has no '{key}'", f"add '{key}:'")
        return found

    def text(self, key: str, *, required: bool = False, choices: tuple[str, ...] = ()) -> str:
        """Take a key whose value is text.

        Args:
            key: Its name.
            required: Whether it must be there, and not be empty.
            choices: The values allowed; empty for any text.

        Returns:
            The text, empty where it is missing or not allowed.
        """
        node = self.take(key, required=required)
        if node is None:
            return ""
        if not isinstance(node.value, str):
            self.fault(node, f"'{key}' is not text", "write one value")
            return ""
        text = node.value.strip()
        if not text and required:
            self.fault(node, f"'{key}' is empty", f"write what '{key}' is")
        if choices and text not in choices:
            self.fault(node, f"'{key}' cannot be '{text}'", mend_name(text, choices))
            return ""
        return text

    def texts(self, key: str, *, required: bool = False) -> tuple[str, ...]:
        """Take a key whose value is a list of text, or one text."""
        node = self.take(key, required=required)
        return () if node is None else tuple(one for one, _ in texts_of(node, self.problems, what=f"'{key}'"))

    def items(self, key: str, *, required: bool = False) -> list[Node]:
        """Take a key whose value is a list."""
        node = self.take(key, required=required)
        if node is None:
            return []
        if not isinstance(node.value, list):
            self.fault(node, f"'{key}' is not a list", "start each entry with '- '")
            return []
        return node.value

    def pairs(self, key: str, *, required: bool = False) -> Iterator[tuple[str, Node, Place]]:
        """Take a key whose value is a mapping; gives each name, its node, and the place of the name."""
        node = self.take(key, required=required)
        if node is None:
            return
        if not isinstance(node.value, dict):
            self.fault(node, f"'{key}' is not written as 'name: value'", "write 'name: value' pairs")
            return
        for name, one in node.value.items():
            yield name, one, node.keys[name]

    def done(self) -> None:
        """Refuse every key that was not taken."""
        for name in self._fields:
            if name not in self._asked:
                self.problems.append(
                    Problem(
                        self.node.keys[name],
                        f"{self.what} has no key '{name}'",
                        mend_name(name, tuple(self._asked)),
                    )
                )


def texts_of(node: Node, problems: list[Problem], *, what: str) -> list[tuple[str, Node]]:
    """Read one text or a list of texts.

    Args:
        node: The value.
        problems: Where faults are gathered.
        what: What it is, for messages.

    Returns:
        Each text with its node.
    """
    nodes = node.value if isinstance(node.value, list) else [node]
    found = []
    for one in nodes:
        if isinstance(one.value, str):
            found.append((one.value.strip(), one))
        else:
            problems.append(Problem(one.place, f"{what} holds something that is not text", "write one value"))
    return found
