"""Indexes that hold no more than is looked for by them."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m038_narrow_indexes(db: Database) -> None:
    """An eye’s events and a callback’s steps are read as a whole and put in order then; what corrects or replaces is rare."""
    db.executescript(
        """
        DROP INDEX events_of_eye;
        CREATE INDEX events_of_eye ON events (eye_id);
        DROP INDEX events_corrected;
        CREATE INDEX events_corrected ON events (corrects) WHERE corrects IS NOT NULL;
        DROP INDEX visits_replaced_once;
        CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces) WHERE replaces IS NOT NULL;
        DROP INDEX steps_of_callback;
        CREATE INDEX steps_of_callback ON callback_steps (callback_id);
        DROP INDEX steps_by_kind;
        CREATE INDEX steps_taken_over ON callback_steps (at) WHERE step = 'taken over';
        CREATE INDEX steps_handed_over ON callback_steps (at) WHERE step = 'handed over';
        CREATE TABLE terms (
            term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients, PRIMARY KEY (term, patient_id)
        ) STRICT, WITHOUT ROWID;
        INSERT OR IGNORE INTO terms SELECT term, patient_id FROM patient_terms ORDER BY term, patient_id;
        DROP TABLE patient_terms;
        ALTER TABLE terms RENAME TO patient_terms;
        CREATE INDEX terms_of_patient ON patient_terms (patient_id);
        """
    )
