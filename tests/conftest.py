"""What every test may ask for: the built-in rulebook and the book, each loaded once."""

import base64
import zlib
from collections.abc import Callable
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

# A rectangle of our own, 24 by 10 dots.
_JPEG = (
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWG"
    "kJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSk"
    "pKSkpKSkpKSkpKSkpKT/wAARCAAKABgDASIAAhEBAxEB/8QAFwABAAMAAAAAAAAAAAAAAAAAAAMEBf/EAB0QAAEEAwEBAAAA"
    "AAAAAAAAAAMAAQIRBAUSQVH/xAAUAQEAAAAAAAAAAAAAAAAAAAAA/8QAFBEBAAAAAAAAAAAAAAAAAAAAAP/aAAwDAQACEQMR"
    "AD8Ak220zMfYlEI3MI1Tcs/jP8WtqTkyNcIpZdTldvVeuyuIgIiIP//Z"
)


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


@pytest.fixture(scope="session")
def make_png() -> Callable[..., bytes]:
    """Write a PNG in one shade of grey; with ``stated`` its header says other sides than its dots have."""

    def chunk(name: bytes, held: bytes) -> bytes:
        check = zlib.crc32(name + held).to_bytes(4, "big")
        return len(held).to_bytes(4, "big") + name + held + check

    def make(
        width: int = 6, height: int = 4, *, shade: int = 128, stated: tuple[int, int] | None = None
    ) -> bytes:
        sides = b"".join(side.to_bytes(4, "big") for side in stated or (width, height))
        dots = zlib.compress((b"\0" + bytes([shade]) * width) * height)
        parts = (chunk(b"IHDR", sides + b"\x08\0\0\0\0"), chunk(b"IDAT", dots), chunk(b"IEND", b""))
        return b"\x89PNG\r\n\x1a\n" + b"".join(parts)

    return make


@pytest.fixture(scope="session")
def jpeg() -> bytes:
    """A JPEG, 24 dots wide and 10 high."""
    return base64.b64decode(_JPEG)
