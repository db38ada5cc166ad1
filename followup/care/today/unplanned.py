"""Followed eyes with nothing planned: no visit is waited for, no callback is open, theatre is not to come.

Whoever has no app is called by nothing else, so each stands here until a visit is planned or follow-up is ended.
"""

from dataclasses import dataclass
from datetime import datetime, tzinfo

from followup.care.reading import state
from followup.records import Store, day_lists, eyes
from followup.records.values import Eye

LINES = 80  # on one page, as on Today


@dataclass(frozen=True)
class Unplanned:
    """An eye, and since when nothing is planned for it."""

    eye: Eye
    since: datetime


@dataclass(frozen=True)
class UnplannedPage:
    """One page of the list, the longest first; `size` how many it holds in all, `page` of `pages`."""

    lines: list[Unplanned]
    size: int
    page: int
    pages: int


def count(store: Store, now: datetime, zone: tzinfo) -> int:
    """How many eyes stand on the list."""
    state.bring_up_to_date(store, now, zone)
    return day_lists.count_unplanned(store)


def listed_page(store: Store, now: datetime, zone: tzinfo, page: int = 1) -> UnplannedPage:
    """As many eyes as one page shows."""
    size = count(store, now, zone)
    pages = max(1, -(-size // LINES))
    page = min(max(1, page), pages)
    found = day_lists.unplanned(store, LINES, (page - 1) * LINES)
    known = eyes.by_ids(store, [id for id, _ in found])
    return UnplannedPage([Unplanned(known[id], since) for id, since in found if id in known], size, page, pages)
