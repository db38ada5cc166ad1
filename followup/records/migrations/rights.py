"""Operations of a theatre list that wait for their discharge, and what patients consented to."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m032_rights(db: Database) -> None:
    """A listed operation waits until an operation of its id is on record, or somebody puts it aside and says why.

    Of a patient's consents to one thing the latest counts; `given` 0 takes it back.
    """
    db.executescript(
        """
        CREATE TABLE listed_operations (
            id TEXT PRIMARY KEY, number TEXT NOT NULL, name TEXT NOT NULL, operated_on TEXT NOT NULL, eye TEXT NOT NULL,
            body TEXT NOT NULL, source TEXT NOT NULL, listed_by TEXT NOT NULL, listed_at TEXT NOT NULL,
            put_aside_at TEXT, put_aside_by TEXT, put_aside_why TEXT NOT NULL DEFAULT ''
        ) STRICT;
        CREATE INDEX listed_by_day ON listed_operations (operated_on);
        CREATE TABLE consents (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, at TEXT NOT NULL, what TEXT NOT NULL,
            given INTEGER NOT NULL CHECK (given IN (0, 1)), said_by TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
        CREATE INDEX consents_of_patient ON consents (patient_id, what, at);
        """
    )
    for verb in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER consents_keeps_{verb.lower()} BEFORE {verb} ON consents "
            f"BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END"
        )
