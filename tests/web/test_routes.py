"""Every route with every role: what has no entry cannot be reached, and nobody gets further than the table says."""

import uuid
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.routing import Rule

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.config import Settings
from followup.records import Store
from followup.records.store import new_id
from followup.records.values import Device
from followup.web import routes
from followup.web.routes import ANYBODY, PHONE, ROUTES, Route
from tests.conftest import NOW, PASSWORD, Browser, Clock, consented, operation_note, patient_details, signed_in
from tests.pages import parsed

BEHIND_SECRETS = ("patient.visits_calendar",)  # 404 for whoever does not know the address


def methods(rule: Rule) -> set[str]:
    return set(rule.methods or ()) - {"HEAD", "OPTIONS"}


@pytest.fixture
def ids(store: Store, eye_id: str, device: Device) -> dict[str, str]:
    """What stands in the places of an address: this patient's own, or what there is none of."""
    row = store.row("SELECT id FROM operations WHERE eye_id = :id", {"id": eye_id})
    assert row is not None
    known = {"eye_id": eye_id, "operation_id": row["id"], "patient_id": device.patient_id, "device_id": device.id}
    return {**known, "part": "rulebook", "filename": "base.css", "token": "guess"}


@pytest.fixture
def as_administrator(app: Flask, store: Store) -> FlaskClient:
    accounts.add_staff(store, NOW, "Ada Admin", "administrator", "admin@test.invalid", PASSWORD)
    return signed_in(app, "admin@test.invalid")


def address(rule: Rule, ids: dict[str, str]) -> str:
    values = {name: ids.get(name, str(uuid.uuid4())) for name in rule.arguments}
    built = rule.build(values, append_unknown=False)
    assert built is not None
    return built[1]


def calls(app: Flask, ids: dict[str, str]) -> Iterator[tuple[str, str, str, Any]]:
    """Each route with each of its methods: endpoint, method, address, and whom the table lets in."""
    for rule in app.url_map.iter_rules():
        for method in sorted(methods(rule)):
            route = ROUTES[rule.endpoint]
            yield rule.endpoint, method, address(rule, ids), route.read if method == "GET" else route.write


def asked(client: FlaskClient, method: str, path: str, **more: Any) -> int:
    body: dict[str, Any] = {"json": {}} if path.startswith("/api/") and method != "GET" else {}
    return client.open(path, method=method, **{**body, **more}).status_code


def kept_out(status: int) -> bool:
    return status in (302, 401, 403)


def test_the_table_names_every_route_and_no_other(app: Flask) -> None:
    for rule in app.url_map.iter_rules():
        route = ROUTES.get(rule.endpoint)
        assert route is not None, f"{rule.endpoint} has no entry in the table of routes"
        assert (route.read is not None, route.write is not None) == (
            "GET" in methods(rule),
            bool(methods(rule) - {"GET"}),
        ), rule.endpoint
    assert set(ROUTES) == set(app.view_functions)


def test_a_view_without_an_entry_cannot_be_reached(app: Flask, surgeon: Actor) -> None:
    app.add_url_rule("/forgotten", "forgotten", lambda: "here")
    assert signed_in(app, "surgeon@test.invalid").get("/forgotten").status_code == 403


def test_a_method_without_an_entry_cannot_be_reached(
    app: Flask, as_surgeon: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(ROUTES, "surgeon.sign", Route(read=ANYBODY))
    assert as_surgeon.post("/surgeon/protocols/rulebook/sign").status_code == 403


def test_everybody_meets_every_route(
    app: Flask,
    client: FlaskClient,
    as_nurse: FlaskClient,
    as_surgeon: FlaskClient,
    as_administrator: FlaskClient,
    as_patient: FlaskClient,
    ids: dict[str, str],
) -> None:
    """Kept out where the table says so, and let in where it says so: a wrong form or id is said by the view itself."""
    who = {"nobody": client, "nurse": as_nurse, "surgeon": as_surgeon, "administrator": as_administrator, PHONE: as_patient}
    for name, asking in who.items():
        for endpoint, method, path, allowed in calls(app, ids):
            if endpoint in ("account.sign_out", "clinic_api.leave", "clinic.revoke", "account.sign_in"):
                continue  # they end what this walk needs
            status = asked(asking, method, path)
            assert status < 500 or endpoint == "pages.health", (name, method, path)
            inside = allowed in (ANYBODY, name) or (isinstance(allowed, frozenset) and name in allowed)
            if not inside:
                assert kept_out(status), (name, method, path, status)
            elif endpoint not in ("pages.index", "pages.change_password", "patient.my_calendar", *BEHIND_SECRETS):
                assert status not in (302, 401), (name, method, path, status)


def test_a_session_that_is_over_opens_nothing(
    app: Flask, nurse: Actor, clock: Clock, client: FlaskClient, ids: dict[str, str]
) -> None:
    """Neither does one whose cookie is kept: it is nobody's."""
    client.post("/sign-in", data={"email": "nurse@test.invalid", "password": PASSWORD})
    assert client.get("/clinic/").status_code == 200
    clock.pass_(minutes=61)
    of_staff = [(method, path) for _, method, path, allowed in calls(app, ids) if isinstance(allowed, frozenset)]
    assert len(of_staff) > 50
    for method, path in of_staff:
        assert asked(client, method, path) in (302, 401), path


@pytest.mark.parametrize("taken_out", ["guard", "entry"])
def test_the_walk_notices_when_the_table_lets_somebody_in(
    as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch, taken_out: str
) -> None:
    if taken_out == "entry":
        monkeypatch.delitem(ROUTES, "clinic.today")
        assert as_nurse.get("/clinic/").status_code == 403
    else:
        monkeypatch.setitem(ROUTES, "surgeon.my_results", Route(read=routes.CARE))
        assert as_nurse.get("/surgeon/results").status_code == 200


def test_another_patients_ids_open_nothing_for_a_phone(
    app: Flask, as_patient: FlaskClient, store: Store, nurse: Actor, settings: Settings, ids: dict[str, str]
) -> None:
    other = patient_details("T-2").model_copy(update={"name": "Other Person"})
    desk = Desk(store, NOW, nurse, settings.clinic.tz)
    eye, code = consented(desk, leaving.discharge(desk, other, operation_note(), []))
    device = enrol.device(store, enrol.enrol(store, NOW, code, 1952, "patient", "test"))
    assert device is not None
    foreign = {**ids, "eye_id": eye, "patient_id": device.patient_id, "device_id": device.id}
    for endpoint, method, path, allowed in calls(app, foreign):
        if endpoint not in ("account.sign_out", "clinic_api.leave"):
            answer = as_patient.open(path, method=method)
            assert b"Other Person" not in answer.data, path
            assert allowed in (ANYBODY, PHONE) or kept_out(answer.status_code), path
    entry = {"id": new_id(), "operation": eye, "kind": "symptoms", "at": NOW.isoformat(), "by": "patient"}
    entry |= {"offset_minutes": 60, "sequence": 1, "body": {"pain": 3}}
    answer = as_patient.post("/api/v1/events", json={"events": [entry]})
    assert answer.json is not None
    result = answer.json["results"][0]
    assert (result["status"], result["reason"]) == ("refused", "This entry belongs to another eye.")


def test_a_locked_out_phone_is_kept_out_everywhere(
    app: Flask, as_patient: FlaskClient, store: Store, nurse: Actor, settings: Settings, ids: dict[str, str]
) -> None:
    enrol.revoke(Desk(store, NOW, nurse, settings.clinic.tz), ids["device_id"])
    of_phones = [(method, path) for _, method, path, allowed in calls(app, ids) if allowed == PHONE]
    assert len(of_phones) > 5
    for method, path in of_phones:
        assert asked(as_patient, method, path) == 401, path


@pytest.mark.parametrize("shown", [None, "", "a guess", "of another session"])
def test_what_changes_something_needs_its_token(
    store: Store, app: Flask, as_nurse: FlaskClient, ids: dict[str, str], shown: str | None
) -> None:
    """Forms carry a token of the session; interfaces take JSON only, which no foreign page can send without asking first."""
    assert isinstance(as_nurse, Browser)
    if shown == "of another session":
        shown = parsed(app.test_client().get("/sign-in").text).one("input", name="csrf_token").get("value")
    as_nurse.tokens = False
    before = store.rows("SELECT number FROM audit")
    for rule in app.url_map.iter_rules():
        if "POST" in methods(rule) and not rule.rule.startswith("/api/"):
            sent = {} if shown is None else {"csrf_token": shown}
            assert as_nurse.post(address(rule, ids), data=sent).status_code in (400, 403), rule.rule
    assert store.rows("SELECT number FROM audit") == before


def test_every_form_of_every_page_carries_its_token(
    app: Flask, as_nurse: FlaskClient, as_surgeon: FlaskClient, client: FlaskClient, ids: dict[str, str]
) -> None:
    seen = 0
    for endpoint, method, path, _ in calls(app, ids):
        if method == "GET" and endpoint != "static":
            for asking in (client, as_nurse, as_surgeon):
                answer = asking.get(path)
                if answer.mimetype == "text/html":
                    for form in parsed(answer.text).all("form", method="post"):
                        assert form.one("input", name="csrf_token").get("value"), (path, form.attributes)
                        seen += 1
    assert seen > 50


@pytest.mark.parametrize(
    "sent",
    [
        {"Origin": "https://elsewhere.invalid"},
        {"Origin": "null"},
        {"Origin": "https://[::1"},
        {"Sec-Fetch-Site": "cross-site"},
    ],
)
def test_what_another_site_sends_is_refused(
    app: Flask,
    client: FlaskClient,
    as_nurse: FlaskClient,
    as_patient: FlaskClient,
    ids: dict[str, str],
    sent: dict[str, str],
) -> None:
    for _, method, path, allowed in calls(app, ids):
        if method != "GET":
            asking = client if allowed == ANYBODY else as_patient if allowed == PHONE else as_nurse
            assert asked(asking, method, path, headers=sent) == 403, path


def test_our_own_pages_are_heard(as_patient: FlaskClient, settings: Settings) -> None:
    for origin in ("http://localhost", settings.server.public_address):
        assert as_patient.post("/api/v1/events", json={"events": []}, headers={"Origin": origin}).status_code == 200


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"])
def test_interfaces_take_json_only(
    app: Flask, as_nurse: FlaskClient, as_patient: FlaskClient, ids: dict[str, str], kind: str
) -> None:
    """What a foreign page can send without asking first (the Fetch standard's safelisted content types)."""
    sent = [call for call in calls(app, ids) if call[2].startswith("/api/") and call[1] != "GET"]
    assert len(sent) > 5
    for _, method, path, allowed in sent:
        asking = as_patient if allowed == PHONE else as_nurse
        assert asked(asking, method, path, json=None, data=b'{"events": []}', content_type=kind) == 415, path


@pytest.mark.parametrize(
    ("back", "leads"),
    [
        ("https://evil.invalid/", "/clinic/"),
        ("//evil.invalid", "/clinic/"),
        ("///evil.invalid", "/clinic/"),  # browsers take any number of slashes for two
        ("/\\evil.invalid", "/clinic/"),
        ("/\t/evil.invalid", "/clinic/"),
        ("javascript:alert(1)", "/clinic/"),
        ("", "/clinic/"),
        ("/clinic/callbacks", "/clinic/callbacks"),
    ],
)
def test_a_button_leads_back_inside_only(as_nurse: FlaskClient, device: Device, back: str, leads: str) -> None:
    answer = as_nurse.post(f"/clinic/devices/{device.id}/revoke", data={"back": back})
    assert (answer.status_code, answer.headers["Location"]) == (303, leads)


def test_the_enrolment_code_is_not_in_the_cookie(as_nurse: FlaskClient, app: Flask, eye_id: str) -> None:
    """What a signed cookie holds can be read by whoever has it; the card shows the code once more from there."""
    page = as_nurse.post(f"/clinic/eyes/{eye_id}/code", follow_redirects=True).text
    first, second = parsed(page).one("strong", class_="code").words.split()
    with as_nurse.session_transaction() as kept:
        held = str(dict(kept))
    assert "code" in held
    assert first + second not in held
    assert first not in as_nurse.get("/clinic/eyes/none/card").text
