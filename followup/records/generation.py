"""Which life of the database this is: another one after each restore, so that phones send again what they still hold."""

from followup.records.store import Store, new_id

KEY = "generation"


def generation(store: Store) -> str:
    """Empty for a database that was never restored."""
    found = store.row("SELECT value FROM settings WHERE key = :key", {"key": KEY})
    return str(found["value"]) if found else ""


def begin_anew(store: Store) -> None:
    """From now on it is another one."""
    sql = "INSERT INTO settings (key, value) VALUES (:key, :id) ON CONFLICT (key) DO UPDATE SET value = excluded.value"
    store.execute(sql, {"key": KEY, "id": new_id()})
