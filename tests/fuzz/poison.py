"""Values that no honest device sends."""

import random
from collections.abc import Callable
from datetime import timedelta
from typing import Any

from tests.conftest import NOW

TEXTS = (
    "",
    " ",
    "\ud800",
    "ok \udfff",
    "\x00",
    "\u202e right to left",
    "e\u0301" * 40,
    "0001-01-01",
    "9999-12-31",
    "0001-01-01T00:00",
    "9999-12-31T23:59",
    "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00",
    "2027-03-05T10:00:00",
    "2027-02-30",
    "12:61",
    "1e400",
    "-1e309",
    "inf",
    "-Infinity",
    "NaN",
    "-0",
    "-1",
    "9223372036854775808",
    "9" * 400,
    "9" * 5000,
    "6/0",
    "0/6",
    "٣٤",
    "½",
    "1_000",
    "%s%n{0}{{7*7}}",
    "'; DROP TABLE events; --",
    '%" OR 1=1 *',
    "<script>alert(1)</script>",
    "https://elsewhere.invalid/",
    "//elsewhere.invalid",
    "../../../etc/passwd",
    "a" * 5000,
    "many words " * 20_000,
    "https://[::1",
    "a@[b.c",
    "a\r\nBcc: everybody@test.invalid",
)
NUMBERS: tuple[Any, ...] = (None, True, False, 0, -1, 1.5, 2**53 + 1, 2**63 - 1, 2**63, -(2**70), 10**400, 1e308)
NUMBERS += (float("inf"), float("-inf"), float("nan"))
BYTES = (b"", b"{", b"\xff\xfe", b"[" * 5000, b'{"a":' * 5000, b'{"events": [1e999, "\\ud800"]}', b"null", b"[]", b"0")
BYTES += (b'{"events": [' + b"[" * 3000 + b"]" * 3000 + b"]}", b'{"events": "none"}', b'{"events": []} {"events": []}')


def text(pick: random.Random) -> str:
    return pick.choice(TEXTS)


def value(pick: random.Random, depth: int = 2) -> Any:
    """A value of JSON that is mostly not what was asked for."""
    made: list[Callable[[], Any]] = [
        lambda: pick.choice(NUMBERS),
        lambda: text(pick),
        lambda: pick.randint(-5, 150),
        lambda: (NOW - timedelta(hours=pick.randint(-30, 90))).isoformat(),
    ]
    if depth > 0:
        made.append(lambda: [value(pick, depth - 1) for _ in range(pick.randint(0, 3))])
        made.append(lambda: {text(pick)[:20]: value(pick, depth - 1) for _ in range(pick.randint(0, 3))})
        made.append(lambda: nested(pick.choice((40, 600))))
    return pick.choice(made)()


def nested(deep: int) -> Any:
    made: Any = 1
    for _ in range(deep):
        made = [made]
    return made


def spoilt(pick: random.Random, whole: Any, times: int) -> Any:
    """A copy of a JSON value in which so many places are replaced, missing or added."""
    for _ in range(times):
        whole = _once(pick, whole)
    return whole


def _once(pick: random.Random, whole: Any) -> Any:
    if isinstance(whole, dict) and whole and pick.random() < 0.9:
        name, made = pick.choice(list(whole)), dict(whole)
        if pick.random() < 0.1:
            del made[name]
        elif pick.random() < 0.1:
            made[text(pick)[:40] or "more"] = value(pick)
        else:
            made[name] = _once(pick, whole[name])
        return made
    if isinstance(whole, list) and whole and pick.random() < 0.9:
        at = pick.randrange(len(whole))
        return [*whole[:at], _once(pick, whole[at]), *whole[at + 1 :]]
    return value(pick)
