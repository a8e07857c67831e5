"""The blueprint file: what it may say, and the faults told with their place."""

from pathlib import Path

import pytest

from drill.bank.blueprint import Blueprint
from drill.load.blueprint import load_blueprint

SOUND = """\
outline:
  title: Theory examination
  source: X1
  items: 110
  time: 90 min
  shares: {hair: 60 %, skin: 40 %}
weights: {papers: 2, directions: 0.5}
because: These weights are ours.
source: common practice
"""
TOPICS = ("papers", "directions")


@pytest.fixture
def read(tmp_path, rulebook):
    """Read a text as the blueprint; give it and the faults as lines without the folder."""

    def call(text):
        path = tmp_path / "blueprint.yaml"
        path.write_text(text)
        problems = []
        found = load_blueprint(path, rulebook, TOPICS, problems)
        return found, [str(problem).replace(f"{path}:", "") for problem in problems]

    return call


def test_a_sound_file_is_read_whole(read):
    """Shares as parts of one, the time in minutes."""
    blueprint, problems = read(SOUND)
    assert problems == []
    assert blueprint.outline.shares == {"hair": 0.6, "skin": 0.4}
    assert (blueprint.outline.items, blueprint.outline.minutes) == (110, 90.0)
    assert blueprint.weights == {"papers": 2.0, "directions": 0.5}
    assert (blueprint.because, blueprint.source) == ("These weights are ours.", "common practice")


def test_without_a_file_every_topic_weighs_the_same(rulebook):
    """And the published time an item stands."""
    found = load_blueprint(Path("no-such-folder/blueprint.yaml"), rulebook, TOPICS, [])
    assert found == Blueprint()
    assert found.outline.seconds_an_item == 49


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("items: 110", "items: many", "4:10: 'items' cannot be 'many'; write a whole number"),
        ("time: 90 min", "time: soon", "5:9: 'time' cannot be 'soon'; write 90 min"),
        ("  items: 110\n", "", "the outline has no 'items'"),
        ("hair: 60 %", "hair: 50 %", "the shares make 90%, not 100 %; mend one of them"),
        ("hair: 60 %", "hair: most", "hair cannot be 'most'; write a share of the marks, such as 35 %"),
        ("papers: 2", "paper: 2", "there is no topic 'paper'; did you mean 'papers'?"),
        ("papers: 2", "papers: much", "papers cannot weigh 'much'; write a number from 0 up, such as 2"),
        ("source: X1", "source: X999", "the source 'X999' is not among the sources"),
        ("because: These weights are ours.\n", "", "the blueprint has no 'because'"),
        ("outline:\n", "outline:\n  length: 2\n", "'length'"),
    ],
)
def test_each_fault_is_told(read, old, new, told):
    """Where it is, what was found, what to write."""
    assert old in SOUND
    _, problems = read(SOUND.replace(old, new))
    assert any(told in problem for problem in problems), problems


def test_without_an_outline_the_rest_is_read(read):
    """The fault is told."""
    text = SOUND[SOUND.index("weights") :]
    blueprint, problems = read(text)
    assert blueprint.weights
    assert len(problems) == 1
    assert "outline" in problems[0]
