"""Who did what: a chain in which every entry carries the hash of the one before it."""

import hashlib
from datetime import datetime
from typing import Any

from followup.records.store import Row, Store, as_json
from followup.records.times import to_text

FIRST = "0" * 64


def note(store: Store, at: datetime, who: str, action: str, subject: str, detail: Any = None) -> None:
    """Add an entry; call it inside the transaction of what it records."""
    last = store.row("SELECT hash FROM audit ORDER BY number DESC LIMIT 1")
    entry: Row = {
        "at": to_text(at),
        "who": who,
        "action": action,
        "subject": subject,
        "detail": as_json(detail),
        "previous": last["hash"] if last else FIRST,
    }
    store.insert("audit", {**entry, "hash": _hash(entry)})


def broken_at(store: Store) -> int | None:
    """The number of the first entry that does not fit the chain, or None when all do."""
    previous = FIRST
    for entry in store.rows("SELECT * FROM audit ORDER BY number"):
        number, kept = entry.pop("number"), entry.pop("hash")
        if entry["previous"] != previous or _hash(entry) != kept:
            return int(number)
        previous = kept
    return None


def of_subject(store: Store, subject: str) -> list[Row]:
    return store.rows("SELECT * FROM audit WHERE subject = :subject ORDER BY number", {"subject": subject})


def _hash(entry: Row) -> str:
    return hashlib.sha256(as_json(entry).encode()).hexdigest()
