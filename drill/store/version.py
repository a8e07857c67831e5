"""Which version of this program is at work, as compiled files and packs name it."""

from importlib.metadata import PackageNotFoundError, version

UNKNOWN_VERSION = "0"


def program_version() -> str:
    """Give the version of this program, ``0`` where it runs uninstalled."""
    try:
        return version("drill")
    except PackageNotFoundError:
        return UNKNOWN_VERSION


def is_newer(one: str, other: str) -> bool:
    """Tell whether one version came after another.

    Args:
        one: Numbers with dots between them.
        other: The same.

    Returns:
        True where it did; a part that is no number counts as 0.
    """
    return _numbers(one) > _numbers(other)


def _numbers(text: str) -> tuple[int, ...]:
    parts = (part if part.isascii() and part.isdigit() else "0" for part in text.split("."))
    numbers = [int(part[:9]) for part in parts]
    while numbers and not numbers[-1]:
        numbers.pop()
    return tuple(numbers)
