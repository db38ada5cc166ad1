"""The phone's interface: pack, events, enrolment, service worker, calendar, OpenAPI."""

import gzip
import json
import re
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from urllib.parse import urljoin

import brotli
import pytest
import vobject
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import sealing
from followup.care.visits import book
from followup.config import Settings
from followup.records import Store, events, visits
from followup.records.store import new_id
from followup.records.values import Device
from tests.conftest import NOW
from tests.pages import parsed
from tests.sealed import seal


def event(eye_id: str, **changes: object) -> dict[str, object]:
    usual: dict[str, object] = {
        "id": new_id(),
        "operation": eye_id,
        "kind": "symptoms",
        "at": NOW.isoformat(),
        "offset_minutes": 60,
        "sequence": 1,
        "body": {"pain": 1},
    }
    return {**usual, **changes}


def test_the_shell_names_every_module_it_stands_on_and_no_other(client: FlaskClient) -> None:
    """A browser that learns of them one from the other waits for the line at each step."""
    named = [link.get("href") for link in parsed(client.get("/me/").text).all("link", rel="modulepreload")]
    needed, coming = set[str](), ["/static/patient/app.js"]
    while coming:
        address = coming.pop()
        if address not in needed:
            needed.add(address)
            for module in re.findall(r'from "([^"]+)"', client.get(address).text):
                coming.append(urljoin(address, module))
    assert sorted(named) == sorted(needed)


def test_the_pack_has_all_that_is_needed_offline(as_patient: FlaskClient) -> None:
    pack = as_patient.get("/api/v1/pack").json
    eye = pack["eyes"][0]
    assert (pack["phone"], pack["emergency_phone"], pack["patient"]) == ("+00 1 234", "112", "Pat Patient")
    assert (eye["posture"]["position"], len(eye["posture"]["dates"]), eye["gas"]["agent"]) == ("face-down", 5, "c2f6")
    assert [v["name"] for v in eye["visits"]] == ["day 1", "week 1"]
    heights = [day["meniscus_percent"] for day in eye["bubble"]]
    assert heights == sorted(heights, reverse=True)
    rule = next(r for r in eye["symptom_rules"] if r["id"] == "infection-suspected")
    assert (rule["count"], rule["pain"], rule["answers"]) == (2, 4, ["discharge", "redness=worse", "vision=worse"])


def test_the_pack_is_sent_again_only_when_it_changed(as_patient: FlaskClient, eye_id: str) -> None:
    first = as_patient.get("/api/v1/pack")
    headers = {"If-None-Match": first.headers["ETag"]}
    assert as_patient.get("/api/v1/pack", headers=headers).status_code == 304
    as_patient.post("/api/v1/events", json={"events": [event(eye_id)]})
    assert as_patient.get("/api/v1/pack", headers=headers).status_code == 200


def test_three_states_saved_received_and_looked_at(as_patient: FlaskClient, as_nurse: FlaskClient, eye_id: str) -> None:
    sent = event(eye_id)
    answer = as_patient.post("/api/v1/events", json={"events": [sent]})
    assert answer.json == {"results": [{"id": sent["id"], "status": "received", "reason": None}], "generation": ""}
    receipt = as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"][0]
    assert (receipt["id"], receipt["looked_at"]) == (sent["id"], False)
    as_nurse.get(f"/clinic/eyes/{eye_id}")
    assert as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"][0]["looked_at"]


@pytest.mark.parametrize("sealed", [False, True])
@pytest.mark.parametrize(
    ("changed", "english", "german", "known"),
    [
        ({"operation": "nobody"}, "This entry belongs to another eye.", "gehört zu einem anderen Auge", "another eye"),
        (
            {"at": "2099-01-01T00:00:00Z"},
            "still to come. Check the date on the phone.",
            "Prüfen Sie das Datum am Telefon",
            "still to come",
        ),
        ({"body": {"pain": 99}}, "The clinic could not take this entry.", "Die Klinik konnte diesen Eintrag nicht", "pain"),
        (
            {"kind": "unheard of"},
            "The clinic could not take this entry.",
            "Die Klinik konnte diesen Eintrag nicht",
            "kind: ",
        ),
    ],
    ids=["another eye", "a day to come", "pain 99", "no such kind"],
)
def test_a_refused_entry_says_why_in_the_patients_words_and_language(
    as_patient: FlaskClient,
    store: Store,
    eye_id: str,
    changed: dict[str, Any],
    english: str,
    german: str,
    known: str,
    sealed: bool,
) -> None:
    """Whatever the clinic itself reads about it."""

    def said(language: str) -> str:
        entry = event(eye_id, **changed)
        if sealed:
            sent: dict[str, Any] = {"sealed": [seal(sealing.public_key(store), [entry])]}
        else:
            sent = {"events": [entry]}
        answer = as_patient.post(f"/api/v1/{'sealed' if sealed else 'events'}?language={language}", json=sent)
        (result,) = answer.json["results"]
        assert result["status"] == "refused"
        return str(result["reason"])

    assert english in said("en")
    assert german in said("de")
    assert [known in one.reason for one in events.refused(store)] == [True, True]


@pytest.mark.parametrize(("body", "status"), [({"events": "x"}, 400), ([], 400), ({"events": [{}] * 201}, 413)])
def test_a_batch_of_the_wrong_shape_is_refused_whole(as_patient: FlaskClient, body: object, status: int) -> None:
    assert as_patient.post("/api/v1/events", json=body).status_code == status


def test_enrolling_sets_a_cookie_no_script_can_read(app: Flask, discharged: tuple[str, str]) -> None:
    phone = app.test_client()
    assert discharged[1] in phone.get(f"/enrol?code={discharged[1]}").text
    wrong = phone.post("/enrol", data={"code": discharged[1], "birth_year": "1951", "used_by": "patient"})
    assert wrong.status_code == 403
    assert "year of birth does not fit" in wrong.text
    assert f'value="{discharged[1]}"' in wrong.text
    short = phone.post("/enrol", data={"code": discharged[1], "birth_year": "52", "used_by": "patient"})
    assert short.status_code == 400
    right = phone.post("/enrol", data={"code": discharged[1], "birth_year": "1952", "used_by": "patient"})
    assert right.status_code == 303
    cookie = right.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    used = app.test_client().post("/enrol", data={"code": discharged[1], "birth_year": "1952", "used_by": "patient"})
    assert (used.status_code, "has been used" in used.text) == (403, True)


def test_set_up_tapped_twice_in_one_browser_sets_the_phone_up(app: Flask, discharged: tuple[str, str]) -> None:
    phone, typed = app.test_client(), {"code": discharged[1], "birth_year": "1952", "used_by": "patient"}
    phone.get("/enrol")
    first = phone.post("/enrol", data=typed)
    phone.delete_cookie("device")  # the answer was lost on its way
    again = phone.post("/enrol", data=typed)
    assert (first.status_code, again.status_code) == (303, 303)
    assert again.headers["Set-Cookie"] == first.headers["Set-Cookie"]
    assert phone.get("/api/v1/pack").status_code == 200
    other = app.test_client()
    other.get("/enrol")
    assert other.post("/enrol", data=typed).status_code == 403
    assert other.get("/api/v1/known").json == {"set_up": False}


def test_everything_the_worker_keeps_can_be_fetched(client: FlaskClient) -> None:
    code = client.get("/sw.js").text
    kept = re.search(r'"assets": \[(.*?)\]', code)
    assert kept
    addresses = re.findall(r'"([^"]+)"', kept[1])
    assert len(addresses) > 12
    for address in addresses:
        assert client.get(address).status_code == 200, address


def test_what_the_worker_keeps_later_can_be_fetched_and_imports_only_what_is_kept(client: FlaskClient) -> None:
    code = client.get("/sw.js").text
    later = re.search(r'"later": \[(.*?)\]', code)
    assert later
    addresses = re.findall(r'"([^"]+)"', later[1])
    assert "/static/patient/later/pages.js" in addresses
    imported = set[str]()
    for address in addresses:
        answer = client.get(address)
        assert answer.status_code == 200, address
        imported |= {urljoin(address, name) for name in re.findall(r'from "(\.\.?/[a-z-]+\.js)"', answer.text)}
    assert len(imported) > 5
    assert {name for name in imported if f'"{name}"' not in code} == set()


@pytest.mark.parametrize("path", ["/me/?language=de", "/me/later?language=de"])
def test_a_page_that_phones_keep_goes_over_the_line_again_only_when_it_changed(client: FlaskClient, path: str) -> None:
    first = client.get(path, headers={"Accept-Encoding": "gzip"})
    mark = {"Accept-Encoding": "gzip", "If-None-Match": first.headers["ETag"]}
    assert (first.status_code, client.get(path, headers=mark).status_code) == (200, 304)
    assert client.get(path.replace("de", "ar"), headers=mark).status_code == 200


def test_every_module_a_kept_script_imports_is_kept(client: FlaskClient) -> None:
    code = client.get("/sw.js").text
    imported = set[str]()
    for script in re.findall(r'"(/static/patient/[a-z-]+\.js)"', code):
        imported |= {urljoin(script, name) for name in re.findall(r'from "(\./[a-z-]+\.js)"', client.get(script).text)}
    assert len(imported) > 5
    assert {name for name in imported if f'"{name}"' not in code} == set()


def test_the_calendar_is_standard_tells_nothing_clinical_and_ends_with_the_phone(
    as_patient: FlaskClient, client: FlaskClient, as_nurse: FlaskClient, device: Device
) -> None:
    # Read by another library than wrote it (RFC 5545). A calendar program has no cookie: the address is enough.
    feed = as_patient.get("/me/calendar").headers["Location"]
    assert feed.startswith("webcal://")
    path = feed[feed.index("/calendar/") :]
    answer = client.get(path)
    (event,) = vobject.readOne(answer.text).vevent_list
    assert event.dtstart.value.isoformat() == "2027-03-10"
    assert event.valarm.trigger.value == timedelta(hours=-15)
    assert "retina" not in answer.text
    as_nurse.post(f"/clinic/devices/{device.id}/revoke")
    assert client.get(path).status_code == 404


def test_a_time_that_the_clinic_keeps_is_in_the_pack_the_calendar_and_on_the_card(
    as_patient: FlaskClient, as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    desk = Desk(store, NOW, nurse, settings.clinic.tz)
    book.move(desk, settings.clinic, week.identity, date(2027, 3, 11), starts=time(9, 40))
    (eye,) = as_patient.get("/api/v1/pack").json["eyes"]
    assert {v["name"]: v["starts"] for v in eye["visits"]} == {"day 1": None, "week 1": "09:40"}
    assert [v["starts_at"] for v in eye["visits"]] == [None, "2027-03-11T08:40:00Z"]
    feed = as_patient.get("/me/calendar").headers["Location"]
    (event,) = vobject.readOne(as_patient.get(feed[feed.index("/calendar/") :]).text).vevent_list
    assert event.dtstart.value == datetime(2027, 3, 11, 8, 40, tzinfo=UTC)  # Vienna is UTC+1 then
    assert event.uid.value == f"{week.identity}@followup"  # one entry in the calendar, wherever it moves
    assert event.valarm.trigger.value == timedelta(hours=-24, minutes=-40)  # at nine on the day before
    assert "Thu 11 Mar 2027, 09:40" in as_nurse.get(f"/clinic/eyes/{eye_id}/card").text


def test_a_wish_for_another_time_stays_in_the_pack_until_it_is_answered(
    as_patient: FlaskClient, store: Store, nurse: Actor, settings: Settings, eye_id: str
) -> None:
    def wishes() -> list[dict[str, str] | None]:
        return [v["wish"] for v in as_patient.get("/api/v1/pack").json["eyes"][0]["visits"]]

    assert wishes() == [None, None]
    asked = event(eye_id, kind="visit-request", body={"visit": "week 1", "words": "a Friday"})
    as_patient.post("/api/v1/events", json={"events": [asked]})
    assert wishes() == [None, {"at": "2027-03-05T10:00:00Z", "words": "a Friday"}]
    week = visits.of_eye(store, eye_id)[1]
    book.move(
        Desk(store, NOW + timedelta(hours=1), nurse, settings.clinic.tz), settings.clinic, week.identity, date(2027, 3, 12)
    )
    assert wishes() == [None, None]


def test_the_shell_shows_the_numbers_to_call_to_anybody(client: FlaskClient) -> None:
    shell = client.get("/me/").text
    assert "Nobody watches this round the clock" in shell
    assert "+00 1 234" in shell
    assert "112" in shell


def test_times_are_stored_in_utc_and_shown_in_the_clinics_zone(
    as_patient: FlaskClient, as_nurse: FlaskClient, eye_id: str
) -> None:
    summer = datetime(2027, 3, 4, 20, 30, tzinfo=UTC)
    as_patient.post("/api/v1/events", json={"events": [event(eye_id, at=summer.isoformat())]})
    assert "Thu 4 Mar, 21:30" in as_nurse.get(f"/clinic/eyes/{eye_id}").text


def test_batches_may_come_gzipped_and_answers_go_out_as_small_as_is_asked_for(as_patient: FlaskClient, eye_id: str) -> None:
    packed = gzip.compress(json.dumps({"events": [event(eye_id)]}).encode())
    headers = {"Content-Encoding": "gzip", "Content-Type": "application/json", "Accept-Encoding": "gzip"}
    answer = as_patient.post("/api/v1/events", data=packed, headers=headers)
    assert answer.status_code == 200
    for accepted, unpack in (("gzip", gzip.decompress), ("gzip, br", brotli.decompress)):
        pack = as_patient.get("/api/v1/pack", headers={"Accept-Encoding": accepted})
        assert pack.headers["Content-Encoding"] == accepted.split(", ")[-1]
        assert json.loads(unpack(pack.data))["patient"] == "Pat Patient"


# Named, because a gzip header holds the time: two test processes would name the cases differently.
@pytest.mark.parametrize(
    "data",
    [b"no gzip", gzip.compress(b'{"events": []' + b" " * 5_000_000 + b"}"), gzip.compress(b"no json")],
    ids=["not gzip", "too large", "not JSON"],
)
def test_a_gzipped_body_that_cannot_be_is_refused(as_patient: FlaskClient, data: bytes) -> None:
    assert (
        as_patient.post(
            "/api/v1/events", data=data, headers={"Content-Encoding": "gzip"}, content_type="application/json"
        ).status_code
        == 400
    )


def test_a_helper_s_name_that_is_no_text_is_refused(as_patient: FlaskClient) -> None:
    """Half of a pair of UTF-16: JSON can say it, and nothing can keep it."""
    refused = as_patient.post("/api/v1/helpers", json={"name": "ok \udfff"})
    assert (refused.status_code, "name of your helper" in refused.text) == (403, True)
