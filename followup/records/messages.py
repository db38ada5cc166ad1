"""How each person wants to be reached, and every message with what became of it."""

from collections.abc import Sequence
from datetime import datetime

from followup.records import consents
from followup.records.store import Row, Store, as_json
from followup.records.times import to_text
from followup.records.values import Choice, Message, Subscription, made
from followup.records.watch import readable

_PATIENT = "substr(m.person, 9)"
STAND = f"{consents.not_taken_back(_PATIENT)} AND {consents.not_taken_back_since(_PATIENT, 'm.chosen_at')}"
"""A patient's choices count no more once consent was taken back, also when it is given anew; they are kept."""


def choices(store: Store, person: str) -> Choice | None:
    """What a person chose, if that still counts."""
    found = store.row(f"SELECT * FROM message_choices m WHERE m.person = :person AND {STAND}", {"person": person})
    return made(Choice, found) if found else None


def keep_choices(store: Store, now: datetime, person: str, chosen: Row) -> None:
    """Keep email, language, quiet_from, quiet_to and unwanted of a person."""
    sql = """
        INSERT INTO message_choices (person, email, language, quiet_from, quiet_to, unwanted, chosen_at)
        VALUES (:person, :email, :language, :quiet_from, :quiet_to, :unwanted, :now)
        ON CONFLICT (person) DO UPDATE SET email = excluded.email, language = excluded.language,
            quiet_from = excluded.quiet_from, quiet_to = excluded.quiet_to, unwanted = excluded.unwanted,
            chosen_at = excluded.chosen_at
    """
    row = {**chosen, "unwanted": as_json(sorted(chosen["unwanted"]))}
    store.execute(sql, {**row, "person": person, "now": to_text(now)})


def wants(store: Store, person: str, kind: str) -> bool:
    """Whether somebody chose how to be reached, and did not say that they do not want this kind of message."""
    sql = """
        SELECT 1 FROM message_choices m WHERE m.person = :person
        AND NOT EXISTS (SELECT 1 FROM json_each(m.unwanted) WHERE value = :kind)
    """
    return store.row(sql, {"person": person, "kind": kind}) is not None


def subscribe(
    store: Store, now: datetime, person: str, endpoint: str, p256dh: str, auth: str, device_id: str | None = None
) -> None:
    """Keep a push subscription; one that is known changes hands to whoever uses that browser now."""
    sql = """
        INSERT INTO push_subscriptions (endpoint, person, device_id, p256dh, auth, created_at)
        VALUES (:endpoint, :person, :device_id, :p256dh, :auth, :now)
        ON CONFLICT (endpoint) DO UPDATE SET person = excluded.person, device_id = excluded.device_id,
            p256dh = excluded.p256dh, auth = excluded.auth, ended_at = NULL
    """
    row = {"endpoint": endpoint, "person": person, "device_id": device_id, "p256dh": p256dh, "auth": auth}
    store.execute(sql, {**row, "now": to_text(now)})


def end_subscription(store: Store, now: datetime, endpoint: str) -> None:
    sql = "UPDATE push_subscriptions SET ended_at = :now WHERE endpoint = :endpoint AND ended_at IS NULL"
    store.execute(sql, {"endpoint": endpoint, "now": to_text(now)})


def subscriptions(store: Store, person: str) -> list[Subscription]:
    """Where this person may be reached by push: not on phones that are locked out, nor once consent was taken back."""
    sql = f"""
        SELECT s.* FROM push_subscriptions s LEFT JOIN devices d ON d.id = s.device_id
        WHERE s.person = :person AND s.ended_at IS NULL AND d.revoked_at IS NULL
        AND {consents.not_taken_back("substr(:person, 9)")} ORDER BY s.created_at
    """
    return [made(Subscription, row) for row in store.rows(sql, {"person": person})]


def add(store: Store, now: datetime, key: str, person: str, kind: str, about: str, useless_after: datetime) -> bool:
    """Line a message up; False if the same one was made before, by whichever process."""
    sql = """
        INSERT OR IGNORE INTO messages (key, person, kind, about, made_at, useless_after, state, next_try_at)
        VALUES (:key, :person, :kind, :about, :now, :useless_after, 'waiting', :now)
    """
    row = {"key": key, "person": person, "kind": kind, "about": about, "useless_after": to_text(useless_after)}
    return store.execute(sql, {**row, "now": to_text(now)}) == 1


AT_A_TIME = 500


def made_already(store: Store, keys: Sequence[str]) -> set[str]:
    """Which of these messages were lined up before, by whichever process."""
    found: set[str] = set()
    for n in range(0, len(keys), AT_A_TIME):
        named = {f"k{i}": key for i, key in enumerate(keys[n : n + AT_A_TIME])}
        sql = f"SELECT key FROM messages WHERE key IN ({', '.join(':' + name for name in named)})"
        found |= {row["key"] for row in store.rows(sql, named)}
    return found


def waiting(store: Store, now: datetime) -> list[Message]:
    """What may be tried now, by person and age."""
    sql = "SELECT * FROM messages WHERE state = 'waiting' AND next_try_at <= :now ORDER BY person, kind, made_at, key"
    return readable(store, "messages", store.rows(sql, {"now": to_text(now)}), _opened)


def on_the_way(store: Store, person: str) -> bool:
    """Whether a message to this person has not ended."""
    sql = "SELECT 1 FROM messages WHERE person = :person AND state IN ('waiting', 'sending')"
    return store.row(sql, {"person": person}) is not None


def take(store: Store, now: datetime, key: str) -> bool:
    """Take a waiting message for sending; False if another process has it."""
    sql = "UPDATE messages SET state = 'sending', taken_at = :now WHERE key = :key AND state = 'waiting'"
    return store.execute(sql, {"key": key, "now": to_text(now)}) == 1


def give_back_stuck(store: Store, taken_before: datetime) -> int:
    """Messages whose process died while sending wait again."""
    sql = "UPDATE messages SET state = 'waiting' WHERE state = 'sending' AND taken_at < :before"
    return store.execute(sql, {"before": to_text(taken_before)})


def end(store: Store, now: datetime, key: str, state: str, detail: str) -> None:
    """Close a message as sent or dropped."""
    sql = "UPDATE messages SET state = :state, ended_at = :now, detail = :detail WHERE key = :key"
    store.execute(sql, {"key": key, "state": state, "now": to_text(now), "detail": detail})


def try_later(store: Store, key: str, next_try_at: datetime, detail: str) -> None:
    sql = """
        UPDATE messages SET state = 'waiting', tries = tries + 1, next_try_at = :next, detail = :detail WHERE key = :key
    """
    store.execute(sql, {"key": key, "next": to_text(next_try_at), "detail": detail})


def of_person(store: Store, person: str, limit: int = 20) -> list[Message]:
    """The latest messages to a person, newest first."""
    sql = "SELECT * FROM messages WHERE person = :person ORDER BY made_at DESC, key LIMIT :limit"
    return readable(store, "messages", store.rows(sql, {"person": person, "limit": limit}), _opened)


def troubled(store: Store) -> list[Message]:
    """Messages that could not be sent so far, newest first."""
    sql = "SELECT * FROM messages WHERE state = 'waiting' AND tries > 0 ORDER BY made_at DESC LIMIT 100"
    return readable(store, "messages", store.rows(sql), _opened)


def _opened(row: Row) -> Message:
    return made(Message, row)


READ_AS = {"messages": ("SELECT * FROM messages WHERE true", "key", _opened)}
"""How every row of a table is read, and the column it is known by, for whoever looks for rows that cannot be."""
