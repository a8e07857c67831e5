"""The schemas for editors, held against the loaders that they describe."""

import json
import re
from datetime import date, datetime
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from drill.cli.demo import DEMO_SCHOOL
from drill.load.compile import DECKS, compile_book, load_misconceptions
from drill.load.consultation import read_kit
from drill.load.deck_kinds import READERS
from drill.load.decks import read_deck
from drill.load.new_school import SCHOOL_SCHEMAS, school_files, write_files
from drill.load.overlay import read_overlay
from drill.load.reading import read_file, read_text
from drill.load.rulebook import RULES, load_rulebook, read_parameters
from drill.load.schema import SUFFIX, schema_texts, schemas
from drill.load.school import load_school

MESSAGES = Path(__file__).parent.parent.parent / "messages"
DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def check(rulebook):
    """Give what a kind of file's schema finds in a document."""
    validators = {kind: Draft202012Validator(schema) for kind, schema in schemas(rulebook).items()}

    def faults(kind: str, document: object) -> list[str]:
        return [error.message for error in validators[kind].iter_errors(document)]

    return faults


@pytest.fixture(scope="module")
def demo_check():
    """The same for a school whose local rules have widened a vocabulary."""
    rulebook = compile_book(DEMO_SCHOOL, day=DAY, proved=True).book.rulebook
    validators = {kind: Draft202012Validator(schema) for kind, schema in schemas(rulebook).items()}
    return lambda kind, document: [error.message for error in validators[kind].iter_errors(document)]


def as_text(node):
    """Read a document as this program does: every value a text."""
    if isinstance(node.value, dict):
        return {key: as_text(one) for key, one in node.value.items()}
    return [as_text(one) for one in node.value] if isinstance(node.value, list) else node.value


def as_editor(text: str) -> list:
    """Read documents as an editor does: numbers and booleans are their own, days are text."""

    def plain(value):
        if isinstance(value, dict):
            return {str(key): plain(one) for key, one in value.items()}
        if isinstance(value, date | datetime):
            return value.isoformat()
        return [plain(one) for one in value] if isinstance(value, list) else value

    return [plain(one) for one in yaml.safe_load_all(text) if one is not None]


def real_files():
    """Every file that is shipped, with its kind."""
    yield from (("deck", path) for path in sorted(DECKS.glob("*.yaml")) if path.stem != "blueprint")
    yield from (("table", path) for path in sorted((RULES / "tables").glob("*.yaml")))
    yield from (("parameters", path) for path in sorted((RULES / "parameters").glob("*.yaml")))
    yield from (("misconceptions", path) for path in sorted((RULES / "misconceptions").glob("*.yaml")))
    yield from ((kind, RULES / f"{kind}.yaml") for kind in ("limits", "vocabulary", "sources"))
    yield from (("school", DEMO_SCHOOL / "school.yaml"), ("kit", DEMO_SCHOOL / "kit.yaml"))
    yield from (("local_rule", path) for path in sorted((DEMO_SCHOOL / "rules").glob("*.yaml")))
    yield from (("deck", path) for path in sorted((DEMO_SCHOOL / "decks").glob("*.yaml")))
    yield from (("consultation", path) for path in sorted((DEMO_SCHOOL / "consultations").glob("*.yaml")))


FILES = list(real_files())


@pytest.mark.parametrize(("kind", "path"), FILES, ids=[f"{kind}-{path.stem}" for kind, path in FILES])
def test_every_file_that_is_shipped_holds_to_its_schema(kind, path, check, demo_check):
    """As this program reads it, and as an editor does."""
    nodes, problems = read_file(path)
    assert problems == []
    judge = demo_check if DEMO_SCHOOL in path.parents else check
    documents = as_editor(path.read_text(encoding="utf-8"))
    assert len(documents) == len(nodes) > 0
    for node, document in zip(nodes, documents, strict=True):
        assert judge(kind, as_text(node)) == []
        assert judge(kind, document) == []


def test_the_schemas_are_schemas(rulebook):
    """Of the draft that they name, and each is one line of JSON."""
    texts = schema_texts(rulebook)
    assert set(texts) >= {f"{kind}{SUFFIX}" for kind in SCHOOL_SCHEMAS}
    for text in texts.values():
        schema = json.loads(text)
        Draft202012Validator.check_schema(schema)
        assert "\n" not in text
    assert schema_texts().keys() == texts.keys()


# What only the loader can know: it depends on another place, another file, on the proof, or on how a number
# with its unit is written. The schema lets these through, and `wavedrill check` tells them.
ONLY_THE_LOADER = {
    "consultation/bare-length": "a number without its unit",
    "consultation/slip-of-the-unit": "a length that no hair has",
    "consultation/nape-of-two-metres": "a length that no nape has",
    "consultation/shortest-longer": "two lengths against each other",
    "consultation/tool-of-no-width": "a width that no tool has",
    "consultation/weeks-written-wrong": "a number with its unit",
    "consultation/kit-file-missing": "another file",
    "consultation/kit-file-empty": "another file",
    "consultation/twice-both-ways": "two ways to write one name",
    "local_rule/ends-before-it-begins": "two days against each other",
    "local_rule/loosens-a-limit": "the proof",
    "local_rule/other-words-for-a-caution": "the built-in words",
    "local_rule/third-answer": "how many answers a question has",
    "local_rule/removes-a-guard": "the proof",
    "local_rule/leaves-a-gap": "the proof",
    "local_rule/waits-for-itself": "the proof",
    "local_rule/widened-counts-as": "the proof",
    "local_rule/row-of-zone-names-for-the-head": "the row's table",
    "deck/one-id-twice": "another item",
    "deck/row": "the decision's rows",
    "deck/picture": "whose question set it is",
    "picture/elsewhere": "the folder of pictures",
    "picture/header": "the picture itself",
    "picture/neither-png-nor-jpeg": "the picture itself",
    "picture/not-there": "the folder of pictures",
    "picture/outside": "the school's folder",
    "picture/too-many-dots": "the picture itself",
    "misconception/one-id-twice": "another entry",
    "misconception/unknown-source": "the list of sources",
    "school/rules-in-conflict": "two files",
    "school/blueprint-sum": "the sum",
    "school/rules-and-kit": "the file of rules and kit beside it",
}
# No document is left of it to be held against a schema.
NEVER_REACHES_A_SCHEMA = ("consultation/twice", "school/empty")
KIND_OF = {
    "consultation": "consultation",
    "local_rule": "local_rule",
    "deck": "deck",
    "picture": "deck",
    "misconception": "misconceptions",
}


def broken_files():
    """Every file with a known fault, by its case."""
    for folder, kind in KIND_OF.items():
        for path in sorted((MESSAGES / folder).glob("*.yaml")):
            yield f"{folder}/{path.stem}", kind, path
    for path in sorted((MESSAGES / "school").glob("*/school.yaml")):
        yield f"school/{path.parent.name}", "school", path


BROKEN = list(broken_files())


@pytest.mark.parametrize(("case", "kind", "path"), BROKEN, ids=[one[0] for one in BROKEN])
def test_a_broken_file_is_refused_by_its_schema_unless_only_the_loader_can_know(case, kind, path, check):
    """The list above says why it is let through."""
    nodes, _ = read_file(path)
    faults = [fault for node in nodes for fault in check(kind, as_text(node))]
    if case in NEVER_REACHES_A_SCHEMA:
        assert not nodes
    elif case in ONLY_THE_LOADER:
        assert not faults, faults
    else:
        assert faults


def test_the_list_of_what_only_the_loader_knows_names_cases_that_are_there():
    """None of it is left over."""
    assert set(ONLY_THE_LOADER) <= {case for case, _, _ in BROKEN}


def loader_keys(read, text: str) -> tuple[set[str], set[str]]:
    """Ask a loader which keys it knows and demands, by what it says of a key that it does not know."""
    nodes, faults = read_text(text.encode(), shown="f")
    assert faults == []
    problems = []
    read(nodes[0], problems)
    told = [str(one) for one in problems if "no key '§'" in str(one)]
    assert len(told) == 1, problems
    known = re.search(r"use one of: (.+)$", told[0])[1].split(", ")
    demanded = {found[1] for one in problems if (found := re.search(r"has no '(\w+)'", str(one)))}
    return set(known), demanded


def school_keys(text, tmp_path, rulebook):
    """Ask the loader of school.yaml."""
    path = tmp_path / "school.yaml"
    path.write_text(text, encoding="utf-8")
    return loader_keys(lambda _, problems: problems.extend(load_school(tmp_path, rulebook)[1]), text)


def test_school_and_kit_know_the_keys_of_their_loaders(rulebook, tmp_path):
    """All of them, and no others; and the same ones are demanded."""
    known = schemas(rulebook)
    keys, demanded = school_keys("§: 1\n", tmp_path, rulebook)
    assert set(known["school"]["properties"]) == keys
    assert set(known["school"]["required"]) == demanded
    whole = known["kit"]["anyOf"][1]
    keys, demanded = loader_keys(read_kit, "§: 1\n")
    assert (set(whole["properties"]), set(whole["required"])) == (keys, demanded)
    tool = whole["properties"]["tools"]["items"]
    keys, demanded = loader_keys(read_kit, "- §: 1\n")
    assert (set(tool["properties"]), set(tool["required"])) == (keys, demanded)


def test_an_overlay_knows_the_keys_of_its_loader(rulebook, tmp_path):
    """A local rule, a misconception, and each way of changing something."""
    known = schemas(rulebook)

    def local_rule(node, problems):
        read_overlay(node, rulebook, problems, kind="local_rule")

    def misconception(node, problems):
        read_overlay(node, rulebook, problems, kind="misconception")

    rule = known["local_rule"]
    keys, demanded = loader_keys(local_rule, "§: 1\n")
    assert set(rule["properties"]) == keys
    assert set(rule["required"]) == demanded | {"changes"}
    wrong = known["misconceptions"]["properties"]["misconceptions"]["items"]
    keys, demanded = loader_keys(misconception, "§: 1\n")
    assert (set(wrong["properties"]), set(wrong["required"])) == (keys, demanded)
    ways = rule["properties"]["changes"]["items"]["allOf"]
    for way in ways:
        op = way["if"]["properties"]["op"]["const"]
        text = f"overlay: a\nbecause: b\nsource: c\nchanges:\n  - {{op: {op}, §: 1}}\n"
        keys, demanded = loader_keys(local_rule, text)
        assert (set(way["then"]["properties"]), set(way["then"]["required"])) == (keys, demanded), op
    row = ways[0]["then"]["properties"]["row"]
    text = "overlay: a\nbecause: b\nsource: c\nchanges:\n  - {op: add, table: papers, row: {§: 1}}\n"
    keys, demanded = loader_keys(local_rule, text)
    assert (set(row["properties"]), set(row["required"])) == (keys, demanded)


def test_parameters_and_tables_know_the_keys_of_their_loaders(rulebook, tmp_path):
    """A parameter, a table, a limit and a name."""
    known = schemas(rulebook)

    def parameters(node, problems):
        read_parameters(node, prefix="p", sources={}, problems=problems)

    one = known["parameters"]["properties"]["parameters"]["additionalProperties"]
    keys, demanded = loader_keys(parameters, "parameters: {a: {§: 1}}\n")
    assert (set(one["properties"]), set(one["required"])) == (keys, demanded)
    for kind, file, text in (
        ("table", "tables/t.yaml", "decision: d\n§: 1\n"),
        ("limits", "limits.yaml", "limits: [{§: 1}]\n"),
        ("vocabulary", "vocabulary.yaml", "names: [{§: 1}]\n"),
    ):
        folder = tmp_path / kind
        (folder / "tables").mkdir(parents=True)
        for name in ("sources", "limits", "vocabulary"):
            (folder / f"{name}.yaml").write_text("", encoding="utf-8")
        (folder / file).write_text(text, encoding="utf-8")

        def load(_, problems, folder=folder):
            problems.extend(load_rulebook(folder, facts={})[1])

        schema = known[kind]
        for inside in ("limits", "names"):
            schema = schema["properties"][inside]["items"] if inside in schema["properties"] else schema
        keys, demanded = loader_keys(load, text)
        assert set(schema["properties"]) == keys, kind
        assert set(schema["required"]) == demanded | ({"decision"} if kind == "table" else set()), kind


@pytest.mark.parametrize("kind", sorted(READERS))
@pytest.mark.parametrize("decision", ["", "decision: papers, "])
def test_an_item_knows_the_keys_of_its_loader(kind, decision, rulebook, check):
    """Of each kind, with and without a decision; a key that the loader only takes to refuse it is refused."""

    def deck(node, problems):
        read_deck(node, rulebook, problems, beliefs={})

    item = f"{{id: a, kind: {kind}, stem: s, {decision}§: 1}}"
    keys, demanded = loader_keys(deck, f"topic: t\nitems: [{item}]\n")
    written = {"id": "a", "kind": kind, "stem": "s"} | ({"decision": "papers"} if decision else {})

    def faults(more):
        return check("deck", {"topic": "t", "items": [{**written, **more}]})

    assert any("§" in fault for fault in faults({"§": "1"}))
    for key in keys - {"answer", "wrong", "decision"}:
        assert not any(f"'{key}' was unexpected" in fault for fault in faults({key: "1"})), key
    for key in demanded:
        assert any(f"'{key}' is a required property" in fault for fault in faults({})), key


def test_a_consultation_takes_dotted_and_nested_names(check):
    """Both are the same, and both required fields may come either way."""
    assert check("consultation", {"hair.length": "20 cm", "wish": {"curl": "soft"}}) == []
    assert check("consultation", {"hair": {"length": {"top": "20 cm"}}, "wish.curl": "soft"}) == []
    assert check("consultation", {"hair.length": "20 cm"})
    assert check("consultation", {"hair.length": "20 cm", "wish.curl": "soft", "scalp": "fine"})


def test_what_the_loaders_take_the_schemas_take(rulebook, check, tmp_path):
    """The files of a new school with every note taken away, and the misconceptions of this program."""
    files = school_files("O'Hara's school")
    assert write_files(tmp_path, files) == []
    for name, text in files.items():
        head, _, rest = text.partition("\n\n")
        bare = head + "\n\n" + re.sub(r"(?m)^# ?(?=[\w ]*[-\w]+:|  )", "", rest)
        (tmp_path / name).write_text(bare if "school" not in name else text, encoding="utf-8")
    compiled = compile_book(tmp_path, day=DAY)
    assert compiled.problems == ()
    assert compiled.book.school.name == "O'Hara's school"
    assert {"house-papers-for-this-head", "house-tools-back-in-the-tray"} <= {
        item.id for item in compiled.book.items
    }
    assert [one.id for one in compiled.school.rules] == ["two-papers-first"]
    for name, kind in (
        ("school.yaml", "school"),
        ("kit.yaml", "kit"),
        ("rules/local-rules.yaml", "local_rule"),
        ("decks/house-rules.yaml", "deck"),
    ):
        for document in as_editor((tmp_path / name).read_text(encoding="utf-8")):
            assert check(kind, document) == [], name
    assert load_misconceptions(RULES / "misconceptions", rulebook, [])


def test_a_new_school_passes_as_it_stands(tmp_path):
    """It has a name, and nothing else yet."""
    assert write_files(tmp_path / "new", school_files("New")) == []
    compiled = compile_book(tmp_path / "new", day=DAY)
    assert compiled.problems == ()
    assert compiled.school.rules == ()
    assert compiled.school.kit is None


def test_nothing_is_overwritten_and_then_nothing_is_written(tmp_path):
    """One file that is there keeps all the others away."""
    (tmp_path / "kit.yaml").write_text("mine", encoding="utf-8")
    (problem,) = write_files(tmp_path, school_files("New"))
    assert str(problem).startswith(
        f"{tmp_path}/kit.yaml:1:1: the file is there already; nothing is ever overwr"
    )
    assert [path.name for path in tmp_path.iterdir()] == ["kit.yaml"]
    assert (tmp_path / "kit.yaml").read_text(encoding="utf-8") == "mine"


def test_a_place_that_cannot_be_written_is_told(tmp_path):
    """A file stands where the folder should."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    (problem,) = write_files(tmp_path / "taken", school_files("New"))
    assert (
        "cannot write here: not a directory" in problem.what
        or "cannot write here: file exists" in problem.what
    )
