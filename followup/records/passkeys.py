"""Passkeys of staff: kept by the id that the device gave, and what was taken once and is not taken again."""

import hashlib
from datetime import datetime, timedelta

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import Passkey, made

_FORGOTTEN = timedelta(hours=1)  # what is taken once is too old long before


def add(store: Store, now: datetime, staff_id: str, credential_id: str, public_key: str, sign_count: int, name: str) -> str:
    id = new_id()
    row = {"id": id, "staff_id": staff_id, "credential_id": credential_id, "public_key": public_key, "name": name}
    store.insert("passkeys", {**row, "sign_count": sign_count, "created_at": to_text(now)})
    return id


def of_staff(store: Store, staff_id: str) -> list[Passkey]:
    """The passkeys that somebody may use, the oldest first."""
    sql = "SELECT * FROM passkeys WHERE staff_id = :staff AND removed_at IS NULL ORDER BY created_at, id"
    return [made(Passkey, row) for row in store.rows(sql, {"staff": staff_id})]


def by_credential(store: Store, credential_id: str) -> Passkey | None:
    """The passkey that a device names, also one that was removed."""
    found = store.row("SELECT * FROM passkeys WHERE credential_id = :id", {"id": credential_id})
    return made(Passkey, found) if found else None


def rename(store: Store, id: str, staff_id: str, name: str) -> bool:
    sql = "UPDATE passkeys SET name = :name WHERE id = :id AND staff_id = :staff AND removed_at IS NULL"
    return store.execute(sql, {"id": id, "staff": staff_id, "name": name}) == 1


def use(store: Store, now: datetime, id: str, sign_count: int) -> bool:
    """Note a use; False where its count does not go up (unless it counts nothing at all)."""
    sql = """
        UPDATE passkeys SET sign_count = :count, used_at = :now
        WHERE id = :id AND (sign_count < :count OR (sign_count = 0 AND :count = 0))
    """
    return store.execute(sql, {"id": id, "count": sign_count, "now": to_text(now)}) == 1


def remove(store: Store, now: datetime, id: str, staff_id: str) -> bool:
    sql = "UPDATE passkeys SET removed_at = :now WHERE id = :id AND staff_id = :staff AND removed_at IS NULL"
    return store.execute(sql, {"id": id, "staff": staff_id, "now": to_text(now)}) == 1


def remove_all(store: Store, now: datetime, staff_id: str) -> int:
    """Remove every passkey of a member of staff; returns how many."""
    sql = "UPDATE passkeys SET removed_at = :now WHERE staff_id = :staff AND removed_at IS NULL"
    return store.execute(sql, {"staff": staff_id, "now": to_text(now)})


def use_once(store: Store, now: datetime, what: str) -> bool:
    """Note that something was used; False if it was already."""
    store.execute("DELETE FROM used_once WHERE at < :before", {"before": to_text(now - _FORGOTTEN)})
    sql = "INSERT OR IGNORE INTO used_once (hash, at) VALUES (:hash, :now)"
    return store.execute(sql, {"hash": hashlib.sha256(what.encode()).hexdigest(), "now": to_text(now)}) == 1
