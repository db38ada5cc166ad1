"""Results counted from the records, against counts by hand and other libraries' curves and intervals."""

import csv
from dataclasses import replace
from datetime import date, datetime, timedelta
from io import StringIO

import pytest
from flask.testing import FlaskClient
from lifelines import KaplanMeierFitter
from scipy.stats import binomtest

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, moving_up, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.learning import results, results_csv
from followup.care.learning.results import Asked
from followup.care.visits import visit
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, audit, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import OPERATED, ZONE, operation_note, patient_details

LATER = OPERATED + timedelta(days=100)
# (surgeon, before, [(day, acuity, pressure, level, findings)]): invented eyes, each for one thing that is counted.
EYES = [
    ("Sol Surgeon", "6/60", [(1, "HM", 34, 90, ()), (60, "6/12", 15, 0, ())]),  # spike, then clearly better
    ("Sol Surgeon", "6/12", [(1, "HM", 18, 90, ()), (20, "HM", 16, 0, ("detached",)), (70, "HM", 14, 0, ())]),
    ("Sol Surgeon", "6/12", [(2, "CF", 20, 85, ())]),  # read through gas only: nothing to compare
    ("Tess Other", "6/12", [(1, "HM", 16, 90, ()), (80, "6/12-2", 32, 0, ())]),  # late pressure, noise in acuity
    ("Tess Other", "6/12", []),  # never seen
]


@pytest.fixture
def clinic(store: Store, nurse: Actor, settings: Settings) -> Store:
    zone = settings.clinic.tz
    for n, (surgeon, before, visits) in enumerate(EYES):
        day = date(2027, 3, 3)
        planned = [schedule.Window("day 1", day, day, day + timedelta(days=1), "pressure")]
        note = operation_note(surgeon=surgeon, baseline={"acuity": before, "iop_mmhg": 15})
        id, _ = leaving.discharge(Desk(store, OPERATED, nurse, zone), patient_details(f"R-{n}"), note, planned)
        for days, seen, iop, level, findings in visits:
            body = MeasuresBody(
                eye="right", acuity=seen, iop_mmhg=iop, instrument="applanation", bubble_percent=level, findings=findings
            )
            at = OPERATED + timedelta(days=days)
            visit.record_visit(Desk(store, at, nurse, zone), id, [body], visit="day 1" if days < 3 else None)
    return store


def test_everything_is_counted_as_by_hand(clinic: Store, settings: Settings) -> None:
    found = results.results(clinic, LATER, settings.clinic.tz)
    assert (found.eyes, found.followed) == (5, 4)
    counts = {
        name: (p.events, p.total) if (p := getattr(found, name)) else None
        for name in ("better", "worse", "spikes", "attended")
    }
    assert counts == {"better": (1, 3), "worse": (1, 3), "spikes": (1, 4), "attended": (4, 5)}
    assert [(p.label, p.value) for p in found.spikes_by_month] == [("2027-03", 0.25)]


def test_the_curve_and_the_intervals_are_those_of_other_libraries(clinic: Store, settings: Settings) -> None:
    found = results.results(clinic, LATER, settings.clinic.tz)
    other = KaplanMeierFitter().fit([60, 20, 2, 80], [False, True, False, False])
    (step,) = found.attached
    assert (step.day, step.at_risk, step.events) == (20, 3, 1)
    assert step.survival == pytest.approx(other.predict(20))
    assert found.spikes is not None
    interval = binomtest(1, 4).proportion_ci(method="wilson")
    assert (found.spikes.low, found.spikes.high) == pytest.approx((interval.low, interval.high), abs=1e-6)


def test_a_surgeon_sees_their_own(clinic: Store, settings: Settings) -> None:
    assert results.surgeons(clinic) == ["Sol Surgeon", "Tess Other"]
    own = results.results(clinic, LATER, settings.clinic.tz, Asked(surgeon="Tess Other"))
    assert (own.eyes, own.followed, own.attached) == (2, 1, [])
    assert own.spikes is not None
    assert (own.spikes.events, own.spikes.total) == (0, 1)


def test_callbacks_are_counted_by_who_was_in_time(clinic: Store, settings: Settings, nurse: Actor) -> None:
    before = results.results(clinic, LATER, settings.clinic.tz)
    calls = len(worries.open_callbacks(clinic))
    assert before.in_time is not None
    assert (before.in_time.events, before.in_time.total, before.hours_to_claim) == (0, calls, None)  # all past their time
    moving_up.escalate_overdue(clinic, LATER)
    for n, found in enumerate(worries.open_callbacks(clinic)[:2]):
        opened: datetime = found.opened_at
        holding.claim(Desk(clinic, opened + timedelta(hours=1 + 2 * n), nurse, ZONE), found.id)
        phone_calls.attempt(
            Desk(clinic, opened + timedelta(hours=9), nurse, ZONE), found.id, "patient", "well", settings.clinic
        )
        settling.settle(Desk(clinic, opened + timedelta(hours=9), nurse, ZONE), found.id, "advice", "", settings.clinic)
    after = results.results(clinic, LATER, settings.clinic.tz)
    assert after.in_time is not None
    assert (after.in_time.events, after.in_time.total, after.hours_to_claim) == (0, calls, 2.0)


def test_a_decision_is_not_an_end_and_what_moved_up_once_was_not_in_time(
    clinic: Store, settings: Settings, nurse: Actor, surgeon: Actor
) -> None:
    late, early = worries.open_callbacks(clinic)[:2]
    calls = len(worries.open_callbacks(clinic))
    for found, hours in ((late, 9), (early, 1)):
        at: datetime = found.opened_at + timedelta(hours=hours)
        if hours > 8:
            moving_up.escalate_overdue(clinic, at)
        task = deciding.decide(Desk(clinic, at, surgeon, ZONE), found.id, "advice", "rest", settings.clinic, owner=nurse.id)
        decided = results.results(clinic, at, settings.clinic.tz).in_time
        assert decided is None or decided.events == 0
        phone_calls.attempt(Desk(clinic, at, nurse, ZONE), found.id, "patient", "", settings.clinic)
        settling.finish(Desk(clinic, at, nurse, ZONE), task.id, "")
    counted = results.results(clinic, LATER, settings.clinic.tz).in_time
    assert counted is not None
    assert (counted.events, counted.total) == (1, calls)


def operated_again(
    clinic: Store, nurse: Actor, number: str, days: int, *, eye: str = "right", **note: object
) -> tuple[str, Desk]:
    """Another operation on an eye of one of the invented patients; the eye's id, and the desk of that day."""
    desk = Desk(clinic, OPERATED + timedelta(days=days), nurse, ZONE)
    known = patient_details(number)
    id, _ = leaving.discharge(
        desk, known, operation_note(eye=eye, operated_at=desk.now, **{"drops": [], "steroid_drops_until": None, **note}), []
    )
    return id, desk


def looked_at(desk: Desk, eye_id: str, days: int, *findings: str) -> None:
    body = MeasuresBody(eye="right", acuity="6/24", iop_mmhg=15, instrument="applanation", findings=findings)
    visit.record_visit(replace(desk, now=OPERATED + timedelta(days=days)), eye_id, [body])


def test_an_eye_operated_again_counts_once_for_each_operation_and_once_in_the_end(clinic: Store, nurse: Actor) -> None:
    eye_id, desk = operated_again(clinic, nurse, "R-1", 75, surgeon="Tess Other")
    looked_at(desk, eye_id, 95)
    found = results.results(clinic, LATER, ZONE)
    assert (found.eyes, found.operations, found.followed) == (5, 6, 5)
    other = KaplanMeierFitter().fit([60, 20, 2, 80, 20], [False, True, False, False, False])
    (step,) = found.attached
    assert (step.day, step.at_risk, step.survival) == (20, 4, pytest.approx(other.predict(20)))
    ends = (found.once, found.finally_attached)
    assert [(p.events, p.total) if p else None for p in ends] == [(0, 1), (1, 1)]  # the others were not followed for 90 days
    tess = results.listed(clinic, LATER, ZONE, Asked(surgeon="Tess Other"))
    assert [one.operation.surgeon for one in tess] == ["Tess Other"] * 3


def test_an_eye_with_oil_is_not_attached_on_its_own_until_the_oil_is_out(clinic: Store, nurse: Actor) -> None:
    note = {"agent": "silicone-oil", "percent": 0}
    eye_id, desk = operated_again(clinic, nurse, "R-9", 0, **note)
    looked_at(desk, eye_id, 95)
    oily = Asked(agent="silicone-oil")
    before = results.results(clinic, LATER, ZONE, oily)
    assert (before.followed, before.under_liquid) == (0, 0)
    states = (before.once, before.finally_attached, before.liquid_left)
    assert [(p.events, p.total) if p else None for p in states] == [(0, 1), (0, 1), (1, 1)]
    looked_at(desk, eye_id, 96, "detached")
    assert results.results(clinic, LATER, ZONE, oily).under_liquid == 1

    other_id, other = operated_again(clinic, nurse, "R-8", 0, **note)
    visit.record_clinic_event(replace(other, now=OPERATED + timedelta(days=60)), other_id, "tamponade-removed", {})
    looked_at(other, other_id, 95)
    after = results.results(clinic, LATER, ZONE, oily)
    told = [one.operation for one in results.listed(clinic, LATER, ZONE, oily)]
    assert [(o.days_followed, o.detached) for o in told if o.eye_id == other_id] == [(35, False)]
    assert after.once is not None
    assert (after.once.events, after.once.total) == (1, 2)


def test_operations_are_chosen_by_what_was_done_and_when(clinic: Store, nurse: Actor) -> None:
    operated_again(clinic, nurse, "R-7", 40, indication="macular-hole", agent="sf6", percent=20)
    day = (OPERATED + timedelta(days=40)).astimezone(ZONE).date()
    for asked, count in (
        (Asked(), 6),
        (Asked(indication="macular-hole"), 1),
        (Asked(agent="sf6"), 1),
        (Asked(first_day=day), 1),
        (Asked(first_day=day + timedelta(days=1)), 0),
        (Asked(last_day=day - timedelta(days=1)), 5),
    ):
        assert results.results(clinic, LATER, ZONE, asked).operations == count, asked


def test_the_table_has_a_row_for_each_operation_without_names_and_is_put_on_record(
    as_surgeon: FlaskClient, clinic: Store, nurse: Actor, surgeon: Actor
) -> None:
    operated_again(clinic, nurse, "=1+1", 40, surgeon="Sol Surgeon")
    told = results_csv.table(Desk(clinic, LATER, surgeon, ZONE), Asked(surgeon="Sol Surgeon"))
    rows = list(csv.DictReader(StringIO(told)))
    assert [row["hospital_number"] for row in rows] == ["R-0", "R-1", "R-2", "'=1+1"]
    assert rows[1]["found_detached"] == (OPERATED + timedelta(days=20)).date().isoformat()
    assert rows[0]["highest_pressure_14_days_mmhg"] == "34"
    assert "Pat Patient" not in told
    answer = as_surgeon.get("/surgeon/results.csv?surgeon=Sol+Surgeon")
    assert (answer.status_code, answer.mimetype, len(answer.text.splitlines())) == (200, "text/csv", 4)
    assert [entry["action"] for entry in audit.of_subject(clinic, "results")] == ["results exported"] * 2


def test_what_is_asked_wrongly_is_said_beside_the_field(as_surgeon: FlaskClient, clinic: Store) -> None:
    for address in ("/surgeon/results", "/surgeon/results.csv"):
        answer = as_surgeon.get(f"{address}?first_day=2027-03-05&last_day=2027-03-01")
        assert answer.status_code == 400
        assert "the last day comes before the first" in answer.text


def test_the_page_is_the_surgeons(as_nurse: FlaskClient, as_surgeon: FlaskClient, clinic: Store) -> None:
    assert as_nurse.get("/surgeon/results").status_code == 403
    page = as_surgeon.get("/surgeon/results").text
    assert "3 eyes on record" in page  # her own, by her name
    assert "Small numbers have wide intervals" in page
    everybody = as_surgeon.get("/surgeon/results?surgeon=").text
    assert "5 eyes on record" in everybody
    assert "1 of 4" in everybody


def test_a_new_clinic_has_no_results_and_says_so(as_surgeon: FlaskClient, store: Store) -> None:
    page = as_surgeon.get("/surgeon/results").text
    assert "0 eyes on record" in page
    assert page.count("Not recorded yet.") == 2
