"""Who is signed in: each session can be ended, and is known by the hash of what the browser holds."""

from datetime import datetime

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import Session, made


def begin(store: Store, now: datetime, staff_id: str, token_hash: str, address: str) -> str:
    id, at = new_id(), to_text(now)
    row = {"id": id, "token_hash": token_hash, "staff_id": staff_id, "begun_at": at, "seen_at": at, "address": address}
    store.insert("sessions", row)
    return id


def by_token(store: Store, token_hash: str) -> Session | None:
    found = store.row("SELECT * FROM sessions WHERE token_hash = :hash AND ended_at IS NULL", {"hash": token_hash})
    return made(Session, found) if found else None


def seen(store: Store, now: datetime, id: str) -> None:
    store.execute("UPDATE sessions SET seen_at = :now WHERE id = :id", {"id": id, "now": to_text(now)})


def end(store: Store, now: datetime, id: str, reason: str) -> None:
    sql = "UPDATE sessions SET ended_at = :now, end_reason = :reason WHERE id = :id AND ended_at IS NULL"
    store.execute(sql, {"id": id, "now": to_text(now), "reason": reason})


def end_all(store: Store, now: datetime, staff_id: str, reason: str, but: str = "") -> int:
    """End every session of a member of staff, but one; returns how many."""
    sql = """
        UPDATE sessions SET ended_at = :now, end_reason = :reason
        WHERE staff_id = :staff AND ended_at IS NULL AND id != :but
    """
    return store.execute(sql, {"staff": staff_id, "now": to_text(now), "reason": reason, "but": but})


def open_of(store: Store, staff_id: str) -> list[Session]:
    """Sessions that nobody ended, the latest first."""
    sql = "SELECT * FROM sessions WHERE staff_id = :staff AND ended_at IS NULL ORDER BY seen_at DESC, id"
    return [made(Session, row) for row in store.rows(sql, {"staff": staff_id})]
