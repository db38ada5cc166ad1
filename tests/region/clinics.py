"""Clinics of a region for the tests: a settings file and a database each, with people, a patient and a phone."""

import shutil
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from werkzeug.test import Client, TestResponse

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.records import open_store
from tests.conftest import PASSWORD, ZONE, consented, operation_note, patient_details
from tests.pages import parsed

ROLES = ("nurse", "surgeon", "administrator")


@dataclass
class Clinic:
    """One clinic of the folder, its patient’s eye, phone and a code that waits to be used."""

    name: str
    file: Path
    database: Path
    eye: str
    token: str
    code: str
    patient: str

    @property
    def host(self) -> str:
        return host_of(self.name)

    def email(self, role: str) -> str:
        return f"{role}@{self.name}.invalid"


def host_of(name: str) -> str:
    return f"{name}.clinics.invalid"


def settings(folder: Path, name: str, database: Path, more: str = "") -> Path:
    """The settings file of a clinic, written or written anew; the number to call carries the clinic’s name as digits."""
    file = folder / f"{name}.toml"
    fresh = folder / f".{name}"
    fresh.write_text(
        f'[clinic]\nname = "The eye clinic {name}"\nphone = "{phone_of(name)}"\nzone = "{ZONE.key}"\n{more}\n'
        f'[server]\naddress = "http://{host_of(name)}"\ndatabase = "{database}"\nsecure_cookies = false\n',
        encoding="utf-8",
    )
    return fresh.replace(file)


def phone_of(name: str) -> str:
    return "+00 1 " + "".join(str(ord(letter) % 10) for letter in name)


def made(folder: Path, name: str, migrated: Path, now: datetime, more: str = "") -> Clinic:
    """A clinic with a nurse, a surgeon, an administrator and a patient with a phone."""
    database = folder / "databases" / f"{name}.db"
    database.parent.mkdir(exist_ok=True)
    shutil.copy(migrated, database)
    store = open_store(database)
    ids = {
        role: accounts.add_staff(store, now, f"{name} {role}", role, f"{role}@{name}.invalid", PASSWORD) for role in ROLES
    }
    desk = Desk(store, now, Actor(ids["nurse"], f"{name} nurse", "nurse"), ZONE)
    patient = patient_details(f"{name}-1").model_copy(update={"name": f"Patient of {name}"})
    note = operation_note(operated_at=now - timedelta(days=2), steroid_drops_until=None)
    eye, code = consented(desk, leaving.discharge(desk, patient, note, []))
    token = enrol.enrol(store, now, code, 1952, "patient", "test")
    row = store.row("SELECT patient_id AS id FROM eyes WHERE id = :eye", {"eye": eye})
    assert row is not None
    code = enrol.issue_code(desk, row["id"])
    store.close()
    return Clinic(name, settings(folder, name, database, more), database, eye, token, code, patient.name)


class Browser(Client):
    """Somebody’s browser at one host; a cookie goes to any host that it is sent to, as a thief’s would."""

    def __init__(self, application: Any, host: str, cookies: dict[str, str] | None = None) -> None:
        super().__init__(application, use_cookies=False)
        self.host, self.cookies = host, dict(cookies or {})

    def open(self, *args: Any, **more: Any) -> TestResponse:
        headers = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())} if self.cookies else {}
        more["buffered"] = True  # so that the answer has ended: whoever is still reading keeps the clinic open
        answer = super().open(*args, base_url=f"http://{self.host}", headers=headers | more.pop("headers", {}), **more)
        for line in answer.headers.getlist("Set-Cookie"):
            name, _, value = line.partition(";")[0].partition("=")
            self.cookies[name] = value
        return answer

    def sign_in(self, email: str) -> TestResponse:
        token = parsed(self.get("/sign-in").text).one("input", name="csrf_token").get("value")
        return self.post("/sign-in", data={"email": email, "password": PASSWORD, "csrf_token": token})
