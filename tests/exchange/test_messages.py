"""Messages leave by real SMTP and by web push that the far end decrypts: once each, in the person's language, nothing clinical."""

import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta

import pytest

from followup import jobs
from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.note import record_operation
from followup.care.home import enrol
from followup.care.messages import outgoing, reminders
from followup.care.patients import consenting, following, joining
from followup.care.reading import state
from followup.care.reading.eye import Eye, load
from followup.care.today import lists
from followup.care.visits import book, visit
from followup.care.watch import watching
from followup.config import Messages, Settings
from followup.exchange import push_keys
from followup.records import Store, audit, events, eyes, people, states, visits, watch, worries
from followup.records import messages as kept
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Device
from tests.conftest import NOW, ZONE, operation_note, patient_details
from tests.exchange.conftest import Mailbox, PushService

CLINICAL = (
    "gas",
    "bubble",
    "posture",
    "position",
    "face",
    "head",
    "pressure",
    "retina",
    "eye ",
    "right",
    "left",
    "Pat",
    "T-1",
)
# The patient was operated on Tue 2 March 2027; the second visit is planned for Wed 10 March. Vienna is UTC+1 then.
ON_A_POSTURE_DAY = datetime(2027, 3, 4, 9, 5, tzinfo=UTC)
DAY_BEFORE_VISIT = datetime(2027, 3, 9, 9, 30, tzinfo=UTC)


@pytest.fixture
def posted(settings: Settings, mailbox: Mailbox) -> Settings:
    """The clinic with its e-mail set up."""
    made = Messages(smtp_host="127.0.0.1", smtp_port=mailbox.port, smtp_security="none", sender="clinic@test.invalid")
    clinic = settings.clinic.model_copy(update={"on_call_email": "oncall@test.invalid"})
    return settings.model_copy(update={"messages": made, "clinic": clinic})


@pytest.fixture
def patient(store: Store, device: Device, push_service: PushService) -> str:
    """A patient whose phone takes pushes."""
    person = f"patient:{device.patient_id}"
    outgoing.subscribe(store, NOW, person, push_service.subscription(), device_id=device.id)
    return person


def measure(store: Store, nurse: Actor, eye_id: str, settings: Settings, iop: float, now: datetime = NOW) -> str:
    """Records a pressure; returns the id of the pressure callback."""
    body = MeasuresBody(eye="right", iop_mmhg=iop, instrument="applanation")
    visit.record_visit(Desk(store, now, nurse, settings.clinic.tz), eye_id, [body])
    return next(str(c.id) for c in worries.open_callbacks(store) if c.worry == "pressure")


def to(mailbox: Mailbox, address: str) -> list[str]:
    return [str(m["Subject"]) for m in mailbox.letters if m["To"] == address]


def test_a_push_reaches_the_phone_encrypted_and_signed(
    store: Store, posted: Settings, patient: str, push_service: PushService
) -> None:
    assert jobs.send_messages(store, posted, ON_A_POSTURE_DAY) == 1
    assert push_service.took == [
        {
            "title": "A reminder for you",
            "words": "Please open your page: it says what to do now.",
            "path": "/me/",
            "language": "en",
        }
    ]
    assert b"reminder" not in push_service.raw[0]
    assert push_service.signers == [push_keys.public_key(store)]
    claims = push_service.claims[0]
    assert (claims["aud"], claims["sub"]) == (push_service.origin, "mailto:clinic@test.invalid")


def test_a_posture_reminder_comes_once_and_only_when_hours_are_missing(
    store: Store, posted: Settings, patient: str, push_service: PushService, eye_id: str, device: Device
) -> None:
    for minutes in range(0, 40, 10):
        jobs.send_messages(store, posted, ON_A_POSTURE_DAY + timedelta(minutes=minutes))
    assert len(push_service.took) == 1
    jobs.send_messages(store, posted, datetime(2027, 3, 4, 11, 0, tzinfo=UTC))  # 12:00: not a set time
    assert len(push_service.took) == 1
    jobs.send_messages(store, posted, datetime(2027, 3, 4, 13, 0, tzinfo=UTC))
    assert len(push_service.took) == 2
    jobs.send_messages(store, posted, datetime(2027, 3, 10, 13, 0, tzinfo=UTC))  # the plan has ended
    assert [t["title"] for t in push_service.took].count("A reminder for you") == 2


def with_drops(store: Store, settings: Settings, nurse: Actor, eye_id: str) -> None:
    """A steroid four times a day, for two days, and then twice."""
    written = [("steroid", 4, date(2027, 3, 4)), ("steroid", 2, date(2027, 3, 20))]
    given = [{"name": name, "times_a_day": times, "until": until} for name, times, until in written]
    desk = Desk(store, NOW - timedelta(days=2), nurse, settings.clinic.tz)
    record_operation(desk, eyes.notes_of(store, eye_id)[-1].operation_id, operation_note(drops=given), "drops written")


def test_drops_are_reminded_of_at_their_times_where_asked_for_and_until_they_are_taken(
    store: Store, posted: Settings, nurse: Actor, patient: str, push_service: PushService, eye_id: str
) -> None:
    with_drops(store, posted, nurse, eye_id)
    at_noon = datetime(2027, 3, 4, 11, 1, tzinfo=UTC)  # Vienna is UTC+1
    jobs.send_messages(store, posted, at_noon)
    assert push_service.took == []  # nobody asked for these
    wanted = outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted={"posture", "visit", "not-heard"})
    outgoing.choose(store, NOW, patient, wanted)
    for minutes in range(0, 40, 10):
        jobs.send_messages(store, posted, at_noon + timedelta(minutes=minutes))
    assert [t["title"] for t in push_service.took] == ["A reminder for you"]
    jobs.send_messages(store, posted, at_noon + timedelta(hours=2))  # 14:00 is none of the times
    events.add(store, new_id(), eye_id, "drops", at_noon + timedelta(hours=3), {"name": "Steroid"}, "patient:x", NOW)
    jobs.send_messages(store, posted, at_noon + timedelta(hours=4))  # 16:00, taken at 15:00
    assert len(push_service.took) == 1
    jobs.send_messages(store, posted, at_noon + timedelta(hours=8))  # 20:00
    assert len(push_service.took) == 2
    jobs.send_messages(store, posted, at_noon + timedelta(days=1))  # from now on twice a day: not at noon
    assert len(push_service.took) == 2
    jobs.send_messages(store, posted, at_noon + timedelta(days=1, hours=8))
    assert len(push_service.took) == 3


def test_a_minute_thinks_only_of_the_drops_that_it_is_about(
    store: Store, posted: Settings, nurse: Actor, patient: str, push_service: PushService, eye_id: str
) -> None:
    with_drops(store, posted, nurse, eye_id)
    wanted = outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted={"posture", "visit", "not-heard"})
    outgoing.choose(store, NOW, patient, wanted)
    at_noon = datetime(2027, 3, 4, 11, 0, tzinfo=UTC)  # Vienna is UTC+1
    for hours, thought_of in ((-0.1, 1), (-0.05, 0), (0, 1), (0.02, 1), (0.05, 0), (3.9, 0), (4, 1)):
        at = at_noon + timedelta(hours=hours)
        state.bring_up_to_date(store, at, ZONE)
        assert len(states.to_remind_of_drops(store, at)) == thought_of, hours
        jobs.send_messages(store, posted, at)
    for days in (2, 30, 31):
        jobs.send_messages(store, posted, at_noon + timedelta(days=days, minutes=7))
    assert states.to_remind_of_drops(store, at_noon + timedelta(days=400)) == {}  # the last day of drops has passed


def test_drops_that_could_not_be_told_of_at_their_time_are_when_somebody_can_be_reached(
    store: Store, posted: Settings, nurse: Actor, patient: str, push_service: PushService, eye_id: str
) -> None:
    with_drops(store, posted, nurse, eye_id)
    wanted = outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted={"posture", "visit", "not-heard"})
    outgoing.choose(store, NOW, patient, wanted)
    at_noon = datetime(2027, 3, 4, 11, 0, tzinfo=UTC)
    away = "UPDATE push_subscriptions SET ended_at = {}"
    store.execute(away.format("'2027-03-04T10:00:00.000000Z'"))
    for minutes in (0, 1, 2):
        jobs.send_messages(store, posted, at_noon + timedelta(minutes=minutes))
    assert push_service.took == []
    store.execute(away.format("NULL"))
    jobs.send_messages(store, posted, at_noon + timedelta(minutes=30))
    assert len(push_service.took) == 1


def test_hours_of_posture_that_are_enough_are_looked_at_once_for_a_reminder(
    store: Store, posted: Settings, nurse: Actor, patient: str, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked: list[str] = []

    def enough(eye: Eye, *_: object) -> bool:
        looked.append(eye.id)
        return False

    monkeypatch.setattr(reminders, "_behind", enough)
    for minutes in (0, 1, 2):
        jobs.send_messages(store, posted, ON_A_POSTURE_DAY + timedelta(minutes=minutes))
    assert looked == [eye_id]
    measure(store, nurse, eye_id, posted, 41, ON_A_POSTURE_DAY)  # something changed
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY + timedelta(minutes=3))
    jobs.send_messages(store, posted, datetime(2027, 3, 4, 13, 0, tzinfo=UTC))  # the next reminder
    assert looked == [eye_id] * 3


def test_quiet_hours_hold_it_back_and_what_is_stale_by_then_is_dropped(
    store: Store, posted: Settings, patient: str, push_service: PushService
) -> None:
    outgoing.choose(store, NOW, patient, outgoing.Choices(quiet_from=time(9), quiet_to=time(10, 30)))
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)
    assert push_service.took == []
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY + timedelta(minutes=30))
    assert len(push_service.took) == 1
    outgoing.choose(store, NOW, patient, outgoing.Choices(quiet_from=time(13), quiet_to=time(17)))
    jobs.send_messages(store, posted, datetime(2027, 3, 4, 13, 5, tzinfo=UTC))
    jobs.send_messages(store, posted, datetime(2027, 3, 4, 16, 5, tzinfo=UTC))
    assert len(push_service.took) == 1
    assert {m.state for m in kept.of_person(store, patient)} == {"sent", "dropped"}


@pytest.mark.parametrize(("clock", "quiet"), [("20:59", False), ("21:00", True), ("03:00", True), ("08:00", False)])
def test_quiet_hours_may_span_midnight(clock: str, quiet: bool) -> None:
    chosen = outgoing.Choices(quiet_from=time(21), quiet_to=time(8))
    assert chosen.quiet_at(time.fromisoformat(clock)) is quiet
    assert not outgoing.Choices(quiet_from=time(0), quiet_to=time(0)).quiet_at(time.fromisoformat(clock))


@pytest.mark.parametrize(("clock", "quiet"), [("12:59", False), ("13:00", True), ("16:59", True), ("17:00", False)])
def test_quiet_hours_begin_with_their_first_minute_and_end_before_their_last(clock: str, quiet: bool) -> None:
    chosen = outgoing.Choices(quiet_from=time(13), quiet_to=time(17))
    assert chosen.quiet_at(time.fromisoformat(clock)) is quiet


def test_a_visit_is_announced_the_day_before_in_the_chosen_language(
    store: Store, posted: Settings, patient: str, push_service: PushService, mailbox: Mailbox
) -> None:
    chosen = outgoing.Choices(email="pat@test.invalid", language="de", quiet_from=time(21), quiet_to=time(8))
    outgoing.choose(store, NOW, patient, chosen)
    jobs.send_messages(store, posted, DAY_BEFORE_VISIT)
    jobs.send_messages(store, posted, DAY_BEFORE_VISIT + timedelta(minutes=5))
    assert push_service.took[0]["title"] == "Sie haben morgen einen Termin"
    assert len(push_service.took) == 1
    (letter,) = [m for m in mailbox.letters if m["To"] == "pat@test.invalid"]
    body = letter.get_content()
    assert letter["Subject"] == "Sie haben morgen einen Termin"
    assert letter["Auto-Submitted"] == "auto-generated"
    assert letter["From"] == "Test Eye Clinic <clinic@test.invalid>"
    assert "http://127.0.0.1:8000/me/" in body
    assert "+00 1 234" in body


def test_a_silent_patient_is_written_to_once(
    store: Store, posted: Settings, patient: str, push_service: PushService
) -> None:
    jobs.check_all(store, posted, NOW)
    for hours in range(3):
        jobs.send_messages(store, posted, NOW + timedelta(hours=hours))
    assert [t["title"] for t in push_service.took].count("We have not heard from you") == 1


def test_what_a_person_does_not_want_is_not_sent(
    store: Store, posted: Settings, patient: str, push_service: PushService
) -> None:
    outgoing.choose(store, NOW, patient, outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted={"posture"}))
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)
    assert push_service.took == []
    jobs.send_messages(store, posted, DAY_BEFORE_VISIT)
    assert [t["title"] for t in push_service.took] == ["You have a visit tomorrow"]


def test_a_phone_that_is_locked_out_gets_nothing(
    store: Store, posted: Settings, patient: str, push_service: PushService, nurse: Actor, device: Device
) -> None:
    enrol.revoke(Desk(store, NOW, nurse, ZONE), device.id)
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)
    assert push_service.took == []


def test_consent_taken_back_ends_every_message_and_given_anew_brings_no_address_back(
    store: Store,
    posted: Settings,
    nurse: Actor,
    device: Device,
    patient: str,
    mailbox: Mailbox,
    push_service: PushService,
) -> None:
    chosen = outgoing.Choices(email="pat@test.invalid", quiet_from=time(0), quiet_to=time(0))
    outgoing.choose(store, ON_A_POSTURE_DAY - timedelta(minutes=1), patient, chosen)
    mailbox.full, push_service.status = True, 500
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)  # cannot be sent: it waits
    mailbox.full, push_service.status = False, 201

    def desk(hours: float) -> Desk:
        return Desk(store, ON_A_POSTURE_DAY + timedelta(hours=hours), nurse, posted.clinic.tz)

    consenting.take_back(desk(0.01), device.patient_id, "patient", "")
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY + timedelta(minutes=10))
    (waited,) = kept.of_person(store, patient)
    assert (waited.state, waited.detail) == ("dropped", "consent was taken back")
    later = [ON_A_POSTURE_DAY + timedelta(hours=4), ON_A_POSTURE_DAY + timedelta(hours=8), DAY_BEFORE_VISIT]
    jobs.send_messages(store, posted, later[0])
    consenting.give(desk(5), device.patient_id, "patient", "")
    for now in later[1:]:
        jobs.send_messages(store, posted, now)
    assert (to(mailbox, "pat@test.invalid"), push_service.took) == ([], [])
    assert outgoing.choices_of(store, patient, posted.clinic, posted.messages).email == ""
    assert store.rows("SELECT email FROM message_choices") == [{"email": "pat@test.invalid"}]  # what was entered stays
    outgoing.choose(store, DAY_BEFORE_VISIT, patient, chosen)
    jobs.send_messages(store, posted, DAY_BEFORE_VISIT + timedelta(minutes=1))
    assert len(to(mailbox, "pat@test.invalid")) == 1


def test_a_subscription_that_is_gone_is_not_tried_again(
    store: Store, posted: Settings, patient: str, push_service: PushService
) -> None:
    push_service.status = 410  # RFC 8030: the subscription has expired
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)
    assert kept.subscriptions(store, patient) == []


def test_staff_hear_of_a_new_now_warning_once_and_it_says_nothing_clinical(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    for minutes in range(3):
        jobs.send_messages(store, posted, NOW + timedelta(minutes=minutes))
    for address in ("nurse@test.invalid", "surgeon@test.invalid"):
        assert to(mailbox, address) == ["A callback needs somebody within the hour"]
    assert to(mailbox, "oncall@test.invalid") == []
    for sent in mailbox.letters:
        text = f"{sent['Subject']} {sent.get_content()}".replace("Test Eye Clinic", "")
        assert not [word for word in CLINICAL if word in text]


def test_an_escalation_reaches_the_surgeon_then_the_on_call_contact(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    id = measure(store, nurse, eye_id, posted, 62)
    jobs.send_messages(store, posted, NOW)
    mailbox.letters.clear()
    jobs.escalate(store, posted, NOW + timedelta(minutes=61))
    jobs.send_messages(store, posted, NOW + timedelta(minutes=61))
    assert to(mailbox, "surgeon@test.invalid") == ["A callback was not settled in time"]
    assert to(mailbox, "nurse@test.invalid") == to(mailbox, "oncall@test.invalid") == []
    jobs.escalate(store, posted, NOW + timedelta(minutes=92))
    jobs.send_messages(store, posted, NOW + timedelta(minutes=92))
    assert to(mailbox, "oncall@test.invalid") == ["A callback was not settled in time"]
    holding.claim(Desk(store, NOW + timedelta(minutes=93), surgeon, ZONE), id)
    settling.settle(Desk(store, NOW + timedelta(minutes=93), surgeon, ZONE), id, "theatre", "", posted.clinic)
    mailbox.letters.clear()
    jobs.send_messages(store, posted, NOW + timedelta(minutes=94))
    assert mailbox.letters == []


def test_a_task_that_is_nobodys_calls_the_staff_and_a_late_one_moves_up_anew(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    id = measure(store, nurse, eye_id, posted, 62)
    jobs.escalate(store, posted, NOW + timedelta(minutes=61))
    jobs.send_messages(store, posted, NOW + timedelta(minutes=61))
    mailbox.letters.clear()
    decided_at = NOW + timedelta(minutes=70)
    deciding.decide(Desk(store, decided_at, surgeon, ZONE), id, "same-day", "", posted.clinic)
    jobs.send_messages(store, posted, decided_at)
    jobs.send_messages(store, posted, decided_at + timedelta(minutes=1))
    assert to(mailbox, "nurse@test.invalid") == ["A callback needs somebody within the hour"]
    mailbox.letters.clear()
    jobs.escalate(store, posted, decided_at + timedelta(minutes=61))
    jobs.send_messages(store, posted, decided_at + timedelta(minutes=61))
    assert to(mailbox, "surgeon@test.invalid") == ["A callback was not settled in time"]


def test_a_claimed_callback_needs_nobody_else(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), measure(store, nurse, eye_id, posted, 62))
    jobs.send_messages(store, posted, NOW)
    assert mailbox.letters == []


def test_many_callbacks_after_a_night_make_one_letter(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    visit.record_clinic_event(
        Desk(store, NOW, nurse, posted.clinic.tz), eye_id, "measures", {"eye": "right", "acuity": "NPL"}
    )
    assert len([c for c in worries.open_callbacks(store) if c.how_soon == "now"]) == 2
    jobs.send_messages(store, posted, NOW + timedelta(hours=9))
    assert to(mailbox, "nurse@test.invalid") == ["2 callbacks need somebody within the hour"]


def test_a_mail_server_that_is_full_or_away_is_tried_again(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    mailbox.full = True
    jobs.send_messages(store, posted, NOW)
    (waiting,) = kept.troubled(store)
    assert "no room" in waiting.detail
    mailbox.full = False
    jobs.send_messages(store, posted, NOW + timedelta(minutes=1))
    assert mailbox.letters == []
    jobs.send_messages(store, posted, NOW + timedelta(minutes=3))
    assert to(mailbox, "nurse@test.invalid") == ["A callback needs somebody within the hour"]
    assert kept.troubled(store) == []


def test_each_try_waits_twice_as_long_as_the_one_before(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    mailbox.full = True
    tried = [0, 2, 6, 14, 30]  # minutes
    for minute in range(31):
        jobs.send_messages(store, posted, NOW + timedelta(minutes=minute))
        (waiting,) = (m for m in kept.troubled(store) if m.kind == "now")
        assert waiting.tries == sum(at <= minute for at in tried), minute


def test_what_was_settled_before_it_could_be_told_is_not_told(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    callback = measure(store, nurse, eye_id, posted, 62)
    mailbox.full = True
    jobs.send_messages(store, posted, NOW)
    mailbox.full = False
    desk = Desk(store, NOW, nurse, ZONE)
    holding.claim(desk, callback)
    calls.attempt(desk, callback, "patient", "feels fine", posted.clinic)
    settling.settle(desk, callback, "no-action", "read by a trainee", posted.clinic)
    jobs.send_messages(store, posted, NOW + timedelta(minutes=3))
    assert mailbox.letters == []
    assert [m.state for m in kept.of_person(store, f"staff:{nurse.id}")] == ["dropped"]


def test_a_message_whose_process_died_goes_out_again(
    store: Store, posted: Settings, nurse: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    outgoing.line_up(store, NOW, posted.clinic, posted.messages)
    assert list(outgoing.take(store, NOW, posted.clinic, posted.messages))  # and then nothing: the process is gone
    jobs.send_messages(store, posted, NOW + timedelta(minutes=5))
    assert mailbox.letters == []
    jobs.send_messages(store, posted, NOW + timedelta(minutes=11))
    assert to(mailbox, "nurse@test.invalid") == ["A callback needs somebody within the hour"]


RACE = """
import sys
from datetime import datetime
from followup import jobs
from followup.config import Settings
from followup.records import open_store
settings = Settings.model_validate_json(sys.stdin.readline())
store = open_store(settings.server.database)
sys.stdin.readline()
print(jobs.send_messages(store, settings, datetime.fromisoformat(sys.argv[1])))
"""


def test_processes_that_race_send_each_message_once(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    measure(store, nurse, eye_id, posted, 62)
    racers = [
        subprocess.Popen(
            [sys.executable, "-c", RACE, NOW.isoformat()], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        for _ in range(3)
    ]
    for racer in racers:
        assert racer.stdin is not None
        racer.stdin.write(posted.model_dump_json() + "\ngo\n")
        racer.stdin.flush()
    assert sum(int(racer.communicate(timeout=60)[0]) for racer in racers) == 2
    assert len(mailbox.letters) == 2


def test_people_who_left_get_nothing(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    assert people.staff_member(store, nurse.id)
    measure(store, nurse, eye_id, posted, 62)
    store.execute("UPDATE staff SET left_at = '2027-03-04T00:00:00.000000Z' WHERE id = :id", {"id": nurse.id})
    jobs.send_messages(store, posted, NOW)
    assert {m["To"] for m in mailbox.letters} == {"surgeon@test.invalid"}


def test_what_waits_for_whoever_left_goes_nowhere_and_its_fault_leaves_the_list(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    person = f"staff:{nurse.id}"
    at_home = outgoing.Choices(email="nora@home.invalid", quiet_from=time(0), quiet_to=time(0))
    outgoing.choose(store, NOW, person, at_home)
    measure(store, nurse, eye_id, posted, 62)
    mailbox.full = True
    jobs.send_messages(store, posted, NOW)
    assert {fault.about for fault in watch.faults(store)} == {person, f"staff:{surgeon.id}"}
    accounts.end(store, NOW + timedelta(minutes=1), nurse.id)
    jobs.send_messages(store, posted, NOW + timedelta(minutes=1))
    assert [fault.about for fault in watch.faults(store)] == [f"staff:{surgeon.id}"]
    (dropped,) = [entry for entry in audit.of_subject(store, person) if entry["action"] == "fault dropped"]
    assert "no room" in str(dropped["detail"])
    mailbox.full = False
    jobs.send_messages(store, posted, NOW + timedelta(minutes=3))
    assert {m["To"] for m in mailbox.letters} == {"surgeon@test.invalid"}
    assert [(m.state, m.detail) for m in kept.of_person(store, person)] == [("dropped", "the account ended")]
    assert watch.faults(store) == []


def test_quiet_hours_of_whoever_left_are_not_waited_for(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    local = NOW.astimezone(posted.clinic.tz)
    until = (local + timedelta(hours=2)).time()
    chosen = outgoing.Choices(email="nora@home.invalid", quiet_from=local.time(), quiet_to=until)
    outgoing.choose(store, NOW, f"staff:{nurse.id}", chosen)
    measure(store, nurse, eye_id, posted, 62)
    jobs.send_messages(store, posted, NOW)
    accounts.end(store, NOW + timedelta(minutes=1), nurse.id)
    jobs.send_messages(store, posted, NOW + timedelta(hours=3))
    assert to(mailbox, "nora@home.invalid") == []
    assert [m.state for m in kept.of_person(store, f"staff:{nurse.id}")] == ["dropped"]


def test_choices_that_cannot_be_read_of_whoever_left_keep_no_fault(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    """They still hold a fault while the person is there, and it counts on."""
    person = f"staff:{nurse.id}"
    measure(store, nurse, eye_id, posted, 62)
    mailbox.full = True
    jobs.send_messages(store, posted, NOW)
    row = {"email": "n@test.invalid", "language": "", "quiet_from": "late", "quiet_to": "00:00:00", "unwanted": []}
    kept.keep_choices(store, NOW, person, row)
    mailbox.full = False
    for minutes in (3, 4):
        jobs.send_messages(store, posted, NOW + timedelta(minutes=minutes))
        found = {(f.what, f.about, f.times) for f in watch.faults(store)}
        assert found == {("e-mail", person, 1), ("parcel", person, minutes - 2)}
    accounts.end(store, NOW + timedelta(minutes=5), nurse.id)
    jobs.send_messages(store, posted, NOW + timedelta(minutes=5))
    assert watch.faults(store) == []


def test_a_fault_of_a_record_that_was_joined_leaves_the_list(
    store: Store, posted: Settings, nurse: Actor, device: Device, mailbox: Mailbox
) -> None:
    """Both chose how to be reached: what the record that stands says counts."""
    desk = Desk(store, NOW, nurse, posted.clinic.tz)
    other_eye, _ = leaving.discharge(desk, patient_details("T-2"), operation_note(eye="left"), [])
    other = load(store, other_eye, posted.clinic.tz).patient.id
    for id in (other, device.patient_id):
        chosen = outgoing.Choices(email=f"{id}@test.invalid", quiet_from=time(0), quiet_to=time(0))
        outgoing.choose(store, NOW, f"patient:{id}", chosen)
        watch.note(store, NOW, "e-mail", f"patient:{id}", "e-mail: no room")
    look = joining.look(store, device.patient_id, other, posted.clinic.tz)
    joining.join(desk, look, number="one", particulars="one", mark=look.mark)
    mailbox.full = True
    jobs.send_messages(store, posted, NOW)
    assert [fault.about for fault in watch.faults(store)] == [f"patient:{device.patient_id}"]


@pytest.mark.parametrize("end", ["consent", "lock-out", "browser", "follow-up"])
def test_a_fault_that_nobody_can_mend_any_more_leaves_the_list(
    store: Store,
    posted: Settings,
    nurse: Actor,
    device: Device,
    patient: str,
    eye_id: str,
    push_service: PushService,
    end: str,
) -> None:
    push_service.status = 500
    jobs.send_messages(store, posted, ON_A_POSTURE_DAY)
    again = ON_A_POSTURE_DAY + timedelta(minutes=3)
    jobs.send_messages(store, posted, again)
    assert [(f.what, f.about, f.times) for f in watch.faults(store)] == [("push", patient, 2)]
    desk = Desk(store, again, nurse, posted.clinic.tz)
    if end == "consent":
        consenting.take_back(desk, device.patient_id, "patient", "")
    elif end == "lock-out":
        enrol.revoke(desk, device.id)
    elif end == "browser":
        push_service.status = 410
    else:
        following.end(desk, eye_id, "moved", "", closes=[c.id for c in worries.callbacks_of(store, eye_id)])
    for minutes in (20, 120):
        jobs.send_messages(store, posted, again + timedelta(minutes=minutes))
    assert watch.faults(store) == []
    assert [e["action"] for e in audit.of_subject(store, patient)].count("fault dropped") == 1


def test_one_address_that_cannot_be_keeps_nobody_s_mail_back_and_is_named(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    person = f"staff:{nurse.id}"
    row = {"email": "a@[b.c", "language": "", "quiet_from": "00:00:00", "quiet_to": "00:00:00", "unwanted": []}
    kept.keep_choices(store, NOW, person, row)
    measure(store, nurse, eye_id, posted, 62)
    assert jobs.run(store, posted, "messages", NOW) == 1
    assert to(mailbox, "surgeon@test.invalid") == ["A callback needs somebody within the hour"]
    (fault,) = watch.faults(store)
    assert (fault.what, fault.about) == ("e-mail", person)
    assert "b.c" not in fault.words
    assert [named.who for named in watching.named(store)] == ["Nora Nurse"]
    with pytest.raises(ValueError, match="not an e-mail address"):
        outgoing.Choices(email="a@[b.c", quiet_from=time(), quiet_to=time())
    outgoing.choose(store, NOW, person, outgoing.Choices(email="n@test.invalid", quiet_from=time(), quiet_to=time()))
    assert watch.faults(store) == []
    jobs.run(store, posted, "messages", NOW + timedelta(minutes=3))
    assert to(mailbox, "n@test.invalid") == ["A callback needs somebody within the hour"]


def test_a_person_whose_choices_cannot_be_read_ends_nobody_else_s_messages(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, mailbox: Mailbox
) -> None:
    row = {"email": "n@test.invalid", "language": "", "quiet_from": "25:61", "quiet_to": "00:00:00", "unwanted": []}
    kept.keep_choices(store, NOW, f"staff:{nurse.id}", row)
    measure(store, nurse, eye_id, posted, 62)
    assert jobs.run(store, posted, "messages", NOW) == 1
    assert [m["To"] for m in mailbox.letters] == ["surgeon@test.invalid"]
    assert [(f.what, f.about) for f in watch.faults(store)] == [("message", f"staff:{nurse.id}")]


@pytest.mark.parametrize(
    "address", ["", "http://eyes.test.invalid:8000", "https://eyes.test.invalid:8443", "http://[::1]:80"]
)
def test_a_push_goes_out_from_whatever_address_the_clinic_has(
    store: Store, settings: Settings, patient: str, push_service: PushService, address: str
) -> None:
    settings = settings.model_copy(update={"server": settings.server.model_copy(update={"address": address})})
    assert jobs.send_messages(store, settings, ON_A_POSTURE_DAY) == 1
    assert push_service.claims[0]["sub"].startswith("https://")


@pytest.fixture
def hanging(mailbox: Mailbox) -> Iterator[tuple[str, list[int]]]:
    """A push service that takes a connection and never answers; notes how many letters had arrived by then."""
    letters: list[int] = []
    held: list[socket.socket] = []
    with socket.create_server(("127.0.0.1", 0)) as listening:

        def accept() -> None:
            while True:
                try:
                    held.append(listening.accept()[0])
                except OSError:
                    return
                letters.append(len(mailbox.letters))

        thread = threading.Thread(target=accept, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/hangs", letters
        listening.shutdown(socket.SHUT_RDWR)
        thread.join(timeout=10)
    for connection in held:
        connection.close()


def test_push_addresses_that_hang_keep_no_mail_and_no_other_push_waiting(
    store: Store,
    posted: Settings,
    nurse: Actor,
    surgeon: Actor,
    patient: str,
    eye_id: str,
    mailbox: Mailbox,
    push_service: PushService,
    hanging: tuple[str, list[int]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(jobs, "PUSH_SECONDS", 1.0)
    address, letters = hanging
    asked = push_service.subscription()
    for n in range(3):
        hangs = asked.model_copy(update={"endpoint": f"{address}/{n}"})
        outgoing.subscribe(store, NOW - timedelta(days=1), f"staff:{nurse.id}", hangs)
    measure(store, nurse, eye_id, posted, 62, ON_A_POSTURE_DAY)
    jobs.run(store, posted, "messages", ON_A_POSTURE_DAY)
    assert sorted(m["To"] for m in mailbox.letters) == ["nurse@test.invalid", "surgeon@test.invalid"]
    assert set(letters) == {2}  # every letter had arrived before the first push was tried
    assert "A reminder for you" in [t["title"] for t in push_service.took]
    assert [(f.what, f.about, f.words) for f in watch.faults(store)] == [("push", f"staff:{nurse.id}", jobs.TOO_SLOW)]


def test_a_mail_server_that_is_away_keeps_no_push_waiting_and_is_asked_once(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, push_service: PushService
) -> None:
    asked: list[int] = []
    with socket.create_server(("127.0.0.1", 0)) as away:

        def drop() -> None:
            while True:
                try:
                    connection = away.accept()[0]
                except OSError:
                    return
                asked.append(1)
                connection.close()

        thread = threading.Thread(target=drop, daemon=True)
        thread.start()
        update = {"smtp_port": away.getsockname()[1]}
        settings = posted.model_copy(update={"messages": posted.messages.model_copy(update=update)})
        outgoing.subscribe(store, NOW, f"staff:{nurse.id}", push_service.subscription())
        measure(store, nurse, eye_id, settings, 62)
        assert jobs.run(store, settings, "messages", NOW) == 1
        away.shutdown(socket.SHUT_RDWR)
        thread.join(timeout=10)
    assert len(push_service.took) == 1
    assert asked == [1]
    assert {f.about for f in watch.faults(store)} == {f"staff:{nurse.id}", f"staff:{surgeon.id}"}


def test_a_moved_visit_is_told_once_and_then_stands_on_the_list_no_more(
    store: Store, posted: Settings, patient: str, push_service: PushService, nurse: Actor, eye_id: str
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    outgoing.choose(store, NOW, patient, outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted={"posture"}))
    book.move(desk, posted.clinic, week.identity, date(2027, 3, 12))
    jobs.send_messages(store, posted, NOW + timedelta(minutes=4))  # it may still be taken back
    assert push_service.took == []
    assert len(lists.to_tell(store, desk.today)) == 1
    for minutes in (5, 6, 7):
        jobs.send_messages(store, posted, NOW + timedelta(minutes=minutes))
    assert [t["title"] for t in push_service.took] == ["One of your visits has changed"]
    assert lists.to_tell(store, desk.today) == []


@pytest.mark.parametrize("why", ["taken back", "told by phone", "not wanted"])
def test_a_change_of_no_more_use_is_not_told(
    store: Store, posted: Settings, patient: str, push_service: PushService, nurse: Actor, eye_id: str, why: str
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    unwanted = {"posture", "visit"} if why == "not wanted" else {"posture"}
    outgoing.choose(store, NOW, patient, outgoing.Choices(quiet_from=time(0), quiet_to=time(0), unwanted=unwanted))
    version = book.cancel(desk, week.identity, "seen elsewhere")
    if why == "taken back":
        book.undo(desk, version)
    if why == "told by phone":
        book.told(desk, version)
    jobs.send_messages(store, posted, NOW + timedelta(minutes=30))
    assert push_service.took == []
    assert bool(lists.to_tell(store, desk.today)) is (why == "not wanted")  # then somebody phones
