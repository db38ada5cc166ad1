"""What was entered is put right: a later event points back, and what rested on the old one follows."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import deciding, holding, settling
from followup.care.callbacks.calls import conversation
from followup.care.corrections import correcting
from followup.care.corrections import operation_note as operation_note_care
from followup.care.corrections.correcting import PutRight
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.home.receive import receive
from followup.care.learning import results
from followup.care.reading.entries import of_eye, said
from followup.care.reading.eye import load
from followup.care.visits.visit import record_clinic_event, record_visit
from followup.clinical.callbacks import DUE_WITHIN
from followup.clinical.pressure import DEFAULT_BANDS
from followup.config import Settings
from followup.records import Store, audit, events, eyes, visits, worries
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import HeardBody, MeasuresBody, SeenBody
from followup.records.bodies.kinds import KINDS, body_of, stored
from followup.records.store import new_id
from followup.records.values import Device, Event, Warning
from followup.web.charts import course_chart, course_table
from tests.conftest import NOW, ZONE, operation_note, patient_details

Correct = Callable[..., PutRight]


@pytest.fixture
def correct(store: Store, nurse: Actor, settings: Settings) -> Correct:
    def do(event_id: str, body: Body, reason: str = "a slip", now: datetime = NOW, **given: Any) -> PutRight:
        return correcting.correct(Desk(store, now, nurse, settings.clinic.tz), event_id, body, reason, **given)

    return do


def left_eye(store: Store, eye_id: str) -> str:
    known = eyes.eye(store, eye_id)
    assert known is not None
    return next(e.id for e in eyes.of_patient(store, known.patient.id) if e.side == "left")


def measured(store: Store, nurse: Actor, eye_id: str, settings: Settings, at: datetime = NOW, **body: Any) -> Event:
    made = MeasuresBody(**{"eye": "right", "instrument": "applanation", **body})
    record_visit(Desk(store, at, nurse, settings.clinic.tz), eye_id, [made])
    return events.of_eye(store, eye_id if made.eye == "right" else left_eye(store, eye_id))[-1]


def reading(of: Event, iop_mmhg: float) -> Body:
    """The same measures with another pressure."""
    return body_of("measures", {**stored(of.body), "iop_mmhg": iop_mmhg})


def warning(store: Store, eye_id: str, rule: str) -> Warning:
    (found,) = [w for w in worries.warnings_of(store, eye_id) if w.rule == rule]
    return found


def pressure_call(store: Store, eye_id: str) -> Any:
    (found,) = [c for c in worries.callbacks_of(store, eye_id) if c.worry == "pressure"]
    return found


def test_61_typed_for_16_leaves_picture_callback_and_results(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    zone = settings.clinic.tz
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=61)
    assert warning(store, eye_id, "pressure-severe").how_soon == "now"
    spikes = results.results(store, NOW, zone).spikes
    assert spikes is not None
    assert spikes.proportion == 1

    done = correct(typed.id, reading(typed, 16), "typed the wrong way round", NOW + timedelta(minutes=5))
    assert {w.rule for w in done.unfounded} == {w.rule for w in worries.warnings_of(store, eye_id) if w.worry == "pressure"}
    assert done.raised == []
    (stands,) = events.of_eye(store, eye_id)
    assert (stands.body.iop_mmhg, stands.at, stands.corrects) == (16, typed.at, typed.id)
    assert warning(store, eye_id, "pressure-severe").unfounded
    call = pressure_call(store, eye_id)
    assert call.state == "waiting"  # until a person settles it
    step = worries.steps_of(store, call.id)[-1]
    assert step.step == "entry put right"
    assert step.detail["by"] == "Nora Nurse"
    assert "pressure 61 mmHg" in step.detail["words"].partition("; is: ")[0]
    assert "pressure 16 mmHg" in step.detail["words"].partition("; is: ")[2]
    assert "typed the wrong way round" in step.detail["why"]
    spikes = results.results(store, NOW, zone).spikes
    assert spikes is not None
    assert spikes.proportion == 0
    eye = load(store, eye_id, zone)
    drawn = course_chart(eye, NOW, DEFAULT_BANDS).panels[1].marks
    assert [mark.label for mark in drawn] == ["16"]
    assert ["16 mmHg" in words for _, what, words in course_table(eye, NOW) if what == "measures"] == [True]


def test_the_forecast_follows(store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct) -> None:
    zone = settings.clinic.tz
    without = load(store, eye_id, zone).forecast(NOW).half_time_days
    typed = measured(store, nurse, eye_id, settings, bubble_percent=60)
    assert load(store, eye_id, zone).forecast(NOW).half_time_days != without
    correcting.withdraw(Desk(store, NOW, nurse, zone), typed.id, "another patient")
    assert load(store, eye_id, zone).forecast(NOW).half_time_days == without


def test_measures_of_the_wrong_eye_move_and_are_judged_there(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=55)
    done = correct(typed.id, typed.body, "the eyes were changed over", side="left")
    left = left_eye(store, eye_id)
    assert done.eye_id == left
    assert events.of_eye(store, eye_id) == []
    assert [e.body.eye for e in events.of_eye(store, left)] == ["left"]
    assert warning(store, eye_id, "pressure-severe").unfounded
    assert [w.eye_id for w in done.raised] == [left] * len(done.raised) != []
    assert not any(w.unfounded for w in worries.warnings_of(store, left))


def test_what_is_still_found_keeps_its_warning_and_the_callback_hears_of_the_new_value(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=61)
    done = correct(typed.id, reading(typed, 52))
    assert done.unfounded == []
    assert not warning(store, eye_id, "pressure-severe").unfounded
    assert "pressure 52 mmHg" in worries.steps_of(store, pressure_call(store, eye_id).id)[-1].detail["words"]


def test_a_pressure_that_was_measured_keeps_its_grounds_though_an_earlier_one_would_now_have_told_first(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    """31 after 30 was a sign because it was worse; after 35 it is none, and yet it was measured."""
    first = measured(store, nurse, eye_id, settings, iop_mmhg=30)
    measured(store, nurse, eye_id, settings, NOW + timedelta(hours=1), iop_mmhg=31)
    later = [w for w in worries.warnings_of(store, eye_id) if w.raised_at == NOW + timedelta(hours=1)]
    assert later
    correct(first.id, reading(first, 35), now=NOW + timedelta(hours=2))
    assert not any(w.unfounded for w in worries.warnings_of(store, eye_id))


@pytest.mark.parametrize("settled", [False, True])
def test_a_warning_that_comes_back_is_marked_no_more_and_calls_again(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct, *, settled: bool
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=61)
    first = correct(typed.id, reading(typed, 16), now=NOW + timedelta(minutes=1))
    call = pressure_call(store, eye_id)
    if settled:
        holding.claim(Desk(store, NOW + timedelta(minutes=2), surgeon, ZONE), call.id)
        settling.settle(
            Desk(store, NOW + timedelta(minutes=2), surgeon, ZONE), call.id, "no-action", "mistyped", settings.clinic
        )
    second = correct(first.event_id, typed.body, "it was 61 after all", NOW + timedelta(minutes=3))
    assert not any(w.unfounded for w in worries.warnings_of(store, eye_id))
    again = pressure_call(store, eye_id)
    assert (again.id, again.state) == (call.id, "waiting")
    steps = [s.step for s in worries.steps_of(store, call.id)]
    assert "raised again" in steps[-3:]
    correct(second.event_id, reading(typed, 17), now=NOW + timedelta(minutes=4))
    assert warning(store, eye_id, "pressure-severe").unfounded


def test_a_warning_that_comes_back_joins_the_callback_that_is_open_by_then(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=61)
    first = correct(typed.id, reading(typed, 16))
    call = pressure_call(store, eye_id)
    holding.claim(Desk(store, NOW, surgeon, ZONE), call.id)
    settling.settle(
        Desk(store, NOW + timedelta(minutes=1), surgeon, ZONE), call.id, "no-action", "mistyped", settings.clinic
    )
    measured(store, nurse, eye_id, settings, NOW + timedelta(hours=1), iop_mmhg=31)
    (other,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    assert (other.id != call.id, other.how_soon) == (True, "today")
    correct(first.event_id, typed.body, now=NOW + timedelta(hours=2))
    (standing,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    assert (standing.id, standing.how_soon) == (other.id, "now")
    assert any("61" in s.detail.get("words", "") for s in worries.steps_of(store, other.id))


@pytest.mark.parametrize("state", ["waiting", "claimed", "to-do", "settled"])
@pytest.mark.parametrize(("was", "right", "again"), [(31, 39, True), (39, 31, False), (31, 31, False)])
def test_what_is_worse_than_it_was_entered_calls_again_whatever_became_of_its_callback(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct, state: str, was: float,
    right: float, *, again: bool,
) -> None:  # fmt: skip
    """Both are of one rule (30 mmHg or more), so the sign is on record already and is not raised a second time."""
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=was, pain=1)
    call, desk = pressure_call(store, eye_id), Desk(store, NOW, surgeon, ZONE)
    if state in ("claimed", "settled"):
        holding.claim(desk, call.id)
    if state == "settled":
        settling.settle(desk, call.id, "no-action", "only just", settings.clinic)
    if state == "to-do":
        deciding.decide(desk, call.id, "advice", "", settings.clinic, due_at=NOW + timedelta(days=20))
    later = NOW + timedelta(hours=1)
    done = correct(typed.id, body_of("measures", {**stored(typed.body), "iop_mmhg": right, "pain": 0}), now=later)
    stands = pressure_call(store, eye_id)
    assert stands.state == ("waiting" if again and state == "settled" else state)
    assert (call.id in [c.id for c in done.called_again]) is again
    if again:
        assert stands.due_at <= later + DUE_WITHIN["today"]
        assert not conversation(worries.steps_of(store, call.id))
    assert correcting.outcome(store, events.of_eye(store, eye_id)[-1]) == done


def test_what_was_settled_of_another_time_is_not_called_again_by_what_is_usual_for_the_eye(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    """A rise to 22 mmHg is a greater one from 12 than from 15: it was 22 all the same."""
    first = measured(store, nurse, eye_id, settings, iop_mmhg=15)
    measured(store, nurse, eye_id, settings, NOW + timedelta(hours=1), iop_mmhg=22)
    call, desk = pressure_call(store, eye_id), Desk(store, NOW + timedelta(hours=2), surgeon, ZONE)
    holding.claim(desk, call.id)
    settling.settle(desk, call.id, "no-action", "on its way", settings.clinic)
    done = correct(first.id, reading(first, 12), now=NOW + timedelta(hours=3))
    assert "entry put right" in [s.step for s in worries.steps_of(store, call.id)]
    assert (pressure_call(store, eye_id).state, done.called_again) == ("settled", [])


def test_nothing_is_put_right_twice(store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=26)
    done = correct(typed.id, reading(typed, 16))
    for again in (
        lambda: correct(typed.id, reading(typed, 18)),
        lambda: correcting.withdraw(Desk(store, NOW, nurse, settings.clinic.tz), typed.id, "x"),
    ):
        with pytest.raises(Conflict, match=r"corrected by Nora Nurse on 5 March 2027 at 11:00; it says now: .*16 mmHg"):
            again()
    correcting.withdraw(Desk(store, NOW, nurse, settings.clinic.tz), done.event_id, "another patient’s")
    with pytest.raises(Conflict, match="withdrawn by Nora Nurse"):
        correct(done.event_id, typed.body)
    assert len(events.history_of(store, eye_id)) == 3


@pytest.mark.parametrize("reason", ["", "  ", "x" * 501])
def test_a_reason_is_needed(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct, reason: str
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=26)
    with pytest.raises(CareError) as error:
        correct(typed.id, reading(typed, 16), reason)
    assert error.value.field == "reason"
    with pytest.raises(CareError):
        correcting.withdraw(Desk(store, NOW, nurse, settings.clinic.tz), typed.id, reason)
    assert len(events.history_of(store, eye_id)) == 1


def test_one_audit_entry_says_who_and_why(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=16)
    before = len(audit.of_subject(store, eye_id))
    correct(typed.id, reading(typed, 17), "misread")
    (entry,) = audit.of_subject(store, eye_id)[before:]
    assert (entry["who"], entry["action"]) == (nurse.signature, "measures corrected")
    assert "misread" in entry["detail"]
    assert audit.broken_at(store) is None


def test_what_cannot_be_changes_nothing(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    typed = measured(store, nurse, eye_id, settings, iop_mmhg=16)
    for body, given, said_ in (
        (typed.body, {}, "nothing was changed"),
        (typed.body, {"at": NOW + timedelta(hours=1)}, "future"),
        (typed.body, {"at": datetime(26, 1, 1, tzinfo=NOW.tzinfo)}, "too long ago"),
    ):
        with pytest.raises(CareError, match=said_):
            correct(typed.id, body, **given)
    with pytest.raises(ValueError, match="iop_mmhg"):
        reading(typed, 160)
    with pytest.raises(CareError, match="its own kind"):
        correct(typed.id, HeardBody(words="well"))
    with pytest.raises(NotFound):
        correct("nothing", typed.body)
    assert len(events.history_of(store, eye_id)) == 1


BODIES: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "measures": ({"eye": "right", "iop_mmhg": 15}, {"eye": "right", "iop_mmhg": 16}),
    "heard": ({"words": "well"}, {"words": "not well"}),
    "did-not-come": (
        {"visit": "day 1", "visit_id": "x", "on": "2027-03-03", "barrier": "forgot"},
        {"visit": "day 1", "visit_id": "x", "on": "2027-03-03", "barrier": "unwell"},
    ),
    "symptoms": ({"pain": 8, "vision": "worse"}, {"pain": 0, "vision": "same"}),
    "posture": (
        {"position": "face-down", "from": "2027-03-05T07:00:00Z", "to": "2027-03-05T08:00:00Z"},
        {"position": "face-down", "from": "2027-03-05T07:00:00Z", "to": "2027-03-05T07:30:00Z"},
    ),
    "bubble-seen": ({"percent": 80}, {"percent": 70}),
    "journey": ({"heights_metres": [0, 3000]}, {"heights_metres": [0, 30]}),
    "anaesthetic": ({"words": "dentist"}, {"words": "none was given"}),
    "drops": ({"name": "antibiotic"}, {"name": "steroid"}),
    "visit-request": ({"visit": "week 1", "words": ""}, {"visit": "week 1", "words": "in the morning"}),
}


@pytest.mark.parametrize("kind", sorted(BODIES))
@pytest.mark.parametrize("author", ["nurse", "patient:x"])
def test_every_kind_is_corrected_and_withdrawn(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct, kind: str, author: str
) -> None:
    was, better = BODIES[kind]
    who = nurse.signature if author == "nurse" else author
    events.add(store, new_id(), eye_id, kind, NOW, was, who, NOW)
    (typed,) = events.of_eye(store, eye_id)
    done = correct(typed.id, body_of(kind, better))
    (stands,) = events.of_eye(store, eye_id)
    assert (stands.kind, stands.corrects, stands.author) == (kind, typed.id, nurse.signature)
    assert load(store, eye_id, settings.clinic.tz).set_aside == []
    correcting.withdraw(Desk(store, NOW, nurse, settings.clinic.tz), done.event_id, "not at all")
    assert events.of_eye(store, eye_id) == []
    assert [e.kind for e in events.history_of(store, eye_id)] == [kind, kind, "withdrawal"]
    assert "cannot be read" not in said(body_of(kind, was), settings.clinic.tz)


@pytest.mark.parametrize("kind", ["no-gas-seen", "tamponade-removed"])
def test_what_has_only_a_time_gets_an_earlier_one_and_is_withdrawn(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct, kind: str
) -> None:
    zone = settings.clinic.tz
    record_clinic_event(Desk(store, NOW, surgeon, zone), eye_id, kind, {})
    (typed,) = events.of_eye(store, eye_id)
    done = correct(typed.id, typed.body, at=NOW - timedelta(hours=2))
    assert not load(store, eye_id, zone).caution(NOW)
    correcting.withdraw(Desk(store, NOW, nurse, zone), done.event_id, "the other eye")
    assert load(store, eye_id, zone).caution(NOW)


def test_no_correction_lifts_the_caution_where_nobody_was_asked(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    """By moving *no gas seen* past gas that was seen later, or either record to an eye that is full of gas."""
    zone = settings.clinic.tz
    left = left_eye(store, eye_id)
    note = operation_note(eye="left", agent="silicone-oil", percent=0, breaks=[])
    leaving.discharge(Desk(store, NOW - timedelta(days=1), nurse, zone), patient_details(), note, [])
    record_clinic_event(Desk(store, NOW, nurse, zone), left, "tamponade-removed", {})
    (removed,) = events.of_eye(store, left)
    with pytest.raises(CareError, match="no oil in the right eye"):
        correct(removed.id, removed.body, side="right")
    record_clinic_event(Desk(store, NOW, surgeon, zone), eye_id, "no-gas-seen", {})
    (none,) = events.of_eye(store, eye_id)
    later = NOW + timedelta(hours=1)
    measured(store, nurse, eye_id, settings, later, bubble_percent=60)
    for given in ({"at": later + timedelta(minutes=1)}, {"side": "left"}):
        with pytest.raises(CareError, match="withdraw it here"):
            correct(none.id, none.body, now=later + timedelta(hours=1), **given)
    assert load(store, eye_id, zone).caution(later)


@pytest.mark.parametrize("how", ["withdrawn", "none", "other eye", "earlier"])
def test_putting_a_level_right_brings_no_older_no_gas_seen_back(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, correct: Correct, how: str
) -> None:
    """Gas was seen after *no gas seen*: the caution stays until somebody looks again, also where that level was a slip."""
    zone, later = settings.clinic.tz, NOW + timedelta(hours=2)
    record_clinic_event(Desk(store, NOW, surgeon, zone), eye_id, "no-gas-seen", {})
    none = events.of_eye(store, eye_id)[-1]
    level = measured(store, nurse, eye_id, settings, NOW + timedelta(hours=1), bubble_percent=85, iop_mmhg=15)

    def put_right() -> object:
        if how == "withdrawn":
            return correcting.withdraw(Desk(store, later, nurse, zone), level.id, "another patient’s")
        left_out = body_of("measures", {**stored(level.body), "bubble_percent": 0 if how == "none" else 85})
        given = {"other eye": {"side": "left"}, "earlier": {"at": NOW - timedelta(hours=1)}}.get(how, {})
        return correct(level.id, left_out, now=later, **given)

    with pytest.raises(CareError, match="take that back first"):
        put_right()
    assert [e.id for e in events.of_eye(store, eye_id)] == [none.id, level.id]
    correcting.withdraw(Desk(store, later, nurse, zone), none.id, "gas was seen since")
    put_right()
    assert load(store, eye_id, zone).caution(later)


@pytest.mark.parametrize("side", ["right", "left"])
def test_putting_an_operation_right_brings_no_no_gas_seen_past_it(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, side: str
) -> None:
    """*No gas seen* of an earlier operation, of this eye or of the other, never counts for a later one’s gas."""
    zone, day = settings.clinic.tz, timedelta(days=1)
    here = eye_id if side == "right" else left_eye(store, eye_id)
    if side == "left":
        leaving.discharge(Desk(store, NOW, nurse, zone), patient_details(), operation_note(eye="left", breaks=[]), [])
    record_clinic_event(Desk(store, NOW, surgeon, zone), here, "no-gas-seen", {})
    again = operation_note(operated_at=NOW + day, agent="c3f8", percent=14)
    later = NOW + 2 * day
    leaving.discharge(Desk(store, later, nurse, zone), patient_details(), again, [])
    noted = eyes.notes_of(store, eye_id)[-1]
    right = again.model_copy(update={"eye": side, "operated_at": NOW - day})
    with pytest.raises(CareError, match=f"caution of gas of the {side} eye"):
        operation_note_care.correct(Desk(store, later, nurse, zone), eye_id, noted.operation_id, right, "misread")
    assert eyes.notes_of(store, eye_id)[-1].id == noted.id
    assert load(store, eye_id, zone).caution(later)


def test_a_visit_that_took_place_is_put_on_another(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    zone = settings.clinic.tz
    record_visit(Desk(store, NOW, nurse, zone), eye_id, [], visit="day 1")
    (typed,) = events.of_eye(store, eye_id)
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    correct(typed.id, SeenBody(visit="", visit_id=week.identity))
    assert [v.name for v in load(store, eye_id, zone).open_visits] == ["day 1"]
    (stands,) = events.of_eye(store, eye_id)
    with pytest.raises(CareError, match="not in the book"):
        correct(stands.id, SeenBody(visit="week 1", visit_id="another"))
    with pytest.raises(CareError, match="not in the book"):
        correct(stands.id, stands.body, side="left")


def test_what_the_phone_takes_back_marks_what_rested_on_it(
    store: Store, eye_id: str, device: Device, settings: Settings
) -> None:
    def sent(kind: str, body: dict[str, Any], n: int, **more: str) -> dict[str, Any]:
        made = {"id": new_id(), "operation": eye_id, "kind": kind, "at": NOW.isoformat(), "body": body, "by": "patient"}
        return {**made, "offset_minutes": 60, "sequence": n, **more}

    told = sent("symptoms", {"pain": 9, "vision": "worse"}, 1)
    receive(store, NOW, device, [told], settings.clinic.tz)
    assert [w for w in worries.warnings_of(store, eye_id) if w.raised_at == NOW]
    back = sent("withdrawal", {"reason": "wrong person"}, 2, corrects=told["id"])
    assert [r.status for r in receive(store, NOW, device, [back], settings.clinic.tz)] == ["received"]
    step = next(s for c in worries.callbacks_of(store, eye_id) for s in worries.steps_of(store, c.id) if "why" in s.detail)
    assert (step.who, step.detail["by"]) == (f"patient:{device.id}", "the patient")
    assert all(w.unfounded == (w.raised_at == NOW) for w in worries.warnings_of(store, eye_id))


def test_entries_are_told_newest_first_with_what_they_put_right(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, correct: Correct
) -> None:
    first = measured(store, nurse, eye_id, settings, iop_mmhg=61)
    second = measured(store, nurse, eye_id, settings, NOW + timedelta(hours=1), iop_mmhg=17)
    gone = measured(store, nurse, eye_id, settings, NOW + timedelta(hours=2), iop_mmhg=18)
    later = NOW + timedelta(hours=3)
    once = correct(first.id, reading(first, 19), now=later)
    twice = correct(once.event_id, reading(first, 16), "again", now=later)
    moved = correct(second.id, second.body, now=later, side="left")
    correcting.withdraw(Desk(store, later, nurse, settings.clinic.tz), gone.id, "not hers")
    told = of_eye(store, eye_id, settings.clinic.tz)
    assert [e.event.id for e in told] == [gone.id, second.id, twice.event_id]
    assert told[0].is_withdrawn
    assert told[1].later is not None
    assert told[1].later.side == "left"
    assert ["61" in e.words or "19" in e.words for e in told[2].earlier] == [True, True]
    assert (told[2].event.reason, told[2].who, told[2].came_late) == ("again", "Nora Nurse", True)
    (there,) = of_eye(store, left_eye(store, eye_id), settings.clinic.tz)
    assert (there.event.id, [e.side for e in there.earlier]) == (moved.event_id, ["right"])


def test_every_kind_has_a_test_here() -> None:
    assert set(KINDS) - {"withdrawal"} == {*BODIES, "no-gas-seen", "tamponade-removed", "seen", "arrived"}
