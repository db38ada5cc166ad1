"""The end of the day: whoever was seen or did not come, and everything that is open, each with who has it."""

from datetime import timedelta

from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.patients import following
from followup.care.today.handover import Handover, handover
from followup.care.visits import book, visit
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, events, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Callback
from tests.conftest import NOW, OPERATED, ZONE, operation_note, patient_details
from tests.web.test_callback_pages import words_of

TODAY = NOW.astimezone(ZONE).date()


def patient(store: Store, nurse: Actor, name: str, *visits: schedule.Window) -> str:
    person = patient_details(name).model_copy(update={"name": name})
    return leaving.discharge(Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE), person, operation_note(), visits)[0]


def pressed(store: Store, nurse: Actor, name: str, iop: float = 46) -> Callback:
    eye = patient(store, nurse, name)
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye, [MeasuresBody(eye="right", iop_mmhg=iop)])
    return next(c for c in worries.callbacks_of(store, eye) if c.worry == "pressure")


def names(found: Handover) -> dict[str, list[str]]:
    return {
        "seen": [s.patient.name for s in found.seen],
        "did not come": [a.eye.patient.name for a in found.did_not_come],
        "settled": [s.eye.patient.name for s in found.settled],
        "waiting": [line.eye.patient.name for line in found.waiting if line.eye],
        "unreached": [line.eye.patient.name for line in found.unreached if line.eye],
        **{who: [i.line.eye.patient.name for i in of if i.line.eye] for who, of in found.held.items()},
    }


def test_everything_of_the_day_stands_on_the_page_it_was_left_in(
    as_nurse: FlaskClient, store: Store, nurse: Actor, surgeon: Actor, settings: Settings
) -> None:
    calm = patient(store, nurse, "Calm", schedule.Window("week 1", TODAY, TODAY, TODAY, ""))
    patient(store, nurse, "Absent", schedule.Window("week 1", TODAY, TODAY, TODAY, ""))
    patient(store, nurse, "Later", schedule.Window("week 1", TODAY + timedelta(1), TODAY, TODAY + timedelta(2), ""))
    desk, other = Desk(store, NOW, nurse, ZONE), Desk(store, NOW, surgeon, ZONE)
    visit.record_visit(desk, calm, [MeasuresBody(eye="right", iop_mmhg=15)], visit="week 1")
    done, away, mine, _ = (pressed(store, nurse, name) for name in ("Done", "Away", "Mine", "Nobody’s"))
    for c in (done, away):
        holding.claim_call(desk, c.id)
    phone_calls.attempt(desk, away.id, None, "", settings.clinic)
    phone_calls.attempt(desk, done.id, "patient", "", settings.clinic)
    everything = [c.id for c in holding.open_of_patient(store, done)]
    settling.settle(desk, everything[0], "advice", "", settings.clinic, also=everything[1:])
    also = [c.id for c in holding.open_of_patient(store, mine)]
    deciding.decide(other, mine.id, "theatre", "", settings.clinic, also=also, owner=surgeon.id)
    found = names(handover(desk))
    assert found.pop("did not come") == ["Absent"]
    assert found.pop("seen") == ["Calm", "Done", "Away", "Mine", "Nobody’s"]
    assert set(found.pop("settled")) == {"Done"}
    assert "Nobody’s" in found["waiting"]
    assert not {"Done", "Away", "Mine"} & set(found.pop("waiting"))
    assert found == {"unreached": ["Away"], "Nora Nurse": ["Away"], "Sol Surgeon": ["Mine"]}
    page = words_of(as_nurse.get("/clinic/handover").text)
    for words in (
        "Planned for today, not come so far 1 Absent Absent : week 1",
        "Calm Calm : week 1",
        "Nobody’s",
        "theatre, by",
        "advice given (Nora Nurse)",
    ):
        assert words in page, words
    assert "Done Done : unplanned" in page


def test_whoever_was_seen_for_the_last_time_today_is_among_those_seen(store: Store, nurse: Actor) -> None:
    eye = patient(store, nurse, "Last", schedule.Window("week 1", TODAY, TODAY, TODAY, ""))
    desk = Desk(store, NOW, nurse, ZONE)
    visit.record_visit(desk, eye, [MeasuresBody(eye="right", iop_mmhg=15)], visit="week 1")
    following.end(desk, eye, "finished", "", closes=[c.id for c in worries.callbacks_of(store, eye)])
    assert [(s.patient.name, s.visits) for s in handover(desk).seen] == [("Last", ("week 1",))]
    tomorrow = Desk(store, NOW + timedelta(days=1), nurse, ZONE)
    assert handover(tomorrow).seen == []


def test_an_empty_day_says_so(as_nurse: FlaskClient) -> None:
    assert words_of(as_nurse.get("/clinic/handover").text).count("None.") == 5


def test_whoever_did_not_come_stands_with_what_stood_in_the_way_also_when_the_visit_was_moved(
    as_nurse: FlaskClient, store: Store, nurse: Actor, settings: Settings
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    for name in ("Stays", "Moves"):
        eye = patient(store, nurse, name, schedule.Window("week 1", TODAY, TODAY, TODAY + timedelta(5), ""))
        (planned,) = visits.of_eye(store, eye)
        book.did_not_come(desk, planned.identity, "way")
        if name == "Moves":
            book.move(desk, settings.clinic, planned.identity, TODAY + timedelta(4), why="no way to come")
    found = handover(desk)
    assert {(a.eye.patient.name, a.may_come_until is None, "week 1: " in a.why) for a in found.did_not_come} == {
        ("Stays", False, True),
        ("Moves", True, True),
    }
    assert "has another day" in as_nurse.get("/clinic/handover").text


def test_wishes_and_moved_visits_that_nobody_told_stand_on_the_page(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    events.add(store, new_id(), eye_id, "visit-request", NOW, {"visit": "week 1", "words": "a Friday"}, "patient", NOW)
    assert "Ask for another time 1 Pat Patient T-1 : week 1 “a Friday”" in words_of(as_nurse.get("/clinic/handover").text)
    desk = Desk(store, NOW + timedelta(minutes=1), nurse, ZONE)
    book.move(desk, settings.clinic, week.identity, week.target + timedelta(days=2))
    page = words_of(as_nurse.get("/clinic/handover").text)
    assert "Ask for another time" not in page
    assert "To be told of another day 1 Pat Patient T-1 : week 1, Fri 12 Mar 2027" in page
