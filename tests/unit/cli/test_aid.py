"""First aid, at once and whatever else is broken."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from drill.service.aid import CARDS

Run = Callable[..., Result]


def flat(text: str) -> str:
    return " ".join(text.split())


def test_all_cards_without_anything_else(run: Run, home: Path) -> None:
    """No book, no student, no data folder made."""
    text = flat(run("aid").stdout)
    for card in CARDS:
        assert flat(card.signs).rstrip(".").lower() in text.lower()
        for step in card.do:
            assert f"! {step}" in text
    assert "call the emergency services" in text
    assert "safety sheet" in text
    assert not home.exists()


@pytest.mark.parametrize("card", [one.id for one in CARDS])
def test_one_card_alone(run: Run, card: str) -> None:
    """With what comes before every card."""
    text = run("aid", card.upper()).stdout
    others = [one for one in CARDS if one.id != card]
    assert not any(one.do[0] in flat(text) for one in others)
    assert "They come before anything written here." in flat(text)


def test_misspelt_card_still_gets_all_of_them(run: Run) -> None:
    """And the nearest name, with the status of wrong usage."""
    result = run("aid", "eyes", status=2)
    assert "EYE" in result.stdout
    assert "FAINTING" in result.stdout
    assert "did you mean 'eye'?" in result.stderr


def test_cards_as_json(run: Run) -> None:
    """For other programs."""
    plain = json.loads(run("aid", "--json").stdout)
    assert plain["format"] == "aid.v1"
    assert [one["id"] for one in plain["cards"]] == [one.id for one in CARDS]
    assert [one["id"] for one in json.loads(run("aid", "skin", "--json").stdout)["cards"]] == ["skin"]


def test_nothing_that_is_broken_stands_in_its_way(tmp_path: Path) -> None:
    """The data folder is a file, and no module of loading, memory or questions can be imported."""
    home = tmp_path / "home"
    home.write_text("no folder")
    script = tmp_path / "broken.py"
    script.write_text(
        "import sys\n"
        "class Broken:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name in ('yaml', 'sqlite_utils', 'fsrs', 'drill.load', 'drill.memory', 'drill.bank'):\n"
        "            raise ImportError(name)\n"
        "sys.meta_path.insert(0, Broken())\n"
        "sys.argv = ['wavedrill', 'aid', 'eye']\n"
        "from drill.__main__ import main\n"
        "main()\n"
    )
    done = subprocess.run(
        [sys.executable, str(script)],
        env=os.environ | {"WAVEDRILL_HOME": str(home)},
        capture_output=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"at least 15 minutes" in b" ".join(done.stdout.split())
