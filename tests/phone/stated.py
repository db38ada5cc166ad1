"""What the rulebook says of a first check, read from its text by this file alone: nothing of ours that judges is used.

The second opinion for the phone (`tests/phone/test_check.py`), which also holds it against the core.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from followup.protocols import book

LEVELS = ("now", "today", "call", "again", "this-week", "well")
TEXT = tomllib.loads(Path(book.__file__).with_name("rulebook.toml").read_text(encoding="utf-8"))["rules"]
# For an operated eye without a risk of its own.
RULES: list[dict[str, Any]] = [r for r in TEXT if r["check"] == "symptoms" and not {"risks", "agents", "eyes"} & r.keys()]
# A mild sign alone is asked back first; pain counts as another sign from 4 of 10, and is never mild from 7.
ANOTHER_SIGN_FROM, SEVERE_FROM = 4, 7


def worst(*levels: str) -> str:
    return min(levels, key=LEVELS.index, default="well")


@cache
def first_level(pain: int | None, bad: frozenset[str], day: float) -> str:
    """How soon to call; *again* for a sign to look at again; *call* where something is bad and no rule of that day says so.

    `bad` names what is there or worse (`curtain`, `vision`); `day` is counted from the operation.
    """
    hurts = pain or 0
    signs = len(bad) + (hurts >= ANOTHER_SIGN_FROM)
    asks = signs == 1 and hurts < SEVERE_FROM
    held = [rule for rule in RULES if _held(rule, hurts, bad)]
    today = [rule for rule in held if rule.get("from_day", 0) <= day <= rule.get("until_day", 3650)]
    waits = [rule for rule in today if asks and "second_look" in rule]
    calls = [rule for rule in today if rule not in waits]
    others = [rule for rule in held if rule not in today and not (waits and "second_look" in rule)]
    level = worst(*_soon(calls), *(["again"] if waits else []))
    unruled = bool(bad) and not today
    more_urgent = LEVELS.index(worst(*_soon(others))) < LEVELS.index(worst(*_soon(today)))
    return worst(level, "call") if unruled or more_urgent else level


def _held(rule: dict[str, Any], pain: int, bad: frozenset[str]) -> bool:
    of = rule["threshold"]
    return sum(_is(sign, pain, bad) for sign in of["signs"]) >= of["count"] and all(
        _is(sign, pain, bad) for sign in of.get("also", ())
    )


def _is(sign: str, pain: int, bad: frozenset[str]) -> bool:
    if sign.startswith("pain>="):
        return pain >= int(sign.removeprefix("pain>="))
    return sign.removesuffix("=worse") in bad


def _soon(rules: list[dict[str, Any]]) -> list[str]:
    return [rule["how_soon"] for rule in rules]
