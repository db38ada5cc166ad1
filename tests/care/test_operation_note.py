"""The operation note and the particulars are put right, and what rested on them follows."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, holding, settling, theatre
from followup.care.corrections import operation_note, particulars
from followup.care.corrections.operation_note import NotePutRight
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict, NotFound, Refused
from followup.care.patients import following
from followup.care.reading.eye import load
from followup.care.today import lists
from followup.care.visits import book
from followup.care.visits.visit import record_visit
from followup.clinical import schedule
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Settings
from followup.jobs import check_all
from followup.records import Store, audit, eyes, patients, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Task
from tests.conftest import NOW, OPERATED, ZONE, patient_details
from tests.conftest import operation_note as a_note


def fellow(store: Store, eye_id: str) -> str:
    known = eyes.eye(store, eye_id)
    assert known is not None
    return next(e.id for e in eyes.of_patient(store, known.patient.id) if e.id != known.id)


def operation_of(store: Store, eye_id: str) -> str:
    return eyes.notes_of(store, eye_id)[-1].operation_id


def put_right(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, reason: str = "misread", **changes: Any
) -> NotePutRight:
    operation_id = operation_of(store, eye_id)
    return operation_note.correct(
        Desk(store, NOW, nurse, settings.clinic.tz), eye_id, operation_id, a_note(**changes), reason
    )


def test_every_part_is_put_right_and_every_note_is_kept(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    zone = settings.clinic.tz
    changes = {
        "operated_at": OPERATED - timedelta(days=1),
        "surgeon": "Sue Second",
        "indication": "retinal-detachment",
        "steps": ["vitrectomy"],
        "breaks": [],
        "lens": "pseudophakic",
        "agent": "sf6",
        "percent": 20.0,
        "fill_percent": 90.0,
        "risks": [],
        "baseline": {"acuity": "6/24"},
        "drops": [{"name": "steroid", "times_a_day": 4, "until": "2027-03-30"}],
        "steroid_drops_until": date(2027, 3, 31),
        "notes": "dictated",
    }
    done = put_right(store, nurse, eye_id, settings, **changes)
    assert {what for what, _, _ in done.differences} == set(changes)
    eye = load(store, eye_id, zone)
    assert (eye.operation.agent, eye.operation.lens, eye.operation.at) == ("sf6", "pseudophakic", changes["operated_at"])
    assert [v.name for v in eye.visits] == ["day 1", "week 1"]
    first, last = eyes.history_of(store, operation_of(store, eye_id))
    assert (first.agent, first.reason, last.reason, last.recorded_by) == ("c2f6", "", "misread", nurse.signature)


def test_a_warning_that_rested_on_a_wrong_note_is_marked(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    """25 mmHg is a rise from 15, and none from 25."""
    body = MeasuresBody(eye="right", iop_mmhg=25, instrument="applanation")
    record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [body])
    rise = next(w for w in worries.warnings_of(store, eye_id) if w.rule == "pressure-rise")
    done = put_right(store, nurse, eye_id, settings, baseline={"acuity": "6/60", "iop_mmhg": 25})
    assert rise.id in {w.id for w in done.unfounded}
    step = worries.steps_of(store, rise.callback_id)[-1]
    assert step.step == "entry put right"
    assert "iop mmhg 15" in step.detail["words"]
    put_right(store, nurse, eye_id, settings, baseline={"acuity": "6/60", "iop_mmhg": 15})
    assert not any(w.unfounded for w in worries.warnings_of(store, eye_id))


def test_the_wrong_eye_moves_the_operation_with_its_visits_and_its_follow_up(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    zone, left = settings.clinic.tz, fellow(store, eye_id)
    record_visit(Desk(store, NOW, nurse, zone), eye_id, [], visit="day 1")
    done = put_right(store, nurse, eye_id, settings, eye="left")
    assert done.eye_id == left
    assert [v.name for v in done.moved_visits] == ["week 1"]
    assert [v.name for v in visits.of_eye(store, left)] == ["week 1"]
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1"]  # took place, and stays on record
    there, here = (eyes.eye(store, id) for id in (left, eye_id))
    assert there is not None
    assert here is not None
    assert (there.is_followed, here.is_followed, here.note) == (True, False, None)
    assert load(store, left, zone).caution(NOW)
    assert not load(store, eye_id, zone).caution(NOW)
    assert [e.id for e in eyes.followed(store)] == [left]
    assert {d.eye.id for d in lists.due_in(store, NOW, zone, lists.STATES)} == {left}
    with pytest.raises(NotFound):
        operation_note.notes(store, eye_id, eyes.notes_of(store, left)[0].operation_id)


def test_the_eye_that_was_not_operated_after_all_is_watched_as_the_fellow_eye(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    put_right(store, nurse, eye_id, settings, eye="left")
    body = MeasuresBody(eye="right", iop_mmhg=45, instrument="applanation")
    raised = record_visit(Desk(store, NOW, nurse, settings.clinic.tz), fellow(store, eye_id), [body])
    assert {(w.eye_id, w.worry) for w in raised} >= {(eye_id, "other-eye")}


def test_an_eye_with_another_operation_stays_followed_and_keeps_that_ones_visits(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    zone, later = settings.clinic.tz, NOW + timedelta(days=2)
    window = schedule.Window("week 2", date(2027, 3, 20), date(2027, 3, 18), date(2027, 3, 22), "retina")
    leaving.discharge(Desk(store, later, nurse, zone), patient_details(), a_note(operated_at=later), [window])
    first, second = (n.operation_id for n in eyes.notes_of(store, eye_id))
    note = a_note(operated_at=later, eye="left")
    operation_note.correct(Desk(store, later, nurse, zone), eye_id, second, note, "the other eye")
    left = fellow(store, eye_id)
    assert [n.operation_id for n in eyes.notes_of(store, eye_id)] == [first]
    assert [v.name for v in visits.of_eye(store, left)] == ["week 2"]
    known = eyes.eye(store, eye_id)
    assert known is not None
    assert known.is_followed


def test_the_visits_come_back_with_an_operation_that_was_put_right_twice(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    """Beside an operation of the other eye that came into the records in between, which keeps its own."""
    zone, left = settings.clinic.tz, fellow(store, eye_id)
    window = schedule.Window("week 2", date(2027, 3, 20), date(2027, 3, 18), date(2027, 3, 22), "retina")
    old = a_note(eye="left", operated_at=OPERATED - timedelta(days=30))
    leaving.discharge(Desk(store, NOW, nurse, zone), patient_details(), old, [window])
    operation_id = operation_of(store, eye_id)
    for hours, eye, side in ((1, eye_id, "left"), (2, left, "right")):
        desk = Desk(store, NOW + timedelta(hours=hours), nurse, zone)
        done = operation_note.correct(desk, eye, operation_id, a_note(eye=side), "the eyes were changed over")
        assert [v.name for v in done.moved_visits] == ["day 1", "week 1"]
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]
    assert [v.name for v in visits.of_eye(store, left)] == ["week 2"]


def test_a_visit_before_the_corrected_surgery_stops_the_move(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    with pytest.raises(CareError, match=r"the visit day 1 is 3 March 2027.*Move that visit first"):
        put_right(store, nurse, eye_id, settings, eye="left", operated_at=OPERATED + timedelta(days=2))
    assert len(eyes.history_of(store, operation_of(store, eye_id))) == 1


@pytest.mark.parametrize("operated_at", [OPERATED - timedelta(days=200), OPERATED + timedelta(days=2)])
def test_a_visit_that_lies_out_of_bounds_once_the_day_is_put_right_can_be_cancelled(
    store: Store, nurse: Actor, settings: Settings, operated_at: datetime
) -> None:
    """More than three years after surgery, or before it."""
    desk = Desk(store, NOW, nurse, settings.clinic.tz)
    first, far = OPERATED.date() + timedelta(days=1), OPERATED.date() + timedelta(days=1000)
    soon, window = (schedule.Window(name, day, day, day, "retina") for name, day in (("day 1", first), ("year 3", far)))
    eye_id = leaving.discharge(desk, patient_details("T-9"), a_note(), [soon, window])[0]
    put_right(store, nurse, eye_id, settings, operated_at=operated_at)
    planned = visits.of_eye(store, eye_id)
    for v in planned:
        book.undo(desk, book.cancel(desk, v.identity, "another day is agreed"))
        book.cancel(desk, v.identity, "the patient moved away")
    assert (len(planned), visits.of_eye(store, eye_id)) == (2, [])


def test_an_operation_takes_along_visits_that_the_eyes_other_one_could_not_have(
    store: Store, nurse: Actor, settings: Settings
) -> None:
    """The first was four years ago; what is planned for the second lies two years ahead."""
    desk, who, day = Desk(store, NOW, nurse, settings.clinic.tz), patient_details("T-9"), NOW.date() + timedelta(days=730)
    leaving.discharge(desk, who, a_note(operated_at=OPERATED - timedelta(days=4 * 365)), [])
    windows = [schedule.Window("year 2", day, day, day, "retina")]
    eye_id = leaving.discharge(desk, who, a_note(operated_at=NOW), windows)[0]
    note = a_note(operated_at=NOW, eye="left")
    done = operation_note.correct(desk, eye_id, operation_of(store, eye_id), note, "the other eye")
    assert [v.target for v in done.moved_visits] == [day]
    assert [v.target for v in visits.of_eye(store, done.eye_id)] == [day]


@pytest.mark.parametrize("reason", [None, "finished", "died"])
@pytest.mark.parametrize("other", ["never", "followed", "finished"])
def test_an_operation_takes_its_follow_up_along_as_it_stands(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, reason: str | None, other: str
) -> None:
    """An eye that is followed is so no less for it, and whom nobody follows any more is not taken up again by a correction."""
    desk, left = Desk(store, NOW, nurse, ZONE), fellow(store, eye_id)
    if other != "never":
        earlier = a_note(eye="left", operated_at=OPERATED - timedelta(days=200), steroid_drops_until=None)
        leaving.discharge(desk, patient_details(), earlier, [])
    if other == "finished":
        following.end(desk, left, "finished", "", closes=[c.id for c in worries.callbacks_of(store, left)])
    if reason:
        open_ones = [c.id for c in worries.open_callbacks(store)]
        for call in open_ones:
            holding.claim(desk, call)
            calls.attempt(desk, call, "carer", "", settings.clinic)
            settling.settle(desk, call, "advice", "told", settings.clinic)
        following.end(desk, eye_id, reason, "")
    later = Desk(store, NOW + timedelta(days=3), nurse, ZONE)
    done = operation_note.correct(later, eye_id, operation_of(store, eye_id), a_note(eye="left"), "the other eye")
    there, here = (eyes.eye(store, id) for id in (done.eye_id, eye_id))
    assert there is not None
    assert here is not None
    assert (there.is_followed, here.is_followed) == (reason is None or (other == "followed" and reason != "died"), False)
    if not there.is_followed:
        assert there.end_reason == (reason if other != "finished" else "finished")
        assert there.ended_at == NOW
        assert [f.what for f in load(store, done.eye_id, ZONE).follow_ups] == ["begun", "ended"]
        assert lists.due_in(store, later.now, ZONE, lists.STATES) == []
        check_all(store, settings, later.now + timedelta(days=20))
        assert [c.worry for c in worries.open_callbacks(store)] == []


MONDAY = date(2027, 3, 8)


def theatre_decided(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings) -> Task:
    """For a pressure of this eye, on Monday, in the nurse's hands; the patient does not know yet."""
    measures = [MeasuresBody(eye="right", iop_mmhg=33, instrument="applanation")]
    record_visit(Desk(store, NOW, nurse, ZONE), eye_id, measures)
    call = next(c for c in worries.open_callbacks(store) if c.worry == "pressure")
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), call.id, "theatre", "", settings.clinic, owner=nurse.id)
    theatre.plan(Desk(store, NOW, nurse, ZONE), task.id, MONDAY, "morning list")
    return task


def operated_on(store: Store, nurse: Actor, at: datetime, days: float = 2, **changes: Any) -> str:
    """A second operation, `days` after now, discharged by what the note says; returns its id."""
    window = schedule.Window("week 2", date(2027, 3, 20), date(2027, 3, 18), date(2027, 3, 22), "retina")
    desk = Desk(store, NOW + timedelta(days=days), nurse, ZONE)
    eye = leaving.discharge(desk, patient_details(), a_note(operated_at=at, **changes), [window])[0]
    return eyes.notes_of(store, eye)[-1].operation_id


def on_theatre_list(store: Store, nurse: Actor) -> list[tuple[date | None, str, bool, str | None]]:
    listed = theatre.listed(Desk(store, NOW, nurse, ZONE))
    return [(b.task.theatre_on, b.task.theatre_list, b.confirmed, b.task.owner) for b in listed]


@pytest.mark.parametrize(
    ("eye", "back", "stands"),
    [
        ("left", 0, True),  # it was of the other eye
        ("right", 500, True),  # it was years before the one that was taken for the earlier
        ("right", 1, False),  # a day earlier than it was written: it stays what ended the plan
    ],
)
def test_what_a_discharge_ended_on_an_eye_stands_again_where_it_was_not_operated_then(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, eye: str, back: int, *, stands: bool
) -> None:
    """Of an eye that was operated before: its plan, a call about a visit it missed, and theatre that was decided for it."""
    task = theatre_decided(store, nurse, surgeon, eye_id, settings)
    missed = next(c for c in worries.open_callbacks(store) if c.worry == "missed-visit")
    planned = visits.of_eye(store, eye_id)
    second = NOW + timedelta(days=2)
    operation_id = operated_on(store, nurse, second)
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 2"]
    assert {worries.callback(store, id).state for id in (missed.id, task.callback_id)} == {"settled"}  # type: ignore[union-attr]
    desk = Desk(store, second + timedelta(hours=3), nurse, ZONE)
    note = a_note(eye=eye, operated_at=second - timedelta(days=back), steroid_drops_until=None)
    done = operation_note.correct(desk, eye_id, operation_id, note, "misread")
    own = {v.identity for v in visits.of_eye(store, eye_id)}
    assert ({v.identity for v in planned} <= own) is stands
    assert [v.name for v in done.planned_again] == (["week 1"] if stands else [])
    assert [
        (c.before.withdrawn, c.changed.name) for c in visits.to_tell(store, desk.today) if c.changed.eye_id == eye_id
    ] == ([(True, "week 1")] if stands else [])
    states = [found.state for id in (missed.id, task.callback_id) if (found := worries.callback(store, id))]
    assert states == (["waiting", "to-do"] if stands else ["settled", "settled"])
    assert [c.id for c in done.to_come] == ([task.callback_id] if stands else [])
    assert on_theatre_list(store, nurse) == ([(MONDAY, "morning list", False, None)] if stands else [])
    said = [(entry.action, entry.subject) for entry in audit.latest(store)]
    assert (("callback taken back", task.callback_id) in said) == stands
    again = worries.callback(store, task.callback_id)
    assert again is not None
    assert again.due_at == desk.now + DUE_WITHIN["today"] or not stands


def test_theatre_that_is_still_to_come_is_decided_anew_where_its_worry_was_raised_meanwhile(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings
) -> None:
    task = theatre_decided(store, nurse, surgeon, eye_id, settings)
    second = NOW + timedelta(days=2)
    operation_id = operated_on(store, nurse, second)
    desk = Desk(store, second + timedelta(hours=3), nurse, ZONE)
    record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=45, instrument="applanation")])
    (other,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    done = operation_note.correct(
        desk, eye_id, operation_id, a_note(eye="left", operated_at=second, steroid_drops_until=None), "the other eye"
    )
    assert (other.id != task.callback_id, [c.id for c in done.to_come], on_theatre_list(store, nurse)) == (
        True,
        [other.id],
        [],
    )
    assert "theatre cancelled" in [s.step for s in worries.steps_of(store, other.id)]


def test_theatre_that_was_confirmed_stands_on_its_list_as_it_was_where_the_operation_was_of_the_other_eye(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings
) -> None:
    task, desk = theatre_decided(store, nurse, surgeon, eye_id, settings), Desk(store, NOW, nurse, ZONE)
    calls.attempt(desk, task.callback_id, "patient", "", settings.clinic)
    theatre.confirm(desk, task.id)
    second = NOW + timedelta(days=2)
    operation_id = operated_on(store, nurse, second)
    assert on_theatre_list(store, nurse) == []
    note = a_note(eye="left", operated_at=second, steroid_drops_until=None)
    operation_note.correct(Desk(store, second, nurse, ZONE), eye_id, operation_id, note, "the other eye")
    assert on_theatre_list(store, nurse) == [(MONDAY, "morning list", True, nurse.id)]


def test_what_cannot_be_is_refused(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    stood = eyes.notes_of(store, eye_id)[0].id
    with pytest.raises(CareError, match="nothing was changed"):
        put_right(store, nurse, eye_id, settings)
    with pytest.raises(CareError, match="say why"):
        put_right(store, nurse, eye_id, settings, " ", lens="aphakic")
    with pytest.raises(CareError, match="date of surgery"):
        put_right(store, nurse, eye_id, settings, operated_at=datetime(26, 11, 24, tzinfo=UTC))
    put_right(store, nurse, eye_id, settings, lens="aphakic")
    with pytest.raises(Conflict, match="changed meanwhile"):
        operation_note.correct(
            Desk(store, NOW, nurse, settings.clinic.tz), eye_id, operation_of(store, eye_id), a_note(), "x", corrects=stood
        )


def corrected(store: Store, nurse: Actor, patient_id: str, settings: Settings, **changes: Any) -> Any:
    written = patient_details().model_copy(update=changes)
    return particulars.correct(Desk(store, NOW, nurse, settings.clinic.tz), patient_id, written, "misheard")


def test_particulars_are_put_right_and_the_audit_holds_both(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    known = eyes.eye(store, eye_id)
    assert known is not None
    id = known.patient.id
    done = corrected(store, nurse, id, settings, name="Pat Possible", born_on=date(1953, 3, 14), number="T-9")
    assert [what for what, _, _ in done] == ["number", "name", "born_on"]
    stands = patients.patient(store, id)
    assert stands is not None
    assert (stands.number, stands.name, stands.born_on) == ("T-9", "Pat Possible", date(1953, 3, 14))
    assert [one.patient.id for one in lists.find(store, "possible", NOW.date()).shown] == [id]
    entry = audit.of_subject(store, id)[-1]
    assert (entry["action"], entry["who"]) == ("particulars corrected", nurse.signature)
    for said in ("Pat Patient", "Pat Possible", "1952-03-14", "misheard"):
        assert said in entry["detail"]


def test_a_number_of_somebody_else_is_refused_and_says_whose_it_is(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    known = eyes.eye(store, eye_id)
    assert known is not None
    other = patient_details("T-2").model_copy(update={"name": "Otto Other"})
    leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), other, a_note(), [])
    with pytest.raises(Conflict, match="Otto Other, born 14 March 1952") as error:
        corrected(store, nurse, known.patient.id, settings, number="T-2")
    assert error.value.field == "number"
    with pytest.raises(CareError, match="birth"):
        corrected(store, nurse, known.patient.id, settings, born_on=date(1852, 1, 1))
    with pytest.raises(NotFound):
        corrected(store, nurse, "nobody", settings, name="X")


EARLIER_OIL = {"agent": "silicone-oil", "percent": 0.0, "operated_at": OPERATED - timedelta(days=20)}


@pytest.mark.parametrize(("role", "trusted"), [("nurse", False), ("nurse", True), ("surgeon", False)])
@pytest.mark.parametrize(
    ("changes", "lifts"),
    [
        ({"agent": "none", "percent": 0.0, "fill_percent": 0.0}, True),
        ({"agent": "air", "percent": 100.0}, False),
        ({"agent": "silicone-oil", "percent": 0.0}, True),
        ({"agent": "none", "percent": 0.0, "fill_percent": 0.0, "eye": "left"}, True),
        ({"eye": "left"}, False),  # the gas is there, and its caution with it
        ({"operated_at": OPERATED - timedelta(days=30)}, True),  # before an operation that left oil
        ({"percent": 14.0}, False),
    ],
)
def test_a_note_lifts_the_caution_of_gas_only_by_whoever_may_say_that_no_gas_is_left(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, role: str, trusted: bool, changes: dict[str, Any], lifts: bool
) -> None:
    """The same right as for *no gas seen*: by a slip of the pen phones would say no more of flying."""
    gas = operation_of(store, eye_id)
    if "operated_at" in changes:
        earlier = a_note(**EARLIER_OIL, steroid_drops_until=None, breaks=[])
        leaving.discharge(Desk(store, NOW, surgeon, ZONE), patient_details(), earlier, [])
    actor = replace(nurse if role == "nurse" else surgeon, trusted=trusted)
    desk = Desk(store, NOW, actor, ZONE)

    def cautions() -> bool:
        return any(load(store, id, ZONE).caution(NOW) for id in (eye_id, fellow(store, eye_id)))

    assert cautions()
    if lifts and not actor.may_lift_caution:
        with pytest.raises(Refused, match="in this clinic a surgeon says that no gas is left"):
            operation_note.correct(desk, eye_id, gas, a_note(**changes), "misread")
        assert cautions()
        assert len(eyes.history_of(store, gas)) == 1
    else:
        operation_note.correct(desk, eye_id, gas, a_note(**changes), "misread")
        assert cautions() == (not lifts)
