"""What a clinic device fetches and sends: only staff get the sheet; entries are taken once, from whoever made them."""

import base64
import json
from datetime import UTC, datetime, timedelta
from threading import BoundedSemaphore
from typing import Any
from unittest.mock import Mock

import pytest
import time_machine
import uuid_utils
from flask.testing import FlaskClient

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.home import sealing
from followup.care.home.senders import UNKNOWN
from followup.records import Store, events, keys, watch
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Device, saying
from followup.web.clinic import device_api
from tests.conftest import NOW, Clock
from tests.pages import parsed
from tests.sealed import seal


def packed(store: Store, author_pass: str, events: list[dict[str, Any]]) -> dict[str, str]:
    return seal(sealing.public_key(store), {"author_pass": author_pass, "events": events})


def entry(operation: str, kind: str, at: datetime = NOW, sequence: int = 1, **body: Any) -> dict[str, Any]:
    made = {"id": str(uuid_utils.uuid7()), "operation": operation, "kind": kind, "body": body}
    return {**made, "at": at.isoformat(), "offset_minutes": 60, "sequence": sequence}


def send(client: FlaskClient, *packets: dict[str, str], sent_at: datetime = NOW) -> list[dict[str, Any]]:
    answer = client.post("/api/v1/clinic/entries", json={"sent_at": sent_at.isoformat(), "sealed": list(packets)})
    assert answer.status_code == 200, answer.json
    assert answer.json is not None
    return list(answer.json["packets"])


@pytest.fixture
def author_pass(as_nurse: FlaskClient) -> str:
    answer = as_nurse.get("/api/v1/clinic/daysheet").json
    assert answer is not None
    return str(answer["author_pass"])


def test_the_sheet_is_for_whoever_is_signed_in(client: FlaskClient, as_nurse: FlaskClient, eye_id: str) -> None:
    assert client.get("/api/v1/clinic/daysheet").status_code == 401
    sheet = as_nurse.get("/api/v1/clinic/daysheet").json
    assert sheet is not None
    assert (sheet["staff"], sheet["expires_at"]) == ("Nora Nurse", "2027-03-06T00:00:00+01:00")  # midnight in Vienna
    (eye,) = sheet["eyes"]
    # On 5 March no window holds today: day 1 is over, week 1 begins on the 8th.
    assert (eye["patient"], eye["eye"], eye["visit"], eye["right"]) == ("Pat Patient", "right", "", None)
    assert [(v["name"], v["earliest"], v["latest"]) for v in eye["visits"]] == [
        ("day 1", "2027-03-03", "2027-03-03"),
        ("week 1", "2027-03-08", "2027-03-14"),
    ]
    # Week 1 comes within the week: the device lists it by the eye's visits.
    assert [(row["visit"], row["visit_id"], row["state"]) for row in sheet["rows"]] == [
        ("day 1", eye["visits"][0]["id"], "missed")
    ]
    assert sheet["limits"]["high_from"] == 30
    assert sheet["limits"]["low_at_most"] == 5


def test_the_sheet_proposes_the_visit_for_which_somebody_arrived(as_nurse: FlaskClient, eye_id: str) -> None:
    """Week 1 is not due yet; its patient is here for it all the same."""
    before = as_nurse.get("/api/v1/clinic/daysheet").json
    assert before is not None
    (week,) = [visit["id"] for visit in before["eyes"][0]["visits"] if visit["name"] == "week 1"]
    as_nurse.post(f"/clinic/eyes/{eye_id}/arrived", data={"visit_id": week})
    sheet = as_nurse.get("/api/v1/clinic/daysheet").json
    assert sheet is not None
    assert sheet["eyes"][0]["visit"] == week


def test_an_entry_is_kept_once_with_its_author_and_says_what_it_raised(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, author_pass: str
) -> None:
    entries = [entry(eye_id, "measures", eye="right", acuity="6/60", iop="4.8 kPa", instrument="applanation")]
    entries += [entry(eye_id, "seen", visit="week 1"), entry(eye_id, "no-gas-seen")]
    packet = packed(store, author_pass, entries)
    (answer,) = send(as_nurse, packet)
    one_by_one = ["received", "received", "refused"]  # a surgeon records that no gas was seen
    assert [r["status"] for r in answer["results"]] == one_by_one
    assert "a surgeon records" in answer["results"][2]["reason"]
    assert "Pressure 36 mmHg, at or above 30." in [w["words"] for w in answer["raised"]]
    (again,) = send(as_nurse, packet)
    assert [r["status"] for r in again["results"]] == one_by_one
    kept = events.of_eye(store, eye_id)
    assert [e.kind for e in kept] == ["measures", "seen"]
    assert {e.author for e in kept} == {nurse.signature}
    assert kept[0].body.iop_mmhg == 36.0  # 4.8 kPa at 7.50062 mmHg a kPa (SI brochure)


def test_what_a_device_kept_beyond_numbers_arrives_and_calls(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str
) -> None:
    typed = {
        "acuity": "60",
        "pinhole": "12",
        "notation": "6/",
        "correction": "unaided",
        "finger": "hard",
        "findings": ["attached"],
    }
    (answer,) = send(as_nurse, packed(store, author_pass, [entry(eye_id, "measures", eye="right", **typed)]))
    assert {"how_soon": "now", "words": "The eye feels hard: measure the pressure, and tell the surgeon."} in answer[
        "raised"
    ]
    ((_, body),) = saying(events.of_eye(store, eye_id), MeasuresBody)
    assert (body.acuity, body.pinhole, body.finger, body.findings) == ("6/60", "6/12", "hard", ("attached",))


def test_after_signing_out_it_is_taken_but_nothing_is_told(
    client: FlaskClient, store: Store, nurse: Actor, eye_id: str, author_pass: str
) -> None:
    packet = packed(store, author_pass, [entry(eye_id, "measures", eye="right", iop="36")])
    (answer,) = send(client, packet)
    assert answer.keys() == {"results"}
    assert events.of_eye(store, eye_id)[0].author == nurse.signature


@pytest.mark.parametrize(
    ("kind", "body", "reason"),
    [
        ("measures", {"eye": "right", "acuity": "6/0"}, "6/0"),
        ("measures", {"eye": "right", "iop": "310"}, "310"),
        ("measures", {"eye": "right", "pain": "11"}, "pain"),
        ("measures", {"eye": "right", "bubble_percent": "lots"}, "is not a number"),
        ("measures", {"eye": "right"}, "nothing was measured"),
        ("measures", {"eye": "third", "iop": "12"}, "eye"),
        ("symptoms", {"pain": 3}, "kind"),
    ],
)
def test_what_cannot_be_is_refused_in_words_and_kept_as_it_came(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str, kind: str, body: dict[str, Any], reason: str
) -> None:
    good = entry(eye_id, "measures", eye="left", iop="14")
    entries = [entry(eye_id, kind, **body), good]
    (answer,) = send(as_nurse, packed(store, author_pass, entries))
    assert [r["status"] for r in answer["results"]] == ["refused", "received"]
    assert reason in answer["results"][0]["reason"]
    (kept,) = events.refused(store)
    assert json.loads(kept.text)["body"] == body
    told = not_taken(as_nurse)
    assert told.startswith("Nora Nurse ")
    assert reason in told


def not_taken(client: FlaskClient) -> str:
    """What Today says of the one entry that was refused."""
    (section,) = (one for one in parsed(client.get("/clinic/").text).all("section") if "could not be taken" in one.words)
    return section.one("li").words


@pytest.mark.parametrize(
    ("carer", "who"),
    [
        ({}, "Pat Patient (T-1)"),
        ({"used_by": "carer"}, "the carer of Pat Patient (T-1)"),
        ({"used_by": "carer", "carer_name": "Cay"}, "the carer Cay of Pat Patient (T-1)"),
    ],
)
def test_whoever_is_to_be_asked_about_a_refused_entry_is_named(
    as_nurse: FlaskClient, store: Store, device: Device, carer: dict[str, str], who: str
) -> None:
    for column, value in carer.items():
        store.execute(f"UPDATE devices SET {column} = :value", {"value": value})
    events.refuse(store, NOW, "x", None, device.id, "{}", "too late")
    told = not_taken(as_nurse)
    assert told.startswith(who)
    assert "too late" in told
    assert told.endswith("+00 9 876")


def test_an_entry_of_somebody_unknown_says_so(as_nurse: FlaskClient, store: Store) -> None:
    events.refuse(store, NOW, "x", None, UNKNOWN.id, "{}", "forged")
    assert not_taken(as_nurse).startswith("somebody whom the clinic cannot tell ")


def test_a_pattern_that_does_not_fit_is_said_without_it(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str
) -> None:
    (answer,) = send(
        as_nurse, packed(store, author_pass, [{**entry(eye_id, "measures", eye="left", iop="14"), "id": "mine"}])
    )
    assert answer["results"][0]["reason"] == "id: it is not written as it has to be"


def test_a_pass_that_is_forged_or_old_is_refused_and_the_entry_kept(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str
) -> None:
    entries = [entry(eye_id, "measures", eye="right", iop="21")]
    forged = packed(store, author_pass[:-9] + author_pass[-9:].swapcase(), entries)
    (answer,) = send(as_nurse, forged)
    assert answer["results"][0]["status"] == "refused"
    later = datetime.now().astimezone() + timedelta(days=15)
    with time_machine.travel(later, tick=True):
        (answer,) = send(as_nurse, packed(store, author_pass, entries))
    assert answer["results"][0]["status"] == "refused"
    assert events.of_eye(store, eye_id) == []
    assert len(events.refused(store)) == 2


def test_junk_from_one_address_is_soon_not_heard_and_never_fills_the_list(
    client: FlaskClient, as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str, clock: Clock
) -> None:
    forged = packed(store, author_pass[:-9] + author_pass[-9:].swapcase(), [entry(eye_id, "seen")] * 50)
    unreadable = {**forged, "data": base64.b64encode(b"x" * 40).decode()}
    good = packed(store, author_pass, [entry(eye_id, "measures", eye="right", iop="21")])
    for packet in (forged, unreadable):
        assert len(send(client, *[packet] * 10)) == 10
    assert len(events.refused(store)) == 2  # each once
    stopped = client.post("/api/v1/clinic/entries", json={"sealed": [good]})
    assert (stopped.status_code, events.of_eye(store, eye_id)) == (429, [])
    elsewhere = client.post("/api/v1/clinic/entries", json={"sealed": [good]}, environ_base={"REMOTE_ADDR": "198.51.100.7"})
    assert elsewhere.status_code == 200
    assert send(as_nurse, good)[0]["results"][0]["status"] == "received"  # whoever is signed in is heard
    clock.pass_(hours=1, minutes=1)
    assert client.post("/api/v1/clinic/entries", json={"sealed": []}).status_code == 200


def test_a_pass_that_ran_out_is_no_junk(client: FlaskClient, store: Store, eye_id: str, author_pass: str) -> None:
    packet = packed(store, author_pass, [entry(eye_id, "seen")])
    with time_machine.travel(datetime.now().astimezone() + timedelta(days=15), tick=True):
        for _ in range(2):
            assert len(send(client, *[packet] * 20)) == 20


def test_few_packets_are_opened_at_once_and_pages_go_on(
    client: FlaskClient, as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    busy = BoundedSemaphore(1)
    busy.acquire()
    monkeypatch.setattr(device_api, "_opening", busy)
    answer = client.post("/api/v1/clinic/entries", json={"sealed": []})
    assert (answer.status_code, answer.headers["Retry-After"]) == (503, "5")
    assert as_nurse.get("/clinic/").status_code == 200
    busy.release()
    assert client.post("/api/v1/clinic/entries", json={"sealed": []}).status_code == 200


def test_the_clinic_s_key_is_read_once(store: Store, author_pass: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Reading it tests its numbers, which takes many times as long as opening a packet."""
    sealing._read.cache_clear()
    read = Mock(wraps=sealing.serialization.load_pem_private_key)
    monkeypatch.setattr(sealing.serialization, "load_pem_private_key", read)
    for _ in range(3):
        sealing.opened(store, sealing.Sealed.model_validate(packed(store, author_pass, [])))
    assert read.call_count == 1


def test_a_packet_for_another_clinic_and_a_body_that_is_none_are_said_to_be_so(
    as_nurse: FlaskClient, store: Store, author_pass: str
) -> None:
    packet = packed(store, author_pass, [])
    broken = {**packet, "data": base64.b64encode(b"x" * 40).decode()}
    (answer,) = send(as_nurse, broken)
    assert (answer["results"], "nobody here can read it" in answer["error"]) == ([], True)
    assert as_nurse.post("/api/v1/clinic/entries", data=b"?", content_type="application/json").status_code == 400


@pytest.mark.parametrize("leaked", [False, True])
@pytest.mark.parametrize("signed_in", [False, True])
def test_what_was_sealed_with_a_key_of_before_is_kept_and_named(
    client: FlaskClient,
    as_nurse: FlaskClient,
    store: Store,
    eye_id: str,
    author_pass: str,
    nurse: Actor,
    signed_in: bool,
    leaked: bool,
) -> None:
    """The device forgets what was refused once its author's day is over, so the clinic keeps it."""
    old = packed(store, author_pass, [entry(eye_id, "measures", eye="right", iop="34")])
    former, now = keys.key(store, "sealing_key", sealing.new_key), datetime.now(UTC)
    keys.rotate(store, now - timedelta(days=1), {"sealing_key": sealing.new_key()}, leaked=leaked)  # fifteen days ago
    good = packed(store, author_pass, [entry(eye_id, "measures", eye="right", iop="21")])
    refused, taken = send(as_nurse if signed_in else client, old, good)
    assert "sealed with a key that the clinic no longer has" in refused["error"]
    assert [one["status"] for one in taken["results"]] == ["received"]
    (kept,) = events.refused(store)
    assert kept.device_id == (nurse.signature if signed_in else UNKNOWN.id)
    assert [(f.what, f.about) for f in watch.faults(store)] == ([("sealed", f"staff:{nurse.id}")] if signed_in else [])
    assert "from a clinic device was sealed with a key" in as_nurse.get("/clinic/").text
    (page,) = parsed(as_nurse.get("/not-working").text).all("main")
    assert ("Nora Nurse" in page.words) == signed_in
    keys.rotate(store, now, {"sealing_key": former}, leaked=True)
    assert "34" in str(sealing.opened(store, sealing.Sealed.model_validate_json(kept.text)))


def test_what_nobody_can_open_and_no_entry_would_take_is_kept_by_whoever_sent_it(
    client: FlaskClient, as_nurse: FlaskClient, store: Store, author_pass: str
) -> None:
    """Else anybody could fill the disk. A device takes an answer without results and fault for none."""
    packet = packed(store, author_pass, [])
    packet["data"] = base64.b64encode(b"x" * 50_001).decode()
    assert send(client, packet) == [{"results": [], "error": None}]
    assert events.refused(store) == []
    assert send(as_nurse, packet)[0]["error"]
    assert len(events.refused(store)[0].text) > 50_001


def test_a_device_whose_clock_is_off_is_put_right(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str
) -> None:
    wrong = NOW - timedelta(hours=5)
    entries = [entry(eye_id, "measures", at=wrong - timedelta(minutes=10), eye="right", iop="21")]
    send(as_nurse, packed(store, author_pass, entries), sent_at=wrong)
    (kept,) = events.of_eye(store, eye_id)
    assert kept.at == NOW - timedelta(minutes=10)


@pytest.mark.parametrize("sent_at", ["2027-03-05T10:00:00", "0001-01-01T00:00:00+14:00", "soon", None, 7])
def test_a_clock_that_says_nothing_counts_as_absent(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str, sent_at: Any
) -> None:
    packet = packed(store, author_pass, [entry(eye_id, "measures", eye="right", iop="21")])
    answer = as_nurse.post("/api/v1/clinic/entries", json={"sent_at": sent_at, "sealed": [packet]})
    assert answer.json is not None
    assert [r["status"] for r in answer.json["packets"][0]["results"]] == ["received"]


@pytest.mark.parametrize(
    "poison",
    [{"operation": "\ud800"}, {"sequence": 2**63}, {"at": "0001-01-01T00:00:00+14:00"}, {"body": {"iop": "\udfff"}}],
)
def test_a_poison_entry_in_a_packet_is_refused_alone(
    as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str, poison: dict[str, Any]
) -> None:
    entries = [entry(eye_id, "measures", eye="right", iop=iop) for iop in ("21", "22", "23")]
    (packet,) = send(as_nurse, packed(store, author_pass, [entries[0], {**entries[1], **poison}, entries[2]]))
    assert [r["status"] for r in packet["results"]] == ["received", "refused", "received"]
    assert len(events.refused(store)) == 1


def test_two_people_who_differ_are_told_and_both_entries_stand(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, author_pass: str
) -> None:
    second = as_surgeon.get("/api/v1/clinic/daysheet").json
    assert second is not None
    for client, mark, iop in ((as_nurse, author_pass, "21"), (as_surgeon, second["author_pass"], "27")):
        entries = [entry(eye_id, "measures", eye="right", iop=iop, bubble_percent="60")]
        (answer,) = send(client, packed(store, mark, entries))
    assert answer["differing"] == [
        {
            "eye": "right",
            "what": "pressure",
            "readings": [{"who": "Nora Nurse", "words": "21 mmHg"}, {"who": "Sol Surgeon", "words": "27 mmHg"}],
        }
    ]
    assert [e.body.iop_mmhg for e in events.of_eye(store, eye_id)] == [21, 27]
    page = as_nurse.get(f"/clinic/eyes/{eye_id}").data.decode()
    assert "Two people measured differently" in page


def test_one_person_who_measures_twice_repeats(as_nurse: FlaskClient, store: Store, eye_id: str, author_pass: str) -> None:
    for iop in ("21", "27"):
        entries = [entry(eye_id, "measures", eye="right", iop=iop)]
        (answer,) = send(as_nurse, packed(store, author_pass, entries))
    assert answer["differing"] == []


def test_the_page_for_work_without_a_signal_names_nobody(as_nurse: FlaskClient, eye_id: str) -> None:
    page = as_nurse.get("/clinic/without-signal").data.decode()
    for name in ("Nora", "Pat Patient", eye_id):
        assert name not in page


def test_an_account_that_was_closed_makes_no_entries(
    client: FlaskClient, store: Store, nurse: Actor, eye_id: str, author_pass: str
) -> None:
    store.execute("UPDATE staff SET left_at = '2027-03-05T00:00:00.000000Z' WHERE id = :id", {"id": nurse.id})
    assert accounts.actor(store, nurse.id) is None
    (answer,) = send(client, packed(store, author_pass, [entry(eye_id, "seen", visit="week 1")]))
    assert "has no account here any more" in answer["results"][0]["reason"]


def test_leaving_ends_the_session(as_nurse: FlaskClient) -> None:
    assert as_nurse.post("/api/v1/clinic/leave").status_code == 204
    assert as_nurse.get("/api/v1/clinic/daysheet").status_code == 401
    assert as_nurse.get("/clinic/").status_code == 302
