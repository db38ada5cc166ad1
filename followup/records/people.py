"""Staff, patients' enrolments and phones, and counted wrong tries."""

from collections.abc import Iterable
from datetime import datetime, timedelta

from followup.records.store import Row, Store, new_id
from followup.records.times import from_text, to_text
from followup.records.values import Device, Enrolment, Staff, Value, made

_DEVICES = "SELECT d.*, p.language FROM devices d JOIN patients p ON p.id = d.patient_id"


def add_staff(store: Store, now: datetime, name: str, role: str, email: str, password_hash: str) -> str:
    id = new_id()
    row = {"id": id, "name": name, "role": role, "email": email.lower().strip(), "password_hash": password_hash}
    store.insert("staff", {**row, "created_at": to_text(now)})
    return id


def free_email(store: Store, email: str) -> None:
    """Let another account have the e-mail of one that was ended; that one keeps it with the time of its end behind it."""
    store.execute(
        "UPDATE staff SET email = email || ' until ' || left_at WHERE email = :email AND left_at IS NOT NULL",
        {"email": email.lower().strip()},
    )


def staff_by_email(store: Store, email: str) -> Staff | None:
    return _one(
        Staff, store.row("SELECT * FROM staff WHERE email = :email AND left_at IS NULL", {"email": email.lower().strip()})
    )


def staff_member(store: Store, id: str) -> Staff | None:
    return _one(Staff, store.row("SELECT * FROM staff WHERE id = :id AND left_at IS NULL", {"id": id}))


def staff_by_subject(store: Store, subject: str) -> Staff | None:
    """Whom the clinic's own directory means."""
    sql = "SELECT * FROM staff WHERE directory_subject = :subject AND left_at IS NULL"
    return _one(Staff, store.row(sql, {"subject": subject}))


def set_subject(store: Store, id: str, subject: str | None) -> None:
    store.execute("UPDATE staff SET directory_subject = :subject WHERE id = :id", {"id": id, "subject": subject})


def staff_by_id(store: Store, id: str) -> Staff | None:
    """A member of staff, also one who has left: for the names under old entries."""
    return _one(Staff, store.row("SELECT * FROM staff WHERE id = :id", {"id": id}))


def all_staff(store: Store) -> list[Staff]:
    return [made(Staff, row) for row in store.rows("SELECT * FROM staff WHERE left_at IS NULL ORDER BY role, name")]


def add_enrolment(
    store: Store, now: datetime, patient_id: str, code_hash: str, by: str, expires: datetime, carer_name: str = ""
) -> str:
    id = new_id()
    row = {"id": id, "patient_id": patient_id, "code_hash": code_hash, "created_by": by, "carer_name": carer_name}
    store.insert("enrolments", {**row, "created_at": to_text(now), "expires_at": to_text(expires)})
    return id


def enrolment_by_code(store: Store, code_hash: str) -> Enrolment | None:
    return _one(Enrolment, store.row("SELECT * FROM enrolments WHERE code_hash = :code_hash", {"code_hash": code_hash}))


def count_wrong_try(store: Store, enrolment_id: str) -> None:
    store.execute("UPDATE enrolments SET wrong_tries = wrong_tries + 1 WHERE id = :id", {"id": enrolment_id})


def use_enrolment(store: Store, now: datetime, enrolment_id: str) -> bool:
    """Mark the code used; False if somebody else was faster."""
    sql = "UPDATE enrolments SET used_at = :now WHERE id = :id AND used_at IS NULL"
    return store.execute(sql, {"id": enrolment_id, "now": to_text(now)}) == 1


def add_device(store: Store, now: datetime, patient_id: str, token_hash: str, used_by: str, carer_name: str = "") -> str:
    id = new_id()
    at = to_text(now)
    row = {"id": id, "patient_id": patient_id, "token_hash": token_hash, "used_by": used_by, "carer_name": carer_name}
    store.insert("devices", {**row, "enrolled_at": at, "heard_at": at})
    return id


def device_by_token(store: Store, token_hash: str) -> Device | None:
    sql = _DEVICES + " WHERE d.token_hash = :token_hash"
    return _one(Device, store.row(sql, {"token_hash": token_hash}))


def device(store: Store, id: str) -> Device | None:
    return _one(Device, store.row(_DEVICES + " WHERE d.id = :id", {"id": id}))


def devices_of(store: Store, patient_id: str) -> list[Device]:
    found = store.rows(_DEVICES + " WHERE d.patient_id = :id ORDER BY d.enrolled_at", {"id": patient_id})
    return [made(Device, row) for row in found]


def device_heard(store: Store, now: datetime, device_id: str) -> None:
    store.execute("UPDATE devices SET heard_at = :now WHERE id = :id", {"id": device_id, "now": to_text(now)})


def revoke_device(store: Store, now: datetime, device_id: str, by: str) -> bool:
    sql = "UPDATE devices SET revoked_at = :now, revoked_by = :by WHERE id = :id AND revoked_at IS NULL"
    return store.execute(sql, {"id": device_id, "now": to_text(now), "by": by}) == 1


def end_staff(store: Store, now: datetime, id: str) -> None:
    store.execute("UPDATE staff SET left_at = :now WHERE id = :id AND left_at IS NULL", {"id": id, "now": to_text(now)})


def set_password(store: Store, id: str, password_hash: str) -> None:
    store.execute("UPDATE staff SET password_hash = :hash WHERE id = :id", {"id": id, "hash": password_hash})


def second_factor(store: Store, id: str) -> tuple[str, int | None] | None:
    """The wrapped secret of an account's app and the last step that was used; None where none is set up."""
    found = store.row("SELECT totp_secret, totp_last FROM staff WHERE id = :id AND left_at IS NULL", {"id": id})
    return (found["totp_secret"], found["totp_last"]) if found and found["totp_secret"] else None


def set_second_factor(store: Store, id: str, wrapped: str | None, step: int | None, codes: Iterable[str]) -> None:
    sql = "UPDATE staff SET totp_secret = :secret, totp_last = :step WHERE id = :id"
    store.execute(sql, {"id": id, "secret": wrapped, "step": step})
    set_recovery_codes(store, id, codes)


def ask_for_passkey(store: Store, id: str, asked: bool) -> None:
    """Whether a passkey is asked for after the password."""
    store.execute("UPDATE staff SET passkey_asked = :asked WHERE id = :id", {"id": id, "asked": 1 if asked else None})


def recovery_codes_left(store: Store, id: str) -> int:
    """How many recovery codes were not used yet."""
    found = store.row("SELECT count(*) AS n FROM recovery_codes WHERE staff_id = :id AND used_at IS NULL", {"id": id})
    return int(found["n"]) if found else 0


def set_recovery_codes(store: Store, id: str, codes: Iterable[str]) -> None:
    """Recovery codes in the place of all before."""
    store.execute("DELETE FROM recovery_codes WHERE staff_id = :id", {"id": id})
    for code in codes:
        store.insert("recovery_codes", {"staff_id": id, "code_hash": code})


def use_step(store: Store, id: str, step: int) -> bool:
    """Mark a step used; False if somebody else was faster."""
    sql = "UPDATE staff SET totp_last = :step WHERE id = :id AND (totp_last IS NULL OR totp_last < :step)"
    return store.execute(sql, {"id": id, "step": step}) == 1


def use_recovery_code(store: Store, now: datetime, id: str, code: str) -> bool:
    sql = "UPDATE recovery_codes SET used_at = :now WHERE staff_id = :id AND code_hash = :code AND used_at IS NULL"
    return store.execute(sql, {"id": id, "code": code, "now": to_text(now)}) == 1


def count_try(store: Store, now: datetime, what: str, key: str) -> tuple[str, str, str]:
    """Count one try; returns what names it."""
    store.insert("tries", {"what": what, "key": key, "at": to_text(now)})
    return what, key, to_text(now)


def forget_tries(store: Store, tries: Iterable[tuple[str, str, str]]) -> None:
    """These were right after all."""
    for what, key, at in tries:
        one = "SELECT rowid FROM tries WHERE what = :what AND key = :key AND at = :at LIMIT 1"
        store.execute(f"DELETE FROM tries WHERE rowid = ({one})", {"what": what, "key": key, "at": at})


def tries_at(store: Store, now: datetime, what: str, key: str, window: timedelta) -> list[datetime]:
    """When the tries within a window were made, the earliest first."""
    sql = "SELECT at FROM tries WHERE what = :what AND key = :key AND at > :since ORDER BY at"
    found = store.rows(sql, {"what": what, "key": key, "since": to_text(now - window)})
    return [from_text(row["at"]) for row in found]


def tries_within(store: Store, now: datetime, what: str, key: str, window: timedelta) -> int:
    sql = "SELECT count(*) AS n FROM tries WHERE what = :what AND key = :key AND at > :since"
    found = store.row(sql, {"what": what, "key": key, "since": to_text(now - window)})
    return int(found["n"]) if found else 0


def _one(kind: type[Value], row: Row | None) -> Value | None:
    return made(kind, row) if row else None
