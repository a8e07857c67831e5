"""Consultations and kits as written."""

from pathlib import Path

import pytest

from drill.load.consultation import read_consultation, read_kit
from drill.load.reading import read_text
from drill.service.kit import BUILT_IN_KIT, Kit, Tool
from drill.service.zones import ZONE_NAMES


@pytest.fixture
def read(rulebook, tmp_path):
    """Read a consultation from text; gives it and the lines told."""

    def _read(text: str, folder: Path = tmp_path):
        nodes, problems = read_text(text.encode(), shown="it.yaml")
        assert not problems
        found = read_consultation(nodes[0], rulebook, problems, folder=folder)
        return found, [str(one) for one in problems]

    return _read


def test_dotted_and_nested_keys_mean_the_same(read):
    """Whichever way a person writes."""
    nested, _ = read("hair: {length: 20 cm, strand: fine}\nwish: {curl: soft}\n")
    dotted, _ = read("hair.length: 20 cm\nhair.strand: fine\nwish.curl: soft\n")
    mixed, _ = read("hair: {length: 20 cm}\nhair.strand: fine\nwish.curl: soft\n")
    assert nested == dotted == mixed
    assert (nested.of("hair.length", "top"), nested.of("hair.strand"), nested.of("scalp")) == (
        200.0,
        "fine",
        "unknown",
    )


def test_a_perm_with_the_built_in_kit_is_taken_for_granted(read):
    """And nothing else."""
    found, _ = read("hair.length: 20 cm\nwish.curl: soft\n")
    assert (found.of("service"), found.kit, found.client) == ("perm", BUILT_IN_KIT, "")


@pytest.mark.parametrize(
    ("word", "value"), [("yes", "yes"), ("true", "yes"), ("False", "no"), ("'no'", "no")]
)
def test_yes_and_true_mean_the_same(read, word, value):
    """As YAML's own booleans do."""
    found, _ = read(f"hair.length: 20 cm\nwish.curl: soft\nhistory.known: {word}\n")
    assert found.of("history.known") == value


def test_lengths_and_spans_are_read_into_their_unit(read):
    """A number of weeks or minutes may stand bare, a length never."""
    found, _ = read(
        "hair.length: 8 in\nwish.curl: 5/8 in\nhistory.weeks_since_perm: 14 days\n"
        "health.months_since: 1 year\nappointment: 90\n"
    )
    assert found.of("hair.length", "top") == pytest.approx(203.2)
    assert found.of("wish.curl") == pytest.approx(15.875)
    assert [found.of(one) for one in ("history.weeks_since_perm", "health.months_since", "appointment")] == [
        2.0,
        12.0,
        90.0,
    ]


def test_zones_can_differ(read):
    """Length and porosity stated one by one, growth where there is one, blends as a list."""
    lengths = ", ".join(f"{zone}: {at + 5} cm" for at, zone in enumerate(ZONE_NAMES))
    found, told = read(
        f"hair: {{length: {{{lengths}}}, growth: {{top: whorl}}, porosity: {{top: porous}}}}\n"
        "wish: {curl: soft, blend: [top, left_side], wear: forward}\n"
    )
    assert told == []
    assert found.each_zone("hair.length") == tuple(float(at + 5) * 10 for at in range(9))
    assert (found.of("hair.growth", "top"), found.of("hair.growth", "left_side")) == ("whorl", "none")
    assert (found.of("hair.porosity", "top"), found.of("hair.porosity", "nape_left")) == ("porous", "unknown")
    assert [zone for zone in ZONE_NAMES if found.of("wish.blend", zone) == "yes"] == ["top", "left_side"]
    assert found.each_zone("wish.wear") == ("forward",) * 9


@pytest.mark.parametrize("written", ["none", "no", "''"])
def test_no_blend_may_be_written(read, written):
    """In any word for nothing."""
    found, told = read(f"hair.length: 20 cm\nwish: {{curl: soft, blend: {written}}}\n")
    assert (told, set(found.each_zone("wish.blend"))) == ([], {"no"})


def test_a_faulty_value_for_the_whole_head_is_told_once(read):
    """Not nine times."""
    found, told = read("hair: {length: 20 cm, porosity: sponge}\nwish.curl: soft\n")
    assert found is None
    assert len(told) == 1


def test_a_client_is_any_text(read):
    """A label; a list is joined."""
    assert read("client: 007\nhair.length: 20 cm\nwish.curl: soft\n")[0].client == "007"
    assert read("client: [Ada, R.]\nhair.length: 20 cm\nwish.curl: soft\n")[0].client == "Ada R."


def test_a_kit_is_read_from_a_file_beside_the_consultation(read, tmp_path):
    """Its name is the file's where it does not say."""
    text = "- {diameter: 12 mm, rim_diameter: 1/2 in, length: 9 cm, shape: concave, count: 20}\n"
    (tmp_path / "trolley.yaml").write_text(text, encoding="utf-8")
    found, told = read("hair.length: 20 cm\nwish.curl: soft\nkit: trolley.yaml\n")
    assert told == []
    tool = Tool(diameter_mm=12.0, rim_diameter_mm=12.7, length_mm=90.0, shape="concave", count=20)
    assert found.kit == Kit("trolley", (tool,))


@pytest.mark.parametrize("name", ["gone.yaml", '"a\\0b"', "x" * 300, "."])
def test_a_kit_file_that_cannot_be_there_is_told(read, name):
    """Whatever the name, no other fault."""
    found, told = read(f"hair.length: 20 cm\nwish.curl: soft\nkit: {name}\n")
    assert found is None
    assert len(told) == 1
    assert told[0].startswith("it.yaml:3:6: there is no kit file")


def test_a_broken_kit_file_is_told_in_that_file(read, tmp_path):
    """With its own place."""
    (tmp_path / "trolley.yaml").write_text("tools: [\n", encoding="utf-8")
    _, told = read("hair.length: 20 cm\nwish.curl: soft\nkit: trolley.yaml\n")
    assert len(told) == 1
    assert told[0].startswith(f"{tmp_path / 'trolley.yaml'}:")


@pytest.mark.parametrize("count", ["0", "1000"])
def test_a_count_may_be_any_number_of_tools_there_can_be(count):
    """None in the drawer, or a store of them."""
    tool = "- {diameter: 12 mm, length: 9 cm, shape: straight, count: %s}\n"
    nodes, problems = read_text((tool % count + tool % 1).encode(), shown="kit.yaml")
    kit = read_kit(nodes[0], problems)
    assert (kit.name, kit.tools[0].count, kit.tools[0].rim_diameter_mm) == ("kit", int(count), 12.0)


def test_a_kit_with_nothing_left_in_it_is_empty():
    """Sizes alone wind no hair."""
    nodes, problems = read_text(
        b"- {diameter: 12 mm, length: 9 cm, shape: straight, count: 0}\n", shown="kit.yaml"
    )
    assert read_kit(nodes[0], problems) is None
    assert [problem.what for problem in problems] == ["the kit is empty"]


@pytest.mark.parametrize("count", ["-1", "1001", "1.5", "٣", "1e2", "99999"])
def test_a_count_is_a_whole_number(count):
    """Written in plain digits."""
    text = f"- {{diameter: 12 mm, length: 9 cm, shape: straight, count: {count}}}\n"
    nodes, problems = read_text(text.encode(), shown="kit.yaml")
    assert read_kit(nodes[0], problems) is None
    assert [one.what for one in problems] == [f"'count' is no number from 0 to 1000: '{count}'"]
