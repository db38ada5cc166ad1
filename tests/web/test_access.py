"""Who may see what: outsiders sign in, nurses do not sign protocols, phones see their own eye only."""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.config import Settings
from followup.records import Store
from followup.records.values import Device
from followup.web import create_app
from tests.conftest import NOW, Browser, Clock, operation_note, patient_details

STAFF = [
    "/clinic/",
    "/clinic/discharge",
    "/clinic/callbacks",
    "/clinic/close-day",
    "/surgeon/",
    "/surgeon/results",
    "/surgeon/protocols",
    "/surgeon/protocols/rulebook",
    "/surgeon/protocols/rulebook/text",
    "/how-this-is-worked-out",
    "/my-messages",
    "/not-working",
]
PUBLIC = [
    "/",
    "/sign-in",
    "/enrol",
    "/me/",
    "/sw.js",
    "/manifest.webmanifest",
    "/clinic/manifest.webmanifest",
    "/clinic/without-signal",
    "/clinic/sw.js",
    "/api/v1/openapi.json",
    "/api/v1/acuity-table",
]


@pytest.mark.parametrize("path", STAFF)
def test_outsiders_are_sent_to_sign_in(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 302
    assert answer.headers["Location"].startswith("/sign-in")


@pytest.mark.parametrize("path", PUBLIC)
def test_public_pages_open_and_carry_their_headers(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 200
    assert "default-src 'self'" in answer.headers["Content-Security-Policy"]
    assert "frame-ancestors 'none'" in answer.headers["Content-Security-Policy"]
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Referrer-Policy"] == "same-origin"
    assert "camera=()" in answer.headers["Permissions-Policy"]


@pytest.mark.parametrize("path", STAFF)
def test_no_browser_keeps_what_staff_read(as_nurse: FlaskClient, as_surgeon: FlaskClient, path: str) -> None:
    """RFC 9111, 5.2.2.5: neither a browser nor anything between stores it."""
    answers = [client.get(path) for client in (as_nurse, as_surgeon)]
    assert {answer.headers["Cache-Control"] for answer in answers} == {"no-store"}


@pytest.mark.parametrize(
    ("path", "kind"), [("/sign-in", "application/x-www-form-urlencoded"), ("/api/v1/events", "application/json")]
)
def test_too_much_at_once_is_refused_in_words(as_patient: FlaskClient, path: str, kind: str) -> None:
    answer = as_patient.post(path, data=b"x" * (2 * 1024 * 1024 + 1), content_type=kind)
    assert (answer.status_code, "Too much was sent at once" in answer.text) == (413, True)


def test_a_picture_that_is_opened_as_a_page_may_do_nothing(client: FlaskClient) -> None:
    answer = client.get("/static/icons/icon.svg")
    assert (answer.status_code, answer.headers["Content-Security-Policy"]) == (200, "default-src 'none'")


def test_a_file_that_did_not_change_is_not_sent_again(client: FlaskClient) -> None:
    first = client.get("/static/patient/app.js")
    again = client.get("/static/patient/app.js", headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


@pytest.mark.parametrize("path", STAFF)
def test_a_surgeon_opens_every_staff_page(as_surgeon: FlaskClient, path: str) -> None:
    assert as_surgeon.get(path).status_code == 200


@pytest.mark.parametrize("path", ["/surgeon/", "/surgeon/protocols/rulebook", "/surgeon/protocols/rulebook/text"])
def test_a_nurse_does_not_open_the_surgeons_pages(as_nurse: FlaskClient, path: str) -> None:
    assert as_nurse.get(path).status_code == 403
    assert as_nurse.post("/surgeon/protocols/rulebook/sign", data={"fingerprint": "x"}).status_code == 403


def test_eye_pages_open_for_staff_and_not_for_phones(as_nurse: FlaskClient, as_patient: FlaskClient, eye_id: str) -> None:
    for part in ("", "/visit", "/card"):
        assert as_nurse.get(f"/clinic/eyes/{eye_id}{part}").status_code == 200
        assert as_patient.get(f"/clinic/eyes/{eye_id}{part}").status_code == 302


@pytest.mark.parametrize(
    "path", ["/clinic/eyes/none", "/clinic/eyes/none/visit", "/clinic/callbacks/none", "/surgeon/protocols/menu", "/nowhere"]
)
def test_what_is_not_there_is_said(as_surgeon: FlaskClient, path: str) -> None:
    answer = as_surgeon.get(path)
    assert answer.status_code == 404
    assert "There is no such" in answer.text or "there is no such" in answer.text


def test_a_part_that_is_none_is_not_signed(as_surgeon: FlaskClient) -> None:
    answer = as_surgeon.post("/surgeon/protocols/menu/sign", data={"fingerprint": "x"})
    assert (answer.status_code, "no such part" in answer.text) == (404, True)


def test_an_unknown_phone_gets_401_and_keeps_its_entries(client: FlaskClient) -> None:
    assert client.get("/api/v1/pack").status_code == 401
    assert client.get("/api/v1/known").json == {"set_up": False}
    assert client.post("/api/v1/events", json={"events": []}).status_code == 401
    assert client.get("/me/calendar").status_code == 404
    assert client.get("/calendar/guess.ics").status_code == 404


def test_a_phone_sees_its_own_patient_only(
    store: Store, as_patient: FlaskClient, nurse: Actor, settings: Settings, eye_id: str
) -> None:
    other = patient_details("T-2").model_copy(update={"name": "Other Person"})
    leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), other, operation_note(), [])
    pack = as_patient.get("/api/v1/pack").json
    assert [e["operation"] for e in pack["eyes"]] == [eye_id]
    assert "Other Person" not in str(pack)


def test_signing_in_only_leads_inside(app: Flask, nurse: Actor) -> None:
    data = {"email": "nurse@test.invalid", "password": "a long test password"}
    for target, leads in (
        ("/clinic/callbacks", "/clinic/callbacks"),
        ("https://evil.invalid/", "/clinic/"),
        ("//evil.invalid", "/clinic/"),
        ("/\\evil", "/clinic/"),
    ):
        assert app.test_client().post("/sign-in", query_string={"next": target}, data=data).headers["Location"] == leads


def test_a_wrong_password_is_said_beside_the_field(client: FlaskClient, nurse: Actor) -> None:
    answer = client.post("/sign-in", data={"email": "nurse@test.invalid", "password": "no"})
    assert answer.status_code == 403
    assert "e-mail or password is wrong" in answer.text


def test_forms_need_their_token(settings: Settings, store: Store) -> None:
    guarded = create_app(settings, store).test_client()
    assert guarded.post("/sign-in", data={"email": "a@b.c", "password": "x"}).status_code in (302, 400)
    assert guarded.post("/enrol", data={"code": "X"}).status_code in (302, 400)


def test_signing_out_ends_the_session(as_nurse: FlaskClient) -> None:
    as_nurse.post("/sign-out")
    assert as_nurse.get("/clinic/").status_code == 302


def test_an_answer_on_its_way_does_not_bring_a_session_back(as_nurse: FlaskClient) -> None:
    """Pages load style sheets and scripts beside each other: once a form has its token, only signing in and out set the cookie."""
    as_nurse.get("/clinic/")
    for path in ("/clinic/", "/static/base.css", "/api/v1/clinic/daysheet"):
        assert "Set-Cookie" not in as_nurse.get(path).headers


@pytest.mark.parametrize("year", ["52", "9" * 400, "in spring", "1952.5"])
def test_a_year_of_birth_that_is_none_is_asked_for_again(client: FlaskClient, year: str) -> None:
    answer = client.post("/enrol", data={"code": "AAAAAAAA", "birth_year": year, "used_by": "patient"})
    assert answer.status_code == 400
    assert "four digits" in answer.text


def test_a_revoked_phone_is_locked_out(as_nurse: FlaskClient, as_patient: FlaskClient, device: Device) -> None:
    assert as_patient.get("/api/v1/pack").status_code == 200
    as_nurse.post(f"/clinic/devices/{device.id}/revoke")
    assert as_patient.get("/api/v1/pack").status_code == 401
    assert as_patient.get("/api/v1/known").json == {"set_up": True}  # so that it learns why


@pytest.mark.parametrize(("proxies", "shared"), [(0, True), (1, False)])
def test_wrong_codes_are_counted_by_the_address_that_a_trusted_proxy_names(
    settings: Settings, store: Store, clock: Clock, proxies: int, shared: bool
) -> None:
    """Behind a proxy everybody comes from one address: one guesser must not lock all patients out."""
    server = settings.server.model_copy(update={"proxies": proxies})
    app = create_app(settings.model_copy(update={"server": server}), store, clock)
    app.test_client_class = Browser

    def guess(address: str) -> str:
        data = {"code": "AAAAAAAA", "birth_year": "1950", "used_by": "patient"}
        return app.test_client().post("/enrol", data=data, headers={"X-Forwarded-For": address}).text

    for _ in range(20):
        guess("203.0.113.5")
    assert "too many wrong codes" in guess("203.0.113.5")
    assert ("too many wrong codes" in guess("203.0.113.77")) is shared
