"""Whom a message reaches, when, and until when it is of use; by which clock an entry is; what a theatre list adds.

Summer time begins on 28 March 2027 at 1 h UTC and ends on 31 October (Directive 2000/84/EC). All else: common practice, no
source.
"""

from contextlib import nullcontext
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest
from pydantic import ValidationError

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.discharge import waiting
from followup.care.discharge.waiting import Row
from followup.care.errors import CareError, Conflict, Refused
from followup.care.home import enrol
from followup.care.home.clocks import Clocks
from followup.care.messages import outgoing, reminders
from followup.care.messages.outgoing import Choices, Parcel
from followup.care.messages.reminders import ON_CALL, Due
from followup.care.patients import consenting
from followup.config import Clinic, Messages
from followup.records import Store, eyes, messages, patients, people, states, visits, worries
from followup.records.states import State
from followup.records.values import Device, VisitState
from tests.conftest import NOW, OPERATED, ZONE, operation_note
from tests.records.rows import callback, fellow, known, person, right, task
from tests.records.rows import visit as booked

WHEN = Messages()
CLINIC = Clinic(name="Test", phone="+00 1", on_call_email="oncall@test.invalid", zone=ZONE.key)
MINUTE, SECOND = timedelta(minutes=1), timedelta(seconds=1)


# --- Quiet hours and choices ---


@pytest.mark.parametrize(
    ("quiet_from", "quiet_to", "at", "quiet"),
    [
        (21, 8, time(20, 59), False),
        (21, 8, time(21), True),
        (21, 8, time(0), True),
        (21, 8, time(7, 59), True),
        (21, 8, time(8), False),
        (13, 15, time(13), True),
        (13, 15, time(15), False),
        (13, 15, time(3), False),
        (0, 0, time(0), False),
        (9, 9, time(9), False),
    ],
)
def test_quiet_hours_hold_from_their_beginning_until_their_end(
    quiet_from: int, quiet_to: int, at: time, quiet: bool
) -> None:
    assert Choices(quiet_from=time(quiet_from), quiet_to=time(quiet_to)).quiet_at(at) is quiet


@pytest.mark.parametrize(("email", "kept"), [("", ""), (" pat@home.invalid ", "pat@home.invalid")])
def test_an_address_may_be_left_out(email: str, kept: str) -> None:
    assert Choices(email=email, quiet_from=time(), quiet_to=time()).email == kept


@pytest.mark.parametrize(
    "wrong", [{"email": "home"}, {"email": "a@b\nBcc: c@d"}, {"unwanted": {"adverts"}}, {"quiet_from": "25:00"}, {"x": 1}]
)
def test_a_choice_that_cannot_be_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Choices(**{"quiet_from": time(), "quiet_to": time(), **wrong})


def test_who_chose_nothing_is_reached_as_their_place_asks(store: Store, nurse: Actor, device: Device) -> None:
    def of(who: str) -> tuple[str, time, set[str]]:
        found = outgoing.choices_of(store, who, CLINIC, WHEN)
        return found.email, found.quiet_from, found.unwanted

    assert of(f"patient:{device.patient_id}") == ("", time(21), {"drops"})
    assert of(f"staff:{nurse.id}") == ("nurse@test.invalid", time(), set())
    assert of(ON_CALL) == ("oncall@test.invalid", time(), set())
    accounts.end(store, NOW, nurse.id)
    assert of(f"staff:{nurse.id}") == ("", time(), set())


@pytest.mark.parametrize(("tries", "minutes"), [(0, 2), (1, 4), (5, 64), (6, 120), (40, 120)])
def test_what_failed_waits_twice_as_long_each_time_and_two_hours_at_most(store: Store, tries: int, minutes: int) -> None:
    messages.add(store, NOW, "k", "staff:x", "now", "c", NOW + timedelta(days=1))
    outgoing.failed(store, NOW, Parcel("staff:x", "now", "en", ("k",), "", (), tries), "x" * 999)
    (waits,) = messages.of_person(store, "staff:x")
    assert (waits.next_try_at, len(waits.detail), waits.tries) == (NOW + minutes * MINUTE, 300, 1)


# --- Reminders ---


def reachable(store: Store, device: Device) -> None:
    chosen = Choices(email="pat@test.invalid", quiet_from=time(), quiet_to=time())
    outgoing.choose(store, NOW, f"patient:{device.patient_id}", chosen)


def expected(store: Store, device: Device, eye_id: str, on: date) -> None:
    """The state of a patient with one visit, on that day."""
    v = VisitState("v", "version", eye_id, on, on, states.NO_HOUR, 3, "Pat", True, False, None, None, "")
    states.put(store, device.patient_id, State((), (v,), (), None))


# Ten o'clock in Vienna is 9 h UTC in winter, 8 h in summer.
@pytest.mark.parametrize(
    ("on", "now", "told"),
    [
        (date(2027, 3, 10), datetime(2027, 3, 9, 8, 59, 59, tzinfo=UTC), False),
        (date(2027, 3, 10), datetime(2027, 3, 9, 9, 0, tzinfo=UTC), True),
        (date(2027, 3, 10), datetime(2027, 3, 9, 22, 59, tzinfo=UTC), True),
        (date(2027, 3, 10), datetime(2027, 3, 9, 23, 0, tzinfo=UTC), False),  # it is the day itself
        (date(2027, 3, 29), datetime(2027, 3, 28, 8, 0, tzinfo=UTC), True),
        (date(2027, 3, 29), datetime(2027, 3, 28, 7, 59, tzinfo=UTC), False),
        (date(2027, 11, 1), datetime(2027, 10, 31, 9, 0, tzinfo=UTC), True),
        (date(2027, 11, 1), datetime(2027, 10, 31, 8, 59, tzinfo=UTC), False),
    ],
)
def test_a_visit_is_announced_on_the_day_before_from_its_hour_on(
    store: Store, device: Device, eye_id: str, on: date, now: datetime, told: bool
) -> None:
    reachable(store, device)
    expected(store, device, eye_id, on)
    found = list(reminders.visit_reminders(store, now, time(10), ZONE, lambda _: nullcontext()))
    assert [due.about for due in found] == ([on.isoformat()] if told else [])


@pytest.mark.parametrize(
    ("on", "ends"),
    [
        (date(2027, 3, 10), datetime(2027, 3, 9, 23, tzinfo=UTC)),
        (date(2027, 3, 28), datetime(2027, 3, 27, 23, tzinfo=UTC)),
        (date(2027, 3, 29), datetime(2027, 3, 28, 22, tzinfo=UTC)),
    ],
)
def test_an_announcement_is_of_no_use_once_the_day_has_come(
    store: Store, device: Device, eye_id: str, on: date, ends: datetime
) -> None:
    reachable(store, device)
    expected(store, device, eye_id, on)
    now = datetime.combine(on - timedelta(days=1), time(12), ZONE)
    (due,) = reminders.visit_reminders(store, now, time(10), ZONE, lambda _: nullcontext())
    assert (due.key, due.person, due.useless_after) == ("visit:version", f"patient:{device.patient_id}", ends)


@pytest.mark.parametrize(("after", "told"), [(5 * MINUTE - SECOND, False), (5 * MINUTE, True)])
def test_a_change_is_told_once_it_has_stood_for_five_minutes(
    store: Store, eye_id: str, after: timedelta, told: bool
) -> None:
    first = booked(store, eye_id, date(2027, 3, 28))
    second = booked(store, eye_id, date(2027, 3, 20), replaces=first.id)
    visits.must_tell(store, NOW, second.id)
    news = reminders.visit_changes(store, NOW + after, ZONE, [second.id], lambda _: nullcontext())
    found = [due for _, one in news for due in one]
    assert [(d.key, d.about) for d in found] == ([(f"visit-changed:{second.id}", "2027-03-20")] if told else [])
    assert [d.useless_after for d in found] == (
        [datetime(2027, 3, 28, 22, tzinfo=UTC)] if told else []
    )  # the later day ends


def for_staff(store: Store, id: str) -> list[Due]:
    found = known(worries.callback(store, id))
    return list(reminders.for_staff(people.all_staff(store), found, []))


def test_a_call_for_now_is_everybodys_until_somebody_has_it(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    call = callback(store, eye_id, how_soon="now")
    assert {d.person for d in for_staff(store, call.id)} == {f"staff:{nurse.id}", f"staff:{surgeon.id}"}
    worries.claim(store, NOW, call.id, nurse.id)
    assert for_staff(store, call.id) == []


def test_what_is_not_for_now_is_told_to_nobody_before_it_moves_up(store: Store, nurse: Actor, eye_id: str) -> None:
    assert for_staff(store, callback(store, eye_id, how_soon="today").id) == []


def test_what_moved_up_goes_to_surgeons_then_to_whoever_is_on_call_too(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str
) -> None:
    call = callback(store, eye_id)
    whom = []
    for level in (0, 1):
        worries.escalate(store, call.id, level, NOW + timedelta(hours=level + 1))
        whom.append({(d.person, d.kind) for d in for_staff(store, call.id)})
    assert whom[0] == {(f"staff:{surgeon.id}", "escalation")}
    assert whom[1] == {(f"staff:{surgeon.id}", "escalation"), (ON_CALL, "escalation")}


def test_each_time_it_moves_up_is_a_message_of_its_own(store: Store, surgeon: Actor, eye_id: str) -> None:
    call = callback(store, eye_id)
    worries.escalate(store, call.id, 0, NOW)
    first = {d.key for d in for_staff(store, call.id)}
    worries.back_to_the_clinic(store, call.id)
    worries.escalate(store, call.id, 0, NOW)
    assert not first & {d.key for d in for_staff(store, call.id)}


def test_a_task_for_now_that_is_nobodys_is_told_and_one_that_somebody_has_is_not(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str
) -> None:
    call = callback(store, eye_id, how_soon="now")
    free, taken = task(store, call, surgeon), task(store, call, surgeon, nurse)
    found = reminders.for_staff(people.all_staff(store), known(worries.callback(store, call.id)), [free, taken])
    assert {d.key.rpartition(":staff")[0] for d in found} == {f"task:{free.id}"}


def told_now(store: Store) -> set[str]:
    """The keys of what staff are told now."""
    written_down = {("call", call.id) for call in worries.open_callbacks(store)}
    news = reminders.news(store, NOW, ZONE, written_down, lambda _: nullcontext())
    return {due.key for _, found in news for due in found if due.kind == "now"}


def test_a_call_for_now_that_is_given_back_is_told_anew_each_time(store: Store, nurse: Actor, eye_id: str) -> None:
    call, desk = callback(store, eye_id, how_soon="now"), Desk(store, NOW, nurse, ZONE)
    told = [told_now(store)]
    for _ in range(2):
        holding.claim_call(desk, call.id)
        assert told_now(store) == set()
        holding.give_call_back(desk, call.id)
        told.append(told_now(store))
    assert [len(keys) for keys in told] == [1, 1, 1]
    assert len(set.union(*told)) == 3


def test_a_task_for_now_that_is_given_back_is_told_anew(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    made = task(store, callback(store, eye_id, how_soon="now"), surgeon)
    desk, before = Desk(store, NOW, nurse, ZONE), told_now(store)
    holding.take_task(desk, made.id, None)
    assert told_now(store) == set()
    holding.give_back_task(desk, made.id)
    assert (len(told_now(store)), before & told_now(store)) == (len(before), set())


def test_what_will_not_be_done_is_told_anew(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    made = task(store, callback(store, eye_id, how_soon="now"), surgeon)
    desk, before = Desk(store, NOW, nurse, ZONE), told_now(store)
    holding.take_task(desk, made.id, None)
    settling.give_up(desk, made.id, "no bed")
    assert (len(told_now(store)), before & told_now(store)) == (2, set())


@pytest.mark.parametrize(("worry", "told"), [("silence", True), ("pressure", False)])
def test_a_patient_who_went_silent_is_written_to_for_two_days(store: Store, eye_id: str, worry: str, told: bool) -> None:
    call = callback(store, eye_id, worry)
    found = list(reminders.not_heard(store, call))
    assert [(d.key, d.useless_after) for d in found] == ([(f"not-heard:{call.id}", NOW + timedelta(days=2))] if told else [])


# --- By which clock ---

HOUR = timedelta(hours=1)


def heard(clinic: timedelta, device: timedelta) -> dict[str, str]:
    """What both clocks showed when the device last heard the clinic."""
    return {"clinic_at": (NOW + clinic).isoformat(), "device_at": (NOW + device).isoformat()}


CLOCKS: dict[str, tuple[timedelta | None, timedelta, Any, timedelta]] = {
    "both clocks agree": (timedelta(0), -HOUR, None, timedelta(0)),
    "a minute on the way": (-MINUTE, -HOUR, None, timedelta(0)),
    "just less than two minutes": (-2 * MINUTE + SECOND, -HOUR, None, timedelta(0)),
    "two minutes behind": (-2 * MINUTE, -HOUR, None, 2 * MINUTE),
    "three hours ahead": (3 * HOUR, 2 * HOUR, None, -3 * HOUR),
    "a device that does not say": (None, -HOUR, None, timedelta(0)),
    "a minute ahead, sent at once": (MINUTE, MINUTE, None, -MINUTE),
    "ahead, and it does not say": (None, 5 * HOUR, None, -5 * HOUR),
    "too far ahead, and it does not say": (None, 27 * HOUR, None, timedelta(0)),
    "a minute ahead, heard just now": (MINUTE, MINUTE, heard(timedelta(0), timedelta(0)), -MINUTE),
    "put right while the entry waited": (timedelta(0), 2 * HOUR, heard(-5 * HOUR, -2 * HOUR), -3 * HOUR),
    "put wrong while the entry waited": (3 * HOUR, -4 * HOUR, heard(-5 * HOUR, -5 * HOUR), timedelta(0)),
    "changed and changed back": (timedelta(0), 30 * HOUR, heard(-5 * HOUR, -5 * HOUR), -30 * HOUR),
    "heard in a time to come": (3 * HOUR, 2 * HOUR, heard(HOUR, HOUR), -3 * HOUR),
    "heard of nothing that can be": (3 * HOUR, 2 * HOUR, {"clinic_at": "noon", "device_at": None}, -3 * HOUR),
    "heard of no object": (3 * HOUR, 2 * HOUR, ["noon"], -3 * HOUR),
}


@pytest.mark.parametrize(("shows", "entered", "told", "moved"), CLOCKS.values(), ids=CLOCKS.keys())
def test_by_how_much_the_time_of_an_entry_moves(
    shows: timedelta | None, entered: timedelta, told: Any, moved: timedelta
) -> None:
    clocks = Clocks(NOW, None if shows is None else NOW + shows)
    assert clocks.moved_by(NOW + entered, told) == moved


# --- Consent and codes ---


@pytest.mark.parametrize(
    ("said_by", "words", "fault"),
    [("nobody", "", "say who said so"), ("representative", " ", "write who spoke for the patient")],
)
def test_who_consents_is_said(store: Store, nurse: Actor, said_by: str, words: str, fault: str) -> None:
    patient = person(store)
    with pytest.raises(CareError, match=fault):
        consenting.give(Desk(store, NOW, nurse, ZONE), patient.id, said_by, words)
    assert (consenting.stands(store, patient.id), consenting.history(store, patient.id)) == (False, [])


def test_consent_that_was_never_given_is_not_taken_back(store: Store, nurse: Actor) -> None:
    with pytest.raises(Conflict, match="no consent to take back"):
        consenting.take_back(Desk(store, NOW, nurse, ZONE), person(store).id, "patient", "")


def test_consent_of_a_joined_record_is_that_of_the_person_by_either_id(store: Store, nurse: Actor) -> None:
    old, kept = person(store, "N-1"), person(store, "N-2")
    patients.join(store, old.id, kept.id)
    consenting.give(Desk(store, NOW, nurse, ZONE), kept.id, "patient", "")
    assert consenting.history(store, old.id) == consenting.history(store, kept.id) != []
    consenting.take_back(Desk(store, NOW + MINUTE, nurse, ZONE), old.id, "patient", "")
    assert [consenting.stands(store, one.id) for one in (old, kept)] == [False, False]


@pytest.mark.parametrize(("after", "taken"), [(timedelta(days=7) - SECOND, True), (timedelta(days=7), False)])
def test_a_code_is_good_until_the_last_second_of_its_week(
    store: Store, discharged: tuple[str, str], after: timedelta, taken: bool
) -> None:
    now = OPERATED + timedelta(hours=5) + after
    if taken:
        assert enrol.enrolment(store, now, discharged[1], "x").used_at is None
    else:
        with pytest.raises(Refused, match="too old"):
            enrol.enrolment(store, now, discharged[1], "x")


def test_a_phone_knows_the_visits_to_come_of_followed_eyes_and_a_locked_out_one_none(
    store: Store, nurse: Actor, device: Device, eye_id: str
) -> None:
    booked(store, eye_id, date(2027, 3, 5), "today")
    booked(store, eye_id, date(2027, 3, 4), "yesterday")
    booked(store, fellow(store, eye_id), date(2027, 3, 9), "of the other eye")
    assert {v.name for v in enrol.visits_to_come(store, device.id, date(2027, 3, 5)) or ()} == {"today", "week 1"}
    enrol.revoke(Desk(store, NOW, nurse, ZONE), device.id)
    assert (
        enrol.visits_to_come(store, device.id, date(2027, 3, 5)) is enrol.visits_to_come(store, "none", NOW.date()) is None
    )


# --- A theatre list ---

LINE = Row(2, "T-1", "Pat Patient", date(2027, 3, 2), "right", {"agent": "sf6"})


@pytest.mark.parametrize(
    ("change", "new"),
    [
        ({}, False),  # discharged already
        ({"operated_on": date(2027, 3, 3)}, True),
        ({"eye": "left"}, True),
        ({"number": "T-9"}, True),
    ],
)
def test_an_operation_that_is_on_record_does_not_wait(store: Store, eye_id: str, change: dict[str, Any], new: bool) -> None:
    row = Row(**{**{name: getattr(LINE, name) for name in Row.__slots__}, **change})
    found = waiting.compare(store, [row], ZONE)
    assert (bool(found.new), found.known, found.problems) == (new, int(not new), [])


def test_an_operation_of_the_night_is_of_the_clinics_day(store: Store) -> None:
    patient = person(store, "T-1")
    id = eyes.add_operation(store, NOW, right(store, patient).id)
    eyes.add_note(store, NOW, id, operation_note(operated_at=datetime(2027, 3, 1, 23, tzinfo=UTC)), ZONE, "nurse:n")
    assert waiting.compare(store, [LINE], ZONE).known == 1


def test_what_waits_and_says_otherwise_now_is_a_problem_and_nothing_is_taken_in(store: Store, nurse: Actor) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    waiting.put_on(desk, [LINE], "list.csv")
    changed = Row(3, "T-1", "Pat Patient", date(2027, 3, 2), "right", {"agent": "air"})
    other = Row(4, "T-2", "Una Person", date(2027, 3, 2), "left")
    with pytest.raises(CareError, match=r"^line 3: waits already, with other particulars"):
        waiting.put_on(desk, [changed, other], "list.csv")
    assert [one.number for one in waiting.waiting_page(store).lines] == ["T-1"]
    assert waiting.put_on(desk, [LINE, other], "list.csv").known == 1


@pytest.mark.parametrize("why", ["", " ", "x" * 501])
def test_what_is_put_aside_has_a_reason_of_some_length(store: Store, nurse: Actor, why: str) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    waiting.put_on(desk, [LINE], "list.csv")
    (one,) = waiting.waiting_page(store).lines
    with pytest.raises(CareError, match="say why this operation is put aside"):
        waiting.put_aside(desk, one.id, why)
    waiting.put_aside(desk, one.id, "x" * 500)
    with pytest.raises(Conflict, match="does not wait any more"):
        waiting.put_aside(desk, one.id, "again")


def test_a_problem_names_its_line_and_its_column() -> None:
    assert str(waiting.Problem(7, "eye", "odd")) == "line 7, eye: odd"
    assert str(waiting.Problem(7, "", "odd")) == "line 7: odd"


def test_a_number_of_a_joined_record_is_the_persons(store: Store, eye_id: str) -> None:
    into = person(store, "T-2")
    patients.join(store, known(patients.by_number(store, "T-1")).id, into.id)
    assert waiting.compare(store, [LINE], ZONE).known == 1
