"""The numbers and choices of a protocol as a surgeon adjusts them, without losing a comment or a line of its text."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, cast

import tomlkit
from tomlkit.exceptions import ParseError
from tomlkit.items import Bool

from followup.clinical.coverage import POSTURES
from followup.clinical.warnings import HOW_SOON
from followup.protocols.book import ProtocolError

CHOICES: dict[str, tuple[str, ...]] = {"how_soon": tuple(HOW_SOON), "position": ("best", *POSTURES)}


@dataclass(frozen=True, slots=True)
class Setting:
    """One number (`choices` empty) or one of several words; `path` is its place in the text."""

    path: str
    label: str
    value: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One rule, visit or plan, or the pressure bands: what it says, for whom, and what can be adjusted."""

    name: str
    words: str
    only: str
    source: str
    settings: tuple[Setting, ...]


def entries(text: str) -> list[Entry]:
    """What can be adjusted in a protocol's text, in its order. Raises `ProtocolError` for text that is no TOML."""
    found = []
    for key, value in _document(text).items():
        if isinstance(value, dict):
            found.append(_entry(key, value, key))
        elif isinstance(value, list):
            found += [_entry(_name(item), item, f"{key}.{n}") for n, item in enumerate(value)]
    return found


def adjusted(text: str, wanted: Mapping[str, str]) -> str:
    """The text with some settings changed, by path. Raises `ProtocolError` for a number that is none."""
    document = _document(text)
    known = {s.path: s for entry in entries(text) for s in entry.settings}
    for path, typed in wanted.items():
        if path not in known or known[path].value == typed.strip():
            continue
        *steps, last = path.split(".")
        place: Any = document
        for step in steps:
            place = place[int(step) if isinstance(place, list) else step]
        place[int(last) if isinstance(place, list) else last] = (
            typed if known[path].choices else _number(typed, known[path].label)
        )
    return tomlkit.dumps(document)


def differences(before: str, after: str) -> list[tuple[str, str, str, str]]:
    """(entry, setting, value before, value after) of every setting that differs between two texts of one shape."""
    old = {s.path: s.value for entry in entries(before) for s in entry.settings}
    return [
        (entry.name, s.label, old.get(s.path, ""), s.value)
        for entry in entries(after)
        for s in entry.settings
        if old.get(s.path) != s.value
    ]


def _document(text: str) -> tomlkit.TOMLDocument:
    try:
        return tomlkit.parse(text)
    except ParseError as error:
        raise ProtocolError(f"this is not TOML: {error}") from error


def _entry(name: str, item: Mapping[str, Any], path: str) -> Entry:
    only = "; ".join(f"{key} {', '.join(item[key])}" for key in ("agents", "risks", "indications") if item.get(key))
    words = str(item.get("words") or item.get("reason") or "")
    return Entry(name, words, only, str(item.get("source", "")), tuple(_settings(item, path, "")))


def _settings(item: Mapping[str, Any], path: str, inside: str) -> Iterator[Setting]:
    for key, value in item.items():
        here, label = f"{path}.{key}", f"{inside} {key}".replace("_", " ").replace("mmhg", "mmHg").strip()
        if key in CHOICES:
            yield Setting(here, label, str(value), CHOICES[key])
        elif isinstance(value, dict):
            yield from _settings(value, here, label)
        elif isinstance(value, list):
            numbered = {str(n): part for n, part in enumerate(value) if _is_number(part)}
            yield from (Setting(f"{here}.{n}", f"{label}, {int(n) + 1}", f"{part:g}") for n, part in numbered.items())
        elif _is_number(value):
            yield Setting(here, label, f"{value:g}")


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool | Bool)


def _name(item: Mapping[str, Any]) -> str:
    given = item.get("id") or item.get("name")
    if given:
        return str(given)
    told = [*item.get("indications", ()), *item.get("agents", ())]
    return ", ".join(told) or ("eyes with breaks" if item.get("needs_breaks") else "every other eye")


def _number(typed: str, label: str) -> int | float:
    plain = typed.strip().replace(",", ".")
    try:
        return cast(int | float, int(plain)) if plain.lstrip("-").isdigit() else float(plain)
    except ValueError:
        raise ProtocolError(f"{label}: “{typed}” is not a number") from None
