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
    names, parsed = _shape(kind)  # type: ignore[arg-type]
    values = given | {name: row[name] for name in names if name not in given}
    for name, parse, optional in parsed:
        if name not in given and not (optional and values[name] is None):
            values[name] = parse(values[name])
    return kind(**values)


@lru_cache
def _shape(kind: Any) -> tuple[tuple[str, ...], tuple[tuple[str, Callable[[Any], Any], bool], ...]]:
    """The names of its fields, and of those that are kept in another form how each is parsed and whether it may be missing."""
    hints = typing.get_type_hints(kind)
    names = tuple(f.name for f in fields(kind))
    read = ((name, *_parser(hints[name])) for name in names)
    return names, tuple((name, parse, optional) for name, parse, optional in read if parse)


def _parser(hint: Any) -> tuple[Callable[[Any], Any] | None, bool]:
    options = typing.get_args(hint) if typing.get_origin(hint) in (UnionType, typing.Union) else (hint,)
    named = next(option for option in options if option is not type(None))
    return _PARSERS.get(typing.get_origin(named) or named), type(None) in options


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
