"""The clinic's own protocol texts and the signatures under them."""

from datetime import datetime

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import Signature, made


def save_text(store: Store, now: datetime, part: str, text: str, fingerprint: str, by: str) -> None:
    row = {"id": new_id(), "part": part, "text": text, "fingerprint": fingerprint, "saved_by": by}
    store.insert("protocol_texts", {**row, "saved_at": to_text(now)})


def latest_text(store: Store, part: str) -> str | None:
    found = store.row(
        "SELECT text FROM protocol_texts WHERE part = :part ORDER BY saved_at DESC, id DESC LIMIT 1", {"part": part}
    )
    return str(found["text"]) if found else None


def sign(store: Store, now: datetime, part: str, fingerprint: str, by: str) -> None:
    row = {"id": new_id(), "part": part, "fingerprint": fingerprint, "signed_by": by}
    store.insert("signatures", {**row, "signed_at": to_text(now)})


def signature(store: Store, part: str, fingerprint: str) -> Signature | None:
    """The latest signature under exactly this text, with the surgeon's name."""
    sql = """
        SELECT g.*, s.name FROM signatures g JOIN staff s ON s.id = g.signed_by
        WHERE g.part = :part AND g.fingerprint = :fingerprint ORDER BY g.signed_at DESC LIMIT 1
    """
    found = store.row(sql, {"part": part, "fingerprint": fingerprint})
    return made(Signature, found) if found else None
