"""A question maker of the built-in book, and items and heads to ask it about."""

from collections.abc import Callable
from typing import Any

import pytest

from drill.bank.beliefs import Beliefs
from drill.bank.book import Book
from drill.bank.item import Item
from drill.bank.make import QuestionMaker
from drill.rulebook.rulebook import Rulebook
from drill.service.consultation import Consultation
from drill.service.head import Head
from drill.service.zones import ZONE_NAMES

CLEAR = {
    "service": "perm", "wish.curl": "medium", "wish.look": "waves", "wish.root_volume": "moderate",
    "scalp": "healthy", "hair.strand": "medium", "hair.density": "average", "hair.pattern": "straight",
    "hair.elasticity": "good", "hair.ends": "even", "history.known": "yes", "history.color": "none",
    "history.lightened": "none", "history.relaxer": "none", "history.smoothing": "no",
    "history.metallic_dye": "no", "history.weeks_since_perm": "never", "history.reaction": "no",
    "health.treatment": "none",
}  # fmt: skip


@pytest.fixture(scope="session")
def beliefs(book: Book) -> Beliefs:
    """The built-in wrong ideas at work."""
    return Beliefs(book)


@pytest.fixture(scope="session")
def maker(beliefs: Beliefs) -> QuestionMaker:
    """Makes questions under the built-in rules."""
    return QuestionMaker(beliefs)


@pytest.fixture
def make_head(rulebook: Rulebook) -> Callable[..., Head]:
    """Make a head fit for a perm with a few changes, `zone` those of every zone."""

    def make(changes: dict[str, Any] | None = None, *, zone: dict[str, Any] | None = None) -> Head:
        of_zone = {"hair.length": 180.0, "hair.porosity": "average", **(zone or {})}
        zones = {name: dict(of_zone) for name in ZONE_NAMES}
        return Head(rulebook, Consultation(head={**CLEAR, **(changes or {})}, zones=zones))

    return make


@pytest.fixture
def make_item() -> Callable[..., Item]:
    """Make an item by its decision, anything else by name."""

    def make(decision: str, **values: Any) -> Item:
        fields = {"id": f"about-{decision}", "topic": "t", "kind": "choose", "stem": "What now?", **values}
        return Item(decision=decision, **fields)

    return make
