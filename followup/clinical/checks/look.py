"""What a check is: a walk over one stage of an eye that yields how bad it was at each time it could tell."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from followup.clinical.timeline import Timeline

Values = dict[str, Any]
Look = tuple[datetime, float | None, Values]
"""One look of a check: when, how bad (higher is worse; None is fine), and the values it saw."""

Checker = Callable[[Timeline, Mapping[str, Any]], Iterable[Look]]
Waker = Callable[[Timeline, Mapping[str, Any]], Iterable[datetime]]
NOTHING: Values = {}


def never(timeline: Timeline, threshold: Mapping[str, Any]) -> Iterable[datetime]:
    """Of a check that goes by what was recorded alone."""
    return ()


class Check(NamedTuple):
    """How a check looks, the thresholds it needs, and whether it can look at an eye that was not operated.

    `app`: only at patients with the app (True) or without it (False); at both where it is None. `wakes` gives every time,
    past ones too, at which it may find something that time alone brings.
    """

    look: Checker
    needs: frozenset[str]
    fits_fellow: bool = False
    app: bool | None = None
    wakes: Waker = never


def while_it_lasts(timeline: Timeline, first: datetime, every: timedelta, until: datetime) -> Iterator[datetime]:
    """The first look at something that only time brings, and the next regular one after each settlement while it lasts."""
    yield from (at for at in looks_at_what_lasts(timeline, first, every) if at <= until)


def looks_at_what_lasts(timeline: Timeline, first: datetime, every: timedelta) -> Iterator[datetime]:
    """The same without an end: when it will be looked at, should it last."""
    yield first
    for settled in timeline.settlements:
        if settled.at >= first:
            yield first + ((settled.at - first) // every + 1) * every
