"""Sends random requests to every route by every role: `python -m tests.fuzz --requests 100000 --seed 1`.

Prints what each status was answered how often, and ends with 1 where an answer was a fault of ours (5xx) or something
is half stored; then with the request that did it, which the same seed makes again.
"""

import argparse
import json
import random
import re
import sys
import tempfile
import uuid
from collections import Counter
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

from argon2 import PasswordHasher
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.routing import Rule

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol, sealing
from followup.clinical import schedule
from followup.config import Clinic, Server, Settings
from followup.records import Store, backup, open_store
from followup.web import create_app
from followup.web.routes import PHONE, ROUTES
from tests.conftest import NOW, OPERATED, PASSWORD, ZONE, Browser, consented, operation_note, patient_details
from tests.sealed import seal

ENDS_WHAT_IT_NEEDS = ("account.sign_out", "clinic_api.leave", "clinic.revoke", "administrator.end", "administrator.sign_out")
ENDS_WHAT_IT_NEEDS += ("account.sign_others_out", "account.my_account", "account.sign_in")
KINDS = ("symptoms", "posture", "drops", "journey", "anaesthetic", "bubble-seen", "visit-request", "withdrawal", "measures")
KINDS += ("seen", "arrived", "no-gas-seen", "nonsense")
BODY_NAMES = ("pain", "vision", "curtain", "position", "from", "to", "eye", "iop", "iop_mmhg", "acuity", "visit", "words")
BODY_NAMES += ("heights_metres", "percent", "bubble_percent", "name", "wish", "taken", "redness", "flashes")
_FIELD = re.compile(r'name="([A-Za-z0-9_.-]{1,60})"')
_OPTION = re.compile(r'<option[^>]* value="([^"]{1,80})"')


class Fuzz:
    """An invented clinic, somebody of each role in it, and random requests to it."""

    def __init__(self, folder: Path, seed: int) -> None:
        accounts._hasher = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        self.random = random.Random(seed)
        clinic = Clinic(name="Test Eye Clinic", phone="+00 1 234", zone=ZONE.key, country="AT")
        settings = Settings(clinic=clinic, server=Server(database=folder / "clinic.db", secure_cookies=False))
        self.store: Store = open_store(settings.server.database, create=True)
        self.now = NOW
        self.app: Flask = create_app(settings, self.store, lambda: self.now)
        self.app.test_client_class = Browser
        self.app.config.update(PROPAGATE_EXCEPTIONS=False)
        self.ids: list[str] = []
        self.clients: dict[str, FlaskClient] = {"nobody": self.app.test_client()}
        self._people()
        self.rules = [r for r in self.app.url_map.iter_rules() if r.endpoint not in ENDS_WHAT_IT_NEEDS]
        self.fields: dict[str, tuple[list[str], list[str]]] = {}
        self.statuses: Counter[int] = Counter()

    def _people(self) -> None:
        for role in accounts.ROLES:
            email = f"{role}@test.invalid"
            self.ids.append(accounts.add_staff(self.store, NOW, f"{role} person", role, email, PASSWORD))
            self.clients[role] = self.app.test_client()
            self.clients[role].post("/sign-in", data={"email": email, "password": PASSWORD})
        desk = Desk(self.store, OPERATED + timedelta(hours=5), Actor(self.ids[0], "nurse person", "nurse"), ZONE)
        day = date(2027, 3, 8)
        for number in ("F-1", "F-2"):
            visits = [schedule.Window("week 1", day, day, day + timedelta(6), "retina")]
            eye, code = consented(desk, leaving.discharge(desk, patient_details(number), operation_note(), visits))
            token = enrol.enrol(self.store, OPERATED + timedelta(hours=6), code, 1952, "patient", "home")
            device = enrol.device(self.store, token)
            assert device is not None
            self.ids += [eye, device.patient_id, device.id]
            self.clients["phone"] = self.app.test_client()
            self.clients["phone"].set_cookie("device", token)
        self.key = sealing.public_key(self.store)
        self.author_pass = self.clients["nurse"].get("/api/v1/clinic/daysheet").get_json()["author_pass"]

    def one(self) -> tuple[str, int]:
        """One request; what it was, and its status."""
        pick = self.random
        rule = pick.choice(self.rules)
        role = self._somebody_let_in(rule) if pick.random() < 0.8 else pick.choice(list(self.clients))
        method = pick.choice(sorted(set(rule.methods or ()) - {"OPTIONS"}) + ["PUT", "DELETE"] * (pick.random() < 0.02))
        path = self._address(rule)
        sent = {} if method in ("GET", "HEAD") else self._body(rule, role, path)
        self.now += timedelta(seconds=pick.choice((0, 1, 20)))
        if self.now - NOW > timedelta(minutes=40):
            self.now = NOW  # sessions would lie idle
        answer = self.clients[role].open(path, method=method, **sent)
        status = answer.status_code
        if status == 200 and method == "GET" and role in accounts.ROLES and answer.mimetype == "text/html":
            self._learn(rule.endpoint, answer.text)
        answer.close()
        self.statuses[status] += 1
        return f"{role} {method} {path} {str(sent)[:2000]}", 200 if rule.endpoint == "pages.health" else status

    def _somebody_let_in(self, rule: Rule) -> str:
        route = ROUTES[rule.endpoint]
        who = route.write or route.read
        return self.random.choice(sorted(who)) if isinstance(who, frozenset) else "phone" if who == PHONE else "nobody"

    def _address(self, rule: Rule) -> str:
        values = {name: self._id(name) for name in rule.arguments}
        built = rule.build(values, append_unknown=False)
        path = str(built[1]) if built else "/"
        if self.random.random() < 0.3:
            key = self.random.choice(("find", "language", "next", "callback", "surgeon", "before", "code", "saved", "kept"))
            return f"{path}?{key}={_quoted(self._poison())}"
        return path

    def _id(self, name: str) -> str:
        if name == "part":
            return self.random.choice(("rulebook", "reviews", "posture", "none"))
        if name == "filename":
            return "base.css"
        if self.random.random() < 0.1:
            return _path_part(self._poison()) or "x"
        return self.random.choice(self.ids)

    def _learn(self, endpoint: str, page: str) -> None:
        self.fields[endpoint] = (sorted(set(_FIELD.findall(page))), sorted(set(_OPTION.findall(page))))
        found = re.findall(r"/(?:eyes|patients|callbacks|tasks|entries|operations)/([0-9a-f-]{36})", page)
        self.ids = [*self.ids[:9], *dict.fromkeys([*self.ids[9:], *found])][:80]

    def _body(self, rule: Rule, role: str, path: str) -> dict[str, Any]:
        if path.startswith("/api/"):
            return self._json(rule)
        names, options = self.fields.get(rule.endpoint, ([], []))
        names = names or ["reason", "words", "outcome", "visit", "back", "decision", "fingerprint"]
        chosen = self.random.sample(names, self.random.randint(0, len(names)))
        written = urlencode({name: self._text(options).encode("utf-8", "surrogatepass") for name in chosen})
        return {"data": written, "content_type": "application/x-www-form-urlencoded"}

    def _json(self, rule: Rule) -> dict[str, Any]:
        pick = self.random.random()
        if pick < 0.1:
            return {"data": self._raw(), "content_type": "application/json"}
        if rule.endpoint == "clinic_api.entries":
            packet = {"author_pass": self.author_pass if pick < 0.9 else "forged", "events": self._events(False)}
            return {
                "json": {"sent_at": self._value(1), "sealed": [seal(self.key, packet)] if pick < 0.95 else self._value(2)}
            }
        if rule.endpoint == "api.events":
            return {
                "data": json.dumps({"sent_at": self._value(1), "events": self._events(True)}),
                "content_type": "application/json",
            }
        if rule.endpoint == "api.sealed":
            return {"json": {"sealed": [seal(self.key, self._events(True))]}}
        return {"data": json.dumps(self._value(3)), "content_type": "application/json"}

    def _events(self, by_phone: bool) -> list[Any]:
        return [self._event(by_phone) for _ in range(self.random.randint(0, 4))]

    def _event(self, by_phone: bool) -> Any:
        pick = self.random
        body: dict[str, Any] = {
            name: self._value(2)
            for name in pick.sample(
                BODY_NAMES,
                pick.randint(0, 6),
            )
        }
        event: dict[str, Any] = {
            "id": str(uuid.UUID(int=pick.getrandbits(128), version=4)),
            "operation": pick.choice(self.ids),
            "kind": pick.choice(KINDS),
            "at": (NOW - timedelta(minutes=pick.randint(0, 3000))).isoformat(),
            "offset_minutes": 60,
            "sequence": pick.randint(1, 1000),
            "body": body,
        } | ({"by": "patient"} if by_phone else {})
        for name in list(event):
            if pick.random() < 0.06:
                event[name] = self._value(2)
        return event if pick.random() < 0.97 else self._value(2)

    def _value(self, depth: int) -> Any:
        pick = self.random
        made: list[Callable[[], Any]] = [
            lambda: pick.choice((None, True, 0, -1, 1.5, 2**63, -(2**70), 1e308, float("inf"), float("nan"))),
            self._poison,
            lambda: pick.randint(-5, 150),
            lambda: (NOW - timedelta(hours=pick.randint(-30, 90))).isoformat(),
        ]
        if depth > 0:
            made.append(lambda: [self._value(depth - 1) for _ in range(pick.randint(0, 3))])
            made.append(lambda: {self._poison()[:20]: self._value(depth - 1) for _ in range(pick.randint(0, 3))})
        return pick.choice(made)()

    def _text(self, options: list[str]) -> str:
        pick = self.random.random()
        if options and pick < 0.5:
            return self.random.choice(options)
        if pick < 0.7:
            return self.random.choice(("2027-03-10", "10:30", "12", "6/12", "right", "y", "yes", "Sol Surgeon", *self.ids))
        return self._poison()

    def _poison(self) -> str:
        return self.random.choice(POISON)

    def _raw(self) -> bytes:
        return self.random.choice((b"", b"{", b"\xff\xfe", b"[" * 5000, b'{"events": [1e999, "\\ud800"]}', b"null", b"[]"))


POISON = (
    "",
    " ",
    "\ud800",
    "\x00",
    "\u202e right to left",
    "0001-01-01",
    "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00",
    "2027-02-30",
    "12:61",
    "1e400",
    "-0",
    "9" * 400,
    "NaN",
    "6/0",
    "٣٤",
    "½",
    "%s%n{0}{{7*7}}",
    "'; DROP TABLE events; --",
    "<script>alert(1)</script>",
    "https://elsewhere.invalid/",
    "../../../etc/passwd",
    "a" * 5000,
    "https://[::1",
    "a@[b.c",
)


def _quoted(text: str) -> str:
    return quote(text.encode("utf-8", "surrogatepass")[:500])


def _path_part(text: str) -> str:
    return re.sub(r"[/\\.\x00]", "", text.encode("utf-8", "ignore").decode())[:100]


def run(requests: int, seed: int, folder: Path) -> tuple[Fuzz, list[str]]:
    """Send that many requests; the faults, each with the request that found it."""
    fuzz, faults = Fuzz(folder, seed), []
    for n in range(requests):
        told, status = fuzz.one()
        if status >= 500:
            faults.append(f"request {n}: {status} {told}")
    return fuzz, faults + backup.faults(fuzz.store)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--requests", type=int, default=1000)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    began = datetime.now(UTC)
    with tempfile.TemporaryDirectory() as folder:
        fuzz, faults = run(given.requests, given.seed, Path(folder))
        fuzz.store.close()
    statuses = ", ".join(f"{status}: {n}" for status, n in sorted(fuzz.statuses.items()))
    print(f"{given.requests} requests with seed {given.seed} in {(datetime.now(UTC) - began).seconds} s: {statuses}")
    for fault in faults[:40]:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
