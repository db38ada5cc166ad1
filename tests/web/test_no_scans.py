"""No page that is open all day reads a whole table that grows: asked of SQLite itself (EXPLAIN QUERY PLAN, its documentation)."""

import re
from collections.abc import Iterator
from datetime import timedelta

import pytest
from flask.testing import FlaskClient

from followup import jobs
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.today import arrivals
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, events, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from tests.conftest import NOW, ZONE
from tests.test_jobs import another

# What does not grow with the clinic: people and their settings, what goes wrong now, what waits to be made anew or sent,
# the days of a year.
FEW = {
    "staff", "settings", "protocol_texts", "signatures", "faults", "job_runs", "state_made", "changed_patients",
    "changed_results", "unsaid", "touched", "sqlite_master", "days", "theatre_to_come",
}  # fmt: skip
# Narrow indexes that hold only what is open, waits or is wrong: read in their order as far as a page goes, or counted.
NARROW = {
    "call_states": ("calls_in_order", "calls_counted"),
    "eye_states": ("eyes_unplanned",),
    "listed_waiting": ("listed_waiting_by_day",),
    "events": ("events_off_time",),
    "operation_records": ("records_off_time",),
    "visits": ("visits_off_time",),
    "refused_events": ("refused_by_time",),
    "messages": ("messages_waiting",),
}
SCAN = re.compile(r"SCAN (\w+)(?: USING (?:COVERING )?INDEX (\w+))?$")


@pytest.fixture
def busy(store: Store, settings: Settings, nurse: Actor, surgeon: Actor, eye_id: str) -> str:
    """A clinic with something on every list."""
    for n in range(2, 8):
        other = another(store, nurse, settings, f"T-{n}")
        body = {"visit": "day 1", "words": "later"}
        events.add(store, new_id(), other, "visit-request", NOW, body, "patient:x", NOW)
    jobs.check_all(store, settings, NOW)
    arrivals.arrive(Desk(store, NOW, nurse, ZONE), eye_id, visits.of_eye(store, eye_id)[-1].identity)
    record_visit(Desk(store, NOW, nurse, ZONE), other, [MeasuresBody(eye="right", iop_mmhg=15, instrument="applanation")])
    return eye_id


def scans(store: Store, statement: str) -> Iterator[str]:
    """The tables that grow and that a statement reads from end to end."""
    if not statement.lstrip().upper().startswith(("SELECT", "WITH", "UPDATE", "DELETE", "INSERT")):
        return
    for row in store.db.conn.execute(f"EXPLAIN QUERY PLAN {statement}"):
        found = SCAN.match(row[3])
        if found is None or re.search(rf"\)\s*{found[1]}\b", statement):  # a part of the statement, read as a table
            continue
        name, index = found.groups()
        meant = re.search(rf"\b(?:FROM|JOIN)\s+(\w+)(?:\s+AS)?\s+{name}\b", statement)
        table = meant[1] if meant else name
        if table not in FEW and (index not in NARROW.get(table, ())):
            yield f"{row[3]} ({table}): {' '.join(statement.split())}"


@pytest.mark.parametrize(
    "asked",
    [
        "/api/v1/clinic/daysheet", "/api/v1/clinic/followed",
        "/clinic/", "/clinic/?show=missed&page=2", "/clinic/?show=somebody", "/clinic/?find=pat", "/clinic/?find=14.3.1952",
        "/clinic/callbacks", "/surgeon/", "/surgeon/?part=mine", "/clinic/for-theatre", "/clinic/nothing-planned",
        "/clinic/to-tell", "/clinic/theatre-list", "eye", "call",
    ],
)  # fmt: skip
def test_no_statement_of_a_page_reads_a_whole_table_that_grows(
    store: Store, as_surgeon: FlaskClient, busy: str, asked: str
) -> None:
    call = worries.open_callbacks(store)[0].id
    address = {"eye": f"/clinic/eyes/{busy}", "call": f"/clinic/callbacks/{call}"}.get(asked, asked)
    for _ in range(2):  # with states to be made anew, and without
        statements: list[str] = []
        store.db.conn.set_trace_callback(statements.append)
        assert as_surgeon.get(address, follow_redirects=True).status_code == 200
        store.db.conn.set_trace_callback(None)
        assert len(statements) > 10
        assert [scan for statement in dict.fromkeys(statements) for scan in scans(store, statement)] == []


def test_a_scan_is_seen(store: Store) -> None:
    assert list(scans(store, "SELECT * FROM events e WHERE e.author = 'x'"))
    assert list(scans(store, "SELECT * FROM call_states c WHERE c.patient_id || '' = 'x'"))
    assert not list(scans(store, "SELECT * FROM events e WHERE e.id = 'x'"))


@pytest.mark.parametrize("job", ["check", "escalate", "messages"])
def test_no_statement_of_the_clock_reads_a_whole_table_that_grows(
    store: Store, settings: Settings, busy: str, job: str
) -> None:
    jobs.JOBS[job](store, settings, NOW)  # messages look at everything once an hour
    for minutes in (1, 2):  # after something happened, and in a quiet minute
        statements: list[str] = []
        store.db.conn.set_trace_callback(statements.append)
        jobs.JOBS[job](store, settings, NOW + timedelta(minutes=minutes))
        store.db.conn.set_trace_callback(None)
        assert len(statements) > 1
        assert [scan for statement in dict.fromkeys(statements) for scan in scans(store, statement)] == []
