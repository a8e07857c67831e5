"""What cannot be is refused with its mend, and what does not fit together is asked once more."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
OTHERS = (
    "top", "left_side", "right_side", "back_left", "back_center", "back_right", "nape_left", "nape_right",
)  # fmt: skip
ON_A_NAPE = ", ".join(f"{zone}: 15 cm" for zone in OTHERS)


@pytest.mark.parametrize(
    ("changed", "told", "mend"),
    [
        (f"hair.length: {{{ON_A_NAPE}, nape_center: 200 cm}}", "hair.length is 200 cm, outside", "its unit"),
        (f"hair.length: {{{ON_A_NAPE}, nape_center: 2 m}}", "hair.length cannot be '2 m'", "20 cm"),
        ("hair: {length: 9 cm, shortest: 12 cm}", "hair.shortest is longer than hair.length", "the longest"),
        ("kit: [{diameter: 0 mm, length: 76 mm, shape: long, count: 9}]", "'diameter' is 0 mm", "the number"),
        (
            "kit: [{diameter: 9 mm, rim_diameter: 8 mm, length: 76 mm, shape: concave, count: 9}]",
            "the rim is thinner than the waist",
            "give the waist as 'diameter'",
        ),
        ("kit: []", "the kit is empty", "list at least one tool"),
        ("kit: [{diameter: 9 mm, length: 76 mm, shape: long, count: 0}]", "the kit is empty", "at least one"),
    ],
)
def test_what_cannot_be_is_refused_with_its_mend(run: Run, changed: str, told: str, mend: str) -> None:
    """One line with its place; nothing is planned."""
    length = "" if "length: " in changed.partition("kit")[0] else "hair.length: 18 cm\n"
    result = run("plan", "-", "--json", stdin=f"{changed}\n{length}wish.curl: medium\n", status=1)
    (error,) = json.loads(result.stdout)["error"]
    assert error.startswith("<stdin>:1:")
    assert told in error
    assert mend in error.partition("; ")[2]


def test_what_does_not_fit_together_is_asked_once_more(run: Run, sound_head: Path) -> None:
    """Hair that feels as if it had never been treated, and a perm four weeks ago: which of the two is so?"""
    text = sound_head.read_text().replace("weeks_since_perm: never", "weeks_since_perm: 4")
    text = text.replace("porosity: average", "porosity: resistant")
    plan = json.loads(run("plan", "-", "--json", stdin=text).stdout)
    assert plan["verdict"] not in ("go", "test_first")
    assert plan["zones"] == {}
    (question,) = plan["questions"]
    assert "Was it a perm, on this hair, at that date?" in json.dumps(question)
