"""How a row becomes a value: columns by the name of the field, parsed by its type."""

import json
import typing
from collections.abc import Callable
from dataclasses import fields
from datetime import date, datetime, time
from functools import lru_cache
from types import UnionType
from typing import Any, TypeVar

from followup.records.store import Row
from followup.records.times import from_text

Value = TypeVar("Value")


def made(kind: type[Value], row: Row, **given: Any) -> Value:
    """The value of a row: columns by the name of the field, parsed by its type. Raises ValueError for what cannot be."""
    readers: tuple[tuple[str, Callable[[Any], Any]], ...] = _readers(kind)  # type: ignore[arg-type]
    return kind(**{name: given[name] if name in given else read(row[name]) for name, read in readers})


@lru_cache
def _readers(kind: Any) -> tuple[tuple[str, Callable[[Any], Any]], ...]:
    hints = typing.get_type_hints(kind)
    return tuple((f.name, _reader(hints[f.name])) for f in fields(kind))


def _reader(hint: Any) -> Callable[[Any], Any]:
    options = typing.get_args(hint) if typing.get_origin(hint) in (UnionType, typing.Union) else (hint,)
    named = next(option for option in options if option is not type(None))
    parse = _PARSERS.get(typing.get_origin(named) or named, lambda value: value)
    optional = type(None) in options

    def read(value: Any) -> Any:
        if value is None and optional:
            return None
        return parse(value)

    return read


def as_object(text: str) -> dict[str, Any]:
    """A JSON object as it is kept. Raises ValueError for anything else."""
    read = json.loads(text)
    if not isinstance(read, dict):
        raise ValueError("not an object")
    return read


_PARSERS: dict[Any, Callable[[Any], Any]] = {
    datetime: from_text,
    date: date.fromisoformat,
    time: time.fromisoformat,
    bool: bool,
    dict: as_object,
    list: json.loads,
}
