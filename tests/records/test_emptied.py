"""What an erasure puts in the place of what stood there, column by column; and whom it does not touch."""

import json
from typing import Any

import pytest

from followup.records import Store, audit, erasing, events, eyes, messages, patients, people
from followup.records.export import OF_PATIENT
from followup.records.values import Device, Patient
from tests.conftest import NOW
from tests.records.rows import callback, entry, known, person, right

MARKER = "(erased)"


@pytest.fixture
def patient(store: Store, eye_id: str) -> Patient:
    return known(eyes.eye(store, eye_id)).patient


def erase(store: Store, patient: Patient) -> erasing.Erased:
    return erasing.erase(store, NOW, patient.id, "nurse:n", "own wish")


# The keys under which people write in words; the name of a drop is one. From the bodies of entries and notes.
@pytest.mark.parametrize(
    ("said", "left"),
    [
        ({"pain": 3, "words": "it hurts"}, {"pain": 3, "words": MARKER}),
        ({"words": ""}, {"words": ""}),
        ({"drops": [{"name": "x", "times_a_day": 4}]}, {"drops": [{"name": MARKER, "times_a_day": 4}]}),
        (
            {"a": {"b": {"notes": "n", "reason": "r", "said": "s"}}},
            {"a": {"b": {"notes": MARKER, "reason": MARKER, "said": MARKER}}},
        ),
        ({"words": 4, "visit": "week 1"}, {"words": 4, "visit": "week 1"}),
        ([{"words": "w"}, 1, None, True], [{"words": MARKER}, 1, None, True]),
    ],
)
def test_free_text_is_taken_out_of_json_wherever_it_stands(said: Any, left: Any) -> None:
    assert json.loads(erasing._inside({"body": json.dumps(said)}, "body")) == left


def test_json_that_cannot_be_read_goes_as_a_whole() -> None:
    assert erasing._inside({"body": "it hurts {"}, "body") == "{}"


@pytest.mark.parametrize(
    ("values", "words", "left"),
    [
        ({"iop_mmhg": 34}, "The pressure is high.", "The pressure is high."),
        ({"words": "it hurts"}, "The patient wrote: it hurts", MARKER),
    ],
)
def test_a_sign_keeps_its_words_unless_they_repeat_the_patients(values: dict[str, Any], words: str, left: str) -> None:
    row = {"values_json": audit.as_json(values), "words": words}
    assert erasing._said(row, "words") == left


def test_who_it_was_stands_nowhere_any_more(store: Store, patient: Patient) -> None:
    erase(store, patient)
    (row,) = store.rows("SELECT * FROM patients WHERE id = :id", {"id": patient.id})
    assert (row["name"], row["born_on"], row["phone"], row["carer_phone"]) == (MARKER, "1900-01-01", "", "")
    assert row["number"] == f"erased-{patient.id.replace('-', '')[-16:]}"
    assert patients.by_number(store, "T-1") is None


def test_two_emptied_records_have_two_numbers(store: Store, patient: Patient) -> None:
    other = person(store)
    for one in (patient, other):
        erase(store, one)
    assert len({row["number"] for row in store.rows("SELECT number FROM patients")}) == 2


def test_nobody_is_found_by_what_they_were_called(store: Store, patient: Patient) -> None:
    patients.index(store, patient.id, ["pat"])
    erase(store, patient)
    assert patients.found(store, ["pat"], [], 9) == []


def test_phones_are_locked_out_and_name_no_carer(store: Store, patient: Patient, device: Device) -> None:
    erase(store, patient)
    found = known(people.device(store, device.id))
    assert (found.revoked_at, found.revoked_by, found.carer_name) == (NOW, "nurse:n", "")
    (row,) = store.rows("SELECT token_hash FROM devices")
    assert row["token_hash"].startswith("erased-")


def test_a_phone_that_was_locked_out_before_keeps_when_and_by_whom(store: Store, patient: Patient, device: Device) -> None:
    before = NOW.replace(hour=1)
    people.revoke_device(store, before, device.id, "nurse:m")
    erase(store, patient)
    assert (known(people.device(store, device.id)).revoked_at, known(people.device(store, device.id)).revoked_by) == (
        before, "nurse:m",
    )  # fmt: skip


def test_measures_stay_and_notes_go(store: Store, patient: Patient, eye_id: str) -> None:
    id = entry(store, eye_id, "measures", body={"eye": "right", "iop_mmhg": 15, "notes": "Mr Ash came with his sister"})
    erase(store, patient)
    body = known(events.event(store, id)).body
    assert (body.iop_mmhg, body.notes) == (15, MARKER)


def test_an_operation_keeps_what_was_done(store: Store, patient: Patient, eye_id: str) -> None:
    before = known(eyes.eye(store, eye_id).note).body
    erase(store, patient)
    after = known(eyes.eye(store, eye_id).note).body
    assert (after.agent, after.percent, after.operated_at, after.surgeon) == (
        before.agent, before.percent, before.operated_at, before.surgeon,
    )  # fmt: skip


def test_refused_entries_keep_their_number_apart(store: Store, patient: Patient, eye_id: str) -> None:
    for text in ("it hurts", "badly"):
        events.refuse(store, NOW, "one", eye_id, "phone", text, "odd")
    erase(store, patient)
    assert sorted((one.text, one.reason) for one in events.refused(store)) == [
        ("(erased) 1", MARKER),
        ("(erased) 2", MARKER),
    ]


@pytest.mark.parametrize("table", ["message_choices", "push_subscriptions"])
def test_nobody_is_written_to_any_more(store: Store, patient: Patient, table: str) -> None:
    for who in (f"patient:{patient.id}", "patient:another", "staff:n"):
        messages.keep_choices(
            store, NOW, who, {"email": "a@b", "language": "en", "quiet_from": "", "quiet_to": "", "unwanted": ()}
        )
        messages.subscribe(store, NOW, who, f"https://push.invalid/{who}", "p", "a")
    erase(store, patient)
    assert {row["person"] for row in store.rows(f"SELECT person FROM {table}")} == {"patient:another", "staff:n"}


def test_messages_stay_as_counts_without_what_became_of_them(store: Store, patient: Patient) -> None:
    messages.add(store, NOW, "k", f"patient:{patient.id}", "visit", "v", NOW)
    messages.end(store, NOW, "k", "dropped", "no such mailbox: pat@home.invalid")
    erase(store, patient)
    assert [(m.kind, m.state, m.detail) for m in messages.of_person(store, f"patient:{patient.id}")] == [
        ("visit", "dropped", "")
    ]


def test_details_of_entries_about_the_patient_go_and_those_about_others_stay(store: Store, patient: Patient) -> None:
    for subject in (patient.id, f"patient:{patient.id}", "clinic"):
        audit.note(store, NOW, "nurse:n", "wrote", subject, {"words": "Mr Ash"})
    erase(store, patient)
    details = {row["subject"]: row["detail"] for row in store.rows("SELECT * FROM audit WHERE action = 'wrote'")}
    assert details == {patient.id: audit.EMPTIED, f"patient:{patient.id}": audit.EMPTIED, "clinic": '{"words":"Mr Ash"}'}
    assert audit.broken_at(store) is None


def test_who_erased_and_why_is_in_the_chain(store: Store, patient: Patient) -> None:
    erase(store, patient)
    (row,) = store.rows("SELECT who, subject, detail FROM audit WHERE action = :erased", {"erased": audit.ERASED})
    assert (row["who"], row["subject"], json.loads(row["detail"])["why"]) == ("nurse:n", patient.id, "own wish")


def test_a_joined_record_is_emptied_with_the_one_that_stands(store: Store, patient: Patient) -> None:
    twin = person(store)
    patients.join(store, twin.id, patient.id)
    erase(store, patient)
    assert {row["name"] for row in store.rows("SELECT name FROM patients")} == {MARKER}


def test_nobody_else_is_touched(store: Store, patient: Patient) -> None:
    other = person(store)
    eye = right(store, other).id
    call, said = callback(store, eye), entry(store, eye, body={"words": "all well"})
    before = {
        table: store.rows(f"SELECT * FROM {table} WHERE {where}", {"id": other.id}) for table, where in OF_PATIENT.items()
    }
    erase(store, patient)
    after = {
        table: store.rows(f"SELECT * FROM {table} WHERE {where}", {"id": other.id}) for table, where in OF_PATIENT.items()
    }
    assert after == before
    assert (call.id, said) == (before["callbacks"][0]["id"], before["events"][0]["id"])


def test_what_would_be_emptied_is_counted_before_and_is_nothing_afterwards(store: Store, patient: Patient) -> None:
    many = erasing.many(store, patient.id)
    sealed = erase(store, patient)
    assert many >= len(sealed) > 0  # codes are emptied too, and are not sealed
    assert erasing.many(store, patient.id) == 0
    assert erase(store, patient) == []


def test_half_an_erasure_is_none(store: Store, patient: Patient, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise KeyError

    monkeypatch.setattr(erasing, "_empty_entries", fails)
    with pytest.raises(KeyError):
        erase(store, patient)
    assert known(patients.by_number(store, "T-1")).name == "Pat Patient"
    assert audit.guards(store) == []
