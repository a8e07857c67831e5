"""Real files damaged on purpose, and files that mean harm: told or read; never an error, never a wait.

Each input is looked at by the readers that would meet it, on the processor's own clock: a busy machine is no
fault of a file.
"""

import json
import random
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book, School
from drill.bank.item import Item, Wrong
from drill.bank.make import QuestionMaker
from drill.basis.problem import Problem, ProblemsError
from drill.load.compile import DECKS, load_misconceptions
from drill.load.consultation import read_consultation, read_kit
from drill.load.decks import read_deck, refuse_twins
from drill.load.limits import read_limits
from drill.load.names import names_of
from drill.load.overlay import read_overlay
from drill.load.reading import Node, read_text
from drill.load.rulebook import RULES, load_rulebook, read_parameters
from drill.load.school import load_local_decks, load_school
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.kit import Kit, Tool
from drill.service.plan import plan_service
from drill.service.plan_contract import plan_to_plain
from drill.store.pack import Pack, pack_from_bytes, pack_to_bytes
from drill.store.pack_text import text_to_bytes

FUZZ = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
SCHOOL = Path(__file__).parent.parent.parent / "assets" / "demo"
SOUND = Path(__file__).parent.parent / "messages" / "rulebook" / "sound"
MOST_S = 4.0
# Parts of 500: forty-six of them, 23,000 inputs and over 20,000 different ones, where a person asks for the
# long tests.
PART, PARTS = 500, 46
FEW = 300

TOKENS = (
    "20 cm",
    "20",
    "-1 mm",
    "1/0 in",
    "never",
    "unknown",
    "yes",
    "true",
    "null",
    "~",
    "",
    "nan",
    ".inf",
    "1e999",
    "1e-400",
    "0x1F",
    "[]",
    "{}",
    "[[[[]]]]",
    "{a: b}",
    "- x",
    "&a x",
    "*a",
    "!!python/object:os.system x",
    "!!str x",
    "|",
    ">",
    "%TAG",
    "@",
    "`",
    "'",
    '"',
    ": ",
    "#",
    "\t",
    "---",
    "...",
    "? x",
    "<<: *a",
    "\u00a0",
    "\u2028",
    "\ufeff",
    "\ud800",
    "\x00",
    "\x1b[31m",
    "x" * 3000,
    "9" * 3000,
    "../../../etc/passwd",
    "/etc/passwd",
    "C:\\Windows\\x",
    "<= 3 weeks",
    ">= 99999999999999999999 cm",
    "5 cm to 1 cm",
    "{zone.__class__}",
    "{0}",
    "%s%s%n",
    "2026-02-30",
    "9999-99-99",
    "100 %",
    "0",
    "-0",
    "on_base",
    "hair.length",
    "wish.curl: tight",
    "[" * 60,
    "{a: " * 60,
    "[a, " * 200,
)


def _well_told(problems: list[Problem]) -> None:
    for problem in problems:
        assert problem.place.line >= 1, problem
        assert problem.place.column >= 1, problem
        assert problem.what.strip(), problem
        assert problem.mend.strip(), problem
        assert "Traceback" not in str(problem), problem


def _token(rng: random.Random) -> bytes:
    return rng.choice(TOKENS).encode("utf-8", "surrogatepass")


def _cut_line(lines: list[bytes], at: int, rng: random.Random) -> None:
    del lines[at]


def _double_line(lines: list[bytes], at: int, rng: random.Random) -> None:
    lines.insert(rng.randrange(len(lines)), lines[at])


def _swap_lines(lines: list[bytes], at: int, rng: random.Random) -> None:
    other = rng.randrange(len(lines))
    lines[at], lines[other] = lines[other], lines[at]


def _other_value(lines: list[bytes], at: int, rng: random.Random) -> None:
    key, colon, _ = lines[at].partition(b": ")
    lines[at] = key + colon + _token(rng)


def _other_indent(lines: list[bytes], at: int, rng: random.Random) -> None:
    lines[at] = b" " * rng.randrange(8) + lines[at].strip()


def _other_word(lines: list[bytes], at: int, rng: random.Random) -> None:
    words = lines[at].split(b" ")
    words[rng.randrange(len(words))] = _token(rng)
    lines[at] = b" ".join(words)


def _move_block(lines: list[bytes], at: int, rng: random.Random) -> None:
    block = lines[at : at + rng.randint(1, 8)]
    del lines[at : at + len(block)]
    place = rng.randrange(len(lines) + 1)
    lines[place:place] = block * rng.randint(1, 3)


def _other_key(lines: list[bytes], at: int, rng: random.Random) -> None:
    before, colon, after = lines[at].partition(b":")
    lines[at] = before[: max(0, len(before) - rng.randint(1, 3))] + colon + after


LINE_DAMAGE: tuple[Callable[[list[bytes], int, random.Random], None], ...] = (
    _cut_line,
    _double_line,
    _swap_lines,
    _other_value,
    _other_indent,
    _other_word,
    _move_block,
    _other_key,
)


def _damaged(data: bytes, rng: random.Random) -> bytes:
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        lines = data.split(b"\n")
        how = rng.randrange(len(LINE_DAMAGE) + 3)
        if how < len(LINE_DAMAGE):
            LINE_DAMAGE[how](lines, rng.randrange(len(lines)), rng)
            data = b"\n".join(lines)
        elif how == len(LINE_DAMAGE):
            data = data[: rng.randrange(len(data) + 1)]
        elif data:
            place = rng.randrange(len(data))
            put = bytes([rng.randrange(256)]) if how == len(LINE_DAMAGE) + 1 else _token(rng)
            data = data[:place] + put + data[place + rng.randint(0, 1) :]
    return data


def _damaged_plain(plain: object, rng: random.Random) -> None:
    """Change one value inside: take it out, double it, put something strange or another part there."""
    held, key = plain, None
    while isinstance(held, dict | list) and held:
        key = rng.choice(list(held)) if isinstance(held, dict) else rng.randrange(len(held))
        inner = held[key]
        if not isinstance(inner, dict | list) or not inner or rng.random() < 0.15:
            break
        held = inner
    if key is None:
        return
    strange = (
        None,
        True,
        -1,
        0,
        1e17,
        10**17,
        "",
        "x",
        "unknown",
        [],
        {},
        [[]],
        {"a": 1},
        {"fraction": "1e99999999"},
        {"fraction": "1/0"},
        "9" * 400,
        "on_base",
        "no-such-row",
        "\x1b[31m",
        "{zone.__class__}",
        0.5,
        "2026-02-30",
    )
    how = rng.randrange(5)
    if how == 0:
        del held[key]
    elif how == 1 and isinstance(held, list):
        held.insert(key, held[key])
    elif how == 2:
        held[key] = json.loads(
            json.dumps(rng.choice(list(held.values()) if isinstance(held, dict) else held))
        )
    elif how == 3 and isinstance(held, dict):
        held[rng.choice(("colour", "id", "values", "place"))] = held[key]
    else:
        held[key] = rng.choice(strange)


class Readers:
    """Every reader of files, each with the real files that it is for.

    Args:
        rulebook: The built-in rules.
        folder: An empty folder.
    """

    def __init__(self, rulebook: Rulebook, folder: Path) -> None:
        self.rulebook, self.folder, self.names = rulebook, folder, names_of(rulebook)
        self.beliefs = load_misconceptions(RULES / "misconceptions", rulebook, [])
        self.read: dict[str, Callable[[bytes, Path], None]] = {
            "rules": self._rules,
            "rulebook": self._small_rulebook,
            "deck": self._deck,
            "school": self._school,
            "kit": self._kit,
            "consultation": self._consultation,
            "pack": self._pack,
        }
        self.pack = _small_pack(rulebook, self.beliefs)
        self.packed = pack_to_bytes(self.pack)
        consultations = sorted((SCHOOL / "consultations").glob("*.yaml"))
        self.files: dict[str, list[Path]] = {
            "rules": [
                *sorted((RULES / "parameters").glob("*.yaml")),
                *sorted((RULES / "misconceptions").glob("*.yaml")),
                RULES / "limits.yaml",
                *sorted((SCHOOL / "rules").glob("*.yaml")) * 4,
            ],
            "rulebook": sorted(SOUND.rglob("*.yaml")),
            "deck": [
                *(path for path in sorted(DECKS.glob("*.yaml")) if path.name != "blueprint.yaml"),
                *sorted((SCHOOL / "decks").glob("*.yaml")),
            ],
            "school": [
                SCHOOL / "school.yaml",
                *sorted((SCHOOL / "rules").glob("*.yaml")),
                *sorted((SCHOOL / "decks").glob("*.yaml")),
            ],
            "kit": [SCHOOL / "kit.yaml"],
            "consultation": consultations,
        }

    def inputs(self, seed: str, count: int) -> Iterator[tuple[str, Path, bytes]]:
        """Damage files, each kind in turn."""
        rng = random.Random(seed)
        for number in range(count):
            kind = list(self.read)[number % len(self.read)]
            if kind == "pack":
                yield kind, Path("it.pack"), self._damaged_pack(rng)
            else:
                path = rng.choice(self.files[kind])
                yield kind, path, _damaged(path.read_bytes(), rng)

    def _damaged_pack(self, rng: random.Random) -> bytes:
        """Damage it on its way, or write a strange one with a digest that is right."""
        if rng.random() < 0.2:
            return _damaged(self.packed, rng)
        plain = json.loads(self.packed.partition(b"\n")[2])
        for _ in range(rng.choice((1, 1, 2, 4))):
            _damaged_plain(plain, rng)
        return text_to_bytes(plain)

    def nodes(self, data: bytes) -> list[Node]:
        nodes, problems = read_text(data, shown="it.yaml")
        assert not (nodes and problems)
        _well_told(problems)
        return nodes

    def _rules(self, data: bytes, path: Path) -> None:
        for node in self.nodes(data):
            problems: list[Problem] = []
            overlay = read_overlay(node, self.rulebook, problems, kind="local_rule")
            assert (overlay is None) == bool(problems)
            read_overlay(node, self.rulebook, problems, kind="misconception")
            read_limits([node], self.names, self.rulebook.sources, problems)
            read_parameters(node, prefix=path.stem, sources=self.rulebook.sources, problems=problems)
            _well_told(problems)

    def _small_rulebook(self, data: bytes, path: Path) -> None:
        folder = self.folder / "rulebook"
        for one in self.files["rulebook"]:
            copy = folder / one.relative_to(SOUND)
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(data if one == path else one.read_bytes())
        _, problems = load_rulebook(folder, facts={})
        _well_told(problems)

    def _deck(self, data: bytes, path: Path) -> None:
        for node in self.nodes(data):
            problems: list[Problem] = []
            _, _, items = read_deck(node, self.rulebook, problems, beliefs=self.beliefs, local=True)
            refuse_twins(items, problems)
            _well_told(problems)

    def _school(self, data: bytes, path: Path) -> None:
        folder = self.folder / "school"
        for one in {SCHOOL / "school.yaml", path}:
            copy = folder / one.relative_to(SCHOOL)
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(data if one == path else one.read_bytes())
        _, problems = load_school(folder, self.rulebook)
        load_local_decks(folder, self.rulebook, self.beliefs, problems)
        _well_told(problems)
        if path.name != "school.yaml":
            (folder / path.relative_to(SCHOOL)).unlink()

    def _kit(self, data: bytes, path: Path) -> None:
        for node in self.nodes(data):
            problems: list[Problem] = []
            assert (read_kit(node, problems) is None) == bool(problems)
            _well_told(problems)

    def _consultation(self, data: bytes, path: Path) -> None:
        for node in self.nodes(data):
            problems: list[Problem] = []
            consultation = read_consultation(node, self.rulebook, problems, folder=self.folder)
            assert (consultation is None) == bool(problems)
            _well_told(problems)
            if consultation is not None:
                self._plan(consultation)

    def _plan(self, consultation: Consultation) -> None:
        """What was read can be planned, and written down."""
        assert json.dumps(plan_to_plain(plan_service(self.rulebook, consultation)), allow_nan=False)

    def _pack(self, data: bytes, path: Path) -> None:
        try:
            pack = pack_from_bytes(data, shown=str(path), built_in=self.pack.book, is_proved=True)
        except ProblemsError as error:
            _well_told(list(error.problems))
            return
        # What was taken can be written again, and is the same then.
        again = pack_to_bytes(pack)
        assert (
            pack_from_bytes(again, shown=str(path), built_in=self.pack.book, is_proved=True).book == pack.book
        )


def _small_pack(rulebook: Rulebook, beliefs: dict) -> Pack:
    """A part of the built-in book with a thing of every kind in it, so that thousands can be opened."""
    tables = {
        name: rulebook.tables[name] for name in ("hair.condition", "papers", "base_control", "cautions")
    }
    small = replace(rulebook, tables={})
    for table in tables.values():
        rows = tuple(row for row in table.rows if row.then_from != "input")[:12]
        read = {name for row in rows for name in row.when}
        kept = tuple(row for row in rows if not (read - {*rulebook.domains}) & {*row.when})
        small = small.with_table(replace(table, rows=kept))
    small = replace(
        small,
        parameters=dict(list(rulebook.parameters.items())[:8])
        | {name: one for name, one in rulebook.parameters.items() if name.startswith("papers.")},
        limits=rulebook.limits[:6],
        sources=dict(list(rulebook.sources.items())[:5]),
    )
    items = (
        Item(id="a", topic="papers", kind="choose", stem="Which?", decision="papers", zones=("top",)),
        Item(
            id="b",
            topic="papers",
            kind="choose",
            stem="Why?",
            answer="So.",
            wrong=(Wrong(text="x", misconception="i"), Wrong(text="y")),
            because="b",
            source="c",
        ),
        Item(
            id="c",
            topic="papers",
            kind="choose",
            stem="How?",
            decision="base_control",
            zones=("top",),
            vary={"scalp": ("healthy", "broken"), "hair.length": (200.0,)},
        ),
    )
    idea = next(iter(beliefs.values()))
    book = Book(
        rulebook=small,
        misconceptions=(replace(idea, id="i", changes=()),),
        items=items,
        topics={"papers": "Papers"},
        school=School(name="Birch Lane (invented)", exam_date="2027-01-31", blueprint={"papers": 1.0}),
    )
    return Pack(book=book, kit=Kit("k", (Tool(9.5, 12.0, 76.0, "concave", 60),)), good_until="2027-06-01")


@pytest.fixture(scope="module")
def readers(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Readers:
    return Readers(rulebook, tmp_path_factory.mktemp("hostile"))


def _try_all(readers: Readers, seed: str, count: int) -> int:
    tried = 0
    for kind, path, data in readers.inputs(seed, count):
        start = time.process_time()
        try:
            readers.read[kind](data, path)
        except Exception as error:
            kept = readers.folder / f"{kind}-{path.name}"
            kept.write_bytes(data)
            raise AssertionError(f"{kind} {path.name}, kept as {kept}: {error!r}") from error
        assert time.process_time() - start < MOST_S, (kind, path, data[:200])
        tried += 1
    return tried


def test_real_files_are_read_as_they_are(readers: Readers):
    """Otherwise damaging them would say little."""
    for kind, paths in readers.files.items():
        for path in paths:
            readers.read[kind](path.read_bytes(), path)
    for path in readers.files["deck"]:
        (node,) = readers.nodes(path.read_bytes())
        assert read_deck(node, readers.rulebook, [], beliefs=readers.beliefs, local=True)[2], path
    readers.read["pack"](readers.packed, Path("it.pack"))
    opened = pack_from_bytes(readers.packed, shown="it", built_in=readers.pack.book, is_proved=True)
    assert opened.book == readers.pack.book


def test_damaged_files_are_read_or_told(readers: Readers):
    """Some of each kind."""
    assert _try_all(readers, "few", FEW) == FEW


@pytest.mark.long
@pytest.mark.parametrize("part", range(PARTS))
def test_thousands_of_damaged_files_are_read_or_told(readers: Readers, part: int):
    """Rules, a rulebook, question sets, a school, a kit, consultations and packs."""
    assert _try_all(readers, f"part {part}", PART) == PART


json_like = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@FUZZ
@given(st.binary(max_size=300))
@example(b"PK\x03\x04../../x")
@example(b"\x1f\x8b\x08" + b"\x00" * 60)
@example(b'{"format":"wavedrill.pack"}\n')
@example(
    b'{"format":"wavedrill.pack","version":true,"made_by":"1","bytes":0,"digest":"' + b"0" * 64 + b'"}\n'
)
@example(b'{"format":"wavedrill.pack","version":1e400,"made_by":"1","bytes":0,"digest":""}\n')
@example(b"[" * 900 + b"\n")
def test_any_bytes_are_no_pack(readers: Readers, data: bytes):
    """An archive, a squeezed file, half a first line."""
    with pytest.raises(ProblemsError):
        pack_from_bytes(data, shown="it", built_in=readers.pack.book)


@FUZZ
@given(
    st.dictionaries(st.sampled_from(["book", "kit", "good_until", "pictures", "x"]), json_like, max_size=4)
)
def test_any_values_in_a_pack_are_told(readers: Readers, plain: dict):
    """With a digest that is right."""
    try:
        data = text_to_bytes(plain)
    except ValueError:  # no number: the writer itself refuses it
        return
    with pytest.raises(ProblemsError):
        pack_from_bytes(data, shown="it", built_in=readers.pack.book)


def _ask_of_strange_packs(rulebook: Rulebook, seeds: range) -> int:
    """Open whole packs that were changed in a value or two, and ask of those that are taken."""
    beliefs = load_misconceptions(RULES / "misconceptions", rulebook, [])
    items = tuple(
        Item(id=f"on-{name}", topic="all", kind="choose", stem="What?", decision=name, zones=zones)
        for name, zones in (("papers", ("top",)), ("base_control", ("top", "nape_left")), ("verdict", ()))
    )
    own = Book(rulebook=rulebook, misconceptions=tuple(beliefs.values()), items=items, topics={"all": "All"})
    whole = pack_to_bytes(Pack(book=own)).partition(b"\n")[2]
    taken = 0
    for seed in seeds:
        rng = random.Random(f"ask {seed}")
        plain = json.loads(whole)
        part = rng.choice(("rulebook", "rulebook", "items", "misconceptions"))
        tables = plain["book"]["rulebook"]["tables"]
        # A row of some table, most of all: what a local rule may change.
        into = rng.choice(list(tables.values()))["rows"] if part == "rulebook" else plain["book"][part]
        _damaged_plain(into, rng)
        try:
            pack = pack_from_bytes(text_to_bytes(plain), shown="it", built_in=own)
        except ProblemsError as error:
            _well_told(list(error.problems))
            continue
        taken += 1
        maker = QuestionMaker(Beliefs(pack.book))
        for item in pack.book.items:
            maker.make(item, seed)
    return taken


def test_what_is_taken_from_a_strange_pack_can_be_asked(rulebook: Rulebook):
    """Its rules were proved, so every question finds its key."""
    assert _ask_of_strange_packs(rulebook, range(6)) >= 1


@pytest.mark.long
@pytest.mark.parametrize("part", range(6))
def test_what_is_taken_from_many_strange_packs_can_be_asked(rulebook: Rulebook, part: int):
    """Thirty in each part."""
    assert _ask_of_strange_packs(rulebook, range(100 + part * 30, 130 + part * 30)) >= 1
