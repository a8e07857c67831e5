"""Items about faults and contrasts, as written, to values."""

import pytest

from drill.bank.item import Wrong
from drill.load.decks import read_deck
from drill.load.faults import load_faults
from drill.load.reading import read_text


@pytest.fixture
def read(rulebook):
    """Read one item, given below its id and stem."""

    def one(text):
        lines = "".join(f"    {line}\n" for line in text.splitlines())
        deck = f"topic: t\nitems:\n  - id: it\n    stem: Which?\n{lines}"
        nodes, problems = read_text(deck.encode(), shown="deck.yaml")
        seen = {fault.id: fault for fault in load_faults(rulebook)[0]}
        _, _, items = read_deck(nodes[0], rulebook, problems, beliefs={"an-idea": None}, faults=seen)
        assert not problems, [str(problem) for problem in problems]
        return items[0]

    return one


def test_plan_to_look_through_names_its_lines(read):
    """Decisions on the zone, on the head, and the tool's diameter."""
    item = read("kind: find_fault\nzone: [top, nape_left]\nparts: [papers, verdict, tool.diameter_mm]")
    assert (item.kind, item.zones) == ("find_fault", ("top", "nape_left"))
    assert item.parts == ("papers", "verdict", "tool.diameter_mm")
    assert (item.decision, item.skill, item.is_fact) == ("", "t/it", False)


def test_cause_names_what_is_seen_and_what_may_be_the_cause(read):
    """A tool's size is read by the diameter that is seen."""
    item = read(
        "kind: cause\nfault: too_loose\nzone: any\ncauses: [tool.size, not-blotted]\n"
        "vary: {hair.ends: even}\nwrong:\n  - {text: A, misconception: an-idea}\n  - {text: B}"
    )
    assert (item.fault, item.parts) == ("too_loose", ("tool.diameter_mm", "not-blotted"))
    assert item.wrong == (Wrong(text="A", misconception="an-idea"), Wrong(text="B"))
    assert item.vary == {"hair.ends": ("even",)}
    assert len(item.zones) == 9
    assert item.skill == "t/it"


def test_cause_without_a_list_may_be_any(read):
    """And needs no written option."""
    item = read("kind: cause\nfault: fish_hooks\nzone: top")
    assert (item.parts, item.wrong) == ((), ())


def test_contrast_names_one_fact_with_its_values(read):
    """Beside what is varied on both heads."""
    item = read(
        "kind: contrast\ndecision: wrap\nzone: top\ncontrast: {hair.length: [12 cm, 30 cm]}\n"
        "vary: {wish.look: waves}"
    )
    assert item.contrast == {"hair.length": (120.0, 300.0)}
    assert (item.decision, item.vary) == ("wrap", {"wish.look": ("waves",)})
    assert item.skill == "t/it"


@pytest.mark.parametrize(
    ("contrast", "what"),
    [
        ("{hair: [a, b]}", "a consultation has no field 'hair'"),
        ("length", "'contrast' is not written as 'name: value'"),
    ],
)
def test_contrast_that_names_no_field_is_told_once(rulebook, contrast, what):
    """At the name, or at what stands in place of names."""
    item = f"{{id: a, stem: s, kind: contrast, decision: wrap, zone: top, contrast: {contrast}}}"
    nodes, problems = read_text(f"topic: t\nitems:\n  - {item}\n".encode(), shown="deck.yaml")
    read_deck(nodes[0], rulebook, problems, beliefs={})
    assert [problem.what for problem in problems] == [what]
