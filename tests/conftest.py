"""What every test may ask for: the built-in rulebook and the book, each loaded once."""

from datetime import date

import pytest
from hypothesis import HealthCheck, settings

from drill.bank.book import Book
from drill.load.compile import compile_book
from drill.load.rulebook import load_rulebook
from drill.rulebook.rulebook import Rulebook

# A slow or busy machine is no fault of the code, and the same commit gives the same verdict everywhere.
settings.register_profile(
    "ordinary",
    deadline=None,
    derandomize=True,
    max_examples=50,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("ordinary")


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    """The built-in rulebook, free of faults."""
    loaded, problems = load_rulebook()
    assert not problems, "\n".join(map(str, problems))
    return loaded


@pytest.fixture(scope="session")
def book() -> Book:
    """The built-in book, free of faults."""
    compiled = compile_book(day=date(2026, 11, 25), proved=True)
    assert not compiled.problems, "\n".join(map(str, compiled.problems))
    return compiled.book
