"""The clinic's keys: kept in the database, wrapped by a secret that lies outside it and outside its copies.

The file that FOLLOWUP_KEY_FILE names holds that secret. Without it keys lie in the database as they are, and whoever
has a copy of that has them too.
"""

import base64
import hashlib
import json
import os
import secrets
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from cryptography.fernet import Fernet, InvalidToken

from followup.records.generation import KEY as GENERATION
from followup.records.store import Store, StoreError
from followup.records.times import from_text, to_text

KEY_FILE = "FOLLOWUP_KEY_FILE"
FORMER_KEY_FILE = "FOLLOWUP_FORMER_KEY_FILE"
SHORTEST_SECRET = 32
_WRAPPED = "wrapped:"
_FORMER = "former "
NAMES = ("secret", "sealing_key", "push_key")


def key(store: Store, name: str, make: Callable[[], str]) -> str:
    """A key of this clinic, made on first use. Raises `StoreError` where it cannot be unwrapped."""
    with store.transaction():
        kept = _kept(store, name)
        if kept is None:
            kept = wrap(make())
            store.insert("settings", {"key": name, "value": kept})
    return unwrap(kept)


def secret(store: Store) -> str:
    """Signs the staff's session cookies."""
    return key(store, "secret", lambda: secrets.token_hex(32))


def secrets_known(store: Store, now: datetime) -> list[str]:
    """The secret of before, as long as what it signed is still taken, and that of now: the newest last."""
    return [*former(store, "secret", now), secret(store)]


def former(store: Store, name: str, now: datetime) -> list[str]:
    """The key that this one took the place of, as long as devices may hold what it was used for."""
    kept = _kept(store, _FORMER + name)
    if kept is None:
        return []
    known = json.loads(unwrap(kept))
    return [str(known["key"])] if from_text(known["until"]) > now else []


def rotate(store: Store, until: datetime, made: dict[str, str], *, leaked: bool = False) -> None:
    """Put new keys in the place of those that stand, and wrap all of them by the secret outside that holds now.

    Those of before stay known `until` then, unless they `leaked`. Call it while nobody serves.
    """
    with store.transaction():
        for name in NAMES:
            kept = _kept(store, name)
            if kept is None:
                continue
            before = unwrap(kept)
            _keep(store, name, wrap(made.get(name, before)))
            if name in made and not leaked:
                _keep(store, _FORMER + name, wrap(json.dumps({"key": before, "until": to_text(until)})))
            elif name in made:
                store.execute("DELETE FROM settings WHERE key = :key", {"key": _FORMER + name})
        for row in store.rows("SELECT id, totp_secret FROM staff WHERE totp_secret IS NOT NULL"):
            again = {"id": row["id"], "secret": wrap(unwrap(row["totp_secret"]))}
            store.execute("UPDATE staff SET totp_secret = :secret WHERE id = :id", again)


def wrapped(store: Store) -> bool:
    """Whether every key of the clinic is wrapped."""
    known = store.rows("SELECT value FROM settings WHERE key != :no_key", {"no_key": GENERATION})
    return all(row["value"].startswith(_WRAPPED) for row in known if row["value"])


def _kept(store: Store, name: str) -> str | None:
    found = store.row("SELECT value FROM settings WHERE key = :key", {"key": name})
    return str(found["value"]) if found else None


def _keep(store: Store, name: str, value: str) -> None:
    sql = "INSERT INTO settings (key, value) VALUES (:key, :value) ON CONFLICT (key) DO UPDATE SET value = excluded.value"
    store.execute(sql, {"key": name, "value": value})


def check_outside(store: Store) -> None:
    """Raise `StoreError` where a secret outside cannot be used, or does not open the keys that are kept. Makes none."""
    for variable in (KEY_FILE, FORMER_KEY_FILE):
        _outside(variable)
    for name in NAMES:
        if kept := _kept(store, name):
            unwrap(kept)


def wrap(plain: str) -> str:
    """A key as it is kept: wrapped, where there is a secret outside."""
    outside = _outside(KEY_FILE)
    return _WRAPPED + outside.encrypt(plain.encode()).decode() if outside else plain


def unwrap(kept: str) -> str:
    """A key as it is. Raises `StoreError` where another secret wraps it."""
    if not kept.startswith(_WRAPPED):
        return kept
    for outside in (_outside(KEY_FILE), _outside(FORMER_KEY_FILE)):
        try:
            if outside:
                return outside.decrypt(kept.removeprefix(_WRAPPED).encode()).decode()
        except InvalidToken:
            continue
    raise StoreError(f"the clinic’s keys are wrapped by another secret: {KEY_FILE} must name the file that holds it")


def _outside(variable: str) -> Fernet | None:
    """What wraps keys, or None where no file is named. Raises `StoreError` for one that cannot be used."""
    if not (named := os.environ.get(variable)):
        return None
    try:
        text = Path(named).read_text(encoding="utf-8").strip()
    except (OSError, ValueError) as error:
        raise StoreError(f"{variable}: {named} cannot be read") from error
    if len(text) < SHORTEST_SECRET:
        raise StoreError(f"{variable}: {named} needs at least {SHORTEST_SECRET} random characters")
    return Fernet(base64.urlsafe_b64encode(hashlib.sha256(f"followup keys {text}".encode()).digest()))
