"""The operations behind the results as a table for a spreadsheet: hospital numbers, no names."""

import csv
from collections.abc import Iterator
from datetime import datetime
from io import StringIO

from followup.care.desk import Desk
from followup.care.learning.results import Asked, Operated, results
from followup.clinical.vision import Acuity

COLUMNS = (
    "hospital_number",
    "eye",
    "operated_on",
    "surgeon",
    "indication",
    "tamponade",
    "counted_from",
    "last_look",
    "found_detached",
    "state_at_last_look",
    "attached_after_one_operation",
    "acuity_before_logmar",
    "acuity_last_logmar",
    "highest_pressure_14_days_mmhg",
)


def table(desk: Desk, asked: Asked) -> str:
    """The table as CSV (RFC 4180); the times are the clinic's days. Puts on record that it was taken out."""
    found = results(desk.store, desk.now, desk.zone, asked)
    out = StringIO()
    rows = csv.writer(out)
    rows.writerow(COLUMNS)
    rows.writerows(_row(operated, desk) for operated in found.operations)
    with desk.store.transaction():
        desk.note("results exported", "results", {"rows": len(found.operations)})
    return out.getvalue()


def _row(operated: Operated, desk: Desk) -> Iterator[str]:
    eye, after, end = operated.eye, operated.after, operated.course.end
    yield _plain(eye.patient.number)
    yield eye.side
    yield _day(after.operation.at, desk)
    yield _plain(operated.note.surgeon)
    yield after.operation.indication
    yield after.operation.agent
    yield _day(after.counted_from, desk)
    yield _day(after.last_look, desk)
    yield _day(after.detached_at, desk)
    yield end.state if end else ""
    yield {True: "yes", False: "no"}[end.once] if end else ""
    yield _logmar(after.operation.baseline_acuity)
    yield _logmar(operated.course.last)
    yield "" if after.highest_early_mmhg is None else f"{after.highest_early_mmhg:g}"


def _plain(text: str) -> str:
    """Text that a spreadsheet does not take for a formula."""
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t", "\r")) else text


def _day(at: datetime | None, desk: Desk) -> str:
    return at.astimezone(desk.zone).date().isoformat() if at else ""


def _logmar(seen: Acuity | None) -> str:
    return "" if seen is None or seen.logmar is None else f"{seen.logmar:.2f}"
