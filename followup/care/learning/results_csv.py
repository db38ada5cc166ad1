"""The operations behind the results as a table for a spreadsheet: hospital numbers, no names."""

import csv
from collections.abc import Iterator
from datetime import datetime
from io import StringIO

from followup.care.desk import Desk
from followup.care.learning.results import Asked, listed
from followup.records.values import ListedResult

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
    found = list(listed(desk.store, desk.now, desk.zone, asked))
    out = StringIO()
    rows = csv.writer(out)
    rows.writerow(COLUMNS)
    rows.writerows(_row(one, desk) for one in found)
    desk.note("results exported", "results", {"rows": len(found)})
    return out.getvalue()


def _row(one: ListedResult, desk: Desk) -> Iterator[str]:
    operation = one.operation
    yield _plain(one.patient_number)
    yield one.side
    yield operation.day.isoformat()
    yield _plain(operation.surgeon)
    yield operation.indication
    yield operation.agent
    yield _day(operation.counted_from, desk)
    yield _day(operation.last_look, desk)
    yield _day(operation.detached_at, desk)
    yield one.state or ""
    yield {True: "yes", False: "no", None: ""}[one.once]
    yield _logmar(operation.before_logmar)
    yield _logmar(one.last_logmar)
    yield "" if operation.highest_early_mmhg is None else f"{operation.highest_early_mmhg:g}"


def _plain(text: str) -> str:
    """Text that a spreadsheet does not take for a formula."""
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t", "\r")) else text


def _day(at: datetime | None, desk: Desk) -> str:
    return at.astimezone(desk.zone).date().isoformat() if at else ""


def _logmar(seen: float | None) -> str:
    return "" if seen is None else f"{seen:.2f}"
