"""The day sheet holds whom a clinic day is about, whatever else is followed; everybody else is on a list that is fetched seldom.

Common practice, no source.
"""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any
from uuid import UUID

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.learning import signing
from followup.care.patients import following
from followup.care.reading.eye import protocol
from followup.care.today import daysheet
from followup.care.visits.visit import record_visit
from followup.care.watch import raising
from followup.clinical import schedule
from followup.records import Store, events, eyes, people, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import SymptomsBody
from followup.records.store import new_id
from tests.conftest import NOW, OPERATED, ZONE, Clock, operation_note, patient_details

SHEET, FOLLOWED = "/api/v1/clinic/daysheet", "/api/v1/clinic/followed"
TODAY = NOW.astimezone(ZONE).date()


def followed_for(store: Store, nurse: Actor, number: str, *days: date) -> str:
    """A followed eye with a visit on each of these days, and two weeks around each."""
    span, first = timedelta(days=7), OPERATED.date()
    windows = [
        schedule.Window(f"visit {n}", day, max(first, day - span), day + span, "retina") for n, day in enumerate(days)
    ]
    at = OPERATED + timedelta(hours=5)
    return leaving.discharge(Desk(store, at, nurse, ZONE), patient_details(number), operation_note(), windows)[0]


def far_ahead(store: Store, nurse: Actor, number: str) -> str:
    """A followed eye that nothing is due for in weeks."""
    return followed_for(store, nurse, number, date(2027, 5, 4))


def on_sheet(client: FlaskClient) -> set[str]:
    answer = client.get(SHEET).json
    assert answer is not None
    return {eye["operation"] for eye in answer["eyes"]}


def asked(store: Store, client: FlaskClient, address: str = SHEET) -> tuple[int, int]:
    """How many statements an answer takes, and its bytes; states are made before."""
    assert client.get(address).status_code == 200
    statements: list[str] = []
    store.db.conn.set_trace_callback(statements.append)
    answer = client.get(address)
    store.db.conn.set_trace_callback(None)
    assert answer.status_code == 200
    return len(statements), len(answer.data)


@pytest.mark.parametrize("days", [1, 7, 60])
def test_the_sheet_does_not_grow_with_eyes_that_are_not_due(
    store: Store, nurse: Actor, as_nurse: FlaskClient, eye_id: str, days: int
) -> None:
    for n in range(10):
        followed_for(store, nurse, f"F-{n}", TODAY + timedelta(days=days))
    few = asked(store, as_nurse)
    for n in range(10, 60):
        followed_for(store, nurse, f"F-{n}", TODAY + timedelta(days=days))
    assert asked(store, as_nurse) == few


def test_whoever_is_due_costs_bytes_and_no_statement_of_their_own(store: Store, nurse: Actor, as_nurse: FlaskClient) -> None:
    followed_for(store, nurse, "D-1", TODAY, date(2027, 4, 1))
    few = asked(store, as_nurse)
    for n in range(2, 12):
        followed_for(store, nurse, f"D-{n}", TODAY, date(2027, 4, 1))
    many = asked(store, as_nurse)
    assert many[0] == few[0]
    assert many[1] > few[1]


def measured(store: Store, nurse: Actor, eye_id: str) -> None:
    """And nobody has judged it yet: what a rule found would bring the eye there as well."""
    events.add(store, new_id(), eye_id, "measures", NOW, MeasuresBody(eye="right", iop_mmhg=15), nurse.signature, NOW)


def fellow_measured(store: Store, nurse: Actor, eye_id: str) -> None:
    eye = eyes.eye(store, eye_id)
    assert eye is not None
    (fellow,) = [other for other in eyes.of_patient(store, eye.patient.id) if other.id != eye_id]
    events.add(store, new_id(), fellow.id, "measures", NOW, MeasuresBody(eye="left", iop_mmhg=15), nurse.signature, NOW)


def called(store: Store, nurse: Actor, eye_id: str) -> None:
    """A call from days ago that is still open."""
    before = NOW - timedelta(days=2)
    events.add(store, new_id(), eye_id, "symptoms", before, SymptomsBody(curtain=True), "patient:x", before)
    raising.check_eye(store, eye_id, before, ZONE)


def heard(store: Store, nurse: Actor, eye_id: str) -> None:
    """A calm entry of this morning, by the id that its phone gave it."""
    eye = eyes.eye(store, eye_id)
    assert eye is not None
    phone = people.add_device(store, NOW, eye.patient.id, "hash", "patient")
    milliseconds = int((NOW - timedelta(hours=1)).timestamp()) * 1000
    id = str(UUID(int=milliseconds << 80 | 7 << 76 | 2 << 62))  # version 7, as in RFC 9562, section 5.7
    events.add(store, id, eye_id, "posture", NOW, {}, "patient:x", NOW, device_id=phone)


@pytest.mark.parametrize("came", [measured, fellow_measured, called, heard])
def test_whoever_was_here_is_called_or_was_heard_from_is_on_the_sheet(
    store: Store, nurse: Actor, as_nurse: FlaskClient, came: Callable[[Store, Actor, str], None]
) -> None:
    wanted, other = far_ahead(store, nurse, "F-1"), far_ahead(store, nurse, "F-2")
    assert on_sheet(as_nurse) == set()
    came(store, nurse, wanted)
    assert on_sheet(as_nurse) == {wanted}
    assert {eye["operation"] for eye in pages(as_nurse)} == {wanted, other}


@pytest.mark.parametrize(("days", "listed"), [(-2, True), (-1, True), (0, True), (1, False), (7, False)])
def test_whoever_comes_later_is_known_by_the_names(
    store: Store, nurse: Actor, as_nurse: FlaskClient, days: int, listed: bool
) -> None:
    eye = followed_for(store, nurse, "D-1", day := TODAY + timedelta(days=days))
    assert on_sheet(as_nurse) == ({eye} if listed else set())
    (named,) = pages(as_nurse)
    assert [visit["target"] for visit in named["visits"]] == [day.isoformat()]


@pytest.mark.parametrize(("days", "listed"), [(1, True), (7, True), (8, False)])
def test_a_coming_visit_of_an_eye_with_a_worry_is_on_the_sheet_with_it(
    store: Store, nurse: Actor, as_nurse: FlaskClient, days: int, listed: bool
) -> None:
    eye = followed_for(store, nurse, "D-1", TODAY + timedelta(days=days))
    called(store, nurse, eye)
    sheet = as_nurse.get(SHEET).json
    assert sheet is not None
    assert [(row["state"], row["how_soon"]) for row in sheet["rows"]] == [("coming", "today")] * listed


def test_every_line_of_the_list_has_its_eye(store: Store, nurse: Actor, as_nurse: FlaskClient, eye_id: str) -> None:
    followed_for(store, nurse, "D-1", TODAY, TODAY - timedelta(days=1))
    called(store, nurse, followed_for(store, nurse, "D-2", TODAY + timedelta(days=5)))
    measured(store, nurse, eye_id)
    sheet = as_nurse.get(SHEET).json
    assert sheet is not None
    assert {row["operation"] for row in sheet["rows"]} <= {eye["operation"] for eye in sheet["eyes"]}
    assert len(sheet["rows"]) == 4


def test_an_eye_on_the_sheet_has_what_its_own_page_has(
    store: Store, nurse: Actor, as_nurse: FlaskClient, eye_id: str
) -> None:
    """Open visits by date, and the last measures of both eyes, also of the one that was never operated."""
    for minutes, side, iop in ((0, "right", 31), (1, "right", 21), (2, "left", 14)):
        desk = Desk(store, NOW + timedelta(minutes=minutes), nurse, ZONE)
        acuity = {"acuity": "6/9", "correction": "unaided"} if side == "left" else {}
        record_visit(desk, eye_id, [MeasuresBody(eye=side, iop_mmhg=iop, instrument="applanation", **acuity)])
    week = visits.of_eye(store, eye_id)[-1]
    sheet = as_nurse.get(SHEET).json
    assert sheet is not None
    (eye,) = sheet["eyes"]
    assert (eye["right"]["iop_mmhg"], eye["left"]["iop_mmhg"], eye["left"]["acuity"]) == (21, 14, "6/9")
    assert [visit["name"] for visit in eye["visits"]] == ["day 1", "week 1"]
    assert (eye["chart"], sheet["chart"]) == ("6/", "")
    record_visit(desk, eye_id, [], visit=week.identity)
    assert week.identity not in {visit["id"] for visit in as_nurse.get(SHEET).json["eyes"][0]["visits"]}  # type: ignore[index]


# --- Everybody who is followed ---


def pages(client: FlaskClient) -> list[dict[str, Any]]:
    found, before = [], ""
    while before is not None:
        answer = client.get(FOLLOWED, query_string={"before": before} if before else {}).json
        assert answer is not None
        found += answer["eyes"]
        before = answer["next"]
    return found


@pytest.mark.parametrize("size", [1, 2, 3, 4])
def test_everybody_who_is_followed_is_on_one_page(
    store: Store, nurse: Actor, as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch, size: int
) -> None:
    monkeypatch.setattr(daysheet, "PAGE", size)
    wanted = [far_ahead(store, nurse, f"F-{n}") for n in range(3)]
    gone = far_ahead(store, nurse, "F-9")
    following.end(Desk(store, NOW, nurse, ZONE), gone, "moved", "")
    found = pages(as_nurse)
    assert [eye["operation"] for eye in found] == sorted(wanted, reverse=True)


def test_a_page_says_who_it_is_and_what_they_may_come_for(store: Store, nurse: Actor, as_nurse: FlaskClient) -> None:
    id = followed_for(store, nurse, "F-1", date(2027, 5, 4), date(2027, 6, 4))
    first = visits.of_eye(store, id)[0]
    (eye,) = pages(as_nurse)
    assert eye == {
        "operation": id, "patient": "Pat Patient", "number": "F-1", "eye": "right", "agent": "c2f6", "fades": True,
        "operated_on": "2027-03-02",
        "visits": [{
            "id": first.identity, "name": "visit 0", "target": "2027-05-04", "earliest": "2027-04-27", "latest": "2027-05-11",
        }],
    }  # fmt: skip


def test_a_page_takes_as_many_statements_for_many_as_for_few(store: Store, nurse: Actor, as_nurse: FlaskClient) -> None:
    far_ahead(store, nurse, "F-1")
    few = asked(store, as_nurse, FOLLOWED)
    for n in range(2, 12):
        far_ahead(store, nurse, f"F-{n}")
    assert asked(store, as_nurse, FOLLOWED)[0] == few[0]


# --- Unchanged ---


def mark(client: FlaskClient) -> str:
    return client.get(SHEET).headers["ETag"]


def again(client: FlaskClient, known: str) -> int:
    return client.get(SHEET, headers={"If-None-Match": known}).status_code


def test_a_sheet_that_did_not_change_is_not_made_again(
    store: Store, as_nurse: FlaskClient, eye_id: str, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    known = mark(as_nurse)
    monkeypatch.setattr(daysheet, "daysheet", lambda *_: pytest.fail("it was made"))
    now = clock.pass_(minutes=1)
    answer = as_nurse.get(SHEET, headers={"If-None-Match": known})
    assert (answer.status_code, answer.data, answer.headers["ETag"]) == (304, b"", known)
    assert answer.headers["Made-At"] == now.isoformat()
    assert answer.headers["Cache-Control"] == "no-store"


def test_a_sheet_is_made_again_after_whatever_is_recorded(
    store: Store, nurse: Actor, surgeon: Actor, as_nurse: FlaskClient, eye_id: str
) -> None:
    known = mark(as_nurse)
    for change in (
        lambda: measured(store, nurse, eye_id),
        lambda: as_nurse.post(
            f"/clinic/eyes/{eye_id}/arrived", data={"visit_id": visits.of_eye(store, eye_id)[-1].identity}
        ),
        lambda: far_ahead(store, nurse, "F-1"),
        lambda: signing.sign(Desk(store, NOW, surgeon, ZONE), "rulebook", protocol(store, "rulebook").fingerprint),
    ):
        change()
        assert again(as_nurse, known) == 200
        known = mark(as_nurse)
        assert again(as_nurse, known) == 304


def test_a_sheet_is_made_again_on_another_day(as_nurse: FlaskClient, eye_id: str, clock: Clock) -> None:
    """At midnight in Vienna, which is 23:00 by the server's own reckoning."""
    clock.now = NOW.replace(hour=22, minute=59)
    known = mark(as_nurse)
    assert again(as_nurse, known) == 304
    clock.pass_(minutes=1)
    assert again(as_nurse, known) == 200


def test_a_sheet_is_its_reader_s_alone(as_nurse: FlaskClient, as_surgeon: FlaskClient, eye_id: str) -> None:
    """Signed in both; what a surgeon may, a nurse's sheet does not say."""
    assert again(as_surgeon, mark(as_nurse)) == 200
