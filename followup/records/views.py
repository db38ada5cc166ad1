"""Which pages staff opened. Append-only."""

from datetime import datetime

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import PageOpened, made


def add(store: Store, at: datetime, who: str, page: str, about: str) -> None:
    store.insert("pages_opened", {"id": new_id(), "at": to_text(at), "who": who, "page": page, "about": about})


def latest(store: Store, limit: int) -> list[PageOpened]:
    found = store.rows("SELECT * FROM pages_opened ORDER BY at DESC, id DESC LIMIT :most", {"most": limit})
    return [made(PageOpened, row) for row in found]
