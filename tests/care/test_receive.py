"""Taking what phones send: once, whole, and never held up by a bad one."""

from datetime import timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import NotFound
from followup.care.home import enrol, receive
from followup.care.reading.eye import load
from followup.care.visits.visit import record_clinic_event
from followup.config import Settings
from followup.records import Store, events, worries
from followup.records.store import new_id
from followup.records.values import Device
from followup.web.catalogue import texts
from tests.conftest import NOW, ZONE, operation_note, patient_details


def event(eye_id: str, kind: str = "symptoms", **changes: Any) -> dict[str, Any]:
    body = {"pain": 1, "vision": "same"}
    usual = {
        "id": new_id(),
        "operation": eye_id,
        "kind": kind,
        "at": NOW.isoformat(),
        "offset_minutes": 60,
        "sequence": 1,
        "by": "patient",
        "body": body,
    }
    return {**usual, **changes}


@pytest.fixture
def send(store: Store, device: Device, settings: Settings) -> Any:
    def sending(*events: Any, now: Any = NOW) -> list[receive.Result]:
        return receive.receive(store, now, device, events, settings.clinic.tz)

    return sending


def test_a_dangerous_check_raises_a_warning_and_a_callback_at_once(send: Any, store: Store, eye_id: str) -> None:
    results = send(event(eye_id, body={"pain": 8, "vision": "worse", "redness": "worse"}))
    assert [r.status for r in results] == ["received"]
    opened = {(c.worry, c.how_soon) for c in worries.open_callbacks(store)}
    assert ("infection", "now") in opened


def test_the_same_id_twice_changes_nothing_and_is_acknowledged_again(send: Any, store: Store, eye_id: str) -> None:
    made = event(eye_id, body={"pain": 8})
    first = send(made)
    callbacks = worries.open_callbacks(store)
    again = send(made, made)
    assert [r.status for r in (*first, *again)] == ["received"] * 3
    assert len(events.of_eye(store, eye_id)) == 1
    assert worries.open_callbacks(store) == callbacks


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"id": "not-a-uuid"}, "id"),
        ({"kind": "wish"}, "kind"),
        ({"body": {"pain": 44}}, "pain"),
        ({"body": {"mood": "bad"}}, "mood"),
        ({"at": "2027-03-05T10:00:00"}, "offset"),
        ({"operation": "somebody-elses"}, "another eye"),
        ({"at": "2029-01-01T00:00:00Z"}, "still to come"),
        (
            {
                "kind": "posture",
                "body": {"position": "face-down", "from": "2027-03-05T09:00:00Z", "to": "2027-03-05T08:00:00Z"},
            },
            "before its start",
        ),
        ({"kind": "withdrawal", "body": {}}, "not known"),
        ({"corrects": new_id()}, "not known"),
        ({"kind": "measures"}, "kind"),
    ],
)
def test_one_bad_event_never_holds_up_the_others(
    send: Any, store: Store, eye_id: str, changes: dict[str, Any], says: str
) -> None:
    results = send(event(eye_id), event(eye_id, **changes), event(eye_id))
    assert [r.status for r in results] == ["received", "refused", "received"]
    assert results[1].reason in texts(), "the phone has no words for it in the patient's language"
    kept = events.refused(store)
    assert [says in r.reason for r in kept] == [True]
    assert len(events.of_eye(store, eye_id)) == 2


@pytest.mark.parametrize("raw", [None, 7, "text", [], {}])
def test_what_is_no_event_at_all_is_refused_and_kept(send: Any, store: Store, raw: Any) -> None:
    assert send(raw)[0].status == "refused"
    assert len(events.refused(store)) == 1


def test_a_late_entry_is_judged_at_its_own_time(send: Any, store: Store, eye_id: str) -> None:
    made = (NOW - timedelta(hours=30)).isoformat()
    send(event(eye_id, at=made, body={"pain": 8}))
    warning = next(w for w in worries.warnings_of(store, eye_id) if w.rule == "severe-pain")
    assert warning.raised_at.isoformat() == made
    assert warning.recorded_at == NOW


def test_a_correction_points_back_and_the_old_entry_no_longer_stands(send: Any, store: Store, eye_id: str) -> None:
    wrong = event(eye_id, body={"pain": 3})
    right = event(eye_id, body={"pain": 2}, corrects=wrong["id"])
    assert [r.status for r in send(wrong, right)] == ["received", "received"]
    assert [e.id for e in events.of_eye(store, eye_id)] == [right["id"]]


def test_another_phone_cannot_claim_an_id(
    send: Any, store: Store, eye_id: str, device: Device, nurse: Actor, settings: Settings
) -> None:
    made = event(eye_id)
    send(made)
    code = enrol.issue_code(Desk(store, NOW, nurse, ZONE), device.patient_id)
    second = enrol.device(store, enrol.enrol(store, NOW, code, 1952, "carer", "test"))
    assert second is not None
    assert receive.receive(store, NOW, second, [made], settings.clinic.tz)[0].status == "refused"
    assert receive.receive(store, NOW, second, [event(eye_id, by="carer")], settings.clinic.tz)[0].status == "received"


def test_an_entry_for_the_eye_of_somebody_else_is_refused(send: Any, store: Store, nurse: Actor) -> None:
    theirs, _ = leaving.discharge(Desk(store, NOW, nurse, ZONE), patient_details("T-2"), operation_note(), [])
    (result,) = send(event(theirs))
    assert (result.status, result.reason) == ("refused", "This entry belongs to another eye.")
    assert events.of_eye(store, theirs) == []


def test_a_revoked_phone_is_unknown(store: Store, device: Device, token: str, nurse: Actor) -> None:
    enrol.revoke(Desk(store, NOW, nurse, ZONE), device.id)
    found = enrol.device(store, token)
    assert found is not None
    assert found.revoked_at
    with pytest.raises(NotFound):
        enrol.revoke(Desk(store, NOW, nurse, ZONE), device.id)


@pytest.mark.parametrize("how", ["withdrawn", "none after all", "lower"])
def test_taking_back_a_level_lets_no_older_no_gas_seen_count_again(
    send: Any, store: Store, surgeon: Actor, eye_id: str, settings: Settings, how: str
) -> None:
    """Whoever saw gas may have been right: the caution stands until a clinician has looked again."""
    zone = settings.clinic.tz
    record_clinic_event(Desk(store, NOW - timedelta(hours=1), surgeon, zone), eye_id, "no-gas-seen", {})
    assert not load(store, eye_id, zone).caution(NOW)
    level = event(eye_id, "bubble-seen", body={"percent": 30})
    send(level)
    assert load(store, eye_id, zone).caution(NOW)
    back = {
        "withdrawn": event(eye_id, "withdrawal", sequence=2, body={}, corrects=level["id"]),
        "none after all": event(eye_id, "bubble-seen", sequence=2, body={"percent": 0}, corrects=level["id"]),
        "lower": event(eye_id, "bubble-seen", sequence=2, body={"percent": 10}, corrects=level["id"]),
    }[how]
    assert [r.status for r in send(back)] == ["received"]
    eye = load(store, eye_id, zone)
    assert eye.caution(NOW)
    assert [level for _, level in eye.timeline(NOW).sightings if level.meniscus_percent == 30] == []  # no level any more
    record_clinic_event(Desk(store, NOW + timedelta(minutes=1), surgeon, zone), eye_id, "no-gas-seen", {})
    assert not load(store, eye_id, zone).caution(NOW + timedelta(minutes=2))


def test_a_level_taken_back_before_no_gas_seen_changes_nothing(
    send: Any, store: Store, surgeon: Actor, eye_id: str, settings: Settings
) -> None:
    level = event(eye_id, "bubble-seen", body={"percent": 30})
    send(level)
    send(event(eye_id, "withdrawal", sequence=2, body={}, corrects=level["id"]))
    record_clinic_event(Desk(store, NOW + timedelta(minutes=1), surgeon, settings.clinic.tz), eye_id, "no-gas-seen", {})
    assert not load(store, eye_id, settings.clinic.tz).caution(NOW + timedelta(minutes=2))
