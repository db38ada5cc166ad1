"""The patient and the eye stand above the operation."""

from collections.abc import Iterator
from typing import Any

import uuid_utils
from sqlite_utils import Database

from followup.records.migrations.registry import steps

_BELONG_TO_AN_EYE = ("visits", "events", "looks", "warnings", "callbacks", "tasks", "refused_events")


@steps()
def m020_two_eyes(db: Database) -> None:
    """What belonged to one operation belongs to its eye from now on; a patient has two, operated or not.

    An eye keeps the id of its first operation, so that phones and earlier rows go on naming it.
    """
    held = _without_guards(db, ("visits", "events", "looks", "warnings", "refused_events", "operation_records"))
    db.execute("PRAGMA defer_foreign_keys = ON")
    db.execute("ALTER TABLE operations RENAME TO eyes")  # what pointed at an operation points at an eye
    for table in _BELONG_TO_AN_EYE:
        db.execute(f"ALTER TABLE {table} RENAME COLUMN operation_id TO eye_id")
    for column in (
        "side TEXT CHECK (side IN ('right', 'left'))",
        "followed_since TEXT",
        "end_reason TEXT",
        "joined_into TEXT REFERENCES eyes",
    ):
        db.execute(f"ALTER TABLE eyes ADD COLUMN {column}")
    _operations_of_eyes(db)
    _both_eyes(db)
    _measures_where_they_were_measured(db)
    for table, name in (("events", "events_of"), ("visits", "visits_of"), ("looks", "looks_of")):
        db.execute(f"DROP INDEX {name}_operation")
        db.execute(f"CREATE INDEX {name}_eye ON {table} (eye_id{'' if table == 'visits' else ', at'})")
    db.execute("DROP INDEX operations_of_patient")
    db.execute("CREATE UNIQUE INDEX eyes_of_patient ON eyes (patient_id, side)")
    db.execute("ALTER TABLE events ADD COLUMN reason TEXT NOT NULL DEFAULT ''")
    _new_tables(db)
    for guard in held:
        db.execute(guard)
    _bounds_of_visits(db)


def _without_guards(db: Database, tables: tuple[str, ...]) -> list[str]:
    """Take the guards of append-only tables off while their rows are moved; returns how to put them back."""
    marks = ", ".join("?" for _ in tables)
    sql = f"SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name IN ({marks}) ORDER BY name"
    guards = [(str(name), str(made)) for name, made in db.execute(sql, tables)]
    for name, _ in guards:
        db.execute(f"DROP TRIGGER {name}")
    return [made for name, made in guards if name != "visits_bounds_visit"]


def _operations_of_eyes(db: Database) -> None:
    """A table of operations under the eyes; records of operations point at it."""
    db.executescript(
        """
        CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
        CREATE TABLE new_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, reason TEXT NOT NULL DEFAULT ''
        ) STRICT;
        INSERT INTO new_records SELECT id, operation_id, eye, operated_at, agent, surgeon, body, recorded_by, recorded_at, ''
            FROM operation_records;
        """
    )
    first_on_side: dict[tuple[str, str], str] = {}
    for id, patient_id, created_at, ended_at, side in _as_it_was(db):
        eye_id = first_on_side.setdefault((patient_id, side), id)
        db.execute("INSERT INTO operations VALUES (?, ?, ?)", (id, eye_id, created_at))
        if eye_id == id:
            db.execute("UPDATE eyes SET side = ?, followed_since = created_at WHERE id = ?", (side, id))
        else:
            _merge(db, id, eye_id, ended_at)
    db.executescript(
        """
        DROP TABLE operation_records;
        ALTER TABLE new_records RENAME TO operation_records;
        CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
        CREATE INDEX operations_of_eye ON operations (eye_id);
        UPDATE eyes SET end_reason = 'finished' WHERE ended_at IS NOT NULL;
        """
    )


def _as_it_was(db: Database) -> Iterator[tuple[str, str, str, Any, str]]:
    """Each former operation with the side of its latest record, oldest first."""
    sql = """
        SELECT e.id, e.patient_id, e.created_at, e.ended_at, coalesce((SELECT r.eye FROM operation_records r
            WHERE r.operation_id = e.id ORDER BY r.recorded_at DESC, r.id DESC LIMIT 1), 'right')
        FROM eyes e ORDER BY e.created_at, e.id
    """
    yield from list(db.execute(sql))


def _merge(db: Database, second: str, eye_id: str, ended_at: Any) -> None:
    """A later operation on the same eye: what was recorded under it moves to the eye, and nothing is lost."""
    for table in _BELONG_TO_AN_EYE:
        db.execute(f"UPDATE OR IGNORE {table} SET eye_id = ? WHERE eye_id = ?", (eye_id, second))
    (nth,) = db.execute("SELECT count(*) FROM operations WHERE eye_id = ?", (eye_id,)).fetchone()
    mark = f" (operation {nth})"
    for table, column in (("warnings", "rule"), ("callbacks", "worry")):  # where the eye has the same one already
        db.execute(f"UPDATE {table} SET eye_id = ?, {column} = {column} || ? WHERE eye_id = ?", (eye_id, mark, second))
    # Followed while one of its operations is, else until the last end: the greatest of a NULL and a time is NULL.
    db.execute("UPDATE eyes SET ended_at = max(ended_at, ?) WHERE id = ?", (ended_at, eye_id))
    db.execute("DELETE FROM eyes WHERE id = ?", (second,))


def _both_eyes(db: Database) -> None:
    """The eye that was not operated, for every patient."""
    sql = """
        SELECT p.id, p.created_at, s.side FROM patients p, (SELECT 'right' AS side UNION ALL SELECT 'left') s
        WHERE NOT EXISTS (SELECT 1 FROM eyes e WHERE e.patient_id = p.id AND e.side = s.side)
    """
    for patient_id, created_at, side in list(db.execute(sql)):
        row = (str(uuid_utils.uuid7()), patient_id, created_at, side)
        db.execute("INSERT INTO eyes (id, patient_id, created_at, side) VALUES (?, ?, ?, ?)", row)


def _measures_where_they_were_measured(db: Database) -> None:
    """Measures of the other eye that were entered on an operated eye's page move to the eye they were measured on.

    What took them back moves with them.
    """
    db.execute(
        """
        UPDATE events SET eye_id = (
            SELECT other.id FROM eyes e JOIN eyes other ON other.patient_id = e.patient_id AND other.side != e.side
            WHERE e.id = events.eye_id)
        WHERE kind = 'measures' AND json_valid(body) AND json_extract(body, '$.eye') IN ('right', 'left')
        AND json_extract(body, '$.eye') != (SELECT side FROM eyes WHERE id = events.eye_id)
        """
    )
    db.execute(
        """
        UPDATE events SET eye_id = coalesce((SELECT c.eye_id FROM events c WHERE c.id = events.corrects), eye_id)
        WHERE kind = 'withdrawal'
        """
    )


def _new_tables(db: Database) -> None:
    """Ends and beginnings of follow-up, warnings whose cause was put right, joined patients, and terms to find people by."""
    db.executescript(
        """
        CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
        CREATE INDEX follow_ups_of_eye ON follow_ups (eye_id, at);
        CREATE TABLE unfounded_warnings (
            warning_id TEXT PRIMARY KEY REFERENCES warnings, event_id TEXT NOT NULL REFERENCES events, at TEXT NOT NULL
        ) STRICT;
        ALTER TABLE patients ADD COLUMN joined_into TEXT REFERENCES patients;
        CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
        CREATE INDEX patient_by_term ON patient_terms (term, patient_id);
        CREATE INDEX terms_of_patient ON patient_terms (patient_id);
        CREATE INDEX patients_by_birth ON patients (born_on);
        """
    )
    for table in ("follow_ups", "unfounded_warnings"):
        for verb in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_keeps_{verb.lower()} BEFORE {verb} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only: record a correction instead'); END"
            )


def _bounds_of_visits(db: Database) -> None:
    """As before, from the eye's first operation to three years after its last."""
    dated = "[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]"
    records = "operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id"

    def no_date(column: str) -> str:
        return f"NEW.{column} NOT GLOB '{dated}' OR date(NEW.{column}, '+0 days') IS NOT NEW.{column}"

    db.execute(
        f"""
        CREATE TRIGGER visits_bounds_visit BEFORE INSERT ON visits WHEN
            {no_date("target")} OR {no_date("earliest")} OR {no_date("latest")}
            OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10)
            OR min(NEW.target, NEW.earliest, NEW.latest) < date((SELECT min(r.operated_at) FROM {records}), '-1 day')
            OR max(NEW.target, NEW.earliest, NEW.latest) > max(
                date((SELECT max(r.operated_at) FROM {records}), '+3 years', '+1 day'),
                date(NEW.recorded_at, '+1 year', '+1 day'))
        BEGIN SELECT RAISE(ABORT, 'visits: visits lie within three years after surgery'); END
        """
    )
