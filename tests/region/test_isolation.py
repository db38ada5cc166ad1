"""Nothing of one clinic is seen from another on the same server: by each role, with each cookie, token, link, key and id."""

import io
import json
import logging
import sqlite3
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from typing import Any
from urllib.parse import urlsplit

import pytest
import uuid_utils
from flask import Flask
from werkzeug.routing import Rule
from werkzeug.test import TestResponse

from followup import logs
from followup.care import resetting
from followup.care.home import sealing
from followup.records import audit, open_store
from followup.web.routes import ANYBODY, PHONE, ROUTES
from tests.conftest import NOW
from tests.pages import parsed
from tests.region.clinics import ROLES, Browser, Clinic
from tests.region.conftest import Region
from tests.sealed import seal

IDS = {
    "eye_id": "SELECT id FROM eyes",
    "patient_id": "SELECT id FROM patients",
    "operation_id": "SELECT id FROM operations",
    "device_id": "SELECT id FROM devices",
    "callback_id": "SELECT id FROM callbacks",
    "event_id": "SELECT id FROM events",
    "identity": "SELECT identity FROM visits",
    "version": "SELECT id FROM visits",
    "task_id": "SELECT id FROM tasks",
    "listed_id": "SELECT id FROM listed_operations",
    "staff_id": "SELECT id FROM staff",
    "day": "SELECT date('2027-03-09')",
    "part": "SELECT 'rulebook'",
    "token": "SELECT 'a guess'",
    "filename": "SELECT 'base.css'",
}
"""What stands in an address, and where the ids of a clinic are."""
ENDS_SESSIONS = ("account.sign_out", "clinic_api.leave", "account.sign_others_out")


@pytest.fixture
def north(region: Region) -> Clinic:
    return region.add("north")


@pytest.fixture
def south(region: Region, north: Clinic) -> Clinic:
    """Another clinic on the same server, in which something is going on."""
    made = region.add("south")
    entry = {"id": str(uuid_utils.uuid7()), "operation": made.eye, "kind": "symptoms", "at": NOW.isoformat()}
    entry |= {"offset_minutes": 60, "sequence": 1, "by": "patient", "body": {"pain": 9, "vomiting": True}}
    phone = region.browser(made.host, {"device": made.token})
    (result,) = json_of(phone.post("/api/v1/events", json={"events": [entry]}))["results"]
    assert result["status"] == "received"
    return made


def json_of(answer: TestResponse) -> dict[str, Any]:
    assert isinstance(answer.json, dict)
    return answer.json


def methods(rule: Rule) -> list[str]:
    return sorted(set(rule.methods or ()) - {"HEAD", "OPTIONS"})


def addresses(app: Flask, clinic: Clinic) -> Iterator[tuple[Rule, str]]:
    """Each route with ids of this clinic."""
    with closing(sqlite3.connect(clinic.database)) as database:
        known = {name: row[0] for name, sql in IDS.items() if (row := database.execute(sql).fetchone())}
    for rule in app.url_map.iter_rules():
        built = rule.build({name: known.get(name, str(uuid_utils.uuid7())) for name in rule.arguments}, False)
        assert built is not None
        yield rule, built[1]


def audit_head(clinic: Clinic) -> tuple[int, str]:
    store = open_store(clinic.database)
    try:
        return audit.head(store)
    finally:
        store.close()


def names_nothing_of(clinic: Clinic, answer: TestResponse) -> bool:
    return not any(
        word in answer.text for word in (clinic.patient, f"clinic {clinic.name}", clinic.eye, f"{clinic.name} nurse")
    )


@pytest.mark.parametrize("role", [*ROLES, PHONE])
def test_who_is_known_in_one_clinic_is_nobody_in_the_other(
    region: Region, app: Flask, north: Clinic, south: Clinic, role: str
) -> None:
    known = region.browser(north.host, {"device": north.token}) if role == PHONE else region.signed_in(north, role)
    home = "/api/v1/pack" if role == PHONE else known.get("/.well-known/change-password").headers["Location"]
    assert known.get(home).status_code == 200
    thief = region.browser(south.host, known.cookies)
    before, tried = audit_head(south), 0
    for rule, path in addresses(app, south):
        route = ROUTES[rule.endpoint]
        for method in methods(rule):
            if ANYBODY in (route.read if method == "GET" else route.write,):
                continue
            answer = thief.open(
                path, method=method, **({"json": {}} if path.startswith("/api/") and method != "GET" else {})
            )
            told = answer.status_code, urlsplit(answer.headers.get("Location", "")).path
            assert told in ((302, "/sign-in"), (401, "")), (method, path, told)
            assert south.patient not in answer.text
            tried += 1
    assert tried > 80
    assert audit_head(south) == before


@pytest.mark.parametrize("role", ROLES)
def test_ids_of_the_other_clinic_are_not_found(region: Region, app: Flask, north: Clinic, south: Clinic, role: str) -> None:
    known = region.signed_in(north, role)
    token = parsed(known.get("/").text).one("input", name="csrf_token").get("value") if role != "administrator" else ""
    before, met = audit_head(south), 0
    for rule, path in addresses(app, south):
        if rule.endpoint in ENDS_SESSIONS or not rule.arguments - {"part", "day", "filename"}:
            continue
        for method in methods(rule):
            more = {"data": {"csrf_token": token}} if method == "POST" and not path.startswith("/api/") else {}
            answer = known.open(path, method=method, **more)
            assert answer.status_code in (400, 401, 403, 404, 409), (method, path, answer.status_code)
            assert names_nothing_of(south, answer), path
            met += answer.status_code == 404
    assert met > (1 if role == "administrator" else 30)
    assert audit_head(south) == before


def test_the_walk_would_notice_ids_that_are_found(region: Region, app: Flask, south: Clinic) -> None:
    known = region.signed_in(south, "nurse")
    found = [path for rule, path in addresses(app, south) if "GET" in methods(rule) and known.get(path).status_code == 200]
    assert sum(south.eye in path for path in found) > 8


def test_a_phone_of_one_is_unknown_and_not_locked_in_the_other(region: Region, north: Clinic, south: Clinic) -> None:
    lost = region.browser(south.host, {"device": north.token})
    entry = {"id": str(uuid_utils.uuid7()), "operation": south.eye, "kind": "symptoms", "at": NOW.isoformat()}
    for answer in (lost.get("/api/v1/pack"), lost.post("/api/v1/events", json={"events": [entry]})):
        assert (answer.status_code, json_of(answer)["locked"]) == (401, False)
    assert region.browser(north.host, {"device": north.token}).get("/api/v1/pack").status_code == 200


def test_codes_and_links_of_one_open_nothing_in_the_other(region: Region, north: Clinic, south: Clinic) -> None:
    visitor = region.browser(south.host)
    token = parsed(visitor.get("/enrol").text).one("input", name="csrf_token").get("value")
    form = {"code": north.code, "birth_year": "1952", "used_by": "patient", "csrf_token": token}
    assert visitor.post("/enrol", data=form).status_code == 403
    phone = region.browser(north.host, {"device": north.token})
    feed = urlsplit(phone.get("/me/calendar").headers["Location"]).path
    assert region.browser(north.host).get(feed).status_code == 200
    assert region.browser(south.host).get(feed).status_code == 404
    store = open_store(north.database)
    row = store.row("SELECT id FROM staff WHERE email = :email", {"email": north.email("nurse")})
    assert row is not None
    link = f"/sign-in/new-password/{resetting.token(store, NOW, row['id'])}"
    store.close()
    assert region.browser(north.host).get(link).status_code == 200
    assert region.browser(south.host).get(link).status_code >= 400


def test_what_is_sealed_for_one_is_not_opened_by_the_other(region: Region, north: Clinic, south: Clinic) -> None:
    keys = {}
    for clinic in (north, south):
        store = open_store(clinic.database)
        keys[clinic.name] = sealing.public_key(store)
        store.close()
    sheet = json_of(region.signed_in(north, "nurse").get("/api/v1/clinic/daysheet"))
    entry = {"id": str(uuid_utils.uuid7()), "operation": north.eye, "kind": "measures", "at": NOW.isoformat()}
    entry |= {"offset_minutes": 60, "sequence": 1, "body": {"eye": "right", "iop": "15", "instrument": "applanation"}}
    packet = {"author_pass": sheet["author_pass"], "events": [entry]}

    def delivered(key: str, clinic: Clinic) -> dict[str, Any]:
        sent = {"sealed": [seal(keys[key], packet)]}
        return json_of(region.browser(clinic.host).post("/api/v1/clinic/entries", json=sent))["packets"][0]

    foreign = delivered("north", south)
    assert (foreign["results"], bool(foreign["error"])) == ([], True)
    assert [result["status"] for result in delivered("south", south)["results"]] == ["refused"]
    assert [result["status"] for result in delivered("north", north)["results"]] == ["received"]


def test_keys_for_pushes_are_each_clinic_s_own(region: Region, north: Clinic, south: Clinic) -> None:
    keys = {
        str(json_of(region.browser(clinic.host, {"device": clinic.token}).get("/api/v1/messages"))["push_key"])
        for clinic in (north, south)
    }
    assert len(keys) == 2


def test_what_the_process_keeps_is_no_clinic_s(region: Region, north: Clinic, south: Clinic) -> None:
    """Pages, manifests, packs and workers asked for in turn and at once: each says its own name and number only."""
    paths = ("/", "/sign-in", "/me/", "/me/later", "/manifest.webmanifest", "/api/v1/pack", "/health", "/enrol", "/nothing")

    def said(clinic: Clinic, other: Clinic) -> None:
        phone = region.browser(clinic.host, {"device": clinic.token})
        for path in paths:
            answer = phone.get(path)
            assert names_nothing_of(other, answer), path
            assert f"clinic {other.name}" not in answer.text
        assert f"clinic {clinic.name}" in phone.get("/sign-in").text
        assert clinic.patient in phone.get("/api/v1/pack").text or clinic.eye in phone.get("/api/v1/pack").text

    with ThreadPoolExecutor(4) as pool:
        for asked in [pool.submit(said, *pair) for pair in [(north, south), (south, north)] * 4]:
            asked.result()
    versions = {region.browser(clinic.host).get("/sw.js").text.partition("\n")[0] for clinic in (north, south)}
    assert len(versions) == 2  # else a phone would keep its shell when its clinic's number changes


@pytest.mark.parametrize(
    "host",
    ["", "elsewhere.invalid", "clinics.invalid", "north.clinics.invalid.evil", "evil-north.clinics.invalid", "[::1", "*"],
)
def test_a_host_that_nobody_has_is_told_nothing(region: Region, north: Clinic, south: Clinic, host: str) -> None:
    for path in ("/", "/sign-in", "/health", "/static/base.css", "/api/v1/pack"):
        answer = Browser(region.doors, "x.invalid").get(path, headers={"Host": host})
        assert (answer.status_code, answer.text) == (421, "There is no such page here.\n"), path
    assert region.doors.open <= {"south"}


@pytest.mark.parametrize("host", ["NORTH.clinics.invalid", "north.clinics.invalid.", "north.clinics.invalid:8443"])
def test_a_host_is_the_same_however_it_is_written(region: Region, north: Clinic, host: str) -> None:
    answer = Browser(region.doors, "x.invalid").get("/sign-in", headers={"Host": host})
    assert (answer.status_code, "clinic north" in answer.text) == (200, True)


def test_each_line_of_the_log_says_which_clinic_it_is_about_and_nothing_of_another(
    region: Region, north: Clinic, south: Clinic
) -> None:
    written = io.StringIO()
    handler = logs.to_stderr(written)
    try:
        for clinic in (north, south, north):
            region.browser(clinic.host).get("/health")
    finally:
        logging.getLogger().removeHandler(handler)
    lines = [json.loads(line) for line in written.getvalue().splitlines()]
    assert [line["clinic"] for line in lines if line["event"] == "request"] == ["north", "south", "north"]
    assert not any("south" in json.dumps(line) for line in lines if line["clinic"] == "north")
