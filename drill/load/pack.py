"""A school's folder to a pack, for phones."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

from drill.bank.book import Book
from drill.basis.plain import from_plain, to_plain
from drill.load.compile import DECKS, Compiled
from drill.load.rulebook import RULES
from drill.rulebook.overlay import Overlay
from drill.store.book_pictures import pictures_back, pictures_out
from drill.store.pack import Pack


def pack_of(compiled: Compiled, *, school: Path | None, day: date) -> Pack:
    """Put what was compiled into a pack.

    Args:
        compiled: Book and school, without problems.
        school: The school's folder; None for none.
        day: The day for which it was compiled.

    Returns:
        The pack; where the folders lie on this machine does not show in it.
    """
    roots = [(RULES, "rules"), (DECKS, "decks"), *([(school, "school")] if school else [])]
    folder = compiled.school
    bare, pictures = pictures_out(compiled.book)
    short = from_plain(Book, _with_short_places(to_plain(bare), roots))
    return Pack(
        book=pictures_back(short, pictures),
        kit=folder.kit if folder else None,
        good_until=next_change(folder.rules if folder else (), day=day),
    )


def next_change(rules: Iterable[Overlay], *, day: date) -> str:
    """Find the first day after a given one on which a local rule begins or ends.

    Args:
        rules: Local rules, in force or not.
        day: The day.

    Returns:
        ISO date; empty where none does.
    """
    days = [text for rule in rules for text in (rule.since, rule.until)]
    return min((text for text in days if text > day.isoformat()), default="")


def _with_short_places(plain: Any, roots: list[tuple[Path, str]]) -> Any:  # noqa: ANN401  JSON values are of any type
    if isinstance(plain, list):
        return [_with_short_places(one, roots) for one in plain]
    if not isinstance(plain, dict):
        return plain
    found = {key: _with_short_places(one, roots) for key, one in plain.items()}
    place = found.get("place")
    if isinstance(place, dict) and isinstance(place.get("file"), str):
        found["place"] = {**place, "file": _short(Path(place["file"]), roots)}
    return found


def _short(path: Path, roots: list[tuple[Path, str]]) -> str:
    for root, name in roots:
        if path.is_relative_to(root):
            return f"{name}/{path.relative_to(root).as_posix()}"
    return path.name
