"""Sends requests, counts what became of them, and looks after each whether something is half stored."""

import json
import random
import re
import tempfile
import traceback
from collections import Counter, defaultdict, deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode, urlsplit

from werkzeug.routing import Rule
from werkzeug.test import TestResponse

from followup.web.routes import PHONE, ROUTES, SAFE
from tests.conftest import NOW
from tests.fuzz import entries, kept, poison
from tests.fuzz.forms import Form, forms_in, spoilt, token_in
from tests.fuzz.people import ROLES, People, signed_in_for
from tests.sealed import seal

A_CLINIC_LASTS, A_BATCH = 5000, 2500
"""Requests to one clinic before the next is made anew, and between two looks at all of it."""
ENDING = {"sessions", "staff", "devices"}
"""Tables whose writing may have thrown somebody out."""
SLOW = {"surgeon.adjust_part": 0.2, "surgeon.edit_text": 0.2, "administrator.audit": 0.1, "api.acuity_table": 0.1}
"""Routes that take so long that they are asked less often."""
LOOKED_AT = 0.3
"""How often a page that takes nothing is asked for, against one that does."""
ARGUMENTS = ("find", "language", "next", "callback", "surgeon", "before", "code", "saved", "page", "part", "show", "patient")
FORM_TYPE = "application/x-www-form-urlencoded"
STRANGE_TYPES = (
    "text/plain",
    "application/xml",
    "multipart/form-data",
    FORM_TYPE + "; charset=utf-7",
    "",
    "application/json;",
)


@dataclass
class Told:
    """What became of the requests: by route, role and status; how many reached the code behind; faults with their request."""

    statuses: Counter[tuple[str, str, str, int]] = field(default_factory=Counter)
    reached: int = 0
    kept: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)

    def wrong(self, fault: str) -> None:
        self.faults.append(fault)

    @property
    def requests(self) -> int:
        return sum(self.statuses.values())

    def of(self, status: int) -> int:
        return sum(n for (*_, answered), n in self.statuses.items() if answered == status)


@dataclass
class Sent:
    """A request as it goes out."""

    role: str
    method: str
    path: str
    body: bytes | None = None
    headers: dict[str, str] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.role} {self.method} {self.path} {self.headers} {(self.body or b'')[:2000]!r}"


class Fuzz:
    """Random requests to one clinic."""

    def __init__(self, folder: Path, seed: int, told: Told) -> None:
        self.pick, self.told = random.Random(seed), told
        self.people = People(folder)
        self.app, self.store = self.people.app, self.people.store
        self.rules = sorted((r for r in self.app.url_map.iter_rules() if r.endpoint != "static"), key=lambda r: r.endpoint)
        self.weights = [SLOW.get(r.endpoint, 1 if {"POST", "PUT"} & set(r.methods or ()) else LOOKED_AT) for r in self.rules]
        self.reached, self.wrote = False, Counter[str]()
        self.forms: defaultdict[str, deque[Form]] = defaultdict(lambda: deque(maxlen=12))
        self.links: defaultdict[str, deque[str]] = defaultdict(lambda: deque(maxlen=12))
        self.looked: Counter[str] = Counter()
        self.entries: deque[str] = deque(maxlen=40)
        self._count_views()
        self.failed = ""
        self.app.log_exception = self._failed  # type: ignore[method-assign, assignment]
        self.written = kept.Written(self.store)

    def _count_views(self) -> None:
        def counted(view: Callable[..., Any]) -> Callable[..., Any]:
            def called(**more: Any) -> Any:
                self.reached = True
                return view(**more)

            return called

        for endpoint, view in self.app.view_functions.items():
            self.app.view_functions[endpoint] = counted(view)

    def _failed(self, info: Any) -> None:
        at = traceback.extract_tb(info[2])[-1]
        self.failed = f"{info[1]!r} in {Path(at.filename).name} {at.lineno}"

    def one(self) -> None:
        """One request, and a look at what it left."""
        (rule,) = self.pick.choices(self.rules, self.weights)
        sent = self._request(rule)
        self.people.now += timedelta(seconds=self.pick.choice((0, 1, 20)))
        if self.people.now - NOW > signed_in_for():
            self.people.now = NOW
        self.written.since()
        self.reached = False
        address = ".".join(str(self.pick.randint(1, 250)) for _ in range(4))  # limits by address would end it soon
        answer = self.people.clients[sent.role].open(
            sent.path, method=sent.method, data=sent.body, headers=sent.headers, environ_base={"REMOTE_ADDR": address}
        )
        self._look(rule, sent, answer)
        answer.close()
        for role in self.people.clients if ENDING & set(self.wrote) else ():
            if not self.people.still_there(role):
                self.people.come_back(role)

    def _look(self, rule: Rule, sent: Sent, answer: TestResponse) -> None:
        status, written = answer.status_code, self.written.since()
        self.wrote = written
        self.told.reached += self.reached
        self.told.statuses[rule.endpoint, sent.role, sent.method, status] += 1
        if sent.method not in SAFE:
            self.told.kept.update(written)
        wrong = [f"wrote to {table}" for table in kept.half_stored(rule.endpoint, sent.method in SAFE, status, written)]
        if status >= 500 and rule.endpoint != "pages.health":
            wrong.append(f"our own fault, {self.failed}")
        if status == 200 and answer.mimetype == "application/json" and rule.endpoint in ("api.events", "api.sealed"):
            results = answer.get_json()["results"]
            wrong += kept.not_as_answered(self.store, results)
            self.entries.extend(result["id"] for result in results if result["status"] == "received")
        for fault in wrong:
            self.told.wrong(f"{status} {fault}: {sent}")
        if status == 200 and answer.mimetype == "text/html" and sent.method != "HEAD":
            self.looked[rule.endpoint] += 1
            if self.looked[rule.endpoint] < 10 or self.pick.random() < 0.1:
                self._learn(sent, answer.text)

    def _learn(self, sent: Sent, page: str) -> None:
        """Keep the forms and links of a page, and the ids in it."""
        path = sent.path.partition("?")[0]
        if token := token_in(page):
            self.people.tokens[sent.role] = token
        for form in forms_in(page, path):
            if endpoint := self._endpoint(form.path, "POST"):
                self.forms[endpoint].append(form)
        for link in re.findall(r'href="(/[^"#]*)"', page):
            if endpoint := self._endpoint(link, "GET"):
                self.links[endpoint].append(link.replace("&amp;", "&"))
        found = re.findall(r"/([0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f-]{21})\b", page)
        self.people.ids = [*self.people.ids[:20], *dict.fromkeys([*self.people.ids[20:], *found])][:120]

    def _endpoint(self, path: str, method: str) -> str | None:
        try:
            return str(self.app.url_map.bind("localhost").match(urlsplit(path).path, method=method)[0])
        except Exception:  # no page of ours
            return None

    def _request(self, rule: Rule) -> Sent:
        pick, methods = self.pick, sorted(set(rule.methods or ()) - {"OPTIONS", "HEAD"})
        method = "POST" if "POST" in methods and pick.random() < 0.75 else pick.choice(methods)
        chance = pick.random()
        if chance < 0.03:
            method = pick.choice(("HEAD", "PUT", "DELETE", "PATCH", "OPTIONS", "POST", "GET"))
        role = self._let_in(rule, method) if pick.random() < 0.85 else pick.choice(list(self.people.clients))
        sent = Sent(role, method, self._address(rule))
        if method in SAFE or method == "OPTIONS":
            return sent
        if rule.rule.startswith("/api/"):
            sent.body, sent.headers["Content-Type"] = self._json(rule), "application/json"
        else:
            self._fill_in(rule, sent)
        if pick.random() < 0.03:
            sent.headers["Content-Type"] = pick.choice(STRANGE_TYPES)
        if pick.random() < 0.02:
            sent.headers["Origin"] = pick.choice(("https://elsewhere.invalid", "null", "https://[::1"))
        if pick.random() < 0.001:
            sent.body = b"x" * 3_000_000
        return sent

    def _let_in(self, rule: Rule, method: str) -> str:
        route = ROUTES[rule.endpoint]
        who = route.read if method in SAFE else route.write
        return self.pick.choice(sorted(who)) if isinstance(who, frozenset) else "phone" if who == PHONE else "nobody"

    def _address(self, rule: Rule) -> str:
        known = self.links[rule.endpoint]
        if known and self.pick.random() < 0.5:
            path = self.pick.choice(known)
        else:
            built = rule.build({name: self._id(name) for name in rule.arguments}, append_unknown=False)
            path = str(built[1]) if built else "/"
        if self.pick.random() < 0.15:
            said = quote(poison.text(self.pick).encode("utf-8", "surrogatepass")[:500])
            path += f"{'&' if '?' in path else '?'}{self.pick.choice(ARGUMENTS)}={said}"
        return path

    def _id(self, name: str) -> str:
        if self.pick.random() < 0.05:
            said = poison.text(self.pick).encode("utf-8", "ignore").decode()
            return re.sub(r"[/\\.\x00\r\n]", "", said)[:100] or "x"
        if name == "part":
            return self.pick.choice(("rulebook", "reviews", "posture", "none"))
        if name == "token":
            return self.people.reset_token(self.pick.choice(ROLES))
        if name == "eye_id":
            return self.pick.choice(self.people.eyes)
        if name == "event_id" and self.entries:
            return self.pick.choice(self.entries)
        return self.pick.choice(self.people.ids)

    def _fill_in(self, rule: Rule, sent: Sent) -> None:
        pick, known = self.pick, self.forms[rule.endpoint]
        form = pick.choice(known) if known else Form(sent.path, {})
        if known and pick.random() < 0.9:
            sent.path = form.path
        if rule.endpoint == "account.second_step" and pick.random() < 0.5:
            self.people.half_signed_in()
        pairs = form.filled(pick)
        files = {name for name, control in form.controls.items() if control.file}
        if rule.endpoint == "patient.enrolment":
            pairs = [(name, pick.choice(self.people.codes) if name == "code" else value) for name, value in pairs]
        pairs = spoilt(pick, pairs)
        token = self.people.tokens.get(sent.role, "")
        if pick.random() > 0.02:
            pairs.append(("csrf_token", token if pick.random() > 0.01 else poison.text(pick)))
        said = [(_bytes(name), _bytes(value)) for name, value in pairs]
        if files:
            sent.body = _multipart(said, {name.encode() for name in files})
            sent.headers["Content-Type"] = "multipart/form-data; boundary=cut"
        else:
            sent.body, sent.headers["Content-Type"] = urlencode(said).encode(), FORM_TYPE

    def _json(self, rule: Rule) -> bytes:
        pick = self.pick
        if pick.random() < 0.05:
            return pick.choice(poison.BYTES)
        whole = self._whole(rule.endpoint)
        if rule.endpoint not in ("api.events", "api.sealed", "clinic_api.entries") or pick.random() < 0.1:
            whole = poison.spoilt(pick, whole, pick.choice((0, 0, 1, 2)))
        written = json.dumps(whole)
        if pick.random() < 0.03 and written.startswith("{") and len(written) > 2:
            written = f"{written[:-1]}, {written[1:]}"  # each name twice
        return written.encode() if pick.random() > 0.01 else written.encode()[: pick.randint(0, len(written))]

    def _whole(self, endpoint: str) -> Any:
        pick, people = self.pick, self.people
        if endpoint in ("api.events", "api.sealed"):
            made = [self._phones() for _ in range(pick.choice((0, 1, 1, 2, 4, 8)))]
            if endpoint == "api.sealed":
                return {"sealed": [seal(people.key, made)]}
            sent_at = people.now + timedelta(minutes=pick.choice((0, 0, 5, -400, 100_000)))
            clock = sent_at.isoformat() if pick.random() < 0.9 else poison.value(pick, 1)
            return {"sent_at": clock, "events": made if pick.random() > 0.005 else made * 60}
        if endpoint == "clinic_api.entries":
            made = [entries.spoilt(pick, entries.clinics(pick, people.now, people.eyes)) for _ in range(pick.randint(0, 4))]
            passed = people.author_pass if pick.random() < 0.9 else "forged"
            packet = {"author_pass": passed, "events": made}
            clock = people.now.isoformat() if pick.random() < 0.8 else poison.value(pick, 1)
            return {"sent_at": clock, "sealed": [seal(people.key, packet) if pick.random() < 0.95 else poison.value(pick)]}
        quiet = {"quiet_from": "22:00", "quiet_to": "07:00"}
        keys = {"p256dh": "B" + "A" * 86, "auth": "A" * 22}
        known: dict[str, Any] = {
            "api.choose_messages": {"email": "pat@test.invalid", "language": "de", **quiet, "unwanted": ["drops"]},
            "api.push": {"endpoint": f"https://push.test.invalid/{pick.randint(0, 9)}", "keys": keys},
            "clinic_api.push": {"endpoint": f"https://push.test.invalid/{pick.randint(0, 9)}", "keys": keys},
            "api.invite": {"name": "Carla"},
        }
        return known.get(endpoint, {})

    def _phones(self) -> Any:
        own = self.people.eyes[-1:] if self.pick.random() < 0.9 else self.people.eyes  # else another patient’s
        return entries.spoilt(self.pick, entries.phones(self.pick, self.people.now, own, list(self.entries)))


def run(requests: int, seed: int, folder: Path | None = None, told: Told | None = None) -> Told:
    """Send that many requests, to a new clinic after each `A_CLINIC_LASTS`, and look at each batch as `followup check` does."""
    told = told or Told()
    for begun in range(0, requests, A_CLINIC_LASTS):
        with _clinic(folder, seed + begun, told) as fuzz:
            for n in range(begun, min(requests, begun + A_CLINIC_LASTS)):
                fuzz.one()
                if (n + 1) % A_BATCH == 0 or n + 1 == requests:
                    people = fuzz.people
                    for fault in kept.faults(fuzz.store, people.settings, people.now):
                        told.wrong(f"after request {n} of seed {seed + begun}: {fault}")
    return told


@contextmanager
def _clinic(folder: Path | None, seed: int, told: Told) -> Iterator[Fuzz]:
    with tempfile.TemporaryDirectory(dir=folder) as made:
        fuzz = Fuzz(Path(made), seed, told)
        yield fuzz
        fuzz.store.close()


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


def _multipart(pairs: list[tuple[bytes, bytes]], files: set[bytes]) -> bytes:
    parts = [
        b'--cut\r\nContent-Disposition: form-data; name="%s"%s\r\n\r\n%s\r\n'
        % (re.sub(rb"[\r\n\"]", b"", name), b'; filename="list.csv"' if name in files else b"", value)
        for name, value in pairs
    ]
    return b"".join(parts) + b"--cut--\r\n"
