"""Follow-up ends with a reason, nothing urgent in silence, and is taken up again. Common practice, no source."""

from contextlib import nullcontext
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import deciding
from followup.care.corrections.correcting import withdraw
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict
from followup.care.home import pack
from followup.care.home.receive import receive
from followup.care.learning import results
from followup.care.messages import outgoing, reminders
from followup.care.patients import following
from followup.care.reading.eye import load
from followup.care.today import lists
from followup.care.visits import visit
from followup.care.visits.visit import record_clinic_event, record_visit
from followup.clinical import schedule
from followup.config import Messages, Settings
from followup.jobs import check_all
from followup.records import Store, audit, events, eyes, tasks, visits, worries
from followup.records import messages as kept
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Device
from tests.conftest import NOW, OPERATED, ZONE, operation_note, patient_details
from tests.records.rows import callback
from tests.records.rows import task as a_task
from tests.records.rows import visit as booked

LATER = NOW + timedelta(days=40)


def end(store: Store, nurse: Actor, eye_id: str, settings: Settings, reason: str = "moved", **more: Any) -> None:
    at = more.pop("at", NOW)
    following.end(Desk(store, at, nurse, settings.clinic.tz), eye_id, reason, more.pop("words", ""), **more)


def measured(store: Store, nurse: Actor, eye_id: str, settings: Settings, at: datetime = NOW, **body: Any) -> None:
    entered = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", **body})
    record_visit(Desk(store, at, nurse, settings.clinic.tz), eye_id, [entered])


def fellow(store: Store, eye_id: str) -> str:
    known = eyes.eye(store, eye_id)
    assert known is not None
    return next(e.id for e in eyes.of_patient(store, known.patient.id) if e.id != eye_id)


def open_worries(store: Store) -> list[str]:
    return [c.worry for c in worries.open_callbacks(store)]


def test_an_ended_eye_leaves_the_list_the_sweep_the_book_and_the_phone_and_stays_findable(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, device: Device
) -> None:
    zone = settings.clinic.tz
    assert [d.visit.name for d in lists.due_in(store, NOW, zone, lists.STATES)]
    end(store, nurse, eye_id, settings)
    assert lists.due_in(store, NOW, zone, lists.STATES) == []
    assert check_all(store, settings, LATER) == 0
    assert worries.open_callbacks(store) == []
    assert [v.name for v in load(store, eye_id, zone).open_visits] == ["day 1"]  # it was missed before the end
    assert visits.booked_counts(store) == {}
    sent = pack.pack(store, settings.clinic, device, NOW)
    assert (sent.eyes, sent.patient) == ([], "Pat Patient")
    assert [(e.eye, e.ended_on, e.caution) for e in sent.ended] == [("right", date(2027, 3, 5), True)]
    found = lists.find(store, "patient", date(2027, 3, 5)).shown
    assert [(f.patient.number, f.followed) for f in found] == [("T-1", False)]
    withdrawn = [a for a in audit.of_subject(store, eye_id) if a["action"] in ("visit withdrawn", "follow-up ended")]
    assert [a["action"] for a in withdrawn] == ["visit withdrawn", "follow-up ended"]


def test_reminders_that_wait_are_dropped(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    when = Messages(smtp_host="localhost", sender="clinic@test.invalid")
    eve = datetime(2027, 3, 9, 18, 0, tzinfo=UTC)
    patient = f"patient:{visit.known_eye(store, eye_id).patient.id}"
    outgoing.choose(store, NOW, patient, outgoing.Choices(email="pat@test.invalid", quiet_from=time(21), quiet_to=time(8)))

    due = [d for d in reminders.due(store, eve, when, settings.clinic.tz, nullcontext) if d.kind == "visit"]
    assert [d.kind for d in due] == ["visit"]
    kept.add(store, eve, due[0].key, due[0].person, "visit", due[0].about, due[0].useless_after)
    kept.add(store, eve, "posture:x", due[0].person, "posture", eye_id, eve + timedelta(hours=1))
    end(store, nurse, eye_id, settings, at=eve)
    assert list(outgoing.take(store, eve, settings.clinic, when)) == []
    assert {m.state for m in kept.of_person(store, due[0].person)} == {"dropped"}
    assert [d for d in reminders.due(store, eve, when, settings.clinic.tz, nullcontext) if d.kind == "visit"] == []


@pytest.mark.parametrize(("iop", "how_soon"), [(46.0, "now"), (34.0, "today")])
@pytest.mark.parametrize("reason", sorted(set(following.REASONS) - {"died"}))
def test_nothing_urgent_ends_in_silence(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, iop: float, how_soon: str, reason: str
) -> None:
    measured(store, nurse, eye_id, settings, iop_mmhg=iop)
    open_ones = worries.open_callbacks(store)
    assert how_soon in {c.how_soon for c in open_ones}
    with pytest.raises(CareError, match="cannot wait"):
        end(store, nurse, eye_id, settings, reason, closes=[c.id for c in open_ones])
    assert load(store, eye_id, settings.clinic.tz).known.is_followed


def test_what_can_wait_is_closed_by_name_only_and_its_task_given_up(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings
) -> None:
    check_all(store, settings, NOW + timedelta(days=12))
    for c in worries.open_callbacks(store):
        store.execute("UPDATE callbacks SET how_soon = 'this-week' WHERE id = :id", {"id": c.id})
    first, *others = worries.open_callbacks(store)
    task = deciding.decide(Desk(store, NOW + timedelta(days=12), surgeon, ZONE), first.id, "sooner", "", settings.clinic)
    at = NOW + timedelta(days=13)
    with pytest.raises(CareError, match="each open callback"):
        end(store, nurse, eye_id, settings, at=at)
    with pytest.raises(CareError, match="each open callback"):
        end(store, nurse, eye_id, settings, at=at, closes=["another"])
    end(store, nurse, eye_id, settings, at=at, words="to the coast", closes=[c.id for c in (first, *others)])
    assert worries.open_callbacks(store) == []
    closed = worries.callback(store, first.id)
    assert closed is not None
    assert closed.outcome == "follow-up-ended"
    assert worries.steps_of(store, first.id)[-1].detail["words"] == "the patient moved away: to the coast"
    ended = tasks.task(store, task.id)
    assert ended is not None
    assert ended.given_up
    assert not deciding.can_undo(Desk(store, at, nurse, ZONE), closed)


def test_after_a_death_both_eyes_end_and_what_is_urgent_may_be_closed(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    note = operation_note(eye="left", agent="silicone-oil", percent=0)
    left, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), note, [])
    measured(store, nurse, eye_id, settings, iop_mmhg=46)
    with pytest.raises(CareError, match="each open callback"):
        end(store, nurse, left, settings, "died")
    end(store, nurse, left, settings, "died", closes=[c.id for c in worries.open_callbacks(store)])
    assert [load(store, id, settings.clinic.tz).known.end_reason for id in (eye_id, left)] == ["died", "died"]
    assert worries.open_callbacks(store) == []


def test_it_ends_once_for_a_known_reason_and_can_be_taken_up_with_a_reason(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    zone = settings.clinic.tz
    with pytest.raises(CareError, match="why"):
        end(store, nurse, eye_id, settings, "bored")
    with pytest.raises(Conflict):
        following.take_up(Desk(store, NOW, nurse, zone), eye_id, "was never ended")
    end(store, nurse, eye_id, settings)
    with pytest.raises(Conflict):
        end(store, nurse, eye_id, settings)
    with pytest.raises(CareError, match="why"):
        following.take_up(Desk(store, LATER, nurse, zone), eye_id, " ")
    following.take_up(Desk(store, LATER, nurse, zone), eye_id, "moved back")
    eye = load(store, eye_id, zone)
    assert eye.known.is_followed
    assert [(f.what, f.reason, f.words) for f in eye.follow_ups] == [
        ("begun", "operation", ""), ("ended", "moved", ""), ("resumed", "taken-up", "moved back"),
    ]  # fmt: skip


def test_silence_and_missed_visits_count_anew_from_taking_up(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, device: Device
) -> None:
    end(store, nurse, eye_id, settings)
    following.take_up(Desk(store, LATER, nurse, settings.clinic.tz), eye_id, "moved back")
    assert check_all(store, settings, LATER + timedelta(hours=1)) == 0
    assert [
        d.visit.name for d in lists.due_in(store, LATER, settings.clinic.tz, lists.STATES)
    ] == []  # missed before the end
    check_all(store, settings, LATER + timedelta(days=20))
    assert "silence" in open_worries(store)


def test_oil_that_stayed_too_long_meanwhile_calls_after_taking_up(store: Store, nurse: Actor, settings: Settings) -> None:
    note = operation_note(eye="left", agent="silicone-oil", percent=0)
    left, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), note, [])
    end(store, nurse, left, settings, "other-clinic")
    year = NOW + timedelta(days=365)
    following.take_up(Desk(store, year, nurse, settings.clinic.tz), left, "came back")
    check_all(store, settings, year + timedelta(days=14))
    assert "oil" in open_worries(store)


def test_what_is_entered_after_the_end_is_still_judged(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, device: Device
) -> None:
    end(store, nurse, eye_id, settings)
    told = {"pain": 8, "vision": "worse", "redness": "worse", "discharge": True}
    entry = {"id": new_id(), "operation": eye_id, "kind": "symptoms", "at": LATER.isoformat(), "body": told}
    entry |= {"by": "patient", "sequence": 1, "offset_minutes": 0}
    assert receive(store, LATER, device, [entry], settings.clinic.tz)[0].status == "received"
    assert "infection" in open_worries(store)
    measured(store, nurse, fellow(store, eye_id), settings, LATER, eye="left", iop_mmhg=55)
    assert {c.eye_id for c in worries.open_callbacks(store)} == {eye_id, fellow(store, eye_id)}
    assert not {"silence", "missed-visit"} & set(open_worries(store))


def test_a_new_operation_takes_follow_up_up_again(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    end(store, nurse, eye_id, settings)
    day = LATER.date() + timedelta(days=1)
    window = schedule.Window("day 1", day, day, day, "pressure")
    note = operation_note(operated_at=LATER - timedelta(hours=4), steroid_drops_until=None)
    again, _ = leaving.discharge(Desk(store, LATER, nurse, settings.clinic.tz), patient_details(), note, [window])
    assert again == eye_id
    eye = load(store, eye_id, settings.clinic.tz)
    assert eye.known.is_followed
    assert eye.follow_ups[-1].what == "resumed"
    due = lists.due_in(store, LATER, settings.clinic.tz, lists.STATES)
    assert [(d.visit.name, d.state) for d in due] == [("day 1", "coming")]  # not the one missed after the first operation


def test_an_ended_eye_is_censored_in_results(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    """Kaplan and Meier 1958: an eye counts as long as it was looked at, and no longer."""
    next_day = OPERATED + timedelta(hours=20)
    measured(store, nurse, eye_id, settings, next_day, iop_mmhg=15)
    end(store, nurse, eye_id, settings, "other-clinic", at=next_day)
    measured(store, nurse, eye_id, settings, LATER, findings=("detached",))
    found = results.results(store, LATER, settings.clinic.tz)
    assert (found.followed, found.attached) == (1, [])
    following.take_up(Desk(store, LATER, nurse, settings.clinic.tz), eye_id, "came back")
    assert len(results.results(store, LATER, settings.clinic.tz).attached) == 1


def test_the_oil_is_out_so_its_removal_is_planned_no_more(store: Store, nurse: Actor, settings: Settings) -> None:
    zone = settings.clinic.tz
    day = date(2027, 5, 25)
    windows = [
        schedule.Window(name, day, day, day, "") for name in ("list for oil removal", "month 3")
    ]  # fmt: skip
    note = operation_note(eye="left", agent="silicone-oil", percent=0)
    left, _ = leaving.discharge(Desk(store, NOW, nurse, zone), patient_details(), note, windows)
    assert load(store, left, zone).holds_liquid(NOW)
    record_clinic_event(Desk(store, LATER, nurse, zone), left, "tamponade-removed", {})
    eye = load(store, left, zone)
    assert not eye.holds_liquid(LATER)
    assert [v.name for v in eye.open_visits] == ["month 3"]
    said = [a for a in audit.of_subject(store, left) if a["action"] == "visit withdrawn"]
    assert len(said) == 1
    assert "list for oil removal" in said[0]["detail"]
    (entry,) = events.of_eye(store, left)
    withdraw(Desk(store, LATER + timedelta(hours=1), nurse, zone), entry.id, "the other eye was meant")
    eye = load(store, left, zone)
    assert eye.holds_liquid(LATER + timedelta(hours=1))
    assert [v.name for v in eye.open_visits] == ["list for oil removal", "month 3"]


@pytest.mark.parametrize(
    ("latest", "stays"), [(date(2027, 3, 4), True), (date(2027, 3, 5), False), (date(2027, 3, 6), False)]
)
def test_a_visit_of_today_leaves_the_book_with_the_end_and_one_that_was_missed_stays_missed(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, latest: date, stays: bool
) -> None:
    booked(store, eye_id, latest, "last look")
    end(store, nurse, eye_id, settings)
    assert ("last look" in {v.name for v in load(store, eye_id, ZONE).open_visits}) is stays


def test_what_is_open_stands_the_most_urgent_first_with_what_is_to_do_about_it(
    store: Store, nurse: Actor, eye_id: str
) -> None:
    known = eyes.eye(store, eye_id)
    assert known is not None
    week, late, now = (
        callback(store, eye_id, worry, how_soon, NOW + timedelta(hours=hours))
        for worry, how_soon, hours in (("a", "this-week", 0), ("b", "today", 9), ("c", "now", 1))
    )
    done, to_do = (a_task(store, week, nurse) for _ in range(2))
    tasks.end(store, NOW, done.id, nurse.id, "")
    found = following.still_open(store, [known])
    assert [(one.callback.id, [t.id for t in one.tasks]) for one in found] == [
        (now.id, []),
        (late.id, []),
        (week.id, [to_do.id]),
    ]


@pytest.mark.parametrize("closes", [0, 1])
def test_every_callback_that_is_open_is_named_before_it_ends(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, closes: int
) -> None:
    calls = [callback(store, eye_id, worry, "this-week").id for worry in ("a", "b")]
    with pytest.raises(CareError, match="say of each open callback"):
        end(store, nurse, eye_id, settings, closes=calls[:closes])
    end(store, nurse, eye_id, settings, closes=calls)
    assert open_worries(store) == []
