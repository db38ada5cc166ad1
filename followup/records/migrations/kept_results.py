"""What each operated eye contributes to the results, kept so that the page of results adds up rows and reads no eye."""

from sqlite_utils import Database

from followup.records.migrations.registry import steps


@steps()
def m033_kept_results(db: Database) -> None:
    """None of this is a fact. Whoever makes a patient's state anew writes the patient into `changed_results`.

    What is kept of an eye holds for every time from `since` until just before `until`; empty for ever.
    """
    db.executescript(
        """
        CREATE TABLE changed_results (patient_id TEXT PRIMARY KEY, version TEXT NOT NULL) STRICT, WITHOUT ROWID;
        CREATE TABLE eye_results (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, since TEXT, until TEXT,
            operated_at TEXT NOT NULL, state TEXT, once INTEGER, last_logmar REAL,
            visits INTEGER NOT NULL, visits_seen INTEGER NOT NULL, calls INTEGER NOT NULL, calls_in_time INTEGER NOT NULL,
            hours_to_claim TEXT NOT NULL
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX eye_results_of_patient ON eye_results (patient_id);
        CREATE INDEX eye_results_since ON eye_results (since) WHERE since IS NOT NULL;
        CREATE INDEX eye_results_until ON eye_results (until) WHERE until IS NOT NULL;
        CREATE TABLE operation_results (
            operation_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, number INTEGER NOT NULL,
            surgeon TEXT NOT NULL, agent TEXT NOT NULL, indication TEXT NOT NULL, day TEXT NOT NULL,
            counted_from TEXT, last_look TEXT, detached_at TEXT, days_followed REAL, detached INTEGER,
            under_liquid INTEGER NOT NULL, highest_early_mmhg REAL, before_logmar REAL, sight TEXT
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX operation_results_of_patient ON operation_results (patient_id);
        CREATE INDEX operation_results_of_eye ON operation_results (eye_id, number);
        CREATE INDEX operation_results_by_surgeon ON operation_results (surgeon, day);
        INSERT INTO changed_results SELECT id, 'new' FROM patients;
        """
    )
