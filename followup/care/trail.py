"""The audit trail as an administrator reads it, and which pages staff opened."""

from collections.abc import Iterator
from typing import Any

from followup.care.desk import Desk
from followup.records import Store, audit, views
from followup.records.values import AuditEntry, PageOpened

COLUMNS = ("number", "at", "who", "action", "subject", "detail", "facts", "previous", "hash")
VIEWS_SHOWN = 200


def entries(store: Store, before: int | None = None) -> list[AuditEntry]:
    """The latest entries, or those before a number."""
    return audit.latest(store, before)


def table(store: Store) -> Iterator[list[Any]]:
    """Every entry in order, by `COLUMNS`."""
    for row in audit.everything(store):
        yield [row[name] for name in COLUMNS]


def note_export(desk: Desk, what: str) -> None:
    """Put on record that somebody took data out."""
    desk.note("exported", what)


def opened(desk: Desk, page: str, about: str) -> None:
    """Put on record which page somebody opened, about what."""
    views.add(desk.store, desk.now, desk.actor.signature, page, about)


def seen(store: Store) -> list[PageOpened]:
    """The pages that were opened lately."""
    return views.latest(store, VIEWS_SHOWN)
