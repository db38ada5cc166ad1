"""Discharge, enrolment, accounts and signing: what cannot be is refused beside its field, and nothing is stored."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from followup import jobs
from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import changing, leaving, proposal
from followup.care.discharge.note import asks_about
from followup.care.discharge.who import SamePerson, other_particulars
from followup.care.errors import CareError, Conflict, Refused
from followup.care.home import enrol
from followup.care.learning import signing
from followup.care.reading.eye import load, protocol
from followup.care.visits.visit import record_clinic_event
from followup.clinical import schedule
from followup.config import Settings
from followup.protocols import book
from followup.records import Store, audit, eyes, patients, visits, worries
from followup.records.store import new_id
from tests.conftest import NOW, OPERATED, PASSWORD, ZONE, operation_note, patient_details


@pytest.mark.parametrize(
    ("changes", "field", "says"),
    [
        ({"operated_at": NOW + timedelta(hours=1)}, "operated_time", "time of today is still to come"),
        ({"operated_at": NOW + timedelta(days=1)}, "operated_at", "future"),
        ({"agent": "helium"}, "agent", "helium"),
        ({"percent": 120}, "percent", "0 to 100"),
        ({"percent": 0}, "percent", "concentration"),
        ({"fill_percent": 130}, "fill_percent", "0 to 100"),
        ({"fill_percent": 0}, "fill_percent", "how full"),
        ({"baseline": {"acuity": "6/0"}}, "baseline_acuity", "zero"),
        ({"baseline": {"iop_mmhg": 310}}, "baseline_iop", "0 to 90"),
        ({"lens": "glass"}, "fill_percent", "lens"),
        ({"breaks": [{"clock": 13, "reach": "equator"}]}, None, "clock hour"),
        ({"risks": ["luck"]}, None, "risk"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_stored(
    store: Store, nurse: Actor, settings: Settings, changes: dict[str, Any], field: str | None, says: str
) -> None:
    if "lens" in changes:
        field = None
    with pytest.raises(CareError, match=says) as refused:
        leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), operation_note(**changes), [])
    assert field is None or refused.value.field == field
    assert eyes.operated(store) == []
    assert patients.by_number(store, "T-1") is None


@pytest.mark.parametrize(
    ("born", "says"),
    [
        (date(2030, 1, 1), "future"),
        (date(1880, 1, 1), "accepted is 1 January 1900"),
        (date(26, 11, 24), "24 November 0026"),
    ],
)
def test_a_person_who_cannot_be(store: Store, nurse: Actor, settings: Settings, born: date, says: str) -> None:
    person = patient_details().model_copy(update={"born_on": born})
    with pytest.raises(CareError, match=says):
        leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), person, operation_note(), [])


def test_the_proposal_has_visits_on_open_days_plan_forecast_and_cover(store: Store, settings: Settings) -> None:
    places = {date(2027, 3, 3) + timedelta(days=n): 5 for n in range(0, 420, 2)}
    made = proposal.propose(store, operation_note(posture=None), OPERATED + timedelta(hours=5), settings.clinic.tz, places)
    assert [v.name for v in made.visits][:2] == ["day 1", "week 1"]
    assert all(v.target in places for v in made.visits)
    assert made.plan
    assert made.plan.position == "upright"
    assert made.covers[0].name == "upright"
    assert made.cover_lost_day
    assert made.cover_lost_day > made.plan.days
    assert made.forecast.gone


def test_too_strong_a_gas_in_a_full_eye_is_asked_about() -> None:
    assert asks_about(operation_note()) == []
    (strong,) = asks_about(operation_note(agent="c3f8", percent=28))
    assert "28 %" in strong


def test_discharge_keeps_everything_and_leaves_an_audit_entry(store: Store, eye_id: str, settings: Settings) -> None:
    eye = load(store, eye_id, settings.clinic.tz)
    assert (eye.patient.name, eye.operation.agent, eye.operation.baseline_iop_mmhg) == ("Pat Patient", "c2f6", 15)
    assert eye.operation.steroid_drops_until is not None
    assert eye.operation.steroid_drops_until.astimezone(settings.clinic.tz).isoformat() == "2027-03-31T00:00:00+02:00"
    assert [v.name for v in eye.visits] == ["day 1", "week 1"]
    assert "discharge" in [a["action"] for a in audit.of_subject(store, eye_id)]


def test_the_second_eye_joins_the_same_patient(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    second, _ = leaving.discharge(
        Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), operation_note(eye="left"), []
    )
    first_row, second_row = eyes.eye(store, eye_id), eyes.eye(store, second)
    assert first_row
    assert second_row
    assert first_row.patient.id == second_row.patient.id


OTHER = {"name": "Pat Person", "born_on": date(1960, 1, 1), "phone": "", "language": "de"}


@pytest.mark.parametrize("key", OTHER)
def test_a_known_number_with_any_other_particular_is_asked_about(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, key: str
) -> None:
    stranger = patient_details().model_copy(update={key: OTHER[key]})
    before = patients.by_number(store, "T-1")
    for answer in (None, SamePerson("written", "an answer about others"), SamePerson("recorded", "")):
        with pytest.raises(CareError, match="other particulars"):
            leaving.discharge(
                Desk(store, NOW, nurse, settings.clinic.tz), stranger, operation_note(eye="left"), [], same_person=answer
            )
    assert patients.by_number(store, "T-1") == before
    assert len(eyes.operated(store)) == 1


@pytest.mark.parametrize("right", ["written", "recorded"])
def test_the_answer_corrects_or_keeps_and_the_audit_holds_both_sets(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, right: Any
) -> None:
    written = patient_details().model_copy(update=OTHER)
    other = other_particulars(store, written)
    assert other
    answer = SamePerson(right, other.mark)
    leaving.discharge(
        Desk(store, NOW, nurse, settings.clinic.tz), written, operation_note(eye="left"), [], same_person=answer
    )
    known = patients.by_number(store, "T-1")
    assert known
    now = {key: str(getattr(known, key)) for key in OTHER}
    assert now == (other.written if right == "written" else other.recorded)
    entry = next(a for a in audit.of_subject(store, known.id) if a["action"].startswith("particulars"))
    for told in ("Pat Person", "Pat Patient", "1960-01-01", "1952-03-14", "+00 9 876"):
        assert told in entry["detail"]
    assert other_particulars(store, written.model_copy(update=now | {"born_on": known.born_on})) is None


@pytest.mark.parametrize(
    ("changes", "day", "says"),
    [
        ({"operated_at": datetime(26, 11, 24, 12, tzinfo=UTC)}, None, "24 November 0026; accepted is 1 January 1990"),
        ({"operated_at": datetime(1989, 12, 30, tzinfo=UTC)}, None, "accepted is 1 January 1990"),
        ({"drops": [{"name": "steroid", "times_a_day": 1, "until": date(2030, 3, 3)}]}, None, "2 March 2030"),
        ({"drops": [{"name": "steroid", "times_a_day": 1, "until": date(2027, 3, 1)}]}, None, "2 March 2027 to"),
        ({"steroid_drops_until": date(9999, 12, 31)}, None, "31 December 9999"),
        ({}, date(1, 1, 1), "1 January 0001"),
        ({}, date(9999, 12, 31), "31 December 9999"),
        ({}, date(2027, 3, 1), "accepted is 2 March 2027"),
        ({}, date(2030, 3, 3), "to 2 March 2030"),
    ],
)
def test_days_that_cannot_be_after_surgery(
    store: Store, nurse: Actor, settings: Settings, changes: dict[str, Any], day: date | None, says: str
) -> None:
    visits = [schedule.Window("day 1", day, day, day, "")] if day else []
    with pytest.raises(CareError, match=says):
        leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), operation_note(**changes), visits)
    assert eyes.operated(store) == []


def test_the_last_days_that_can_be_are_taken(store: Store, nurse: Actor, settings: Settings) -> None:
    last = date(2030, 3, 2)
    note = operation_note(drops=[{"name": "x", "times_a_day": 1, "until": last}], steroid_drops_until=date(2027, 3, 2))
    visits = [schedule.Window(n, day, day, day, "") for n, day in (("first", date(2027, 3, 2)), ("last", last))]
    leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), note, visits)
    oil = operation_note(operated_at=datetime(2019, 1, 1, tzinfo=UTC), steroid_drops_until=None)
    late = [schedule.Window("oil still in", date(2028, 3, 1), date(2028, 3, 1), date(2028, 3, 5), "")]
    leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details("T-2"), oil, late)
    assert eyes.unreadable(store) == []


def test_a_moved_visit_has_bounds_too(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    (visit, *_) = visits.of_eye(store, eye_id)
    moves = changing.Moves(settings.clinic, {visit.identity: date(26, 11, 24)})
    with pytest.raises(CareError, match="accepted is"):
        changing.change_plan(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, operation_note(), moves)


def test_a_discharge_that_is_confirmed_twice_is_recorded_once(store: Store, nurse: Actor, settings: Settings) -> None:
    id = new_id()
    again: dict[str, Any] = {"operation_id": id}
    made, _ = leaving.discharge(
        Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), operation_note(), [], **again
    )
    assert [note.operation_id for note in eyes.notes_of(store, made)] == [id]
    with pytest.raises(Conflict):
        leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), operation_note(), [], **again)
    assert len(eyes.operated(store)) == 1


def test_a_changed_plan_says_what_changed_and_keeps_the_old_record(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    plan = {"position": "left-cheek", "hours_a_day": 8, "days": 3}
    changed = changing.change_plan(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, operation_note(posture=plan))
    assert [c[0] for c in changed] == ["posture"]
    (note,) = eyes.notes_of(store, eye_id)
    assert len(eyes.history_of(store, note.operation_id)) == 2
    current = load(store, eye_id, settings.clinic.tz).operation.plan
    assert current
    assert current.position == "left-cheek"


def test_a_code_enrols_once(store: Store, discharged: tuple[str, str]) -> None:
    code = discharged[1]
    token = enrol.enrol(store, NOW, f" {code[:4].lower()} {code[4:]}", 1952, "carer", "here")
    device = enrol.device(store, token)
    assert device
    assert device.used_by == "carer"
    assert enrol.device(store, "made up") is None
    with pytest.raises(Refused, match="has been used"):
        enrol.enrol(store, NOW, code, 1952, "patient", "here")


def test_a_code_expires_and_locks_after_wrong_tries(store: Store, nurse: Actor, discharged: tuple[str, str]) -> None:
    with pytest.raises(Refused, match="too old"):
        enrol.enrol(store, OPERATED + timedelta(days=8), discharged[1], 1952, "patient", "here")
    for left in (4, 3, 2, 1, 0):
        with pytest.raises(Refused, match=f"Tries left: {left}"):
            enrol.enrol(store, NOW, discharged[1], 1953, "patient", "here")
    with pytest.raises(Refused, match="locked"):
        enrol.enrol(store, NOW, discharged[1], 1952, "patient", "here")


def test_guessing_codes_is_slowed_down(store: Store, discharged: tuple[str, str]) -> None:
    for _ in range(20):
        with pytest.raises(Refused, match="do not know"):
            enrol.enrolment(store, NOW, "WRONGONE", "1.2.3.4")
    with pytest.raises(Refused, match="Wait one hour"):
        enrol.enrolment(store, NOW, discharged[1], "1.2.3.4")
    assert enrol.enrolment(store, NOW, discharged[1], "5.6.7.8")
    assert enrol.enrolment(store, NOW + timedelta(hours=2), discharged[1], "1.2.3.4")


@pytest.mark.parametrize(
    ("role", "email", "password", "field"),
    [
        ("king", "a@b.c", PASSWORD, "role"),
        ("nurse", "a@b.c", "short", "password"),
        ("nurse", "ab.c", PASSWORD, "email"),
        ("nurse", "nurse@test.invalid", PASSWORD, "email"),
    ],
)
def test_accounts_that_cannot_be(store: Store, nurse: Actor, role: str, email: str, password: str, field: str) -> None:
    with pytest.raises(CareError) as refused:
        accounts.add_staff(store, NOW, "X", role, email, password)
    assert refused.value.field == field


def test_a_signature_holds_for_exactly_that_text(store: Store, nurse: Actor, surgeon: Actor) -> None:
    draft = protocol(store, "rulebook")
    assert draft.is_draft
    with pytest.raises(CareError, match="only a surgeon"):
        signing.sign(Desk(store, NOW, nurse, ZONE), "rulebook", draft.fingerprint)
    signing.sign(Desk(store, NOW, surgeon, ZONE), "rulebook", draft.fingerprint)
    signed = protocol(store, "rulebook")
    assert signed.signature
    assert signed.signature.name == "Sol Surgeon"
    changed = signing.save(Desk(store, NOW, surgeon, ZONE), "rulebook", draft.text.replace("mmhg = 40", "mmhg = 42"))
    assert protocol(store, "rulebook").is_draft
    with pytest.raises(CareError, match="was changed"):
        signing.sign(Desk(store, NOW, surgeon, ZONE), "rulebook", draft.fingerprint)
    signing.sign(Desk(store, NOW, surgeon, ZONE), "rulebook", changed)
    assert not protocol(store, "rulebook").is_draft


def test_a_text_that_cannot_be_used_is_not_kept(store: Store, surgeon: Actor) -> None:
    with pytest.raises(CareError, match="TOML"):
        signing.save(Desk(store, NOW, surgeon, ZONE), "rulebook", "rules = [")
    with pytest.raises(CareError, match="not a part"):
        signing.save(Desk(store, NOW, surgeon, ZONE), "menu", "")


def test_a_change_shows_what_it_would_have_done_to_the_clinics_own_eyes(
    store: Store, eye_id: str, settings: Settings
) -> None:
    text = book.draft_text("rulebook").replace("hours = 36, while_posturing", "hours = 30, while_posturing")
    effects = signing.effects(store, text, NOW, settings.clinic.tz)
    assert [e.patient_name for e in effects] == ["Pat Patient"]
    assert {s.rule for s in effects[0].added} == {s.rule for s in effects[0].dropped} == {"silent-while-posturing"}
    assert signing.effects(store, book.draft_text("rulebook"), NOW, settings.clinic.tz) == []


def test_of_an_operation_that_is_entered_late_no_visit_is_proposed_whose_days_are_over(
    store: Store, settings: Settings
) -> None:
    places = schedule.clinic_days(date(2027, 3, 3), date(2028, 3, 3), dict.fromkeys(range(7), 8))
    note = operation_note(operated_at=NOW - timedelta(days=3))
    made = proposal.propose(store, note, NOW, settings.clinic.tz, places)
    assert made.unplaced["day 1"] == "its last day was 3 March 2027"
    assert "day 1" not in [v.name for v in made.visits]
    assert min(v.latest for v in made.visits) >= NOW.date()


def test_who_is_entered_late_is_waited_for_from_then_on(store: Store, nurse: Actor, settings: Settings) -> None:
    """Nobody could be heard from before: no silence, and no day without posture, from surgery until the phone could be set up."""
    operated = NOW - timedelta(days=2)
    leaving.discharge(Desk(store, NOW, nurse, ZONE), patient_details("T-9"), operation_note(operated_at=operated), [])
    for hours in (1, 30):
        jobs.check_all(store, settings, NOW + timedelta(hours=hours))
        assert [c.worry for c in worries.open_callbacks(store)] == []
    jobs.check_all(store, settings, NOW + timedelta(hours=60))
    assert "silence" in {c.worry for c in worries.open_callbacks(store)}


def test_the_next_patient_is_proposed_no_day_that_the_one_before_has_filled(
    store: Store, nurse: Actor, settings: Settings
) -> None:
    """One place a day, every day: two plans of the same operation share none."""
    desk, places = Desk(store, NOW, nurse, ZONE), {NOW.date() + timedelta(days=n): 1 for n in range(400)}
    first = proposal.propose(store, operation_note(), NOW, ZONE, places)
    leaving.discharge(desk, patient_details("T-8"), operation_note(), first.visits)
    second = proposal.propose(store, operation_note(), NOW, ZONE, places)
    placed = {v.target for v in second.visits if v.name not in second.unplaced}
    assert placed
    assert not placed & {v.target for v in first.visits}


@pytest.mark.parametrize("no_gas_seen", [False, True])
@pytest.mark.parametrize(
    ("changed", "gas_left"),
    [
        ({"agent": "none", "percent": 0, "fill_percent": 0}, False),
        ({"agent": "silicone-oil", "percent": 0}, False),
        ({"agent": "heavy-silicone-oil", "percent": 0}, False),
        ({"agent": "air", "percent": 100}, True),
        ({"agent": "sf6", "percent": 20}, True),
        ({"notes": "a cushion is lent"}, True),
    ],
)
def test_no_plan_lifts_the_caution_of_gas(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, changed: dict[str, Any], *, gas_left: bool,
    no_gas_seen: bool,
) -> None:  # fmt: skip
    """That is done by *no gas seen* alone, which this nurse may not record; what was left is put right in the note, with why."""
    desk, zone = Desk(store, NOW, nurse, settings.clinic.tz), settings.clinic.tz
    if no_gas_seen:
        record_clinic_event(Desk(store, NOW, surgeon, zone), eye_id, "no-gas-seen", {})
    note = operation_note(**changed)
    if gas_left or no_gas_seen:
        assert changing.change_plan(desk, eye_id, note)
    else:
        with pytest.raises(CareError, match="caution") as refused:
            changing.change_plan(desk, eye_id, note)
        assert refused.value.field == "agent"
    assert load(store, eye_id, zone).caution(NOW) is not no_gas_seen
