"""The printed forms of one plan: the card and the head map, each a file of its own."""

import os
from collections.abc import Sequence
from pathlib import Path

import click

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.report.card import plan_card_html
from drill.report.card_zones import head_map_svg
from drill.rulebook.rulebook import Rulebook
from drill.service.plan import Plan


def write_forms(plans: Sequence[Plan], rulebook: Rulebook, *, html: Path | None, svg: Path | None) -> None:
    """Write the card and the head map of one plan.

    Args:
        plans: The plans made; a file holds one.
        rulebook: The rules that they were made under.
        html: Where the card goes; None for none.
        svg: Where the head map goes; None for none.

    Raises:
        click.UsageError: If there are several plans.
        ProblemsError: If there is no map to draw, or a file cannot be written; nothing is written then.
    """
    if html is None and svg is None:
        return
    if len(plans) > 1:
        raise click.UsageError(say("--html and --svg hold one plan; give one consultation"))
    for plan in plans:
        if svg is not None and not plan.zones:
            what = say("there is no head map of a service that is not done")
            raise ProblemsError(
                [Problem(Place(str(svg)), what, say("leave --svg out; --html says what instead"))]
            )
        if html is not None:
            _write(html, plan_card_html(plan, rulebook=rulebook))
        if svg is not None:
            _write(svg, head_map_svg(plan, rulebook=rulebook))


def _write(path: Path, text: str) -> None:
    half = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        half.write_text(text, encoding="utf-8")
        half.replace(path)
    except OSError as error:
        half.unlink(missing_ok=True)
        what = say("cannot write the file: {reason}", reason=(error.strerror or "").lower())
        raise ProblemsError(
            [Problem(Place(str(path)), what, say("check the folder and its rights"))]
        ) from None
