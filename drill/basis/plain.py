"""Typed values to plain JSON values and back.

Works on frozen dataclasses, literal texts, tuples, frozensets, mappings with text keys, exact
fractions and bytes, so that a compiled book is one JSON file and opening it rebuilds equal values.
"""

import re
import types
from collections.abc import Mapping, Sequence
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

# An exponent would make a short text stand for a number that fills the memory.
_FRACTION = re.compile(r"-?\d{1,400}(?:/\d{1,400})?")
_CANNOT = "cannot read {value!r} as {kind}"


def to_plain(value: object, *, without: type | None = None) -> Any:  # noqa: ANN401  JSON values are of any type
    """Turn a typed value into JSON values.

    Args:
        value: A dataclass or a value built of those this module names.
        without: A type whose values are left out where a dataclass holds one.

    Returns:
        Dictionaries, lists, text, numbers, booleans and None; a fraction becomes
        ``{"fraction": "n/d"}``, a field that holds its default is left out.

    Raises:
        TypeError: If the value is of another type.
    """
    if value is None or isinstance(value, str | bool | int | float):
        return value
    if isinstance(value, Fraction):
        return {"fraction": str(value)}
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, Mapping):
        return {key: to_plain(one, without=without) for key, one in value.items()}
    if isinstance(value, frozenset):
        return sorted(to_plain(one, without=without) for one in value)
    if isinstance(value, Sequence):
        return [to_plain(one, without=without) for one in value]
    if is_dataclass(value) and not isinstance(value, type):
        held = [(field, getattr(value, field.name)) for field in fields(value)]
        return {
            field.name: to_plain(one, without=without)
            for field, one in held
            if (field.default is MISSING or one != field.default)
            and not (without is not None and isinstance(one, without))
        }
    raise TypeError(f"no plain form for {type(value).__name__}")


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def from_plain(kind: Any, value: Any) -> Any:  # noqa: ANN401  one branch a shape
    """Rebuild a typed value from JSON values.

    Args:
        kind: The type wanted: a dataclass, or a type built of those this module names.
        value: What :func:`to_plain` gave.

    Returns:
        A value equal to the one that was written.

    Raises:
        TypeError: If the JSON value does not have the shape of the type.
    """
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return _from_union(get_args(kind), value)
    if origin is Literal:
        if value not in get_args(kind):
            raise TypeError(_CANNOT.format(value=value, kind=kind))
        return value
    if origin in (tuple, frozenset):
        return _from_list(kind, value)
    if origin is not None and issubclass(origin, Mapping):
        if not isinstance(value, dict):
            raise TypeError(_CANNOT.format(value=value, kind=kind))
        return {key: from_plain(get_args(kind)[1], one) for key, one in value.items()}
    if is_dataclass(kind):
        return _from_fields(kind, value)
    return _from_scalar(kind, value)


def _from_list(kind: Any, value: Any) -> Any:  # noqa: ANN401
    inner = get_args(kind)
    if not isinstance(value, list):
        raise TypeError(_CANNOT.format(value=value, kind=kind))
    if get_origin(kind) is frozenset:
        return frozenset(from_plain(inner[0], one) for one in value)
    if len(inner) == 2 and inner[1] is ...:  # noqa: PLR2004  tuple[X, ...]
        return tuple(from_plain(inner[0], one) for one in value)
    if len(inner) != len(value):
        raise TypeError(_CANNOT.format(value=value, kind=kind))
    return tuple(from_plain(one_kind, one) for one_kind, one in zip(inner, value, strict=True))


def _from_union(kinds: tuple[Any, ...], value: Any) -> Any:  # noqa: ANN401
    for kind in kinds:
        try:
            return from_plain(kind, value)
        except TypeError:
            continue
    raise TypeError(_CANNOT.format(value=value, kind=kinds))


def _from_fields(kind: Any, value: Any) -> Any:  # noqa: ANN401
    if not isinstance(value, dict):
        raise TypeError(_CANNOT.format(value=value, kind=kind))
    hints = _hints(kind)
    unknown = value.keys() - hints.keys()
    if unknown:
        raise TypeError(f"{kind.__name__} has no {', '.join(sorted(unknown))}")
    return kind(**{name: from_plain(hints[name], one) for name, one in value.items()})


def _from_scalar(kind: Any, value: Any) -> Any:  # noqa: ANN401
    if kind is Any or _is_of(kind, value):
        return value
    try:
        if kind is Fraction and _FRACTION.fullmatch(value["fraction"]):
            return Fraction(value["fraction"])
        if kind is bytes and isinstance(value, str):
            return bytes.fromhex(value)
        if kind is float and _is_of(int, value):
            return float(value)
    except (TypeError, ValueError, KeyError, ArithmeticError) as error:
        raise TypeError(_CANNOT.format(value=value, kind=kind)) from error
    raise TypeError(_CANNOT.format(value=value, kind=kind))


def _is_of(kind: Any, value: Any) -> bool:  # noqa: ANN401
    return isinstance(value, kind) and not (kind is int and isinstance(value, bool))
