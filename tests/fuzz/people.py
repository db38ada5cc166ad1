"""An invented clinic with somebody of each role in it, who comes back whenever a request threw them out."""

import re
from datetime import date, timedelta
from pathlib import Path

import pyotp
from argon2 import PasswordHasher
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts, resetting, second_factor, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import NotFound
from followup.care.home import enrol, sealing
from followup.clinical import schedule
from followup.config import Clinic, Messages, Server, Settings
from followup.exchange import push_keys
from followup.records import Store, open_store
from followup.web import create_app
from tests.conftest import NOW, OPERATED, PASSWORD, ZONE, consented, operation_note, patient_details

ROLES = ("nurse", "surgeon", "administrator")
_TOKEN = re.compile(r'name="csrf_token"[^>]* value="([^"]+)"')


class People:
    """The clinic, and a browser for each of: nobody, a phone, and each role of staff."""

    def __init__(self, folder: Path) -> None:
        accounts._hasher = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        clinic = Clinic(name="Test Eye Clinic", phone="+00 1 234", zone=ZONE.key, country="AT")
        server = Server(database=folder / "clinic.db", secure_cookies=False)
        self.settings = Settings(
            clinic=clinic, server=server, messages=Messages(smtp_host="mail.invalid", sender="clinic@test.invalid")
        )
        self.store: Store = open_store(server.database, create=True)
        self.now, self.made = NOW, 0
        self.app: Flask = create_app(self.settings, self.store, lambda: self.now)
        self.app.config.update(PROPAGATE_EXCEPTIONS=False)
        self.clients: dict[str, FlaskClient] = {"nobody": self.app.test_client()}
        self.tokens: dict[str, str] = {}
        self.staff: dict[str, str] = {}
        self.eyes: list[str] = []
        self.ids: list[str] = []
        self.codes: list[str] = []
        self.author_pass = ""
        for role in ROLES:
            self.come_back(role)
        for _ in range(2):
            self.come_back("phone")
        self.key = sealing.public_key(self.store)
        push_keys.public_key(self.store)  # made on first use, which else would be some refused request
        secret = second_factor.new_secret()
        self.careful = accounts.add_staff(self.store, NOW, "Cara Careful", "nurse", "careful@test.invalid", PASSWORD)
        careful = Actor(self.careful, "Cara Careful", "nurse")
        second_factor.set_up(self.store, NOW, careful, secret, pyotp.TOTP(secret).at(NOW), PASSWORD)

    def come_back(self, who: str) -> None:
        """A new browser for a role: an account of their own for staff, another patient’s phone for `phone`."""
        self.made += 1
        client = self.app.test_client()
        if who == "phone":
            client.set_cookie("device", self._enrolled())
        elif who != "nobody":
            email = f"{who}-{self.made}@test.invalid"
            self.staff[who] = accounts.add_staff(self.store, NOW, f"{who} {self.made}", who, email, PASSWORD)
            self.ids.append(self.staff[who])
            self._sign_in(client, email)
        self.clients[who] = client
        if found := _TOKEN.search(client.get("/sign-in").text):
            self.tokens[who] = found[1]
        if who == "nurse":
            self.author_pass = client.get("/api/v1/clinic/daysheet").get_json()["author_pass"]

    def still_there(self, who: str) -> bool:
        """Whether a browser is still let in."""
        if who == "nobody":
            return True
        path = "/api/v1/messages" if who == "phone" else "/my-account/no-second-factor"
        return self.clients[who].get(path).status_code == 200

    def half_signed_in(self) -> None:
        """Somebody with a second factor gives the right password in nobody’s browser."""
        self._sign_in(self.clients["nobody"], "careful@test.invalid")

    def reset_token(self, who: str) -> str:
        try:
            return resetting.token(self.store, self.now, self.staff[who])
        except NotFound:
            return "of an account that was ended"

    def desk(self) -> Desk:
        return Desk(self.store, OPERATED + timedelta(hours=5), Actor(self.staff["nurse"], "a nurse", "nurse"), ZONE)

    def _sign_in(self, client: FlaskClient, email: str) -> None:
        found = _TOKEN.search(client.get("/sign-in").text)
        form = {"email": email, "password": PASSWORD, "csrf_token": found[1] if found else ""}
        client.post("/sign-in", data=form, environ_base={"REMOTE_ADDR": f"10.9.{self.made // 250}.{self.made % 250}"})

    def _enrolled(self) -> str:
        day = date(2027, 3, 8)
        visits = [schedule.Window("week 1", day, day, day + timedelta(6), "retina")]
        eye, code = consented(
            self.desk(), leaving.discharge(self.desk(), patient_details(f"F-{self.made}"), operation_note(), visits)
        )
        token = enrol.enrol(self.store, OPERATED + timedelta(hours=6), code, 1952, "patient", f"home {self.made}")
        device = enrol.device(self.store, token)
        assert device is not None
        self.eyes.append(eye)
        self.ids += [eye, device.patient_id, device.id]
        self.codes.append(enrol.issue_code(self.desk(), device.patient_id))
        return token


def signed_in_for() -> timedelta:
    """How long the clock may run before a session could lie idle."""
    return signing_in.IDLE * 0.6
