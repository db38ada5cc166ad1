"""Events as rows: what stands, of whom, in which order, and what was refused."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from followup.records import Store, events, eyes
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Device, Event
from tests.conftest import NOW

BEFORE = NOW - timedelta(hours=2)
MEASURES = {"eye": "right", "iop_mmhg": 15, "instrument": "applanation"}
SEEN = {"visit": "week 1", "visit_id": "v"}
ABSENT = {**SEEN, "on": "2027-03-05", "barrier": "way"}


def kept(store: Store, eye_id: str, kind: str = "symptoms", at: datetime = NOW, body: Any = None, **more: Any) -> str:
    id = new_id()
    events.add(store, id, eye_id, kind, at, {} if body is None else body, "nurse:n", more.pop("received_at", NOW), **more)
    return id


def ids(found: list[Event]) -> list[str]:
    return [e.id for e in found]


@pytest.fixture
def fellow(store: Store, eye_id: str) -> str:
    """The patient's other eye."""
    known = eyes.eye(store, eye_id)
    assert known is not None
    return next(eye.id for eye in eyes.of_patient(store, known.patient.id) if eye.id != eye_id)


def test_an_event_is_read_as_it_was_kept(store: Store, eye_id: str, device: Device) -> None:
    id = kept(store, eye_id, "measures", BEFORE, MeasuresBody.model_validate(MEASURES), device_id=device.id, sequence=3)
    found = events.event(store, id)
    assert found is not None
    assert (found.kind, found.at, found.received_at, found.author, found.device_id) == (
        "measures", BEFORE, NOW, "nurse:n", device.id,
    )  # fmt: skip
    assert isinstance(found.body, MeasuresBody)
    assert found.body.iop_mmhg == 15
    assert events.event(store, "none") is None


def test_what_stands_is_in_the_order_of_its_time_not_of_its_coming(store: Store, eye_id: str) -> None:
    late = kept(store, eye_id, at=NOW)
    early = kept(store, eye_id, at=BEFORE)
    assert ids(events.of_eye(store, eye_id)) == [early, late]
    assert ids(events.history_of(store, eye_id)) == [late, early]


def test_a_correction_of_a_correction_leaves_only_the_last(store: Store, eye_id: str) -> None:
    first = kept(store, eye_id)
    second = kept(store, eye_id, corrects=first)
    third = kept(store, eye_id, corrects=second)
    assert ids(events.of_eye(store, eye_id)) == [third]
    assert [c.id if (c := events.correction_of(store, id)) else None for id in (first, second, third)] == [
        second,
        third,
        None,
    ]


def test_the_other_eye_is_read_for_what_is_about_the_person(store: Store, eye_id: str, fellow: str) -> None:
    known = eyes.eye(store, eye_id)
    assert known is not None
    kept(store, eye_id, "journey")
    journey, gone = kept(store, fellow, "journey"), kept(store, fellow, "journey")
    kept(store, fellow, "symptoms")
    kept(store, fellow, "withdrawal", corrects=gone)
    assert ids(events.beside(store, eye_id, known.patient.id, ("journey",))) == [journey]


def test_lists_of_one_kind_leave_out_eyes_that_are_not_followed(store: Store, eye_id: str) -> None:
    entry = kept(store, eye_id, "seen", body=SEEN)
    assert ids(events.of_kind(store, "seen")) == ids(events.latest(store, "seen", 5)) == [entry]
    assert ids(events.of_clinic_since(store, NOW)) == [entry]
    eyes.end(store, NOW - timedelta(seconds=1), eye_id, "healed")
    assert events.of_kind(store, "seen") == events.latest(store, "seen", 5) == events.of_clinic_since(store, NOW) == []
    eyes.end(store, NOW, eye_id, "healed")  # was followed then
    assert ids(events.of_clinic_since(store, NOW)) == [entry]


def test_who_was_at_the_clinic_since_a_time(store: Store, eye_id: str) -> None:
    kept(store, eye_id, "seen", BEFORE, SEEN)
    kept(store, eye_id, "symptoms", NOW)
    wanted = [kept(store, eye_id, kind, NOW, body) for kind, body in (("seen", SEEN), ("measures", MEASURES))]
    assert sorted(ids(events.of_clinic_since(store, NOW))) == sorted(wanted)


def test_the_latest_of_a_kind_come_first_and_no_more_than_asked(store: Store, eye_id: str) -> None:
    entered = [kept(store, eye_id, "seen", body=SEEN) for _ in range(4)]
    assert ids(events.latest(store, "seen", 2)) == [entered[3], entered[2]]


def test_the_last_measures_of_an_eye_are_the_latest_that_stand(store: Store, eye_id: str) -> None:
    assert events.last_measures_of(store, eye_id) is None
    old = kept(store, eye_id, "measures", BEFORE, MEASURES)
    new = kept(store, eye_id, "measures", NOW, MEASURES)
    assert (events.last_measures_of(store, eye_id), events.last_measures(store, [eye_id])[eye_id].id) == (new, new)
    kept(store, eye_id, "withdrawal", corrects=new)
    assert (events.last_measures_of(store, eye_id), events.last_measures(store, [eye_id])[eye_id].id) == (old, old)


def test_the_last_measures_are_those_of_the_eyes_asked_for_followed_or_not(store: Store, eye_id: str, fellow: str) -> None:
    kept(store, eye_id, "measures", body=MEASURES)
    entry = kept(store, fellow, "measures", body={**MEASURES, "eye": "left"})
    assert {eye: e.id for eye, e in events.last_measures(store, [fellow]).items()} == {fellow: entry}
    assert events.last_measures(store, []) == {}


def test_entries_are_read_together_by_their_ids(store: Store, eye_id: str, fellow: str) -> None:
    wanted = [kept(store, id, "measures", body=MEASURES) for id in (eye_id, fellow)]
    kept(store, eye_id, "measures", body=MEASURES)
    assert {id: e.eye_id for id, e in events.by_ids(store, wanted).items()} == dict(
        zip(wanted, (eye_id, fellow), strict=True)
    )
    assert events.by_ids(store, []) == {}


def test_who_was_here_since_a_time_is_whoever_was_seen_or_measured_on_either_eye(
    store: Store, eye_id: str, fellow: str
) -> None:
    known = eyes.eye(store, eye_id)
    assert known is not None
    kept(store, eye_id, "seen", BEFORE, SEEN)
    kept(store, eye_id, "did-not-come", NOW, ABSENT)
    kept(store, eye_id, "symptoms", NOW)
    kept(store, eye_id, "withdrawal", NOW, corrects=kept(store, eye_id, "measures", NOW, MEASURES))
    assert events.patients_here_since(store, NOW) == []
    kept(store, fellow, "measures", NOW, MEASURES)
    assert events.patients_here_since(store, NOW) == [known.patient.id]


def test_who_was_heard_from_since_a_time_is_told_by_the_ids_that_a_phone_made(
    store: Store, eye_id: str, device: Device
) -> None:
    """RFC 9562, section 5.7: a UUIDv7 begins with the milliseconds since 1970; its example, made on 22 February 2022."""
    known = eyes.eye(store, eye_id)
    assert known is not None
    example, made_at = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)
    later = made_at + timedelta(milliseconds=1)
    events.add(store, example, eye_id, "symptoms", NOW, {}, "patient:x", NOW, device_id=device.id)
    assert events.patients_heard_since(store, made_at, 9) == [known.patient.id]
    assert events.patients_heard_since(store, later, 9) == events.patients_heard_since(store, made_at, 0) == []
    kept(store, eye_id, "symptoms")  # of a nurse
    assert events.patients_heard_since(store, later, 9) == []


def test_attendance_is_who_came_was_seen_or_did_not_come(store: Store, eye_id: str) -> None:
    came, seen, absent = (
        kept(store, eye_id, kind, NOW - timedelta(minutes=3 - n), body)
        for n, (kind, body) in enumerate((("arrived", SEEN), ("seen", SEEN), ("did-not-come", ABSENT)))
    )
    kept(store, eye_id, "symptoms")
    assert ids(events.of_attendance(store, eye_id)) == [came, seen, absent]


def test_wishes_stand_newest_first_until_they_are_taken_back(store: Store, eye_id: str) -> None:
    wish = {"visit": "week 1", "words": "not in the morning"}
    old, gone, new = (kept(store, eye_id, "visit-request", NOW + timedelta(minutes=n), wish) for n in range(3))
    kept(store, eye_id, "withdrawal", corrects=gone)
    assert ids(events.visit_requests_of(store, eye_id)) == [new, old]


def test_somebody_was_heard_from_by_what_a_phone_sent_not_by_what_staff_entered(
    store: Store, eye_id: str, device: Device
) -> None:
    kept(store, eye_id)
    assert events.last_heard_of(store, eye_id) is None
    kept(store, eye_id, at=BEFORE, device_id=device.id, received_at=NOW)
    assert events.last_heard_of(store, eye_id) == NOW


def test_what_was_refused_is_kept_once_as_it_came(store: Store, eye_id: str) -> None:
    assert [events.refuse(store, NOW, "x", eye_id, "phone", text, "no") for text in ("{1}", "{1}")] == [True, False]
    (refused,) = events.refused(store)
    assert (refused.id, refused.eye_id, refused.device_id, refused.text, refused.reason, refused.received_at) == (
        "x", eye_id, "phone", "{1}", "no", NOW,
    )  # fmt: skip


def test_a_body_that_cannot_be_read_takes_no_other_with_it(store: Store, eye_id: str) -> None:
    sound = kept(store, eye_id, "seen", body=SEEN)
    kept(store, eye_id, "seen", body={"vitals": ["no such thing"]})
    assert ids(events.of_kind(store, "seen")) == [sound]
    assert len(events.of_eye(store, eye_id)) == 2
