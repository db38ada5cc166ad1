"""Consent, protocol texts with their signatures, pages opened, and theatre lists, as rows."""

from datetime import date, timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, consents, eyes, listed, patients, protocols, views
from tests.conftest import NOW

LATER = NOW + timedelta(hours=1)


@pytest.fixture
def patient(store: Store) -> str:
    return patients.add(store, NOW, "N-1", "Ada Ash", date(1950, 1, 2), "", "en")


@pytest.mark.parametrize("said", [(), (True,), (True, False), (True, False, True), (False,)])
def test_the_last_word_about_consent_counts(store: Store, patient: str, said: tuple[bool, ...]) -> None:
    for n, given in enumerate(said):
        at = NOW + timedelta(minutes=n)
        consents.add(store, at, patient, "app", given=given, said_by="patient", words="", by="nurse:n")
    assert consents.stands(store, patient, "app") is (bool(said) and said[-1])
    assert [c.given for c in consents.of_patient(store, patient)] == list(reversed(said))
    assert not consents.stands(store, patient, "messages")


def test_consent_goes_along_when_records_are_joined(store: Store, patient: str) -> None:
    into = patients.add(store, NOW, "N-2", "Ada Ash", date(1950, 1, 2), "", "en")
    consents.add(store, NOW, patient, "app", given=True, said_by="patient", words="yes", by="nurse:n")
    assert not consents.stands(store, into, "app")
    patients.join(store, patient, into)
    assert consents.stands(store, into, "app")


def test_the_last_text_of_each_protocol_counts(store: Store) -> None:
    assert protocols.latest_text(store, "rulebook") is None
    for at, text in ((LATER, "new"), (NOW, "old")):
        protocols.save_text(store, at, "rulebook", text, text, "surgeon:s")
    protocols.save_text(store, LATER, "schedule", "another", "another", "surgeon:s")
    assert protocols.latest_text(store, "rulebook") == "new"


def test_a_signature_is_under_exactly_that_text(store: Store, surgeon: Actor) -> None:
    for at in (NOW, LATER):
        protocols.sign(store, at, "rulebook", "print", surgeon.id)
    found = protocols.signature(store, "rulebook", "print")
    assert found is not None
    assert (found.name, found.signed_at) == ("Sol Surgeon", LATER)
    assert protocols.signature(store, "rulebook", "another") is protocols.signature(store, "schedule", "print") is None


def test_the_pages_opened_last_come_first(store: Store) -> None:
    for minutes, page in ((1, "b"), (0, "a"), (2, "c")):
        views.add(store, NOW + timedelta(minutes=minutes), "nurse:n", page, "about")
    assert [p.page for p in views.latest(store, 2)] == ["c", "b"]


def put_on_list(store: Store, id: str, day: date, name: str = "Ada Ash") -> None:
    listed.add(store, NOW, id, "N-1", name, day, "right", {"agent": "sf6"}, "list.csv", "nurse:n")


def test_a_theatre_list_waits_the_earliest_day_first(store: Store) -> None:
    for id, days, name in (("c", 1, "A"), ("b", 0, "Z"), ("a", 0, "B")):
        put_on_list(store, id, date(2027, 3, 5) + timedelta(days=days), name)
    assert [one.id for one in listed.waiting(store)] == ["a", "b", "c"]
    one = listed.waits(store, "a")
    assert one is not None
    assert (one.body, one.source, one.listed_by, one.listed_at) == ({"agent": "sf6"}, "list.csv", "nurse:n", NOW)


@pytest.mark.parametrize("how", ["discharged", "put aside"])
def test_a_listed_operation_waits_until_it_is_discharged_or_put_aside(store: Store, patient: str, how: str) -> None:
    put_on_list(store, "a", date(2027, 3, 5))
    if how == "discharged":
        eyes.add_operation(store, NOW, eyes.of_patient(store, patient)[0].id, "a")
    else:
        listed.put_aside(store, NOW, "a", "nurse:n", "cancelled")
    assert listed.waiting(store) == []
    assert listed.waits(store, "a") is listed.waits(store, "none") is None
