"""Attempts as text, one JSON object a line, to send a log by any means and to read it with any program.

Reading never stops at the first fault: every line's faults are told with line and column.
"""

import json
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, fields
from datetime import UTC, datetime, timedelta
from typing import Any

from drill.basis.problem import Place, Problem, mend_name
from drill.basis.words import say
from drill.memory.attempt import ID_BYTES, Attempt

FIELDS = tuple(field.name for field in fields(Attempt))
_BLANK = re.compile(r"[ \t\r]*")
_ID = re.compile(rf"[0-9a-f]{{{2 * ID_BYTES}}}")
_SURROGATE = re.compile(r"[\ud800-\udfff]")


class _FaultError(Exception):
    """A fault in one line, on its way to become a problem."""

    def __init__(self, index: int, what: str, mend: str) -> None:
        super().__init__(what)
        self.index, self.what, self.mend = index, what, mend


@dataclass(frozen=True, slots=True)
class _Value:
    """A value and where it begins in its line, counted from 0."""

    value: Any
    index: int


def _refuse_constant(name: str) -> float:
    raise ValueError(name)


_decoder = json.JSONDecoder(parse_constant=_refuse_constant)


def attempts_to_lines(attempts: Iterable[Attempt]) -> Iterator[str]:
    """Write attempts as JSON lines.

    Args:
        attempts: In the order to write them.

    Yields:
        One line for each, with its line end, in ASCII: the fields of an attempt, ``id`` as 32 hexadecimal
        digits, ``at`` in UTC to the microsecond.
    """
    for attempt in attempts:
        values: dict[str, object] = {name: getattr(attempt, name) for name in FIELDS}
        values["id"] = attempt.id.hex()
        values["at"] = attempt.at.astimezone(UTC).isoformat(timespec="microseconds")
        yield json.dumps(values) + "\n"


def attempts_from_bytes(data: bytes, *, file: str) -> tuple[tuple[Attempt, ...], tuple[Problem, ...]]:
    """Read attempts from JSON lines.

    Args:
        data: The file as it is; blank lines are passed over.
        file: Its path, to name in problems.

    Returns:
        The attempts of the lines without a fault, in order, and all faults. An attempt that is written
        twice comes twice; a log takes it once.
    """
    attempts, problems = [], []
    for number, raw in enumerate(data.removeprefix(b"\xef\xbb\xbf").split(b"\n"), start=1):
        try:
            attempt = _read_line(raw)
        except _FaultError as fault:
            problems.append(Problem(Place(file, number, fault.index + 1), fault.what, fault.mend))
            continue
        if attempt is not None:
            attempts.append(attempt)
    return tuple(attempts), tuple(problems)


def _read_line(raw: bytes) -> Attempt | None:
    try:
        line = raw.decode()
    except UnicodeDecodeError as error:
        raise _FaultError(
            len(raw[: error.start].decode()),
            say("this is not UTF-8 text"),
            say("save the file as UTF-8, or export the log again"),
        ) from error
    if not line.strip(" \t\r"):
        return None
    return _attempt_from_values(_scan_object(line), line)


def _skip_blank(line: str, index: int) -> int:
    found = _BLANK.match(line, index)
    return index if found is None else found.end()


def _expect(line: str, index: int, marks: str) -> int:
    """Step over one of the marks; blanks before and after it do not count."""
    index = _skip_blank(line, index)
    if line[index : index + 1] not in tuple(marks):
        wanted = " or ".join(f"'{mark}'" for mark in marks)
        found = repr(line[index]) if index < len(line) else say("the end of the line")
        raise _FaultError(
            index,
            say("expected {wanted}, found {found}", wanted=wanted, found=found),
            say("write one attempt a line, as one JSON object"),
        )
    return _skip_blank(line, index + 1)


def _scan_value(line: str, index: int) -> tuple[Any, int]:
    try:
        return _decoder.raw_decode(line, index)
    except (ValueError, RecursionError) as error:
        raise _FaultError(
            getattr(error, "pos", index),
            say("this is no JSON value"),
            say("write text in double quotes, a number, true, false, null or a list"),
        ) from error


def _scan_key(line: str, index: int) -> tuple[str, int]:
    _expect(line, index, '"')
    return _scan_value(line, _skip_blank(line, index))


def _scan_object(line: str) -> dict[str, _Value]:
    """Read one flat JSON object by hand, to know the column of each value."""
    values: dict[str, _Value] = {}
    index = _expect(line, 0, "{")
    while True:
        at_key = index
        key, index = _scan_key(line, index)
        if key not in FIELDS:
            raise _FaultError(at_key, say("unknown field '{key}'", key=_ascii(key)), mend_name(key, FIELDS))
        if key in values:
            raise _FaultError(at_key, say("field '{key}' stands twice", key=key), say("keep one of them"))
        index = _expect(line, index, ":")
        value, after = _scan_value(line, index)
        values[key] = _Value(value, index)
        after = _skip_blank(line, after)
        index = _expect(line, after, ",}")
        if line[after] == "}":
            break
    if index < len(line):
        raise _FaultError(index, say("there is more after the object"), say("write one object a line"))
    return values


def _ascii(text: object, *, most: int = 40) -> str:
    """Show a value from a file so that any terminal can print it, in so many letters at most."""
    shown = ascii(text)[1:-1] if isinstance(text, str) else ascii(text)
    return shown if len(shown) <= most else f"{shown[: most - 3]}..."


def _read_text(value: Any) -> str | None:  # noqa: ANN401  a JSON value is of any type
    return value if isinstance(value, str) and not _SURROGATE.search(value) else None


def _read_id(value: Any) -> bytes | None:  # noqa: ANN401
    return bytes.fromhex(value) if isinstance(value, str) and _ID.fullmatch(value) else None


def _read_at(value: Any) -> datetime | None:  # noqa: ANN401
    try:
        at = datetime.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        return None
    return at.replace(tzinfo=UTC) if at is not None and at.utcoffset() == timedelta(0) else None


def _read_whole(value: Any) -> int | None:  # noqa: ANN401
    return value if isinstance(value, int) and not isinstance(value, bool) else None


def _read_seconds(value: Any) -> float | None:  # noqa: ANN401
    try:
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None
    except OverflowError:
        return None


def _read_flag(value: Any) -> bool | None:  # noqa: ANN401
    return value if isinstance(value, bool) else None


def _read_ideas(value: Any) -> tuple[str, ...] | None:  # noqa: ANN401
    if not isinstance(value, list) or any(_read_text(one) is None for one in value):
        return None
    return tuple(value)


def _one_of(*allowed: str | None) -> Callable[[Any], tuple[str | None] | None]:
    # In a tuple, since None is a value of one field.
    return lambda value: (
        (value,) if any(value == one and type(value) is type(one) for one in allowed) else None
    )


_READERS: dict[str, tuple[Callable[[Any], Any], str]] = {
    "id": (_read_id, "32 hexadecimal digits in small letters"),
    "at": (_read_at, "a UTC time such as 2026-01-05T18:30:00.000000+00:00"),
    "day": (_read_whole, "a whole number of days since 1970-01-01"),
    "seed": (_read_whole, "a whole number from 0 to 9223372036854775807"),
    "correct": (_read_flag, "true or false"),
    "misconceptions": (_read_ideas, "a list of texts"),
    "certainty": (_one_of("low", "middle", "high", None), '"low", "middle", "high" or null'),
    "seconds": (_read_seconds, "a number of seconds, 0 or more"),
    "setting": (_one_of("drill", "exam"), '"drill" or "exam"'),
}
_TEXT = (_read_text, "text in double quotes")


def _attempt_from_values(values: dict[str, _Value], line: str) -> Attempt:
    missing = [name for name in FIELDS if name not in values]
    if missing:
        raise _FaultError(
            line.index("{"),
            say("fields are missing: {names}", names=", ".join(missing)),
            say("add them, or export the log again"),
        )
    read: dict[str, Any] = {}
    for name in FIELDS:
        reader, wanted = _READERS.get(name, _TEXT)
        found = values[name]
        value = reader(found.value)
        if value is None:
            raise _FaultError(
                found.index,
                say("{name} is {value}", name=name, value=_ascii(found.value)),
                say("write {wanted}", wanted=wanted),
            )
        read[name] = value[0] if name in ("certainty", "setting") else value
    try:
        return Attempt(**read)
    except ValueError as error:
        # The fields fit one by one; the first word names the one that does not fit the others.
        name = str(error).split(" ", maxsplit=1)[0]
        raise _FaultError(
            values[name].index, _ascii(str(error), most=120), say("export the log again from the device")
        ) from error
